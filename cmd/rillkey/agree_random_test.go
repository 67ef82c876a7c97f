//go:build unix

package main

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"testing"
	"time"

	"rillkey/key/keytest"
	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// Random visits (two hundred where .ci/run makes them), with names too broad, animals set aside, second
// looks, corrections, samples sorted in part and trays not sorted at all, count the
// same in grade, CSV, SQL, Darwin Core, report and lists.
func TestRandomVisitsCountTheSameEverywhere(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	n := keytest.Thoroughly(200, 50)
	catalog, rules := protocolsHere(t)
	var protocols []string
	for _, p := range rules.Protocols() {
		protocols = append(protocols, p.ID)
	}
	dir := t.TempDir()
	var files []string
	for i := range n {
		m := &maker{t: t, random: rand.New(rand.NewPCG(uint64(i), 7)), taxa: catalog.Taxa()}
		file := filepath.Join(dir, fmt.Sprintf("%03d.visit.toml", i))
		if err := m.visit(i, protocols[i%len(protocols)]).WriteNew(file, 0o644); err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	sameEverywhere(t, dir, files...)
}

// maker makes visits.
type maker struct {
	t      *testing.T
	random *rand.Rand
	taxa   []*taxa.Taxon
	v      *visit.Visit
}

func (m *maker) add(b visit.Body) string {
	if err := m.v.Conclude("Oona", b); err != nil {
		m.t.Fatal(err)
	}
	return m.v.Events[len(m.v.Events)-1].ID
}

func (m *maker) taxon() string { return m.taxa[m.random.IntN(len(m.taxa))].ID }

func (m *maker) visit(i int, protocol string) *visit.Visit {
	begun := time.Date(2025, 5, 1, 9, 0, 0, 0, time.UTC).AddDate(0, 0, i)
	m.v = &visit.Visit{Header: visit.Header{
		ID: fmt.Sprintf("visit%03d", i), Site: fmt.Sprint("Brook ", i), Date: begun.Format(time.DateOnly),
		People: []string{"Oona"}, Protocol: protocol, Begun: begun}}
	samples := 1 + m.random.IntN(5)
	for s := range samples {
		body := visit.Sample{Label: fmt.Sprint(s + 1), Habitat: "riffle", Area: 0.37}
		if m.random.IntN(4) == 0 {
			body.Fraction = 0.25
		}
		if m.random.IntN(6) > 0 {
			body.Said = visit.Sorted
		}
		m.add(body)
	}
	m.add(visit.Conditions{Values: condition.Values{
		"water-temperature": {Number: float64(m.random.IntN(25)), Instrument: "strips"}, "sky": {Text: "rain"},
		"bed": {Parts: []condition.CategoryShare{{Word: "sand", Percent: 100}}}, "trained": {List: []string{"Oona"}},
		"begun": {Text: "09:30"}}})
	var ids []string
	for range m.random.IntN(12) {
		ids = append(ids, m.add(m.animals(samples)))
	}
	for _, id := range ids {
		m.afterthought(id)
	}
	if m.random.IntN(2) == 0 {
		m.add(visit.Finish{})
	}
	return m.v
}

// animals are some of one sample: named closely or broadly, with what they may be
// or without, or set aside.
func (m *maker) animals(samples int) visit.Identification {
	d := visit.Identification{Sample: fmt.Sprint(1 + m.random.IntN(samples)), Taxon: m.taxon(), Count: 1 + m.random.IntN(40),
		Confidence: 0.9}
	for range m.random.IntN(3) {
		d.Possible = append(d.Possible, m.taxon())
	}
	switch m.random.IntN(8) {
	case 0:
		d.Taxon, d.Undecided, d.Confidence = "", true, 0
	case 1:
		d.Taxon = "coleoptera"
		d.Possible = []string{"dytiscidae", "gyrinidae"}
	case 2:
		d.Taxon = "diptera"
	}
	return d
}

// afterthought is what people say of a record later.
func (m *maker) afterthought(id string) {
	count, to := 1+m.random.IntN(9), m.taxon()
	switch m.random.IntN(8) {
	case 0:
		m.add(visit.Amendment{Entry: id, Reason: "counted again", Change: visit.Change{Count: &count}})
	case 1:
		m.add(visit.Amendment{Entry: id, Reason: "another name", Change: visit.Change{Taxon: &to}})
	case 2:
		m.add(visit.Amendment{Entry: id, Reason: "a twig", Withdrawn: true})
	case 3:
		m.add(visit.SecondLook{Entry: id, Taxon: to, Confidence: 0.8})
	}
}

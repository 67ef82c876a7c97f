// Package visittest makes large invented visits, always the same for the same
// arguments, to measure and test what grows with the number of records.
package visittest

import (
	"fmt"
	"math/rand/v2"
	"time"

	"rillkey/scoring/visit"
	"rillkey/scoring/visit/internal/replays"
)

// samples is in how many samples the records of an invented visit lie.
const samples = 3

// MixedRecords is a visit with so many records of the taxa: sure ones, ones that may be
// another taxon, ones that could not be told from a few others, and a tenth set aside.
func MixedRecords(protocol string, taxa []string, records int) *visit.Visit {
	v := begun(protocol)
	random := rand.New(rand.NewPCG(uint64(records), 1))
	some := func(n int) (out []string) {
		for _, i := range random.Perm(len(taxa))[:min(n, len(taxa))] {
			out = append(out, taxa[i])
		}
		return out
	}
	for i := range records {
		names := some(2 + random.IntN(6))
		id := visit.Identification{Taxon: names[0], Count: 1 + random.IntN(20), Confidence: 0.5 + float64(random.IntN(50))/100}
		switch kind := random.IntN(10); {
		case kind == 0:
			id.Taxon, id.Confidence, id.Undecided, id.Possible = "", 0, true, names
		case kind < 4:
			id.Also = []visit.Chance{{Taxon: names[1], Probability: 1 - id.Confidence}}
		case kind < 6:
			id.Possible = names
		default:
			id.Confidence = 1
		}
		record(v, i, id)
	}
	return v
}

// AllSetAside is a visit whose records were all set aside, each of which may be so many
// of the taxa, beginning with another.
func AllSetAside(protocol string, taxa []string, records, possible int) *visit.Visit {
	v := begun(protocol)
	for i := range records {
		id := visit.Identification{Count: 1, Undecided: true}
		for j := range min(possible, len(taxa)) {
			id.Possible = append(id.Possible, taxa[(i+j)%len(taxa)])
		}
		record(v, i, id)
	}
	return v
}

func begun(protocol string) *visit.Visit {
	at := time.Date(2026, 5, 16, 10, 0, 0, 0, time.UTC)
	v := &visit.Visit{Header: visit.Header{
		ID: "vlargevs", Site: "Long Shoal", Date: "2026-05-16", Protocol: protocol, People: []string{"Oona"}, CautionsRead: true, Begun: at,
	}}
	for i := range samples {
		add(v, visit.Sample{Label: fmt.Sprint(i + 1), Habitat: "riffle", Area: 0.37, Said: visit.Sorted})
	}
	return v
}

func record(v *visit.Visit, i int, id visit.Identification) {
	id.Sample, id.Cell = fmt.Sprint(1+i%samples), fmt.Sprintf("%c%d", 'A'+i%3, 1+i%4)
	add(v, id)
}

func add(v *visit.Visit, b visit.Body) {
	n := len(v.Events)
	v.Events = append(v.Events, visit.Event{
		ID: fmt.Sprintf("e%07d", n), Time: v.Header.Begun.Add(time.Duration(n) * time.Second), Who: "Oona", Body: b})
}

// Replays is how often any visit was replayed in this process: into a tally, and to judge
// whether an entry fits that is about to be written.
func Replays() (tallied, judged int64) { return replays.Tallied.Load(), replays.Admitted.Load() }

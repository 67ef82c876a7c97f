package paper

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/condition"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// done says how the visit was done.
func (w *reporting) done() {
	w.Section(wording.Text("How it was done"))
	basis := w.Grade.Protocol
	w.Text("", wording.Sprintf("Protocol: %s. Samples: %d taken, %d required, %d of the required ones sorted; the effort is %s.",
		basis.Title, w.Grade.Effort.Taken, w.Grade.Effort.Required, w.Grade.Effort.Sorted,
		map[bool]string{true: wording.Text("complete"), false: wording.Text("not complete")}[w.Grade.Effort.Complete]))
	if p, err := w.Rules.Protocol(basis.ID); err == nil && p.Note != "" {
		w.Text("", plain.Printable(p.Note))
	}
	var rows [][]string
	for _, s := range w.tally.Samples {
		rows = append(rows, []string{plain.Printable(s.Label), cmp.Or(plain.Printable(scheme.HabitatWords(s.Habitat)), notNoted()), area(s),
			show.SortedWords(s.Sample, s.State),
			cmp.Or(plain.Printable(s.Effort), notNoted()), fmt.Sprint(w.inSample(s.Label))})
	}
	if len(rows) > 0 {
		w.table(dense(rows)+" wide", wording.Text("The samples"),
			[]string{wording.Text("sample"), wording.Text("habitat"), wording.Text("stream bed sampled"), wording.Text("sorted"),
				wording.Text("net, mesh and effort, as noted"), wording.Text("animals")}, rows)
	}
	w.conditions()
	w.List("", append(w.Grade.Effort.Remarks, w.people(), w.where()))
	if !w.tally.Finished {
		w.Text("", wording.Text("Before the group goes home:"))
		w.List("", show.GoingHome(w.tally, w.Catalog.Region(), ""))
	}
	w.End()
}

// conditions are what was noted of stream and day, or that nothing was.
func (w *reporting) conditions() {
	var rows [][]string
	w.tally.Conditions().Each(func(f *condition.Parameter, v condition.Value) {
		if f.Form == condition.PersonsForm && !w.People {
			rows = append(rows, []string{f.Title, plain.CountOf(len(v.List), "person", "people"), ""})
			return
		}
		rows = append(rows, []string{f.Title, plain.Printable(f.Words(v)), plain.Printable(v.Instrument)})
	})
	if len(rows) == 0 {
		w.Text("", wording.Text("Weather, water and bed were not noted, so nobody can tell how far they moved the animals."))
		return
	}
	w.table(dense(rows)+" wide", wording.Text("Stream and day"),
		[]string{wording.Text("noted"), wording.Text("value"), wording.Text("with")}, rows)
}

func notNoted() string { return wording.Text("not noted") }

func area(s visit.Taken) string {
	if s.Area == 0 {
		return notNoted()
	}
	return show.Area(s.Area)
}

func (w *reporting) inSample(label string) (n int) {
	for _, rec := range w.tally.Records {
		if rec.Sample == label {
			n += rec.Count
		}
	}
	return n
}

func (w *reporting) people() string {
	people := w.Account.Visit.Header.People
	switch {
	case len(people) == 0:
		return wording.Text("Nobody noted who took part.")
	case w.People:
		return wording.Sprintf("Taken part: %s.", plain.Printable(strings.Join(people, ", ")))
	case len(people) == 1:
		return wording.Text("1 person took part.")
	}
	return wording.Sprintf("%d people took part.", len(people))
}

func (w *reporting) where() string {
	s := w.Account.Visit.Header.Spot
	if s == nil {
		return wording.Text("The place on the map is not noted.")
	}
	text := wording.Sprintf("Place: latitude %s, longitude %s (WGS 84)", plain.FormatFloat(s.Latitude), plain.FormatFloat(s.Longitude))
	if s.Uncertainty > 0 {
		text += wording.Sprintf(", within %.0f m", s.Uncertainty)
	}
	if w.Account.Visit.Obscured() {
		text += wording.Text("; it is kept from others and given on purpose only roughly")
	}
	return text + "."
}

// doubtful is the sureness below which a name counts as doubtful here: what
// 'identify' wants for a name.
const doubtful = 0.9

// quality are the figures by which others judge the work.
func (w *reporting) quality() {
	w.Section(wording.Text("Quality of the names and counts"))
	w.table("dense short", wording.Text("Figures"), []string{wording.Text("figure"), wording.Text("value")},
		append(w.qualityRows(), w.agreement()...))
	for _, t := range w.Trouble {
		w.Text("", wording.Sprintf("The file: %s", plain.Printable(t)))
	}
	w.End()
}

func (w *reporting) qualityRows() [][]string {
	animals, unsure, aside, unstated, amended, experts := 0, 0, 0, 0, 0, 0
	for _, rec := range w.tally.Records {
		animals += rec.Count
		switch {
		case rec.Undecided || rec.Taxon == "":
			aside += rec.Count
		case rec.Confidence == 0:
			unstated += rec.Count
		case rec.Confidence < doubtful:
			unsure += rec.Count
		}
		if rec.Expert != "" {
			experts++
		}
		if len(rec.Amended) > 0 {
			amended++
		}
	}
	return [][]string{
		{wording.Text("animals recorded with a doubtful name, sure by less than 0.90"), part(unsure, animals)},
		{wording.Text("animals set aside without a name"), part(aside, animals)},
		{wording.Text("animals whose name says nothing on how sure it is"), part(unstated, animals)},
		{wording.Text("records of which an expert determined a specimen"), wording.Sprintf("%d of %d", experts, len(w.tally.Records))},
		{wording.Text("records corrected later"), wording.Sprintf("%d of %d", amended, len(w.tally.Records))},
		{wording.Text("records withdrawn"), fmt.Sprint(len(w.tally.Withdrawn))},
	}
}

func part(n, of int) string {
	if of == 0 {
		return "0"
	}
	return wording.Sprintf("%d of %d (%s)", n, of, plain.Percent(float64(n)/float64(of)))
}

// agreement are the figures of the second looks.
func (w *reporting) agreement() [][]string {
	a := w.Rules.Agreement(w.Account)
	rows := [][]string{{wording.Text("records identified a second time, blind"),
		wording.Sprintf("%d of %d", a.Records, len(w.tally.Records))}}
	if a.Records == 0 {
		return rows
	}
	settled := 0
	for _, d := range a.Differing {
		if d.Settled {
			settled++
		}
	}
	figure := func(v *float64, unit string) string {
		if v == nil {
			return wording.Text("no value")
		}
		return fmt.Sprintf("%.1f%s", *v, unit)
	}
	rows = append(rows, []string{wording.Text("of these named differently"),
		wording.Sprintf("%d, %d of them settled", len(a.Differing), settled)})
	if a.Disagreement != nil {
		rows = append(rows, []string{wording.Sprintf("animals without one name that both people gave (PTD; look closer above %s %%)",
			plain.FormatFloat(a.Limits.Disagreement)), figure(a.Disagreement, " %")})
	}
	if a.Enumeration != nil {
		rows = append(rows, []string{wording.Sprintf("difference in counts, |n1 - n2| / (n1 + n2) (PDE; look closer above %s %%)",
			plain.FormatFloat(a.Limits.Enumeration)), figure(a.Enumeration, " %")})
	}
	if a.Kappa != nil {
		rows = append(rows, []string{wording.Text("Cohen's kappa (1 is full agreement, 0 that of chance)"), fmt.Sprintf("%.2f", *a.Kappa)})
	}
	if source := wording.Sprintf("Limits: %s", a.Limits.Source); !slices.Contains(w.sources, source) {
		w.sources = append(w.sources, source)
	}
	return rows
}

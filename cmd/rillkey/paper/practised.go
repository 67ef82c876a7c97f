package paper

import (
	"fmt"
	"strconv"

	"rillkey/cmd/rillkey/show"
	"rillkey/key/practice"
	"rillkey/taxa/plain"
)

// Group is a trainer's page: who is ready for what after practice, and what the whole
// group confuses.
func Group(g *show.PractisedGroup) *Page {
	p := New("Who is ready for what")
	p.Section("People")
	var rows [][]string
	for i := range g.People {
		one := &g.People[i]
		expected := fmt.Sprintf("%.0f in 100", 100*one.Error)
		if one.Ready == practice.TooFew {
			expected = "not known yet"
		}
		rows = append(rows, []string{one.Person, show.ReadyWords(one.Ready), expected, strconv.Itoa(one.Animals),
			strconv.Itoa(met(one, practice.Tray)), one.Last})
	}
	p.Table("", "After practice, the readiest first",
		[]string{"Name", "As far as practice tells", "Wrong names expected", "Animals met", "Of them real", "Last"}, rows)
	p.Text("", fmt.Sprintf("Ready alone: up to %.0f wrong names in 100 expected; by twos: up to %.0f. A trainer's rule of thumb (memory).",
		100*practice.AloneUpTo, 100*practice.TwosUpTo))
	p.Section("What the group confuses")
	rows = nil
	for _, t := range g.Traits {
		rows = append(rows, []string{t.Question, fmt.Sprintf("%d of %d", t.Wrong, t.Looked), strconv.Itoa(t.People)})
	}
	if len(rows) > 0 {
		p.Table("", "Features misread, by most people first", []string{"Feature", "Misread", "People"}, rows)
	}
	if len(g.Mixed) > 0 {
		p.Heading("Kinds mixed up")
		p.List("", g.Mixed)
	}
	if len(rows)+len(g.Mixed) == 0 {
		p.Text("", "Nothing was misread yet.")
	}
	p.Section("What this does not say")
	p.List("", show.PractisedLimits())
	return p
}

// met is how many animals of a source somebody met.
func met(one *show.Practised, from practice.Source) int {
	for _, f := range one.Tried {
		if f.Source == from {
			return f.Animals
		}
	}
	return 0
}

// Certificate is a sheet that says what somebody practised, what that rests on and what
// it does not say.
func Certificate(one *show.Practised) *Page {
	p := New(one.Person + " has practised naming stream animals")
	p.Text("", fmt.Sprintf("%s in %s, from %s to %s.", plain.Capital(plain.Count(one.Animals, "animal")),
		plain.Count(one.Sittings, "sitting"), one.First, one.Last))
	p.Section("What it rests on")
	var points []string
	for _, f := range one.Tried {
		points = append(points, plain.Capital(f.From())+": "+f.Words()+".")
	}
	for _, t := range one.Tests {
		if t.Finished {
			points = append(points, t.Line()+"; nothing is told in a test.")
		}
	}
	points = append(points, "From all of it: "+one.Wrong()+"; "+show.ReadyWords(one.Ready)+".")
	p.List("", points)
	p.Section("What it does not say")
	p.List("", append(show.PractisedLimits(),
		"It is no licence and no proof of who sat there, and it does not last: what is not practised is forgotten."))
	p.Text("", "Seen by the trainer, if so: ______________________________   Day: ______________")
	return p
}

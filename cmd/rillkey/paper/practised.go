package paper

import (
	"strconv"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/key/practice"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// GroupPage is a trainer's page: who is ready for what after practice, and what the whole
// group confuses.
func GroupPage(g *show.PractisedGroup) *Page {
	p := New(wording.Text("Who is ready for what"))
	p.Style(".people td:last-child { white-space: nowrap; }")
	p.Section(wording.Text("People"))
	var rows [][]string
	for i := range g.People {
		one := &g.People[i]
		expected := wording.Sprintf("%.0f in 100", 100*one.Error)
		if one.Ready == practice.ReadyTooFew {
			expected = wording.Text("not known yet")
		}
		rows = append(rows, []string{one.Person, show.ReadyWords(one.Ready), expected, strconv.Itoa(one.Animals),
			strconv.Itoa(one.Days), strconv.Itoa(one.Real), strconv.Itoa(one.Tested), one.Last})
	}
	p.table("people", wording.Text("After practice, the readiest first"),
		[]string{wording.Text("Name"), wording.Text("As far as practice tells"), wording.Text("Wrong names expected"),
			wording.Text("Animals in sittings"), wording.Text("Days"), wording.Text("Real animals"), wording.Text("Animals in tests"),
			wording.Text("Last")}, rows)
	p.List("", g.Means())
	rows = nil
	for i := range g.People {
		if wanted := g.People[i].Wanted(); len(wanted) > 0 {
			for j := range wanted {
				wanted[j] = plain.Capital(wanted[j]) + "."
			}
			rows = append(rows, []string{g.People[i].Person, strings.Join(wanted, " ")})
		}
	}
	if len(rows) > 0 {
		p.table("", wording.Text("Still wanted until they name alone"), []string{wording.Text("Name"), wording.Text("What")}, rows)
	}
	p.Section(wording.Text("What the group confuses"))
	rows = nil
	for _, t := range g.Traits {
		rows = append(rows, []string{t.Question, wording.Sprintf("%d of %d", t.Wrong, t.Looked), strconv.Itoa(t.People)})
	}
	if len(rows) > 0 {
		p.table("", wording.Text("Features misread, by most people first"),
			[]string{wording.Text("Feature"), wording.Text("Misread"), wording.Text("People")}, rows)
	}
	if len(g.Mixed) > 0 {
		p.Heading(wording.Text("Kinds mixed up"))
		p.List("", g.Mixed)
	}
	if len(rows)+len(g.Mixed) == 0 {
		p.Text("", wording.Text("Nothing was misread yet."))
	}
	p.Section(wording.Text("What this does not say"))
	p.List("", show.PractisedLimits())
	return p
}

// Certificate is a sheet that says what somebody practised, what that rests on and what
// it does not say.
func Certificate(one *show.Practised) *Page {
	p := New(wording.Sprintf("%s has practised naming stream animals", one.Person))
	p.Text("", wording.Sprintf("%s, from %s to %s.", plain.Capital(one.Met()), one.First, one.Last))
	p.Section(wording.Text("What it rests on"))
	var points []string
	for _, f := range one.Tried {
		points = append(points, plain.Capital(show.SourceWords(f))+": "+show.TriedWords(f)+".")
	}
	for _, t := range one.Tests {
		if t.Finished {
			points = append(points, wording.Sprintf("%s; nothing is told in a test.", t.Line()))
		}
	}
	points = append(points, wording.Sprintf("From all of it: %s.", show.ReadyWords(one.Ready))+" "+one.RestsOn())
	if means := show.ReadyMeans(one.Ready); means != "" {
		points = append(points, means)
	}
	if one.Ready == practice.ReadyAlone {
		points = append(points, wording.Sprintf("Alone is who has few wrong names to expect, and besides %s; a rule of thumb (%s).",
			show.ToNameAlone(one.Lines), plain.OneLine(one.Lines.Source)))
	}
	for _, wanted := range one.Wanted() {
		points = append(points, wording.Sprintf("Still wanted to name alone: %s.", wanted))
	}
	p.List("", points)
	p.Section(wording.Text("What it does not say"))
	p.List("", append(show.PractisedLimits(),
		wording.Text("It is no licence and no proof of who sat there, and it does not last: what is not practised is forgotten.")))
	p.Text("", wording.Text("Seen by the trainer, if so: ______________________________   Day: ______________"))
	return p
}

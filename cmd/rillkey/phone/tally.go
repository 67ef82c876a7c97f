package phone

import (
	"fmt"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// unfolded is a width at which no line is folded: the browser does that.
const unfolded = 100_000

func capital(s string) string { return plain.Capital(s) }

// lines puts text that is written in lines on the page, a paragraph each.
func lines(m *writer, write func(w *strings.Builder) error) {
	var b strings.Builder
	if err := write(&b); err != nil {
		m.el("p", err.Error())
		return
	}
	for _, line := range strings.Split(strings.TrimSpace(b.String()), "\n") {
		label, words, labelled := strings.Cut(strings.TrimSpace(line), "  ")
		m.open("p", "class", "line")
		if labelled && label != "" {
			m.el("b", label+": ")
		} else {
			words = line
		}
		m.Text(strings.Join(strings.Fields(words), " "))
		m.close("p")
	}
}

// finish finishes the visit; where nobody said how far a sample is sorted, the first
// press only asks.
func finish(p *Phone, arg string, _ FormValues) error {
	if !p.leads() {
		return errLeader
	}
	if arg != "yes" && len(unsaid(p)) > 0 {
		p.finishing, p.screen = true, tallying
		return nil
	}
	p.said = wording.Text("Finished. It can be opened again.")
	return p.note(visit.Finish{})
}

func reopen(p *Phone, _ string, _ FormValues) error {
	if !p.leads() {
		return errLeader
	}
	for _, id := range p.tally.Finishes {
		if err := p.note(visit.Amendment{Entry: id, Reason: wording.Text("not finished after all"), Withdrawn: true}); err != nil {
			return err
		}
	}
	p.said = wording.Text("Open again.")
	return nil
}

// unsaid are the samples of which nobody said how far they are sorted.
func unsaid(p *Phone) (labels []string) {
	for _, s := range p.tally.Samples {
		if s.Said == "" {
			labels = append(labels, s.Label)
		}
	}
	return labels
}

// finishRows finish the visit, or open it again.
func finishRows(p *Phone, m *writer) {
	m.open("section")
	switch {
	case p.tally.Finished:
		m.button("reopen", wording.Text("Open the visit again"), "row")
	case p.finishing:
		m.el("p", wording.Sprintf("Nobody said how far these samples are sorted: %s. Say it under Samples; else those with animals "+
			"count as sorted, and those without any as not yet sorted.", strings.Join(unsaid(p), ", ")), "class", "advice")
		m.button("go:sample", wording.Text("Say it under Samples"), "main")
		m.button("finish:yes", wording.Text("Finish all the same"), "row")
	default:
		m.button("finish", wording.Text("Finish the visit: nothing more is added"), "row")
	}
	m.close("section")
}

func tallyPage(p *Phone, m *writer) {
	catalog, err := p.kit.Catalog()
	m.el("h1", wording.Text("What was found"))
	m.say(p)
	if err != nil {
		m.el("p", err.Error())
		return
	}
	if p.finishing {
		finishRows(p, m) // what was pressed may be far below
	}
	missing(p, m)
	for _, s := range p.tally.Samples {
		m.open("section")
		m.el("h2", wording.Sprintf("Sample %s, %s: %s, %s", s.Label, scheme.HabitatWords(s.Habitat),
			plain.Count(p.animals(s.Label), "animal"), s.State.Words()))
		for _, r := range p.tally.Records {
			if r.Sample == s.Label {
				recordRow(p, m, catalog, r)
			}
		}
		m.close("section")
	}
	conditionRows(p, m)
	if p.leads() && !p.finishing {
		finishRows(p, m)
	}
}

func (p *Phone) animals(sample string) (n int) {
	for _, r := range p.tally.Records {
		if sample == "" || r.Sample == sample {
			n += r.Count
		}
	}
	return n
}

// missing says what the protocol still asks for.
func missing(p *Phone, m *writer) {
	rules, err := p.kit.Rules()
	if err != nil {
		return
	}
	g, err := rules.Grade(rules.Account(p.visit), scoring.GradeOptions{Plain: true})
	switch {
	case err != nil:
		m.el("p", wording.Sprintf("No grade: %s.", err.Error()), "class", "advice")
	case g.Effort.Complete:
		m.el("p", wording.Text("All samples that the protocol asks for are taken and sorted."), "class", "remark")
	default:
		m.el("p", wording.Sprintf("Before there can be a grade: %s.", g.Effort.Lack()), "class", "advice")
	}
}

func recordWords(catalog *taxa.Catalog, r visit.Record) string {
	name := wording.Text("set aside for a second look")
	if t := catalog.Taxon(r.Taxon); t != nil {
		name = show.BothNames(t)
	} else if r.Taxon != "" {
		name = wording.Sprintf("%s (not among the animals that this page knows)", r.Taxon)
	}
	words := fmt.Sprintf("%d x %s", r.Count, name)
	for _, more := range [][2]string{{wording.Text("cell "), r.Cell}, {wording.Text("by "), r.Who}} {
		if more[1] != "" {
			words += ", " + more[0] + more[1]
		}
	}
	return words
}

func recordRow(p *Phone, m *writer, catalog *taxa.Catalog, r visit.Record) {
	words := recordWords(catalog, r)
	m.open("div", "class", "tile")
	m.el("span", words, "class", "kind")
	if p.mayAmend(r.Who) {
		m.el("button", wording.Text("Change"), "type", "submit", "name", "do", "value", "entry:"+r.ID, "class", "plus",
			"aria-label", wording.Sprintf("Change %s", words))
	}
	m.close("div")
}

// gradePage says what the animals tell, or why they do not yet.
func gradePage(p *Phone, m *writer) {
	m.el("h1", wording.Text("What the animals say"))
	m.say(p)
	rules, err := p.kit.Rules()
	if err != nil {
		m.el("p", err.Error())
		return
	}
	g, err := rules.Grade(rules.Account(p.visit), scoring.GradeOptions{Seed: 1})
	if err != nil {
		m.el("p", wording.Sprintf("There is no grade: %s.", err.Error()), "class", "advice")
		return
	}
	m.open("section")
	m.el("p", show.InWords(g), "class", "words")
	m.el("p", scoring.Caution(), "class", "advice")
	m.close("section")
}

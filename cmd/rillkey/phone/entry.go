package phone

import (
	"fmt"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/units"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// amendable is a record that the person of the phone may correct.
func amendable(p *Phone, record string) (visit.Record, error) {
	r, ok := p.tally.Record(record)
	switch {
	case !ok:
		return r, wording.NewError("that entry is out already")
	case !p.mayAmend(r.Who):
		return r, errLeader
	}
	return r, nil
}

// openEntry turns to one record, to correct it.
func openEntry(p *Phone, record string, _ FormValues) error {
	if _, err := amendable(p, record); err != nil {
		return err
	}
	p.amending, p.screen = record, entry
	return nil
}

// changeEntry corrects what was typed over.
func changeEntry(p *Phone, record string, f FormValues) error {
	r, err := amendable(p, record)
	if err != nil {
		return err
	}
	change, err := changeOf(p, r, f)
	if err != nil {
		return err
	}
	if change == (visit.Change{}) {
		return wording.NewError("nothing was typed over")
	}
	if err := p.note(visit.Amendment{Entry: record, Reason: wording.Text("corrected on a phone"), Change: change}); err != nil {
		return err
	}
	p.screen, p.said = tallying, wording.Text("Corrected. What stood there before is still in the visit's file.")
	return nil
}

func changeOf(p *Phone, r visit.Record, f FormValues) (change visit.Change, err error) {
	n, err := units.Animals(f["count"])
	if err != nil {
		return change, err
	}
	if n != r.Count {
		change.Count = &n
	}
	if cell := strings.TrimSpace(f["cell"]); cell != r.Cell {
		change.Cell = &cell
	}
	name := strings.TrimSpace(f["taxon"])
	if name == "" {
		return change, nil
	}
	catalog, err := p.kit.Catalog()
	if err != nil {
		return change, err
	}
	t := catalog.Meant(name).Taxon
	if t == nil {
		return change, wording.Errorf("no one kind goes by the name %q; type its full name", name)
	}
	if t.ID != r.Taxon {
		named := visit.NamedForCertain(t.ID, t.Rank)
		change.Taxon, change.Rank, change.Confidence = named.Taxon, named.Rank, named.Confidence
	}
	return change, nil
}

func entryPage(p *Phone, m *writer) {
	r, ok := p.tally.Record(p.amending)
	catalog, err := p.kit.Catalog()
	if !ok || err != nil {
		p.screen = tallying
		tallyPage(p, m)
		return
	}
	m.el("h1", wording.Text("Correct an entry"))
	m.say(p)
	m.el("p", recordWords(catalog, r))
	m.el("p", wording.Sprintf("Code %s, as on its label and slip.", r.ID), "class", "remark")
	for _, look := range r.Looks {
		m.el("p", wording.Sprintf("%s By %s.", show.LookedWords(catalog, r, look.SecondLook), look.Who), "class", "remark")
	}
	m.open("section")
	m.field("count", wording.Text("How many?"), fmt.Sprint(r.Count), "number")
	m.field("taxon", wording.Text("Which kind instead? Empty leaves the name."), "", "text")
	m.field("cell", wording.Text("Which tray cell?"), r.Cell, "text")
	m.button("change:"+r.ID, wording.Text("Note what was typed over"), "main")
	m.button("out:"+r.ID, wording.Text("Take the entry out"), "row")
	m.button("go:tally", wording.Text("Leave it as it is"), "row")
	m.close("section")
	slipRows(p, m, r)
}

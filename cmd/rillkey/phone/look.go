package phone

import (
	"cmp"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// looksOf are the records that wait for a second look of somebody else than the
// first, most worth it first.
func looksOf(p *Phone) ([]scoring.RecheckRecord, error) {
	rules, err := p.kit.Rules()
	if err != nil {
		return nil, err
	}
	list, err := rules.Recheck(rules.Account(p.visit), 0)
	if err != nil {
		return nil, err
	}
	var out []scoring.RecheckRecord
	for _, one := range list.Records {
		if r, ok := p.tally.Record(one.Record); ok && len(r.Looks) == 0 && one.Doubtful() && !visit.SamePerson(r.Who, p.who) {
			out = append(out, one)
		}
	}
	return out, nil
}

// startLook has the animals of a record named a second time. Nothing on the page
// tells the first name from here on.
func startLook(p *Phone, record string, _ FormValues) error {
	r, ok := p.tally.Record(record)
	switch {
	case !ok:
		return wording.NewError("there is no such entry to look at again")
	case p.who == "":
		return wording.NewError("a second look needs a name; say under Give who counts here")
	case visit.SamePerson(r.Who, p.who):
		return wording.Errorf("%s named these animals the first time; a second look needs another pair of eyes", r.Who)
	}
	if err := p.beginTalk(nil); err != nil {
		return err
	}
	p.looking = record
	p.said = wording.Sprintf("A second look. Take the animals of sample %s, cell %s.", r.Sample, cellOf(r.Cell))
	if words := mindOf(p, record); words != "" {
		p.said += " " + words
	}
	return nil
}

// mindOf is the one feature to look at in the animals of a record; empty where none
// tells.
func mindOf(p *Phone, record string) string {
	all, err := looksOf(p)
	if err != nil {
		return ""
	}
	for _, one := range all {
		if one.Record == record {
			return minding(one)
		}
	}
	return ""
}

func minding(one scoring.RecheckRecord) string {
	if one.Tell == nil || one.Tell.Question == "" {
		return ""
	}
	return wording.Sprintf("Mind this: %s %s", one.Tell.Question, one.Tell.How)
}

// cellOf is the cell of a tray as people read it.
func cellOf(cell string) string { return cmp.Or(cell, wording.Text("not noted")) }

func keepLook(p *Phone, n int, f FormValues) error {
	k := p.talk.Inquiry().Kept()
	body := visit.SecondLook{Entry: p.looking, Taxon: k.Taxon, Rank: k.Rank, Confidence: k.Probability, Path: k.Path, Count: n,
		Undecided: k.Taxon == "", Note: strings.TrimSpace(f["note"])}
	if err := p.note(body); err != nil {
		return err
	}
	catalog, err := p.kit.Catalog()
	if err != nil {
		return err
	}
	first, _ := p.tally.Record(p.looking)
	p.endTalk()
	p.said = wording.Sprintf("Noted. %s", show.LookedWords(catalog, first, body))
	return nil
}

// looksRows list what waits for a second look of this person: where the animals
// lie and the one feature to mind, never what they were called.
func looksRows(p *Phone, m *writer) {
	all, err := looksOf(p)
	if err != nil {
		return // no protocol, or no rules: the page says so elsewhere
	}
	const most = 3
	for i, one := range all {
		if i == most {
			m.el("p", wording.Sprintf("%d more wait.", len(all)-most))
			return
		}
		words := wording.Sprintf("Look again: sample %s, cell %s, %s", one.Sample, cellOf(one.Cell), plain.Count(one.Count, "animal"))
		m.button("look:"+one.Record, words, "row")
		if words := minding(one); words != "" {
			m.el("p", words, "class", "remark")
		}
	}
	if len(all) == 0 {
		m.el("p", wording.Text("No animal waits for your second look."))
	}
}

package phone

import (
	"strings"
	"time"

	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// slipRows take what came back on the slip of a specimen.
func slipRows(p *Phone, m *writer, r visit.Record) {
	m.open("section")
	m.el("h2", wording.Text("Its slip came back from an expert"))
	if r.Expert != "" {
		m.el("p", wording.Sprintf("Determined by %s on %s.", r.Expert, r.ExpertOn), "class", "remark")
	}
	m.field("is", wording.Text("What is it?"), "", "text")
	m.field("expert", wording.Text("Who determined it?"), "", "text")
	m.field("on", wording.Text("On which day?"), p.now().Format(time.DateOnly), "date")
	m.field("kept", wording.Text("Where is the specimen kept? May stay empty."), "", "text")
	m.button("slip:"+r.ID, wording.Text("Note what the slip says"), "row")
	m.close("section")
}

// takeSlip notes the name that an expert gave a specimen.
func takeSlip(p *Phone, record string, f FormValues) error {
	r, ok := p.tally.Record(record)
	switch {
	case !ok:
		return wording.NewError("that entry is out already")
	case !p.mayAmend(r.Who):
		return errLeader
	}
	catalog, err := p.kit.Catalog()
	if err != nil {
		return err
	}
	name, expert, on := strings.TrimSpace(f["is"]), strings.TrimSpace(f["expert"]), f["on"]
	t := catalog.Meant(name).Taxon
	switch {
	case t == nil:
		return wording.Errorf("no one kind goes by the name %q; type its full name, as on the slip", name)
	case expert == "":
		return wording.NewError("the slip says who determined the specimen; type that name")
	}
	if on == "" {
		on = p.now().Format(time.DateOnly)
	}
	if err := p.note(visit.Determined(record, t.ID, t.Rank, expert, on, f["kept"])); err != nil {
		return err
	}
	p.screen, p.said = tallying, wording.Sprintf("Noted: the name of %s counts as settled.", expert)
	return nil
}

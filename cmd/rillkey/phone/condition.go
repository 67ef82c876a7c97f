package phone

import (
	"slices"
	"strings"

	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// noted is what stands in the visit of one condition, and in which entry.
type noted struct {
	field *condition.Parameter
	value condition.Value
	entry visit.Noted
}

// notedOf are the conditions of the visit, in the order of the sheet.
func notedOf(p *Phone) (out []noted) {
	for _, f := range condition.SpokenParameters() {
		for _, n := range p.tally.Noted {
			if v, there := n.Values[f.ID]; there {
				out = append(out, noted{f, v, n})
				break
			}
		}
	}
	return out
}

// correctable is a condition that the person of the phone may correct.
func correctable(p *Phone, id string) (noted, error) {
	all := notedOf(p)
	i := slices.IndexFunc(all, func(n noted) bool { return n.field.ID == id })
	switch {
	case i < 0:
		return noted{}, wording.NewError("that is not noted any more")
	case !p.mayAmend(all[i].entry.Who):
		return noted{}, errLeader
	case all[i].field.Form == condition.FilesForm:
		return noted{}, wording.NewError("photographs are corrected on the laptop, which has them")
	}
	return all[i], nil
}

// conditionRows list what was noted of stream and day, each with the way to correct it.
func conditionRows(p *Phone, m *writer) {
	all := notedOf(p)
	if len(all) == 0 {
		return
	}
	m.open("section")
	m.el("h2", wording.Text("Stream and day"))
	for _, n := range all {
		words := n.field.Title + ": " + n.field.Full(n.value)
		m.open("div", "class", "tile")
		m.el("span", words, "class", "kind")
		if _, err := correctable(p, n.field.ID); err == nil {
			m.el("button", wording.Text("Change"), "type", "submit", "name", "do", "value", "condition:"+n.field.ID, "class", "plus",
				"aria-label", wording.Sprintf("Change %s", words))
		}
		m.close("div")
	}
	m.close("section")
}

// openCondition turns to one condition, to correct it.
func openCondition(p *Phone, id string, _ FormValues) error {
	if _, err := correctable(p, id); err != nil {
		return err
	}
	p.amending, p.screen = id, correcting
	return nil
}

// changeCondition corrects a condition by what was typed over it, or takes it back.
func changeCondition(p *Phone, arg string, f FormValues) error {
	id, back := strings.CutSuffix(arg, ":back")
	n, err := correctable(p, id)
	if err != nil {
		return err
	}
	right := condition.Value{None: true}
	if !back {
		if right, err = n.field.Parse(f["value"]); err != nil {
			return err
		}
		if condition.Equal(right, n.value) {
			return wording.NewError("nothing was typed over")
		}
	}
	values := condition.Values{id: right}
	if err := p.note(visit.Amendment{Entry: n.entry.ID, Reason: wording.Text("corrected on a phone"),
		Change: visit.Change{Conditions: &values}}); err != nil {
		return err
	}
	p.screen, p.said = tallying, wording.Text("Corrected. What stood there before is still in the visit's file.")
	return nil
}

func conditionPage(p *Phone, m *writer) {
	n, err := correctable(p, p.amending)
	if err != nil {
		p.screen = tallying
		tallyPage(p, m)
		return
	}
	m.el("h1", wording.Text("Correct an entry"))
	m.say(p)
	m.open("section")
	title := wording.Sprintf("%s: what is right?", n.field.Title)
	if n.field.Form == condition.ChoiceForm {
		var options [][2]string
		for _, o := range n.field.Categories {
			options = append(options, [2]string{o.Word, o.Word})
		}
		m.choose("value", title, n.value.Text, options)
	} else {
		if n.field.Help != "" {
			m.el("p", n.field.Help, "class", "remark")
		}
		m.field("value", title, n.field.Full(n.value), "text")
	}
	m.button("noted:"+n.field.ID, wording.Text("Note what was typed over"), "main")
	m.button("noted:"+n.field.ID+":back", wording.Text("Take it back: it was not so"), "row")
	m.button("go:tally", wording.Text("Leave it as it is"), "row")
	m.close("section")
}

package show

import (
	"slices"

	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// concerns are what is to be said of a taxon that is foreign or protected in the
// region, or may be.
func concerns(t *taxa.Taxon) (out []CardLine) {
	add := func(label, all, some string, c *taxa.Concern) {
		if c == nil {
			return
		}
		text := all
		if c.Some {
			text = some
		}
		if c.Mark != "" {
			text += " " + c.Mark
		}
		out = append(out, CardLine{label, text + " " + c.Do})
	}
	add(wording.Text("Foreign"), wording.Text("It does not belong here, and is no sign of clean water."),
		wording.Text("Some of them do not belong here, and those are no sign of clean water."), t.Invader)
	add(wording.Text("Protected"), wording.Text("It is protected in many places."),
		wording.Text("Some of them are protected."), t.Protected)
	return out
}

// careLines are how to handle some taxa and what they are of concern for, each said once
// however many of them it is said of.
func careLines(ts []*taxa.Taxon) (out []CardLine) {
	for _, t := range ts {
		lines := concerns(t)
		if t.Handling != "" {
			lines = append([]CardLine{{wording.Text("Take care"), t.Handling}}, lines...)
		}
		for _, line := range lines {
			if !slices.Contains(out, line) {
				out = append(out, line)
			}
		}
	}
	return out
}

// FirstConcerns are those of a taxon that none of the records names: said once a visit.
func FirstConcerns(t *taxa.Taxon, before []visit.Record) []CardLine {
	if t == nil || slices.ContainsFunc(before, func(r visit.Record) bool { return r.Taxon == t.ID }) {
		return nil
	}
	return concerns(t)
}

package visit

import "slices"

// provenance tells which files hold which events.
type provenance struct {
	visits  []*Visit
	holders map[string][]bool
}

// apart tells whether two events were recorded without knowing of each other:
// one file has only the one, another only the other.
func (p provenance) apart(a, b string) bool {
	onlyA, onlyB := false, false
	for i := range p.visits {
		onlyA = onlyA || p.holders[a][i] && !p.holders[b][i]
		onlyB = onlyB || p.holders[b][i] && !p.holders[a][i]
	}
	return onlyA && onlyB
}

func (p provenance) clash(what, of string, sides []Event) Clash {
	c := Clash{What: what, Entry: of, Sides: sides}
	for _, e := range sides {
		c.Files = append(c.Files, p.visits[slices.Index(p.holders[e.ID], true)].File)
	}
	return c
}

// amendmentClashes finds the amendments of one event that were made apart,
// contradict each other and are not settled.
func amendmentClashes(v *Visit, p provenance) (out []Clash) {
	settled := map[[2]string]bool{}
	byTarget := map[string][]Event{}
	var targets []string
	for _, e := range v.Events {
		switch b := e.Body.(type) {
		case Settlement:
			for _, id := range b.Overruled {
				settled[[2]string{id, b.Holds}], settled[[2]string{b.Holds, id}] = true, true
			}
		case Amendment:
			if byTarget[b.Entry] == nil {
				targets = append(targets, b.Entry)
			}
			byTarget[b.Entry] = append(byTarget[b.Entry], e)
		}
	}
	for _, of := range targets {
		all := byTarget[of]
		var sides []Event
		for _, a := range all {
			if slices.ContainsFunc(all, func(b Event) bool {
				return a.ID != b.ID && clashing(a, b) && !settled[[2]string{a.ID, b.ID}] && p.apart(a.ID, b.ID)
			}) {
				sides = append(sides, a)
			}
		}
		if len(sides) > 1 {
			out = append(out, p.clash(ClashAmendments, of, sides))
		}
	}
	return out
}

func clashing(a, b Event) bool {
	x, y := a.Body.(Amendment), b.Body.(Amendment)
	return x.Withdrawn != y.Withdrawn || x.Change.contradicts(y.Change)
}

// sampleClashes finds the samples that were recorded apart under one label, and
// nobody has said yet whether they are one.
func sampleClashes(v *Visit, p provenance) (out []Clash) {
	names := v.sampleNames()
	byLabel := map[string][]Event{}
	var labels []string
	withdrawn := map[string]bool{}
	for _, e := range v.Events {
		switch b := e.Body.(type) {
		case Sample:
			key := sampleKey(b.Label)
			if byLabel[key] == nil {
				labels = append(labels, key)
			}
			byLabel[key] = append(byLabel[key], e)
		case Amendment:
			withdrawn[b.Entry] = withdrawn[b.Entry] || b.Withdrawn
		}
	}
	for _, key := range labels {
		sides := slices.DeleteFunc(byLabel[key], func(e Event) bool { return withdrawn[e.ID] })
		if len(sides) > 1 && !names.known(key) {
			out = append(out, p.clash(ClashSamples, key, sides))
		}
	}
	return out
}

// Latest is the code of the side that was written last; Earliest of the one written first.
func (c Clash) Latest() string { return c.Sides[len(c.Sides)-1].ID }

// Earliest is the code of the side that was written first.
func (c Clash) Earliest() string { return c.Sides[0].ID }

// Codes are those of the sides.
func (c Clash) Codes() (codes []string) {
	for _, e := range c.Sides {
		codes = append(codes, e.ID)
	}
	return codes
}

// Settle is the entry by which the side with a code holds over all others.
func (c Clash) Settle(holds string) Settlement {
	over := slices.DeleteFunc(c.Codes(), func(code string) bool { return code == holds })
	return Settlement{Entry: c.Entry, Holds: holds, Overruled: over}
}

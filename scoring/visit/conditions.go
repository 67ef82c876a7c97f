package visit

import (
	"time"

	"rillkey/scoring/condition"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Conditions says what was noted of the stream and the day: weather, water, bed, how
// the work was done. What can be is in package condition. Several of one visit stand
// beside each other; each value is in one of them.
type Conditions struct{ Values condition.Values }

// Noted is one entry of conditions as it stands after its corrections.
type Noted struct {
	ID      string // id of the event
	Time    time.Time
	Who     string
	Values  condition.Values
	Amended []string // ids of the amendments it went through
}

// NotedIn is the code of the first entry that holds a condition, or "".
func (t Tally) NotedIn(field string) string {
	for _, n := range t.Noted {
		if _, there := n.Values[field]; there {
			return n.ID
		}
	}
	return ""
}

// Conditions are all values that were noted and stand.
func (t Tally) Conditions() condition.Values {
	var out condition.Values
	for _, n := range t.Noted {
		out = out.Updated(n.Values)
	}
	return out
}

// conditionChange is all conditions in a Change: what is done field by field
// elsewhere goes by their own names here.
var conditionChange = changeField{
	given: func(ch *Change) bool { return ch.Conditions != nil },
	put: func(w *writer, ch *Change) {
		if ch.Conditions != nil {
			w.conditions(*ch.Conditions)
		}
	},
	take: func(f *fields, ch *Change) {
		if len(f.values) == 0 {
			return
		}
		if vs := f.conditions(); len(vs) > 0 {
			ch.Conditions = &vs
		}
	},
	differs: func(a, b *Change) bool {
		return a.Conditions != nil && b.Conditions != nil && a.Conditions.Contradicts(*b.Conditions)
	},
}

// minusConditions drops the conditions that other touches.
func (ch Change) minusConditions(other Change) Change {
	if ch.Conditions == nil || other.Conditions == nil {
		return ch
	}
	left := ch.Conditions.Excluding(*other.Conditions)
	if ch.Conditions = &left; len(left) == 0 {
		ch.Conditions = nil
	}
	return ch
}

// conditions writes values in the order of the sheet; an empty text takes one back.
func (w *writer) conditions(vs condition.Values) {
	vs.Each(func(f *condition.Parameter, v condition.Value) {
		switch {
		case v.None:
			w.put(f.Column, quote(""))
		case f.Form == condition.NumberForm:
			w.put(f.Column, float(v.Number))
		case f.Form == condition.PartsForm:
			var parts []Chance
			for _, p := range v.Parts {
				parts = append(parts, Chance{p.Word, p.Percent})
			}
			w.chances(f.Column, parts)
		case v.List != nil:
			w.strs(f.Column, v.List)
		default:
			w.put(f.Column, quote(v.Text))
		}
		w.str(f.WithColumn(), v.Instrument)
	})
}

func (f *fields) conditions() condition.Values {
	out := condition.Values{}
	for _, c := range condition.Parameters() {
		if raw, ok := f.values[c.Column]; ok {
			out[c.ID] = f.condition(c, raw)
		}
	}
	return out
}

func (f *fields) condition(c *condition.Parameter, raw any) (v condition.Value) {
	if raw == "" {
		delete(f.values, c.Column)
		return condition.Value{None: true}
	}
	switch c.Form {
	case condition.NumberForm:
		v.Number = f.num(c.Column)
	case condition.PartsForm:
		parts := map[string]float64{}
		for _, p := range f.chances(c.Column) {
			parts[p.Taxon] = p.Probability
		}
		v.Parts = c.PartsOf(parts)
	case condition.ChoicesForm, condition.PersonsForm, condition.FilesForm:
		v.List = f.strs(c.Column)
	default:
		v.Text = f.str(c.Column)
	}
	if c.Instrumented {
		v.Instrument = f.str(c.WithColumn())
	}
	return v
}

func (c *check) conditions(vs condition.Values) {
	if len(vs) == 0 {
		c.fail("no condition is noted")
	}
	if err := vs.Check(false); err != nil {
		c.fail("%w", err)
	}
}

func (r *replay) notedIn(id string) *Noted {
	for _, n := range r.noted {
		if n.ID == id {
			return n
		}
	}
	return nil
}

// admitConditions refuses a value that is noted already: it is corrected, so that
// nobody's note is overwritten in silence. Values may come after the visit is
// finished, as those of a laboratory do.
func (r *replay) admitConditions(b Conditions) error {
	var err error
	for _, n := range r.noted {
		if r.withdrawn[n.ID] {
			continue
		}
		b.Values.Each(func(f *condition.Parameter, value condition.Value) {
			if old, there := n.Values[f.ID]; there && err == nil {
				err = wording.Errorf("%s is noted already: %s; it is corrected by: rillkey visit amend --set %s --visit %s", f.Title,
					f.Full(old), plain.ShellWord(f.ID+"="+f.Typed(value)), plain.ShellWord(r.notes.file))
			}
		})
	}
	return err
}

// misfitNoted says why an amendment of conditions cannot be applied, or "".
func (r *replay) misfitNoted(a Amendment, n *Noted) string {
	switch {
	case n == nil:
		return wording.Sprintf("%q is no entry of weather, water and bed, so it has no such values", a.Entry)
	case r.withdrawn[a.Entry]:
		return wording.Sprintf("%q was withdrawn before", a.Entry)
	case a.Withdrawn:
		return ""
	case a.Change.Conditions == nil:
		return wording.Sprintf("%q holds what was noted of stream and day; only that can change in it", a.Entry)
	}
	return ""
}

// notedOnce are the entries that stand. Of a value that two people noted apart the
// first holds, and the other is told.
func (r *replay) notedOnce() (out []Noted) {
	seen := condition.Values{}
	for _, n := range r.noted {
		if r.withdrawn[n.ID] {
			continue
		}
		n.Values.Each(func(f *condition.Parameter, v condition.Value) {
			if old, there := seen[f.ID]; there && !condition.Equal(old, v) {
				r.notes.tell(r.line[n.ID], Misfit,
					"%s was noted before as %q; %q is not counted until one of them is corrected", f.Title, f.Full(old), f.Full(v))
			}
		})
		kept := *n
		kept.Values = n.Values.Excluding(seen)
		seen = seen.Updated(kept.Values)
		out = append(out, kept)
	}
	return out
}

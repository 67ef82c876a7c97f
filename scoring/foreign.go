package scoring

import (
	"fmt"
	"slices"
	"strings"

	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// concernRemarks say which animals of a visit are foreign or protected in its
// region, what to do, and what the value of the main scheme is without the foreign
// ones.
func (s grader) concernRemarks(how scheme.Combine, a *account.Account, headline *Index) (out []string) {
	for _, some := range []bool{false, true} {
		foreign := taxaOfConcern(a, some, func(t *taxa.Taxon) *taxa.Concern { return t.Invader })
		if len(foreign) == 0 {
			continue
		}
		text := wording.Sprintf("Foreign here, and no sign of clean water: %s.", named(foreign))
		if some {
			text = wording.Sprintf("Foreign ones may be among these: %s.%s", named(foreign), marks(foreign))
		}
		if headline.Value != nil {
			text += " " + withoutThese(s, how, a, foreign, headline)
		}
		if !some {
			text += " " + foreign[0].Invader.Do
		}
		out = append(out, text)
	}
	for _, some := range []bool{false, true} {
		label := wording.Text("Protected in many places")
		if some {
			label = wording.Text("Protected ones may be among these")
		}
		found := taxaOfConcern(a, some, func(t *taxa.Taxon) *taxa.Concern { return t.Protected })
		for _, alike := range byWhatToDo(found) {
			out = append(out, fmt.Sprintf("%s: %s. %s", label, named(alike), alike[0].Protected.Do))
		}
	}
	return out
}

// foreignWords names the foreign animals of a visit beside what was found, and what the
// value is without them; those that only may be foreign where they are many, or the value
// without them is rated otherwise.
func foreignWords(s grader, how scheme.Combine, a *account.Account, headline *Index) string {
	foreign := taxaOfConcern(a, false, func(t *taxa.Taxon) *taxa.Concern { return t.Invader })
	maybe := taxaOfConcern(a, true, func(t *taxa.Taxon) *taxa.Concern { return t.Invader })
	if len(maybe) > 0 && !matter(s, how, a, maybe) {
		maybe = nil
	}
	var said []string
	if len(foreign) > 0 {
		said = append(said, wording.Sprintf("Some of the animals found do not belong here and are no sign of clean water: %s.",
			named(foreign)))
	}
	if len(maybe) > 0 {
		said = append(said, wording.Sprintf("Some of the animals found may not belong here, and then are no sign of clean water: %s.",
			named(maybe)))
	}
	if len(said) > 0 && headline.Value != nil {
		said = append(said, withoutThese(s, how, a, slices.Concat(foreign, maybe), headline))
	}
	return strings.Join(said, " ")
}

// manyForeign is the share of the animals from which on those are named that only may be
// foreign (common practice: one crayfish is no news).
const manyForeign = 0.1

// matter tells that the animals of some taxa are many, or that the value is rated
// otherwise without them.
func matter(s grader, how scheme.Combine, a *account.Account, these []*taxa.Taxon) bool {
	all, own := 0, 0
	for i := range a.Records {
		all += a.Records[i].Count
		if slices.Contains(these, a.Records[i].Known) {
			own += a.Records[i].Count
		}
	}
	left := a.Excluding(func(r *account.BoundRecord) bool { return slices.Contains(these, r.Known) })
	return float64(own) >= manyForeign*float64(all) || bandOf(s, how, left).Rating != bandOf(s, how, a).Rating
}

// withoutThese says what the value is where none of these taxa counts.
func withoutThese(s grader, how scheme.Combine, a *account.Account, these []*taxa.Taxon, headline *Index) string {
	left := a.Excluding(func(r *account.BoundRecord) bool { return slices.Contains(these, r.Known) })
	from := s.evidence(left)
	v := s.combined(how, from, s.sort(from.rows)).value
	if !v.Defined() {
		return wording.Sprintf("Without them there is no value of the %s.", s.Title)
	}
	with := wording.Number(*headline.Value)
	if now := wording.Decimal(s.Plain(v.Steps())); now != with {
		return wording.Sprintf("Without them the %s is %s, not %s.", s.Title, now, with)
	}
	return wording.Sprintf("Without them the %s is %s as well.", s.Title, with)
}

// taxaOfConcern are the taxa of a visit that something is to be said of, all of them or
// some of their animals, in the order of the records.
func taxaOfConcern(a *account.Account, some bool, of func(*taxa.Taxon) *taxa.Concern) (out []*taxa.Taxon) {
	for i := range a.Records {
		t := a.Records[i].Known
		if !a.Records[i].Decided() || t == nil || slices.Contains(out, t) {
			continue
		}
		if c := of(t); c != nil && c.Some == some {
			out = append(out, t)
		}
	}
	return out
}

// byWhatToDo are protected taxa in groups for which the same is to be done.
func byWhatToDo(all []*taxa.Taxon) (out [][]*taxa.Taxon) {
	for _, t := range all {
		i := slices.IndexFunc(out, func(g []*taxa.Taxon) bool { return g[0].Protected.Do == t.Protected.Do })
		if i < 0 {
			i, out = len(out), append(out, nil)
		}
		out[i] = append(out[i], t)
	}
	return out
}

func named(all []*taxa.Taxon) string {
	names := make([]string, len(all))
	for i, t := range all {
		names[i] = t.Name()
	}
	return strings.Join(names, ", ")
}

// marks are how the foreign ones are known, each said once.
func marks(all []*taxa.Taxon) (text string) {
	for _, t := range all {
		if m := t.Invader.Mark; m != "" && !strings.Contains(text, m) {
			text += " " + m
		}
	}
	return text
}

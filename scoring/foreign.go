package scoring

import (
	"fmt"
	"slices"
	"strconv"
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
		foreign := concerning(a, some, func(t *taxa.Taxon) *taxa.Concern { return t.Invader })
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
		label := wording.Of("Protected in many places")
		if some {
			label = wording.Of("Protected ones may be among these")
		}
		found := concerning(a, some, func(t *taxa.Taxon) *taxa.Concern { return t.Protected })
		for _, alike := range byWhatToDo(found) {
			out = append(out, fmt.Sprintf("%s: %s. %s", label, named(alike), alike[0].Protected.Do))
		}
	}
	return out
}

// withoutThese says what the value is where none of these taxa counts.
func withoutThese(s grader, how scheme.Combine, a *account.Account, these []*taxa.Taxon, headline *Index) string {
	left := a.Without(func(r *account.Record) bool { return slices.Contains(these, r.Known) })
	from := s.evidence(left)
	v := s.combined(how, from, s.sort(from.rows)).value
	if !v.Defined() {
		return wording.Sprintf("Without them there is no value of the %s.", s.Title)
	}
	with := strconv.FormatFloat(*headline.Value, 'f', -1, 64)
	if now := s.Plain(v.Steps()); now != with {
		return wording.Sprintf("Without them the %s is %s, not %s.", s.Title, now, with)
	}
	return wording.Sprintf("Without them the %s is %s as well.", s.Title, with)
}

// concerning are the taxa of a visit that something is to be said of, all of them or
// some of their animals, in the order of the records.
func concerning(a *account.Account, some bool, of func(*taxa.Taxon) *taxa.Concern) (out []*taxa.Taxon) {
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

package scoring

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rillkey/scoring/account"
	"rillkey/scoring/scheme"
	"rillkey/taxa"
)

// concernRemarks say which animals of a visit are foreign or protected in its
// region, what to do, and what the value of the main scheme is without the foreign
// ones.
func (s grader) concernRemarks(how scheme.Combine, a *account.Account, headline *Index) (out []string) {
	invader := func(t *taxa.Taxon) *taxa.Concern { return t.Invader }
	if foreign := concerning(a, invader); len(foreign) > 0 {
		text := fmt.Sprintf("Foreign here, or some of them are: %s. They are no sign of clean water.", named(foreign))
		if headline.Value != nil {
			text += " " + s.without(how, a, headline)
		}
		out = append(out, text+advice(foreign, invader))
	}
	protected := func(t *taxa.Taxon) *taxa.Concern { return t.Protected }
	if found := concerning(a, protected); len(found) > 0 {
		out = append(out, fmt.Sprintf("Protected, or some of them are: %s.%s", named(found), advice(found, protected)))
	}
	return out
}

// without says what the value is where no animal counts that may be foreign.
func (s grader) without(how scheme.Combine, a *account.Account, headline *Index) string {
	left := a.Without(func(r *account.Record) bool { return r.Known != nil && r.Known.Invader != nil })
	from := s.evidence(left)
	v := s.combined(how, from, s.sort(from.rows)).value
	if !v.Defined() {
		return fmt.Sprintf("Without them there is no value of the %s.", s.Title)
	}
	with := strconv.FormatFloat(*headline.Value, 'f', -1, 64)
	if now := s.Plain(v.Steps()); now != with {
		return fmt.Sprintf("Without them the %s is %s, not %s.", s.Title, now, with)
	}
	return fmt.Sprintf("Without them the %s is %s as well.", s.Title, with)
}

// concerning are the taxa of a visit that something is to be said of, in the order
// of the records.
func concerning(a *account.Account, of func(*taxa.Taxon) *taxa.Concern) (out []*taxa.Taxon) {
	for i := range a.Records {
		t := a.Records[i].Known
		if a.Records[i].Decided() && t != nil && of(t) != nil && !slices.Contains(out, t) {
			out = append(out, t)
		}
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

// advice is what to do, each said once.
func advice(all []*taxa.Taxon, of func(*taxa.Taxon) *taxa.Concern) (text string) {
	for _, t := range all {
		if do := of(t).Do; !strings.Contains(text, do) {
			text += " " + do
		}
	}
	return text
}

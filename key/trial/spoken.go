package trial

import (
	"slices"
	"strings"

	"rillkey/taxa"
)

// spokenParts is how many parts of an account are said at first.
const spokenParts = 2

// speak says the parts of the account that tell of the most striking things, in the
// account's own words, and notes what a person would: all that is noted unasked, and
// of what is only offered that which is so.
func (r *reader) speak() error {
	parts := strings.FieldsFunc(r.Words, func(c rune) bool { return strings.ContainsRune(",;:.!?\n", c) })
	for _, i := range r.striking(parts) {
		seen, unclear, err := r.understand(parts[i])
		if err != nil {
			return err
		}
		for _, one := range seen {
			if err := r.q.Hear(one.Trait.ID, one.States...); err != nil {
				return err
			}
		}
		for _, u := range unclear {
			if i := slices.IndexFunc(u.Choice, r.agrees); i >= 0 {
				if err := r.q.Hear(u.Choice[i].Trait.ID, u.Choice[i].States...); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

func (r *reader) understand(words string) ([]taxa.Seen, []taxa.Unclear, error) {
	return r.q.Model().Key().Catalog().Vocabulary().Understand(words)
}

// agrees reports whether what was understood is what the account says.
func (r *reader) agrees(one taxa.Seen) bool {
	coded := r.States(one.Trait.ID)
	return slices.ContainsFunc(one.States, func(s string) bool { return slices.Contains(coded, s) })
}

// striking are the parts of the account that tell of the two most striking things,
// by number; where the program does not find them, the first parts.
func (r *reader) striking(parts []string) []int {
	var out []int
	for _, trait := range r.Striking {
		if i := slices.IndexFunc(parts, func(part string) bool { return r.tells(part, trait) }); i >= 0 && !slices.Contains(out, i) {
			out = append(out, i)
		}
	}
	for i := range parts {
		if len(out) < spokenParts && !slices.Contains(out, i) {
			out = append(out, i)
		}
	}
	return out
}

// tells reports whether a part is understood to speak of a trait, as the account
// has it.
func (r *reader) tells(part, trait string) bool {
	seen, unclear, _ := r.understand(part)
	for _, u := range unclear {
		seen = append(seen, u.Choice...)
	}
	return slices.ContainsFunc(seen, func(one taxa.Seen) bool { return one.Trait.ID == trait && r.agrees(one) })
}

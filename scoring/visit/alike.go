package visit

import (
	"fmt"
	"slices"
	"strings"

	"rillkey/taxa/plain"
)

// NearlyAlike are names of one kind, [NamePerson] or [NameSample], that may mean
// the same and that nobody was asked about; the first of a pair stands first in
// the file.
func (v *Visit) NearlyAlike(kind string) (pairs [][2]string) {
	names, asked := v.written(kind)
	for i, a := range names {
		for _, b := range names[i+1:] {
			if plain.Alike(a, b) && !asked[[2]string{a, b}] && !asked[[2]string{b, a}] {
				pairs = append(pairs, [2]string{a, b})
			}
		}
	}
	return pairs
}

// written are the names of a kind as they were written, and the pairs that people
// were asked about.
func (v *Visit) written(kind string) (names []string, asked map[[2]string]bool) {
	asked = map[[2]string]bool{}
	add := func(name string) {
		if name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if kind == NamePerson {
		for _, p := range v.Header.People {
			add(p)
		}
	}
	for _, e := range v.Events {
		if kind == NamePerson {
			add(e.Who)
		}
		switch b := e.Body.(type) {
		case Sample:
			if kind == NameSample && !slices.ContainsFunc(names, func(n string) bool { return strings.EqualFold(n, b.Label) }) {
				add(b.Label)
			}
		case SameName:
			if b.What == kind {
				asked[[2]string{b.Name, b.As}] = true
			}
		}
	}
	return names, asked
}

// FreeLabel is a label like the one given that no sample has: "2-2", "2-3".
func (v *Visit) FreeLabel(label string) string {
	t := v.Tally()
	for n := 2; ; n++ {
		next := fmt.Sprintf("%s-%d", label, n)
		if _, taken := t.Sample(next); !taken {
			return next
		}
	}
}

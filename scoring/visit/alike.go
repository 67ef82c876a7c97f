package visit

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rillkey/taxa/plain"
)

// NamePair are two names that may mean the same; First stands first in the file.
type NamePair struct {
	First, Second string
	Same          bool // they differ by case, blanks or accents alone, so that nobody need be asked
}

// Means is the entry that says whether both mean the same thing of a kind.
func (p NamePair) Means(kind string, same bool) SameName {
	return SameName{What: kind, Name: p.Second, Spelling: p.First, Differ: !same}
}

// NearlyAlike are names of one kind, [NamePerson] or [NameSample], that may mean
// the same and that nobody was asked about.
func (v *Visit) NearlyAlike(kind string) (pairs []NamePair) {
	names, asked := v.written(kind)
	for i, a := range names {
		for _, b := range names[i+1:] {
			if plain.Alike(a, b) && !asked[[2]string{a, b}] && !asked[[2]string{b, a}] {
				pairs = append(pairs, NamePair{a, b, plain.Fold(a) == plain.Fold(b)})
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
				asked[[2]string{b.Name, b.Spelling}] = true
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

// NextLabel is the smallest number from 1 on that no sample is called by.
func (t Tally) NextLabel() string {
	for n := 1; ; n++ {
		if _, taken := t.Sample(strconv.Itoa(n)); !taken {
			return strconv.Itoa(n)
		}
	}
}

// LookLikeOne reports whether visits that were begun apart may be one visit: they are of
// one day, to sites whose names are nearly alike.
func LookLikeOne(visits []*Visit) bool {
	return !slices.ContainsFunc(visits, func(v *Visit) bool {
		return v.Header.Date != visits[0].Header.Date || !plain.Alike(v.Header.Site, visits[0].Header.Site)
	})
}

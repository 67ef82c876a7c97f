package lesson

import (
	"slices"

	"rillkey/cmd/rillkey/figure"
	"rillkey/key"
	"rillkey/key/practice"
	"rillkey/taxa"
)

// readings are what was read off the animal: of a drawing only what it shows, and
// nothing that was told in words.
func (l *Lesson) readings(q *key.Inquiry) []practice.Reading {
	shows := l.animal.Shows
	if l.Source == practice.TraySource || l.photo != nil {
		shows = practice.ShownOf(q.Given(), l.kind)
	}
	all := practice.ReadingsOf(q.Given(), shows, l.catalog.Vocabulary())
	l.misread = slices.DeleteFunc(slices.Clone(all), func(r practice.Reading) bool { return !r.Wrong() })
	switch {
	case l.photo != nil:
		return nil // neither a drawing nor an animal: in no rates
	case l.Source != practice.DrawingSource:
		return all
	}
	return slices.DeleteFunc(all, func(r practice.Reading) bool { return l.told[r.Trait] || !l.drawn(r.Trait, r.Fit) })
}

// drawn reports whether the drawing shows that one of these states of a trait is to be
// seen, and none of the others.
func (l *Lesson) drawn(trait string, states []string) bool {
	like, known := l.alike[trait]
	if l.photo != nil {
		return false
	}
	if !known {
		if atlas := l.atlas(); atlas != nil {
			like, _ = atlas.Alike(l.kind, l.animal.Shows, trait)
		}
		if l.alike == nil {
			l.alike = map[string][]string{}
		}
		l.alike[trait] = like
	}
	return len(like) > 0 && !slices.ContainsFunc(like, func(s string) bool { return !slices.Contains(states, s) })
}

// answers reports whether the drawing answers, of a trait, what is asked just now; where
// nothing is, whether it tells the animal's state from every other.
func (l *Lesson) answers(t *taxa.Trait) bool {
	fit := []string{l.animal.Shows[t.ID]}
	if l.stage == walking {
		if q := l.talk.Inquiry().Question(); q != nil {
			fit = practice.Fitting(*q, t.ID, fit[0])
		}
	}
	return l.drawn(t.ID, fit)
}

func (l *Lesson) atlas() *figure.Atlas {
	if l.Atlas == nil {
		return nil
	}
	return l.Atlas()
}

package main

import (
	"cmp"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa/wording"
)

// How far a name goes.
const (
	farEnd     = "end"     // an end point of the key
	farCounted = "counted" // what the protocol of the visit counts as one
	farKind    = "kind"    // an end point of the key of kinds
)

// asked is how animals are asked for: begin begins with one, and closer, where it is
// not nil, asks for one to the end of the region's key.
type asked struct {
	begin, closer func() (*key.Inquiry, error)
}

// howAsked is how far animals are named, and by which key. The model is that of the
// region's key, and unsaid how far where nobody said.
func (l *library) howAsked(f *inquiryFlags, m *key.Model, o key.Options, unsaid string) (a asked, err error) {
	whole := func() (*key.Inquiry, error) { return m.Inquire(o) }
	near := o
	if near.Enough, err = l.enough(f, unsaid); err != nil {
		return a, err
	}
	begin := func() (*key.Inquiry, error) { return m.Inquire(near) }
	switch far := cmp.Or(f.far, unsaid); {
	case far == farKind:
		kinds, err := l.kinds(f, m)
		switch {
		case err != nil:
			return a, err
		case kinds == nil:
			return asked{begin, whole}, nil
		}
		near.InTraits = true
		return asked{func() (*key.Inquiry, error) { return kinds.Inquire(near) }, whole}, nil
	case len(near.Enough) == 0:
		return asked{whole, nil}, nil
	}
	return asked{begin, whole}, nil
}

// kinds is the key of kinds as the region of a model has it; nil, which it says, where
// the protocol of the visit counts closer, or where the animals are wholly others.
func (l *library) kinds(f *inquiryFlags, m *key.Model) (*key.Model, error) {
	catalog := m.Key().Catalog()
	sound, err := l.couplets(kindsKey, catalog)
	switch {
	case couplets.ForOtherAnimals(err):
		l.plainly("The key of kinds was made for other animals than yours: your own key is asked.")
		return nil, nil
	case err != nil:
		return nil, err
	case l.keyFile != "":
		return nil, misused("--far kind asks by a key of its own; leave --key out, or say --far counted")
	}
	if l.header.Protocol != "" {
		_, rules, err := l.catalogAndRules()
		if err != nil {
			return nil, err
		}
		if ok, err := rules.Suffice(l.header.Protocol, idsOf(sound.Ends)); !ok {
			if err == nil {
				l.plainly("The protocol of this visit counts closer kinds than the key of kinds ends in: the key of the region is asked.")
			}
			return nil, err
		}
	}
	return l.model(key.Compile(sound, catalog), f.rates)
}

// errCloser says that somebody wants a closer name before the animal is saved.
var errCloser = wording.NewError("a closer name is wanted")

// toCloser leads from the prompts after a name to a closer one.
var toCloser = ask.Option{Value: "+", Label: wording.Mark("a closer name")}

// canGoCloser reports whether the questions stopped before the end of the region's key.
func (s *session) canGoCloser(q *key.Inquiry) bool {
	if s.closer == nil {
		return false
	}
	v := show.NewIdentified(q, 0)
	return v.Enough || q.Options().InTraits && v.Name != ""
}

// goCloser goes on to the end of the region's key with all that was said.
func (s *session) goCloser(q *key.Inquiry) (*key.Inquiry, error) {
	next, err := s.closer()
	if err != nil {
		return nil, err
	}
	s.plainly("On to a closer name by the key of the region. What you said is kept.")
	return next, q.Retell(next)
}

// farOf is how far the animal of an inquiry is named, as --far says it; empty where it
// need not be said.
func (s *session) farOf(q *key.Inquiry) string {
	if o := q.Options(); s.closer != nil && len(o.Enough) == 0 && !o.InTraits {
		return farEnd
	}
	return s.flags.inquiry.far
}

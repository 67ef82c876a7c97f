// Package export writes visits in forms that others can use without this
// program: a Darwin Core Archive, CSV tables with a Table Schema, and SQL. The
// CSV tables can be read back without loss.
//
// Begin with [Visits], [Knowledge] and [Discretion].
//
// Visits come one by one and are never all in memory. The package opens no
// files and reads no clock: where the bytes go is an argument.
package export

import (
	"iter"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/account"
	"rillkey/scoring/condition"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Visits are the visits to hand over, one by one; an error ends them.
type Visits = iter.Seq2[*visit.Visit, error]

// Knowledge is what the visits are described with.
type Knowledge struct {
	Catalog *taxa.Catalog
	Rules   *scoring.Rules
	// Regional, where it is set, gives what describes one visit: names and classes are those
	// of its own region.
	Regional func(*visit.Visit) Knowledge
	// ReferenceDay gives the day of the visit to its reference that a visit stands beside, empty
	// for none; nil where nobody looked. No word is said without one where the group
	// compares with a site.
	ReferenceDay func(v *visit.Visit) (day string)
}

// forVisit is what describes a visit.
func (k Knowledge) forVisit(v *visit.Visit) Knowledge {
	if k.Regional == nil {
		return k
	}
	return k.Regional(v)
}

// Discretion says what may be given away.
type Discretion struct {
	People bool // names of people; without it they are "person 1", "person 2", …
	Places bool // exact places of visits whose place is obscured
	// Wordless keeps back what people wrote in their own words too: notes, efforts,
	// reasons, and labels of samples that name somebody.
	Wordless bool
	// Applied says that the visits are as they may be given away already, by people who
	// have numbers for names: nothing more is kept back of what stands there.
	Applied bool
}

// Withheld stands for the name of an obscured site, in the language in use.
func Withheld() string { return wording.Text("site withheld") }

// withheldReference stands for the name of the site that a group compares with: it may
// be an obscured one.
func withheldReference() string { return wording.Text("reference withheld") }

// Apply is the visit as it may be given away; the visit itself is not changed.
// Free texts, such as notes, are left as they are unless d is Wordless.
func (d Discretion) Apply(v *visit.Visit) *visit.Visit {
	if d.Applied {
		return v
	}
	hide := !d.Places && v.Obscured()
	if d.People && !hide && !d.Wordless && (d.Places || v.Header.Reference == "" && v.Written().Reference == "") {
		return v
	}
	m := mask{d: d, site: hide, number: map[string]string{}}
	if d.Wordless {
		m.label = d.labels(v)
	}
	head, _ := v.Written().WithUnread("")
	if hide {
		head.Site, head.Obscured = Withheld(), true
		head.Spot = m.spot(head.Spot)
	}
	head.Reference = m.reference(v.Header.ComparesWith())
	head.People = m.people(v, head.People)
	var events []visit.Event
	for _, e := range v.Events {
		if e, ok := e.Known(); ok {
			events = append(events, m.event(v, e))
		}
	}
	return v.Recast(head, events)
}

// Hides counts what Apply leaves out because this program does not understand
// it, so that it might hold a name or a place: entries, or fields of them, and
// fields of the header.
func (d Discretion) Hides(v *visit.Visit) (n int) {
	if d.People && (d.Places || !v.Obscured()) {
		return 0
	}
	n = strings.Count(v.Header.Unread(), "\n")
	for _, e := range v.Events {
		if e.Block() != "" {
			n++
		}
	}
	return n
}

// mask gives people numbers in the order in which they turn up.
type mask struct {
	d      Discretion
	site   bool
	number map[string]string
	label  map[string]string // of samples whose label is not given away
}

func (m mask) person(v *visit.Visit, name string) string {
	if m.d.People || name == "" {
		return name
	}
	name = v.Person(name)
	if m.number[name] == "" {
		m.number[name] = wording.Sprintf("person %d", len(m.number)+1)
	}
	return m.number[name]
}

// spot is a place as it may be given away.
func (m mask) spot(s *visit.Spot) *visit.Spot {
	if s == nil || !m.site {
		return s
	}
	blurred := s.Blurred()
	return &blurred
}

func (m mask) reference(site string) string {
	if m.d.Places || site == "" {
		return site
	}
	return withheldReference()
}

func (m mask) people(v *visit.Visit, people []string) []string {
	var out []string
	for _, p := range people {
		out = append(out, m.person(v, p))
	}
	return out
}

func (m mask) event(v *visit.Visit, e visit.Event) visit.Event {
	e.Who = m.person(v, e.Who)
	switch b := e.Body.(type) {
	case visit.SameName:
		switch {
		case b.What == visit.NamePerson:
			b.Name, b.Spelling = m.person(v, b.Name), m.person(v, b.Spelling)
		case b.What == visit.NameSite && m.site:
			b.Name, b.Spelling = Withheld(), Withheld()
		}
		e.Body = b
	case visit.Identification:
		b.Expert = m.person(v, b.Expert)
		e.Body = b
	case visit.Amendment:
		ch := &b.Change
		ch.Expert = instead(ch.Expert, func(name string) string { return m.person(v, name) })
		ch.Spot = m.spot(ch.Spot)
		if m.site {
			ch.Site = instead(ch.Site, func(string) string { return Withheld() })
		}
		ch.Reference = instead(ch.Reference, m.reference)
		ch.People = instead(ch.People, func(people []string) []string { return m.people(v, people) })
		e.Body = b
	}
	return m.wordless(m.conditions(v, e))
}

// instead is what stands in the place of a new value, nil where there is none.
func instead[T any](value *T, other func(T) T) *T {
	if value == nil {
		return nil
	}
	out := other(*value)
	return &out
}

// conditionsOf are the conditions that an event notes or corrects.
func conditionsOf(e visit.Event) condition.Values {
	switch b := e.Body.(type) {
	case visit.Conditions:
		return b.Values
	case visit.Amendment:
		if b.Change.Conditions != nil {
			return *b.Change.Conditions
		}
	}
	return nil
}

// conditions puts numbers for the people who are named in what was noted.
func (m mask) conditions(v *visit.Visit, e visit.Event) visit.Event {
	vs := conditionsOf(e)
	if len(vs) == 0 || m.d.People {
		return e
	}
	vs = condition.Rename(vs, func(name string) string { return m.person(v, name) })
	switch b := e.Body.(type) {
	case visit.Conditions:
		e.Body = visit.Conditions{Values: vs}
	case visit.Amendment:
		b.Change.Conditions = &vs
		e.Body = b
	}
	return e
}

// each hands over every visit once. Two files of one visit would give
// everything twice.
func each(visits Visits, d Discretion, give func(*visit.Visit) error) error {
	seen := map[string]string{}
	for v, err := range visits {
		if err != nil {
			return err
		}
		for _, id := range append([]string{v.Header.ID}, v.Header.Joined...) {
			if first, doubled := seen[id]; doubled {
				return wording.Errorf("%s and %s hold the same visit, %s; unite them: %s",
					plain.Printable(first), plain.Printable(v.File), id, visit.HowToMerge(first, v.File))
			}
			seen[id] = v.File
		}
		if err := give(d.Apply(v)); err != nil {
			return err
		}
	}
	if len(seen) == 0 {
		return ErrNoVisit
	}
	return nil
}

// ErrNoVisit means that there was no visit to hand over.
var ErrNoVisit = wording.NewError("there is no visit to hand over")

// grade is the grade of a visit, or nil where it names no protocol known here.
func (k Knowledge) grade(a *account.Account) *scoring.Grade {
	w := scoring.GradeOptions{Plain: true}
	if k.ReferenceDay != nil && a.Visit.Header.Reference != "" {
		w.Reference = &scoring.Reference{Site: a.Visit.Header.Reference, Words: k.ReferenceDay(a.Visit)}
	}
	g, err := k.Rules.Grade(a, w)
	if err != nil {
		return nil
	}
	return g
}

// scheme is the main scheme of a visit's protocol, or nil.
func (k Knowledge) scheme(v *visit.Visit) *scheme.Scheme {
	p, err := k.Rules.Protocol(v.Header.Protocol)
	if err != nil {
		return nil
	}
	return k.Rules.Scheme(p.Schemes[0])
}

// float writes a number without loss; 0 stands for not known and is empty.
func float(f float64) string {
	if f == 0 {
		return ""
	}
	return plain.FormatFloat(f)
}

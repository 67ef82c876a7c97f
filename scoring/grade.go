package scoring

import (
	"fmt"
	"strings"

	"rillkey/scoring/visit"
)

// Grade is what the animals of a visit say about the stream, or why they
// cannot say it yet.
type Grade struct {
	Visit    Subject  `json:"visit"`
	Protocol Basis    `json:"protocol"`
	Effort   Effort   `json:"effort"`
	Found    []Class  `json:"found"`   // by group of the main scheme, also where withheld
	Indices  []Index  `json:"indices"` // the main one first
	Remarks  []string `json:"remarks"`
	Caution  string   `json:"caution"`
}

// Caution goes with every grade.
const Caution = "This describes the animal community on that day. It says nothing on drinking or swimming. Local rules and the local authority's methods come first."

// variety is the remark for those who get no grade yet.
const variety = "Different kinds across the classes are a good sign, without being a grade."

// Subject says which visit is graded.
type Subject struct {
	ID   string `json:"id"`
	Site string `json:"site"`
	Date string `json:"date"` // YYYY-MM-DD
}

// Basis says by which protocol.
type Basis struct {
	ID      string  `json:"id"`
	Title   string  `json:"title"`
	Combine Combine `json:"combine"`
	Source  string  `json:"source"`
	Status  string  `json:"status"`
}

// Class is what was found of one group of the main scheme.
type Class struct {
	ID      string      `json:"id"`
	Label   string      `json:"label"`
	Animals int64       `json:"animals"`
	Kinds   []KindFound `json:"kinds"`
}

// KindFound is a kind with the number of its animals.
type KindFound struct {
	ID    string `json:"id"`
	Label string `json:"label"`
	Count int64  `json:"count"`
}

// Index is one index of a visit. Where it is withheld it has no value, no
// rating and no terms, but a reason.
type Index struct {
	ID       string    `json:"id"`
	Title    string    `json:"title"`
	Value    *float64  `json:"value"`  // nil when withheld
	Rating   string    `json:"rating"` // empty when withheld
	Withheld bool      `json:"withheld"`
	Reason   string    `json:"reason"` // why it is withheld
	Source   string    `json:"source"`
	Status   string    `json:"status"`           // how far the scheme's figures were confirmed
	Sample   string    `json:"sample,omitempty"` // the best sample, where samples stand by themselves
	Terms    []Term    `json:"terms"`            // what was added up
	LeftOut  []LeftOut `json:"left_out"`         // records that no kind could be counted for
	Remarks  []string  `json:"remarks"`
}

// Term is one kind's part of an index.
type Term struct {
	Kind       string  `json:"kind"`
	Label      string  `json:"label"`
	Group      string  `json:"group"`
	GroupLabel string  `json:"group_label"`
	Count      int64   `json:"count"`          // animals
	Code       string  `json:"code,omitempty"` // letter for the count, where the form has letters
	Weight     float64 `json:"weight"`
	Status     string  `json:"status"` // how far the kind's place was confirmed
}

// Grade grades a visit by the protocol that its header names. The error says
// that there is no such protocol; everything else is in the Grade.
func (r *Rules) Grade(v *visit.Visit) (*Grade, error) {
	p, err := r.Protocol(v.Header.Protocol)
	if err != nil {
		return nil, err
	}
	t := v.Tally()
	g := &Grade{
		Visit:    Subject{v.Header.ID, v.Header.Site, v.Header.Date},
		Protocol: Basis{p.ID, p.Title, p.Combine, p.Source, p.Status},
		Effort:   p.effort(t.Samples),
		Found:    r.found(r.Scheme(p.Schemes[0]), t.Records),
		Remarks:  []string{},
		Caution:  Caution,
	}
	for _, id := range p.Schemes {
		g.Indices = append(g.Indices, r.index(r.Scheme(id), p, g.Effort, t))
	}
	if !g.Effort.Complete {
		g.Remarks = append(g.Remarks, variety)
	}
	for _, n := range t.Notices {
		g.Remarks = append(g.Remarks, n.String())
	}
	return g, nil
}

// Withheld reports whether no index of the grade has a value.
func (g *Grade) Withheld() bool {
	for _, i := range g.Indices {
		if !i.Withheld {
			return false
		}
	}
	return true
}

func (r *Rules) found(s *Scheme, records []visit.Record) []Class {
	kinds, _ := r.sort(s, records)
	classes := make([]Class, len(s.Groups))
	for i, g := range s.Groups {
		classes[i] = Class{ID: g.ID, Label: g.Label, Kinds: []KindFound{}}
	}
	for _, f := range kinds {
		_, i := s.group(f.kind.Group)
		classes[i].Animals += f.count
		classes[i].Kinds = append(classes[i].Kinds, KindFound{f.kind.ID, f.kind.Label, f.count})
	}
	return classes
}

func (r *Rules) index(s *Scheme, p *Protocol, e Effort, t visit.Tally) Index {
	kinds, left := r.sort(s, t.Records)
	i := Index{
		ID: s.ID, Title: s.Title, Source: s.Source, Status: s.Status,
		Terms: []Term{}, LeftOut: left, Remarks: leftRemarks(left),
	}
	if i.Reason = withhold(e, t, kinds, left); i.Reason != "" {
		i.Withheld = true
		return i
	}
	best := r.pooled(s, t.Records)
	if p.Combine == Best {
		best = r.best(s, t)
		i.Remarks = append(i.Remarks, fmt.Sprintf("Each sample was judged by itself; the best one counts: sample %s.", best.sample))
	}
	if len(kinds) == 0 {
		i.Remarks = append(i.Remarks, "The samples are complete and hold no animal that this index counts. Before believing it, make sure that the nets were whole and the season right.")
	}
	if anyDoubtful(left) {
		i.Remarks = append(i.Remarks, "A closer name for animals left out may change this value.")
	}
	value := s.number(best.steps)
	i.Value, i.Rating, i.Sample = &value, s.rating(best.steps), best.sample
	i.Terms = append(i.Terms, best.terms...)
	return i
}

// withhold says why there can be no value, or "". A net found empty at full
// effort does have a value of 0, but only once the visit is finished: before,
// nobody may have entered the animals yet. Animals that could not be placed
// are no empty net.
func withhold(e Effort, t visit.Tally, kinds []kindCount, left []LeftOut) string {
	if !e.Complete {
		missing := make([]string, len(e.Missing))
		for i, m := range e.Missing {
			missing[i] = m.String()
		}
		return fmt.Sprintf("too few samples: %d taken of %d required; missing: %s", e.Taken, e.Required, strings.Join(missing, ", "))
	}
	if len(kinds) > 0 {
		return ""
	}
	if anyDoubtful(left) {
		return "no animal could be placed in a kind that this index counts; look again at those left out"
	}
	if !t.Finished {
		return "no animal that this index counts is recorded; if the nets were truly empty, finish the visit"
	}
	return ""
}

// sum is the value of one scheme for some records.
type sum struct {
	sample string // label, where the records are those of one sample
	terms  []Term
	steps  int64
}

func (r *Rules) pooled(s *Scheme, records []visit.Record) sum {
	kinds, _ := r.sort(s, records)
	terms, steps := s.formula.value(s, kinds)
	return sum{terms: terms, steps: steps}
}

// best is the sample of the highest value, the first taken among equals.
func (r *Rules) best(s *Scheme, t visit.Tally) sum {
	best := sum{steps: -1}
	for _, taken := range t.Samples {
		var own []visit.Record
		for _, rec := range t.Records {
			if rec.Sample == taken.Label {
				own = append(own, rec)
			}
		}
		one := r.pooled(s, own)
		one.sample = taken.Label
		if one.steps > best.steps {
			best = one
		}
	}
	return best
}

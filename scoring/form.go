package scoring

import (
	"fmt"
	"math"
	"slices"

	"rillkey/taxa/authored"
)

// formula turns the kinds found into terms and their value, in steps of the
// scheme's last decimal.
type formula interface {
	value(s *Scheme, found []kindCount) (terms []Term, steps int64)
}

// kindCount is a kind with the number of its animals, at least one.
type kindCount struct {
	kind  Kind
	count int64
}

// forms are the formulas a scheme file can name, each with what reads its
// part of the file: top is the whole file, groups are its tables of groups.
var forms = map[string]func(s *Scheme, top *authored.Table, groups []authored.Named) formula{
	"presence": readPresence,
	"coded":    readCoded,
}

var formNames = []string{"presence", "coded"}

// presence adds a weight for every kind found, however many animals. Source
// of the form: Virginia Save Our Streams assessment form, Streamkeepers
// Handbook Module 4.
type presence struct {
	weight map[string]int64 // by group
}

func readPresence(s *Scheme, _ *authored.Table, groups []authored.Named) formula {
	p := presence{map[string]int64{}}
	for _, g := range groups {
		p.weight[g.ID] = needWeight(s, g.Table, "weight")
	}
	return p
}

func (p presence) value(s *Scheme, found []kindCount) (terms []Term, steps int64) {
	for _, f := range found {
		w := p.weight[f.kind.Group]
		terms = append(terms, s.term(f, "", w))
		steps += w
	}
	return terms, steps
}

// coded gives every kind a letter by its count and adds the weight that its
// group has for the letter. Source of the form: EPA 841-B-97-003, section 4.2
// (memory).
type coded struct {
	codes  []code
	weight map[string]map[string]int64 // by group and code
}

// code is a letter for counts from a number up to the next code's.
type code struct {
	id, label string
	from      int64
}

func readCoded(s *Scheme, top *authored.Table, groups []authored.Named) formula {
	c := coded{codes: readCodes(top), weight: map[string]map[string]int64{}}
	for _, g := range groups {
		c.weight[g.ID] = map[string]int64{}
		g.Need("weights")
		weights := g.Sub("weights")
		if weights == nil {
			continue
		}
		for _, code := range c.codes {
			c.weight[g.ID][code.id] = needWeight(s, weights, code.id)
		}
		weights.Done()
	}
	return c
}

// needRows reads the tables below key, of which there must be one at least.
func needRows(top *authored.Table, key string) []authored.Named {
	rows := top.Subs(key)
	if top.Has(key) && len(rows) == 0 {
		top.FailAt(top.KeyPos(key), "empty", "there is no table ["+key+".…]", "add one")
	}
	return rows
}

// readCodes wants counts from 1 on covered without a gap, in rising order.
func readCodes(top *authored.Table) []code {
	top.Need("code")
	var codes []code
	next := int64(1)
	rows := needRows(top, "code")
	for i, row := range rows {
		c := code{id: row.ID, label: row.NeedStr("label")}
		row.Need("from")
		c.from, _ = row.Int("from")
		if c.from != next {
			row.Fail("from", "code-edges", fmt.Sprintf("this code begins at %d, but the counts before it end at %d", c.from, next-1), "codes stand in rising order and leave no count out")
		}
		to, bounded := row.Int("to")
		switch last := i == len(rows)-1; {
		case last && bounded:
			row.Fail("to", "code-edges", "the last code must go on without an end", "remove this line")
		case !last && !bounded:
			row.FailAt(row.Here(), "code-edges", "the code does not say where it ends", "add a line to = …")
		case !last && to < c.from:
			row.Fail("to", "code-edges", "the code ends before it begins", "")
		}
		next = to + 1
		codes = append(codes, c)
		row.Done()
	}
	return codes
}

func (c coded) value(s *Scheme, found []kindCount) (terms []Term, steps int64) {
	for _, f := range found {
		code := c.of(f.count)
		w := c.weight[f.kind.Group][code.id]
		terms = append(terms, s.term(f, code.label, w))
		steps += w
	}
	return terms, steps
}

func (c coded) of(count int64) code {
	i := slices.IndexFunc(c.codes, func(c code) bool { return c.from > count })
	if i < 0 {
		i = len(c.codes)
	}
	return c.codes[i-1]
}

func (s *Scheme) term(f kindCount, code string, weight int64) Term {
	g, _ := s.group(f.kind.Group)
	return Term{Kind: f.kind.ID, Label: f.kind.Label, Group: g.ID, GroupLabel: g.Label, Count: f.count, Code: code, Weight: s.number(weight), Status: f.kind.Status}
}

func needWeight(s *Scheme, t *authored.Table, key string) int64 {
	if !t.Has(key) {
		t.FailAt(t.Here(), "missing-weight", "the weight "+authored.Quote(key)+" is missing", "add a line "+key+" = …")
		return 0
	}
	return s.steps(t, key)
}

// steps reads a figure of the scheme exactly, in steps of its last decimal.
func (s *Scheme) steps(t *authored.Table, key string) int64 {
	v, ok := t.Num(key)
	if !ok {
		return 0
	}
	scaled := v * math.Pow10(s.decimals)
	whole := math.Round(scaled)
	switch {
	case v < 0 || v > 1e6:
		t.Fail(key, "bad-figure", fmt.Sprintf("%v lies outside 0 to 1000000", v), "")
		return 0
	case math.Abs(scaled-whole) > 1e-6:
		t.Fail(key, "bad-figure", fmt.Sprintf("%v has more decimals than the scheme, which has %d", v, s.decimals), "round it, or raise decimals in [scheme]")
		return 0
	}
	return int64(whole)
}

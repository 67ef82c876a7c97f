package scheme

import (
	"slices"
	"strings"

	"rillkey/scoring/chance"
	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

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
	least     int64
}

func readCoded(s *Scheme, f schemeFile) formula {
	if s.KindsFrom != "" {
		f.head.Fail("kinds_from", "kinds-from", wording.Text("this form has weights by code, which no other scheme can lend"),
			wording.Text("give this scheme groups and kinds of its own"))
	}
	c := coded{codes: readCodes(f.top), weight: map[string]map[string]int64{}}
	for _, g := range f.groups {
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
func needRows(top *authored.Table, key string) []authored.Section {
	rows := top.Subs(key)
	if top.Has(key) && len(rows) == 0 {
		top.FailAt(top.KeyPos(key), "empty", wording.Sprintf("there is no table [%s.…]", key), wording.Text("add one"))
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
		c.least, _ = row.Int("from")
		if c.least != next {
			row.Fail("from", "code-edges",
				wording.Sprintf("this code begins at %d, but the counts before it end at %d", c.least, next-1),
				wording.Text("codes stand in rising order and leave no count out"))
		}
		to, bounded := row.Int("to")
		switch last := i == len(rows)-1; {
		case last && bounded:
			row.Fail("to", "code-edges", wording.Text("the last code must go on without an end"), wording.Text("remove this line"))
		case !last && !bounded:
			row.FailAt(row.Here(), "code-edges", wording.Text("the code does not say where it ends"), wording.Text("add a line to = …"))
		case !last && to < c.least:
			row.Fail("to", "code-edges", wording.Text("the code ends before it begins"),
				wording.Text("write the lower number after from, the higher after to"))
		}
		next = to + 1
		codes = append(codes, c)
		row.Done()
	}
	return codes
}

func (c coded) value(s *Scheme, found []KindCount) (terms []Term, sum chance.Ratio) {
	sum.Den = 1
	for _, f := range found {
		code := c.codeFor(f.Count)
		w := c.weight[f.Kind.Group][code.id]
		terms = append(terms, s.term(f, code.label, w, w))
		sum.Num += w
	}
	return terms, sum
}

func (c coded) accrue(s *Scheme) chance.Accrual {
	part := func(kind int, n int64) (int64, int64) { return c.weight[s.Kinds[kind].Group][c.codeFor(n).id], 1 }
	return chance.Accrual{Part: part, Most: c.codes[len(c.codes)-1].least}
}

// bounds of a sum of letters: every kind that the open animals may be moves as far as
// it can with all that may be of it, but no more kinds move than there are animals. A
// letter may be worth less than the one before, so the value may fall too. They hold
// all that can happen, and may be wider.
func (c coded) bounds(s *Scheme, found []KindCount, open []OpenCount) (low, high chance.Ratio) {
	_, low = c.value(s, found)
	high = low
	have, more, animals := map[int]int64{}, map[int]int64{}, int64(0)
	for _, f := range found {
		have[f.Index] = f.Count
	}
	for _, o := range open {
		animals += o.Count
		for _, k := range o.Kinds {
			more[k] += o.Count
		}
	}
	var down, up []int64
	for k, n := range more {
		least, most := c.moves(s, k, have[k], n)
		down, up = append(down, least), append(up, most)
	}
	slices.Sort(down)
	slices.Sort(up)
	slices.Reverse(up)
	for i := range min(int64(len(up)), animals) {
		low.Num, high.Num = low.Num+down[i], high.Num+up[i]
	}
	return low, high
}

// moves is how far a kind of which there are some animals can move the sum down and
// up with some more.
func (c coded) moves(s *Scheme, kind int, have, more int64) (least, most int64) {
	weight, now := c.weight[s.Kinds[kind].Group], int64(0)
	if have > 0 {
		now = weight[c.codeFor(have).id]
	}
	for _, code := range c.codes {
		if n := max(code.least, have+1); n <= have+more && c.codeFor(n).id == code.id {
			least, most = min(least, weight[code.id]-now), max(most, weight[code.id]-now)
		}
	}
	return least, most
}

func (c coded) worth(s *Scheme, group string) string {
	words := make([]string, len(c.codes))
	for i, code := range c.codes {
		words[i] = s.Text(c.weight[group][code.id]) + " as " + code.label
	}
	return strings.Join(words, ", ")
}

func (c coded) codeFor(count int64) code {
	i := slices.IndexFunc(c.codes, func(c code) bool { return c.least > count })
	if i < 0 {
		i = len(c.codes)
	}
	return c.codes[i-1]
}

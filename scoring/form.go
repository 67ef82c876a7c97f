package scoring

import (
	"fmt"
	"math"

	"rillkey/scoring/scheme"
	"rillkey/taxa/authored"
)

// formula turns the kinds found into terms and their value.
type formula interface {
	value(s *Scheme, found []kindCount) (terms []Term, value ratio)
	// worth is what a kind of the group is worth, in words; empty where the
	// form judges no kind.
	worth(s *Scheme, group string) string
}

// lacking is a formula that may have no value although animals were found, and
// says why.
type lacking interface{ lacks() string }

// counting is a formula that knows kinds by their counts alone; all are above 0.
type counting interface {
	ofCounts(s *Scheme, counts []int64) ratio
}

// kindCount is a kind with the number of its animals, at least one.
type kindCount struct {
	index int // in Scheme.Kinds
	kind  scheme.Kind
	count int64
}

// ratio is an exact value in steps of the scheme's last decimal; one without
// a denominator is the mean of nothing and no value at all.
type ratio struct{ num, den int64 }

func (r ratio) defined() bool { return r.den > 0 }

// steps rounds half up to whole steps. It does so in whole numbers, so that a
// value halfway between two is never decided by how a machine stores
// fractions: 751 / 200 is 3.755 and becomes 3.76.
func (r ratio) steps() int64 { return (2*r.num + r.den) / (2 * r.den) }

// below reports whether r is less than w steps.
func (r ratio) below(w int64) bool { return r.num < w*r.den }

// above reports whether r is more than w steps.
func (r ratio) above(w int64) bool { return r.num > w*r.den }

// schemeFile is a scheme's file as a formula reads it.
type schemeFile struct {
	top, head *authored.Table  // the whole file, and its table [scheme]
	groups    []authored.Named // its tables of groups
}

// forms are the formulas a scheme file can name, each with what reads its
// part of the file.
var forms = map[string]func(s *Scheme, f schemeFile) formula{
	"presence":       readPresence,
	"presence-mean":  readPresenceMean,
	"presence-count": readPresenceCount,
	"coded":          readCoded,
	"mean-tolerance": readMeanTolerance,
	"percent":        readPercent,
	"dominant":       readDominant,
	"shannon":        readShannon,
	"simpson":        readSimpson,
	"pielou":         readPielou,
	"rarefied":       readRarefied,
}

var formNames = []string{"presence", "presence-mean", "presence-count", "coded", "mean-tolerance", "percent", "dominant", "shannon", "simpson", "pielou", "rarefied"}

// term is a kind's line in the account of an index; part is what it adds to
// the sum.
func (s *Scheme) term(f kindCount, code string, weight, part int64) Term {
	g, _ := s.Group(f.kind.Group)
	return Term{
		Kind: f.kind.ID, Label: f.kind.Label, Group: g.ID, GroupLabel: g.Label, Count: f.count, Code: code,
		Weight: s.number(weight), Part: s.number(part), Status: f.kind.Status, Note: f.kind.Note,
	}
}

// readWeights reads the one weight of each group, or takes those of the
// scheme whose kinds are shared, in steps of this scheme.
func (s *Scheme) readWeights(groups []authored.Named) {
	if s.KindsFrom != "" {
		return // lent with the kinds
	}
	s.weight = map[string]int64{}
	for _, g := range groups {
		s.weight[g.ID] = needWeight(s, g.Table, "weight")
	}
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

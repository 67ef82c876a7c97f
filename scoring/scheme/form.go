package scheme

import (
	"math"

	"rillkey/scoring/chance"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// formula turns the kinds found into terms and their value.
type formula interface {
	value(s *Scheme, found []KindCount) (terms []Term, value chance.Ratio)
	// worth is what a kind of the group is worth, in words; empty where the
	// form judges no kind.
	worth(s *Scheme, group string) string
}

// lacking is a formula that may have no value although animals were found, and
// says why.
type lacking interface{ lacks() string }

// counting is a formula that knows kinds by their counts alone; all are above 0.
type counting interface {
	ofCounts(s *Scheme, counts []int64) chance.Ratio
}

// bounded is a formula that can tell how far its value could move if every
// animal named too broadly were named closer: each may turn out to be any of
// the kinds it may be, or one that has no value and stays left out. So the
// value itself always lies between the two.
type bounded interface {
	bounds(s *Scheme, found []KindCount, open []OpenCount) (low, high chance.Ratio)
}

// accruing is a formula that can be taken apart so.
type accruing interface {
	accrue(s *Scheme) chance.Accrual
}

// schemeFile is a scheme's file as a formula reads it.
type schemeFile struct {
	top, head *authored.Table    // the whole file, and its table [scheme]
	groups    []authored.Section // its tables of groups
}

// forms are the formulas that a scheme file can name, each with what reads its
// part of the file.
var forms = []struct {
	name string
	read func(s *Scheme, f schemeFile) formula
}{
	{"presence", readPresence},
	{"presence-mean", readPresenceMean},
	{"presence-count", readPresenceCount},
	{"coded", readCoded},
	{"mean-tolerance", readMeanTolerance},
	{"percent", readPercent},
	{"dominant", readDominant},
	{"shannon", readShannon},
	{"simpson", readSimpson},
	{"pielou", readPielou},
	{"rarefied", readRarefied},
}

// readForm reads the formula that the file names; nil where nobody knows it.
func (s *Scheme) readForm(f schemeFile) formula {
	names := make([]string, len(forms))
	for i, form := range forms {
		if form.name == s.Form {
			return form.read(s, f)
		}
		names[i] = form.name
	}
	if s.Form == "" {
		return nil // which is told already
	}
	f.head.Fail("form", "unknown-form", wording.Sprintf("there is no form %s", plain.Quote(s.Form)), wording.Sprintf("the forms are %s",
		plain.List(names)))
	return nil
}

// term is a kind's line in the account of an index; part is what it adds to
// the sum.
func (s *Scheme) term(f KindCount, code string, weight, part int64) Term {
	g, _ := s.Group(f.Kind.Group)
	return Term{
		Kind: f.Kind.ID, Label: f.Kind.Label, Group: g.ID, GroupLabel: g.Label, Count: f.Count, Code: code,
		Weight: s.Number(weight), Part: s.Number(part), Status: f.Kind.Status, Note: f.Kind.Note,
	}
}

// readWeights reads the one weight of each group, or takes those of the
// scheme whose kinds are shared, in steps of this scheme.
func (s *Scheme) readWeights(groups []authored.Section) {
	if s.KindsFrom != "" {
		return // lent with the kinds
	}
	s.weight = map[string]int64{}
	for _, g := range groups {
		s.weight[g.ID] = needWeight(s, g.Table, "weight")
	}
}

// weightOf is the weight of a kind, in steps.
func (s *Scheme) weightOf(kind int) int64 { return s.weight[s.Kinds[kind].Group] }

// weights has what each kind is worth at hand.
func (s *Scheme) weights(weight func(kind int) int64) []int64 {
	out := make([]int64, len(s.Kinds))
	for kind := range out {
		out[kind] = weight(kind)
	}
	return out
}

func needWeight(s *Scheme, t *authored.Table, key string) int64 {
	if !t.Has(key) {
		t.FailAt(t.Here(), "missing-weight", wording.Sprintf("the weight %s is missing", plain.Quote(key)),
			wording.Sprintf("add a line %s = …", key))
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
		t.Fail(key, "bad-figure", wording.Sprintf("%v lies outside 0 to 1000000", v), wording.Text("correct the number"))
		return 0
	case math.Abs(scaled-whole) > 1e-6:
		t.Fail(key, "bad-figure", wording.Sprintf("%v has more decimals than the scheme, which has %d", v, s.decimals),
			wording.Text("round it, or raise decimals in [scheme]"))
		return 0
	}
	return int64(whole)
}

package scheme

import (
	"slices"

	"rillkey/scoring/chance"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// percent is the share of some kinds among the animals of all kinds, in per
// cent: 100 x sum(n of those) / N. Source of the form: common practice.
type percent struct {
	mean
	counted map[int]bool
}

// readPercent reads which kinds are meant: those of some groups, or single
// ones, or both.
func readPercent(s *Scheme, f schemeFile) formula {
	head := f.head
	p := percent{counted: map[int]bool{}}
	for i, id := range head.Strs("of_groups") {
		if _, g := s.Group(id); g < 0 {
			head.FailAt(head.Elem("of_groups", i), "unknown-group", wording.Sprintf("there is no group %s", plain.Quote(id)),
				plain.Nearest(id, s.groupIDs()))
		}
		for k, kind := range s.Kinds {
			p.counted[k] = p.counted[k] || kind.Group == id
		}
	}
	for i, id := range head.Strs("of_kinds") {
		k := slices.IndexFunc(s.Kinds, func(k Kind) bool { return k.ID == id })
		if k < 0 {
			head.FailAt(head.Elem("of_kinds", i), "unknown-kind", wording.Sprintf("there is no kind %s", plain.Quote(id)),
				plain.Nearest(id, s.kindIDs()))
		}
		p.counted[k] = true
	}
	if !head.Has("of_groups") && !head.Has("of_kinds") {
		head.FailAt(head.Here(), "missing-key", wording.Text("the scheme does not say of which kinds it is the share"),
			wording.Text("add a line of_groups = […] or of_kinds = […]"))
	}
	p.mean = mean{parts: hundred, weight: func(kind int) int64 {
		if p.counted[kind] {
			return hundred * s.One()
		}
		return 0
	}}
	return p
}

const hundred = 100

// isShare tells that the scheme is the share of some kinds among all animals.
func (s *Scheme) isShare() bool {
	_, is := s.formula.(percent)
	return is
}

// Meant tells that a kind is one of those whose share the scheme is; false for
// schemes that are none.
func (s *Scheme) Meant(kind int) bool {
	p, is := s.formula.(percent)
	return is && p.counted[kind]
}

func (percent) worth(*Scheme, string) string { return "" }

// dominant is the share of the most frequent kind, in per cent: 100 x max(n) /
// N. Source of the form: common practice.
type dominant struct{}

func readDominant(*Scheme, schemeFile) formula { return dominant{} }

func (d dominant) value(s *Scheme, found []KindCount) (terms []Term, share chance.Ratio) {
	var counts []int64
	for _, f := range found {
		terms = append(terms, s.term(f, "", s.One(), f.Count*s.One()))
		counts = append(counts, f.Count)
	}
	return terms, d.ofCounts(s, counts)
}

func (dominant) ofCounts(s *Scheme, counts []int64) (share chance.Ratio) {
	for _, n := range counts {
		share.Num = max(share.Num, hundred*s.One()*n)
		share.Den += n
	}
	return share
}

// bounds of the share of the most frequent kind: at most all open animals that may be
// of one kind join it, and at least none of them joins the most frequent. They hold
// all that can happen, and the lower may be wider.
func (d dominant) bounds(s *Scheme, found []KindCount, open []OpenCount) (low, high chance.Ratio) {
	have, more, all, animals := map[int]int64{}, map[int]int64{}, int64(0), int64(0)
	sole, soleOf := int64(0), map[int]int64{} // animals that count whatever they are
	most := int64(1)
	for _, f := range found {
		have[f.Index], more[f.Index] = f.Count, 0
		all += f.Count
		most = max(most, f.Count)
	}
	for _, o := range open {
		animals += o.Count
		if o.Sole {
			sole += o.Count
		}
		for _, k := range o.Kinds {
			more[k] += o.Count
			if o.Sole {
				soleOf[k] += o.Count
			}
		}
	}
	whole := hundred * s.One()
	for k, n := range more {
		one := chance.Ratio{Num: whole * (have[k] + n), Den: all + n + sole - soleOf[k]}
		if !high.Defined() || one.Num*high.Den > high.Num*one.Den {
			high = one
		}
	}
	return chance.Ratio{Num: whole * most, Den: all + animals}, high
}

func (dominant) worth(*Scheme, string) string { return "" }

package scheme

import (
	"math"

	"rillkey/scoring/chance"
	"rillkey/scoring/diversity"
	"rillkey/taxa/wording"
)

// diverse is a measure of diversity, which is no fraction of whole numbers: it
// is computed in floating point and rounded to the scheme's last decimal.
type diverse struct {
	measure func(counts []int64) (value float64, ok bool)
	part    func(n int64, total float64) float64 // what a kind adds; nil where parts do not add up
	why     string                               // why there is no value, where there is none
}

func readShannon(*Scheme, schemeFile) formula {
	return diverse{diversity.Shannon, diversity.ShannonPart, ""}
}

func readSimpson(*Scheme, schemeFile) formula {
	square := func(n int64, total float64) float64 { return -float64(n) / total * float64(n) / total }
	return diverse{diversity.Simpson, square, ""}
}

func readPielou(*Scheme, schemeFile) formula {
	return diverse{diversity.Pielou, nil, wording.Text("evenness needs two kinds at least")}
}

// readRarefied reads to how many animals the kinds are rarefied.
func readRarefied(_ *Scheme, f schemeFile) formula {
	head := f.head
	head.Need("rarefied_to")
	n, _ := head.Int("rarefied_to")
	if n < 2 || n > 10_000 {
		head.Fail("rarefied_to", "bad-figure", wording.Text("rarefied_to must be from 2 to 10000 animals"),
			wording.Text("write how many animals all visits are brought down to, as 100"))
	}
	measure := func(counts []int64) (float64, bool) { return diversity.Rarefied(counts, int(n)) }
	return diverse{measure, nil, wording.Sprintf("it is the number of kinds expected among %d animals, and fewer were counted", n)}
}

func (d diverse) value(s *Scheme, found []KindCount) (terms []Term, value chance.Ratio) {
	counts := make([]int64, len(found))
	for i, f := range found {
		counts[i] = f.Count
	}
	total := diversity.Total(counts)
	for _, f := range found {
		t := s.term(f, "", s.One(), 0)
		if d.part != nil {
			t.Part = d.part(f.Count, total)
		}
		terms = append(terms, t)
	}
	return terms, d.ofCounts(s, counts)
}

func (d diverse) ofCounts(s *Scheme, counts []int64) chance.Ratio {
	v, ok := d.measure(counts)
	if !ok {
		return chance.Ratio{}
	}
	return chance.Ratio{Num: int64(math.Round(v * float64(s.One()))), Den: 1}
}

func (diverse) worth(*Scheme, string) string { return "" }

func (d diverse) lacks() string { return d.why }

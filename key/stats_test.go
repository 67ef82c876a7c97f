package key_test

import (
	"fmt"
	"math"
	"testing"

	"rillkey/key"
)

// By hand, for smallKey: worm 1 question; clinger 3; stonefly 3; swimmer two
// routes of 3 each. Mean (1 + 3 + 3 + 3) / 4 = 2.5; log2 4 = 2.
func TestStats(t *testing.T) {
	s := small(t).Stats()
	if s.Couplets != 4 || s.Ends != 4 || s.MeanFlat != 2.5 || s.Bound != 2 || s.Longest != 3 {
		t.Errorf("%+v", s)
	}
	if s.MeanWeighted != 0 || s.CommonWithin != 0 {
		t.Error("a key that says nothing of commonness has no weighted mean")
	}
	if fmt.Sprint(s.Depths) != "[0 1 0 3]" || fmt.Sprint(s.LongestEnds) != "[swimmer clinger stonefly]" {
		t.Errorf("%v %v", s.Depths, s.LongestEnds)
	}
}

// Weights 7, 1, 1, 1: (7x1 + 3x3) / 10 = 1.6, and all within six questions.
func TestStatsByCommonness(t *testing.T) {
	k := compile(t, smallKey+"\n[commonness]\nsource = \"invented\"\nweight = { worm = 7, swimmer = 1, clinger = 1, stonefly = 1 }\n")
	if s := k.Stats(); math.Abs(s.MeanWeighted-1.6) > 1e-12 || s.CommonWithin != 1 {
		t.Errorf("%+v", s)
	}
}

// By hand, for smallKey with all four kinds alike. Couplet 1: everything is
// asked, 0.05 misread. Couplet 2: the swimmer is keyed both ways and cannot be
// lost; of clinger and stonefly 0.05 are read as the other lead and 0.05 as
// fitting none, which is looked at again: 2 x 0.25 x 0.95 x 0.05/0.95 = 0.025.
// Couplets 3 and 4: half the swimmers and one other kind each, 0.2 misread:
// 0.2 x (0.11875 + 0.225) = 0.06875. Effort: 1 + 0.75 + 2 x 0.375 x 1.8 = 3.1.
func TestStatsFollowTheAnimals(t *testing.T) {
	s := small(t).Stats()
	want := []key.AtCouplet{{Couplet: "1", Asked: 1, Lost: 0.05}, {Couplet: "2", Asked: 0.75, Lost: 0.025},
		{Couplet: "3", Asked: 0.375, Lost: 0.06875}, {Couplet: "4", Asked: 0.375, Lost: 0.06875}}
	for i, w := range want {
		if got := s.PerCouplet[i]; got.Couplet != w.Couplet || math.Abs(got.Asked-w.Asked) > 1e-12 || math.Abs(got.Lost-w.Lost) > 1e-12 {
			t.Errorf("couplet %s: %+v", w.Couplet, got)
		}
	}
	if math.Abs(s.Lost-0.2125) > 1e-12 || math.Abs(s.MeanEffort-3.1) > 1e-12 {
		t.Errorf("lost %v, effort %v", s.Lost, s.MeanEffort)
	}
	if fmt.Sprint(s.Carriers) != "[{legs 1 1} {tails 1 0.75} {gills 2 0.75}]" {
		t.Error(s.Carriers)
	}
}

// Weights of a half, a quarter and two eighths: 1.75 bits.
func TestTheEntropyOfTheCommonness(t *testing.T) {
	k := compile(t, smallKey+"\n[commonness]\nsource = \"invented\"\nweight = { worm = 4, swimmer = 2, clinger = 1, stonefly = 1 }\n")
	if h := k.Stats().BoundWeighted; math.Abs(h-1.75) > 1e-12 {
		t.Error(h)
	}
}

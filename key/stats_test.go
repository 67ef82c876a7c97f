package key_test

import (
	"fmt"
	"math"
	"testing"
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

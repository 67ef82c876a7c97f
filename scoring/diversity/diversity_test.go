package diversity_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"rillkey/scoring/diversity"
)

func read(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", "vegan", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// table reads an open data set: a row per site, a column per kind.
func table(t *testing.T, name string) (sites [][]int64) {
	for _, row := range read(t, name+".csv")[1:] {
		var counts []int64
		for _, cell := range row {
			n, err := strconv.ParseInt(cell, 10, 64)
			if err != nil {
				t.Fatal(err)
			}
			counts = append(counts, n)
		}
		sites = append(sites, counts)
	}
	return sites
}

// incidence counts for the first sites in how many of them each kind is.
func incidence(sites [][]int64) diversity.Incidence {
	x := diversity.Incidence{Samples: len(sites)}
	for kind := range sites[0] {
		in := 0
		for _, counts := range sites {
			if counts[kind] > 0 {
				in++
			}
		}
		if in > 0 {
			x.Frequencies = append(x.Frequencies, in)
		}
	}
	return x
}

// Every figure that vegan gives on its tables, to 1e-9 of its size.
func TestAgainstVegan(t *testing.T) {
	tables := map[string][][]int64{"BCI": table(t, "BCI"), "dune": table(t, "dune")}
	checked := map[string]int{}
	for _, row := range read(t, "values.csv")[1:] {
		sites, measure := tables[row[0]], row[2]
		if sites == nil {
			continue // a series in time
		}
		want, err := strconv.ParseFloat(row[3], 64)
		if err != nil {
			t.Fatal(err)
		}
		name, to, _ := strings.Cut(measure, "-")
		n, _ := strconv.Atoi(to)
		var got float64
		ok := true
		if last, many := strings.CutPrefix(row[1], "1-"); many {
			k, _ := strconv.Atoi(last)
			got, ok = ofSamples(incidence(sites[:k]), measure, n)
		} else {
			site, _ := strconv.Atoi(row[1])
			got, ok = ofCounts(sites[site-1], name, n)
		}
		if !ok || math.Abs(got-want) > 1e-9*math.Abs(want) {
			t.Errorf("%s %s %s: %v, want %v", row[0], row[1], measure, got, want)
		}
		checked[name]++
	}
	for _, name := range []string{"specnumber", "shannon", "simpson", "pielou", "rarefy", "chao", "chao.se", "specaccum"} {
		if checked[name] < 10 {
			t.Errorf("%s was compared %d times", name, checked[name])
		}
	}
}

func ofCounts(counts []int64, name string, n int) (float64, bool) {
	switch name {
	case "specnumber":
		return float64(diversity.Richness(counts)), true
	case "shannon":
		return diversity.Shannon(counts)
	case "simpson":
		return diversity.Simpson(counts)
	case "pielou":
		return diversity.Pielou(counts)
	case "rarefy":
		return diversity.Rarefied(counts, n)
	}
	return 0, false
}

func ofSamples(x diversity.Incidence, measure string, t int) (float64, bool) {
	all, ok := x.Chao2()
	switch measure {
	case "chao":
		return all.Kinds, ok
	case "chao.se":
		return all.Error, ok
	}
	e, ok := x.Expected(t)
	return e.Kinds, ok
}

func TestSmallNumbers(t *testing.T) {
	shannon, ok := diversity.Shannon([]int64{5, 0, 5})
	if !ok || math.Abs(shannon-math.Ln2) > 1e-15 {
		t.Errorf("two equal kinds have ln 2, got %v", shannon)
	}
	for label, f := range map[string]func([]int64) (float64, bool){
		"shannon": diversity.Shannon, "simpson": diversity.Simpson, "pielou": diversity.Pielou,
		"rarefied": func(c []int64) (float64, bool) { return diversity.Rarefied(c, 2) },
	} {
		if v, ok := f(nil); ok || v != 0 {
			t.Errorf("%s of nothing is %v", label, v)
		}
		if v, ok := f([]int64{math.MaxInt64, math.MaxInt64, math.MaxInt64}); !ok || math.IsNaN(v) || v < 0 || v > 2 {
			t.Errorf("%s of three huge kinds is %v", label, v)
		}
		one, ok := f([]int64{1})
		if label == "pielou" || label == "rarefied" {
			if ok {
				t.Errorf("%s of one animal is %v", label, one)
			}
		} else if !ok || one != 0 {
			t.Errorf("%s of one animal is %v", label, one)
		}
	}
	// Hurlbert by hand: of 3 + 1 animals, two drawn; the kind of one is missed
	// with C(3,2) / C(4,2) = 1/2, the kind of three never.
	if s, _ := diversity.Rarefied([]int64{3, 1}, 2); s != 1.5 {
		t.Errorf("rarefied %v, want 1.5", s)
	}
}

// One kind in a single sample and none in two: nothing is missed, and not for certain.
// Source: vegan 2.6-4, specpool of (1,1,1), (0,1,1), (0,1,1), (0,0,1).
func TestChao2OfOneKindMetOnce(t *testing.T) {
	e, ok := diversity.Incidence{Samples: 4, Frequencies: []int{1, 3, 4}}.Chao2()
	if !ok || e.Kinds != 3 || math.Abs(e.Error-0.30618621784789724) > 1e-12 || e.Low != 3 || e.High != 3 {
		t.Errorf("%+v %v", e, ok)
	}
}

func TestExtrapolation(t *testing.T) {
	// Three samples, four kinds in one of them, two in two, one in all:
	// Q0 = 2/3 x 16 / 4 = 2.667, and with four samples more
	// 7 + 2.667 (1 - (1 - 4 / (3 x 2.667 + 4))^4) = 7 + 2.667 (1 - (2/3)^4).
	x := diversity.Incidence{Samples: 3, Frequencies: []int{1, 1, 1, 1, 2, 2, 3}}
	all, _ := x.Chao2()
	seven, ok := x.Expected(7)
	q0 := 8.0 / 3
	if want := 7 + q0*(1-math.Pow(2.0/3, 4)); !ok || math.Abs(seven.Kinds-want) > 1e-12 || math.Abs(all.Kinds-7-q0) > 1e-12 {
		t.Errorf("%+v, want %v; in all %+v", seven, want, all)
	}
	if seven.Low < 7 || seven.High <= seven.Kinds || seven.Error <= 0 {
		t.Errorf("%+v", seven)
	}
	last := 0.0
	for n := 1; n <= 400; n++ {
		e, _ := x.Expected(n)
		if e.Kinds < last || n == 3 && math.Abs(e.Kinds-7) > 1e-12 || e.Kinds > all.Kinds+1e-9 {
			t.Fatalf("%d samples: %+v", n, e)
		}
		last = e.Kinds
	}
	if math.Abs(last-all.Kinds) > 1e-6 {
		t.Errorf("with ever more samples %v, not %v", last, all.Kinds)
	}
	for label, x := range map[string]diversity.Incidence{"no sample": {}, "one sample": {Samples: 1, Frequencies: []int{1, 1}}} {
		if _, ok := x.Expected(7); ok {
			t.Errorf("%s foretells something", label)
		}
	}
	full := diversity.Incidence{Samples: 4, Frequencies: []int{4, 4, 3}}
	if e, ok := full.Expected(9); !ok || e.Kinds != 3 || e.Low != 3 {
		t.Errorf("where nothing was rare nothing is missed: %+v", e)
	}
}

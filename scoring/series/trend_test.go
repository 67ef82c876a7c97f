package series

import (
	"encoding/csv"
	"math"
	"math/rand"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// fromR are those of base R in testdata/published/vegan, by series.
func fromR(t *testing.T) map[string]map[string]float64 {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", "vegan", "values.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]map[string]float64{}
	for _, r := range rows {
		if r[0] == "series" {
			if out[r[1]] == nil {
				out[r[1]] = map[string]float64{}
			}
			if out[r[1]][r[2]], err = strconv.ParseFloat(r[3], 64); err != nil {
				t.Fatal(err)
			}
		}
	}
	if len(out) != 5 {
		t.Fatalf("%d series", len(out))
	}
	return out
}

func equal(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(1e-9, math.Abs(b)) }

func TestAgainstR(t *testing.T) {
	for name, want := range fromR(t) {
		var points []point
		for i := 1; ; i++ {
			y, ok := want["y-"+strconv.Itoa(i)]
			if !ok {
				break
			}
			points = append(points, point{time: float64(i), value: y})
		}
		got, ok := mannKendall(points)
		if !ok || float64(got.S) != want["S"] || !equal(got.P, want["p"]) || !equal(got.Sen, want["sen"]) || got.Exact != (name != "tied") {
			t.Errorf("%s: %+v, want %v %v %v", name, got, want["S"], want["p"], want["sen"])
		}
	}
}

func TestNothingIsSaidOfTooLittle(t *testing.T) {
	three := []point{{1, 1}, {2, 2}, {3, 3}}
	if _, ok := mannKendall(three); ok {
		t.Error("three visits are too few")
	}
	if _, ok := mannKendall([]point{{1, 1}, {1, 2}, {1, 3}, {1, 4}}); ok {
		t.Error("one day has no trend")
	}
	if got, ok := mannKendall([]point{{1, 2}, {2, 2}, {3, 2}, {4, 2}}); !ok || got.S != 0 || got.P != 1 || got.Sen != 0 {
		t.Errorf("equal values have none: %+v", got)
	}
}

// The order of the points is not that of the times.
func TestOrderDoesNotMatter(t *testing.T) {
	random := rand.New(rand.NewSource(1))
	for range 200 {
		points := make([]point, 4+random.Intn(20))
		for i := range points {
			points[i] = point{time: float64(random.Intn(12)), value: float64(random.Intn(9))}
		}
		a, okA := mannKendall(points)
		random.Shuffle(len(points), func(i, j int) { points[i], points[j] = points[j], points[i] })
		if b, okB := mannKendall(points); a != b || okA != okB || okA && !(a.P >= 0 && a.P <= 1) {
			t.Fatalf("%+v and %+v", a, b)
		}
	}
}

// With four values in order the exact chance is 2 of 24 orders.
func TestFourVisitsNeverProveMuch(t *testing.T) {
	got, _ := mannKendall([]point{{2021, 9}, {2022, 11}, {2023, 15}, {2024, 18}})
	if !equal(got.P, 2.0/24) || got.S != 6 || !strings.Contains(strconv.FormatFloat(got.Sen, 'f', -1, 64), "3") {
		t.Errorf("%+v", got)
	}
}

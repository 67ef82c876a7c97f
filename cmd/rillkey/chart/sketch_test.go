package chart

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// The line from Flinders Peak to Buninyong is the worked example of the technical
// manual of the Geocentric Datum of Australia (coordinates and 54 972.271 m as
// remembered): on paper the two lie as far apart as the scale says.
func TestDistancesOnASketchAreThoseOfASurvey(t *testing.T) {
	minutes := func(d, m, s float64) float64 { return d + m/60 + s/3600 }
	s := Sketch{Places: []SketchPlace{
		{Name: "Flinders Peak", Latitude: -minutes(37, 57, 3.72030), Longitude: minutes(144, 25, 29.52440)},
		{Name: "Buninyong", Latitude: -minutes(37, 39, 10.15610), Longitude: minutes(143, 55, 35.38390)},
	}}
	g := s.ground(axes{0, 0, 200, 200, 0, 0})
	a, b := g.place(s.Places[0]), g.place(s.Places[1])
	got := math.Hypot(a.x-b.x, a.y-b.y) * g.scale
	if math.Abs(got/54972.271-1) > 0.001 {
		t.Errorf("%.1f m, not 54972.3", got)
	}
	if b.x >= a.x || b.y >= a.y {
		t.Errorf("Buninyong lies to the north-west: %v %v", a, b)
	}
}

// Lengths of a degree on WGS 84, to the metre (tables of geodesy, from memory).
func TestMetresOfADegree(t *testing.T) {
	for _, row := range []struct{ latitude, north, east float64 }{{0, 110574, 111320}, {45, 111132, 78847}, {60, 111412, 55800}} {
		if north, east := metres(row.latitude); math.Abs(north-row.north) > 2 || math.Abs(east-row.east) > 2 {
			t.Errorf("at %v: %.0f and %.0f, not %.0f and %.0f", row.latitude, north, east, row.north, row.east)
		}
	}
}

// Places on both sides of the antimeridian lie side by side.
func TestASketchAcrossTheAntimeridian(t *testing.T) {
	places := []SketchPlace{{Latitude: -17, Longitude: 179.9}, {Latitude: -17.1, Longitude: -179.8}}
	e, ok := ExtentOf(places)
	if !ok || math.Abs(e.East-e.West-0.3) > 1e-9 || math.Abs(e.West-179.9) > 1e-9 {
		t.Errorf("%+v", e)
	}
	g := Sketch{Places: places}.ground(axes{0, 0, 80, 60, 0, 0})
	if a, b := g.place(places[0]), g.place(places[1]); a.x >= b.x || a.x < 0 || b.x > 80 {
		t.Errorf("%v %v", a, b)
	}
}

func TestSquaresOfAGrid(t *testing.T) {
	g := Grid{30, 4}
	for _, row := range []struct {
		column, row int
		want        string
	}{{0, 0, "A1"}, {25, 3, "Z4"}, {26, 0, "AA1"}, {29, 1, "AD2"}} {
		if got := g.Square(row.column, row.row); got != row.want {
			t.Errorf("%d %d: %s, not %s", row.column, row.row, got, row.want)
		}
	}
	e := Extent{50, 51, -2, -1}
	if c, r := e.Cell(Grid{2, 2}, SketchPlace{Latitude: 50.9, Longitude: -1.9}); c != 0 || r != 0 {
		t.Errorf("the north-west is %d %d", c, r)
	}
	if c, r := e.Cell(Grid{2, 2}, SketchPlace{Latitude: 50, Longitude: -1}); c != 1 || r != 1 {
		t.Errorf("the south-east corner is %d %d", c, r)
	}
}

// Whatever the places, no label lies on another and nothing leaves the page.
func TestRandomSketchesFit(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 30 {
		s := Sketch{Title: "Sites", Grid: Grid{random.IntN(4), 3}}
		spread := math.Pow(10, -4+5*random.Float64())
		for i := range 1 + random.IntN(70) {
			s.Places = append(s.Places, SketchPlace{
				Number: i + 1, Name: strings.Repeat(hostile, random.IntN(2)) + fmt.Sprintf("Mill %d", i), Hollow: random.IntN(2) == 0,
				Latitude: min(90, 54+spread*random.NormFloat64()), Longitude: -2 + spread*random.NormFloat64(), This: i == 0,
				Rough: float64(random.IntN(8)/7) * 9000,
			})
		}
		size := PaperSize{60 + 60*random.Float64(), 45 + 60*random.Float64()}
		fits(t, "sketch", s, size)
	}
}

func TestASketchOfNothing(t *testing.T) {
	if svg := (Sketch{Title: "Sites"}).SVG(PaperSize{88, 60}); !strings.Contains(svg, "no place") {
		t.Error(svg)
	}
}

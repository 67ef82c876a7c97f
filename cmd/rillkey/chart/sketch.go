package chart

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Sketch is a map that coordinates alone draw, without coast, road or outside server:
// north is up everywhere, and distances hold in its middle.
type Sketch struct {
	Title  string
	Places []SketchPlace // in the order in which they get their labels
	Grid   Grid          // squares named at the edges, if it has any
}

// SketchPlace is a site on a sketch. Its coordinates are WGS 84 decimal degrees.
type SketchPlace struct {
	Number              int    // stands beside it; 0 for a place without a label
	Name                string // beside the number where there is room
	Latitude, Longitude float64
	Rough               float64 // metres: it lies somewhere within so far, as a square; 0 for a dot
	Hollow              bool    // a ring instead of a dot
	This                bool    // framed: the place that a page is about
	Note                string  // in the table
}

// Grid parts a sketch into columns, lettered from the west, and rows, numbered from
// the north.
type Grid struct{ Columns, Rows int }

// Square is the name of a square of a grid, counted from 0.
func (g Grid) Square(column, row int) string {
	name := ""
	for c := column; ; c = c/26 - 1 {
		name = string(rune('A'+c%26)) + name
		if c < 26 {
			return fmt.Sprintf("%s%d", name, row+1)
		}
	}
}

// Extent is the ground that places lie on: degrees, a west that is above east by less
// than 360 where the places lie on both sides of the antimeridian.
type Extent struct{ South, North, West, East float64 }

// ExtentOf is the least that holds all places; ok is false for none.
func ExtentOf(places []SketchPlace) (e Extent, ok bool) {
	if len(places) == 0 {
		return e, false
	}
	e.South, e.North = 90, -90
	east := make([]float64, 0, len(places))
	for _, p := range places {
		e.South, e.North = min(e.South, finite(p.Latitude)), max(e.North, finite(p.Latitude))
		east = append(east, math.Mod(finite(p.Longitude)+540, 360))
	}
	slices.Sort(east)
	// The widest gap round the earth is outside.
	gap, from := east[0]+360-east[len(east)-1], 0
	for i := 1; i < len(east); i++ {
		if d := east[i] - east[i-1]; d > gap {
			gap, from = d, i
		}
	}
	e.West = east[from] - 180
	e.East = e.West + 360 - gap
	return e, true
}

// offset is how far east of the west edge and north of the south edge a place lies, in
// degrees.
func (e Extent) offset(p SketchPlace) (east, north float64) {
	return math.Mod(finite(p.Longitude)-e.West+720, 360), finite(p.Latitude) - e.South
}

// Cell is the square of a grid over the extent in which a place lies.
func (e Extent) Cell(g Grid, p SketchPlace) (column, row int) {
	part := func(v, of float64, n int) int {
		if of <= 0 {
			return 0
		}
		return max(0, min(int(v/of*float64(n)), n-1))
	}
	east, north := e.offset(p)
	return part(east, e.East-e.West, g.Columns), part(e.North-e.South-north, e.North-e.South, g.Rows)
}

// Metres of a degree at a latitude on the ellipsoid of WGS 84, along the meridian and
// along the parallel (the usual series, from memory; held against a geodetic
// survey's worked example by a test).
func metres(latitude float64) (north, east float64) {
	f := latitude * math.Pi / 180
	north = 111132.954 - 559.822*math.Cos(2*f) + 1.175*math.Cos(4*f)
	east = 111412.84*math.Cos(f) - 93.5*math.Cos(3*f) + 0.118*math.Cos(5*f)
	return north, max(east, 1)
}

// ground is where places lie on paper.
type ground struct {
	Extent
	north, east float64 // metres of a degree
	scale       float64 // metres of a millimetre
	middle      point   // of the extent, on paper
}

// leastGround is how many metres a sketch shows at least, so that one place is not
// taken for a continent.
const leastGround = 400

func (s Sketch) extent() (e Extent, high, wide float64) {
	e, _ = ExtentOf(s.Places)
	north, east := metres((e.South + e.North) / 2)
	rough := 0.0
	for _, p := range s.Places {
		rough = max(rough, 2*p.Rough)
	}
	return e, max((e.North-e.South)*north+rough, leastGround), max((e.East-e.West)*east+rough, leastGround)
}

func (s Sketch) ground(a axes) ground {
	g := ground{middle: point{(a.left + a.right) / 2, (a.top + a.bottom) / 2}}
	var high, wide float64
	g.Extent, high, wide = s.extent()
	g.north, g.east = metres((g.South + g.North) / 2)
	const air = 3 // millimetres to the frame
	g.scale = max(wide/(a.right-a.left-2*air), high/(a.bottom-a.top-2*air))
	return g
}

func (g ground) pointAt(east, north float64) point {
	return point{g.middle.x + (east-(g.East-g.West)/2)*g.east/g.scale, g.middle.y - (north-(g.North-g.South)/2)*g.north/g.scale}
}

func (g ground) place(p SketchPlace) point { return g.pointAt(g.offset(p)) }

// Height is how many millimetres the sketch wants at a width.
func (s Sketch) Height(width float64) float64 {
	_, high, wide := s.extent()
	return max(50, min(width*1.2, width*high/wide+12)) + strip
}

// Data is every place with its coordinates, which are given as they are.
func (s Sketch) Data() Data {
	d := Data{Head: []string{wording.Text("number"), wording.Text("site"), wording.Text("latitude"), wording.Text("longitude"),
		wording.Text("note")}}
	for _, p := range s.Places {
		number := ""
		if p.Number > 0 {
			number = fmt.Sprint(p.Number)
		}
		note := p.Note
		if p.Rough > 0 {
			note = wording.Sprintf("only roughly, within %s; ", distance(p.Rough)) + note
		}
		d.Rows = append(d.Rows, []string{number, p.Name, degrees(p.Latitude, "N", "S"), degrees(p.Longitude, "E", "W"), note})
	}
	return d
}

// degrees writes a coordinate to a ten-thousandth of a degree, some ten metres.
func degrees(v float64, positive, negative string) string {
	side := positive
	if v < 0 {
		side = negative
	}
	return number(math.Abs(v), 4) + "° " + side
}

// distance is a length on the ground in words.
func distance(m float64) string {
	if m < 1000 {
		return number(m, 0) + " m"
	}
	return number(m/1000, 1) + " km"
}

// Alt says how many places there are and how far the sketch reaches.
func (s Sketch) Alt() string {
	if len(s.Places) == 0 {
		return wording.Sprintf("Map, %s: no place.", s.Title)
	}
	e, _ := ExtentOf(s.Places)
	north, east := metres((e.South + e.North) / 2)
	text := wording.Sprintf("Map, %s: %s, %s from north to south and %s from west to east", s.Title, plain.Count(len(s.Places), "site"),
		distance((e.North-e.South)*north), distance((e.East-e.West)*east))
	if s.Grid.Columns > 0 {
		text += wording.Sprintf("; %d by %d squares", s.Grid.Columns, s.Grid.Rows)
	}
	return text + "."
}

// Text is a line for every place, from north to south.
func (s Sketch) Text(cols int, _ bool) []string {
	cols = max(leastCols, cols)
	lines := wrap(s.Alt(), cols, 2)
	places := slices.Clone(s.Places)
	slices.SortStableFunc(places, func(a, b SketchPlace) int { return cmp.Compare(b.Latitude, a.Latitude) })
	for _, p := range places {
		lines = append(lines, wrap(fmt.Sprintf("%s: %s, %s", p.Name, degrees(p.Latitude, "N", "S"),
			degrees(p.Longitude, "E", "W")), cols, 2)...)
	}
	return lines
}

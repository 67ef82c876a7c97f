package chart

import (
	"encoding/xml"
	"flag"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"rillkey/taxa/plain"
)

var update = flag.Bool("update", false, "write the golden files anew")

const hostile = "\"><script>alert(1)</script>\x1b[31m & <b x='\u202e Thunderbird caddisfly of the long, long name"

func f(v float64) *float64 { return &v }

// examples are one chart of each kind as a visit gives them.
func examples() map[string]Chart {
	return map[string]Chart{
		"bars": Bars{Title: "Animals by kind", Groups: []BarGroup{
			{Label: "sensitive", Bars: []Bar{{"mayfly", 13, "", Solid}, {"dobsonfly (hellgrammite)", 1, "", Solid}}},
			{Label: "tolerant", Bars: []Bar{{"midge", 4, "", OpenBar}, {"aquatic worm", 0, "", OpenBar}}},
		}},
		"likely": RatingChances{Title: "How likely each rating is", Ratings: []string{"excellent", "good", "fair", "poor"},
			Point: "good", Reasons: []Uncertainty{
				{"doubtful names", []float64{0.002, 0.998, 0, 0}}, {"other samples", []float64{0.2, 0.5, 0.3, 0}},
			}},
		"gathered": Gathered{Title: "Kinds found against samples taken",
			Taken: []Step{{1, 2.5, 1, 4}, {2, 5, 5, 8.1}}, Ahead: []Step{{3, 6.7, 5, 11.2}, {4, 7.8, 5, 13.6}, {7, 9.3, 5, 17.6}}},
		"overtime": OverTime{Title: "This site over time", Index: "Presence index, 3-2-1",
			Zones: []RatingZone{{"poor", 0}, {"fair", 11}, {"good", 17}, {"excellent", 23}},
			Visit: []VisitPoint{{"2023-05-14", f(12), "fair", Bounds{11, 13}, Bounds{8, 16}, false},
				{"2024-05-12", nil, "too few samples", Bounds{}, Bounds{}, false},
				{"2025-05-18", f(17), "good", Bounds{}, Bounds{12, 22}, false},
				{"2026-05-16", f(29), "excellent", Bounds{27.5, 30.5}, Bounds{23, 35}, true}}},
	}
}

var sizes = map[string]PaperSize{"bars": {88, 40}, "likely": {88, 52}, "gathered": {88, 58}, "overtime": {88, 66}}

func TestGolden(t *testing.T) {
	for name, c := range examples() {
		text := ""
		for _, cols := range []int{80, 40} {
			text += strings.Join(c.Text(cols, true), "\n") + "\n\n"
		}
		text += strings.Join(c.Text(80, false), "\n") + "\n\n" + c.Alt() + "\n"
		svg := strings.ReplaceAll(c.SVG(sizes[name]), "><", ">\n<") + "\n"
		for file, got := range map[string]string{name + ".svg": svg, name + ".txt": text} {
			path := filepath.Join("testdata", file)
			if *update {
				if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("%s is not as it was looked at; look again, then -update", path)
			}
		}
	}
}

// drawn is what of an SVG can be held against its page.
type drawn struct {
	points []point
	texts  []box
	words  []string
	rects  []float64 // widths
	dots   []point
}

type box struct{ left, right, base, size float64 }

var numbers = regexp.MustCompile(`-?[0-9.]+(e[-+][0-9]+)?`)

func parse(t *testing.T, svg string) (d drawn) {
	t.Helper()
	dec := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := dec.Token()
		if err == io.EOF {
			return d
		}
		if err != nil {
			t.Fatalf("%v\n%s", err, svg)
		}
		el, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		a := map[string]string{}
		for _, at := range el.Attr {
			a[at.Name.Local] = at.Value
		}
		num := func(key string) float64 {
			v, err := strconv.ParseFloat(a[key], 64)
			if err != nil {
				t.Fatalf("%s of %s is %q", key, el.Name.Local, a[key])
			}
			return v
		}
		switch el.Name.Local {
		case "path":
			all := numbers.FindAllString(a["d"], -1)
			for i := 0; i+1 < len(all); i += 2 {
				x, _ := strconv.ParseFloat(all[i], 64)
				y, _ := strconv.ParseFloat(all[i+1], 64)
				d.points = append(d.points, point{x, y})
			}
		case "rect":
			x, y, w, h := num("x"), num("y"), num("width"), num("height")
			d.points = append(d.points, point{x, y}, point{x + w, y + h})
			d.rects = append(d.rects, w)
		case "circle":
			at := point{num("cx"), num("cy")}
			d.points, d.dots = append(d.points, at), append(d.dots, at)
		case "text":
			token, _ := dec.Token()
			words, _ := token.(xml.CharData)
			size := num("font-size")
			w := width(string(words), size)
			if a["font-weight"] == "bold" {
				w *= bolder
			}
			left := map[string]float64{fromStart: num("x"), atMiddle: num("x") - w/2, toEnd: num("x") - w}[a["text-anchor"]]
			d.texts, d.words = append(d.texts, box{left, left + w, num("y"), size}), append(d.words, string(words))
		}
	}
}

// fits holds what must be so of every chart.
func fits(t *testing.T, what string, c Chart, s PaperSize) {
	t.Helper()
	svg := c.SVG(s)
	if _, err := fmt.Sscanf(svg[strings.Index(svg, "viewBox="):], `viewBox="0 0 %f %f"`, &s.Width, &s.Height); err != nil {
		t.Fatal(err)
	}
	d := parse(t, svg)
	const slack = 0.02
	for _, p := range d.points {
		if p.x < -slack || p.y < -slack || p.x > s.Width+slack || p.y > s.Height+slack {
			t.Fatalf("%s: a mark lies at %v, outside %v\n%s", what, p, s, svg)
		}
	}
	for i, b := range d.texts {
		if b.left < -slack || b.right > s.Width+0.2 || b.base > s.Height+slack || b.base < b.size*0.6 {
			t.Fatalf("%s: the text %q leaves the page %v: %+v", what, d.words[i], s, b)
		}
		for j, o := range d.texts[:i] {
			if b.left < o.right-0.1 && o.left < b.right-0.1 && math.Abs(b.base-o.base) < 0.7*b.size {
				t.Fatalf("%s in %v: %q lies over %q\n%s", what, s, d.words[i], d.words[j], svg)
			}
		}
	}
	for _, bad := range []string{"NaN", "Inf", "<script", "<b ", "url(", "href", " id="} {
		if strings.Contains(svg, bad) {
			t.Fatalf("%s: the drawing holds %q", what, bad)
		}
	}
	for _, cols := range []int{20, 40, 80, 200} {
		for _, bars := range []bool{false, true} {
			for _, line := range c.Text(cols, bars) {
				if cells(line) > cols || plain.HasControl(line) || strings.Contains(line, "NaN") {
					t.Fatalf("%s: a line of %d columns in %d: %q", what, cells(line), cols, line)
				}
				if !bars && strings.ContainsAny(line, "█▏▎▍▌▋▊▉") {
					t.Fatalf("%s: a bar among the words alone: %q", what, line)
				}
			}
		}
	}
	if c.Alt() == "" || strings.Contains(c.Alt(), "NaN") {
		t.Fatalf("%s: it says %q", what, c.Alt())
	}
	head := len(c.Data().Head)
	for _, row := range c.Data().Rows {
		if len(row) != head {
			t.Fatalf("%s: a row of %d cells under a head of %d", what, len(row), head)
		}
	}
}

func TestNothingLeavesItsPlace(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a second")
	}
	nan, inf := math.NaN(), math.Inf(1)
	many := Bars{Title: "many"}
	for g := range 5 {
		group := BarGroup{Label: fmt.Sprint("group ", g)}
		for i := range 120 {
			group.Bars = append(group.Bars, Bar{fmt.Sprintf("kind number %d of a long name", i), int64(1_000_000 - i), "", BarFill(g % 4)})
		}
		many.Groups = append(many.Groups, group)
	}
	var long []Step
	for i := range 60 {
		long = append(long, Step{i*20 + 1, float64(i), float64(i) / 2, float64(i) * 2})
	}
	cases := map[string]Chart{
		"no bars":    Bars{},
		"only zeros": Bars{Title: "t", Groups: []BarGroup{{Bars: []Bar{{"a", 0, "", Solid}, {"b", 0, "", OpenBar}}}}},
		"one bar":    Bars{Title: "t", Groups: []BarGroup{{Bars: []Bar{{"a", 1, "", Crossed}}}}},
		"a million": Bars{Title: "t",
			Groups: []BarGroup{{Label: hostile, Bars: []Bar{{hostile, 1_000_000, hostile, Striped}, {"b", 1, "", OpenBar}}}}},
		"the largest count": Bars{Title: "t", Groups: []BarGroup{{Bars: []Bar{{"a", math.MaxInt64, "", Solid}, {"b", -5, "", Solid}}}}},
		"hundreds of kinds": many,
		"no ratings":        RatingChances{},
		"hostile ratings": RatingChances{
			Title: hostile, Ratings: []string{hostile, "b"}, Point: hostile,
			Reasons: []Uncertainty{{hostile, []float64{1, nan}}, {"b", nil}}},
		"chances of NaN": RatingChances{
			Title: "t", Ratings: []string{"a"}, Reasons: []Uncertainty{{"r", []float64{nan}}, {"s", []float64{inf}}}},
		"nothing gathered": Gathered{},
		"one sample":       Gathered{Title: "t", Taken: []Step{{1, 3, 3, 3}}},
		"a million kinds":  Gathered{Title: hostile, Taken: []Step{{1, 1e6, 1e6, 1e6}}, Ahead: []Step{{2, 2e6, 1e6, 3e6}}},
		"kinds of NaN":     Gathered{Title: "t", Taken: []Step{{1, nan, nan, inf}, {2, 1, -inf, 2}}},
		"many samples":     Gathered{Title: "t", Taken: long, Ahead: []Step{{4000, 80, 60, 100}}},
		"no visits":        OverTime{},
		"one withheld": OverTime{Title: "t", Index: hostile,
			Visit: []VisitPoint{{"2026-05-16", nil, "too few", Bounds{}, Bounds{}, true}}},
		"one graded": OverTime{Title: "t", Index: "i", Zones: []RatingZone{{hostile, 0}, {hostile, 5}},
			Visit: []VisitPoint{{"2026-05-16", f(0), hostile, Bounds{0, 1}, Bounds{0, 2}, true}}},
		"visits of NaN": OverTime{Title: "t", Index: "i", Zones: []RatingZone{{"a", nan}, {"b", inf}},
			Visit: []VisitPoint{{"x", f(nan), "a", Bounds{nan, nan}, Bounds{nan, inf}, false},
				{"2026-05-16", f(inf), "b", Bounds{}, Bounds{}, false}}},
	}
	for name, c := range examples() {
		cases[name] = c
	}
	for what, c := range cases {
		for _, s := range []PaperSize{{88, 60}, {180, 90}, {40, 12}, {60, 30}, {0, math.NaN()}} {
			fits(t, what, c, s)
		}
	}
}

func TestRandomChartsFit(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	label := func() string {
		return strings.Repeat([]string{"Wm ", "ill", "mayfly ", "浅い川", "é"}[r.IntN(5)], r.IntN(9)+1)
	}
	value := func() float64 { return []float64{0, 1, r.Float64(), r.Float64() * 100, 1e6 * r.Float64()}[r.IntN(5)] }
	for i := range 60 {
		s := PaperSize{40 + 150*r.Float64(), 12 + 120*r.Float64()}
		b, l := Bars{Title: label()}, RatingChances{Title: label(), Reasons: []Uncertainty{{label(), nil}, {label(), nil}}}
		g, o := Gathered{Title: label()}, OverTime{Title: label(), Index: label()}
		from := 0.0
		for n := range r.IntN(12) {
			group := BarGroup{Label: label()}
			for range r.IntN(8) {
				group.Bars = append(group.Bars, Bar{label(), int64(value()), "", BarFill(r.IntN(4))})
			}
			b.Groups = append(b.Groups, group)
			l.Ratings = append(l.Ratings, label())
			l.Reasons[0].Chances = append(l.Reasons[0].Chances, r.Float64())
			k := value()
			g.Taken = append(g.Taken, Step{n + 1, k, k - value(), k + value()})
			o.Zones = append(o.Zones, RatingZone{label(), from})
			from += value()
			v := VisitPoint{Date: fmt.Sprintf("20%02d-%02d-%02d", r.IntN(40), r.IntN(12)+1, r.IntN(28)+1), Rating: label(),
				Names: plusMinus(value(), value()), Samples: plusMinus(value(), value())}
			if r.IntN(3) > 0 {
				v.Value = f(value())
			}
			o.Visit = append(o.Visit, v)
		}
		for what, c := range map[string]Chart{"bars": b, "likely": l, "gathered": g, "overtime": o} {
			fits(t, fmt.Sprintf("%s %d", what, i), c, s)
		}
	}
}

// A kind of chart that was forgotten among the examples is named; a sketch has tests of its
// own.
func TestEveryKindOfChartIsTried(t *testing.T) {
	tried := map[string]bool{"Sketch": true}
	for _, c := range examples() {
		tried[reflect.TypeOf(c).Name()] = true
	}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(`(?m)^func \((?:\w+ )?\*?([A-Z]\w*)\) SVG\(`).FindAllSubmatch(text, -1) {
			if found++; !tried[string(m[1])] {
				t.Errorf("%s: no example of %s is drawn; add one to examples and to TestRandomChartsFit", file, m[1])
			}
		}
	}
	if found < len(tried)-1 {
		t.Errorf("only %d kinds of chart were found", found)
	}
}

func TestTicksAreRound(t *testing.T) {
	for _, tc := range []struct {
		most  float64
		steps int
		whole bool
		want  string
	}{
		{0, 5, false, "[0 0.2 0.4 0.6000000000000001 0.8 1]"},
		{1, 5, true, "[0 1]"},
		{7, 5, true, "[0 2 4 6 8]"},
		{10, 5, false, "[0 2 4 6 8 10]"},
		{11, 5, false, "[0 5 10 15]"},
		{1e6, 2, false, "[0 500000 1e+06]"},
		{math.NaN(), 1, false, "[0 1]"},
	} {
		if got := fmt.Sprint(ticks(tc.most, tc.steps, tc.whole)); got != tc.want {
			t.Errorf("up to %v in %d steps: %s, not %s", tc.most, tc.steps, got, tc.want)
		}
	}
}

// What is summed up for want of room is told in numbers and makes no bar.
func TestTheRestIsSummedUp(t *testing.T) {
	b := Bars{Title: "t", Groups: []BarGroup{
		{Bars: []Bar{{"a", 9, "", Solid}, {"b", 8, "", Solid}, {"c", 7, "", Solid}, {"d", 6, "", Solid}, {"e", 5, "", Solid}}}}}
	d := parse(t, b.SVG(PaperSize{80, 16}))
	if text := strings.Join(d.words, "; "); text != "a; 9 (26\u00a0%); b; 8 (23\u00a0%); 3 more; 18 (51\u00a0%)" || len(d.rects) != 2 {
		t.Errorf("%d bars and %q", len(d.rects), text)
	}
}

// A bar is as long as its count, whatever else is drawn.
func TestBarsAreAsLongAsTheirCounts(t *testing.T) {
	b := Bars{Title: "t", Groups: []BarGroup{{Bars: []Bar{{"a", 40, "", Solid}, {"b", 10, "", OpenBar}, {"c", 0, "", OpenBar}}}}}
	d := parse(t, b.SVG(PaperSize{100, 40}))
	if len(d.rects) != 2 || math.Abs(d.rects[0]-4*d.rects[1]) > 0.05 {
		t.Errorf("40 and 10 are drawn as %v", d.rects)
	}
}

package lineart_test

import (
	"math"
	"strings"
	"testing"

	"rillkey/taxa/lineart"
)

func svg(inner string) []byte {
	return []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10" stroke="#000" fill="none">` + inner + `</svg>`)
}

// Where strokes end, as the SVG 1.1 recommendation defines the commands.
func TestStrokesEndWhereSVGSaysTheyEnd(t *testing.T) {
	for inner, want := range map[string]lineart.Point{
		`<path d="M1 2l3-1h2V9"/>`:                                        {6, 9},
		`<path d="m1 1 2 2 3 3"/>`:                                        {6, 6},
		`<path d="M0 0C0 1 1 2 3 4s1 1 2 2"/>`:                            {5, 6},
		`<path d="M0 0Q1 1 2 0T4 0"/>`:                                    {4, 0},
		`<path d="M0 0a2 2 0 0 1 4 0"/>`:                                  {4, 0},
		`<line x1="1" y1="1" x2="4" y2="5"/>`:                             {4, 5},
		`<g transform="translate(2 3) scale(2)"><path d="M0 0L1 1"/></g>`: {4, 5},
		`<path transform="rotate(90 1 0)" style="x:y" d="M1 0L2 0"/>`:     {1, 1},
		`<polyline points="1,1 2,2.5-3,4"/>`:                              {-3, 4},
		`<rect x="1" y="2" width="3" height="4"/>`:                        {1, 6},
	} {
		got, err := lineart.Parse(svg(inner))
		if err != nil {
			t.Errorf("%s: %v", inner, err)
			continue
		}
		p := got[len(got)-1].Points
		if last := p[len(p)-1]; math.Hypot(last.X-want.X, last.Y-want.Y) > 1e-9 {
			t.Errorf("%s ends at %v, not at %v", inner, last, want)
		}
	}
}

// A half circle keeps its distance from its middle and goes the way that is said.
func TestAnArcIsRound(t *testing.T) {
	got, err := lineart.Parse(svg(`<path d="M-2 0A2 2 0 0 1 2 0"/>`))
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range got[0].Points {
		if math.Abs(math.Hypot(p.X, p.Y)-2) > 1e-9 || p.Y > 1e-9 {
			t.Errorf("%v does not lie on the upper half of the circle", p)
		}
	}
}

func TestFillsGoByHowLightAColourIs(t *testing.T) {
	for colour, want := range map[string]lineart.Fill{"none": lineart.Open, "#fff": lineart.Paper, "white": lineart.Paper,
		"#cccccc": lineart.Tone, "#777": lineart.Shade, "black": lineart.Ink, "url(https://example.org)": lineart.Tone} {
		got, err := lineart.Parse(svg(`<circle r="1" fill="` + colour + `"/>`))
		if err != nil || got[0].Fill != want {
			t.Errorf("%s: %v, %v, want %v", colour, got, err, want)
		}
	}
}

// What could do anything but draw is refused, or passed over.
func TestOnlyStrokesAreRead(t *testing.T) {
	for inner, want := range map[string]string{
		`<script>alert(1)</script>`:            "<script> is not drawn",
		`<image href="x.png"/>`:                "<image> is not drawn",
		`<a href="x"><path d="M0 0L1 1"/></a>`: "<a> is not drawn",
		`<text>hello</text>`:                   "<text> is not drawn",
		`<style>*{}</style>`:                   "<style> is not drawn",
		`<use href="#x"/>`:                     "<use> is not drawn",
		`<path d="M0 0L1"/>`:                   "the path's command L does not take 1 numbers",
		`<path d="L0 0"/>`:                     "a path begins with M",
		`<path d="M0 0L1e9 0"/>`:               "too far out",
		`<path d="M0 0L1e999 0"/>`:             "too large a number",
		`<path d="M0 0 &evil;"/>`:              "this is no SVG",
		``:                                     "nothing is drawn",
		`<path d="M` + strings.Repeat("1 1 ", 20001) + `"/>`:   "more than 20000 points",
		strings.Repeat("<g>", 40) + strings.Repeat("</g>", 40): "groups nest deeper",
		strings.Repeat(" ", lineart.MostBytes):                 "more than 256 kB",
	} {
		if got, err := lineart.Parse(svg(inner)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%.60s: %v, %v; want %q", inner, got, err, want)
		}
	}
	for _, file := range []string{`<html/>`, `<!DOCTYPE svg [<!ENTITY a "b">]><svg/>`, `plain`} {
		if _, err := lineart.Parse([]byte(file)); err == nil {
			t.Errorf("%s is taken for a drawing", file)
		}
	}
	got, err := lineart.Parse(svg(`<title>a</title><x:y xmlns:x="urn:x"><script/></x:y><path d="M0 0L1 1" onclick="x()"/>`))
	if err != nil || len(got) != 1 {
		t.Errorf("%v, %v", got, err)
	}
}

func FuzzParse(f *testing.F) {
	f.Add(svg(`<g transform="scale(2)"><path d="M0 0a1 2 3 0 1 4 5zl1 1"/></g>`))
	f.Fuzz(func(t *testing.T, data []byte) {
		strokes, err := lineart.Parse(data)
		if err != nil {
			return
		}
		for _, s := range strokes {
			for _, p := range s.Points {
				if !(math.Abs(p.X) <= 1e6 && math.Abs(p.Y) <= 1e6) {
					t.Fatalf("a point at %v", p)
				}
			}
		}
	})
}

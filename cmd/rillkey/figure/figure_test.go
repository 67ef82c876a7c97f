package figure

import (
	"encoding/xml"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

var update = flag.Bool("update", false, "write the golden figures anew; look at each before committing it")

var paperSize = Size{Width: 54, Height: 40}

func catalog(t testing.TB) *taxa.Catalog {
	t.Helper()
	c, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// keys are all embedded keys.
func keys(t *testing.T) map[string]*couplets.Sound {
	t.Helper()
	names, err := fs.Glob(couplets.Embedded(), "*.toml")
	if err != nil || len(names) == 0 {
		t.Fatalf("no embedded key (%v)", err)
	}
	out := map[string]*couplets.Sound{}
	for _, name := range names {
		s, err := couplets.Load(couplets.Embedded(), name, name, catalog(t))
		if err != nil {
			t.Fatal(err)
		}
		out[name] = s
	}
	return out
}

// dots counts what is to be seen in braille.
func dots(lines []string) int {
	n := 0
	for _, r := range strings.Join(lines, "") {
		for b := r - 0x2800; b > 0; b >>= 1 {
			n += int(b & 1)
		}
	}
	return n
}

// shape is an svg without its words, which tell siblings apart anyhow.
func shape(svg string) string {
	return regexp.MustCompile(`(?s)<(title|desc|text)[ >].*?</(title|desc|text)>`).ReplaceAllString(svg, "")
}

func TestEveryTaxonHasAFigure(t *testing.T) {
	c := catalog(t)
	a := NewAtlas(c, nil)
	for _, taxon := range c.Taxa() {
		if taxon.States("outline") == nil { // named so that it is found; no key ends in it
			continue
		}
		f := a.Taxon(taxon)
		if strings.HasPrefix(f.Alt, "Too little") {
			t.Errorf("%s has no outline", taxon.ID)
		}
		wellFormed(t, taxon.ID, f.SVG(paperSize), paperSize)
		if n := dots(f.Braille(24, 10)); n < 30 {
			t.Errorf("%s shows %d dots in braille", taxon.ID, n)
		}
	}
}

func TestSiblingLeadsDiffer(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	for name, key := range keys(t) {
		a := NewAtlas(catalog(t), key)
		for i := range key.Couplets {
			siblings(t, name+" couplet "+key.Couplets[i].ID, a.Leads(&key.Couplets[i]))
		}
	}
}

func TestStatesOfATraitDiffer(t *testing.T) {
	c := catalog(t)
	a := NewAtlas(c, nil)
	for i, trait := range c.Vocabulary().Asked() {
		if i%keytest.Times(1, 3) > 0 {
			continue
		}
		siblings(t, "trait "+trait.ID, a.States(trait))
	}
}

// siblings fails unless all figures are there and no two are the same, on
// paper or on a small terminal.
func siblings(t *testing.T, what string, all []Figure) {
	t.Helper()
	seen := map[string]int{}
	for i, f := range all {
		if f.Empty() {
			t.Errorf("%s: number %d has no figure", what, i)
			continue
		}
		svg := f.SVG(paperSize)
		wellFormed(t, what, svg, paperSize)
		for kind, text := range map[string]string{"svg": shape(svg), "braille": strings.Join(f.Braille(24, 10), "\n")} {
			if j, ok := seen[kind+text]; ok {
				t.Errorf("%s: numbers %d and %d have the same %s", what, j, i, kind)
			}
			seen[kind+text] = i
		}
	}
}

var allowed = map[string][]string{
	"svg":   {"xmlns", "role", "width", "height", "viewBox", "fill", "stroke", "stroke-linecap", "stroke-linejoin", "stroke-width"},
	"title": {}, "desc": {},
	"path": {"d", "fill", "stroke", "stroke-width", "stroke-dasharray"},
	"text": {"x", "y", "font-family", "font-size", "text-anchor", "fill", "stroke"},
}

// wellFormed fails unless svg is well-formed XML of the few elements and
// attributes allowed, with every coordinate inside its view box.
func wellFormed(t testing.TB, what, svg string, s Size) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return
		}
		if err != nil {
			t.Fatalf("%s: %v", what, err)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		attributes, known := allowed[e.Name.Local]
		if !known {
			t.Fatalf("%s: element %s", what, e.Name.Local)
		}
		for _, attribute := range e.Attr {
			if !slices.Contains(attributes, attribute.Name.Local) {
				t.Fatalf("%s: attribute %s of %s", what, attribute.Name.Local, e.Name.Local)
			}
			if attribute.Name.Local == "d" {
				checkInside(t, what, attribute.Value, s)
			}
		}
	}
}

func checkInside(t testing.TB, what, data string, s Size) {
	t.Helper()
	for i, field := range strings.FieldsFunc(data, func(r rune) bool { return strings.ContainsRune("MLCZ ", r) }) {
		v, err := strconv.ParseFloat(field, 64)
		limit := s.Width
		if i%2 == 1 {
			limit = s.Height
		}
		if err != nil || !(v >= 0 && v <= limit) {
			t.Fatalf("%s: %q is outside 0 to %v", what, field, limit)
		}
	}
}

// The figures looked at one by one; a change in them is to be looked at too.
func TestGoldenFigures(t *testing.T) {
	c := catalog(t)
	a := NewAtlas(c, nil)
	for _, id := range []string{"perlidae", "heptageniidae", "limnephilidae", "hydropsychidae", "corydalus",
		"libellulidae", "coenagrionidae", "psephenidae", "cambaridae", "gammaridae", "physidae", "sphaeriidae",
		"erpobdellidae", "tipulidae", "simuliidae"} {
		f := a.Taxon(c.Taxon(id))
		golden(t, id+".svg", f.SVG(paperSize)+"\n")
		golden(t, id+".txt", strings.Join(f.Braille(40, 14), "\n")+"\n")
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if string(want) != got {
		t.Errorf("%s has changed; look at it, then run the test with -update", name)
	}
}

func TestTheSameTraitsMakeTheSameFigure(t *testing.T) {
	c := catalog(t)
	first, second := NewAtlas(c, nil), NewAtlas(c, nil)
	for _, taxon := range c.Taxa() {
		if first.Taxon(taxon).SVG(paperSize) != second.Taxon(taxon).SVG(paperSize) {
			t.Errorf("%s is drawn differently the second time", taxon.ID)
		}
	}
}

// own is a catalog of somebody's own: the embedded traits, and a taxon whose
// name says nothing.
func own(t *testing.T, taxon string) *taxa.Catalog {
	t.Helper()
	traits, err := os.ReadFile("../../../taxa/traits.toml")
	if err != nil {
		t.Fatal(err)
	}
	c, err := taxa.Load(fstest.MapFS{"traits.toml": {Data: traits}, "own.toml": {Data: []byte(taxon)}}, "own")
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestSomebodysOwnTaxonIsDrawnByItsTraits(t *testing.T) {
	c := own(t, `[taxon.x1]
rank = "family"
scientific = "Xxx"
source = "memory"
[taxon.x1.traits]
legs = "6"
outline = "long"
rings = "sections"
head = "capsule"
tails = "2"
tail-length = "long"
`)
	k := newSketch(NewAtlas(c, nil).look(c.Taxon("x1")).traits())
	nymph(k)
	if planOf(k.is, "") != planNymph || !k.Shows("tails") || k.Shows("hooks") {
		t.Errorf("six legs and two tails make plan %v, tails %v, hooks %v", planOf(k.is, ""), k.Shows("tails"), k.Shows("hooks"))
	}
}

func TestTooLittleKnownIsSaidAndNotDrawn(t *testing.T) {
	c := own(t, "[taxon.x1]\nrank = \"family\"\nscientific = \"Xxx\"\nsource = \"memory\"\n")
	f := NewAtlas(c, nil).Taxon(c.Taxon("x1"))
	if !strings.HasPrefix(f.Alt, "Too little is known of Xxx") || !f.Empty() || strings.Contains(f.SVG(paperSize), "<path") {
		t.Errorf("alt %q", f.Alt)
	}
}

// A fauna whose traits have no strokes gets words and no figures.
func TestTraitsWithoutStrokesAreNotDrawn(t *testing.T) {
	c, err := taxa.Load(fstest.MapFS{
		"traits.toml": {Data: []byte("[trait.song]\nquestion = \"What song?\"\nlook = \"eye\"\nmisread = 0.1\nsource = \"invented\"\n" +
			"state.high = { label = \"high\" }\nstate.low = { label = \"low\" }\n")},
		"birds.toml": {Data: []byte("[taxon.reed]\nrank = \"order\"\nscientific = \"Reed\"\nlength_mm = [9, 12]\n" +
			"source = \"invented\"\ntraits = { song = \"low\" }\n")},
	}, "own")
	if err != nil {
		t.Fatal(err)
	}
	a := NewAtlas(c, nil)
	figures := append(a.States(c.Vocabulary().Trait("song")), a.Taxon(c.Taxon("reed")))
	for _, f := range figures {
		if svg := f.SVG(paperSize); !f.Empty() || strings.ContainsAny(svg, "C") && strings.Contains(svg, "Z\"") {
			t.Errorf("%s is drawn: %s", f.Title, svg)
		}
	}
	if f := figures[2]; !strings.Contains(f.SVG(paperSize), "<text") || dots(f.Braille(24, 10)) != 0 {
		t.Error("its length is not there, or dots are")
	}
}

func TestHostileTextStaysText(t *testing.T) {
	c := own(t, `[taxon.x1]
rank = "family"
scientific = '"><script>alert(1)</script>&amp;'
source = "memory"
length_mm = [4, 9]
[taxon.x1.traits]
legs = "8"
`)
	svg := NewAtlas(c, nil).Taxon(c.Taxon("x1")).SVG(paperSize)
	if strings.Contains(svg, "<script") {
		t.Error("markup from a file is in the figure")
	}
	wellFormed(t, "hostile", svg, paperSize)
}

// A bar is as long on paper as the animal: one unit of the view box is one
// millimetre, since width and viewBox agree.
func TestTheBarIsLifeSize(t *testing.T) {
	for _, tc := range []struct{ least, most float64 }{{4, 9}, {12, 40}} {
		f := Figure{Length: taxa.Range{Min: tc.least, Max: tc.most}, panels: []panel{acted("flat", "flat", false, nil)}}
		svg := f.SVG(paperSize)
		for _, want := range []string{`width="54mm"`, `viewBox="0 0 54 40"`,
			fmt.Sprintf(`"M2 33.7L%v 33.7"`, 2+tc.most), fmt.Sprintf(`"M2 33.7L%v 33.7" stroke-width="0.7"`, 2+tc.least)} {
			if !strings.Contains(svg, want) {
				t.Errorf("%v to %v mm: no %s in %s", tc.least, tc.most, want, svg)
			}
		}
	}
}

func TestBrailleFillsItsRoom(t *testing.T) {
	c := catalog(t)
	f := NewAtlas(c, nil).Taxon(c.Taxon("insecta"))
	for _, tc := range []struct{ cols, rows int }{{1, 1}, {2, 1}, {1, 9}, {24, 10}, {38, 14}, {80, 24}, {200, 60}} {
		lines := f.Braille(tc.cols, tc.rows)
		if len(lines) != tc.rows {
			t.Errorf("%dx%d: %d lines", tc.cols, tc.rows, len(lines))
		}
		for _, l := range lines {
			if n := len([]rune(l)); n != tc.cols {
				t.Errorf("%dx%d: a line of %d", tc.cols, tc.rows, n)
			}
		}
	}
}

func FuzzAnyTraitsCanBeDrawn(f *testing.F) {
	f.Add([]byte{1, 2, 3, 4}, 54.0, 40.0)
	f.Add([]byte("the quick brown fox jumps over the lazy dog and on over seventy traits of it"), 30.0, 90.0)
	f.Add([]byte{255, 0, 254, 1, 253, 2, 252, 3}, 12.0, 12.0)
	c := catalog(f)
	atlas := NewAtlas(c, nil)
	f.Fuzz(func(t *testing.T, choice []byte, width, height float64) {
		if len(choice) == 0 {
			return
		}
		states := Traits{}
		var features []string
		for i, trait := range c.Vocabulary().Traits() {
			b := int(choice[i%len(choice)]) + i*7
			if b%5 != 0 {
				states[trait.ID] = trait.States[b%len(trait.States)].ID
			}
			if b%11 == 0 {
				features = append(features, trait.ID)
			}
		}
		drawn := Figure{Length: taxa.Range{Min: 1, Max: 1 + float64(choice[0])}, panels: []panel{acted("flat", "flat", false, nil)}}
		build := append(taxa.Builds, "")[int(choice[0])%(len(taxa.Builds)+1)]
		if p := planOf(states.coherent(), build); p != nil {
			drawn.panels = append(drawn.panels, body(states, p, features))
		}
		s := Size{max(smallest, finite(width)), max(smallest, finite(height))}
		wellFormed(t, "random traits", drawn.SVG(Size{width, height}), s)
		drawn.Braille(int(choice[0]), len(choice))
		i := int(choice[0]) % len(c.Vocabulary().Traits())
		trait := c.Vocabulary().Traits()[i]
		if g, ok := atlas.State(trait.ID, trait.States[0].ID); ok {
			g.SVG(Size{width, height})
		}
	})
}

// One inch is 25.4 mm exactly; both lines are to one scale.
func TestRuler(t *testing.T) {
	for _, tc := range []struct {
		length taxa.Range
		cols   int
		animal string
		inch   int
	}{
		{taxa.Range{Min: 6.35, Max: 12.7}, 20, "█████░░░░░", 20},
		{taxa.Range{Min: 25.4, Max: 50.8}, 20, "██████████░░░░░░░░░░", 10},
		{taxa.Range{Min: 0.1, Max: 0.2}, 20, "█", 20},
	} {
		lines := Ruler(tc.length, tc.cols)
		if len(lines) != 2 || lines[0] != tc.animal || !strings.Contains(lines[1], "1 inch") {
			t.Errorf("%v in %d columns: %q", tc.length, tc.cols, lines)
		} else if scale, _, _ := strings.Cut(lines[1], "┤"); len([]rune(scale))+1 != tc.inch {
			t.Errorf("%v in %d columns: the inch is %q", tc.length, tc.cols, lines[1])
		}
		for _, l := range lines {
			if len([]rune(l)) > tc.cols {
				t.Errorf("%q is wider than %d", l, tc.cols)
			}
		}
	}
	if Ruler(taxa.Range{}, 20) != nil {
		t.Error("a ruler for an unknown length")
	}
}

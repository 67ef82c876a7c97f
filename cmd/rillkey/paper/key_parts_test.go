package paper

import (
	"flag"
	"math"
	"os"
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

var update = flag.Bool("update", false, "write the golden pages anew; look at each before committing it")

// pond is an invented catalog with an invented key of three couplets.
var pond = fstest.MapFS{
	"traits.toml": {Data: []byte(`
[trait.legs]
question = "How many legs?"
how      = "Count one side."
look     = "eye"
misread  = 0.02
source   = "invented"
[trait.legs.state.0]
label = "no legs"
[trait.legs.state.6]
label = "six legs"
[trait.tails]
question = "How many tails?"
how      = "Let them fan out in a finger of water."
look     = "eye"
misread  = 0.2
source   = "invented"
[trait.tails.state.2]
label = "two tails"
[trait.tails.state.3]
label = "three tails"
[trait.gill-form]
question = "What is a gill like?"
how      = "Look from above."
look     = "lens"
misread  = 0.1
source   = "invented"
[trait.gill-form.state.plates]
label = "plates"
[trait.gill-form.state.feathers]
label = "feathers"
`)},
	"pond.toml": {Data: []byte(`
[taxon.pondlings]
rank       = "order"
scientific = "Pondlinga"
common     = ["pondling"]
class      = "tolerant"
class_source = "invented"
source     = "invented"
[taxon.pondlings.traits]
legs = "6"
[taxon.twotail]
rank       = "family"
scientific = "Bicaudidae"
parent     = "pondlings"
common     = ["two-tail", "pond fork"]
length_mm  = [4, 25.4]
handling   = "It pinches: use a spoon."
habitat    = "pond edges"
source     = "invented"
[taxon.twotail.traits]
tails     = { 2 = 0.9, 3 = 0.1 }
gill-form = "plates"
[taxon.twotail.mistaken.plume]
tell = "A plume has feathers."
[taxon.plume]
rank       = "family"
scientific = "Plumidae"
synonyms   = ["Pennidae"]
parent     = "pondlings"
source     = "invented"
[taxon.plume.traits]
tails     = "3"
gill-form = "feathers"
[taxon.blob]
rank       = "group"
scientific = "Blob"
class      = "sensitive"
class_source = "invented"
source     = "invented"
[taxon.blob.traits]
legs = "0"
`)},
	"key.toml": {Data: []byte(`
[key]
id     = "pond"
title  = "Animals of <one> pond"
region = "One pond"
source = "invented"
[glossary]
elytra = "hard wing covers"
unused = "stands nowhere"
[couplet.1]
ask = "Legs"
[couplet.1.a]
text   = "Six legs, beneath elytra & \"hood\"."
traits = { legs = "6" }
to     = "2-x"
[couplet.1.b]
text   = "No legs."
traits = { legs = "0" }
taxon  = "blob"
[couplet.2-x]
ask  = "Tails"
stop = "pondlings"
[couplet.2-x.a]
text   = "Two tails."
traits = { tails = "2" }
taxon  = "twotail"
[couplet.2-x.b]
text   = "Three tails, on the dorsum."
traits = { tails = "3" }
to     = "3"
[couplet.3]
ask  = "One gill"
wait = "Wait until it waves."
stop = "pondlings"
[couplet.3.a]
text   = "A gill like a plate."
traits = { gill-form = "plates" }
taxon  = "twotail"
[couplet.3.b]
text   = "A feather."
traits = { gill-form = "feathers" }
taxon  = "plume"
[lens.twotail-plume]
taxa    = ["twotail", "plume"]
without = "pondlings"
why     = "Only their gills differ."
`)},
}

func pondKey(t *testing.T) (*couplets.Sound, *taxa.Catalog) { return keyWith(t) }

// keyWith is the pond's key and catalog with some texts in place of others.
func keyWith(t *testing.T, oldNew ...string) (*couplets.Sound, *taxa.Catalog) {
	t.Helper()
	files := fstest.MapFS{}
	for name, file := range pond {
		files[name] = &fstest.MapFile{Data: []byte(strings.NewReplacer(oldNew...).Replace(string(file.Data)))}
	}
	catalog, err := taxa.Load(fstest.MapFS{"traits.toml": files["traits.toml"], "pond.toml": files["pond.toml"]}, "pond")
	if err != nil {
		t.Fatal(err)
	}
	sound, err := couplets.Load(files, "key.toml", "key.toml", catalog)
	if err != nil {
		t.Fatal(err)
	}
	return sound, catalog
}

var (
	styleBlock = regexp.MustCompile(`(?s)<style>.*?</style>`)
	drawing    = regexp.MustCompile(`<svg xmlns[^>]*><title>([^<]*)</title>.*?</svg>`)
)

// The page of a small key, its style and the strokes of its drawings left out.
func TestPageOfASmallKey(t *testing.T) {
	page := written(t, LongKey(pondKey(t)))
	page = drawing.ReplaceAllString(styleBlock.ReplaceAllString(page, ""), "[$1]")
	const golden = "testdata/key.golden.html"
	if *update {
		if err := os.WriteFile(golden, []byte(page), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if page != string(want) {
		got, had := strings.Split(page, "\n"), strings.Split(string(want), "\n")
		i := 0
		for i < len(got) && i < len(had) && got[i] == had[i] {
			i++
		}
		t.Errorf("line %d is now\n%s", i+1, strings.Join(got[i:min(i+3, len(got))], "\n"))
	}
}

// Whatever the texts of a key and its taxa hold, they stay text on the page.
func TestTextOfAKeyAndItsTaxaStaysText(t *testing.T) {
	bad := strings.ReplaceAll(hostile, `"`, `\"`)
	var changes []string
	for _, text := range []string{
		"One pond", "hard wing covers", "Legs\"", "No legs.", "Wait until it waves.", "Let them fan out in a finger of water.",
		"pondling\"", "Pondlinga", "two-tail\"", "Bicaudidae", "pond fork", "Pennidae", "Plumidae",
		"It pinches: use a spoon.", "pond edges", "A plume has feathers.", "two tails",
	} {
		plain, quote := strings.CutSuffix(text, `"`)
		if changes = append(changes, text, plain+bad); quote {
			changes[len(changes)-1] += `"`
		}
	}
	page := written(t, LongKey(keyWith(t, changes...)))
	if strings.Contains(page, "<script") || strings.Contains(page, "<b x") {
		t.Error("markup in a text reaches the page")
	}
	if n := strings.Count(page, "&lt;script&gt;"); n < len(changes)/2 {
		t.Errorf("only %d of %d texts are on the page", n, len(changes)/2)
	}
	parsed(t, page)
}

func TestGlossaryHoldsTheWordsThatAreUsed(t *testing.T) {
	var got []string
	for _, dt := range parsed(t, written(t, LongKey(pondKey(t)))).named("dt") {
		got = append(got, dt.read())
	}
	want := []string{
		"dorsum", // of the trade: couplets/rules knows a plain word for it
		"elytra", // explained by the key, which comes before the trade
		"gill",   // of the program
		"hood",   // of the program, by the word that is used and not "shield"
		"lens",   // as the page itself says it
		"tails",  // of the program
	}
	if !slices.Equal(got, want) {
		t.Errorf("explained are %q, not %q", got, want)
	}
}

func TestPlainTermsAreSound(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	k := newKeyPage(keytest.Sound(t, couplets.DefaultName))
	owner := map[string]string{}
	for id, term := range plainTerms() {
		if len(term.Words) == 0 || term.Means == "" {
			t.Errorf("%s has no words or no meaning", id)
		}
		for _, w := range term.Words {
			if owner[w] != "" {
				t.Errorf("%q is explained by %s and %s", w, owner[w], id)
			}
			owner[w] = id
		}
		if len(term.Figure) == 0 {
			continue
		}
		if _, ok := k.atlas.State(term.Figure[0], term.Figure[1]); !ok || catalog.Vocabulary().Trait(term.Figure[0]) == nil {
			t.Errorf("%s: nothing is drawn for %q", id, term.Figure)
		}
	}
	if len(owner) < 40 {
		t.Errorf("only %d words", len(owner))
	}
}

// Text on paper is read in bright sun: WCAG 2.2, success criterion 1.4.3, wants a
// contrast of 4.5 to 1, by its definition of relative luminance.
func TestTextHasContrast(t *testing.T) {
	css := style + keyStyle
	fore := regexp.MustCompile(`(?:^|[ {;])color: *(#[0-9a-f]{3,6})`).FindAllStringSubmatch(css, -1)
	back := regexp.MustCompile(`background: *(#[0-9a-f]{3,6})`).FindAllStringSubmatch(css, -1)
	if len(fore) < 2 || len(back) < 2 {
		t.Fatalf("colours %q on %q", fore, back)
	}
	for _, f := range fore {
		for _, b := range back {
			if c := contrast(t, f[1], b[1]); c < 4.5 {
				t.Errorf("%s on %s has a contrast of %.2f", f[1], b[1], c)
			}
		}
	}
	// Black on white has 21 to 1, says the same document.
	if c := contrast(t, "#000", "#fff"); math.Abs(c-21) > 1e-9 {
		t.Errorf("black on white has %v", c)
	}
}

func contrast(t *testing.T, a, b string) float64 {
	la, lb := luminance(t, a), luminance(t, b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	hex := strings.TrimPrefix(colour, "#")
	if len(hex) == 3 {
		hex = strings.Repeat(hex[:1], 2) + strings.Repeat(hex[1:2], 2) + strings.Repeat(hex[2:], 2)
	}
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

// One unit of the ruler's drawing is a millimetre on paper, and an inch is
// 25.4 mm exactly (international yard and pound agreement of 1959).
func TestRulerIsTrueToScale(t *testing.T) {
	p := New("A ruler")
	p.ruler()
	svg := parsed(t, written(t, p)).named("svg")[0]
	box := strings.Fields(svg.attributes["viewBox"])
	if svg.attributes["width"] != box[2]+"mm" || svg.attributes["height"] != box[3]+"mm" {
		t.Errorf("%s by %s for a box of %v", svg.attributes["width"], svg.attributes["height"], box)
	}
	paths := svg.named("path")
	for _, want := range []string{"M10 0v5", "M25.4 18v-5", "M50.8 18v-5", "M127 18v-5", "M12.7 18v-4"} {
		if !strings.Contains(paths[0].attributes["d"]+"M", want+"M") {
			t.Errorf("the ruler has no tick %q", want)
		}
	}
	if bar := paths[1].attributes["d"]; !strings.Contains(bar, "M0 23H50") {
		t.Errorf("the bar of 50 mm is drawn as %q", bar)
	}
}

package scoring

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// sure is a record whose name is certain.
func (y *tray) sure(sample, taxon string, n int) *tray {
	return y.event(visit.Identification{Sample: sample, Taxon: taxon, Count: n, Confidence: 1})
}

// alike puts the same animals into each of three complete riffle samples.
func alike(protocol string, n int, names ...string) *tray {
	y := newTray(protocol).riffles()
	for _, label := range []string{"1", "2", "3"} {
		for _, taxon := range names {
			y.sure(label, taxon, n)
		}
	}
	return y
}

// Common practice: no word under 100 animals, a provisional one under 200; the
// Family Biotic Index counts arthropods (Hilsenhoff 1988, from memory), and an
// average score per taxon takes five scoring families.
func TestNoWordUnderTheFloor(t *testing.T) {
	one := func(protocol string) *tray { return newTray(protocol).sample("1", "riffle", 0.37) }
	tests := []struct {
		label       string
		y           *tray
		value       float64
		rating      string // empty where it is withheld
		provisional bool
		reason      string
	}{
		{"three animals", newTray("riffle-three").riffles().sure("1", "chironomidae", 2).sure("2", "baetidae", 1), 4, "",
			false, "3 that this index counts, where at least 100 are asked for (common practice)"},
		{"99 animals", alike("riffle-three", 33, "baetidae"), 3, "", false, "99 that this index counts"},
		{"102 animals", alike("riffle-three", 34, "baetidae"), 3, "poor", true, ""},
		{"198 animals", alike("riffle-three", 66, "baetidae"), 3, "poor", true, ""},
		{"201 animals", alike("riffle-three", 67, "baetidae"), 3, "poor", false, ""},
		{"worms are no arthropods", one("riffle-families").sure("1", "baetidae", 99).sure("1", "oligochaeta", 900), 4, "",
			false, "99 that this index counts"},
		{"a hundred arthropods", one("riffle-families").sure("1", "baetidae", 100).sure("1", "oligochaeta", 900), 4, "very good", true, ""},
		{"animals that nobody named closely enough bear no word",
			one("riffle-families").sure("1", "baetidae", 99).sure("1", "coleoptera", 900), 4, "", false, "99 that this index counts"},
		{"what was multiplied up from a part was not seen",
			newTray("riffle-families").event(
				visit.Sample{Label: "1", Habitat: "riffle", Area: 0.37, Fraction: 0.25, Said: visit.Sorted}).sure("1", "baetidae",
				99), 4, "", false, "99 that this index counts"},
		{"where the best sample counts, it must hold them", alike("riffle-best", 90, "baetidae"), 3, "", false,
			"90 that this index counts"},
		{"four families", newTray("all-habitats-three-minutes").sample("1", "all", 0).sure("1", "heptageniidae", 90).sure("1",
			"perlidae", 90).sure("1", "leuctridae", 90).sure("1", "sericostomatidae", 90), 10, "", false,
			"too few kinds for a word: 4 that this index counts, where at least 5 are asked for"},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			g := tt.y.grade(t)
			i := g.Indices[0]
			if i.Value == nil || *i.Value != tt.value || i.Rating != tt.rating || i.RatingProvisional != tt.provisional ||
				i.Withheld != (tt.rating == "") || g.Withheld() != i.Withheld {
				t.Fatalf("%+v", i)
			}
			if !strings.Contains(i.Reason, tt.reason) {
				t.Errorf("reason %q", i.Reason)
			}
			if said := strings.Join(i.Remarks, " "); strings.Contains(said, "The word is provisional") != tt.provisional {
				t.Errorf("remarks %q", said)
			}
			if tt.rating == "" && (i.Probabilities != nil || len(i.Identification.Ratings) > 0 || i.Sampling != nil &&
				len(i.Sampling.Ratings) > 0) {
				t.Errorf("chances of words stand where no word may be said: %+v", i)
			}
		})
	}
}

// TestPublishedSheetsHaveAValueAndNoWord: filled-in sheets of 75 and 93 animals
// are worth what is printed on them, and too few for a word.
func TestPublishedSheetsHaveAValueAndNoWord(t *testing.T) {
	sheets := readPublished(t)["presence-survey-sheets.toml"]
	if len(sheets.Tally) != 2 {
		t.Fatal(sheets)
	}
	for name, sheet := range sheets.Tally {
		y := newTray("riffle-three").riffles()
		for taxon, n := range sheet.Counts {
			y.sure("1", taxon, n)
		}
		i := y.grade(t).Indices[0]
		if i.Value == nil || *i.Value != sheet.Value || !i.Withheld || i.Rating != "" ||
			!strings.Contains(i.Reason, fmt.Sprintf("%d that this index counts", sheet.Animals)) {
			t.Errorf("%s: %+v", name, i)
		}
	}
}

// Kinds in what was not sorted can only make a sum of kinds better, so the word is
// the least; a mean over animals does not mind.
func TestASampleSortedInPartHasALeastWord(t *testing.T) {
	part := newTray("riffle-three")
	for _, label := range []string{"1", "2", "3"} {
		part.event(visit.Sample{Label: label, Habitat: "riffle", Area: 0.37, Fraction: 0.25, Said: visit.Sorted})
		for _, taxon := range []string{"chironomidae", "plecoptera", "baetidae", "trichoptera", "psephenidae"} {
			part.sure(label, taxon, 40)
		}
	}
	i := part.grade(t).Indices[0]
	if !i.Withheld || !slices.Equal(i.RatingRange, []string{"fair", "excellent"}) ||
		!strings.Contains(i.Reason, "only a part of some samples was sorted") {
		t.Errorf("%+v", i)
	}
	if len(i.Identification.Ratings)+len(i.Sampling.Ratings)+len(i.Probabilities) > 0 {
		t.Errorf("ratings of the part alone contradict what is said of the whole: %+v", i)
	}
}

// A word that would more likely be another is not said, only between which it
// lies.
func TestNoWordWhereItsShareIsUnderAHalf(t *testing.T) {
	heap := newTray("riffle-three").riffles() // all in one net of three: 4 x 3 + 2 + 1 = 15
	for _, taxon := range []string{"baetidae", "perlidae", "psephenidae", "elmidae", "tipulidae", "oligochaeta"} {
		heap.sure("3", taxon, 50)
	}
	doubtful := alike("riffle-three", 50, "baetidae", "perlidae", "psephenidae") // 9, and 12 with whatever else it is
	doubtful.event(visit.Identification{
		Sample: "1", Taxon: "oligochaeta", Count: 1, Also: []visit.Chance{{Taxon: "elmidae", Probability: 0.6}}})
	tests := []struct {
		label   string
		y       *tray
		between []string
		share   func(Index) *Spread
	}{
		{"because of which samples were taken", heap, []string{"poor", "excellent"}, func(i Index) *Spread { return i.Sampling }},
		{"because of doubtful names", doubtful, []string{"poor", "fair"}, func(i Index) *Spread { return i.Identification }},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			g := tt.y.grade(t)
			i := g.Indices[0]
			own := rules(t).grader("presence").Band(int64(*i.Value)).Rating
			if share := tt.share(i).probabilities()[own]; share >= 0.5 {
				t.Fatalf("%s has a share of %v", own, share)
			}
			if !i.Withheld || !g.Withheld() || i.Rating != "" || !slices.Equal(i.RatingRange, tt.between) ||
				!strings.Contains(i.Reason, "no word is likely enough: "+own+" would hold in ") {
				t.Errorf("%+v", i)
			}
			b, err := rules(t).Summary(rules(t).Account(&tt.y.v), 0)
			if err != nil || !b.Withheld || b.Rating != "" || *b.Value != *i.Value || !slices.Equal(b.RatingRange, i.RatingRange) ||
				b.Reason != i.Reason {
				t.Errorf("in short it is %+v", b)
			}
		})
	}
}

// Animals named too broadly are part of the chances: fifty stoneflies that may be
// worth 0 to 2 leave the word "very good" nothing of the certainty it would have
// without them.
func TestOpenNamesArePartOfTheChances(t *testing.T) {
	y := newTray("riffle-families").sample("1", "riffle", 0).sure("1", "baetidae", 100).sure("1", "plecoptera", 100)
	i := y.grade(t).Indices[0]
	if *i.Value != 4 || !i.Withheld || !slices.Equal(i.RatingRange, []string{"very good", "excellent"}) {
		t.Errorf("%+v", i)
	}
	if n := i.Identification; n.High >= 4 || n.probabilities()["very good"] > 0 {
		t.Errorf("%+v", n)
	}
}

// One page has one word: that of the headline.
func TestOnlyTheHeadlineHasAWord(t *testing.T) {
	r := rules(t)
	for _, p := range r.Protocols() {
		y := newTray(p.ID)
		for n := range 7 {
			label := fmt.Sprint(n + 1)
			y.sample(label, "riffle", 0.37)
			for _, taxon := range []string{"baetidae", "perlidae", "leuctridae", "elmidae", "sericostomatidae", "asellidae", "simuliidae"} {
				y.sure(label, taxon, 60)
			}
		}
		g := y.grade(t)
		for n, i := range append(slices.Clone(g.Indices), g.Further...) {
			switch {
			case n == 0 && (!i.Headline || i.Rating == scheme.Unrated || len(i.Identification.Ratings) == 0 &&
				len(i.RatingRange) == 0 || i.Reading != ""):
				t.Errorf("%s: the headline is %+v", p.ID, i)
			case n > 0 && i.Value != nil &&
				(i.Headline || i.Rating != scheme.Unrated || i.RatingSource != "" || i.Probabilities != nil ||
					len(i.Identification.Ratings) > 0 || i.Reading == ""):
				t.Errorf("%s: beside the headline %s has a word: %+v", p.ID, i.ID, i)
			}
		}
	}
}

// The table of words asks for two indices together (Freshwater Biology and
// Ecology Handbook, table 5.13): ASPT 5.67 would be good, BMWP 34 poor.
func TestAWordHoldsOnlyWhereTheIndexReadWithItSaysTheSame(t *testing.T) {
	y := newTray("all-habitats-three-minutes").sample("1", "all", 0)
	for _, taxon := range []string{"heptageniidae", "rhyacophilidae", "gammaridae", "hydropsychidae", "simuliidae", "oligochaeta"} {
		y.sure("1", taxon, 50)
	}
	i := y.grade(t).Indices[0]
	if i.ID != "aspt" || !i.Withheld || !slices.Equal(i.RatingRange, []string{"poor", "good"}) ||
		!strings.Contains(i.Reason, "by the latter it would be poor") {
		t.Errorf("%+v", i)
	}
	// Ratings of the one alone would contradict what both say together.
	if len(i.Identification.Ratings) > 0 || i.Probabilities != nil || strings.Contains(strings.Join(i.Remarks, " "), "(good)") {
		t.Errorf("%+v", i)
	}
	// Six more families of 10: 34 + 60 = 94, and 94 / 12 = 7.83, both excellent.
	for _, taxon := range []string{"perlidae", "leuctridae", "capniidae", "ephemeridae", "sericostomatidae", "goeridae"} {
		y.sure("1", taxon, 50)
	}
	if i := y.grade(t).Indices[0]; *i.Value != 7.83 || i.Rating != "excellent" {
		t.Errorf("%+v", i)
	}
}

func TestASchemeThatDoesNotKnowTheAnimals(t *testing.T) {
	tests := []struct {
		label   string
		y       *tray
		rating  string
		warning string // empty where nothing is to be said
	}{
		{"an id that the catalog does not know", alike("riffle-three", 100, "baetidae").sure("1", "caenid-mayfly", 1), "",
			"1 animal is named with an id that the catalog does not know: caenid-mayfly (1)"},
		{"a tenth of the animals are of families that came after the list",
			newTray("riffle-families").sample("1", "riffle", 0).sure("1", "baetidae", 180).sure("1", "beraeidae", 20),
			"very good", "has never heard of 20 of 200 animals and leaves them out: small bent-case maker (20)"},
		{"more than a tenth", newTray("riffle-families").sample("1", "riffle", 0).sure("1", "baetidae", 179).sure("1",
			"beraeidae", 21), "", "made for another fauna: 21 of 200 animals are of kinds that it has never heard of"},
		{"worms are left out on purpose",
			newTray("riffle-families").sample("1", "riffle", 0).sure("1", "baetidae", 200).sure("1", "oligochaeta", 900), "very good", ""},
		{"a fish is scored by nobody", alike("riffle-three", 100, "baetidae").sure("1", "fish", 900), "poor", ""},
		{"mayflies that lost their tails are known mayflies",
			newTray("riffle-families").sample("1", "riffle", 0).sure("1", "baetidae", 200).sure("1", "mayfly-tailless", 100),
			"very good", ""},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			g := tt.y.grade(t)
			i := g.Indices[0]
			if i.Value == nil || i.Rating != tt.rating || i.Withheld != (tt.rating == "") {
				t.Errorf("%+v", i)
			}
			said := strings.Join(g.Warnings, "\n")
			if (said != "") != (tt.warning != "") || !strings.Contains(said, tt.warning) {
				t.Errorf("warnings %q", said)
			}
			if tt.rating == "" && (i.Probabilities != nil || len(i.Identification.Ratings) > 0) {
				t.Errorf("a word is likely although none can be said: %+v", i.Identification)
			}
		})
	}
}

// The built-in rules with another catalog, of which they know next to nothing.
func TestRulesMadeForAnotherFauna(t *testing.T) {
	vocabulary, err := os.ReadFile(filepath.Join("..", "taxa", "traits.toml"))
	if err != nil {
		t.Fatal(err)
	}
	own := ""
	for id, name := range map[string]string{"coleoptera": "Coleoptera", "plecoptera": "Plecoptera", "yabby": "Parastacidae"} {
		own += fmt.Sprintf("[taxon.%s]\nrank = \"order\"\nscientific = %q\ncommon = [%q]\nclass = \"sensitive\"\n"+
			"class_source = \"memory\"\nsource = \"memory\"\n", id, name, id)
	}
	cat, err := taxa.Load(fstest.MapFS{"traits.toml": {Data: vocabulary}, "own.toml": {Data: []byte(own)}}, "own")
	if err != nil {
		t.Fatal(err)
	}
	r, err := EmbeddedRules(cat)
	if err != nil {
		t.Fatal(err)
	}
	y := alike("riffle-three", 100, "coleoptera", "plecoptera")
	g, err := r.Grade(r.Account(&y.v), GradeOptions{})
	if err != nil || *g.Indices[0].Value != 5 || !g.Withheld() || len(g.Warnings) != 1 ||
		!strings.Contains(g.Warnings[0], "was made for another fauna: 24 of its 26 kinds are not in your animals") {
		t.Errorf("%v, %+v", err, g)
	}
}

// Every scheme with words says what they must rest on, and where that is from.
func TestEverySchemeWithWordsHasAFloor(t *testing.T) {
	for _, s := range rules(t).Schemes() {
		if f := s.Floor; len(s.Bands) > 0 && (f.Animals != 100 || f.Provisional != 200 || f.Source == "") {
			t.Errorf("%s: %+v", s.ID, f)
		}
	}
}

// The cases in which a word would hold agree with the per cent that are told beside them,
// and never seem to be half of all or none.
func TestUnlikelyWordsAgreeWithTheirChances(t *testing.T) {
	for p, want := range map[float64]string{0: "0", 0.003: "under 1", 0.03: "3", 0.44: "44", 0.494: "49", 0.498: "just under 50"} {
		if got := smallChance(p); got != want {
			t.Errorf("%v is told as %q, not %q", p, got, want)
		}
	}
}

package show_test

import (
	"io"
	"strings"
	"testing"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

// A value that is the only one because of the names is never said to be that of other
// animals than it is: what was found leaves out what has no close name, the spread does not.
func TestTheOnlyValueIsSaidOfTheRightAnimals(t *testing.T) {
	broad := []scoring.LeftOut{{Why: scheme.WhyAmbiguous}}
	for _, c := range []struct {
		name   string
		found  float64
		spread float64
		draws  int
		left   []scoring.LeftOut
		want   string
	}{
		{"all are named", 7, 7, 0, nil, "good 100\u00a0%, the value is 7 whatever they are."},
		{"kinds that do not count are no doubt", 7, 7, 0, []scoring.LeftOut{{Why: scheme.WhyNotListed}}, "is 7 whatever they are."},
		{"drawn", 7, 7, 400, nil, "the value is 7 by all that was said of the animals (by 400 random draws)."},
		{"a broad name that adds nothing", 7, 7, 0, broad, "the value is 7 by all that was said of the animals."},
		{"a broad name that adds a kind", 7, 8, 400, broad,
			"the value would be 8 by all that was said of the animals (by 400 random draws)."},
		{"a name that all others speak against", 7, 6, 400, nil,
			"the value would be 6 by all that was said of the animals (by 400 random draws)."},
	} {
		names := &scoring.Spread{Draws: c.draws, Mean: c.spread, Low: c.spread, High: c.spread,
			Ratings: []scoring.RatingChance{{Rating: "good", Chance: 1}}}
		wide := []float64{c.spread - 1, c.spread + 1}
		bounded := &scoring.Index{Value: &c.found, LeftOut: c.left, Low: &wide[0], High: &wide[1]}
		if said := strings.Join(show.Doubts(bounded, names, nil), " "); !strings.Contains(said, "and by what lives in the region") {
			t.Errorf("%s: for certain beside a range: %q", c.name, said)
		}
		earned := &scoring.Index{Value: &c.found, LeftOut: c.left}
		sofar := &scoring.Index{Withheld: true, Provisional: &scoring.Provisional{Value: c.found}, LeftOut: c.left}
		for _, i := range []*scoring.Index{earned, sofar} {
			if said := strings.Join(show.Doubts(i, names, nil), " "); !strings.HasSuffix(said, c.want) {
				t.Errorf("%s: %q does not end with %q", c.name, said, c.want)
			}
		}
	}
}

// recheckOf writes what is said of one record, where a word is said of the visit or not.
func recheckOf(wordless bool, r scoring.RecheckRecord) func(w io.Writer, width int) error {
	return func(w io.Writer, width int) error {
		list := &scoring.Recheck{Title: "index", Wordless: wordless, Records: []scoring.RecheckRecord{r}}
		return show.Recheck(w, width, list, 9, "")
	}
}

// Second looks and rates are told without figures that are none.
func TestFiguresThatAreNoneAreNotTold(t *testing.T) {
	zero := 0.0
	for _, c := range []struct {
		name      string
		draw      func(w io.Writer, width int) error
		want, not string
	}{
		{"nobody counted again", func(w io.Writer, width int) error {
			return show.Agreement(w, width, catalog(t), &scoring.Agreement{Records: 2, Disagreement: &zero})
		}, "Names differ in 0.0 %", "Counts differ"},
		{"counted again", func(w io.Writer, width int) error {
			return show.Agreement(w, width, catalog(t), &scoring.Agreement{Records: 2, Enumeration: &zero})
		}, "Counts differ by 0.0 %", "Names differ"},
		{"rates as they are built in", (&show.RatesJSON{File: "r.toml", Group: 1}).Text, "misread as often as the built-in", "1 times"},
		{"rates below the built-in ones are not reckoned with", (&show.RatesJSON{File: "r.toml", Group: 0.8,
			Traits: []show.TraitRate{{Trait: "legs", Looked: 9}, {Trait: "tails"}}}).Text,
			"the built-in rates hold.", "as many times over"},
		{"no cell", func(w io.Writer, width int) error {
			return show.Draw{Keyed: 4, Records: []show.DrawnRecord{{Record: "e1", Sample: "1"}}}.Text(w, width, "")
		}, "cell not noted", "cell -"},
		{"names too broad are no doubtful ones", func(w io.Writer, width int) error {
			list := &scoring.Recheck{Title: "index", Records: []scoring.RecheckRecord{{Record: "e1", Sure: 1}}}
			return show.Recheck(w, width, list, 9, "")
		}, "1 record is worth a second look.", "doubtful"},
		{"no bits of a word that is not said", recheckOf(true, scoring.RecheckRecord{Gain: 0.2, Moves: 1}),
			"would make the value more certain.", "bit"},
		{"no word that is not said", recheckOf(true, scoring.RecheckRecord{Moves: 1}),
			"No word is said of this visit", "word of the grade"},
		{"bits of a word", recheckOf(false, scoring.RecheckRecord{Gain: 0.2, Moves: 1}), "more certain by 0.200 bit", "No word"},
		{"several kinds at once", recheckOf(false, scoring.RecheckRecord{Moves: 1, MayChange: true}),
			"could change the word", "could not"},
	} {
		var b strings.Builder
		if err := c.draw(&b, 200); err != nil {
			t.Fatal(err)
		}
		if said := b.String(); !strings.Contains(said, c.want) || strings.Contains(said, c.not) {
			t.Errorf("%s: %s", c.name, said)
		}
	}
}

// A word that is provisional is so in a list of visits too, at any width.
func TestAListSaysThatAWordIsProvisional(t *testing.T) {
	value := 26.0
	list := show.NewVisits(".", []series.VisitFile{{Site: "Otter Run", Date: "2026-05-16", State: series.Finished, Index: "index",
		Value: &value, Rating: "excellent", RatingProvisional: true}}, 1)
	for _, width := range []int{40, 80} {
		var b strings.Builder
		if err := list.Text(&b, width); err != nil || !strings.Contains(b.String(), "EXCELLENT, provisional (26)") {
			t.Errorf("%v at %d columns: %s", err, width, b.String())
		}
	}
}

// Two people who both set an animal aside do not differ in its name.
func TestTwoWhoSetAsideDoNotDiffer(t *testing.T) {
	rec := visit.Record{ID: "e1", Identification: visit.Identification{Undecided: true}}
	look := visit.SecondLook{Undecided: true}
	var b strings.Builder
	if err := show.NewLook(catalog(t), rec, look, "e2").Text(&b, 200, ""); err != nil {
		t.Fatal(err)
	}
	for _, said := range []string{b.String(), show.LookedWords(catalog(t), rec, look)} {
		if !strings.Contains(said, "Neither person could name it.") || strings.Contains(said, "settle") {
			t.Error(said)
		}
	}
}

package paper

import (
	"errors"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/scoring/visit"
	"rillkey/taxa/authored"
	"rillkey/taxa/wording"
)

// coverOf is the part of a report that a cover is.
func coverOf(t *testing.T, r VisitReport, name string) string {
	t.Helper()
	c, err := EmbeddedCover(name)
	if err != nil {
		t.Fatal(err)
	}
	r.Cover = c
	page := written(t, r.Page())
	body := page[strings.Index(page, "<main>"):strings.Index(page, "</main>")]
	if err := nests(body + "</main>"); err != nil {
		t.Errorf("%s: %v", name, err)
	}
	from := strings.Index(body, `<div class="cover">`)
	to := strings.Index(body, ">The answer</h2>")
	if from < 0 || to < from {
		t.Fatalf("%s: the cover does not stand before the answer", name)
	}
	return strings.ReplaceAll(body[from:to], "&#39;", "'")
}

// Each reader is told what the report says and nothing else: its word, that it is
// provisional, between which it lies, or that there is none; and never a word on
// drinking or swimming but that it says nothing on it.
func TestCoversSayWhatTheReportSays(t *testing.T) {
	in := func(n int, names ...string) (out []visit.Body) {
		for _, sample := range []string{"1", "2", "3"} {
			for _, taxon := range names {
				out = append(out, visit.Identification{Sample: sample, Taxon: taxon, Count: n, Confidence: 1})
			}
		}
		return out
	}
	five := []string{"baetidae", "perlidae", "psephenidae", "elmidae", "tipulidae"}
	uneven := []visit.Body{}
	for _, taxon := range append(five, "oligochaeta") {
		uneven = append(uneven, visit.Identification{Sample: "3", Taxon: taxon, Count: 100, Confidence: 1})
	}
	for what, tt := range map[string]struct {
		animals []visit.Body
		want    []string
		words   int // ratings that stand there
	}{
		"a word":          {in(50, five...), []string{"FAIR"}, 1},
		"provisional":     {in(10, five...), []string{"FAIR", "few"}, 1},
		"between two":     {uneven, []string{"between POOR and EXCELLENT"}, 2},
		"too few animals": {in(5, five...), []string{"too few animals for a word"}, 0},
		"nothing sorted":  {[]visit.Body{visit.Sample{Label: "4", Habitat: "pool"}}, []string{"no animal"}, 0},
	} {
		r, _ := reportOf(t, visitOf("riffle-three", append(taken("1", "2", "3"), tt.animals...)...))
		for _, name := range CoverNames() {
			cover := coverOf(t, r, name)
			for _, want := range append(tt.want, notWater, "Otter Run", "16 May 2026") {
				if what != "nothing sorted" && !strings.Contains(cover, want) {
					t.Errorf("%s, %s: the cover lacks %q", what, name, want)
				}
			}
			if said := ratings.FindAllString(cover, -1); len(said) != tt.words {
				t.Errorf("%s, %s: the cover says %q", what, name, said)
			}
			if found := unasked().FindAllString(strings.ReplaceAll(cover, notWater, ""), -1); found != nil {
				t.Errorf("%s, %s: the cover speaks of %q", what, name, found)
			}
			for _, bad := range []string{"{", "}", "no value, rated", "Mags", "<b "} {
				if strings.Contains(cover, bad) {
					t.Errorf("%s, %s: the cover holds %q", what, name, bad)
				}
			}
		}
	}
}

// A cover of one's own is refused at its place where nothing stands for a blank, where
// the grade would be left out, and where it speaks on drinking or swimming.
func TestLoadCover(t *testing.T) {
	sound := `[cover]
title = "To the parish"
opens = "On {day}, {people} went to {site}."
source = "us"
[answer]
word = "It is {word}."
provisional = "It is {word}, for now."
between = "From {low} to {high}."
none = "Nothing yet: {reason}."
[part.next]
title = "Next"
points = ["Come along."]
`
	for what, tt := range map[string]struct{ old, new, wrong string }{
		"sound":                 {},
		"no such blank":         {"{site}", "{stream}", `c.toml:3:9: unknown-blank: nothing stands for "{stream}" here`},
		"open blank":            {"{site}", "{site", "c.toml:3:9: unknown-blank"},
		"a word in the opening": {"{site}", "{word}", `c.toml:3:9: unknown-blank: nothing stands for "{word}" here`},
		"without the word":      {"It is {word}.", "It is fine.", "c.toml:6:8: no-blank: the answer lacks {word}"},
		"swimming": {"Come along.", "Children may swim here.",
			`c.toml:12:10: unasked: "swim": a grade never speaks on drinking or swimming`},
		"no answer":      {"[answer]", "[answers]", "answer"},
		"something else": {`source = "us"`, "source = \"us\"\ncolour = \"red\"", "c.toml:5"},
	} {
		text := strings.ReplaceAll(sound, tt.old, tt.new)
		c, err := LoadCover(fstest.MapFS{"c.toml": {Data: []byte(text)}}, "c.toml", "c.toml")
		var findings authored.Findings
		switch {
		case tt.wrong == "" && (err != nil || c == nil):
			t.Errorf("%s: %v", what, err)
		case tt.wrong != "" && (!errors.As(err, &findings) || !strings.Contains(err.Error(), tt.wrong)):
			t.Errorf("%s: %v", what, err)
		}
	}
	if _, err := EmbeddedCover("fisherman"); err == nil || !strings.Contains(err.Error(), "authority, landowner and school") {
		t.Error(err)
	}
}

// Where the group has a reference, the cover and the answer do not stand on the fixed
// scale alone.
func TestCoversTellOfTheReference(t *testing.T) {
	r, _ := reportOf(t, visitOf("riffle-three", append(taken("1", "2", "3"), animals("1", "baetidae", 250))...))
	r.Comparison = "Beside Upper Ford: less here."
	for _, name := range CoverNames() {
		if cover := coverOf(t, r, name); !strings.Contains(cover, r.Comparison) {
			t.Errorf("%s: no word of the reference", name)
		}
	}
	if page := written(t, r.Page()); !strings.Contains(page, r.Comparison) {
		t.Error("the answer has no word of the reference")
	}
}

// Every cover is there in German too, with the same parts and blanks; what it says
// passes the same checks.
func TestCoversAreThereInGerman(t *testing.T) {
	defer wording.Use(nil)
	for _, name := range CoverNames() {
		wording.Use(nil)
		english, err := EmbeddedCover(name)
		if err != nil {
			t.Fatal(err)
		}
		wording.Use(&wording.Translation{Language: "de-AT"})
		german, err := EmbeddedCover(name)
		if err != nil {
			t.Fatal(err)
		}
		if german.title == english.title || german.facts != english.facts || len(german.lines) != len(english.lines) ||
			len(german.parts) != len(english.parts) || len(german.classes) < len(english.classes) {
			t.Errorf("%s: in German %+v", name, german)
		}
		for i := range english.parts {
			if len(german.parts[i].points) != len(english.parts[i].points) {
				t.Errorf("%s: part %q has %d points", name, german.parts[i].title, len(german.parts[i].points))
			}
		}
	}
}

// Who reads a cover is told how many animals were recorded, with those that have no name,
// and how many kinds the index counts.
func TestACoverCountsAllAnimals(t *testing.T) {
	animals := append(taken("1", "2", "3"), visit.Identification{Sample: "1", Taxon: "baetidae", Count: 30, Confidence: 1},
		visit.Identification{Sample: "2", Taxon: "perlidae", Count: 11, Confidence: 1},
		visit.Identification{Sample: "3", Undecided: true, Count: 7})
	for name, want := range map[string]string{"landowner": "counted 48 animals.",
		"school": "they found 48 animals. The rule counts 2 kinds of them."} {
		r, _ := reportOf(t, visitOf("riffle-three", animals...))
		if cover := coverOf(t, r, name); !strings.Contains(cover, want) {
			t.Errorf("%s: no %q in %s", name, want, cover)
		}
	}
}

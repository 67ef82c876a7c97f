package wording_test

import (
	"slices"
	"testing"
	"time"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"

	"rillkey/taxa/wording"
)

var german = &wording.Translation{Language: "de", Comma: true, Date: "2. January 2006",
	Months: []string{"Januar", "Februar", "März", "April", "Mai", "Juni", "Juli", "August", "September", "Oktober", "November", "Dezember"},
	Say: map[string]string{
		"Stop here?": "Hier aufhören?", "%s in %s": "in %[2]s: %[1]s", "animal|animals": "Tier|Tiere",
		"%.1f of the animals":       "%.1f der Tiere",
		"Put it with {{.N}} others": "Leg das Tier zu {{.N}} anderen",
	},
	Instead: map[string]string{"das Tier": "das Blatt", "Tiere": "Blätter", "Tier": "Blatt"}}

func TestSentencesAreSaidInTheLanguageInUse(t *testing.T) {
	wording.Use(german)
	defer wording.Use(nil)
	for got, want := range map[string]string{
		wording.Text("Stop here?"):                                "Hier aufhören?",
		wording.Text("Go on?"):                                    "Go on?",
		wording.Sprintf("%s in %s", "a", "b"):                     "in b: a",
		wording.Sprintf("%.1f of the animals", 2.25):              "2,2 der Blätter",
		wording.Agree(1, "animal", "animals"):                     "Blatt",
		wording.Agree(3, "animal", "animals"):                     "Blätter",
		wording.Number(0.25):                                      "0,25",
		wording.Date(time.Date(2026, 3, 4, 0, 0, 0, 0, time.UTC)): "4. März 2026",
		wording.Markup("<p title=\"Stop here?\">\n Put it with {{.N}} others</p>{{if .X}}<b>Go</b>{{end}}"): "<p title=\"Hier " +
			"aufhören?\">\n Leg das Blatt zu {{.N}} anderen</p>{{if .X}}<b>Go</b>{{end}}",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestWithoutACatalogueEnglishIsSaid(t *testing.T) {
	if got := wording.Sprintf("%.1f animals", 2.25) +
		wording.Date(time.Date(2026, 3, 4, 0, 0, 0, 0, time.UTC)); got != "2.2 animals4 March 2026" {
		t.Error(got)
	}
}

func TestWhatDoesNotFit(t *testing.T) {
	for _, tt := range []struct {
		english, said string
		fits          bool
	}{
		{"%s of %d", "%[2]d: %[1]s", true},
		{"%s of %d", "%s von %d", true},
		{"%s mm (%s in)", "%[1]s mm", true},
		{"%s of %d", "%d von %s", false},
		{"%s of %d", "nur %s", false},
		{"none", "nur %s", false},
		{"95 % sure", "zu 95 % sicher", true},
		{"See {{.Name}}", "Siehe {{.Name}}", true},
		{"See {{.Name}}", "Siehe {{.Other}}", false},
		{"See {{.Name}}", "Siehe {{template \"x\"}}{{.Name}}", false},
	} {
		if problem := wording.Fits(tt.english, tt.said); (problem == "") != tt.fits {
			t.Errorf("%q for %q: %q", tt.said, tt.english, problem)
		}
	}
}

// The rules are held against those of the Unicode CLDR in golang.org/x/text.
func TestPluralFormsAreThoseOfTheCLDR(t *testing.T) {
	names := map[plural.Form]string{plural.Zero: "zero", plural.One: "one", plural.Two: "two", plural.Few: "few",
		plural.Many: "many", plural.Other: "other"}
	for _, tag := range []string{"de", "en", "es", "nl", "sv", "it", "fr", "pt", "ja", "zh", "ko", "ru", "uk", "be", "sr",
		"hr", "pl", "cs", "sk"} {
		forms := wording.Forms(tag)
		words := map[int]string{}
		for n := range 250 {
			said := names[plural.Cardinal.MatchPlural(language.Make(tag), n, 0, 0, 0, 0)]
			wording.Use(&wording.Translation{Language: tag, Say: map[string]string{"one|many": joined(forms)}})
			got := wording.Agree(n, "one", "many")
			if said == "many" && !slices.Contains(forms, "many") { // of whole numbers there is no other beside it
				said = "other"
			}
			if words[n] = got; got != said {
				t.Errorf("%s, %d: %s, want %s", tag, n, got, said)
				break
			}
		}
	}
	wording.Use(nil)
}

func joined(forms []string) string {
	out := forms[0]
	for _, f := range forms[1:] {
		out += "|" + f
	}
	return out
}

package pocket

import (
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/taxa/language"
	"rillkey/taxa/wording"
)

// The page around the program speaks the region's language, before the program runs
// and where it cannot; no word of its frame or its script is left in English.
func TestThePageSpeaksTheLanguageInUse(t *testing.T) {
	defer wording.Use(nil)
	wording.Use(nil)
	english := map[string]string{}
	for name, words := range scriptWords() {
		english[name] = words
		if !strings.Contains(script, "words."+name) {
			t.Errorf("the script never says %s", name)
		}
	}
	for _, words := range wording.TemplateSentences(frame) {
		english["frame: "+words] = words
	}
	if len(english) < 15 {
		t.Errorf("only %d sentences were found", len(english))
	}
	german, err := language.OfRegion("de", language.AtStreams, fstest.MapFS{}, "words.toml", "words.toml")
	if err != nil {
		t.Fatal(err)
	}
	wording.Use(german)
	var b strings.Builder
	page := PhonePage{Program: Program{Packed: []byte("program"), Runner: "run();"}, Key: "k"}
	if err := page.Write(&b); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	for name, words := range english {
		said := words
		if at := strings.Index(said, "%s"); at > 8 {
			said = said[:at]
		}
		if len(said) > 2 && strings.Contains(text, said) {
			t.Errorf("%s: %q is left in English", name, words)
		}
	}
	if !strings.Contains(text, `<html lang="de">`) {
		t.Error("the page does not say that it is in German")
	}
	if !strings.Contains(page.Policy(), Hashed(page.settings())) {
		t.Error("the page's policy does not allow its own words")
	}
}

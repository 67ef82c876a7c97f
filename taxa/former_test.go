package taxa_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/taxa"
)

// A former id is free and means one taxon; what it meant is found by it, and nothing
// that people write today may use it.
func TestFormerIDs(t *testing.T) {
	const traits = "[trait.legs]\nquestion = \"?\"\nlook = \"eye\"\nmisread = 0.1\nsource = \"memory\"\n" +
		"[trait.legs.state.0]\nlabel = \"none\"\n[trait.legs.state.6]\nlabel = \"six\"\n"
	taxon := func(id, was string) string {
		return "[taxon." + id + "]\nrank = \"family\"\nscientific = \"" + id + "\"\nsource = \"memory\"\nwas = " + was + "\n"
	}
	load := func(text string) (*taxa.Catalog, error) {
		return taxa.Load(fstest.MapFS{"traits.toml": {Data: []byte(traits)}, "a.toml": {Data: []byte(text)}}, "")
	}
	c, err := load(taxon("snail", `["gastropod", "limpet-like"]`) + taxon("worm", "[]"))
	if err != nil {
		t.Fatal(err)
	}
	for old, now := range map[string]string{"gastropod": "snail", "limpet-like": "snail", "worm": "worm", "nobody": "nobody"} {
		if got := c.Current(old); got != now {
			t.Errorf("%s is %s now, want %s", old, got, now)
		}
	}
	if problem, hint := c.Unknown("gastropod"); c.Taxon("gastropod") != nil || hint != `it is called "snail" now` {
		t.Error(problem, hint)
	}
	for _, row := range []struct{ why, text, want string }{
		{"still the id of another", taxon("snail", `["worm"]`) + taxon("worm", "[]"),
			`a.toml:5:8: doubled-id: the former id "worm" is the id of a taxon today`},
		{"claimed twice", taxon("snail", `["x"]`) + taxon("worm", `["x"]`),
			`a.toml:10:8: doubled-id: the former id "x" is also one of "snail"`},
	} {
		if _, err := load(row.text); err == nil || !strings.HasPrefix(err.Error(), row.want) {
			t.Errorf("%s: %v, want %s", row.why, err, row.want)
		}
	}
}

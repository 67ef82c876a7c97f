package improve_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/draft"
	"rillkey/key/improve"
	"rillkey/taxa"
)

// A comb: eight kinds of one trait of three bits, parted off one by one by an
// eighth state, where three questions would do.
func comb(t testing.TB) ([]byte, *couplets.Sound, *taxa.Catalog) {
	t.Helper()
	var traits, animals, text strings.Builder
	for b := range 3 {
		fmt.Fprintf(&traits, "[trait.b%d]\nquestion = \"?\"\nlook = \"eye\"\nmisread = 0.1\nsource = \"invented\"\nstate.no.label = \"no\"\nstate.yes.label = \"yes\"\n", b)
	}
	traits.WriteString("[trait.n]\nquestion = \"?\"\nlook = \"eye\"\nmisread = 0.1\nsource = \"invented\"\n")
	text.WriteString("# By hand.\n[key]\nid = \"comb\"\ntitle = \"A comb\"\nsource = \"invented\"\n")
	for i := range 8 {
		fmt.Fprintf(&traits, "state.%d.label = \"number %d\"\n", i, i)
		fmt.Fprintf(&animals, "[taxon.t%d]\nrank = \"group\"\nscientific = \"T\"\nsource = \"invented\"\ntraits = { n = \"%d\"", i, i)
		for b := range 3 {
			fmt.Fprintf(&animals, ", b%d = %q", b, []string{"no", "yes"}[i>>b&1])
		}
		animals.WriteString(" }\n")
	}
	for i := range 7 {
		rest, goal := "", fmt.Sprintf("to = \"%d\"", i+2)
		for j := i + 1; j < 8; j++ {
			rest += fmt.Sprintf("\"%d\", ", j)
		}
		if i == 6 {
			goal = `taxon = "t7"`
		}
		fmt.Fprintf(&text, "\n# Couplet %d.\n[couplet.%d]\nask = \"Number\"\na = { text = \"Number %d\", traits = { n = \"%d\" }, taxon = \"t%d\" }\nb = { text = \"A higher number\", traits = { n = [%s] }, %s }\n", i+1, i+1, i, i, i, rest, goal)
	}
	catalog, err := taxa.Load(fstest.MapFS{"traits.toml": {Data: []byte(traits.String())}, "animals.toml": {Data: []byte(animals.String())}}, "")
	if err != nil {
		t.Fatal(err)
	}
	s, err := couplets.LoadText([]byte(text.String()), "k", catalog)
	if err != nil {
		t.Fatal(err)
	}
	return []byte(text.String()), s, catalog
}

func TestACombIsBettered(t *testing.T) {
	data, s, catalog := comb(t)
	looking := key.Looking(catalog.Vocabulary())
	out, err := improve.Key(data, s, catalog, looking, draft.Model{Effort: looking.Effort, Readings: looking.Readings, Mistake: 10})
	if err != nil || len(out.Changes) == 0 {
		t.Fatal(err, out)
	}
	before, after := key.Compile(s, catalog).Stats(), key.Compile(out.Sound, catalog).Stats()
	if after.MeanFlat >= before.MeanFlat || len(out.Sound.Ends) != 8 {
		t.Errorf("%v questions before, %v after; %d end points", before.MeanFlat, after.MeanFlat, len(out.Sound.Ends))
	}
	gone := map[string]bool{}
	for _, c := range out.Changes {
		for _, id := range c.Gone {
			gone[id] = true
		}
	}
	for i := range 7 {
		comment := fmt.Sprintf("# Couplet %d.\n[couplet.%d]\n", i+1, i+1)
		if kept := strings.Contains(string(out.Text), comment); kept == gone[fmt.Sprint(i+1)] {
			t.Errorf("couplet %d: its text is kept: %v; it was replaced: %v", i+1, kept, !kept)
		}
	}
	if !strings.HasPrefix(string(out.Text), "# By hand.\n[key]\n") {
		t.Error("the head of the file was changed")
	}
	// What a draft has made leaves nothing worth a change.
	again, err := improve.Key(out.Text, out.Sound, catalog, looking, draft.Model{Effort: looking.Effort, Readings: looking.Readings, Mistake: 10})
	if err != nil || len(again.Changes) > 2 {
		t.Error(err, again.Changes)
	}
}

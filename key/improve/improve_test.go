package improve_test

import (
	"fmt"
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/draft"
	"rillkey/key/flow"
	"rillkey/key/improve"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

// A comb: eight kinds of one trait of three bits, parted off one by one by an
// eighth state, where three questions would do.
func comb(t testing.TB) ([]byte, *couplets.Sound, *taxa.Catalog) {
	t.Helper()
	var traits, animals, text strings.Builder
	for b := range 3 {
		fmt.Fprintf(&traits, "[trait.b%d]\nquestion = \"?\"\nlook = \"eye\"\nmisread = 0.1\nsource = \"invented\"\n"+
			"state.no.label = \"no\"\nstate.yes.label = \"yes\"\n", b)
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
		fmt.Fprintf(&text, "\n# Couplet %d.\n[couplet.%d]\nask = \"Number\"\n"+
			"a = { text = \"Number %d\", traits = { n = \"%d\" }, taxon = \"t%d\" }\n"+
			"b = { text = \"A higher number\", traits = { n = [%s] }, %s }\n", i+1, i+1, i, i, i, rest, goal)
	}
	catalog := keytest.Invented(t, traits.String(), animals.String())
	return []byte(text.String()), keytest.Checked(t, text.String(), catalog), catalog
}

func TestACombIsBettered(t *testing.T) {
	data, s, catalog := comb(t)
	looking := key.Looking(catalog.Vocabulary())
	model := draft.Costs{Effort: looking.Effort, Readings: looking.Readings, Terms: draft.Terms{Mistake: 10, Option: looking.Option}}
	out, err := improve.Improve(data, s, catalog, looking, model)
	if err != nil || len(out.Changes) == 0 {
		t.Fatal(err, out)
	}
	before, after := key.Compile(s, catalog).Stats(), key.Compile(out.Sound, catalog).Stats()
	if after.MeanFlat >= before.MeanFlat || len(out.Sound.Ends) != 8 {
		t.Errorf("%v questions before, %v after; %d end points", before.MeanFlat, after.MeanFlat, len(out.Sound.Ends))
	}
	touched := map[string]bool{}
	for _, c := range out.Changes {
		for _, id := range slices.Concat(c.New, c.Moved, c.Gone) {
			touched[id] = true
		}
	}
	for i := range 7 {
		comment := fmt.Sprintf("# Couplet %d.\n[couplet.%d]\n", i+1, i+1)
		if kept := strings.Contains(string(out.Text), comment); kept == touched[fmt.Sprint(i+1)] {
			t.Errorf("couplet %d: its text is kept: %v; it was replaced: %v", i+1, kept, !kept)
		}
	}
	if !strings.HasPrefix(string(out.Text), "# By hand.\n[key]\n") {
		t.Error("the head of the file was changed")
	}
	// What a draft has made leaves nothing worth a change.
	again, err := improve.Improve(out.Text, out.Sound, catalog, looking, model)
	if err != nil || len(again.Changes) > 0 {
		t.Error(err, again.Changes)
	}
}

// Two questions in the wrong order: few animals are told apart first, and most
// are asked for nothing. The words stay; only what follows what changes.
func TestTwoCoupletsChangePlaces(t *testing.T) {
	catalog := keytest.Invented(t, trait("tails")+trait("gills"), animal("a", "no", "no")+animal("b", "no", "yes")+animal("c", "yes", "no"))
	text := `[key]
id = "k"
title = "K"
source = "invented"
[couplet.1]
ask = "Gills"
a = { text = "None at all.", traits = { gills = "no" }, to = "2" }
b = { text = "A tuft.", traits = { gills = "yes" }, taxon = "b" }
[couplet.2]
ask = "Tails"
a = { text = "A plain end.", traits = { tails = "no" }, taxon = "a" }
b = { text = "It has tails.", traits = { tails = "yes" }, taxon = "c" }
[commonness]
source = "invented"
weight = { a = 1, b = 1, c = 50 }
`
	s, err := couplets.LoadText([]byte(text), "k", catalog)
	if err != nil {
		t.Fatal(err)
	}
	looking := key.Looking(catalog.Vocabulary())
	out, err := improve.Improve([]byte(text), s, catalog, looking,
		draft.Costs{Effort: looking.Effort, Readings: looking.Readings, Terms: draft.Terms{Mistake: 10, Option: looking.Option}})
	if err != nil || len(out.Changes) != 1 {
		t.Fatal(err, out)
	}
	c := out.Changes[0]
	if c.Asked != "Gills" || c.Asks != "Tails" || len(c.New)+len(c.Gone) > 0 || strings.Join(c.Moved, " ") != "1 2" {
		t.Errorf("%+v", c)
	}
	if one, two := out.Sound.Couplet("1"), out.Sound.Couplet("2"); one.Leads[1].Text != "It has tails." ||
		one.Leads[1].Taxa[0] != "c" || two.Leads[0].Text != "None at all." || two.Leads[1].Taxa[0] != "b" {
		t.Errorf("%s", out.Text)
	}
}

func trait(id string) string {
	return "[trait." + id + "]\nquestion = \"?\"\nlook = \"eye\"\nmisread = 0.1\nsource = \"invented\"\n" +
		"state.no.label = \"no\"\nstate.yes.label = \"yes\"\n"
}

func animal(id, tails, gills string) string {
	return fmt.Sprintf("[taxon.%s]\nrank = \"group\"\nscientific = %q\nsource = \"invented\"\n"+
		"traits = { tails = %q, gills = %q }\n", id, id, tails, gills)
}

// The built-in keys are better by what is said, and of their text only what is
// named changes.
func TestTheBuiltInKeysAreBetteredByWhatIsSaid(t *testing.T) {
	if testing.Short() {
		t.Skip("going through a whole key takes seconds")
	}
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	data, err := fs.ReadFile(couplets.Embedded(), couplets.DefaultName)
	if err != nil {
		t.Fatal(err)
	}
	s, err := couplets.LoadText(data, "k", catalog)
	if err != nil {
		t.Fatal(err)
	}
	looking := key.Looking(catalog.Vocabulary())
	out, err := improve.Improve(data, s, catalog, looking, draft.Costs{
		Effort: looking.Effort, Readings: looking.Readings, Terms: draft.Terms{Mistake: 10, Option: looking.Option}})
	if err != nil {
		t.Fatal(err)
	}
	before, after := flow.Follow(s, catalog, s.Commonness, looking), flow.Follow(out.Sound, catalog, s.Commonness, looking)
	effort, lost := before.Effort-after.Effort, before.Lost-after.Lost
	touched := map[string]bool{}
	for _, c := range out.Changes {
		effort, lost = effort-c.Effort, lost-c.Lost
		for _, id := range slices.Concat(c.New, c.Moved, c.Gone) {
			touched[id] = true
		}
	}
	if math.Abs(effort) > 1e-9 || math.Abs(lost) > 1e-9 || len(out.Sound.Ends) != len(s.Ends) {
		t.Errorf("effort %v and lost %v are saved by no change; %d end points", effort, lost, len(out.Sound.Ends))
	}
	for i := range s.Couplets {
		was := &s.Couplets[i]
		if is := out.Sound.Couplet(was.ID); !touched[was.ID] &&
			(is == nil || is.Ask != was.Ask || is.Leads[0].Text != was.Leads[0].Text || is.Leads[0].Next != was.Leads[0].Next) {
			t.Errorf("couplet %s is not named as changed", was.ID)
		}
	}
}

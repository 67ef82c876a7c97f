package couplets_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"rillkey/couplets"
	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
)

const traits = `
[trait.legs]
question = "How many legs?"
look = "eye"
misread = 0.05
source = "memory"
[trait.legs.state.0]
label = "no legs"
[trait.legs.state.6]
label = "six legs"
[trait.tails]
question = "How many tails?"
look = "eye"
misread = 0.1
source = "memory"
[trait.tails.state.none]
label = "no tails"
[trait.tails.state.2]
label = "two tails"
[trait.tails.state.3]
label = "three tails"
[trait.gills]
question = "Gills along the belly?"
look = "lens"
misread = 0.1
source = "memory"
[trait.gills.state.yes]
label = "gills"
[trait.gills.state.no]
label = "no gills"
`

const animals = `
[taxon.insecta]
rank = "class"
scientific = "Insecta"
source = "memory"
[taxon.mayfly]
rank = "order"
scientific = "Ephemeroptera"
parent = "insecta"
source = "memory"
[taxon.mayfly.traits]
legs = "6"
tails = ["2", "3"]
gills = "yes"
[taxon.stonefly]
rank = "order"
scientific = "Plecoptera"
parent = "insecta"
source = "memory"
[taxon.stonefly.traits]
legs = "6"
tails = "2"
gills = "no"
[taxon.worm]
rank = "class"
scientific = "Oligochaeta"
source = "memory"
[taxon.worm.traits]
legs = "0"
[taxon.beetle]
rank = "order"
scientific = "Coleoptera"
parent = "insecta"
source = "memory"
[taxon.beetle.traits]
legs = "6"
tails = "none"
`

const sound = `[key]
id = "small"
title = "A small key"
source = "invented"

[couplet.1]
ask = "Legs"
[couplet.1.a]
text = "Six legs"
traits = { legs = "6" }
to = "2"
[couplet.1.b]
text = "No legs"
traits = { legs = "0" }
taxon = "worm"

[couplet.2]
ask = "Tails"
stop = "insecta"
[couplet.2.a]
text = "Three tails"
traits = { tails = "3" }
taxon = "mayfly"
[couplet.2.b]
text = "Two tails or none"
traits = { tails = ["2", "none"] }
to = "3"

[couplet.3]
ask = "Tails again"
[couplet.3.a]
text = "Two tails"
traits = { tails = "2" }
to = "4"
[couplet.3.b]
text = "No tails"
traits = { tails = "none" }
taxon = "beetle"

[couplet.4]
ask = "Gills"
[couplet.4.a]
text = "Gills along the belly"
traits = { gills = "yes" }
taxon = "mayfly"
[couplet.4.b]
text = "No gills along the belly"
traits = { gills = "no" }
taxon = "stonefly"
`

func catalog(t testing.TB) *taxa.Catalog {
	t.Helper()
	c, err := taxa.Load(fstest.MapFS{"traits.toml": {Data: []byte(traits)}, "animals.toml": {Data: []byte(animals)}}, "")
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func load(text string, c *taxa.Catalog) (*couplets.Sound, error) {
	return couplets.Load(fstest.MapFS{"k.toml": {Data: []byte(text)}}, "k.toml", "k.toml", c)
}

func TestSoundKeyIsAccepted(t *testing.T) {
	s, err := load(sound, catalog(t))
	if err != nil {
		t.Fatal(err)
	}
	var ends []string
	for _, e := range s.Ends {
		ends = append(ends, e.ID)
	}
	if got := strings.Join(ends, " "); got != "worm mayfly beetle stonefly" {
		t.Errorf("end points %q are not in file order", got)
	}
}

// Each row changes one thing in the sound key and names the finding, with its
// place, that must be among those reported.
func TestEachFaultIsFoundAtItsPlace(t *testing.T) {
	c := catalog(t)
	for _, row := range []struct{ why, old, new, want string }{
		{"cycle", "to = \"4\"", "to = \"2\"", "k.toml:34:6: cycle: lead 3a goes back to couplet \"2\""},
		{"lead to itself", "to = \"4\"", "to = \"3\"", "k.toml:34:6: cycle:"},
		{"a taxon of a set that the catalog lacks", "taxon = \"mayfly\"", "taxon = [\"mayfly\", \"mayfli\"]",
			"k.toml:23:20: unknown-taxon: there is no taxon \"mayfli\""},
		{"a set whose animals show something else", "taxon = \"mayfly\"", "taxon = [\"mayfly\", \"worm\"]",
			"k.toml:10:19: contradiction: lead 1a asks for legs"},
		{"a set with one taxon twice", "taxon = \"mayfly\"", "taxon = [\"mayfly\", \"mayfly\"]", "k.toml:23:20: doubled-taxon: "},
		{"a set of nothing", "taxon = \"mayfly\"", "taxon = []", "k.toml:23:9: empty: "},
		{"an end that is a number", "taxon = \"mayfly\"", "taxon = 3", "k.toml:23:9: wrong-kind: "},
		{"missing couplet", "to = \"4\"", "to = \"44\"", "k.toml:34:6: unknown-couplet: lead 3a goes to couplet \"44\""},
		{"unreachable couplet", "to = \"4\"", "taxon = \"stonefly\"", "k.toml:40:1: unreachable:"},
		{"lead that goes nowhere", "taxon = \"beetle\"\n", "", "k.toml:35:1: dead-end:"},
		{"lead to a taxon without a name", "taxon = \"beetle\"", "taxon = \"\"", "k.toml:38:9: empty:"},
		{"lead that goes two ways", "to = \"4\"", "to = \"4\"\ntaxon = \"worm\"", "k.toml:35:9: two-ends:"},
		{"doubled couplet", "[couplet.4.b]", "[couplet.4.a]", "k.toml:46:1: syntax:"},
		{"doubled couplet table", "[couplet.4]\n", "[couplet.3]\n", "k.toml:40:1: syntax:"},
		{"couplet with one lead", "[couplet.4.b]\ntext = \"No gills along the belly\"\ntraits = { gills = \"no\" }\n" +
			"taxon = \"stonefly\"\n", "", "k.toml:40:1: one-lead:"},
		{"lead letters with a gap", "[couplet.4.b]", "[couplet.4.c]", "k.toml:46:1: lead-letter:"},
		{"unknown taxon", "taxon = \"beetle\"", "taxon = \"beetel\"",
			"k.toml:38:9: unknown-taxon: there is no taxon \"beetel\" (did you mean \"beetle\"?)"},
		{"unknown trait", "{ tails = \"3\" }", "{ tail = \"3\" }",
			"k.toml:22:19: unknown-trait: there is no trait \"tail\" (did you mean \"tails\"?)"},
		{"unknown state", "{ tails = \"3\" }", "{ tails = \"4\" }",
			"k.toml:22:20: unknown-trait: the trait \"tails\" has no state \"4\" (its states are \"none\", \"2\", \"3\")"},
		{"unknown field", "ask = \"Tails again\"", "ask = \"T\"\nasks = \"x\"", "k.toml:31:1: unknown-field:"},
		{"no traits at all", "traits = { legs = \"0\" }\ntaxon = \"worm\"\n\n[couplet.2]",
			"traits = {}\ntaxon = \"worm\"\n\n[couplet.2]", "k.toml:14:10: no-traits:"},
		{"taxon contradicts its lead", "taxon = \"beetle\"", "taxon = \"stonefly\"",
			"k.toml:37:20: contradiction: lead 3b asks for tails \"none\", but \"stonefly\", keyed below it, shows \"2\""},
		{"leads that one animal fits both of", "traits = { tails = [\"2\", \"none\"] }",
			"traits = { tails = [\"2\", \"3\"] }", "k.toml:24:1: overlap:"},
		{"a state that leads past its taxon", "traits = { gills = \"yes\" }\ntaxon = \"mayfly\"",
			"traits = { gills = \"yes\" }\ntaxon = \"stonefly\"", "k.toml:17:1: gap: \"mayfly\" can show tails \"2\""},
		{"stop that does not hold all below it", "stop = \"insecta\"", "stop = \"worm\"", "k.toml:19:8: bad-stop:"},
		{"start that is not there", "source = \"invented\"", "source = \"invented\"\nstart = \"9\"", "k.toml:5:9: unknown-couplet:"},
		{"text with a terminal escape", "text = \"Two tails\"", `text = "\u001b[2JTwo"`, "k.toml:32:8: control-character:"},
		{"an id with a path in it", "[couplet.4]\n", "[couplet.\"../x\"]\n", "k.toml:40:1: bad-id:"},
		{"commonness of what is no end point", "[couplet.4]\n",
			"[commonness]\nsource = \"memory\"\nweight = { insecta = 3 }\n[couplet.4]\n", "k.toml:42:12: no-end-point:"},
		{"commonness of nothing", "[couplet.4]\n", "[commonness]\nsource = \"memory\"\nweight = { worm = 0 }\n[couplet.4]\n",
			"k.toml:42:19: bad-weight:"},
		{"lens set with a stranger", "[couplet.4]\n",
			"[lens.x]\ntaxa = [\"mayfly\", \"worm\"]\nwithout = \"insecta\"\nwhy = \"w\"\n[couplet.4]\n",
			"k.toml:41:19: bad-lens-set: \"worm\" does not belong to \"insecta\""},
		{"nothing in it", sound, "", "k.toml:1:1: missing-field:"},
	} {
		t.Run(row.why, func(t *testing.T) {
			text := strings.Replace(sound, row.old, row.new, 1)
			if text == sound {
				t.Fatalf("the sound key does not hold %q", row.old)
			}
			_, err := load(text, c)
			if err == nil {
				t.Fatalf("accepted; want %s", row.want)
			}
			for _, line := range strings.Split(err.Error(), "\n") {
				if strings.HasPrefix(line, row.want) {
					return
				}
			}
			t.Errorf("got\n%v\nwant\n%s…", err, row.want)
		})
	}
}

// One run tells of faults of every stage: reading, references and meaning.
func TestOneRunFindsFaultsOfEveryStage(t *testing.T) {
	text := strings.NewReplacer("ask = \"Tails again\"", "asks = \"x\"", "taxon = \"worm\"", "taxon = \"wurm\"",
		"stop = \"insecta\"", "stop = \"worm\"").Replace(sound)
	_, err := load(text, catalog(t))
	for _, rule := range []string{": unknown-field:", ": missing-field:", ": unknown-taxon:", ": bad-stop:"} {
		if err == nil || !strings.Contains(err.Error(), rule) {
			t.Errorf("no %s in\n%v", rule, err)
		}
	}
}

// A mistake in a key of thousands is told a thousand times, then counted.
func TestFindingsAreBounded(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a second")
	}
	var b strings.Builder
	b.WriteString("[key]\nid = \"big\"\ntitle = \"Big\"\nsource = \"invented\"\n")
	for i := range couplets.MaxCouplets + 2 {
		fmt.Fprintf(&b, "[couplet.%d]\nask=\"x\"\na={text=\"t\",traits={legs=\"6\"},taxon=\"nobody\"}\n"+
			"b={text=\"t\",traits={legs=\"0\"},to=\"%d\"}\n", i, i+1)
	}
	_, err := load(b.String(), catalog(t))
	var found authored.Findings
	if !errors.As(err, &found) || len(found) > 1100 {
		t.Fatalf("%d findings", len(found))
	}
	many, more := false, false
	for _, f := range found {
		many = many || f.Rule == "too-many-couplets" && f.Line == 5+4*couplets.MaxCouplets
		more = more || f.Rule == "and-more" && strings.HasPrefix(f.Message, "19001 more")
	}
	if !many || !more {
		t.Errorf("too-many-couplets at its place: %v; the rest counted: %v: %v", many, more, found[len(found)-1])
	}
}

// Whatever the text, a key is either refused with a place or sound.
func FuzzLoad(f *testing.F) {
	c := catalog(f)
	f.Add(sound)
	f.Add(strings.Replace(sound, "to = \"4\"", "to = \"2\"", 1))
	f.Add(strings.ReplaceAll(sound, "tails", "legs"))
	f.Add("[key]\n[couplet.1.a]\n[couplet.1.b]\n")
	f.Fuzz(func(t *testing.T, text string) {
		s, err := load(text, c)
		if err == nil && len(s.Ends) == 0 {
			t.Fatal("a sound key without an end")
		}
		if err != nil && plain.HasControl(strings.ReplaceAll(err.Error(), "\n", "")) {
			t.Fatalf("control character in %q", err.Error())
		}
	})
}

// One misspelt state makes gaps, contradictions and the like wherever its animals
// are missed. It is told first, and they are folded beneath it; what has nothing
// to do with it stands by itself.
func TestWhatFollowsFromAMistakeIsFoldedBeneathIt(t *testing.T) {
	for _, row := range []struct{ why, old, new, cause string }{
		{"a misspelt state", "traits = { legs = \"6\" }", "traits = { legs = \"sixx\" }", "unknown-trait"},
		{"a state without quotation marks", "traits = { legs = \"6\" }", "traits = { legs = 6 }", "wrong-kind"},
		{"a lead to a couplet that is not there", "to = \"2\"", "to = \"22\"", "unknown-couplet"},
		{"a number without quotation marks", "to = \"2\"", "to = 2", "wrong-kind"},
		{"a lead to nowhere", "to = \"2\"\n", "", "dead-end"},
		{"a misspelt taxon", "taxon = \"mayfly\"", "taxon = \"mayfli\"", "unknown-taxon"},
	} {
		t.Run(row.why, func(t *testing.T) {
			text := strings.Replace(sound, row.old, row.new, 1)
			if text == sound {
				t.Fatalf("the sound key does not hold %q", row.old)
			}
			_, err := load(text, catalog(t))
			var found authored.Findings
			if !errors.As(err, &found) || len(found) != 1 || found[0].Rule != row.cause {
				t.Fatalf("got\n%v\nwant one %s", err, row.cause)
			}
		})
	}
	_, err := load(strings.Replace(sound, "to = \"2\"", "to = \"22\"", 1), catalog(t))
	if text := fmt.Sprint(err); !strings.Contains(text, "\n    ") ||
		!strings.Contains(text, "more findings follow from this, such as line ") {
		t.Errorf("nothing is folded beneath the lead to nowhere:\n%s", text)
	}
}

// A key with the animals of another region is told so once, not once a name.
func TestAKeyForOtherAnimalsIsToldInOneLine(t *testing.T) {
	key := strings.NewReplacer("\"worm\"", "\"yabby\"", "\"mayfly\"", "\"freshwater-mussel\"", "\"beetle\"", "\"waterpenny\"",
		"\"stonefly\"", "\"gripopterygid\"").Replace(sound)
	_, err := load(key, catalog(t))
	var found authored.Findings
	if !couplets.ForOtherAnimals(err) || !errors.As(err, &found) || !strings.Contains(found[0].Message, "4 of the 4") {
		t.Errorf("got %v", err)
	}
	if _, err := load(strings.Replace(sound, "\"worm\"", "\"wurm\"", 1), catalog(t)); err == nil ||
		strings.Contains(err.Error(), "other-catalog") {
		t.Errorf("one misspelt animal makes no other region: %v", err)
	}
}

// A file of nothing but mistakes does not cost the square of them.
func TestOneLeadWithManyUnknownTraitsIsToldInTime(t *testing.T) {
	var lead strings.Builder
	for i := range 32_000 {
		fmt.Fprintf(&lead, "zz%d = \"1\", ", i)
	}
	text := "[key]\nid = \"a\"\ntitle = \"A\"\nsource = \"memory\"\n[couplet.1]\nask = \"?\"\n" +
		"a = { text = \"A\", taxon = \"mayfly\", traits = {" +
		lead.String() + "} }\nb = { text = \"B\", taxon = \"stonefly\", traits = { legs = \"6\" } }\n"
	catalog := catalog(t)
	begun := time.Now()
	_, err := couplets.LoadText([]byte(text), "a.toml", catalog)
	var found authored.Findings
	if !errors.As(err, &found) || found[0].Rule != "unknown-trait" {
		t.Fatal(err)
	}
	if took := time.Since(begun); took > 30*time.Second {
		t.Errorf("it took %v", took)
	}
	last := slices.IndexFunc(found, func(f authored.Finding) bool {
		return strings.Contains(f.Message, "31950 more traits of this lead are unknown")
	})
	if last != 50 {
		t.Errorf("the rest is told at %d of %d", last, len(found))
	}
}

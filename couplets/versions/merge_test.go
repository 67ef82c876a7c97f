package versions_test

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/couplets"
	"rillkey/couplets/versions"
	"rillkey/taxa"
	"rillkey/taxa/authored"
)

func edition(t *testing.T, text string) versions.Version {
	t.Helper()
	var report authored.Report
	f, err := couplets.Read(fstest.MapFS{"k": {Data: []byte(text)}}, "k", "k", &report)
	if err != nil || len(report.All()) > 0 {
		t.Fatal(err, report.Findings(), text)
	}
	return versions.Version{File: f, Text: text}
}

// keyOf is a key of a chain of couplets, each with a lead to an animal.
func keyOf(n int) string {
	var b strings.Builder
	b.WriteString("[key]\nid = \"k\"\ntitle = \"K\"\nsource = \"invented\"\n")
	for i := 1; i <= n; i++ {
		fmt.Fprintf(&b, "\n# About %d.\n[couplet.%d]\nask = \"Question %d\"\n[couplet.%d.a]\ntext   = \"Yes, %d.\"\n"+
			"traits = { t%d = \"yes\" }\ntaxon  = \"a%d\"\n[couplet.%d.b]\ntext   = \"No, %d.\"\ntraits = { t%d = \"no\" }\n",
			i, i, i, i, i, i, i, i, i, i)
		if i < n {
			fmt.Fprintf(&b, "to     = \"%d\"\n", i+1)
		} else {
			b.WriteString("taxon  = \"rest\"\n")
		}
	}
	return b.String()
}

// added is a couplet between one and the next.
func added(text string, number, behind int, what string) string {
	text = strings.Replace(text, fmt.Sprintf("to     = \"%d\"\n", behind+1), fmt.Sprintf("to     = \"%d\"\n", number), 1)
	return text + fmt.Sprintf("\n[couplet.%d]\nask = \"%s\"\n[couplet.%d.a]\ntext   = \"It is %s.\"\n"+
		"traits = { %s = \"yes\" }\ntaxon  = \"%s\"\n[couplet.%d.b]\ntext   = \"It is not %s.\"\ntraits = { %s = \"no\" }\n"+
		"to     = \"%d\"\n",
		number, what, number, what, what, what, number, what, what, behind+1)
}

// renumbered is a text with all couplets counted on.
func renumbered(text string, n, by int) string {
	for i := n; i >= 1; i-- {
		text = strings.NewReplacer(fmt.Sprintf("[couplet.%d]", i), fmt.Sprintf("[couplet.%d]", i+by), fmt.Sprintf("[couplet.%d.", i),
			fmt.Sprintf("[couplet.%d.", i+by), fmt.Sprintf("\"%d\"\n", i), fmt.Sprintf("\"%d\"\n", i+by)).Replace(text)
	}
	return text
}

func TestTwoTrainersAreBroughtTogether(t *testing.T) {
	base := keyOf(4)
	say := func(text, old, now string) string {
		if !strings.Contains(text, old) {
			t.Fatalf("%q fits nothing", old)
		}
		return strings.Replace(text, old, now, 1)
	}
	for _, row := range []struct {
		why, ours, theirs string
		want              []string // in the text
		conflicts, both   string
	}{
		{"each another couplet", say(base, "Yes, 2.", "Surely 2."), say(base, "Yes, 3.", "Surely 3."), []string{"Surely 2.", "Surely 3."},
			"[]", "[]"},
		{"one couplet, other leads", say(base, "Yes, 2.", "Surely 2."), say(base, "No, 2.", "Never 2."), []string{"Surely 2.",
			"Never 2."}, "[]", "[2]"},
		{"one lead", say(base, "Yes, 2.", "Surely 2."), say(base, "Yes, 2.", "Maybe 2."), []string{"\"Surely 2.\"\n",
			"# Merged: here the other version has\n#   text   = \"Maybe 2.\""}, "[2a text, traits]", "[2]"},
		{"its words here, its states there", say(base, "Yes, 2.", "Surely 2."), say(base, "t2 = \"yes\"", "t2 = [\"yes\", \"half\"]"),
			nil, "[2a text, traits]", "[2]"},
		{"another goal here and there", say(base, "taxon  = \"a2\"", "taxon  = \"x\""), say(base, "taxon  = \"a2\"", "to     = \"4\""),
			nil, "[2a to, taxon]", "[2]"},
		{"both added a couplet of one number", added(base, 5, 1, "green"), added(base, 5, 2, "blue"),
			[]string{"[couplet.5]\nask = \"green\"", "[couplet.6]\nask = \"blue\"", "[couplet.6.a]",
				"\"No, 2.\"\ntraits = { t2 = \"no\" }\nto     = \"6\""}, "[]", "[]"},
		{"both added the same", added(base, 5, 1, "green"), added(base, 7, 1, "green"), []string{"to     = \"5\""}, "[]", "[]"},
		{"renumbered here", renumbered(base, 4, 10), say(base, "to     = \"4\"", "to     = \"2\""),
			[]string{"[couplet.13.b]\ntext   = \"No, 3.\"\ntraits = { t3 = \"no\" }\nto     = \"12\""}, "[]", "[]"},
		{"renumbered there", say(base, "Yes, 2.", "Surely 2."), renumbered(say(base, "Yes, 3.", "Surely 3."), 4, 10),
			[]string{"[couplet.2.a]\ntext   = \"Surely 2.\"", "[couplet.3.a]\ntext   = \"Surely 3.\""}, "[]", "[]"},
	} {
		t.Run(row.why, func(t *testing.T) {
			m, err := versions.MergeKeys(edition(t, base), edition(t, row.ours), edition(t, row.theirs))
			if err != nil {
				t.Fatal(err)
			}
			edition(t, m.Text) // it is a key
			for _, want := range row.want {
				if !strings.Contains(m.Text, want) {
					t.Errorf("no %q in\n%s", want, m.Text)
				}
			}
			got := []string{}
			for _, c := range m.Conflicts {
				got = append(got, c.Couplet+c.Lead+" "+strings.Join(c.Fields, ", "))
			}
			if fmt.Sprint(got) != row.conflicts || fmt.Sprint(m.Both) != row.both {
				t.Errorf("conflicts %v, want %s; both %v, want %s", got, row.conflicts, m.Both, row.both)
			}
		})
	}
}

// What two people change in different couplets of the built-in key is all in what comes
// of it, whoever is first, and nothing else is.
func TestChangesOfDifferentCoupletsAllHold(t *testing.T) {
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	data, err := fs.ReadFile(couplets.Embedded(), couplets.DefaultName)
	if err != nil {
		t.Fatal(err)
	}
	base := edition(t, string(data))
	r := rand.New(rand.NewPCG(18, 4))
	var texts [3]string
	for i := range texts {
		texts[i] = base.Text
	}
	for i, c := range r.Perm(len(base.File.Couplets))[:40] {
		at := &base.File.Couplets[c]
		old := "\"" + at.Leads[0].Text + "\""
		if strings.Count(base.Text, old) != 1 {
			continue
		}
		now := fmt.Sprintf("\"Changed %d.\"", i)
		texts[i%2] = strings.Replace(texts[i%2], old, now, 1)
		texts[2] = strings.Replace(texts[2], old, now, 1)
	}
	for _, order := range [][2]string{{texts[0], texts[1]}, {texts[1], texts[0]}} {
		m, err := versions.MergeKeys(base, edition(t, order[0]), edition(t, order[1]))
		if err != nil || m.Text != texts[2] || len(m.Conflicts)+len(m.Both) > 0 {
			t.Errorf("%v, %v, %v", err, m.Conflicts, m.Both)
		}
		if _, err := couplets.LoadText([]byte(m.Text), "merged", catalog); err != nil {
			t.Error(err)
		}
	}
	if slices.Contains(texts[:2], base.Text) {
		t.Error("nothing was changed")
	}
}

// The first couplet that says something else is the one to be shown, or one that is new;
// otherwise the one with which the key begins.
func TestLastEdited(t *testing.T) {
	key := func(texts ...string) *couplets.File {
		f := &couplets.File{Start: "1"}
		for i, text := range texts {
			f.Couplets = append(f.Couplets, couplets.Couplet{ID: fmt.Sprint(i + 1), Ask: "Tails",
				Leads: []couplets.Lead{{Letter: "a", Text: text,
					Conditions: []couplets.Condition{{Trait: "tails", States: []string{"3"}}}}}})
		}
		return f
	}
	other := key("three", "two", "one")
	other.Couplets[1].Leads[0].Conditions[0].States = []string{"2"}
	for _, row := range []struct {
		why         string
		before, now *couplets.File
		want        string
	}{
		{"not read before", nil, key("three", "two"), "1"},
		{"nothing", key("three", "two", "one"), key("three", "two", "one"), "1"},
		{"words", key("three", "two", "one"), key("three", "a pair", "single"), "2"},
		{"what it stands for", key("three", "two", "one"), other, "2"},
		{"a new one", key("three", "two", "one"), key("three", "two", "one", "none"), "4"},
		{"one that is gone", key("three", "two", "one"), key("three", "two"), "1"},
	} {
		if got := versions.LastEdited(row.before, row.now); got != row.want {
			t.Errorf("%s: %q, want %q", row.why, got, row.want)
		}
	}
}

package trim_test

import (
	"io/fs"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"rillkey/couplets"
	"rillkey/key/keytest"
	"rillkey/key/trim"
	"rillkey/taxa"
)

func embedded(t testing.TB) ([]byte, *couplets.Sound, *taxa.Catalog) {
	t.Helper()
	catalog, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	data, err := fs.ReadFile(couplets.Embedded(), couplets.DefaultName)
	if err != nil {
		t.Fatal(err)
	}
	s := keytest.Checked(t, string(data), catalog)
	return data, s, catalog
}

// Whatever the region: what is left checks clean, keys exactly what was to be
// kept, and every couplet that stays says what it said, under the same comments.
func TestTrimmedKeysAreSoundAndSayTheSame(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	data, s, catalog := embedded(t)
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 7))
		share := 0.02 + r.Float64()
		var kept []string
		for _, end := range s.Ends {
			if r.Float64() < share {
				kept = append(kept, end.ID)
			}
		}
		if len(kept) < 2 {
			continue
		}
		out, err := trim.Keep(data, s, func(id string) bool { return slices.Contains(kept, id) })
		if err != nil {
			t.Fatal(err)
		}
		got := keytest.Checked(t, string(out.Text), catalog)
		var ends []string
		for _, end := range got.Ends {
			ends = append(ends, end.ID)
		}
		slices.Sort(ends)
		slices.Sort(kept)
		if !slices.Equal(ends, kept) {
			t.Fatalf("seed %d: keyed %v, want %v", seed, ends, kept)
		}
		if len(got.Couplets) != len(s.Couplets)-len(out.Couplets) || len(got.Couplets) >= len(s.Couplets) &&
			len(kept) < len(s.Ends) && len(out.Couplets) > 0 {
			t.Errorf("seed %d: %d couplets left of %d, %d named as gone", seed, len(got.Couplets), len(s.Couplets), len(out.Couplets))
		}
		sameWords(t, s, got, out.Couplets)
		inOrder(t, string(data), string(out.Text))
	}
}

// sameWords compares the couplets that stay, in the order of the file.
func sameWords(t *testing.T, before, after *couplets.Sound, gone []string) {
	t.Helper()
	i := 0
	for _, c := range before.Couplets {
		if slices.Contains(gone, c.ID) {
			continue
		}
		now := after.Couplets[i]
		i++
		if now.Ask != c.Ask || now.Wait != c.Wait || now.Stop != c.Stop {
			t.Errorf("couplet %s, now %s, says something else", c.ID, now.ID)
		}
		for _, l := range now.Leads {
			if !slices.ContainsFunc(c.Leads, func(o couplets.Lead) bool { return o.Text == l.Text }) {
				t.Errorf("couplet %s has a new lead %q", c.ID, l.Text)
			}
		}
	}
}

// inOrder wants every line of the trimmed text that tells no number and no goal
// to be a line of the original, in its order.
func inOrder(t *testing.T, before, after string) {
	t.Helper()
	lines := strings.Split(before, "\n")
	for line := range strings.SplitSeq(after, "\n") {
		if word := strings.TrimSpace(line); strings.HasPrefix(word, "[couplet.") || strings.HasPrefix(word, "to ") ||
			strings.HasPrefix(word, "taxon ") || strings.HasPrefix(word, "taxa ") || strings.HasPrefix(word, "start") {
			continue
		}
		i := slices.Index(lines, line)
		if i < 0 {
			t.Fatalf("the line %q is not in the original, or not in this order", line)
		}
		lines = lines[i+1:]
	}
}

const animals = `
[taxon.w]
rank = "group"
scientific = "W"
source = "invented"
traits = { legs = "0" }
[taxon.x]
rank = "group"
scientific = "X"
source = "invented"
traits = { legs = "6", tails = "2" }
[taxon.y]
rank = "group"
scientific = "Y"
source = "invented"
traits = { legs = "6", tails = "3" }
[taxon.z]
rank = "group"
scientific = "Z"
source = "invented"
traits = { legs = "6", tails = "none" }
`

const traits = `
[trait.legs]
question = "Legs?"
look = "eye"
misread = 0.1
source = "invented"
state.0.label = "none"
state.6.label = "six"
[trait.tails]
question = "Tails?"
look = "eye"
misread = 0.1
source = "invented"
state.none.label = "none"
state.2.label = "two"
state.3.label = "three"
`

const mine = `# My key.
[key]
id = "mine"
title = "Mine"
source = "invented"

# By the pool.
[couplet.1]   # legs first
ask = "Legs"
a = { text = "Six", traits = { legs = "6" }, to = "7" } # most
b = { text = "None", traits = { legs = "0" }, taxon = "w" }

# ---- tails

# Count twice.
[couplet.7]
ask = "Tails"
[couplet.7.a]
text = "Two"   # not one
traits = { tails = "2" }
taxon = "x"
[couplet.7.b]
text = "Three"
traits = { tails = "3" }
taxon = "y"
[couplet.7.c]
text = "[couplet.9] is no header"
traits = { tails = "none" }
taxon = "z"
[commonness]
source = "invented"
weight = { w = 1, x = 2, y = 3 }
`

// Each row keeps some taxa of one key; the text that must come out is given by
// what changes in it.
func TestTrimmingTouchesNothingElse(t *testing.T) {
	catalog := keytest.Invented(t, traits, animals)
	first := mine[strings.Index(mine, "# By the pool"):strings.Index(mine, "# ---- tails")]
	second := mine[strings.Index(mine, "# Count twice"):strings.Index(mine, "[commonness]")]
	leadB := second[strings.Index(second, "[couplet.7.b]"):strings.Index(second, "[couplet.7.c]")]
	for _, row := range []struct {
		why, keep string
		change    []string
	}{
		{"everything", "w x y z", []string{"couplet.7]", "couplet.2]", "couplet.7.", "couplet.2.", `"7"`, `"2"`}},
		{"the first couplet decides nothing", "x y z",
			[]string{first, "", "couplet.7]", "couplet.1]", "couplet.7.", "couplet.1.", "w = 1, ", ""}},
		{"a lead in the middle goes", "w x z",
			[]string{leadB, "", "couplet.7]", "couplet.2]", "couplet.7.c", "couplet.2.b", "couplet.7.", "couplet.2.", `"7"`,
				`"2"`, ", y = 3", ""}},
		{"the second couplet decides nothing", "w z",
			[]string{second, "", `to = "7"`, `taxon = "z"`, "x = 2, y = 3 ", " ", "w = 1,", "w = 1"}},
	} {
		t.Run(row.why, func(t *testing.T) {
			out, err := trim.Keep([]byte(mine), keytest.Checked(t, string([]byte(mine)), catalog),
				func(id string) bool { return strings.Contains(row.keep, id) })
			if err != nil {
				t.Fatal(err)
			}
			keytest.Checked(t, string(out.Text), catalog)
			want := mine
			for i := 0; i < len(row.change); i += 2 {
				want = strings.ReplaceAll(want, row.change[i], row.change[i+1])
			}
			if got := strings.ReplaceAll(string(out.Text), " ", ""); got != strings.ReplaceAll(want, " ", "") {
				t.Errorf("got\n%s\nwant\n%s", out.Text, want)
			}
		})
	}
}

func TestTooLittleToKeep(t *testing.T) {
	data, s, _ := embedded(t)
	if _, err := trim.Keep(data, s, func(id string) bool { return id == s.Ends[0].ID }); err == nil ||
		!strings.Contains(err.Error(), "keeps 1 of") {
		t.Error(err)
	}
}

// Of a set what is kept stays, in its place; two leads that then end alike decide
// nothing, and their couplet falls away.
func TestTrimmingASharedEnd(t *testing.T) {
	const text = `[key]
id = "mine"
title = "Mine"
source = "invented"
[couplet.1]
ask = "Legs"
[couplet.1.a]
text = "Six"
traits = { legs = "6" }
taxon = ["x", "y", "z"] # by the tails, one day
[couplet.1.b]
text = "None"
traits = { legs = "0" }
to = "2"
[couplet.2]
ask = "Tails"
[couplet.2.a]
text = "Two"
traits = { tails = "2" }
taxon = ["w", "v"]
[couplet.2.b]
text = "None"
traits = { tails = "none" }
taxon = ["w"]
`
	withV := animals + "[taxon.v]\nrank = \"group\"\nscientific = \"V\"\nsource = \"invented\"\ntraits = { legs = \"0\", tails = \"2\" }\n"
	catalog := keytest.Invented(t, traits, withV)
	for _, row := range []struct{ keep, want, gone string }{
		{"w x y z", `taxon = ["x", "y", "z"] # by`, "2"},
		{"v w x z", `taxon = ["x", "z"] # by`, ""},
		{"v w z", `taxon = ["z"] # by`, ""},
		{"v x", `taxon = ["x"] # by`, "2"},
	} {
		out, err := trim.Keep([]byte(text), keytest.Checked(t, text, catalog),
			func(id string) bool { return strings.Contains(row.keep, id) })
		if err != nil {
			t.Fatal(err)
		}
		keytest.Checked(t, string(out.Text), catalog)
		if !strings.Contains(string(out.Text), row.want) || strings.Join(out.Couplets, " ") != row.gone {
			t.Errorf("keeping %s: %v gone of\n%s", row.keep, out.Couplets, out.Text)
		}
	}
}

// Each couplet has a line with its old number and its new one.
func TestNumbersCSV(t *testing.T) {
	_, sound, _ := embedded(t)
	to, want, others := map[string]string{}, "old,new\n", 0
	for i, c := range sound.Couplets {
		to[c.ID] = c.ID
		if i%3 == 0 {
			to[c.ID] = c.ID + "0"
			others++
		}
		want += c.ID + "," + to[c.ID] + "\n"
	}
	table, changed := (&trim.Trimmed{Numbers: to}).NumbersCSV(sound)
	if string(table) != want || changed != others {
		t.Errorf("%d changed, not %d:\n%s", changed, others, table)
	}
}

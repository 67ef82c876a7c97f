package merge_test

import (
	"strings"
	"testing"

	"rillkey/taxa/authored/merge"
)

const base = `# A file.
title = "One"

# The first.
[animal.worm]
name = "worm"  # plain
legs = [
  0, # none
]
[animal.worm.says]
text = """
two "lines"
"""
[animal."a.b"]
name = 'x = "y" # no remark'
[weights]
worm = 1
fly  = 2
`

// A text comes back from its tables to the last byte.
func TestTextsComeBack(t *testing.T) {
	for _, text := range []string{base, strings.ReplaceAll(base, "\n", "\r\n"), "", "a = 1\n", "# only\n\n# remarks\n",
		"[[list]]\na = 1\n[[list]]\na = \"\"\"x\"\"\"\"\n"} {
		if got := merge.Read(text).String(); got != text {
			t.Errorf("got %q, want %q", got, text)
		}
	}
}

func TestMerge(t *testing.T) {
	one := merge.Options{One: [][]string{{"name", "legs"}}, Mark: "Theirs has"}
	for _, row := range []struct {
		why          string
		ours, theirs []string // replaced in base, in pairs
		want         string   // in the result, without regard to blanks
		lacks        string
		conflict     string // path and fields, empty for none
	}{
		{"each another thing", []string{`"One"`, `"Two"`}, []string{"fly  = 2", "fly  = 3"}, `title = "Two" # The first. [animal.worm]`,
			"fly  = 2", ""},
		{"both the same", []string{`"One"`, `"Two"`}, []string{`"One"`, `"Two"`}, `title = "Two"`, "Theirs", ""},
		{"the same thing otherwise", []string{`"One"`, `"Two"`}, []string{`"One"`, `"Three"`},
			`title = "Two" # Theirs has # title = "Three"`, "", ": title"},
		{"fields that say one thing", []string{`"worm"  #`, `"slug"  #`}, []string{"  0,", "  2,"}, `name = "slug" # plain`, "",
			"animal.worm: name, legs"},
		{"only aligned", []string{"fly  =", "fly ="}, []string{"fly  = 2", "fly  = 5"}, "fly = 5", "Theirs", ""},
		{"a table taken out", nil, []string{"[weights]\nworm = 1\nfly  = 2\n", ""}, "", "[weights]", ""},
		{"a table taken out here and changed there", []string{"[weights]\nworm = 1\nfly  = 2\n", ""}, []string{"fly  = 2", "fly  = 3"},
			"# Theirs has # [weights] # worm = 1 # fly = 3", "", "weights: "},
		{"a table changed here and taken out there", []string{"fly  = 2", "fly  = 3"}, []string{"[weights]\nworm = 1\nfly  = 2\n", ""},
			"fly = 3 # Theirs has # nothing", "", "weights: "},
		{"tables added by both", []string{"[weights]", "[animal.fly]\nname = \"fly\"\n[weights]"}, []string{"[weights]",
			"[animal.ant]\nname = \"ant\"\n[weights]"}, `[animal.ant] name = "ant" [animal.fly]`, "", ""},
		{"a part added there", nil, []string{`[animal."a.b"]`, "[animal.worm.eats]\nmud = true\n[animal.\"a.b\"]"},
			`""" [animal.worm.eats] mud = true [animal."a.b"]`, "", ""},
		{"a field added by both", []string{"fly  = 2\n", "fly  = 2\nant = 3\n"}, []string{"worm = 1\n", "worm = 1\nbee = 4\n"},
			"worm = 1 bee = 4 fly = 2 ant = 3", "", ""},
		{"a field taken out", nil, []string{"worm = 1\n", ""}, "[weights] fly = 2", "", ""},
		{"remarks of both", []string{"# The first.", "# The first.\n# Mine."}, []string{"# The first.", "# The first.\n# Yours."},
			"# Mine. # Yours. [animal.worm]", "", ""},
		{"another line end", []string{"\n", "\r\n"}, []string{"fly  = 2", "fly  = 3"}, "fly  = 3\r\n", "", ""},
	} {
		t.Run(row.why, func(t *testing.T) {
			edit := func(pairs []string) *merge.Document { return merge.Read(strings.NewReplacer(pairs...).Replace(base)) }
			m := merge.Merge(merge.Read(base), edit(row.ours), edit(row.theirs), one)
			got := m.String()
			flat := strings.Join(strings.Fields(got), " ")
			if !strings.Contains(flat, strings.Join(strings.Fields(row.want), " ")) && !strings.Contains(got, row.want) ||
				row.lacks != "" &&
					strings.Contains(got, row.lacks) {
				t.Error(got)
			}
			conflict := ""
			for _, c := range m.Conflicts {
				conflict += strings.Join(c.Path, ".") + ": " + strings.Join(c.Keys, ", ")
			}
			if conflict != row.conflict {
				t.Errorf("conflicts %q, want %q", conflict, row.conflict)
			}
		})
	}
}

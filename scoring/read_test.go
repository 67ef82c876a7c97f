package scoring

import (
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/scoring/chance"
	"rillkey/taxa"
)

// soundScheme has a line for every rule that a change can break.
const soundScheme = `[scheme]
id = "s"
title = "t"
form = "coded"
decimals = 1
source = "memory"
status = "memory"
[code.r]
label = "R"
from = 1
to = 9
[code.c]
label = "C"
from = 10
[group.good]
label = "good"
weights = { r = 5.0, c = 5.5 }
[kind.mayfly]
label = "mayfly"
group = "good"
taxa = ["ephemeroptera"]
[kind.stonefly]
label = "stonefly"
group = "good"
taxa = ["plecoptera"]
[band.high]
rating = "high"
above = 20
[band.low]
rating = "low"
to = 20
`

const soundProtocol = `[protocol]
id = "p"
title = "t"
source = "memory"
status = "memory"
schemes = ["s"]
combine = "pooled"
[need.riffle]
samples = 3
area_m2 = 0.37
`

func load(t testing.TB, scheme, protocol string) (*Rules, error) {
	t.Helper()
	cat, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	return LoadRules(fstest.MapFS{
		"schemes/s.toml":   {Data: []byte(scheme)},
		"protocols/p.toml": {Data: []byte(protocol)},
	}, "mine", cat)
}

func TestFaultyFilesAreRefusedWithTheirPlace(t *testing.T) {
	if _, err := load(t, soundScheme, soundProtocol); err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		label, old, new string
		says            string // beginning with line:col in the file changed
	}{
		{"a taxon nobody knows", `["plecoptera"]`, `["plecoptera", "jackalope"]`, "25:23: unknown-taxon"},
		{"a taxon in two kinds", `["plecoptera"]`, `["plecoptera", "ephemeroptera"]`,
			`25:23: doubled-taxon: "ephemeroptera" is listed already for the kind "mayfly"`},
		{"a taxon twice in a kind", `["plecoptera"]`, `["plecoptera", "plecoptera"]`, "25:23: doubled-taxon"},
		{"a kind without taxa", `["plecoptera"]`, `[]`, "25:8: empty"},
		{"a group nobody described", "group = \"good\"\ntaxa = [\"plecoptera\"]",
			"group = \"goood\"\ntaxa = [\"plecoptera\"]", "24:9: unknown-group"},
		{"a missing weight", ", c = 5.5", "", `17:1: missing-weight: the weight "c"`},
		{"a weight for a code nobody described", "c = 5.5", "c = 5.5, x = 1.0", "unknown-field"},
		{"a weight finer than the scheme", "c = 5.5", "c = 5.55", "17:26: bad-figure"},
		{"a weight below 0", "c = 5.5", "c = -5.5", "17:26: bad-figure"},
		{"counts without a code", "from = 10", "from = 11", "14:8: code-edges"},
		{"counts with two codes", "to = 9", "to = 12", "14:8: code-edges"},
		{"counts above the last code", "from = 10", "from = 10\nto = 99", "15:6: code-edges"},
		{"a code without an end", "to = 9\n", "", "code-edges"},
		{"a gap between bands", "above = 20", "from = 20.2", "26:1: band-gap: no band holds the values from 20.1 to 20.1"},
		{"a value in two bands", "above = 20", "from = 20", "26:1: band-overlap: the value 20.0"},
		{"no band for the highest", "above = 20", "above = 20\nto = 30", "26:1: band-gap: no band holds values above 30.0"},
		{"no band for 0", "\nto = 20", "\nfrom = 1\nto = 20", "29:1: band-gap: no band holds the values from 0.0 to 0.9"},
		{"two bands without an end", "\nto = 20", "\nfrom = 0", "band-overlap"},
		{"an edge twice", "above = 20", "above = 20\nfrom = 20", "28:9: band-edges"},
		{"a form nobody wrote", `form = "coded"`, `form = "magic"`, `4:8: unknown-form: there is no form "magic"`},
		{"a status nobody knows", `status = "memory"`, `status = "true"`, "7:10: unknown-status"},
		{"no status", `status = "memory"`, ``, `1:1: missing-field: "status"`},
		{"a field nothing reads", `title = "t"`, `titel = "t"`, "3:1: unknown-field"},
		{"an escape sequence", `title = "t"`, `title = "\u001b[2J"`, "3:9: control-character"},
		{"a table of bands without one",
			"[band.high]\nrating = \"high\"\nabove = 20\n[band.low]\nrating = \"low\"\nto = 20\n", "[band]\n", "26:1: empty"},
		{"a table of codes without one", "[code.r]\nlabel = \"R\"\nfrom = 1\nto = 9\n[code.c]\nlabel = \"C\"\nfrom = 10\n",
			"[code]\n", "8:1: empty"},
		{"an absent name that the catalog has", `["plecoptera"]`,
			"[\"plecoptera\"]\nabsent = [\"Nowhereidae\", \"Perlidae\"]\nbelow = \"plecoptera\"",
			`26:26: not-absent: the catalog has "Perlidae" as the taxon "perlidae" (move it to taxa)`},
		{"an absent name in other letters", `["plecoptera"]`,
			"[\"plecoptera\"]\nabsent = \"PERLIDAE\"\nbelow = \"plecoptera\"", "26:10: not-absent"},
		{"an absent name twice", `["plecoptera"]`,
			"[\"plecoptera\"]\nabsent = [\"Nowhereidae\", \"nowhereidae\"]\nbelow = \"plecoptera\"", "26:26: doubled-taxon"},
		{"an absent name below nothing", `["plecoptera"]`, "[\"plecoptera\"]\nabsent = \"Nowhereidae\"", `"below" is missing`},
		{"an absent name below what nobody knows", `["plecoptera"]`,
			"[\"plecoptera\"]\nabsent = \"Nowhereidae\"\nbelow = \"jackalope\"", "27:9: unknown-taxon"},
		{"below without an absent name", `["plecoptera"]`, "[\"plecoptera\"]\nbelow = \"plecoptera\"", "26:9: below-nothing"},
		{"a kind whose id is its only taxon, misspelt", "\ntaxa = [\"plecoptera\"]", "", `unknown-taxon: there is no taxon "stonefly"`},
		{"the cleanest in the middle", `decimals = 1`, "decimals = 1\ncleanest = \"middle\"", "6:12: unknown-word"},
		{"a floor of fewer animals than none", "[code.r]", "[floor]\nanimals = -1\nsource = \"x\"\n[code.r]", "9:11: bad-figure"},
		{"a floor without a source", "[code.r]", "[floor]\nanimals = 1\n[code.r]", `"source" is missing`},
		{"a firm word on fewer animals than a provisional one", "[code.r]",
			"[floor]\nanimals = 100\nprovisional = 90\nsource = \"x\"\n[code.r]", "10:15: bad-figure"},
		{"not counting what nobody knows", `decimals = 1`, "decimals = 1\nnot_counted = [\"jackalope\"]", "6:16: unknown-taxon"},
		{"to be read with a scheme nobody wrote", `decimals = 1`, "decimals = 1\nread_with = \"z\"", "6:13: unknown-scheme"},
		{"kinds of a scheme nobody wrote", `decimals = 1`, "decimals = 1\nkinds_from = \"z\"", "6:14: unknown-scheme"},
		{"no TOML", `title = "t"`, `title = `, "3:"},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			refused(t, tt.says, "mine/schemes/s.toml:", strings.Replace(soundScheme, tt.old, tt.new, 1), soundProtocol)
		})
	}
	for _, tt := range []struct{ label, old, new, says string }{
		{"a scheme nobody wrote", `["s"]`, `["s", "z"]`, "6:17: unknown-scheme"},
		{"no scheme", `["s"]`, `[]`, "6:11: empty"},
		{"another way to combine", `"pooled"`, `"mixed"`, "7:11: unknown-combine"},
		{"no sample", "samples = 3", "samples = 0", "9:11: bad-figure"},
		{"an area below 0", "0.37", "-0.37", "10:11: bad-figure"},
		{"a table of needs without one", "[need.riffle]\nsamples = 3\narea_m2 = 0.37\n", "[need]\n", "8:1: empty"},
		{"no need", "[need.riffle]\nsamples = 3\narea_m2 = 0.37\n", "", `"need" is missing`},
	} {
		t.Run(tt.label, func(t *testing.T) {
			refused(t, tt.says, "mine/protocols/p.toml:", soundScheme, strings.Replace(soundProtocol, tt.old, tt.new, 1))
		})
	}
}

// soundShare is a scheme with the kinds of soundLender and one of its own.
const soundShare = `[scheme]
id = "m"
title = "t"
form = "mean-tolerance"
kinds_from = "lender"
decimals = 2
source = "memory"
status = "memory"
[kind.perlidae]
group = "low"
[band.any]
rating = "any"
from = 0
`

const soundLender = `[scheme]
id = "lender"
title = "t"
form = "presence"
decimals = 1
source = "memory"
status = "memory"
[group.low]
label = "low"
weight = 2.5
[group.high]
label = "high"
weight = 10
[kind.baetidae]
group = "high"
`

func TestASchemeTakesTheKindsOfAnother(t *testing.T) {
	read := func(share, lender string) (*Rules, error) {
		cat, err := taxa.Embedded()
		if err != nil {
			t.Fatal(err)
		}
		return LoadRules(fstest.MapFS{
			"schemes/a.toml":   {Data: []byte(share)},
			"schemes/z.toml":   {Data: []byte(lender)},
			"protocols/p.toml": {Data: []byte(strings.Replace(soundProtocol, `["s"]`, `["m"]`, 1))},
		}, "mine", cat)
	}
	r, err := read(soundShare, soundLender)
	if err != nil {
		t.Fatal(err)
	}
	if s := r.Schemes(); s[0].ID != "m" || len(s[0].Kinds) != 2 || len(s[1].Kinds) != 1 {
		t.Errorf("the file that shares comes first and adds a kind of its own: %+v", s)
	}
	s := r.grader("m")
	if got := s.sum(s.sort(s.rows(r, records(map[string]int{"perlidae": 1, "baetidae": 2})))); s.Text(got.value.Steps()) != "7.50" {
		t.Errorf("(2.5 + 2 x 10) / 3 = 7.50, got %+v", got)
	}
	for _, tt := range []struct{ label, share, lender, says string }{
		{"a kind doubled", strings.Replace(soundShare, "kind.perlidae", "kind.baetidae", 1), soundLender, "a.toml:9:1: doubled-id"},
		{"groups beside shared ones", soundShare + "[group.x]\nlabel = \"x\"\nweight = 1\n", soundLender,
			`unknown-field: there is no field "group"`},
		{"weights finer than the values", strings.Replace(soundShare, "decimals = 2", "decimals = 0", 1), soundLender,
			"a.toml:5:14: bad-figure"},
		{"a weight that is no tolerance value", soundShare, strings.Replace(soundLender, "weight = 10", "weight = 11", 1),
			"a.toml:5:14: bad-figure"},
		{"letters have no single weight", strings.Replace(soundShare, "mean-tolerance", "coded", 1), soundLender,
			"a.toml:5:14: kinds-from"},
		{"kinds shared twice over", soundShare, strings.Replace(soundLender, "status", "kinds_from = \"m\"\nstatus", 1), "unknown-scheme"},
	} {
		t.Run(tt.label, func(t *testing.T) {
			if _, err := read(tt.share, tt.lender); err == nil || !strings.Contains(err.Error(), tt.says) {
				t.Errorf("got %v, want %s", err, tt.says)
			}
		})
	}
}

func refused(t *testing.T, says, file, scheme, protocol string) {
	t.Helper()
	if scheme == soundScheme && protocol == soundProtocol {
		t.Fatal("the test changes nothing")
	}
	_, err := load(t, scheme, protocol)
	if err == nil || !strings.Contains(err.Error(), says) || !strings.Contains(err.Error(), file) {
		t.Errorf("got %v, want %s…%s", err, file, says)
	}
}

func TestFolderWithoutRules(t *testing.T) {
	cat, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	var empty fs.FS = fstest.MapFS{}
	if _, err := LoadRules(empty, "mine", cat); err == nil || !strings.Contains(err.Error(), "mine/schemes") {
		t.Errorf("got %v", err)
	}
}

func FuzzLoadRules(f *testing.F) {
	f.Add(soundScheme, soundProtocol)
	f.Add("[scheme]\nid = 1\n[kind.a]\n[band.b]\nto = 1\n", "[need.any]\n")
	f.Add(strings.Replace(soundScheme, "coded", "presence", 1), "")
	f.Add(soundLender+"absent = \"Nowhereidae\"\nbelow = \"insecta\"\n", soundProtocol)
	f.Add(strings.Replace(soundLender, "presence", "mean-tolerance", 1)+"[band.a]\nrating = \"a\"\n",
		strings.Replace(soundProtocol, `["s"]`, `["lender"]`, 1))
	f.Fuzz(func(t *testing.T, index, protocol string) {
		r, err := load(t, index, protocol)
		if err != nil {
			return
		}
		// Whatever is accepted can grade, and every value has a rating.
		for _, s := range graders(r) {
			got := s.sum(s.sort(s.rows(r, records(map[string]int{"ephemeroptera": 1, "plecoptera": 100, "insecta": 7}))))
			for _, v := range []chance.Ratio{got.value, got.low, got.high} {
				if v.Defined() && s.Band(v.Steps()).Rating == "" {
					t.Errorf("no rating for %v", v)
				}
			}
		}
	})
}

// The scheme and the protocol that DEVELOPERS.md shows are sound as they stand there.
func TestTheSchemeInDEVELOPERSIsSound(t *testing.T) {
	text, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	block := func(start string) string {
		_, after, found := strings.Cut(string(text), "\n    "+start+"\n")
		if !found {
			t.Fatalf("DEVELOPERS.md shows no %s", start)
		}
		shown, _, _ := strings.Cut(start+"\n"+after, "\n\n")
		return shown
	}
	if _, err := load(t, block("[scheme]"), block("[protocol]")); err != nil {
		t.Error(err)
	}
}

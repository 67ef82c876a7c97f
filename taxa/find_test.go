package taxa_test

import (
	"cmp"
	"os"
	"slices"
	"strings"
	"testing"

	"rillkey/taxa"
)

// Every name means what people mean by it, or is asked about, or is unknown; none
// finds another animal.
func TestWhatPeopleCallAnimals(t *testing.T) {
	c, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile("testdata/called.txt")
	if err != nil {
		t.Fatal(err)
	}
	there, rows := c, 0
	for line := range strings.Lines(string(data)) {
		line = strings.TrimSpace(line)
		name, want, isRow := strings.Cut(line, " -> ")
		switch {
		case strings.HasPrefix(line, "["):
			there = inRegion(t, c, strings.Trim(line, "[]"))
		case isRow && !strings.HasPrefix(line, "#"):
			rows++
			if got := comesTo(there.Find(name), want); got != want {
				t.Errorf("%q in the region %q comes to %s, want %s", name, cmp.Or(there.Region(), &taxa.Region{}).ID, got, want)
			}
		}
	}
	if rows < 200 {
		t.Errorf("only %d names were looked up", rows)
	}
}

// inRegion is the catalog as a region has it; without one, as it was read.
func inRegion(t *testing.T, c *taxa.Catalog, region string) *taxa.Catalog {
	t.Helper()
	if region == "" {
		return c
	}
	r := c.RegionNamed(region)
	if r == nil {
		t.Fatalf("there is no region %q", region)
	}
	return c.InRegion(r)
}

// comesTo is what a finding says, as precisely as want does.
func comesTo(f taxa.Lookup, want string) string {
	switch {
	case f.Taxon != nil:
		return f.Taxon.ID
	case !strings.HasPrefix(want, "?") || len(f.Similar) == 0:
		return "none"
	}
	got := "?"
	for _, m := range f.Similar[:min(len(f.Similar), strings.Count(want, " "))] {
		got += " " + m.Taxon.ID
	}
	return got
}

func TestFind(t *testing.T) {
	c := good(t)
	for _, row := range []struct {
		typed, want string // a taxon, or ? and those to ask about
		exact       bool
	}{
		{"stonefly", "plecoptera", true},
		{"Stoneflies", "plecoptera", true},
		{"STONE FLY", "plecoptera", true},
		{"stonfly", "plecoptera", false},
		{"sotnefly", "plecoptera", false},
		{"plecoptera", "plecoptera", true},
		{"helgramite", "corydalus", false},
		{"hellgramites", "corydalus", false},
		{"Oligoneuriidae", "isonychiidae", true},
		{"brush legged mayfly", "isonychiidae", true},
		{"mayfly", "ephemeroptera", true},
		{"may", "? ephemeroptera", false},
		{"ephemero", "? ephemeroptera", false},
	} {
		got := c.Find(row.typed)
		if id := comesTo(got, row.want); id != row.want || got.Exact != row.exact {
			t.Errorf("%q comes to %s, exact %v; want %s, %v", row.typed, id, got.Exact, row.want, row.exact)
		}
	}
	for _, typed := range []string{"", "  ", "zzzz", "\x00", strings.Repeat("a", 500)} {
		if got := c.Find(typed); got.Taxon != nil || len(got.Similar) > 0 {
			t.Errorf("%q finds %v", typed, got)
		}
	}
}

// A taxon is found by each name that it is shown under, or asked about beside
// those that share it, or the name means what it belongs to.
func TestEveryNameIsKnown(t *testing.T) {
	c, err := taxa.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range c.Taxa() {
		for _, name := range append([]string{x.Scientific, x.ID}, x.Common...) {
			f := c.Find(name)
			switch {
			case f.Taxon != nil && f.Exact && c.IsUnder(x.ID, f.Taxon.ID):
			case f.Taxon == nil && slices.ContainsFunc(f.Similar, func(m taxa.Match) bool { return m.Taxon == x && m.Exact }):
			default:
				t.Errorf("%q of %s comes to %v", name, x.ID, comesTo(f, ""))
			}
		}
	}
}

// A name is gone by at once where it is its taxon's own, and a misspelt one where nothing
// stands in that taxon's place; what else it may mean is asked about.
func TestWhichNamesAreDoubtful(t *testing.T) {
	near := func(ids ...string) (out []taxa.Match) {
		for _, id := range ids {
			out = append(out, taxa.Match{Taxon: &taxa.Taxon{ID: id}})
		}
		return out
	}
	scud := near("scud")[0]
	for _, row := range []struct {
		why   string
		found taxa.Lookup
		free  bool
		want  string
	}{
		{"its own name", taxa.Lookup{Match: taxa.Match{Taxon: scud.Taxon, Exact: true}, Similar: near("sowbug")}, false, ""},
		{"misspelt, its place free", taxa.Lookup{Match: scud, Similar: near("sowbug")}, true, ""},
		{"misspelt, its place taken", taxa.Lookup{Match: scud, Similar: near("sowbug")}, false, "scud"},
		{"near several", taxa.Lookup{Similar: near("scud", "sowbug")}, true, "scud sowbug"},
		{"unknown", taxa.Lookup{}, true, ""},
	} {
		var got []string
		for _, m := range row.found.Doubtful(func(*taxa.Taxon) bool { return row.free }) {
			got = append(got, m.Taxon.ID)
		}
		if strings.Join(got, " ") != row.want {
			t.Errorf("%s: %q is asked about, not %q", row.why, got, row.want)
		}
	}
}

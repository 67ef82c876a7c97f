package taxa

import (
	"sort"
	"strings"

	"github.com/sahilm/fuzzy"
)

// Match is a taxon found by a name, and the name that matched.
type Match struct {
	Taxon *Taxon
	Name  string
	Exact bool // the name itself, but for case, hyphens and plural
}

// How a name was found, best first.
const (
	tierExact = iota
	tierStart
	tierMisspelt
	tierLoose
	tierNone
)

type candidate struct {
	taxon *Taxon
	name  string
	tier  int
	off   int // edits away, or how loose
	turn  int
}

// Find looks a taxon up by any of its names, common, scientific, older or id,
// however spelled, and gives at most most of them, the best first. Exact names
// come first, then names that start so, then misspelt ones, then names that
// hold the letters in this order.
func (c *Catalog) Find(typed string, most int) []Match {
	want := fold(typed)
	if want == "" || len(typed) > 200 {
		return nil
	}
	var found []candidate
	for turn, t := range c.taxa {
		best := candidate{tier: tierNone}
		for _, name := range t.names() {
			tier, off := grade(want, fold(name))
			if tier < best.tier || tier == best.tier && off < best.off {
				best = candidate{t, name, tier, off, turn}
			}
		}
		if best.tier < tierNone {
			found = append(found, best)
		}
	}
	if len(found) == 0 {
		found = c.loose(want)
	}
	sort.SliceStable(found, func(i, j int) bool {
		a, b := found[i], found[j]
		if a.tier != b.tier {
			return a.tier < b.tier
		}
		if a.off != b.off {
			return a.off < b.off
		}
		return a.turn < b.turn
	})
	out := make([]Match, 0, min(most, len(found)))
	for _, f := range found[:min(most, len(found))] {
		out = append(out, Match{f.taxon, f.name, f.tier == tierExact})
	}
	return out
}

func (t *Taxon) names() []string {
	names := append([]string{t.Scientific}, t.Common...)
	return append(append(names, t.Synonyms...), t.ID)
}

// fold makes two spellings of one name equal: lower case, one space between
// words, singular.
func fold(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return strings.ContainsRune(" -_'’.,()\t", r)
	})
	for i, w := range words {
		switch {
		case len(w) > 4 && strings.HasSuffix(w, "ies"):
			words[i] = w[:len(w)-3] + "y"
		case len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss"):
			words[i] = w[:len(w)-1]
		case w == "larvae", w == "nymphae":
			words[i] = w[:len(w)-1]
		}
	}
	return strings.Join(words, " ")
}

func grade(want, name string) (tier, off int) {
	if want == name {
		return tierExact, 0
	}
	if strings.HasPrefix(name, want) || strings.Contains(name, " "+want) {
		return tierStart, len(name) - len(want)
	}
	best := distance(want, name)
	if !strings.Contains(want, " ") {
		for _, w := range strings.Fields(name) {
			best = min(best, distance(want, w))
		}
	}
	if best <= allowance(want) {
		return tierMisspelt, best
	}
	return tierNone, 0
}

// allowance is how many edits a name of this length may be away and still be
// meant (common practice of spelling aids: about one in four letters).
func allowance(name string) int {
	return min(3, len([]rune(name))/4)
}

type folded []*Taxon

func (f folded) Len() int            { return len(f) }
func (f folded) String(i int) string { return fold(strings.Join(f[i].names(), " ")) }

func (c *Catalog) loose(want string) []candidate {
	if len([]rune(want)) < 4 {
		return nil
	}
	var out []candidate
	for turn, m := range fuzzy.FindFrom(want, folded(c.taxa)) {
		t := c.taxa[m.Index]
		out = append(out, candidate{t, t.Name(), tierLoose, 0, turn})
	}
	return out
}

// distance counts the edits between two words: letters put in, left out,
// changed, or two neighbours swapped (optimal string alignment).
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	if d := len(x) - len(y); d > 3 || d < -3 {
		return max(len(x), len(y))
	}
	before, last, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}

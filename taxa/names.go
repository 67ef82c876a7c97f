package taxa

import (
	"slices"
	"strings"
	"sync"
	"unicode"
)

// reading is a name as it is compared: in lower case and the singular, its
// little words and those of its stage taken out.
type reading struct {
	words []string
	solid string // all of them as one: people part and join words as they like
	stage string // larva, adult, or empty where it does not say
	latin bool   // one word with a capital, as families and genera are written
}

// naming is one name of one taxon.
type naming struct {
	reading
	taxon  *Taxon
	text   string
	region string // where alone it is the taxon's; empty for everywhere
	turn   int    // of the taxon in the catalog
}

// stage is the stage of the animals that are meant, empty for any.
func (n *naming) stageMeant() string {
	if n.taxon.Stage != "" {
		return n.taxon.Stage
	}
	return n.stage
}

// namings are all names of the catalog, those to show first before the others.
func (c *Catalog) namings() []naming {
	var out []naming
	turns := make(map[*Taxon]int, len(c.taxa))
	for turn, t := range c.taxa {
		turns[t] = turn
		add := func(names ...string) {
			for _, name := range names {
				n := naming{readName(name), t, name, "", turn}
				n.latin = n.latin || name == t.ID
				out = append(out, n)
			}
		}
		add(t.Common...)
		add(t.Scientific)
		add(t.Synonyms...)
		add(t.Also...)
		add(t.ID)
	}
	for _, r := range c.speaking() {
		for _, x := range slices.Concat(r.called, r.also) {
			t := c.index[x.taxon]
			for _, name := range x.names {
				out = append(out, naming{readName(name), t, name, r.ID, turns[t]})
			}
		}
	}
	return out
}

// speaking are the regions whose names count: the one that the catalog is seen
// from, else all.
func (c *Catalog) speaking() []*Region {
	if c.region != nil {
		return []*Region{c.region}
	}
	return c.regions
}

// littleWords say nothing of the animal.
var littleWords = []string{"a", "an", "the", "of"}

// stageWords are the words for a stage of life, and which stage they mean.
var stageWords = sync.OnceValue(func() map[string]string {
	return map[string]string{
		"larva": "larva", "larval": "larva", "nymph": "larva", "nymphal": "larva", "naiad": "larva", "grub": "larva", "maggot": "larva",
		"baby": "larva", "young": "larva", "juvenile": "larva", "immature": "larva", "adult": "adult", "grown": "adult", "imago": "adult",
	}
})

// stageOf is the stage that a word means, if it means one. Of the usual words a
// slip is known as well.
func stageOf(word string) (stage string, ok bool) {
	if stage, ok = stageWords()[word]; ok {
		return stage, true
	}
	for _, usual := range []string{"larva", "nymph", "adult"} {
		if _, ok := misspeltWord(word, usual, true); ok {
			return stageWords()[usual], true
		}
	}
	return "", false
}

func readName(name string) reading {
	r := reading{latin: !strings.ContainsAny(name, " -") && name != "" && unicode.IsUpper(rune(name[0]))}
	var all []string
	for _, w := range strings.FieldsFunc(strings.ToLower(name), func(c rune) bool { return strings.ContainsRune(" -_'’`.,;()\t\n", c) }) {
		w = singular(w)
		stage, ofStage := stageOf(w)
		switch {
		case slices.Contains(littleWords, w):
			continue
		case ofStage && r.stage == "":
			r.stage = stage
		case !ofStage:
			r.words = append(r.words, w)
		}
		all = append(all, w)
	}
	if len(r.words) == 0 { // it names nothing but a stage
		r.words, r.stage = all, ""
	}
	r.solid = strings.Join(r.words, "")
	return r
}

// NameWords are the words of a name as names are compared: in lower case and the
// singular, those of its stage among them.
func NameWords(name string) []string {
	r := readName(name)
	if r.stage != "" {
		return append(r.words, r.stage)
	}
	return r.words
}

// irregular are plurals that no ending tells.
var irregular = sync.OnceValue(func() map[string]string {
	return map[string]string{"lice": "louse", "larvae": "larva", "nymphae": "nymph"}
})

func singular(w string) string {
	if one, ok := irregular()[w]; ok {
		return one
	}
	cut := func(ending string) string { return strings.TrimSuffix(w, ending) }
	switch {
	case strings.HasSuffix(w, "men"):
		return cut("en") + "an"
	case len(w) > 4 && strings.HasSuffix(w, "ies"):
		return cut("ies") + "y"
	case len(w) > 4 && strings.HasSuffix(w, "ie"): // "punkie" is "punky", and both are "punkies"
		return cut("ie") + "y"
	case strings.HasSuffix(w, "ches"), strings.HasSuffix(w, "shes"), strings.HasSuffix(w, "xes"):
		return cut("es")
	case len(w) > 3 && strings.HasSuffix(w, "s") && !strings.ContainsAny(w[len(w)-2:len(w)-1], "sui"): // caddis, Asellus
		return cut("s")
	}
	return w
}

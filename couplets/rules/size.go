package rules

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// sizeContradiction finds lengths in a lead's text that no grown animal of a
// taxon beneath it can have by the catalog's length table.
func sizeContradiction(f *finder) {
	if f.Sound == nil {
		return
	}
	for c, l := range f.File.Leads() {
		for _, claim := range claims(l.Text) {
			f.Sound.EndsOf(l).Each(func(end int) {
				t := f.Sound.Ends[end]
				if t.Length.Known() && !claim.allows(t.Length) {
					f.warn(l.TextPos, wording.Sprintf("lead %s%s says %s, but a grown %s is %g to %g mm", c.ID, l.Letter,
						plain.Quote(claim.words), t.ID, t.Length.Min, t.Length.Max),
						wording.Text("change the number, or the taxon's length_mm"))
				}
			})
		}
	}
}

// claim is a range of body lengths in millimetres that a text speaks of.
type claim struct {
	words       string
	least, most float64
}

// allows reports whether grown animals of the range can be as long as claimed.
func (c claim) allows(r taxa.Range) bool { return r.Max >= c.least && r.Min <= c.most }

var (
	units  = []string{"mm", "cm", "inch", "millimet", "centimet"} // one of them is in every length
	mmPer  = map[byte]float64{'m': 1, 'c': 10, 'i': 25.4}         // by the first letter of the unit
	amount = `(\d+(?:\.\d+)?(?:/\d+)?|half an|half a|a quarter|a quarter of an)`
	// A length: words of comparison, one or two numbers, a unit. The unit "in" is
	// left out: it is a word of its own more often.
	lengthWords = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(
			`(?i)\b(?:(longer than|larger than|bigger than|more than|over|at least|from|` +
				`shorter than|smaller than|less than|under|below|at most|up to|no longer than|not longer than|never over)\s+)?` +
				amount + `(?:\s*(?:-|–|to)\s*` + amount + `)?\s*(mm|millimet(?:er|re)s?|cm|centimet(?:er|re)s?|inch(?:es)?)\b`)
	})
)

// claims are the lengths that a text speaks of. A bare number says nothing about
// how small, since young animals are shorter than the table.
func claims(text string) []claim {
	if !slices.ContainsFunc(units, func(unit string) bool { return containsFold(text, unit) }) {
		return nil // most texts; the search below is slow
	}
	var out []claim
	for _, m := range lengthWords().FindAllStringSubmatch(text, -1) {
		unit := mmPer[strings.ToLower(m[4])[0]]
		one := number(m[2]) * unit
		c := claim{words: m[0], least: one, most: math.Inf(1)}
		switch word := strings.ToLower(m[1]); {
		case m[3] != "":
			c.most = number(m[3]) * unit
			if strings.HasPrefix(word, "up") || strings.HasPrefix(word, "at most") {
				c.least = 0
			}
		case strings.HasPrefix(word, "shorter"), strings.HasPrefix(word, "smaller"), strings.HasPrefix(word, "less"),
			word == "under", word == "below",
			word == "at most", word == "up to", strings.HasPrefix(word, "no"), word == "never over":
			c.least, c.most = 0, one
		}
		out = append(out, c)
	}
	return out
}

// containsFold reports whether text holds the word in capitals or small letters.
func containsFold(text, word string) bool {
	for i := range len(text) - len(word) + 1 {
		if text[i]|0x20 == word[0] && strings.EqualFold(text[i:i+len(word)], word) {
			return true
		}
	}
	return false
}

// number is the amount that a text means: "12", "1.5", "1/2", "half an".
func number(s string) float64 {
	switch s = strings.ToLower(s); {
	case strings.HasPrefix(s, "half"):
		return 0.5
	case strings.HasPrefix(s, "a quarter"):
		return 0.25
	}
	top, bottom, fraction := strings.Cut(s, "/")
	n, _ := strconv.ParseFloat(top, 64)
	if d, err := strconv.ParseFloat(bottom, 64); fraction && err == nil && d > 0 {
		n /= d
	}
	return n
}

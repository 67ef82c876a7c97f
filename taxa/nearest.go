package taxa

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"github.com/sahilm/fuzzy"

	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
)

// What is offered for words that nobody understands is little, and likely: an offer that is
// far-fetched is read, puzzles, and is taken by mistake.

const (
	// mostOffers are offered for words that are not known.
	mostOffers = 3
	// leastShared is how much of the weight of its words, and of those that were said, a
	// phrase must share at least to be offered, and leastOfBest that share beside that of
	// the nearest. By the accounts with odd numbers in testdata/described (memory).
	leastShared, leastSaid, leastOfBest = 0.6, 0.35, 0.7
)

// whereFound is what a part begins with that says where an animal was, or how it was got.
var whereFound = pattern.New(`(?i)^(?:(?:it|which|that|and|was|were) )*(?:from|out of|in|on|under|among(?:st)?|between|by|at|near|` +
	`found|seen|picked|dug|sieved|shaken|caught|came|taken|netted|` +
	`kicked|scooped|scraped|rinsed|washed|pulled|knocked|swept)\b`)

// offers are what may be meant by a part of which nothing is understood: nothing where it
// says where the animal was.
func (v *Vocabulary) offers(part string, words []token) []Seen {
	if whereFound().MatchString(part) && !slices.ContainsFunc(words, func(w token) bool { return w.placed() }) {
		return nil
	}
	return v.nearest(words)
}

// nearest are the states whose words are most like what was said: those that share most of
// the weight of their words with it, then those that hold its letters in order.
func (v *Vocabulary) nearest(words []token) []Seen {
	telling := slices.DeleteFunc(slices.Clone(words), func(w token) bool {
		return w.stem == deny || w.stem == hardly || number(w.stem) || everyday()[w.stem]
	})
	var out []Seen
	add := func(p *phrase) {
		trait := v.traits[p.trait]
		state := trait.States[p.state].ID
		had := func(s Seen) bool { return s.Trait == trait && s.States[0] == state }
		if len(out) < mostOffers && !slices.ContainsFunc(out, had) {
			out = append(out, Seen{Words: p.text, Trait: trait, States: []string{state}})
		}
	}
	index := v.known()
	for _, i := range v.sharing(words, telling) {
		add(&index[i])
	}
	for _, w := range telling {
		if len(w.stem) >= 5 && !w.known && !otherwise()[w.stem] && len(telling) <= others {
			for _, m := range fuzzy.FindFrom(w.stem, phrases(index)) {
				if oneWord(index[m.Index].text, m.MatchedIndexes) && denies(index[m.Index].tokens) == denied(words) {
					add(&index[m.Index])
				}
			}
		}
	}
	return out
}

// sharing are the phrases, by number, that share enough with what was said, those first
// that share most. Words that stand in phrases of many states, such as those for the parts
// of the body, weigh little; none is offered for a place alone, nor for the opposite of
// what was said.
func (v *Vocabulary) sharing(words, telling []token) []int {
	index, weights := v.known(), v.weights()
	said := 0.0
	for _, w := range telling {
		said += weights.weight(w.stem)
	}
	shares := map[int]float64{}
	var out []int
	best := 0.0
	for i := range index {
		p := &index[i]
		if p.likens || denies(p.tokens) != denied(words) || !p.numbersSaid(words) {
			continue
		}
		whole, shared, placed := 0.0, 0.0, true
		for _, stem := range p.tokens {
			weight := weights.weight(stem)
			whole += weight
			if slices.ContainsFunc(telling, func(w token) bool { return w.means(stem) }) {
				shared += weight
				placed = placed && (places()[stem] || bodyParts()[stem] || stem == "stone")
			}
		}
		if (!placed || shared == whole) && shared >= leastShared*whole && shared >= leastSaid*said {
			shares[i] = shared * shared / (whole * said)
			best = max(best, shares[i])
			out = append(out, i)
		}
	}
	out = slices.DeleteFunc(out, func(i int) bool { return shares[i] < leastOfBest*best })
	sorting.Stable(out, func(a, b int) int { return cmp.Compare(shares[b], shares[a]) })
	return out
}

// numbersSaid reports whether all numbers of a phrase were said.
func (p *phrase) numbersSaid(words []token) bool {
	return !slices.ContainsFunc(p.tokens, func(stem string) bool {
		return (number(stem) || stem == pair) && !slices.ContainsFunc(words, func(w token) bool { return w.stem == stem })
	})
}

// denies reports whether a phrase says that something is not there, or hardly.
func denies(tokens []string) bool {
	return slices.ContainsFunc(tokens, func(stem string) bool { return stem == deny || stem == hardly || hindering()[stem] })
}

// denied reports whether something is said not to be there.
func denied(words []token) bool {
	return slices.ContainsFunc(words, func(w token) bool { return w.stem == deny || w.stem == hardly || hindering()[w.stem] })
}

// hindering are the stems of words that turn round what they stand beside: "swims poorly".
var hindering = lazyStems("hardly poorly clumsy clumsily slow slowly stop stops stuck missing broken")

// weights are how much words tell, by their stems.
type weights struct {
	all  map[string]float64
	most float64 // of words that are not known
}

func (w weights) weight(stem string) float64 {
	if weight, ok := w.all[stem]; ok {
		return weight
	}
	return w.most
}

// weights are the bits that a word tells of which state is meant, of all that are called
// something.
func (v *Vocabulary) weights() weights {
	index := v.known()
	b := &v.called
	b.lock.Lock()
	defer b.lock.Unlock()
	if b.weights != nil {
		return *b.weights
	}
	states, in := 0, map[string]int{}
	met := map[string]bool{}
	for i := range index {
		p := &index[i]
		if i == 0 || p.trait != index[i-1].trait || p.state != index[i-1].state {
			states++
			clear(met)
		}
		for _, stem := range p.tokens {
			if !met[stem] {
				met[stem] = true
				in[stem]++
			}
		}
	}
	b.weights = &weights{all: make(map[string]float64, len(in)), most: math.Log2(float64(states + 1))}
	for stem, n := range in {
		b.weights.all[stem] = math.Log2(float64(states+1) / float64(n))
	}
	return *b.weights
}

// means reports whether a word is one that is wanted, or a slip of it that means nothing
// else; of short words only a letter too few or too many where there are two: "gils".
func (t token) means(stem string) bool {
	const short = 5
	switch a, b := t.stem, stem; {
	case a == b:
		return true
	case t.known || everyday()[a] || otherwise()[a] || a[0] != b[0] || plain.Distance(a, b) != 1:
		return false
	case min(len(a), len(b)) < short:
		return undoubled(a) == undoubled(b)
	}
	return true
}

// undoubled is a word with single letters in the place of double ones.
func undoubled(word string) string {
	out := word[:1]
	for i := 1; i < len(word); i++ {
		if word[i] != word[i-1] {
			out += word[i : i+1]
		}
	}
	return out
}

// oneWord reports whether letters that were found in a phrase begin one of its words and
// are most of it, as "pincr" in "pincers": scattered ones are chance.
func oneWord(text string, at []int) bool {
	from, last := at[0], at[len(at)-1]
	if from > 0 && text[from-1] != ' ' && text[from-1] != '-' {
		return false
	}
	end := from + strings.IndexAny(text[from:]+" ", " -")
	return last < end && 3*len(at) >= 2*(end-from)
}

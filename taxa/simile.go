package taxa

import (
	"slices"
	"strings"

	"rillkey/taxa/authored"
	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// What an animal is like is said of the whole of it ("it looks like a baby cockroach"), and
// tells of how it is shaped or made, never of what kind it is.

// simile is a thing or a creature that people liken animals to, with what that tells.
type simile struct {
	words []string
	means []meaning // all of them are so
	asks  []meaning // one of them may be so
	said  bool      // it is no likeness but said so, as "flat and round" of a shape from the side and from above
}

// meaning is some states of a trait, by number.
type meaning struct {
	trait  int
	states []int
}

var (
	// shapedBehind is what stands behind what something is like.
	shapedBehind = pattern.New(`^(?:-like\b|-ish\b|[- ]shaped\b| (?:sort|kind|type) of (?:thing|animal|creature|bug|guy)\b|` +
		` of a thing\b| thing\b)`)
	// takenFor is what ends with what the animal was taken for at first, or is called.
	takenFor = pattern.New(`(?i)(?:\b(?:took|taken|mistook|mistaken) (?:it|this|that|him|her|one) for|` +
		`\b(?:thought|figured|reckoned|guessed|thinking)(?: that)? (?:(?:it|this|that|he|she) (?:was|is)|an?)|` +
		`^imagine)$`)
	// calledBefore and calledBehind are what may stand before and behind the thing that the animal
	// is called: "it's a small ... with legs".
	calledBefore = pattern.New(`(?i)^(?:(?:it's|it is|is it|was it|it was|(?:we|i) (?:got|caught|found))\b ?)?` +
		`(?:\b(?:an?|the|some|this|just|only|another|one|kind|sort|bit|piece|of|really|very|quite|rather|so|like) )*`)
	calledBehind = pattern.New(`^(?: (?:bug|insect))?(?:$| (?:with|that|on|which|who|in|from)\b)`)
	// lineBehind is what stands behind "row" where it is a row of things, and lineBefore
	// before it.
	lineBehind = pattern.New(`^ (?:of|down|along)\b`)
	lineBefore = pattern.New(`(?i)\b(?:(?:in|into) (?:an?|one|two|three)(?: \w+)?|an? (?:whole|long|neat|single)) $`)
	// outBehind is what stands behind "stick" where it is no stick.
	outBehind = pattern.New(`^ (?:straight )?(?:to|out|up|off|forwards?|backwards?|sideways)\b`)
	// ofBehind is what makes "sort" and "kind" say what something is like.
	ofBehind = pattern.New(`^ of\b`)
)

// takenEnd are the words with which [takenFor] ends.
var takenEnd = lazyWords("for was is a an imagine")

// likens are words behind which what something is like is named.
var likens = lazyWords(`like resemble resembles resembling remind reminds reminded`)

// endsLikeness are words with which something else begins.
var endsLikeness = lazyWords(`with that which who in on at under over and but when where to from behind for while through across along
around down up is are was were has have had without no not coming sticking hanging`)

// likenedFor is how many words behind "like" are of what it is like: "like a wet brown leaf".
const likenedFor = 4

// likenedBehind is how many words behind this one are still of what something is like.
func likenedBehind(left int, word, before, behind string) int {
	switch {
	case takenEnd()[word] && takenFor().MatchString(before+word):
		return likenedFor
	case likens()[word] && oneWordLike(before, behind):
		return 0
	case likens()[word], (word == "sort" || word == "kind") && ofBehind().MatchString(behind):
		return likenedFor
	case endsLikeness()[word]:
		return 0
	}
	return max(0, left)
}

// compounds are words that "like" behind them makes one word with: "leaf like gills".
var compounds = lazyWords(`bristle club feather finger hair leaf needle oar plate scoop seed snail sock spade straw thread worm tube
ribbon beetle lobster crab crayfish caterpillar shrimp fish slug jelly maggot`)

// articleBehind is what stands behind "like" where it is a word by itself.
var articleBehind = pattern.New(`(?i)^\s+(?:an?|the)\b`)

// oneWordLike reports whether "like" makes one word with the one before it.
func oneWordLike(before, behind string) bool {
	words := strings.Fields(before)
	return strings.HasSuffix(before, "-") ||
		len(words) > 0 && compounds()[strings.ToLower(words[len(words)-1])] && !articleBehind().MatchString(behind)
}

// sameSized are the stems of words that say of what size, age or look what it is like is.
var sameSized = lazyStems(`tiny small little baby young mini miniature wee itty bitty leathery skinny plump wrinkled slim greenish
brownish grayish greyish big giant fat thin short long flat wet old dead single`)

// moving are the stems of what an animal does as something does that it is not like: "rolled
// itself up like a woodlouse".
var moving = lazyStems("roll curl coil fold move swim crawl walk wriggle squirm hop jump loop creep run dart flick")

// phrases are the words of a likeness as they are found, for each state.
func (l *simile) phrases(v *Vocabulary, b *phrasebook) (out []phrase) {
	for _, text := range l.words {
		p := b.phrase(v, text)
		if len(p.tokens) == 0 {
			continue
		}
		if p.twofold = l.said; !l.said {
			p.likens, p.likenings[0] = true, true
		}
		for i, m := range slices.Concat(l.means, l.asks) {
			for _, state := range m.states {
				p.trait, p.whole, p.state, p.hint = m.trait, -1, state, i >= len(l.means)
				out = append(out, p)
			}
		}
	}
	return out
}

// likened reports whether a phrase stands where something is said to be like it, at the
// first of these words, or by itself: "a tiny lobster". What it is like may have more words
// before it and none behind: a spider crab is no spider.
func (p *phrase) likened(words []token, s *span, part string) bool {
	first, last := words[s.first], words[s.end-1]
	if !first.likened && !first.shaped && !last.shaped {
		_, to := clause(words, s.end-1, s.end)
		s.alone = !first.ing() && s.edits == 0 &&
			!slices.ContainsFunc(words[:to], func(w token) bool {
				return w.afterAs || w.stem == deny || number(w.stem)
			}) &&
			(!last.plural || p.plural[len(p.plural)-1]) && calledBehind().MatchString(part[last.end:])
		for _, word := range strings.Fields(calledBefore().ReplaceAllString(part[:first.start], "")) {
			w := stem(bareWord(word))
			s.alone = s.alone && (sameSized()[w] || adjectives()[w])
		}
		return s.alone
	}
	more := s.end < len(words) && words[s.end].likened && !words[s.end].acts && !words[s.end].ed &&
		part[last.end:words[s.end].start] == " "
	more = more || ofBehind().MatchString(part[last.end:]) && !last.shaped // "a string of sausages"
	return !p.likens || s.edits == 0 && (!more || last.turn)
}

// ofWhole reports whether what something is like is said of the whole animal: not of a part
// that is named before it, nor of how it moves.
func (s *span) ofWhole(words []token) bool {
	if next := s.end; words[next-1].shaped && !words[next-1].turn {
		if next < len(words) && words[next].stem == "shape" {
			next++
		}
		if next < len(words) && bodyParts()[words[next].stem] {
			return false // "bean-shaped eyes"
		}
	}
	for i := s.first - 1; i >= 0; i-- {
		if words[i].turn && !(i == s.first-2 && !words[i+1].acts && adjectives()[words[i].stem]) {
			break // "long and spindly like a spider" are still the legs
		}
		if words[i].likened {
			continue
		}
		if bodyParts()[words[i].stem] || words[i].placed() || words[i].stem == deny || moving()[words[i].stem] ||
			i == s.first-1 && words[i].acts {
			return false
		}
	}
	return true
}

// similar is what is told by what the animal is like: all that is so, and what may be.
func (v *Vocabulary) similar(f finding, said string, open, doubted bool) (seen []Seen, unclear []Unclear) {
	certain := slices.DeleteFunc(slices.Clone(f.group), func(s span) bool { return !s.phrase.likens || s.phrase.hint })
	asked := slices.DeleteFunc(slices.Clone(f.group), func(s span) bool { return !s.phrase.likens || !s.phrase.hint })
	for _, one := range v.meanings(certain, said, false) {
		if open || doubted && !one.Trait.Likeness { // which nobody says for certain
			unclear = append(unclear, Unclear{said, []Seen{one}, true})
		} else {
			seen = append(seen, one)
		}
	}
	if may := v.meanings(asked, said, false); len(may) > 0 {
		unclear = append(unclear, Unclear{said, may, true})
	}
	return seen, unclear
}

// calledLike is what an animal is like that is called by the name of another and no more:
// "a soft maggot".
func (v *Vocabulary) calledLike(f finding, said string) []Seen {
	return v.meanings(slices.DeleteFunc(slices.Clone(f.group), func(s span) bool {
		return !s.alone || !v.traits[s.phrase.trait].Likeness
	}), said, false)
}

// readSimiles reads what people liken animals to.
func (v *Vocabulary) readSimiles(top *authored.Table) {
	for _, row := range top.Subs("simile") {
		l := simile{words: row.Strs("words"), means: v.readMeanings(row, "means"), asks: v.readMeanings(row, "asks"),
			said: row.Bool("said")}
		row.NeedStr("source")
		if len(l.words) == 0 || len(l.means)+len(l.asks) == 0 {
			row.FailAt(row.Here(), "empty-simile", wording.Sprintf("the simile %s has no words, or tells nothing", plain.Quote(row.ID)),
				wording.Text("give it words = [\"baby lobster\"], and means or asks = [\"legs=10\"]"))
		}
		v.similes = append(v.similes, l)
		row.Done()
	}
}

// readMeanings reads "trait=state" or "trait=state,state", each of which is so.
func (v *Vocabulary) readMeanings(row authored.Section, key string) (out []meaning) {
	for i, text := range row.Strs(key) {
		id, list, _ := strings.Cut(text, "=")
		states := strings.Split(list, ",")
		if problem, hint := v.Unknown(id, states...); problem != "" {
			row.FailAt(row.Elem(key, i), "unknown-state", problem, hint)
			continue
		}
		m := meaning{trait: v.index[id]}
		for _, state := range states {
			m.states = append(m.states, v.traits[m.trait].State(state))
		}
		out = append(out, m)
	}
	return out
}

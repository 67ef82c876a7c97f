package taxa

import (
	"cmp"
	"slices"
	"strings"

	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
)

// span is where in a part a phrase was found.
type span struct {
	first, end int   // tokens; end is behind the last
	tokens     []int // the tokens of the phrase
	edits      int
	gap        int // words that are passed over
	turned     bool
	denied     bool
	alone      bool // what it is like is all that is said: "a tiny lobster"
	phrase     *phrase
}

// bestSpans are the spans by place, those that cover most words first; spans of
// the same words that fit equally well stand together.
func bestSpans(all []span) [][]span {
	sorting.Stable(all, func(a, b span) int {
		return cmp.Or(
			cmp.Compare(len(b.phrase.tokens), len(a.phrase.tokens)),
			cmp.Compare(a.edits, b.edits), cmp.Compare(a.gap, b.gap), cmp.Compare(a.first, b.first), cmp.Compare(b.end, a.end),
			likensFirst(a, b))
	})
	var out [][]span
	for _, s := range all {
		if n := len(out) - 1; n >= 0 {
			same := out[n][0]
			if same.first == s.first && same.end == s.end && same.gap == s.gap && same.edits == s.edits &&
				len(same.phrase.tokens) == len(s.phrase.tokens) {
				out[n] = append(out[n], s)
				continue
			}
		}
		out = append(out, []span{s})
	}
	return out
}

// likensFirst puts what the whole animal is like before what one word of it may mean, and
// behind it where nothing says that it is only like it.
func likensFirst(a, b span) int {
	rank := func(s span) int {
		switch {
		case !s.phrase.likens:
			return 1
		case s.alone:
			return 2
		}
		return 0
	}
	return cmp.Compare(rank(a), rank(b))
}

// free reports whether a span may be taken beside those taken before: it speaks of
// another trait and is more than words they passed over, as both "six legs" and
// "long legs" are said in "six long legs".
func (s *span) free(taken []*span) bool {
	fresh := 0
	for i := s.first; i < s.end; i++ {
		if !slices.Contains(s.tokens, i) && taken[i] != nil && slices.Contains(taken[i].tokens, i) && !number(s.phrase.tokens[0]) &&
			taken[i].phrase.trait != s.phrase.whole &&
			taken[i].first <= s.first && taken[i].end >= s.end {
			return false // what it passes over says there what is meant
		}
	}
	for _, i := range s.tokens {
		switch before := taken[i]; {
		case before == nil:
			fresh++
		case !slices.Contains(before.tokens, i): // passed over there
			if s.phrase.shades && before.ofWholeThing() {
				fresh++ // the colour of a "little red ball" is the animal's
			}
		case before.phrase.trait == s.phrase.trait || before.phrase.twofold:
			return false
		case before.phrase.trait == s.phrase.whole && !before.denied: // of the same part
		case !slices.Contains(s.tokens, before.tokens[len(before.tokens)-1]) && !number(s.phrase.tokens[0]):
			return false // what follows it there, it tells of
		}
	}
	return fresh > 0 || len(s.tokens) > 1
}

// ofWholeThing reports whether what was found ends with what the animal is called, or its shell, and not with
// one of its parts.
func (s *span) ofWholeThing() bool {
	last := s.phrase.tokens[len(s.phrase.tokens)-1]
	return last == "shell" || !bodyParts()[last] && !anywhere()[last] && !places()[last] && !adjectives()[last]
}

// sameAgain reports whether what was found before tells of the same trait by one of the
// same words.
func (s *span) sameAgain(before finding) bool {
	return before.phrase.trait == s.phrase.trait &&
		slices.ContainsFunc(s.tokens, func(i int) bool { return slices.Contains(before.tokens, i) })
}

// spans are all places in the words where a phrase of the vocabulary stands: in
// its order, with at most one other word between, behind a number two, or two words
// turned round.
func (v *Vocabulary) spans(words []token, part string) []span {
	var out []span
	index, known := v.known(), v.knownWords()
	for i := range words {
		words[i].known = known[words[i].stem]
	}
	for i := range index {
		p := &index[i]
		for from := range words {
			if !p.mayBegin(words[from].stem) {
				continue
			}
			if s, ok := p.spanAt(words, from, part); ok && (!p.label || s.first == 0 && s.end == len(words) && !onlyWhere(part)) {
				out = append(out, s)
			}
		}
	}
	return out
}

// mayBegin tells, at no cost, of most words that the phrase does not begin with them:
// a misspelt word keeps its first letter, and two words may be turned round.
func (p *phrase) mayBegin(word string) bool {
	return word[0] == p.tokens[0][0] || p.tokens[0] == deny && word == hardly || len(p.tokens) == 2 && word[0] == p.tokens[1][0]
}

// mostSkipped is how many words that tell what a thing is like may stand between a number and the thing.
const mostSkipped = 4

func (p *phrase) spanAt(words []token, from int, part string) (span, bool) {
	s := span{first: from, phrase: p}
	at, room := from, 1
	if number(p.tokens[0]) {
		room = 2
	}
	for i, want := range p.tokens {
		if i > 0 && words[at-1].turn != p.turns[i-1] && (words[at-1].turn || s.gap == 0) {
			return span{}, false
		}
		edits := differs(want, words, at)
		for skipped := 0; edits < 0 && i > 0 && !bare(words, at); skipped++ {
			free := room > 1 && skipped < mostSkipped && (adjectives()[words[at].stem] || sheer()[words[at].stem])
			if !free && s.gap >= room {
				break
			}
			if at++; !free || s.gap == 0 {
				s.gap++
			}
			edits = differs(want, words, at)
		}
		if edits >= 0 && p.astray(words, &s, at, edits, part) {
			return span{}, false
		}
		if edits < 0 || p.afterAs[i] && len(p.tokens) == 2 && !words[at].afterAs {
			return p.turned(words, from, part)
		}
		if i > 0 && p.likenings[i] && !words[at].likened && !words[at].afterAs || p.only[i] && !words[at].only {
			return span{}, false
		}
		s.tokens = append(s.tokens, at)
		s.edits += edits
		at++
	}
	s.end = at
	if p.ofPieces(words, at, part) {
		return span{}, false
	}
	if p.likenings[0] && !p.likened(words, &s, part) {
		return span{}, false
	}
	return s, true
}

// astray reports whether the word at a place, so many letters off from the next of the phrase, does
// not tell beside those before it what it tells there.
func (p *phrase) astray(words []token, s *span, at, edits int, part string) bool {
	i, word := len(s.tokens), words[at]
	if i > 0 {
		last := s.tokens[i-1]
		between := part[words[last].end:word.start]
		switch {
		case at > last+1 && p.passes(words[last:at+1], part),
			besideIt().MatchString(between) && !strings.Contains(p.text, " for "), // "long for the body"
			// "points at the tail" are no "pointed hairy tail"
			p.placed[i] && (at > last+1 || moving()[p.tokens[i-1]]) && !placed().MatchString(between),
			p.placed[i] && moving()[p.tokens[i-1]] && p.isOn() && inWater().MatchString(between),
			!p.placed[i] && moving()[p.tokens[i-1]] && whereupon().MatchString(between),
			len(p.tokens) == 2 && !p.placed[i] && anywhere()[p.tokens[0]] && bodyParts()[p.tokens[1]] && placed().MatchString(between),
			p.ed[i] && word.acts && !word.ed && being().MatchString(between), // a "head that covers the face" is not covered
			i == 1 && s.gap > 0 && number(p.tokens[0]) && placed().MatchString(between),
			i == 1 && s.gap > 0 && p.tokens[0] == deny && words[last].helps && !perceived()[words[last+1].stem]:
			return true // "walking on a stone" is no walking stone, "doesn't cover the face" not "no face"
		}
	}
	next := at+1 < len(words) && chained().MatchString(part[word.end:words[min(at+1, len(words)-1)].start])
	return p.ed[i] && !word.ed && ofBehind().MatchString(part[word.end:]) || // a "fringe of gills" is no fringed gill
		edits > 0 && (word.shaped || // "hair-like tails" are not hairy
			next && word.stem == p.tokens[i]+"i") || // a "green crusty sponge" no green crust
		shapedBy()[p.tokens[i]] && (p.ed[i] && word.plural || p.plural[i] && (word.ed || word.ing() || word.stem != p.tokens[i]))
}

// ofPieces reports whether several things are counted of which the last word only tells of what they are
// pieces: "two tail bits" are no tails.
func (p *phrase) ofPieces(words []token, end int, part string) bool {
	last := len(p.tokens) - 1
	several := last > 0 && (number(p.tokens[0]) && p.plural[last] || p.tokens[last] == "tail")
	return several && !words[end-1].plural && end < len(words) && words[end].plural &&
		pieces()[words[end].stem] && chained().MatchString(part[words[end-1].end:words[end].start])
}

// passes reports whether what is passed over between the first and the last of some words changes of
// what the last tells: "tail with hairs", "brush of hairs", "eye dots on top", "straight out from the sides",
// "half-dome shell".
func (p *phrase) passes(words []token, part string) bool {
	last := len(words) - 1
	if outOf().MatchString(part[words[0].end:words[last].start]) || part[words[0].end:words[1].start] == "-" {
		return true
	}
	for i := 1; i < last; i++ {
		s, behind := words[i].stem, part[words[i].end:words[i+1].start]
		thing := bodyParts()[s] || anywhere()[s] || specked()[s] || pieces()[s]
		if s == "half" || thing && (words[i].turn || words[i].plural) ||
			ofBehind().MatchString(behind) && !amounts()[s] {
			return true
		}
	}
	return false
}

// isOn reports whether it tells of what is done on something, and nothing of what is done in it.
func (p *phrase) isOn() bool {
	return strings.Contains(p.text, " on ") && !strings.Contains(p.text, " in ")
}

// inWater is what stands between what an animal does and what it does it in, and not on: "running in the water".
var inWater = pattern.New(`(?i)^ (?:\w+ )?(?:in|through|under|below) (?:(?:the|its|my|our|clear|deep) )*$`)

// whereupon is what stands between what an animal does and where: "walking on a stone".
var whereupon = pattern.New(`(?i)^[^,;]*\b(?:on|along|over|across|about|around|round|up|down|under|among|through|in)\b`)

// besideIt is what stands before that by which a part is measured.
var besideIt = pattern.New(`(?i)^ for (?:the|its|such|an?) `)

// outOf is what stands between what juts out and where it does.
var outOf = pattern.New(`(?i)\b(?:out (?:from|of|to)|where)\b`)

// pieces are the stems of words for what a part that is named before them bears, or is made of.
var pieces = lazyStems(`bit piece square point rod peg lobe hook spike spine plate leaf flap blade fin claw stub prong leg foot feet
arm limb`)

// amounts are the stems of words before "of" that tell how much there is, or what it looks like.
var amounts = lazyStems(`row line lot bunch clump set number coat cover layer group handful dozen hundred load mass pair ring sort
sign trace each half most all some first last`)

// turned is the phrase of two words said the other way round: "body flat".
func (p *phrase) turned(words []token, from int, part string) (span, bool) {
	if len(p.tokens) != 2 || number(p.tokens[0]) || p.tokens[0] == deny || p.likenings[0] || p.likenings[1] || p.placed[1] ||
		p.afterAs[0] || p.afterAs[1] || p.only[0] || p.only[1] {
		return span{}, false
	}
	first, second := differs(p.tokens[1], words, from), differs(p.tokens[0], words, from+1)
	unlike := func(i, at int) bool {
		return shapedBy()[p.tokens[i]] && (p.ed[i] && words[at].plural || p.plural[i] && words[at].ed)
	}
	if first < 0 || second < 0 || unlike(1, from) || unlike(0, from+1) || words[from].turn || words[from+1].plural ||
		!joined().MatchString(part[words[from].end:words[from+1].start]) {
		return span{}, false
	}
	return span{first: from, end: from + 2, tokens: []int{from, from + 1}, edits: first + second, gap: 1, turned: true, phrase: p}, true
}

// perceived are the stems of what one says of seeing something: "don't see a head".
var perceived = lazyStems("see find make notice spot show get have own grow bear carry possess tell count")

// shapedBy are the stems of words that name a thing, and with -ed a shape: "points", "pointed".
var shapedBy = lazyStems("points")

// nearlyDenied reports whether what the phrase denies is only nearly denied.
func (s *span) nearlyDenied(words []token) bool {
	for i, at := range s.tokens {
		if words[at].stem == hardly && s.phrase.tokens[i] == deny {
			return true
		}
	}
	return false
}

// pair is the stem of a word that changes the number before it.
const pair = "pair"

// bare reports whether a word may not be skipped: a number or a denial changes
// what is said, and behind "and" something else is spoken of.
func bare(words []token, at int) bool {
	return at >= len(words) || number(words[at].stem) || words[at].stem == deny || words[at].stem == hardly || words[at].stem == pair ||
		at > 0 && words[at-1].turn
}

// differs is how many letters a word is off from the one wanted, -1 if too many
// or there is none.
func differs(want string, words []token, at int) int {
	if at >= len(words) {
		return -1
	}
	got := words[at].stem
	if got == want {
		return 0
	}
	if want == deny && got == hardly {
		return 1
	}
	room := 0
	switch n := max(len(got), len(want)); {
	case number(got) || number(want) || got[0] != want[0] || otherwise()[got] || words[at].known && !inflected(got, want):
		return -1 // a word that is known is no slip of another
	case n >= 9:
		room = 2
	case n >= 6:
		room = 1
	}
	if room == 0 {
		return -1
	}
	if d := plain.Distance(got, want); d <= room {
		return d
	}
	return -1
}

// otherwise are the stems of ordinary words that mean nothing here and are a letter or two off from one
// that does: who says "wrinkled" means no winkle, and "father" no feather.
var otherwise = lazyStems(`wrinkle wrinkled wrinkling angler attack barren barrow batter battered better bitter borrow breadth
cellar chamber clover contact contrast county dagger darkened doubly earthy extension extent faster fastest father feeder fight
finder flurry frail gigantic grassy hallow insert inserted latter lather lengthy lightning litter mighty money overlay packet
planet powder powdery remainder retain rocket robber scrape scraped scroll shake shaking shatter shattered singly sleepy
slider spinal splitter sprang sprout sprung squint stable startle strange strangely stride strike striking strode struck
strung study studied supper swallow thicken thicket thorough thoroughly threat transport tread trough varnish waders
whisper whisk wilder winder withdrew woolen`)

// inflected reports whether two stems are most likely of one word: "feather", "featheri".
func inflected(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	return len(b)-len(a) <= 2 && (strings.HasPrefix(b, a) || strings.HasSuffix(a, "i") && strings.HasPrefix(b, a[:len(a)-1]) ||
		len(a) == len(b) && strings.HasPrefix(b, a[:len(a)-1]))
}

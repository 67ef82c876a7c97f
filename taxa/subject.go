package taxa

import (
	"slices"
	"strings"

	"rillkey/taxa/pattern"
)

// What a saying tells of is told before it, where it names no part itself: "three tails, all hairy",
// "a tube of sand, very smooth". It goes on to tell of that part, up to the end of the sentence.

// context is what was said before, as far as it tells of what is said now.
type context struct {
	asked   bool   // a question mark follows
	ofPart  bool   // a part of the animal was spoken of, and now no other is
	likens  bool   // what the part is like is said
	harmed  bool   // in the same sentence a part was said to be lost or crushed
	partly  bool   // the last saying names a part
	theSame bool   // it is the same sentence
	shelled bool   // a shell was spoken of, whose rings and shape are not the animal's
	several bool   // the last saying ends with several things that were counted: "two mouth needles"
	counts  string // the part that was spoken of last, where parts of it are counted; else empty
	place   string // the part or place that was named last in the sentence, which "round it" is round
	house   bool   // what the animal lives in was spoken of, and now nothing else is
	housed  bool   // the sentence is of that, and what "it" begins goes on with it
}

// begin gives the context of the next saying.
func (c context) begin(next saying, words []token) context {
	names, _ := topic(words)
	c.theSame = !next.first
	c.asked, c.harmed = next.asked, c.harmed && c.theSame
	c.ofPart = c.ofPart && !names && (c.theSame || !ofWhole().MatchString(next.said))
	c.likens = c.theSame && c.partly && likening().MatchString(next.said)
	c.ofPart = c.ofPart || c.theSame && (c.partly && ofSome().MatchString(next.said) ||
		c.several && longAndThin().MatchString(next.said) &&
			!slices.ContainsFunc(words, func(w token) bool { return !adjectives()[w.stem] }))
	is := ofWhole().MatchString(next.said)
	c.house = c.house && !names && (c.theSame && !is || c.housed && isBegun().MatchString(next.said)) &&
		!ofInhabitant().MatchString(next.said)
	c.housed = c.housed && (c.theSame || c.house)
	return c
}

// advance gives the context of what follows, after these words.
func (c context) advance(now saying, words []token) context {
	names, first := topic(words)
	for i, w := range words {
		c.harmed = c.harmed || lost()[w.stem] && (i == 0 || words[i-1].stem != deny)
	}
	c.ofPart, c.partly = c.ofPart || first, names
	c.several = len(words) > 0 && words[len(words)-1].plural && hasSeveral().MatchString(now.said)
	if names || !c.theSame {
		c.counts = ""
	}
	if !c.theSame {
		c.place = ""
	}
	for i, w := range words {
		if counted()[w.stem] && w.plural {
			c.counts = w.stem + "s"
		}
		if w.placed() {
			c.place = w.stem
		}
		if bodyParts()[w.stem] && !w.likened {
			c.house = (i == 0 || words[i-1].stem != deny) && houses()[w.stem] && (w.stem != "tube" || livedIn().MatchString(now.said)) &&
				!supposed().MatchString(now.said)
		}
	}
	if now.first && names {
		c.housed = c.house && !ofWhole().MatchString(now.said)
	}
	return c
}

// ofSubject is a saying with the part that it goes on to tell of, where it names none itself.
func (c context) ofSubject(s saying, words []token) string {
	if c.theSame && c.place != "" && !c.house {
		s.read = roundIt().ReplaceAllString(s.read, "$1 the "+c.place)
	}
	switch {
	case c.place == "end" && c.theSame && withIt().MatchString(s.said) && !slices.ContainsFunc(words, token.placed):
		at := len(s.read) // "rear end flat, with two dark spots"
		if in := inHollow().FindStringIndex(s.read); in != nil {
			at = in[0]
		}
		return s.read[:at] + " at the end" + s.read[at:]
	case c.house && !hiding().MatchString(s.said):
		return "case " + startOfThem().ReplaceAllString(itIs().ReplaceAllString(s.read, ""), "")
	case c.counts == "" || !c.theSame:
	case ofThem().MatchString(s.said) && !ownPart(words):
		return c.counts + " " + startOfThem().ReplaceAllString(s.read, "")
	case c.counts == "legs" && onEach().MatchString(s.read):
		return s.read + " " + strings.TrimSuffix(c.counts, "s")
	case c.counts == "legs" && eachSide().MatchString(s.read):
		number, rest, _ := strings.Cut(s.read, " ")
		return number + " " + c.counts + " " + rest
	}
	return s.read
}

var (
	// ofWhole is what a sentence begins with that is of the whole animal.
	ofWhole = pattern.New(`(?i)^(?:it|he|she|they|the (?:whole )?(?:body|animal|thing|larva|creature))\b`)
	// isBegun is what begins what is told of the subject of the sentence before, ofInhabitant what is
	// of who lives there, and onEach is said of each of the parts named before.
	isBegun      = pattern.New(`(?i)^(?:it is|it's|it was|it looks|the whole thing|made|all|and)\b`)
	ofInhabitant = pattern.New(`(?i)\b(?:larva|grub|animal|creature|body|maggot|worm|nymph|caterpillar|inside|owner|fellow|guy|` +
		`pokes?|poked|pops?|popped)\b`)
	onEach = pattern.New(`(?i)^(?:(?:and|with|only|just) )*(?:an?|one) (?:\w+ )?(?:hook|claw) (?:on|at|to|for|of) each(?: one)?$`)
	// eachSide tells how many of the parts named before are on each side.
	eachSide = pattern.New(`(?i)^(?:three|four|five|six|seven|eight) (?:on |at |down |along )?(?:each|either|every) side\b`)
	// ofSome is what begins what is said of some of the parts named before: "eight legs, the front two thin".
	ofSome = pattern.New(`(?i)^(?:and )?(?:the|its) (?:front|hind|back|middle|outer|inner|last|first|rear|upper|lower|other|longest)` +
		` (?:two|three|four|one|ones|pairs?)\b`)
	// withIt begins what the part named before bears.
	withIt = pattern.New(`(?i)^(?:and )?with\b`)
	// inHollow is where at an end something is: "with two spots in a shallow hollow".
	inHollow = pattern.New(`(?i) (?:in|inside) (?:an?|its|the) `)
	// hasSeveral is said of an animal that bears several things, and longAndThin of what those are like.
	hasSeveral = pattern.New(`(?i)\b(?:has|have|had|got|bears|carries|with|are) (?:two|three|four|five|six|seven|eight|` +
		`ten|several|some|many)\b`)
	longAndThin = pattern.New(`(?i)^(?:very |quite |rather )?(?:long|short|thick|thin|fat|slender|slim|stout|big|small|tiny|stiff|soft)` +
		` and (?:very |quite |rather )?\w+$`)
	// itIs is what "it" begins with.
	itIs = pattern.New(`(?i)^(?:it is|it's|it was|it looks) `)
	// roundIt is what stands for a part that was named before.
	roundIt = pattern.New(`(?i)\b(round|around|beside|behind) (?:it|them)\b`)
	// livedIn is what stands beside a tube that is no animal.
	livedIn = pattern.New(`(?i)\b(?:of|from|made|built|sandy?|stones?|liv(?:es|ing)|drags?|dragging|carr(?:ies|ying)|inside|case|house)\b`)
	// supposed is what is said of what the animal was taken for, and is not.
	supposed = pattern.New(`(?i)\b(?:(?:took|taken|mistook|mistaken) (?:it|this|that) for|` +
		`(?:thought|supposed|expected|guessed) (?:it|this|that|there))\b`)
	// likening is what begins what the thing said before is like.
	likening = pattern.New(`(?i)^(?:(?:almost|just|a bit|rather|more|very much|much) )?` +
		`(?:like\b|(?:hair|thread|needle|paper|pencil|straw|whisker)[ -](?:thin|fine|like)\b|(?:thin|fine|flat|long) (?:as|like)\b)`)
	// ofThem is what a saying begins with that tells more of the parts named before it: "two tails, each
	// fringed with hairs", "thin feelers, twice as long as the head". startOfThem tells nothing more.
	ofThem = pattern.New(`(?i)^(?:(?:and|but|they're|they are|each|both|all|about|almost|nearly|only|rather|quite|very|` +
		`much|more than|maybe) )*(?:(?:fringed|shorter than|longer than|as long as|twice as|(?:two|three|four) times as|` +
		`half as|half the|without (?:any |an? )?(?:\w+ )?(?:fringe|hairs?|bands?)|(?:long|short) for)\b|` +
		`(?:hairy|feathery|fringed|furry|fuzzy|fluffy) (?:on|at|along|down|all|inside|on both|with)\b|` +
		`(?:hairy|feathery|bare|short|shortish|longish|long)$)`)
	startOfThem = pattern.New(`(?i)^(?:(?:and|but|they're|they are|each|both|all|about|almost|nearly|much|more than|maybe) )+`)
	// hanging is what is said before a comma of the thing behind it: "a smooth, pointed shell".
	hanging = pattern.New(`(?i)^(?:an?|the|its) \w+$`)
	// numberOnly is a number with no more behind it than how sure it is: "eight I think".
	numberOnly = pattern.New(`(?i)^(?:two|three|four|five|six|seven|eight|nine|ten|\d+)` +
		`(?:$| (?:I|we|in all|of them|maybe|perhaps|at least|or so)\b)`)
	// hiding is what is said of an animal that does not show itself, whose parts are not seen.
	hiding = pattern.New(`(?i)\b(?:nothing|nobody|no one) (?:came|comes|showed|shows|poked|pokes)\b`)
	// article is what the subject of a sentence begins with.
	article = pattern.New(`(?i)^(?:an?|the|its|his|her|each|one|another)\b`)
)

// ownPart reports whether words begin with a part of their own: "long legs".
func ownPart(words []token) bool {
	for _, w := range words {
		if !adjectives()[w.stem] {
			return bodyParts()[w.stem] || anywhere()[w.stem] || w.stem == "bodi"
		}
	}
	return false
}

// counted are the stems of parts of which people tell how many there are.
var counted = lazyStems("leg tail feeler eye claw")

// houses are the stems of words for what an animal lives in.
var houses = lazyStems("case tube house purse cocoon chimney")

// topic reports whether what is said names the animal's body, a part of it or what it
// lives in, and whether it begins with a part, of which more may be said then.
func topic(words []token) (names, first bool) {
	first = true
	for i, w := range words {
		if w.likened {
			continue
		}
		if bodyParts()[w.stem] || w.stem == "bodi" || w.stem == "shell" {
			return true, first && w.stem != "bodi" && (i == 0 || w.one && w.stem != "shell")
		}
		first = first && (adjectives()[w.stem] || places()[w.stem] || w.stem == "1")
	}
	return false, false
}

// ofTopic reports whether few words tell what any part of an animal may be like, where
// one was spoken of, before (ofPart) or in a clause before.
func (f finding) ofTopic(words []token, ofPart bool, v *Vocabulary) bool {
	if len(f.tokens) > others || !v.traits[f.phrase.trait].OfParts {
		return false
	}
	if slices.ContainsFunc(words[f.start:f.end], func(w token) bool { return w.stem == "rest" }) {
		return false // of the body
	}
	_, first := topic(words)
	return ofPart || first && slices.ContainsFunc(words[:f.start], func(w token) bool { return w.turn })
}

package taxa

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"github.com/kljensen/snowball/english"

	"rillkey/taxa/pattern"
)

// token is a word as it is compared.
type token struct {
	stem       string
	start, end int  // where it stands in the text, in bytes
	turn       bool // a denial before it does not reach beyond it
	likened    bool // something is only like it
	shaped     bool // and that is said behind it: "leaf-shaped"
	afterAs    bool // "as" stands before it, as in "thin as a thread"
	only       bool // "only" or "just" stands before it
	acts       bool // by its ending it may be something done, and is no adjective
	helps      bool // it denies the verb behind it: "doesn't", "can't"
	plural     bool // by its ending
	ed         bool // by its ending
	one        bool // the text begins with an article, and this is of its first clause
	known      bool // it means something here, and is no slip of another
}

// ing reports whether it ends in -ing.
func (t token) ing() bool { return t.acts && !t.plural }

// helping is how a word ends that denies a verb.
var helping = pattern.New(`(?:n't|not|^(?:hasnt|isnt|doesnt|havent|arent|dont|wasnt|werent|didnt|aint|hadnt))$`)

// idle are words that carry no meaning here.
var idle = lazyWords(`a an the its it it's is are was were has have had having with of like as to at in on and or but which that this
these those there their they them very quite rather really just some any all one's i my me we saw seen look looks looking
be being been do does did for from by about into onto along then so too also only when if most much
nearly almost animal creature bug beast insect critter fellow guy larva nymph
kind sort thing bit got get gets can could would will seem seems`)

var numbers = sync.OnceValue(func() map[string]string {
	return map[string]string{
		"zero": "0", "one": "1", "single": "1", "two": "2", "couple": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7",
		"eight": "8", "nine": "9", "ten": "10", "twelve": "12", "fourteen": "14",
		"twenty": "20", "forty": "40", "fifty": "50", "sixty": "60", "seventy": "70",
		"eighty": "80", "ninety": "90",
	}
})

// lazyWords are words, listed when they are first asked for: most commands hear nobody speak.
func lazyWords(words string) func() map[string]bool {
	return sync.OnceValue(func() map[string]bool { return wordSet(words) })
}

func wordSet(words string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(words) {
		out[w] = true
	}
	return out
}

// tokens are the words of a text that carry meaning, as stems; a word that the
// vocabulary knows by another counts as that one.
func (v *Vocabulary) tokens(text string, stem func(word string) string) []token {
	var out []token
	like, as, only := 0, false, false
	for from := 0; from < len(text); {
		rest := text[from:]
		start := strings.IndexFunc(rest, wordRune)
		if start < 0 {
			break
		}
		end := strings.IndexFunc(rest[start:], func(r rune) bool { return !wordRune(r) && r != '\'' && r != '’' })
		if end < 0 {
			end = len(rest) - start
		}
		word := strings.ToLower(strings.ReplaceAll(rest[start:start+end], "’", "'"))
		before, behind := text[:from+start], text[from+start+end:]
		n := len(out)
		if word == "march" && text[from+start] == 'M' && (before != "" || monthBehind().MatchString(behind)) {
			word = "april" // the month, and nothing that walks
		}
		out = v.addToken(out, inContext(word, before, behind), stem, from+start, from+start+end)
		if len(out) > n {
			out[n].likened, out[n].afterAs, out[n].shaped = like > 0, as, shapedBehind().MatchString(behind)
			out[n].only = only
			out[n].plural = strings.HasSuffix(word, "s") && !strings.HasSuffix(word, "ss") || word == "feet" || word == "teeth"
			out[n].one = article().MatchString(text) && !isWordIn(text[:from+start])
			out[n].ed = strings.HasSuffix(word, "ed")
			out[n].helps = out[n].stem == deny && helping().MatchString(word)
			out[n].acts = strings.HasSuffix(word, "s") || strings.HasSuffix(word, "ing")
			like--
		}
		as = word == "as" || as && (word == "a" || word == "an")
		only = word == "only" || word == "just" || only && (word == "a" || word == "the" || word == "its")
		like = likenedBehind(like, word, before, behind)
		from += start + end
	}
	return out
}

// isWordIn reports whether "is" or the like stands in a text.
func isWordIn(text string) bool {
	return slices.ContainsFunc(strings.Fields(strings.ToLower(text)), func(word string) bool { return isWord()[word] })
}

// inContext is the word that stands for one where what is before and behind it changes
// what it says: "back" in "at the back", "round" in "round the end", "few" without "a",
// "absent" at the end.
func inContext(word, before, behind string) string {
	switch {
	case hindWord()[word] && endBehind().MatchString(behind):
		return "the" // the hind end is the end
	case word == "back" && rearwards().MatchString(before):
		return "hind"
	case word == "back" && cutOff().MatchString(behind):
		return "end"
	case (word == "one" || word == "two") && byTurns().MatchString(behind),
		(word == "run" || word == "spring") && ofStream().MatchString(before),
		(word == "inch" || word == "inches") && (numbers()[lastWord(before)] != "" || measures()[lastWord(before)]),
		word == "kicked" && fromWhere().MatchString(behind), word == "fishing" && !netBehind().MatchString(behind):
		return "the" // "one foot at a time", "a deep run", "kicked up from gravel"
	case (word == "row" || word == "rows") && !itBefore().MatchString(before) &&
		(lineBehind().MatchString(behind) || lineBefore().MatchString(before)):
		return "line" // of things, and no rowing
	case strings.HasPrefix(word, "stick") && outBehind().MatchString(behind):
		return "jut"
	case sideDeterminers()[word] && sideBehind().MatchString(behind):
		return "the" // "along both sides" is at the sides
	case word == "side" && sideBy().MatchString(behind) || word == "side" && bySide().MatchString(before):
		return "the" // "side by side"
	case word == "round" && (owned().MatchString(behind) ||
		allBefore().MatchString(before) && clauseOver().MatchString(behind)):
		return "around"
	case word == "not" && strings.TrimSpace(before) != "" && notThere().MatchString(behind) && !someOf().MatchString(before):
		return absence
	case word == "sticks" && thingBefore().MatchString(before) && hindBehind().MatchString(behind):
		return "prongs" // nothing sticks there
	case (word == "colour" || word == "color") && colourBefore().MatchString(before):
		return "the" // "grey in colour" is grey
	case word == "speck", word == "walking" && legsBehind().MatchString(behind), word == "tapering" && partsBehind().MatchString(behind),
		(word == "squashed" || word == "squished") && inWhat().MatchString(behind):
		return "the" // what is tiny has no specks; "walking legs" need not walk; "squashed in the net" was not flat
	case ofPeople().MatchString(before) && (bodyParts()[stem(word)] || places()[stem(word)]):
		return "the" // "my fingers are numb"
	case (word == "case" || word == "cases") && wingBefore().MatchString(before):
		return "wingcase" // and no house
	case word == "case" && anyBefore().MatchString(before):
		return "the"
	case absentees()[word] && strings.TrimSpace(before) != "" && clauseOver().MatchString(behind):
		return absence
	case word == "pill" && strings.HasPrefix(strings.ToLower(behind), " bug"):
		return "pillbug" // and no pill
	case (word == "muddy" || word == "silty" || word == "dirty") && bedBehind().MatchString(behind):
		return "the" // "muddy water"
	case numbers()[word] != "" && thanBefore().MatchString(before):
		return "other" // "more legs than six"
	case (word == "few" || word == "fewer") && !someFew().MatchString(before) || denials()[word] && nearDenied().MatchString(before):
		return hardly
	}
	return word
}

// measures are words before "inch" where it is a length.
var measures = lazyWords("an half quarter of about couple few 1 2 3 4 5 6")

// lastWord is the last word of a text, in lower case.
func lastWord(text string) string {
	words := strings.Fields(strings.ReplaceAll(text, "-", " "))
	if len(words) == 0 {
		return ""
	}
	return bareWord(words[len(words)-1])
}

var (
	// cutOff is what stands behind "back" where it is the hind end: "the back is cut off blunt", "square back half".
	cutOff = pattern.New(`^ (?:(?:is|was|looks|ends|stops) (?:\w+ )?(?:cut|blunt|bluntly|chopped|square|pointed|forked)|half|third|part)\b`)
	// byTurns is what stands behind "one" where it counts nothing that the animal has, ofStream before "run" and
	// "spring" where they are waters, fromWhere behind "kicked" where somebody kicked the animal up, and netBehind
	// behind "fishing" where it is a net.
	byTurns  = pattern.New(`^ (?:\w+ ){0,2}(?:at a time|by one|after (?:another|the other))\b`)
	ofStream = pattern.New(`(?i)\b(?:deep|fast|slow|shallow|swift|gravel|gravelly|stony|rocky|spring|cold|small|little|upland|hill|` +
		`muddy|woodland|quick|steady|smooth|clear) $`)
	fromWhere = pattern.New(`^ (?:it |him |her |this |them )?(?:up|out|from|off|over|loose|free|into|in)\b`)
	netBehind = pattern.New(`^ nets?\b`)
	// itBefore is what stands before what the animal does: "it rows along".
	itBefore = pattern.New(`(?i)(?:^|\b(?:it|he|she|they|which|that|always|just|and|then) )$`)
	// allBefore is what stands before "round" where it tells of a place: "sticks out all round".
	allBefore = pattern.New(`(?i)(?:\b(?:out|edge|past|beyond|body|rim|brim|runs|going) (?:\w+ ){0,2}|\w{3,}[^s]s )all $`)
	// notThere is what stands behind "not" where a part is not there: "wing pads not started yet".
	notThere = pattern.New(`^ (?:yet |even |really )?(?:started|there|present|visible|seen|to be seen|formed|grown|showing|` +
		`developed|begun|found)\b(?: yet| at all)?\s*(?:$|[,;:.!?])`)
	// someOf is what stands before "not" where only some of a part are not there.
	someOf = pattern.New(`(?i)\b(?:hind|rear|front|back|middle|some|most|outer|inner|left|right|other)\b[\w ]*$`)
	// bedBehind is what stands behind a word that tells what the water is like, or its bed.
	bedBehind = pattern.New(`(?i)^,?(?: (?:slow|still|shallow|cold|warm|little|small|weedy|stream|river|creek|brook|pond))* ` +
		`(?:water|beds?|pools?|banks?|streams?|puddles?|ditch|creek|river|brook|backwater|margins?|shore)\b`)
	// thanBefore is what stands before a number that is not the one meant: "more legs than six".
	thanBefore = pattern.New(`(?i)\b(?:more|fewer|less)\b[\w ]*\bthan\s+$`)
	// legsBehind is what stands behind "walking" where nothing walks, partsBehind behind
	// "tapering" where a part tapers, inWhat behind "squashed" where the animal was.
	legsBehind  = pattern.New(`^ legs\b`)
	partsBehind = pattern.New(`^ (?:tails?|legs?|threads?|fingers?|lobes?|feelers?|tubes?|horns?|arms?)\b`)
	inWhat      = pattern.New(`^ (?:in|by|on|under|inside|between) (?:the|a|my|our)\b`)
	// colourBefore is what ends with the colour that something is said to have.
	colourBefore = pattern.New(`(?i)\b(?:gr[ea]y|brown|green|black|yellow|white|red|orange|pink|purple|cream|tan)(?:ish)?(?: in)? $`)
	// ofPeople is what stands before a part of the person who speaks.
	ofPeople = pattern.New(`(?i)\b(?:my|our|your|(?:dad|mum|mom|grand(?:ad|pa|ma)|daddy|mummy)(?:'s|s)?)(?: \w+)? $`)
	// monthBehind is what stands behind "March" where it is the month.
	monthBehind = pattern.New(`^(?:$|[,.;:]| \d| [a-z]+ (?:sample|flow|flood)s?\b)`)
	// wingBefore is what stands before "case" where it is that of a wing, and anyBefore where it is none.
	wingBefore = pattern.New(`(?i)\bwing[ -]$`)
	anyBefore  = pattern.New(`(?i)\b(?:in any|just in) $`)
	// thingBefore is what stands before "sticks" where they are things, and nothing sticks.
	thingBefore = pattern.New(`(?i)\b(?:two|three|four|few|some|little|tiny|small|short|long|thin|stiff|forked)\s+$`)
	// hindBehind is what stands behind things that are at the hind end.
	hindBehind = pattern.New(`(?i)^ (?:at|on|from) (?:the|its) (?:very |hind |tail |back |rear )*` +
		`(?:end|tail|back|rear|bum|butt|bottom|tip)\b`)
)

// hindWord are words that say which end is meant where most people say no more than "the
// end"; endBehind is what stands behind them.
var (
	sideDeterminers = lazyWords("along down up each both either every")
	sideBehind      = pattern.New(`^\s+(?:(?:the|its|their|his|her|each|both|either|every)\s+){0,2}(?:sides?|flanks?|edges?)\b`)
	sideBy          = pattern.New(`^ by side\b`)
	bySide          = pattern.New(`\bside by $`)
	hindWord        = lazyWords("hind rear back tail posterior hinder")
	endBehind       = pattern.New(`^[ -]end\b`)
)

func wordRune(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

func (v *Vocabulary) addToken(out []token, word string, stem func(string) string, from, to int) []token {
	switch {
	case word == absence:
		return denyBefore(out)
	case denials()[word]:
		return append(out, token{stem: deny, start: from, end: to})
	case nearDenials()[word]:
		return append(out, token{stem: hardly, start: from, end: to})
	case lessOf(word) != "":
		return v.addToken(append(out, token{stem: deny, start: from, end: from}), lessOf(word), stem, from, to)
	case word == "but" || word == "and" || word == "with":
		if len(out) > 0 {
			out[len(out)-1].turn = out[len(out)-1].stem != deny
		}
		return out
	case strings.HasPrefix(word, "stop") && len(out) > 0 && out[len(out)-1].stem == deny:
		return out[:len(out)-1] // "never stops waving"
	case idle()[word]:
		return out
	case numbers()[word] == "1" && len(out) > 0 && out[len(out)-1].stem == deny:
		return out // "not one tail"
	case numbers()[word] != "":
		return append(out, token{stem: numbers()[word], start: from, end: to})
	}
	s := stem(word)
	if other, ok := v.same[s]; ok {
		s = other
	}
	return append(out, token{stem: s, start: from, end: to})
}

// original is a stretch of a text as it was typed, with the whole of words that hyphens
// join.
func original(text string, words []token, from, to int) string {
	start, end := compound(text, words[from].start, words[to-1].end)
	return text[start:end]
}

func number(stem string) bool { return stem[0] >= '0' && stem[0] <= '9' }

// stem makes the forms of one English word equal: plurals, "rolls", "rolled",
// "rolling". It need not be a word.
func stem(word string) string {
	return english.Stem(strings.TrimSuffix(strings.TrimSuffix(word, "'s"), "'"), true)
}

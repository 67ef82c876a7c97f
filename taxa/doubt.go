package taxa

import (
	"slices"
	"strings"
	"sync"

	"rillkey/taxa/pattern"
)

// What is said so is asked before it is noted: a wrong reading that somebody
// overlooks does more harm than one question more.
var (
	// hedged are words that make a whole clause doubtful.
	hedged = pattern.New(
		`(?i)\b(?:perhaps|maybe|possibly|probably|presumably|apparently|supposedly|supposed|might` +
			`|seem(?:s|ed)?|appear(?:s|ed)?` +
			`|(?:could|may|must|would|should)(?: well)?(?: not)? (?:be|have)|think|thought|guess|suppose` +
			`|believe|imagine|wonder|reckon|assume` +
			`|unsure|uncertain|unclear|whether|either|nothing|(?:sort|kind) of|hard to|difficult to` +
			`|not (?:just|only|sure|quite|really|exactly|so|very|all|always|much|clear)` +
			`|(?:can't|cannot|can not|couldn't|could not|didn't|did not) (?:really |quite )?` +
			`(?:tell|see|make|count|find|say|be|get|decide|notice|look|check|measure|examine)` +
			`|(?:took|taken|mistook|mistaken) (?:(?:it|this|him|her|them) )?for|(?:before|without) (?:I|we|he|she) (?:could|had|got)` +
			`|in (?:places|parts)|(?:a bit|a little|somewhat) like|babies|(?:little|tiny|its) young` +
			`|too many|(?:only|just) (?:\w+ ){1,3}left|one \w+ left` +
			`|(?:will|would|does|do|did) not (?:even )?show|(?:won't|wouldn't|doesn't|didn't) (?:even )?show` +
			`|(?:is|are|was|were) (?:there )?(?:one |only )?left|(?:no|any) \w+(?: \w+)? left|might've)\b`)
	// eitherPlace is where "either" means both.
	eitherPlace = pattern.New(`(?i)^either (?:side|end|flank|hand)\b`)
	// aside are words behind which, up to the end of the clause, a likeness, a
	// condition, a measure, the place or the food is spoken of.
	aside = pattern.New(
		`(?i)\b(?:like an?|like the|than|unlike|instead of|as opposed to|compared (?:to|with)|(?:different|distinguished|told) from` +
			`|(?:confused|mistaken) (?:with|for)|similar to|resembl(?:es?|ing)|remind(?:s|ed)? me|same as` +
			`|as if|as though|if|(?:size|length|form|shape|look|build) of|(?:as|so) (?:big|small|large|long|tiny|short) as` +
			`|found (?:in|on|under|inside|among|it|them)|sa?i?tt?(?:ing)? (?:on|in) an?|sits on|from an?|from (?:under|among|beneath)` +
			`|picked|taken|dug|shaken|sieved|netted` +
			`|(?:curl|coil|wrap|wind|wound)\w* (?:itself )?(?:a?round) (?:an?|my|the|some|any) ` +
			`|(?:in|into|from) (?:the|my|our) net|among|amongst|between|next to|near|into the (?:flow|current|water)` +
			`|(?:from|below|under|underneath|beneath) the (?:surface|top|skin of|film)|eats?|ate|eating|feed(?:s|ing)? on|caught` +
			`|(?:running|ran) (?:late|out|short))\b`)
	// contrasted are words behind which stands what something is not.
	contrasted = pattern.New(`(?i)\b(?:than|unlike|instead of|as opposed to|different from)\b`)
	// nearly are words that make only what follows at once doubtful.
	nearly = pattern.New(`(?i)\b(?:almost|nearly|barely|half|slightly)\s+(?:an?\s+)?$`)
	// parted is what stands between clauses.
	parted = pattern.New(`(?i)\b(?:and|but|with|though|although|because|while)\b`)
	// or is what stands between two of which one holds.
	or = pattern.New(`(?i)^[\s(]*(?:or|to|/|-|–)(?:\s+(?:an?|the))?\s*$`)
	// being is what stands between a part and what it is like.
	being = pattern.New(`(?i)^\s+(?:(?:that|which)\s+)?(?:is|are|was|were|comes?|gets?|looks?|that|which)\b`)
	// withThem is what stands between a part and what it bears or is like.
	withThem = pattern.New(`(?i)^\s*\(?(?:that (?:have|has|are|is) |which (?:have|has|are|is) )?(?:with|and)\b`)
	// onlyWith is what stands between a part and the first of what it bears.
	onlyWith = pattern.New(`(?i)^\s*with\s*$`)
	// placed is what stands between a number of things and where they are.
	placed = pattern.New(`(?i)\b(?:at|on|in|under|behind|below|by|near|around|` +
		`round (?:the|its|their|it|them|each|every|one)|along|above|over)\b`)
	// objective is what stands before a thing that is no doing.
	objective = pattern.New(`(?i)\b(?:on|off|in|inside|at|of|from|under|by)\s+(?:(?:its|the|their|an?)\s+)?(?:(?:bit|piece|lump) of\s+)?$`)
	// onThe is what stands before where something is.
	onThe = pattern.New(`(?i)\b(?:on|in|at|under|behind|near) (?:the|its|their)\s+$`)
	// disturbed is what stands beside what an animal does only when somebody touches it.
	disturbed = pattern.New(`(?i)\b(?:when|if|once|as soon as) (?:(?:I|you|we|he|she|it|they|it's|it is|it was) )?` +
		`(?:am |are |is |was |were )?(?:touch|pok|prod|nudg|disturb|bother|lift|pick|pester|tickl|scar|frighten|handl|squeez)`)
	// neitherOf is what names two of which neither holds.
	neitherOf = pattern.New(`(?i)\b(?:between|neither quite|somewhere from) [\w -]+? (?:and|to|nor) [\w-]+`)
	// chained is what stands between the words of one name.
	chained = pattern.New(`^[\s-]+$`)
	// changing are words for what is so only later or was so before.
	changing = pattern.New(
		`(?i)\b(?:(?:gets?|getting|grows?|growing) (?:(?:a lot|a bit|much|even|ever) )?(?:\w+er|more|less)\b` +
			`|becom(?:es?|ing)|now|no longer|any ?more` +
			`|(?:turns?|turned|turning) (?:into|to|more|\w+er)\b|used to|once it|as it (?:ages|grows)` +
			`|(?:when|once|if|as|while) (?:(?:it|they|he|she)(?: is|'s| are)? )?(?:older|grown|young|younger|mature|adult))\b`)
	// ofThings is what begins what is said of what lay or stood about the animal, and not of it.
	ofThings = pattern.New(`(?i)^(?:and |but )?(?:the|my|our|this|that|its?) (?:\w+ )?(?:net|bucket|jar|pot|pan|` +
		`stones?|rocks?|cobbles?|boulders?|water|` +
		`tray|pool|stream|river|creek|brook|beck|bank|mud|silt|gravel|leaves|weeds?|log|current|light|photo|` +
		`lens|weather) (?:was|is|were|are|had|has|got|looked|came|ran)\b`)
	// markedWith is what stands before the colour of marks, and not of the animal.
	markedWith = pattern.New(`(?i)\b(?:marked|patterned|spotted|flecked|striped|mottled|freckled|speckled|dotted|banded|blotched|` +
		`ch(?:eq|eck)uered|scribbled|edged|lined|tipped|dusted|caked) (?:all over )?(?:with|in) (?:\w+ and )?(?:\w+ )?$`)
	// belowBehind is what stands behind what only one side or end of the animal is like.
	belowBehind = pattern.New(`(?i)^(?: and \w+)?,? (?:underneath|beneath|below|behind|in front|at the (?:front|back|end|tip|tail)|` +
		`on (?:the|its) (?:belly|underside|tummy))\b`)
	// marksOn is what stands behind the colour of marks of one part.
	marksOn = pattern.New(`(?i)^(?:,? and \w+)?(?: \w+)? (?:patterns?|patch(?:es)?|marks?|markings?|spots?|stripes?|lines?|dots?|` +
		`blotch(?:es)?|bars?|smudges?) (?:on|across|along|around|over|behind|between) (?:the|its|his|her) (?:\w+ )?` +
		`(?:head|face|legs?|feet|tails?|feelers|wings?|pads|gills|neck|chest|eyes?)\b`)
	// joined is what may stand between two words that are turned round: "body is flat".
	joined = pattern.New(`(?i)^\s+(?:(?:is|are|was|were|very|quite|rather|really|all|so|being|looks?)\s+)*$`)
)

// doubts are where in a part what is said is doubtful, in bytes.
type doubts struct {
	part    string
	clauses [][2]int // whole clauses
	hedges  [][2]int // whole clauses of which the person is not sure
	sorts   [][2]int // whole clauses with "a sort of", which say what something is like
	tails   [][2]int // what begins there
	changes []change
}

// change is a clause that speaks of what is so at another time, by this word.
type change struct {
	clause [2]int
	word   string
}

// doubtsOf reads a part for doubts; asked says that it ends with a question mark.
func doubtsOf(part string, words []token, asked bool) doubts {
	d := doubts{part: part}
	clauses := clausesOf(part)
	for _, at := range neitherOf().FindAllStringIndex(part, -1) {
		d.clauses = append(d.clauses, [2]int{at[0], at[1]})
	}
	if asked {
		d.clauses = append(d.clauses, [2]int{0, len(part)})
	}
	for _, at := range hedged().FindAllStringIndex(part, -1) {
		if eitherPlace().MatchString(part[at[0]:]) {
			continue
		}
		if strings.HasSuffix(part[at[0]:at[1]], " of") {
			d.sorts = append(d.sorts, clauseAt(clauses, at[0]))
			continue
		}
		d.hedges = append(d.hedges, clauseAt(clauses, at[0]))
	}
	for _, at := range changing().FindAllStringIndex(part, -1) {
		d.changes = append(d.changes, change{clauseAt(clauses, at[0]), strings.Fields(part[at[0]:at[1]])[0]})
	}
	for i, w := range words {
		if lost()[w.stem] && (i == 0 || words[i-1].stem != deny) {
			d.clauses = append(d.clauses, clauseAt(clauses, w.start))
		}
	}
	if at := ofThings().FindStringIndex(part); at != nil {
		d.clauses = append(d.clauses, clauseAt(clauses, at[0]))
	}
	for _, at := range aside().FindAllStringIndex(part, -1) {
		d.tails = append(d.tails, [2]int{at[0], clauseAt(clauses, at[0])[1]})
	}
	return d
}

func clausesOf(part string) [][2]int {
	var out [][2]int
	from := 0
	for _, at := range parted().FindAllStringIndex(part, -1) {
		out = append(out, [2]int{from, at[0]})
		from = at[0]
	}
	return append(out, [2]int{from, len(part)})
}

func clauseAt(clauses [][2]int, at int) [2]int {
	i := slices.IndexFunc(clauses, func(c [2]int) bool { return at < c[1] })
	if i < 0 {
		i = len(clauses) - 1
	}
	return clauses[i]
}

// doubtful reports whether words from one place to another are said in doubt, as
// this phrase.
func (d *doubts) doubtful(from, to int, p *phrase) bool {
	over := func(r [2]int) bool { return from < r[1] && to > r[0] }
	if slices.ContainsFunc(d.clauses, over) || !p.likens && slices.ContainsFunc(d.sorts, over) {
		return true
	}
	if slices.ContainsFunc(d.hedges, over) && (p.tokens[0] == deny || !hedged().MatchString(p.text)) {
		return true // unless it is said just so: "babies under its belly"
	}
	for _, c := range d.changes {
		if from < c.clause[1] && to > c.clause[0] && !strings.Contains(p.text, strings.ToLower(c.word)) {
			return true
		}
	}
	likened := p.likens || len(p.tokens) > 1 && strings.Contains(p.text, "like ")
	for _, r := range d.tails {
		if from >= r[0] && from < r[1] && !likened {
			return true
		}
	}
	before := nearly().FindString(d.part[:from])
	return before != "" && !p.shades && !strings.Contains(p.text, strings.Fields(before)[0])
}

// not reports whether words from this place on say what the animal is not like: "rounder
// than flat".
func (d *doubts) not(from int, p *phrase) bool {
	at := contrasted().FindStringIndex(d.part)
	return at != nil && at[0] <= from && !contrasted().MatchString(p.text) && from < clauseAt(clausesOf(d.part), at[0])[1]
}

// lost are the stems of words for a part that has come off.
var lost = lazyStems("gone missing lost snapped broken broke torn tore rubbed stump mashed chewed remain")

// bodyParts are the stems of parts of which people say what they say of the body.
var bodyParts = lazyStems(`leg foot feet claw tail head feeler antenna horn eye gill jaw tusk wing flap pad plate hook sucker arm neck chest
tip tentacle thigh mouth beak lip hair bristle spot stripe band line chin finger belly case tube house purse capsule cocoon chimney
wingcase`)

// lazyStems are the stems of some words, found when they are first asked for: most
// commands hear nobody speak.
func lazyStems(words string) func() map[string]bool {
	return sync.OnceValue(func() map[string]bool {
		out := map[string]bool{}
		for w := range wordSet(words) {
			out[stem(w)] = true
		}
		return out
	})
}

// specks are the stems of words for an animal of which no more is said.
var specks = lazyStems("dot speck blob fleck blip string thread worm")

// begun is what stands before the first that is told of an animal, where it is not said to have it.
var begun = pattern.New(`(?i)^(?:(?:it|it's|its|this|that|is|was|just|only|like|an?|the|one|little|tiny|small|mere)\s+)*$`)

// ofSpeck reports whether a word tells of the animal by what all of it is: "a red dot".
func (s *span) ofSpeck(part string, words []token) bool {
	return s.end == len(words)-1 && specks()[words[s.end].stem] && !words[s.end].plural && begun().MatchString(part[:words[s.first].start])
}

// held are the stems of words that say how something sits where it is.
var held = lazyStems("stuck glued cemented clamped fixed fastened attached anchored stands sits lies clings hanging")

// ofAnother reports whether a single word, or the second of two turned round, most likely tells of a part that is not
// known here, as "flat" does in "flat horns", or of one that is, as in "flat tails".
func (s *span) ofAnother(part string, words []token, taken []*span) bool {
	from, to := s.first, s.end
	if to-from != 1 && !s.turned && !(s.phrase.twofold && len(s.tokens) == 2) || to == len(words) ||
		words[to-1].acts && !s.turned || words[to-1].turn ||
		words[to].stem == deny || number(words[to].stem) || held()[words[to].stem] ||
		words[to].likened || words[to].stem == "bodi" && chained().MatchString(part[words[to-1].end:words[to].start]) {
		return false
	}
	if s.ofSpeck(part, words) {
		return false
	}
	return taken[to] == nil || !s.turned && len(taken[to].phrase.tokens) > 1
}

// ofPart reports whether what is said of any part, such as a colour, is said of one
// that is named beside it, or in the same clause and not otherwise understood: "the
// tip of its tail is black".
func (s *span) ofPart(part string, words []token, taken []*span, v *Vocabulary) bool {
	if !v.traits[s.phrase.trait].OfParts {
		return false
	}
	if s.end < len(words) && !words[s.end-1].turn && bodyParts()[words[s.end].stem] {
		return true
	}
	if i := s.first - 1; i >= 0 && !words[i].turn && words[i].placed() && words[i].stem != "bodi" && len(s.tokens) == 1 &&
		chained().MatchString(part[words[i].end:words[s.first].start]) {
		return true // "rear end flat"
	}
	if s.first > 0 && bodyParts()[words[s.first-1].stem] && being().MatchString(part[words[s.first-1].end:words[s.first].start]) {
		return true
	}
	if ofShell(s, words, v) || s.ofOneSide(part, words, v) {
		return true
	}
	from, to := clause(words, s.first, s.end)
	if i := from - 2; i >= 0 && adjectives()[words[i+1].stem] && words[i].turn && bodyParts()[words[i].stem] &&
		onlyWith().MatchString(part[words[i].end:words[i+1].start]) {
		return true // "three tails with pale and dark bands"
	}
	if from > 0 && bodyParts()[words[from-1].stem] && withThem().MatchString(part[words[from-1].end:words[from].start]) &&
		!slices.ContainsFunc(words[from:to], token.placed) {
		return true // "three tails with dark bands"
	}
	for i := from; i < to; i++ {
		if (i < s.first || i >= s.end) && bodyParts()[words[i].stem] && (taken[i] == nil || taken[i] == s) {
			return true
		}
	}
	return false
}

// ofOneSide reports whether a colour, or what the skin is like, is said of marks or of one side or
// end of the animal: "yellow marked with dark brown", "white underneath".
func (s *span) ofOneSide(part string, words []token, v *Vocabulary) bool {
	id := v.traits[s.phrase.trait].ID
	return (id == "colour" || id == "skin") && !slices.ContainsFunc(words[s.first:s.end], token.placed) &&
		(markedWith().MatchString(part[:words[s.first].start]) || belowBehind().MatchString(part[words[s.end-1].end:]) ||
			marksOn().MatchString(part[words[s.end-1].end:]))
}

// ofShell reports whether a shell, or what else is round an animal, is spoken of in the same
// clause: what colour it is may be taken for the animal's, what it is like not.
func ofShell(s *span, words []token, v *Vocabulary) bool {
	if id := v.traits[s.phrase.trait].ID; id == "colour" || id == "pattern" {
		return false
	}
	from, to := clause(words, s.first, s.end)
	return slices.ContainsFunc(words[from:to], func(w token) bool { return w.stem == "shell" })
}

// shade reports whether a colour and the like only says how the next one is, which then
// decides: "pale grey" is grey, "dark reddish brown" is brown.
func (s *span) shade(part string, words []token, taken []*span, v *Vocabulary) bool {
	if !v.traits[s.phrase.trait].OfParts || s.end >= len(words) || taken[s.end] == nil || words[s.end-1].turn {
		return false
	}
	next := taken[s.end]
	return next != s && next.first == s.end && next.phrase.trait == s.phrase.trait && next.phrase.state != s.phrase.state &&
		chained().MatchString(part[words[s.end-1].end:words[s.end].start])
}

// orElse reports whether another thing is said in its place, as in "two or three
// tails"; two states of one trait may both be noted.
func (s *span) orElse(part string, words []token, taken []*span) bool {
	other := func(at, from, to int) bool {
		return at >= 0 && at < len(words) && or().MatchString(part[from:to]) &&
			(number(words[at].stem) || taken[at] == nil || taken[at].phrase.trait != s.phrase.trait)
	}
	if s.denied {
		return false // neither is there
	}
	if s.first > 0 && other(s.first-1, words[s.first-1].end, words[s.first].start) {
		return true
	}
	return s.end < len(words) && other(s.end, words[s.end-1].end, words[s.end].start)
}

// ofNext reports whether what is said of any part is said of what the words go on to:
// "round flat coil".
func (s *span) ofNext(found []finding, v *Vocabulary) bool {
	return v.traits[s.phrase.trait].OfParts && slices.ContainsFunc(found, func(other finding) bool {
		return other.first > s.first && other.first < s.end && other.end > s.end && other.phrase.trait != s.phrase.trait
	})
}

// likeness reports whether all that is said is what the animal is like, where that tells
// of one of its parts, as "like a tiny lobster" of legs, or is beside what it has of them,
// as "eight legs like a spider".
func (s *span) likeness(words []token, found []finding, v *Vocabulary) bool {
	if strings.HasPrefix(s.phrase.text, "like ") && words[s.first].likened {
		trait := v.traits[s.phrase.trait]
		return !trait.OfParts && trait.Look != Patience
	}
	return strings.Contains(s.phrase.text, " like ") && slices.ContainsFunc(found, func(other finding) bool {
		return number(other.phrase.tokens[0]) && other.end-1 == s.first
	})
}

// object reports whether a single word that may be something done, or what any part is
// like, is a thing, by what stands before it: "eyes on stalks", "in a bit of straw".
func (s *span) object(part string, words []token, v *Vocabulary) bool {
	before := part[:words[s.first].start]
	id := v.traits[s.phrase.trait].ID
	if id == "backbone" && hostBefore().MatchString(before) && !ofBehind().MatchString(part[words[s.end-1].end:]) ||
		id == "shell" && madeOf().MatchString(before) || id == "rings" && ringBefore().MatchString(before) ||
		id == "case-face" && words[s.first].placed() && rearBefore().MatchString(before) {
		return true
	}
	return (s.end-s.first == 1 || s.turned) && (words[s.first].acts || v.traits[s.phrase.trait].OfParts || doing(v, s) ||
		id == "living") &&
		objective().MatchString(before)
}

var (
	// hostBefore is what stands before a fish that something sat on, and is none: "slid off a stickleback".
	hostBefore = pattern.New(`(?i)\b(?:on|off|in|inside|from|to|onto|beside|by|with|fins?|gills?|side|` +
		`tail|skin|mouth|belly|head|back|scales|body)` +
		` (?:of )?(?:its|the|their|an?|some|another|my|our|one) (?:[\w-]+ ){0,2}$`)
	// madeOf is what stands before what a case is made of.
	madeOf = pattern.New(`(?i)\b(?:cases?|houses?|tubes?|made|built|decorated|covered) (?:is |was )?(?:made |built |all )?` +
		`(?:of|from|with|out of|in)\b[^,;]*$`)
	// rearBefore is what stands before ends that are not those of what a case is made of: "hind ends sticking up".
	rearBefore = pattern.New(`(?i)\b(?:hind|rear|back|tail) $`)
	// ringBefore is what stands before rings that only say where something is: "on nearly every ring".
	ringBefore = pattern.New(`(?i)\b(?:on|of|at|under|behind|along|from|between|below) (?:\w+ )?` +
		`(?:each|every|all|both|most|the (?:first|last|next|hind|front|rear|end|middle|other)|two|three|four|five|six|seven)` +
		`(?: (?:of (?:the|its)|belly|tail|hind|chest|body|two|three|few|several))* $`)
)

// doing reports whether it is something that an animal does: "swims".
func doing(v *Vocabulary, s *span) bool {
	id := v.traits[s.phrase.trait].ID
	return id == "move" || id == "manner"
}

// site reports whether what was found is where something is, and is not said to be there:
// "at the wider end are two ears", "brown on the back plates".
func (s *span) site(part string, words []token, v *Vocabulary) bool {
	last := words[s.end-1]
	return s.end-s.first > 1 && !number(s.phrase.tokens[0]) &&
		(bodyParts()[last.stem] || v.traits[s.phrase.trait].OfParts && last.placed()) &&
		onThe().MatchString(part[:words[s.first].start])
}

// ofPiece reports whether it begins with a part of which only a piece is meant: "first joint of the feelers very long".
func (s *span) ofPiece(part string, words []token) bool {
	return len(s.tokens) > 1 && bodyParts()[words[s.first].stem] && pieceOf().MatchString(part[:words[s.first].start])
}

// pieceOf is what stands before a part of which only a piece is meant.
var pieceOf = pattern.New(`(?i)\b(?:joint|piece|bit|part|section|segment|base|root|tip|half|edge|middle) ` +
	`of (?:the|its|each|every|their|both) $`)

// landmark is what stands before a part that only tells where something else is.
var landmark = pattern.New(`(?i)\b(?:behind|beyond|beside|next to|in front of|close to|past) (?:(?:the|its|their|his|her)\s+)?$`)

// byLandmark reports whether it begins with a part that only tells where something else is:
// the head in "all three parts behind the head have hard plates".
func (s *span) byLandmark(part string, words []token) bool {
	at := words[s.first]
	return s.end-s.first > 1 && bodyParts()[at.stem] && landmark().MatchString(part[:at.start])
}

// likensPart reports whether a part that is named before it is like that, and not the
// animal, nor a part that the trait is of: "long legs like bent hairpins", "flaps like roof tiles".
func (s *span) likensPart(words []token, v *Vocabulary) bool {
	trait, parts := v.traits[s.phrase.trait], v.called.parts[s.phrase.trait]
	if !trait.OfParts && (len(parts) == 0 || !words[s.first].likened || doing(v, s)) {
		return false
	}
	if !slices.ContainsFunc(words[s.first:s.end], func(w token) bool { return w.likened }) || bodyParts()[words[s.end-1].stem] {
		return false
	}
	for i := s.first - 1; i >= 0 && (!words[i].turn || adjectives()[words[i].stem]); i-- {
		switch w := words[i]; {
		case w.likened || adjectives()[w.stem]:
		case bodyParts()[w.stem]:
			return !wholes()[w.stem] && (trait.OfParts || !parts[w.stem])
		case !w.placed() && !resting()[w.stem]:
			return false
		}
	}
	return false
}

// straddles reports whether its words stand on both sides of another and of where that is:
// "little hooks on its legs" are no little legs.
func (s *span) straddles(part string, words []token) bool {
	for n := 1; n < len(s.tokens); n++ {
		if s.tokens[n] > s.tokens[n-1]+1 && !s.phrase.placed[n] &&
			placed().MatchString(part[words[s.tokens[n]-1].end:words[s.tokens[n]].start]) {
			return true
		}
	}
	return false
}

// resting are the stems of words for how a part lies or moves.
var resting = lazyStems("run lie stand sit hang stick wave trail curl bend flutter")

// byPart reports whether a part that is named right before it does what was found, and
// not the animal: "wing buds lie on its back".
func (s *span) byPart(words []token, taken []*span) bool {
	i := s.first - 1
	return i >= 0 && resting()[words[s.first].stem] && !words[i].turn && words[i].stem != deny &&
		(bodyParts()[words[i].stem] || taken[i] != nil && taken[i] != s && slices.Contains(taken[i].tokens, i))
}

// several reports whether one word that names a shape stands for several things: "beads" are no animal
// like a bead.
func (s *span) several(part string, words []token, v *Vocabulary) bool {
	at := words[s.first]
	return v.traits[s.phrase.trait].ID == "outline" && len(s.tokens) == 1 && at.plural && !s.phrase.plural[0] && !at.likened &&
		withinOf().MatchString(part[:at.start])
}

// withinOf is what stands before several things that something is made of, or that are in it.
var withinOf = pattern.New(`(?i)\b(?:of|with|in|has|have|holds)\b[^,;]*$`)

// tellsOfNext reports whether one word, or two, tell only what the part is like that is named
// right behind, with at most other such words between: "white branching tufts".
func (s *span) tellsOfNext(part string, words []token, v *Vocabulary) bool {
	if s.end-s.first > 2 || s.turned || !v.traits[s.phrase.trait].OfParts || s.ofSpeck(part, words) {
		return false
	}
	for i := s.end; i < len(words) && (!words[i-1].turn && chained().MatchString(part[words[i-1].end:words[i].start]) ||
		i == s.end && adjectives()[words[i-1].stem] && adjectives()[words[i].stem] && part[words[i-1].end:words[i].start] == " and "); i++ {
		if borneOrPart(words[i].stem) {
			return true
		}
		if !adjectives()[words[i].stem] {
			break
		}
	}
	return false
}

// borneOrPart reports whether a stem is that of a part, or of what any part may bear, and
// not of what the whole animal may be called; the belly is as the body is.
func borneOrPart(stem string) bool {
	return !wholes()[stem] && (bodyParts()[stem] || anywhere()[stem])
}

// wholes are stems of words for what most of the animal is, or all that is seen of it.
var wholes = lazyStems("belly wing thread leaf straw disc tube filament case house purse")

// manners are the stems of words that change nothing of what the words behind them
// say.
var manners = lazyStems("thin long short thick tiny big fat pale dark hairy soft white slender bushy fluffy cottony")

// partOfLonger reports whether the words of a phrase are part of a longer one that names
// another thing: "wing flaps on the back" are no flaps on the back, "three plates at
// the end" are not those behind the head, and "no tail blades" no blades at the tail.
func (s *span) partOfLonger(found []finding, v *Vocabulary) bool {
	return slices.ContainsFunc(found, func(other finding) bool {
		first := other.phrase.tokens[0]
		switch {
		case other.phrase.trait == s.phrase.trait || other.phrase.trait == s.phrase.whole || s.bears(other, v) ||
			len(other.tokens) < len(s.tokens) ||
			len(other.tokens) == len(s.tokens) && other.first >= s.first:
			return false
		case other.first < s.first && other.end-1 == s.first:
			return !number(first) && !manners()[first]
		}
		for i := s.first; i < s.end; i++ {
			if !slices.Contains(s.tokens, i) && slices.Contains(other.tokens, i) && other.first <= s.first && other.end >= s.end &&
				!number(s.phrase.tokens[0]) {
				return true
			}
		}
		own := func(i int) bool { return !slices.Contains(other.tokens, i) }
		return !slices.ContainsFunc(s.tokens, own) && !(other.first < s.first && manners()[first])
	})
}

// bears reports whether it tells how many there are of what the other is of: in "two hooks on long stalks" there are
// two hooks.
func (s *span) bears(other finding, v *Vocabulary) bool {
	on, trait := v.traits[other.phrase.trait].OnlyIf, v.traits[s.phrase.trait]
	return on != nil && on.Trait == trait.ID && number(s.phrase.tokens[0]) && slices.Contains(on.States, trait.States[s.phrase.state].ID)
}

// others is how many other words around a single one make it doubtful whether it
// speaks of the trait that it is known for: "hung from the surface", "a sliver of
// fish" (two blind readers had such words noted against what they saw).
const others = 2

// plainly reports whether what was understood of some words hardly means something
// else: they are several, or one that stands alone.
func (f finding) plainly(words []token, taken []*span, seen Seen, v *Vocabulary) bool {
	if f.end-f.first > 1 {
		return true
	}
	if words[f.first].likened || words[f.first].afterAs {
		return false
	}
	for _, id := range seen.States {
		if seen.Trait.States[seen.Trait.State(id)].Striking {
			return true
		}
	}
	from, to := clause(words, f.first, f.end)
	for i := from; i < to; i++ {
		if (i < f.first || i >= f.end) && words[i].stem != deny && (taken[i] == nil || taken[i].phrase.trait != f.phrase.trait) {
			return len(words) <= others || v.adjectivesOnly(words[from:to], taken[from:to])
		}
	}
	return true
}

// adjectivesOnly reports whether words tell nothing but what the animal is like: "flat brown and round".
func (v *Vocabulary) adjectivesOnly(words []token, taken []*span) bool {
	for i, w := range words {
		by := taken[i]
		switch {
		case w.likened || w.afterAs || w.plural || w.acts || anywhere()[w.stem]:
			return false
		case w.stem == "bodi" || w.stem == "size" || by == nil && adjectives()[w.stem]:
		case by != nil && by.phrase.likens:
		case by == nil || !v.traits[by.phrase.trait].OfParts || len(by.tokens) > 1:
			return false
		}
	}
	return true
}

package taxa

import (
	"slices"
	"strings"

	"rillkey/taxa/pattern"
)

// What is said of one part is no finding of another: hooks on the feet are none at the
// hind end. Where on an animal a trait is its vocabulary says, by "where".

// places are the stems of words for where on an animal something is.
var places = lazyStems(`leg foot feet thigh knee toe claw head face mouth chin neck throat forehead nose lip jaw eye feeler antenna
chest thorax shoulder armpit belly underside underneath bottom bum butt backside rump rear behind back top side edge flank
tail end tip hind front middle gill wing shell case house body over corner`)

// anywhere are the stems of words for what any part may bear.
var anywhere = lazyStems(`hook tuft thread hair plate spine point bristle fluff wool feather plume fringe leaf flap lobe finger brush
dot spot hole disc knob bump hump tooth teeth prong rod horn arm petal beard yarn fan whisker tube straw filament fin pit tentacle`)

// specked are the stems of words for what is met anywhere on an animal, however many there are.
var specked = lazyStems("dot spot hole disc mark")

var (
	// borne is what stands between what a part bears and the part: "hooks on its feet".
	borne = pattern.New(`(?i)^\s+(?:(?:all|right|just|half ?way)\s+)?(?:on|of|at|in|from|off|under|along|down|over|between|round|around|` +
		`beside|behind|above|below|near|by|where|coming|growing|hanging|sticking)\b`)
	// onTheLegs is what is on the legs, and not where they join.
	onTheLegs = pattern.New(`(?i)^[\w -]*\bon (?:its|the|their|all|each|every|some)(?: of (?:its|the))? (?:\w+ )?legs?\b`)
	// jutting is what stands behind what sticks out somewhere: "feelers sticking out the sides".
	jutting = pattern.New(`(?i)^\s+(?:sticking|coming|growing|hanging|poking)\b`)
	// bearing is what stands between a part and what it bears: "legs with hooks".
	bearing = pattern.New(`(?i)^\s+(?:with|has|have|had|bears|carries|that have|which have|having|ending in|covered (?:in|with))\b[^,;]*$`)
	// rearwards is what stands before "back" where the hind end is meant, not the upper side.
	// owned is what stands behind "round" where it says where, and not of what shape.
	owned     = pattern.New(`(?i)^\s+(?:the|its|their|his|her|it|them|my|our|your|every)\b`)
	rearwards = pattern.New(`(?i)\b(?:at|in) (?:the|its|their) $`)
)

// misplaced reports whether what was found is said of another part than its trait is
// of, or of what any part may bear while none is named and no number of them said.
func (f finding) misplaced(part string, words []token, all takings, v *Vocabulary) bool {
	trait := v.traits[f.phrase.trait]
	if trait.Where == nil || f.withWhole(part, words, all, v) {
		return false
	}
	if onTheLegs().MatchString(part[words[f.first].start:]) && !strings.Contains(f.phrase.text, " on ") && trait.ID == "gills" {
		return true
	}
	where := v.whereOf(trait)
	if i := f.first - 1; i >= 0 && ofSomeLegs()[words[i].stem] && words[f.first].stem == "leg" && !where[words[i].stem] &&
		chained().MatchString(part[words[i].end:words[f.first].start]) {
		return true // the front legs are not all legs
	}
	placed := slices.ContainsFunc(f.tokens, func(i int) bool { return words[i].placed() })
	for _, i := range f.placesNamed(part, words, all, placed) {
		if !where[words[i].stem] {
			return true
		}
		placed = true
	}
	if specked()[words[f.tokens[len(f.tokens)-1]].stem] && !placed {
		return !slices.ContainsFunc(words, func(w token) bool { return where[w.stem] }) // a number of dots may be anywhere
	}
	return !placed && !f.span.denied && !number(f.phrase.tokens[0]) && len(f.tokens) <= others &&
		slices.ContainsFunc(f.tokens, func(i int) bool { return anywhere()[words[i].stem] })
}

// ofSomeLegs are the stems of words before "legs" where only some of them are meant.
var ofSomeLegs = lazyStems("front middle hind back last first")

// dependent reports whether a single word, or a number of edges, tells of what is there only where something
// else is, such as "neat" of a case, and that is not said.
func (f finding) dependent(part string, words []token, all takings, v *Vocabulary) bool {
	trait := v.traits[f.phrase.trait]
	return trait.OnlyIf != nil && !f.withWhole(part, words, all, v) &&
		(len(f.tokens) == 1 && !trait.States[f.phrase.state].Striking ||
			trait.ID == "case-shape" && len(f.tokens) == 2 && number(f.phrase.tokens[0]))
}

// elsewhereOnly reports whether something is denied of one place of several where it may
// be: "no gills on the side", "belly without gills".
func (f finding) elsewhereOnly(part string, words []token, all takings, v *Vocabulary) bool {
	if !f.span.denied || !f.placedBehind(part, words) && !f.placedBefore(words, all.words) {
		return false
	}
	places := 0
	for _, state := range v.traits[f.phrase.trait].States {
		if state.ID != absent {
			places++
		}
	}
	return places > others && v.traits[f.phrase.trait].Where != nil
}

// placedBehind reports whether a place follows that bears what was found.
func (f finding) placedBehind(part string, words []token) bool {
	return f.end < len(words) && words[f.end].placed() && borne().MatchString(part[words[f.end-1].end:words[f.end].start])
}

// placedBefore reports whether a place that is without it stands before what was found.
func (f finding) placedBefore(words []token, taken []*span) bool {
	i := f.start - 1
	return i >= 0 && taken[i] == nil && !words[i].turn && words[i].placed()
}

// withWhole reports whether what the trait hangs on is said too, in its place, as where
// the gills are beside what one is like.
func (f finding) withWhole(part string, words []token, all takings, v *Vocabulary) bool {
	on := v.traits[f.phrase.trait].OnlyIf
	return on != nil && slices.ContainsFunc(all.found, func(whole finding) bool {
		return v.traits[whole.phrase.trait].ID == on.Trait && !whole.span.denied && !whole.misplaced(part, words, all, v) &&
			!slices.ContainsFunc(whole.group, func(s span) bool { return s.phrase.trait != whole.phrase.trait })
	})
}

// clause is the part of what was said, between its turns, that some words of it stand in.
func clause(words []token, from, to int) (int, int) {
	for from > 0 && !words[from-1].turn {
		from--
	}
	for to < len(words) && !words[to-1].turn {
		to++
	}
	return from, to
}

// placesNamed are the words beside what was found that name where it is: the part that it
// is borne by, or that bears it, and where its own words name none, those of the clause that
// tell of nothing else.
func (f finding) placesNamed(part string, words []token, all takings, placed bool) (out []int) {
	from, to := clause(words, f.first, f.end)
	for i := from; i < to; i++ {
		beside, by := i < f.first || i >= f.end, all.words[i]
		own := slices.Contains(f.tokens, i) || by != nil && slices.Contains(by.tokens, i)
		if (!placed || !beside) && !own && words[i].placed() {
			out = append(out, i)
		}
	}
	if f.end < to && (borne().MatchString(part[words[f.end-1].end:words[f.end].start]) ||
		jutting().MatchString(part[words[f.end-1].end:])) {
		for i := f.end; i < min(to, f.end+3); i++ {
			if words[i].placed() {
				return append(out, i)
			}
		}
	}
	first := f.start
	if first > 0 && number(words[first-1].stem) {
		first--
	}
	if i := first - 1; i >= 0 && words[i].placed() && words[i].stem != "bodi" &&
		bearing().MatchString(part[words[i].end:words[first].start]) {
		out = append(out, i)
	}
	return out
}

// placed reports whether a word names a place on the animal, and not what it is like.
func (t token) placed() bool { return places()[t.stem] && !t.likened }

// whereOf are the stems of the words for where a trait is.
func (v *Vocabulary) whereOf(t *Trait) map[string]bool {
	out := map[string]bool{}
	for _, word := range t.Where {
		s := stem(strings.ToLower(word))
		if other, ok := v.same[s]; ok {
			s = other
		}
		out[s] = true
	}
	return out
}

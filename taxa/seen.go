package taxa

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"

	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Seen is something that a person said about an animal in words of their own,
// and what it means: the animal shows one of these states of the trait.
type Seen struct {
	Words  string // as they were typed
	Trait  *Trait
	States []string // ids, in the order of the vocabulary
}

// Unclear is what a person said that has no one meaning, or that is said in doubt,
// of a likeness or perhaps of something else.
type Unclear struct {
	Words  string
	Choice []Seen // what may be meant, the likeliest first; none where nothing is near
	Known  bool   // the words are known
}

// mostSeen is how many bytes [Vocabulary.Understand] takes at most.
const mostSeen = 2000

// mostChoices is how many meanings are offered for unclear words.
const mostChoices = 5

// Understand reads what a person says of an animal, such as "ten legs, pincers",
// by the words that the vocabulary has for each state. Parts are separated by
// commas, full stops, semicolons or line ends; each may name several things.
// Known words within a part that mean nothing by themselves are passed over where something
// else beside them was understood; those that are not known are unclear. A denial, "no tails", means every other state. What
// was said of one trait in several parts is one finding for each that differs. What is seen may
// be noted as it is; all that may be meant otherwise is unclear, and is to be asked.
func (v *Vocabulary) Understand(text string) (seen []Seen, unclear []Unclear, err error) {
	if len(text) > mostSeen {
		return nil, nil, wording.Errorf("that is more than %d letters; say it in fewer words, the most striking things first", mostSeen)
	}
	if !utf8.ValidString(text) || plain.HasControl(strings.NewReplacer("\n", " ", "\t", " ", "\r", " ").Replace(text)) {
		return nil, nil, wording.Errorf("that holds signs that are no letters; type it in plain words")
	}
	var before context
	all := sayings(text)
	for i, saying := range all {
		words := v.tokens(saying.read, stem)
		now := before.begin(saying, words)
		if i+1 < len(all) && hanging().MatchString(saying.said) {
			names, _ := topic(v.tokens(all[i+1].read, stem))
			now.ofPart = now.ofPart || names
		}
		if more := numberOnly().FindString(saying.read); more != "" && now.counts != "" && now.theSame {
			saying.read = more + " " + now.counts + saying.read[len(more):]
			words = v.tokens(saying.read, stem)
		}
		if read := now.ofSubject(saying, words); read != saying.read {
			saying.read = read
			words = v.tokens(read, stem)
		}
		if numberOnly().FindString(saying.read) == saying.read && i > 0 && saying.read != "" {
			unclear = append(unclear, Unclear{Words: saying.said}) // of what is not told
			before = now.advance(saying, words)
			continue
		}
		now.harmed = now.harmed || hiding().MatchString(saying.said)
		found, open := v.understandPart(saying.read, words, now)
		before = now.advance(saying, words)
		before.shelled = before.shelled || slices.ContainsFunc(found, Seen.ofShell) || slices.ContainsFunc(open, Unclear.ofShell)
		for _, one := range found {
			one.Words = saying.asTyped(one.Words)
			if !slices.ContainsFunc(seen, one.same) {
				seen = append(seen, one)
			}
		}
		for _, one := range open {
			one.Words = saying.asTyped(one.Words)
			unclear = append(unclear, one)
		}
	}
	unclear = slices.DeleteFunc(unclear, func(u Unclear) bool { return u.known(seen) })
	for i := range unclear {
		unclear[i] = unclear[i].untold(seen)
	}
	seen, homeless := partHomeless(seen)
	unclear = append(unclear, homeless...)
	seen, against := partAgainst(ofBoth(seen))
	seen, hanging := partHanging(seen)
	return seen, slices.Concat(unclear, against, hanging), nil
}

// bothParts is the id of a state that holds where two others of its trait do, those that it is mistaken for.
const bothParts = "both"

// ofBoth puts one finding in the place of two that hold together: legs are banded, and tails.
func ofBoth(seen []Seen) (out []Seen) {
	for _, s := range seen {
		at := -1
		if i := s.Trait.State(bothParts); i >= 0 && len(s.States) == 1 {
			parts := s.Trait.States[i].MistakenFor
			at = slices.IndexFunc(out, func(o Seen) bool {
				return o.Trait == s.Trait && len(o.States) == 1 && o.States[0] != s.States[0] &&
					slices.Contains(parts, o.States[0]) && slices.Contains(parts, s.States[0])
			})
		}
		if at < 0 {
			out = append(out, s)
			continue
		}
		out[at] = Seen{out[at].Words + ", " + s.Words, s.Trait, []string{bothParts}}
	}
	return out
}

// partHanging takes out of what was seen what cannot be beside what was said of that on which it
// hangs: the mouth of a coiled shell where the shell is a cap. It is to be asked, unless the same
// words tell of both, as "four tiny hooks" of the size of two.
func partHanging(seen []Seen) (left []Seen, hanging []Unclear) {
	for _, s := range seen {
		switch other := s.saidOtherwise(seen); {
		case other == nil:
			left = append(left, s)
		case !slices.ContainsFunc(strings.Fields(s.Words), func(w string) bool { return strings.HasSuffix(other.Words, w) }):
			hanging = append(hanging, Unclear{s.Words, []Seen{s}, true})
		}
	}
	return left, hanging
}

// saidOtherwise is what was said of that on which it hangs, where that is otherwise; else nil.
func (s Seen) saidOtherwise(said []Seen) (otherwise *Seen) {
	on := s.Trait.OnlyIf
	if on == nil || slices.Contains(s.States, absent) {
		return nil
	}
	for i, other := range said {
		if other.Trait.ID != on.Trait {
			continue
		}
		if slices.ContainsFunc(other.States, func(id string) bool { return slices.Contains(on.States, id) }) {
			return nil
		}
		otherwise = &said[i]
	}
	return otherwise
}

// partHomeless takes out of what was seen that it has no case or house, where it has a net or a tube that is
// fixed and nobody would call so: whether that is a house is to be asked.
func partHomeless(seen []Seen) (left []Seen, homeless []Unclear) {
	fixed := false
	for _, s := range seen {
		fixed = fixed || !houseFound().MatchString(s.Words) && (s.Trait.ID == "retreat" && s.States[0] != absent ||
			s.Trait.ID == "case" && s.States[0] == "fixed")
	}
	for _, s := range seen {
		if on := s.Trait.OnlyIf; fixed && (s.Trait.ID == "case" && s.States[0] == absent ||
			on != nil && on.Trait == "case" && s.Trait.ID != "retreat") {
			homeless = append(homeless, Unclear{s.Words, []Seen{s}, true})
			continue
		}
		left = append(left, s)
	}
	return left, homeless
}

// untold is what may be meant without what is told otherwise already, where more than that may be: of
// something flat, "round" tells of its outline.
func (u Unclear) untold(seen []Seen) Unclear {
	left := slices.DeleteFunc(slices.Clone(u.Choice), func(c Seen) bool {
		return c.Trait.OfParts && slices.ContainsFunc(seen, func(s Seen) bool {
			return s.Trait == c.Trait && !slices.ContainsFunc(c.States, func(id string) bool { return slices.Contains(s.States, id) })
		})
	})
	if len(left) > 0 {
		u.Choice = left
	}
	return u
}

// known reports whether all that may be meant was plainly said besides.
func (u Unclear) known(seen []Seen) bool {
	return len(u.Choice) > 0 && !slices.ContainsFunc(u.Choice, func(c Seen) bool { return !slices.ContainsFunc(seen, c.same) })
}

// shells are the traits that only a shell has.
var shells = lazyWords("shell valves spire opening")

// ofShell reports whether it tells of a shell that is there.
func (s Seen) ofShell() bool { return shells()[s.Trait.ID] && !slices.Contains(s.States, absent) }

// ofShell reports whether all that may be meant tells of a shell.
func (u Unclear) ofShell() bool {
	return len(u.Choice) > 0 && !slices.ContainsFunc(u.Choice, func(s Seen) bool { return !s.ofShell() })
}

// ofShape reports whether what was found may be of a shell as well, where one was spoken of:
// "fine rings on it".
func (v *Vocabulary) ofShape(f finding) bool {
	id := v.traits[f.phrase.trait].ID
	return id == "rings" || id == "posture" || id == "cuts" || id == "humps"
}

// partAgainst takes out of what was seen what was said against itself, which is to be
// asked: the one with the other.
func partAgainst(seen []Seen) (left []Seen, against []Unclear) {
	taken := make([]bool, len(seen))
	for i, a := range seen {
		for j := i + 1; j < len(seen) && !taken[i]; j++ {
			if b := seen[j]; !taken[j] && a.contradicts(b) {
				taken[i], taken[j] = true, true
				against = append(against, Unclear{a.Words + ", " + b.Words, []Seen{a, b}, true})
			}
		}
		if !taken[i] {
			left = append(left, a)
		}
	}
	return left, against
}

// same reports whether both find the same.
func (s Seen) same(other Seen) bool {
	return s.Trait == other.Trait && slices.Equal(s.States, other.States)
}

// contradicts reports whether one says that something is there and the other that it is
// not, or another number of it. Two colours, or two ways of moving, may both be seen.
func (s Seen) contradicts(other Seen) bool {
	if s.Trait != other.Trait || slices.ContainsFunc(s.States, func(id string) bool { return slices.Contains(other.States, id) }) {
		return false
	}
	none := func(s Seen) bool { return len(s.States) == 1 && s.States[0] == absent }
	counted := func(s Seen) bool { return len(s.States) == 1 && number(s.States[0]) }
	return counted(s) && counted(other) || none(s) || none(other) || len(s.States)+len(other.States) == len(s.Trait.States)
}

// understandPart reads one part of what was said.
func (v *Vocabulary) understandPart(part string, words []token, c context) ([]Seen, []Unclear) {
	if len(words) == 0 {
		return nil, nil
	}
	var seen []Seen
	var unclear []Unclear
	place := map[string]int{}
	taken, open := v.take(words, part), c.ofPart || c.likens || c.asked || c.house
	doubts := doubtsOf(part, words, c.asked || c.likens)
	for _, t := range taken.found {
		if t.shade(part, words, taken.words, v) || doubts.not(words[t.start].start, t.phrase) || t.tellsOfNext(part, words, v) ||
			t.byPart(words, taken.words) || t.several(part, words, v) {
			continue
		}
		said := original(part, words, t.start, t.end)
		place[said] = t.start
		if c.house && v.traits[t.phrase.trait].OfParts && !t.phrase.likens {
			unclear = append(unclear, Unclear{said, nil, false}) // of what it lives in
			continue
		}
		if !t.phrase.likens && t.likensPart(words, v) {
			unclear = append(unclear, Unclear{said, nil, false})
			continue
		}
		if t.phrase.likens {
			is, may := v.similar(t, said, open, doubts.doubtful(words[t.start].start, words[t.end-1].end, t.phrase))
			seen, unclear = append(seen, is...), append(unclear, may...)
			continue
		}
		is, may := v.meant(t, said, open, func(meaning Seen) bool {
			return t.plainly(words, taken.words, meaning, v) && !t.ofTopic(words, c.ofPart, v) &&
				!(c.harmed && (t.denied || t.span.denied)) && !(c.shelled && v.ofShape(t)) && !v.doubted(t, part, words, taken, doubts)
		})
		seen, unclear = append(seen, is...), append(unclear, may...)
	}
	sorting.Stable(seen, func(a, b Seen) int { return cmp.Compare(place[a.Words], place[b.Words]) })
	sorting.Stable(unclear, func(a, b Unclear) int { return cmp.Compare(place[a.Words], place[b.Words]) })
	if len(seen)+len(unclear) == 0 && !slices.ContainsFunc(words, func(t token) bool { return t.stem != deny }) {
		return nil, nil
	}
	if len(seen)+len(unclear) == 0 {
		if !slices.ContainsFunc(words, func(t token) bool { return t.stem != deny && !fillers()[t.stem] }) {
			return nil, nil
		}
		return nil, []Unclear{{part, v.offers(part, words), false}}
	}
	return seen, append(unclear, v.leftOver(part, words, taken, doubts)...)
}

// meant is what is noted of a finding, its one meaning if that is plain, and what is asked.
// Where it is not plain, an animal that is only called by the name of another is like it,
// which tells of its outline too; not where it is open of what that was said.
func (v *Vocabulary) meant(f finding, said string, open bool, plain func(Seen) bool) (seen []Seen, unclear []Unclear) {
	meanings := v.meanings(f.group, said, f.denied)
	if f.nearly {
		meanings = noneFirst(meanings)
	}
	if (len(meanings) == 1 || len(meanings) > 1 && f.phrase.twofold && !f.denied) && plain(meanings[0]) {
		return meanings, nil
	}
	if called := v.calledLike(f, said); called != nil && !open && !f.denied {
		seen = called
		meanings = slices.DeleteFunc(meanings, func(m Seen) bool { return m.Trait.ID == "outline" || m.Trait.Likeness })
	}
	if len(meanings) > 0 {
		unclear = []Unclear{{said, meanings[:min(mostChoices, len(meanings))], true}}
	}
	return seen, unclear
}

// finding is a place where something was found, with all that its words stand for.
type finding struct {
	span
	group  []span
	start  int // where it begins with the denial before it
	denied bool
	nearly bool // it is denied only nearly: "hardly any hair"
}

// takings are what was found in a part, those that cover most words first, and by
// word which of them took it.
type takings struct {
	found []finding
	words []*span
}

// take finds all that a part speaks of.
func (v *Vocabulary) take(words []token, part string) takings {
	t := takings{words: make([]*span, len(words))}
	for _, group := range bestSpans(v.spans(words, part)) {
		if group[0].phrase.likens && !group[0].ofWhole(words) {
			group = slices.DeleteFunc(slices.Clone(group), func(s span) bool { return s.phrase.likens || len(s.tokens) == 1 })
			if len(group) == 0 {
				continue
			}
		}
		if of := hangingOn(group, t.found); len(of) > 0 {
			group = of
		}
		s := &group[0]
		if !s.free(t.words) || s.byLandmark(part, words) || slices.ContainsFunc(t.found, s.sameAgain) {
			continue
		}
		start, denied, nearly := denial(words, t.words, s.first, part)
		nearly = nearly || s.nearlyDenied(words)
		if !denied && (soughtInVain().MatchString(part[words[s.end-1].end:]) || lookedFor().MatchString(part[:words[s.first].start]) &&
			foundNone().MatchString(part[words[s.end-1].end:])) {
			denied, nearly = true, true
		}
		s.denied = denied && !nearly || s.phrase.tokens[0] == deny
		t.found = append(t.found, finding{*s, group, start, denied, nearly})
		for i := s.first; i < s.end; i++ {
			if t.words[i] == nil || slices.Contains(s.tokens, i) {
				t.words[i] = s
			}
		}
	}
	return t
}

// hangingOn are those of a group that hang on what was found before: of "three long tails" the
// length is that of the tails.
func hangingOn(group []span, found []finding) (out []span) {
	for _, s := range group {
		if slices.ContainsFunc(found, func(f finding) bool { return f.phrase.trait == s.phrase.whole && !f.span.denied && f.shares(s) }) {
			out = append(out, s)
		}
	}
	return out
}

// shares reports whether a word is of both.
func (s *span) shares(other span) bool {
	return slices.ContainsFunc(s.tokens, func(i int) bool { return slices.Contains(other.tokens, i) })
}

// doubted reports whether what was found is rather asked than noted.
func (v *Vocabulary) doubted(f finding, part string, words []token, all takings, doubts doubts) bool {
	taken := all.words
	return f.phrase.hint || f.nearly || f.denied && len(f.phrase.tokens) > 2 || f.ofAnother(part, words, taken) ||
		f.ofPart(part, words, taken, v) || f.misplaced(part, words, all, v) || f.partOfLonger(all.found, v) ||
		f.ofNext(all.found, v) || f.likeness(words, all.found, v) || f.object(part, words, v) ||
		f.dependent(part, words, all, v) || f.elsewhereOnly(part, words, all, v) || f.straddles(part, words) ||
		f.orElse(part, words, taken) || f.site(part, words, v) || f.ofPiece(part, words) ||
		v.traits[f.phrase.trait].AtRest && disturbed().MatchString(part) ||
		doubts.doubtful(words[f.start].start, words[f.end-1].end, f.phrase)
}

// meanings are what the phrases of one span stand for, by trait. What the states
// of several traits are labelled with ("no jointed legs") is taken only where
// nobody gave them words.
func (v *Vocabulary) meanings(group []span, said string, denied bool) []Seen {
	if words := slices.DeleteFunc(slices.Clone(group), func(s span) bool { return s.phrase.label }); len(words) > 0 {
		group = words
	}
	if likens := len(group) > 0 && group[0].phrase.likens; len(group) > 1 {
		group = slices.DeleteFunc(slices.Clone(group), func(s span) bool { return s.phrase.likens != likens })
	}
	var out []Seen
	for t, trait := range v.traits {
		var states []string
		for s, state := range trait.States {
			means := slices.ContainsFunc(group, func(g span) bool { return g.phrase.trait == t && g.phrase.state == s })
			concerned := slices.ContainsFunc(group, func(g span) bool { return g.phrase.trait == t })
			if concerned && means != denied {
				states = append(states, state.ID)
			}
		}
		if len(states) > 0 {
			out = append(out, Seen{Words: said, Trait: trait, States: states})
		}
	}
	return out
}

// noneFirst are the meanings of what is nearly denied: that it is not there, where that
// can be.
func noneFirst(meanings []Seen) []Seen {
	for i, m := range meanings {
		if len(m.States) > 1 && slices.Contains(m.States, absent) {
			meanings[i].States = []string{absent}
		}
	}
	return meanings
}

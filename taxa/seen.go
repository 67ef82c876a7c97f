package taxa

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/sahilm/fuzzy"

	"rillkey/taxa/plain"
)

// Seen is something that a person said about an animal in words of their own,
// and what it means: the animal shows one of these states of the trait.
type Seen struct {
	Words  string // as they were typed
	Trait  *Trait
	States []string // ids, in the order of the vocabulary
	// Plain says that the words hardly speak of something else: several of them
	// together mean it, or it strikes everybody, or they stand nearly alone.
	Plain bool
}

// Unclear is what a person said that has no one meaning.
type Unclear struct {
	Words  string
	Choice []Seen // what may be meant, the likeliest first; none where nothing is near
	Known  bool   // the words are known, of more than one trait
}

// parts is what stands between two things that were said.
var parts = regexp.MustCompile(`[,;:!?\n\r]+|\.(?:\D|$)`)

// MostSeen is how many bytes [Vocabulary.Understand] takes at most.
const MostSeen = 2000

// mostChoices is how many meanings are offered for unclear words.
const mostChoices = 5

// Understand reads what a person says of an animal, such as "ten legs, pincers",
// by the words that the vocabulary has for each state. Parts are separated by
// commas, full stops, semicolons or line ends; each may name several things.
// Words within a part that mean nothing here are passed over where something
// else in it was understood. A denial, "no tails", means every other state. What
// was said of one trait in several parts is one finding for each.
func (v *Vocabulary) Understand(text string) (seen []Seen, unclear []Unclear, err error) {
	if len(text) > MostSeen {
		return nil, nil, fmt.Errorf("that is more than %d letters; say it in fewer words, the most striking things first", MostSeen)
	}
	if !utf8.ValidString(text) || plain.HasControl(strings.NewReplacer("\n", " ", "\t", " ", "\r", " ").Replace(text)) {
		return nil, nil, fmt.Errorf("that holds signs that are no letters; type it in plain words")
	}
	for _, part := range parts.Split(text, -1) {
		found, open := v.understandPart(strings.TrimSpace(part))
		seen, unclear = append(seen, found...), append(unclear, open...)
	}
	return seen, unclear, nil
}

// phrase is words that stand for a state, as the vocabulary has them.
type phrase struct {
	tokens []string
	turns  []bool // behind which of them "and", "but" or "with" stands
	as     []bool // before which of them "as" stands
	trait  int
	state  int
	text   string
	label  bool // the state's label, which means something only as a whole
}

// span is where in a part a phrase was found.
type span struct {
	from, to int   // tokens; to is behind the last
	at       []int // the tokens of the phrase
	edits    int
	gap      int // words that are passed over
	turned   bool
	phrase   *phrase
}

func (v *Vocabulary) understandPart(part string) ([]Seen, []Unclear) {
	words := v.tokens(part)
	if len(words) == 0 {
		return nil, nil
	}
	var seen []Seen
	var unclear []Unclear
	taken := make([]*span, len(words))
	place := map[string]int{}
	for _, group := range bestSpans(v.spans(words)) {
		from, to := group[0].from, group[0].to
		if !group[0].free(taken) {
			continue
		}
		for i := from; i < to; i++ {
			if taken[i] == nil || slices.Contains(group[0].at, i) {
				taken[i] = &group[0]
			}
		}
		start, no := denial(words, taken, from)
		said := original(part, words, start, to)
		place[said] = start
		meanings := v.meanings(group, said, no)
		if len(meanings) == 1 && !group[0].ofAnother(words, taken) && !lostAfter(words, to) {
			meanings[0].Plain = plainly(words, from, to, meanings[0])
			seen = append(seen, meanings[0])
		} else {
			unclear = append(unclear, Unclear{said, meanings[:min(mostChoices, len(meanings))], true})
		}
	}
	slices.SortStableFunc(seen, func(a, b Seen) int { return cmp.Compare(place[a.Words], place[b.Words]) })
	if len(seen)+len(unclear) == 0 && !slices.ContainsFunc(words, func(t token) bool { return t.stem != deny }) {
		return nil, nil
	}
	if len(seen)+len(unclear) == 0 {
		unclear = append(unclear, Unclear{part, v.nearest(words), false})
	}
	return seen, unclear
}

// meanings are what the phrases of one span stand for, by trait. What the states
// of several traits are labelled with ("no jointed legs") is taken only where
// nobody gave them words.
func (v *Vocabulary) meanings(group []span, said string, denied bool) []Seen {
	if words := slices.DeleteFunc(slices.Clone(group), func(s span) bool { return s.phrase.label }); len(words) > 0 {
		group = words
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

// bestSpans are the spans by place, those that cover most words first; spans of
// the same words that fit equally well stand together.
func bestSpans(all []span) [][]span {
	slices.SortStableFunc(all, func(a, b span) int {
		return cmp.Or(
			cmp.Compare(len(b.phrase.tokens), len(a.phrase.tokens)),
			cmp.Compare(a.edits, b.edits), cmp.Compare(a.gap, b.gap), cmp.Compare(a.from, b.from))
	})
	var out [][]span
	for _, s := range all {
		if n := len(out) - 1; n >= 0 {
			same := out[n][0]
			if same.from == s.from && same.to == s.to && same.gap == s.gap && same.edits == s.edits && len(same.phrase.tokens) == len(s.phrase.tokens) {
				out[n] = append(out[n], s)
				continue
			}
		}
		out = append(out, []span{s})
	}
	return out
}

// free reports whether a span may be taken beside those taken before: it speaks of
// another trait and is more than words they passed over, as both "six legs" and
// "long legs" are said in "six long legs".
func (s *span) free(taken []*span) bool {
	shared, fresh := 0, 0
	for _, i := range s.at {
		switch before := taken[i]; {
		case before == nil:
			fresh++
		case !slices.Contains(before.at, i): // passed over there
		case before.phrase.trait == s.phrase.trait:
			return false
		case !slices.Contains(s.at, before.at[len(before.at)-1]) && !number(s.phrase.tokens[0]):
			return false // what follows it there, it tells of
		default:
			shared++
		}
	}
	return fresh > 0 || len(s.at) > 1 && shared == len(s.at)
}

// spans are all places in the words where a phrase of the vocabulary stands: in
// its order, with at most one other word between, behind a number two, or two words
// turned round.
func (v *Vocabulary) spans(words []token) []span {
	var out []span
	index := v.known()
	for i := range index {
		p := &index[i]
		for from := range words {
			if s, ok := p.spanAt(words, from); ok && (!p.label || s.from == 0 && s.to == len(words)) {
				out = append(out, s)
			}
		}
	}
	return out
}

func (p *phrase) spanAt(words []token, from int) (span, bool) {
	s := span{from: from, phrase: p}
	at, room := from, 1
	if number(p.tokens[0]) {
		room = 2
	}
	for i, want := range p.tokens {
		if i > 0 && words[at-1].turn && !p.turns[i-1] {
			return span{}, false
		}
		edits := differs(want, words, at)
		for edits < 0 && i > 0 && s.gap < room && !bare(words, at) {
			at, s.gap = at+1, s.gap+1
			edits = differs(want, words, at)
		}
		if edits < 0 || p.as[i] && len(p.tokens) == 2 && !words[at].as {
			return p.turned(words, from)
		}
		s.at = append(s.at, at)
		s.edits += edits
		at++
	}
	s.to = at
	return s, true
}

// turned is the phrase of two words said the other way round: "body flat".
func (p *phrase) turned(words []token, from int) (span, bool) {
	if len(p.tokens) != 2 || number(p.tokens[0]) || p.tokens[0] == deny {
		return span{}, false
	}
	first, second := differs(p.tokens[1], words, from), differs(p.tokens[0], words, from+1)
	if first < 0 || second < 0 || words[from].turn {
		return span{}, false
	}
	return span{from, from + 2, []int{from, from + 1}, first + second, 1, true, p}, true
}

// pair is the stem of a word that changes the number before it.
var pair = stem("pairs")

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
	room := 0
	switch n := max(len(got), len(want)); {
	case number(got) || number(want) || got[0] != want[0]:
		return -1
	case n >= 9:
		room = 2
	case n >= 6:
		room = 1
	}
	if d := plain.Distance(got, want); d <= room {
		return d
	}
	return -1
}

// ofAnother reports whether a single word, or the second of two turned round, most likely tells of a part that is not
// known here, as "flat" does in "flat horns", or of one that is, as in "flat tails".
func (s *span) ofAnother(words []token, taken []*span) bool {
	from, to := s.from, s.to
	if to-from != 1 && !s.turned || to == len(words) || words[to-1].acts && !s.turned || words[to-1].turn || words[to].stem == deny || number(words[to].stem) {
		return false
	}
	return taken[to] == nil || !s.turned && len(taken[to].phrase.tokens) > 1
}

// others is how many other words around a single one make it doubtful whether it
// speaks of the trait that it is known for: "hung from the surface", "a sliver of
// fish" (two blind readers had such words noted against what they saw).
const others = 2

// plainly reports whether what was understood of some words hardly means something
// else.
func plainly(words []token, from, to int, seen Seen) bool {
	if to-from > 1 {
		return true
	}
	if words[from].likened {
		return false
	}
	for _, id := range seen.States {
		if seen.Trait.States[seen.Trait.State(id)].Striking {
			return true
		}
	}
	return len(words) <= others
}

// lost are the stems of words for a part that has come off.
var lost = []string{stem("gone"), stem("missing"), stem("lost"), stem("snapped"), stem("broken"), stem("torn"), stem("rubbed")}

// lostAfter reports whether the words behind a place take back what stands there:
// "all three tails gone" says nothing of how many there were.
func lostAfter(words []token, to int) bool {
	for i := to; i < min(to+2, len(words)) && !words[i-1].turn; i++ {
		if slices.Contains(lost, words[i].stem) {
			return true
		}
	}
	return false
}

// denial is where a denial stands in front of a place, as in "no long tails", and
// whether one does; else the place itself.
func denial(words []token, taken []*span, from int) (int, bool) {
	for i := from - 1; i >= max(0, from-3) && !words[i].turn; i-- {
		if words[i].stem == deny && taken[i] == nil {
			return i, true
		}
	}
	return from, false
}

// nearest are the states whose words are most like what was said: those that
// share most of their words with it, then those that hold its letters in order.
func (v *Vocabulary) nearest(words []token) []Seen {
	index := v.known()
	type near struct {
		phrase *phrase
		share  float64
	}
	var all []near
	for i := range index {
		p := &index[i]
		shared := 0
		for _, stem := range p.tokens {
			if stem != deny && !number(stem) && slices.ContainsFunc(words, func(w token) bool { return w.stem == stem }) {
				shared++
			}
		}
		if shared > 0 {
			all = append(all, near{p, float64(shared) * float64(shared) / float64(len(p.tokens))})
		}
	}
	slices.SortStableFunc(all, func(a, b near) int { return cmp.Compare(b.share, a.share) })
	var out []Seen
	add := func(p *phrase) {
		trait := v.traits[p.trait]
		state := trait.States[p.state].ID
		had := func(s Seen) bool { return s.Trait == trait && s.States[0] == state }
		if len(out) < mostChoices && !slices.ContainsFunc(out, had) {
			out = append(out, Seen{Words: p.text, Trait: trait, States: []string{state}})
		}
	}
	for _, n := range all {
		add(n.phrase)
	}
	for _, w := range words {
		if len(w.stem) >= 4 {
			for _, m := range fuzzy.FindFrom(w.stem, phrases(index)) {
				if at := m.MatchedIndexes; at[len(at)-1]-at[0] < len(w.stem)+2 {
					add(&index[m.Index])
				}
			}
		}
	}
	return out
}

type phrases []phrase

func (p phrases) Len() int            { return len(p) }
func (p phrases) String(i int) string { return p[i].text }

// phrases are all that the vocabulary's states are called.
func (v *Vocabulary) phrases() []phrase {
	var out []phrase
	for t, trait := range v.traits {
		for s, state := range trait.States {
			for i, text := range append(slices.Clone(state.Words), state.Label) {
				p := phrase{trait: t, state: s, text: text, label: i == len(state.Words)}
				for _, word := range v.tokens(text) {
					p.tokens, p.turns, p.as = append(p.tokens, word.stem), append(p.turns, word.turn), append(p.as, word.as)
				}
				if len(p.tokens) > 0 {
					out = append(out, p)
				}
			}
		}
	}
	return out
}

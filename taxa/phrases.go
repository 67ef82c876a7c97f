package taxa

import (
	"slices"
	"sync"
)

// phrase is words that stand for a state, as the vocabulary has them.
type phrase struct {
	tokens    []string
	turns     []bool // behind which of them "and", "but" or "with" stands
	afterAs   []bool // before which of them "as" stands
	only      []bool // before which of them "only" stands: "only the front legs are short" is of the others
	likenings []bool // which of them begin what something is like
	ed        []bool // which of them end in -ed
	plural    []bool // which of them end in -s
	placed    []bool // before which of them a word stands that says where: "hooks at the tail"
	trait     int
	whole     int // the trait on which that one hangs, -1 for none: both may be told by the same words
	state     int
	text      string
	label     bool // the state's label, which means something only as a whole
	hint      bool // it goes with the state and does not say it
	likens    bool // it is what the whole animal is said to be like
	twofold   bool // all that it stands for is so
	shades    bool // it holds of what is nearly so too: nearly black is dark
}

// sheer are the stems of words for what lets light through, of which nearly is not the same.
var sheer = lazyStems("see through transparent clear glassy")

type phrases []phrase

func (p phrases) Len() int            { return len(p) }
func (p phrases) String(i int) string { return p[i].text }

// phrasebook is all that states are called, read trait by trait before anything that a
// person says is understood.
type phrasebook struct {
	lock    sync.Mutex
	all     []phrase
	read    int               // how many traits were read
	parts   []map[string]bool // by trait, the stems of parts that its states are called by
	stems   map[string]string // of words met before: most come many times
	likened map[int][]phrase  // by trait, what is told by likenesses; until all is read
	words   map[string]bool   // stems of all words that are known; nil until they are asked for
	weights *weights          // how much words tell; nil until they are asked for
}

// Prepare reads what the states of the next few traits are called, which
// [Vocabulary.Understand] otherwise does when it is first called, and reports whether
// there are more.
func (v *Vocabulary) Prepare() (more bool) {
	const each = 150 // phrases
	b := &v.called
	b.lock.Lock()
	defer b.lock.Unlock()
	for had := len(b.all); b.read < len(v.traits) && len(b.all) < had+each; {
		readPhrases(v, b)
	}
	return b.read < len(v.traits)
}

// known are all that states are called.
func (v *Vocabulary) known() []phrase {
	b := &v.called
	b.lock.Lock()
	defer b.lock.Unlock()
	for b.read < len(v.traits) {
		readPhrases(v, b)
	}
	return b.all
}

// readPhrases reads those of the next trait.
func readPhrases(v *Vocabulary, b *phrasebook) {
	if b.read == 0 {
		b.begin(v)
	}
	whole := -1
	if on := v.traits[b.read].OnlyIf; on != nil {
		whole = v.index[on.Trait]
	}
	for s, state := range v.traits[b.read].States {
		label := len(state.Words) + len(state.Hints)
		for i, text := range slices.Concat(state.Words, state.Hints, []string{state.Label}) {
			if p := b.phrase(v, text); len(p.tokens) > 0 {
				p.trait, p.whole, p.state, p.label, p.hint = b.read, whole, s, i == label, i >= len(state.Words) && i < label
				if v.traits[b.read].Likeness && !p.label {
					p.likens, p.likenings[0] = true, true
				}
				p.shades = v.traits[b.read].ID == "colour" &&
					!slices.ContainsFunc(p.tokens, func(t string) bool { return sheer()[t] })
				b.all = append(b.all, p)
			}
		}
	}
	b.all = append(b.all, b.likened[b.read]...)
	b.parts = append(b.parts, map[string]bool{})
	for i := len(b.all) - 1; i >= 0 && b.all[i].trait == b.read; i-- {
		for _, s := range b.all[i].tokens {
			if bodyParts()[s] {
				b.parts[b.read][s] = true
			}
		}
	}
	if b.read++; b.read == len(v.traits) {
		b.stems, b.likened = nil, nil
	}
}

// begin makes room for all that is read, and reads what is told by likenesses.
func (b *phrasebook) begin(v *Vocabulary) {
	b.stems, b.likened = map[string]string{}, map[int][]phrase{}
	n := 0
	for i := range v.similes {
		for _, p := range v.similes[i].phrases(v, b) {
			b.likened[p.trait] = append(b.likened[p.trait], p)
			n++
		}
	}
	for i := range v.traits {
		for _, state := range v.traits[i].States {
			n += len(state.Words) + len(state.Hints) + 1
		}
	}
	b.all = make([]phrase, 0, n)
}

func (b *phrasebook) phrase(v *Vocabulary, text string) phrase {
	words := v.tokens(text, b.stem)
	n := len(words)
	p := phrase{text: text, tokens: make([]string, n)}
	flags := make([]bool, 7*n)
	for i, of := range []*[]bool{&p.turns, &p.afterAs, &p.only, &p.likenings, &p.ed, &p.plural, &p.placed} {
		*of = flags[i*n : (i+1)*n : (i+1)*n]
	}
	for i, word := range words {
		p.ed[i], p.plural[i], p.only[i] = word.ed, word.plural, word.only
		p.tokens[i], p.turns[i], p.afterAs[i] = word.stem, word.turn, word.afterAs
		p.likenings[i] = word.likened && (i == 0 || !words[i-1].likened)
		p.placed[i] = i > 0 && placed().MatchString(text[words[i-1].end:word.start])
	}
	return p
}

func (b *phrasebook) stem(word string) string {
	known, ok := b.stems[word]
	if !ok {
		known = stem(word)
		b.stems[word] = known
	}
	return known
}

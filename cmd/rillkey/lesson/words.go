package lesson

import (
	"cmp"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/question"
	"rillkey/key/practice"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// mostWays is how many ways of saying a state are used in turn.
const mostWays = 4

// saying is how people say what the animal shows of a trait: never in the words of the
// key, where others are known, so that the key's have to be read.
func (l *Lesson) saying(t *taxa.Trait, state string) string {
	i := t.State(state)
	if i < 0 {
		return ""
	}
	var own, silent []string
	for _, w := range t.States[i].Words {
		shared := slices.ContainsFunc(t.States, func(s taxa.State) bool { return s.ID != state && slices.Contains(s.Words, w) })
		if !shared {
			own = append(own, w)
		}
		if !shared && !l.givesAway(w) {
			silent = append(silent, w)
		}
	}
	switch {
	case len(silent) > 0:
		own = silent
	case len(own) == 0:
		return plain.OneLine(t.States[i].Label)
	}
	return plain.OneLine(own[l.chosen[t.ID]%min(len(own), mostWays)])
}

// givesAway reports whether words hold one of those by which the animal, or what it
// belongs to, is called, or are another of its names: they might say what it is, not what
// is to be seen of it.
func (l *Lesson) givesAway(words string) bool {
	if l.names == nil {
		l.names = map[string]bool{}
		for _, t := range append(l.catalog.Ancestors(l.kind.ID), l.kind) {
			for _, name := range append([]string{t.Scientific}, t.Common...) {
				for _, w := range taxa.NameWords(name) {
					l.names[w] = !slices.Contains(linking, w)
				}
			}
			others := slices.Clone(t.Also)
			for _, r := range l.catalog.Regions() {
				others = append(others, r.Names(t.ID)...)
			}
			for _, name := range others {
				l.names[strings.Join(taxa.NameWords(name), " ")] = true
			}
		}
	}
	said := taxa.NameWords(words)
	return l.names[strings.Join(said, " ")] || slices.ContainsFunc(said, func(w string) bool { return l.names[w] })
}

// linking are words in names that say nothing of an animal.
var linking = []string{"in", "on", "or", "and", "not", "with", "it", "its", "that", "out", "by", "from", "no"}

// glance is what anybody sees of the animal at once, in words.
func (l *Lesson) glance() string {
	parts := says(l, func(t *taxa.Trait) bool { return t.Glance })
	if len(parts) == 0 { // a vocabulary that does not say what is seen at once
		parts = says(l, func(t *taxa.Trait) bool { return t.Look == taxa.Eye })
	}
	return plain.Capital(strings.Join(parts, "; ")) + "."
}

// says are the words of some traits of the animal, each once.
func says(l *Lesson, of func(*taxa.Trait) bool) (parts []string) {
	for _, t := range l.catalog.Vocabulary().Asked() {
		if state, ok := l.animal.Shows[t.ID]; ok && of(t) {
			if words := l.saying(t, state); !slices.Contains(parts, words) {
				parts = append(parts, words)
			}
		}
	}
	return parts
}

// mostCloser is how much of a closer look is told at once.
const mostCloser = 8

// onCloserLook are the traits that a closer look, a touch or waiting shows of the
// animal: those of the question that is asked, or at first those in which it is unlike
// most kinds, what parts it from those it is taken for before the rest.
func onCloserLook(l *Lesson) []*taxa.Trait {
	if l.stage == walking {
		return l.talk.Traits()
	}
	var out []*taxa.Trait
	for _, t := range l.catalog.Vocabulary().Asked() {
		state, ok := l.animal.Shows[t.ID]
		seen := t.Glance && l.Source != practice.DrawingSource || l.told[t.ID]
		if !ok || seen || absent(state) || l.givesAway(l.saying(t, state)) ||
			l.Course.Usually(t.ID, state) || l.Source == practice.DrawingSource && l.answers(t) {
			continue
		}
		out = append(out, t)
	}
	parts := map[*taxa.Trait]int{}
	for _, t := range out {
		for _, other := range l.Course.LookAlikes(l.kind.ID) {
			if !shownByMany(other, t.ID, l.animal.Shows[t.ID]) {
				parts[t]++
			}
		}
	}
	sorting.Stable(out, func(a, b *taxa.Trait) int {
		return cmp.Or(patient(b)-patient(a), parts[b]-parts[a])
	})
	return out[:min(len(out), mostCloser)]
}

// absent reports whether a state says that a part is not there: of parts that an animal
// has not, nobody is told one by one.
func absent(state string) bool { return state == "none" || state == "no" || state == "0" }

// patient puts what waiting shows first: it is what no picture shows.
func patient(t *taxa.Trait) int {
	if t.Look == taxa.Patience {
		return 1
	}
	return 0
}

// look turns to the closer look, and notes what it tells in words.
func (l *Lesson) look() {
	if l.Source == practice.TraySource {
		l.said = wording.Text("The animal is in the cup: look at it through the lens, turn it with a soft brush, or wait until it moves.")
		return
	}
	l.looking = true
	l.close = onCloserLook(l)
	for _, t := range l.close {
		if l.Source != practice.DrawingSource || !l.answers(t) {
			l.told[t.ID] = true
		}
	}
}

// tellColour tells the colour of a drawn animal, which everybody sees at once and no
// drawing has.
func (l *Lesson) tellColour() {
	if _, ok := l.animal.Shows["colour"]; ok && l.Source == practice.DrawingSource && l.photo == nil {
		l.told["colour"] = true
	}
}

// toldOf is what was told of a trait in words; empty where nothing was.
func (l *Lesson) toldOf(trait string) string {
	t, state := l.catalog.Vocabulary().Trait(trait), l.animal.Shows[trait]
	if t == nil || state == "" || !l.told[trait] {
		return ""
	}
	if i := t.State(state); trait == "colour" && i >= 0 && !l.givesAway(t.States[i].Label) {
		return plain.OneLine(t.States[i].Label) // one shade of a colour that varies would look like a mark of the kind
	}
	return l.saying(t, state)
}

// closerTexts are what the closer look tells.
func (l *Lesson) closerTexts() (out []question.Paragraph) {
	for _, t := range l.close {
		state, known := l.animal.Shows[t.ID]
		how := map[taxa.Look]string{taxa.Eye: wording.Text("You look again"), taxa.Lens: wording.Text("Through the lens"),
			taxa.Patience: wording.Text("You wait until it moves")}[t.Look]
		switch {
		case !l.told[t.ID]:
			out = append(out, question.Paragraph{Words: wording.Sprintf("%s: see the drawing, where a pointer is at it. %s", how,
				plain.OneLine(t.Question))})
		case !known:
			out = append(out, question.Paragraph{Words: wording.Sprintf("%s: nobody could tell. (%s)", how, plain.OneLine(t.Question))})
		case l.stage == meeting && l.givesAway(t.Question): // asked so it would be answered
			out = append(out, question.Paragraph{Words: how + ": " + l.saying(t, state) + "."})
		default:
			out = append(out, question.Paragraph{Words: how + ": " + l.saying(t, state) + ". (" + plain.OneLine(t.Question) + ")"})
		}
	}
	if len(out) == 0 {
		out = append(out, question.Paragraph{Words: wording.Text("There is nothing more to be seen than you see.")})
	}
	return out
}

// setOff are the traits of a closer look that the drawing points at.
func (l *Lesson) setOff() (out []string) {
	for _, t := range l.close {
		if !l.told[t.ID] {
			out = append(out, t.ID)
		}
	}
	return out
}

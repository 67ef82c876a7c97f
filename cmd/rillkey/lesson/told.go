package lesson

import (
	"slices"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/key/practice"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// tell goes on to what there is to learn from the animal, or, where it was named rightly
// and nothing was misread, to the next.
func (l *Lesson) tell() {
	wrong := l.misread
	l.misread = nil
	if l.meeting.Right() && len(wrong) == 0 && !l.meeting.Alike && l.meeting.Group == "" {
		sayYes(l)
		return
	}
	l.stage = telling
	l.lesson = Prompt{Title: verdict(l), Go: wording.Text("next animal"),
		Keys: []Command{{leave, wording.Text("leave"), wording.Text("end the sitting; all so far is saved.")}}}
	tellMisread(l, wrong)
	tellApart(l)
	if len(l.lesson.Before) == 0 {
		tellMarks(l)
	}
	tellState(l)
	if l.Photos && l.kind.Photo != nil {
		l.lesson.Plates = append(l.lesson.Plates, Picture{Photo: l.kind.Photo, Caption: plain.Capital(plain.OneLine(l.kind.Name()))})
	}
}

// verdict is what the animal was, kindly.
func verdict(l *Lesson) string {
	name := plain.OneLine(show.BothNames(l.kind))
	switch called := called(l); {
	case l.meeting.Alike:
		return wording.Sprintf("By the drawing it could be either; it is %s", name)
	case called != nil && l.meeting.Right() && l.meeting.Group != "":
		return wording.Sprintf("Right as far as it goes: %s is closer than %s", name, plain.OneLine(called.Name()))
	case l.meeting.Right():
		return wording.Sprintf("Yes, %s, though one answer was misread", name)
	case called != nil && akin(l, called):
		return wording.Sprintf("Nearly: it is %s, not %s", name, plain.OneLine(called.Name()))
	case called != nil:
		return wording.Sprintf("This one is %s, not %s", name, plain.OneLine(called.Name()))
	case len(l.meeting.Named) > 1:
		return wording.Sprintf("It is %s", name)
	}
	return wording.Sprintf("No name this time: it is %s", name)
}

// akin reports whether what it was taken for is of its order, or of a smaller group, or
// often taken for its kind: of any other "nearly" would be no kindness.
func akin(l *Lesson, called *taxa.Taxon) bool {
	for _, above := range l.catalog.Ancestors(l.kind.ID) {
		if slices.Index(taxa.Ranks, above.Rank) >= slices.Index(taxa.Ranks, "order") && l.catalog.IsUnder(called.ID, above.ID) {
			return true
		}
	}
	return catalogTells(l, called) != ""
}

// called is the taxon that it was taken for, or nil.
func called(l *Lesson) *taxa.Taxon {
	switch {
	case l.meeting.Walked && len(l.meeting.Named) > 0:
		return l.catalog.Taxon(l.meeting.Named[0])
	case l.meeting.Walked:
		return nil
	}
	return l.catalog.Taxon(l.meeting.Sight)
}

// add adds a paragraph to what is told.
func (l *Lesson) add(advice bool, format string, args ...any) {
	l.lesson.Before = append(l.lesson.Before, question.Paragraph{Advice: advice, Words: plain.OneLine(wording.Sprintf(format, args...))})
}

// tellMisread shows the first misread answer beside what it should have looked like:
// what came after it was asked off the animal's way.
func tellMisread(l *Lesson, wrong []practice.Reading) {
	if len(wrong) == 0 {
		return
	}
	r := wrong[0]
	t := l.catalog.Vocabulary().Trait(r.Trait)
	read, is := labels(t, r.Given), labels(t, []string{r.Is})
	seen := l.Source != practice.DrawingSource || l.photo != nil || l.drawn(r.Trait, r.Fit)
	switch {
	case l.told[r.Trait]:
		l.add(false, "%s You answered: %s. You were told: %s, which is %s.", t.Question, read, l.saying(t, r.Is), is)
	case !seen:
		l.add(false, "%s You answered: %s. It is: %s. The drawing does not show that; a closer look tells it.", t.Question, read, is)
	default:
		l.add(false, "%s You read: %s. It shows: %s.", t.Question, read, is)
	}
	if t.How != "" {
		l.add(true, "How to see it: %s", t.How)
	}
	atlas := l.atlas()
	if atlas == nil || l.Source == practice.WordsSource || !seen || l.told[r.Trait] {
		return
	}
	figures := atlas.States(t)
	own := figures[t.State(r.Is)]
	if l.Source == practice.DrawingSource && l.photo == nil {
		own = atlas.Specimen(l.kind, l.animal.Shows, []string{t.ID}).Posed(l.pose)
	}
	plates(l,
		Picture{Figure: figures[t.State(r.Given[0])], Caption: wording.Sprintf("You read: %s", plain.OneLine(labels(t, r.Given[:1])))},
		Picture{Figure: own, Caption: wording.Sprintf("It shows: %s", plain.OneLine(is))})
}

func labels(t *taxa.Trait, states []string) string {
	var out []string
	for _, s := range states {
		if i := t.State(s); i >= 0 {
			out = append(out, t.States[i].Label)
		}
	}
	return strings.Join(out, wording.Text(", or "))
}

// tellApart says what tells the kind from the one it was taken for.
func tellApart(l *Lesson) {
	if other := called(l); other != nil && other.ID != l.kind.ID && (l.meeting.Alike || l.meeting.Group != "" || !l.meeting.Right()) {
		tellFrom(l, other, wording.Text("what you named"))
	}
}

// tellFrom says the one feature that tells the kind from another, which is called as
// beside it, and shows this animal beside one of that kind.
func tellFrom(l *Lesson, other *taxa.Taxon, beside string) {
	own, others := plain.Capital(plain.OneLine(l.kind.Name())), plain.Capital(plain.OneLine(other.Name()))
	var marks []string
	best := contrast(l, other)
	if best != nil {
		l.add(false, "The one thing to look at: %s", best.Trait.Question)
		l.add(false, "This animal, %s: %s. %s, %s: %s.", l.kind.Name(), shown(best.Trait, best.A), plain.Capital(beside), other.Name(),
			shown(best.Trait, best.B))
		if words := l.toldOf(best.Trait.ID); l.animal.Lacking(best.Trait.ID) {
			l.add(true, "This one cannot show that.")
		} else if fromDrawing(l) && best.Trait.ID == "colour" && words != "" {
			l.add(false, "Its colour: %s.", words)
		} else if couldBe(l, other) {
			l.add(true, "The drawing does not show that: by what is drawn this one could be either. A closer look tells it.")
		} else if fromDrawing(l) && !drawnUnlike(l, best) && !drawnOtherwise(l, best, other) {
			l.add(true, "The drawing does not show that; a closer look tells it.")
		} else {
			marks = []string{best.Trait.ID}
			own += ": " + seenOf(l, best)
			others += ": " + shown(best.Trait, best.B)
		}
	}
	if tell := catalogTells(l, other); tell != "" && speaksOfLost(l, tell) {
		l.add(false, "To tell the two kinds apart, in grown animals that are whole: %s", tell)
	} else if tell != "" {
		l.add(false, "To tell the two kinds apart: %s", tell)
	}
	if l.meeting.Alike {
		l.add(true, "So what you named does not count as wrong.")
	}
	if words := sizes(l.kind, other); words != "" {
		l.add(false, "%s", words)
	} else if !longEnough(l, other) {
		l.add(false, "This one is %s long. Grown length of %s: %s.", show.LengthWords(l.length), other.Name(),
			show.LengthRange(other.Length))
	}
	besideEachOther(l, other, marks, own, others)
}

// besideEachOther shows this animal beside one of another kind, some of their traits set
// off.
func besideEachOther(l *Lesson, other *taxa.Taxon, marks []string, own, others string) {
	atlas := l.atlas()
	if atlas == nil || l.Source == practice.WordsSource {
		return
	}
	met := unmeasured(atlas.Marked(l.kind, marks))
	if fromDrawing(l) {
		met = atlas.Specimen(l.kind, l.animal.Shows, marks).Posed(l.pose)
	}
	plates(l, Picture{Figure: met, Caption: plain.OneLine(own)},
		Picture{Figure: unmeasured(atlas.Marked(other, marks)), Caption: plain.OneLine(others)})
}

// unmeasured is a figure without the bar of its kind's length, which the animal beside
// it has not.
func unmeasured(f figure.Figure) figure.Figure {
	f.Length = taxa.Range{}
	return f
}

// fromDrawing reports whether the animal was met as a drawing made of its traits.
func fromDrawing(l *Lesson) bool { return l.Source == practice.DrawingSource && l.photo == nil }

// seenOf is what the animal shows of a contrast, or where that is not known what its kind
// does.
func seenOf(l *Lesson, c *key.Contrast) string {
	if state := l.animal.Shows[c.Trait.ID]; fromDrawing(l) && state != "" {
		return labels(c.Trait, []string{state})
	}
	return shown(c.Trait, c.A)
}

// tellMarks says what to know the kind by, what this one shows of it first, where nothing
// was misread or confused and it
// had no name all the same.
func tellMarks(l *Lesson) {
	card := l.catalog.Card(l.kind.ID)
	if card == nil || len(card.Marks) == 0 {
		if l.kind.Habit != "" {
			l.add(false, "How it lives: %s.", l.kind.Habit)
		}
		return
	}
	var traits []string
	unlike := func(m taxa.FieldMark) bool { return unlikeItsKind(l, m.Trait) }
	for _, m := range card.Marks {
		if !unlike(m) {
			l.add(false, "Know it by: %s", m.Words)
			traits = append(traits, m.Trait)
		}
	}
	for _, m := range card.Marks { // after what this one shows
		if unlike(m) {
			l.add(false, "Most of its kind: %s (%s)", m.Words, onThisOne(l, m.Trait))
		}
	}
	if atlas := l.atlas(); atlas != nil && l.Source != practice.WordsSource {
		l.lesson.Picture = Picture{Figure: unmeasured(atlas.Marked(l.kind, traits))}
	}
}

// onThisOne says what the animal shows of a trait, unlike most of its kind.
func onThisOne(l *Lesson, trait string) string {
	t, state := l.catalog.Vocabulary().Trait(trait), l.animal.Shows[trait]
	if l.animal.Lacking(trait) && (state == "" || absent(state)) {
		return wording.Text("not on this one: lost, or it is too young")
	}
	return wording.Sprintf("on this one: %s", labels(t, []string{state}))
}

// unlikeItsKind reports whether the animal does not show of a trait what most of its kind
// do: it lost that, does not have it yet, or is of the others.
func unlikeItsKind(l *Lesson, trait string) bool {
	state := l.animal.Shows[trait]
	return l.animal.Lacking(trait) || fromDrawing(l) && state != "" && state != l.Course.Typical(l.kind.ID).Shows[trait]
}

// often is the share of a kind's animals from which on a state is told of the kind: below
// it lies also what beginners take for it, as a damselfly's plates for tails.
const often = 0.2

// shown are the states that many animals of a kind show; where no state is that of many,
// those that are nearly as common as the commonest.
func shown(t *taxa.Trait, weights []taxa.Weight) string {
	var states []string
	most := 0.0
	for _, w := range weights {
		most = max(most, w.Share)
	}
	for _, w := range weights {
		if w.Share >= min(often, most/2) {
			states = append(states, w.State)
		}
	}
	return labels(t, states)
}

// catalogTells is what the catalog says of how to tell the two, or groups that hold them.
func catalogTells(l *Lesson, other *taxa.Taxon) string {
	for _, pair := range [][2]*taxa.Taxon{{l.kind, other}, {other, l.kind}} {
		for _, t := range append([]*taxa.Taxon{pair[0]}, l.catalog.Ancestors(pair[0].ID)...) {
			for _, m := range t.Mistaken {
				if l.catalog.IsUnder(pair[1].ID, m.Taxon) {
					return m.Tell
				}
			}
		}
	}
	return ""
}

// tellState says what was odd about this one animal.
func tellState(l *Lesson) {
	if words := l.odd(); words != "" {
		l.add(true, "%s", words)
	}
	if l.Source == practice.WordsSource && l.meeting.Sight != "" && !l.meeting.Right() {
		l.add(false, "You saw: %s", l.glance())
	}
}

// odd is what was odd about this one animal and could be seen of it; empty for nothing.
func (l *Lesson) odd() string {
	lost := lostPart(&l.animal)
	switch {
	case l.animal.Hurt && lost != "" && lossSeen(l):
		return wording.Sprintf("This one had lost %s in the net: what is broken off cannot be counted on.", lost)
	case l.animal.Young && lacked(&l.animal) != "":
		return wording.Sprintf("This one was young and did not have these yet: %s.", lacked(&l.animal))
	case l.animal.Young:
		return wording.Text("This one was young, so it was small for its kind.")
	case l.cup.Note != "" && l.Source == practice.TraySource:
		return wording.Sprintf("On this one: %s.", l.cup.Note)
	}
	return ""
}

// lostPart is the part that an animal lost; empty where none has a word.
func lostPart(s *practice.Specimen) string {
	switch end := s.Whole["hind"]; {
	case s.Lost != "hind" && s.Lost != "oars" || end == "plates":
		return lostParts()[s.Lost]
	case end == "lobes":
		return wording.Text("the lobes at its hind end")
	}
	return wording.Text("what it carries at its hind end")
}

// lostParts are the parts that animals lose, by the trait that they are known by.
func lostParts() map[string]string {
	return map[string]string{"tails": wording.Text("its tails"), "gills": wording.Text("its gills"), "gill-form": wording.Text("its gills"),
		"oars":      wording.Text("the plates at its hind end"),
		"antennae":  wording.Text("its feelers"),
		"hind":      wording.Text("the plates at its hind end"),
		"side-arms": wording.Text("the arms at its sides"), "case": wording.Text("its case"),
		"hooks": wording.Text("its end hooks")}
}

// speaksOfLost reports whether words of the catalog speak of a part that the animal has
// lost, or does not have yet.
func speaksOfLost(l *Lesson, words string) bool {
	parts := map[string]string{"tails": "tail", "gills": "gill", "gill-form": "gill", "oars": "plate", "hind": "plate",
		"antennae": "feeler", "side-arms": "arm", "case": "case", "hooks": "hook", "pattern": "pattern"}
	lacks := slices.Clone(l.animal.Lacks)
	if l.animal.Hurt {
		lacks = append(lacks, l.animal.Lost)
	}
	return slices.ContainsFunc(lacks, func(trait string) bool {
		return parts[trait] != "" && strings.Contains(strings.ToLower(words), parts[trait])
	})
}

// lossSeen reports whether the animal looks otherwise than it did whole.
func lossSeen(l *Lesson) bool {
	atlas := l.atlas()
	return l.Source != practice.DrawingSource || atlas == nil ||
		atlas.Likeness(l.kind, l.animal.Whole) != atlas.Likeness(l.kind, l.animal.Shows)
}

// plates puts two drawings side by side, if both can be drawn.
func plates(l *Lesson, a, b Picture) {
	if len(l.lesson.Plates) == 0 && !a.Figure.Empty() && !b.Figure.Empty() {
		l.lesson.Plates = []Picture{a, b}
	}
}

// Drawings are all drawings of a page: the animal, then the plates.
func (p *Prompt) Drawings() (out []Picture) {
	if !p.Picture.empty() {
		out = append(out, Picture{p.Picture.Figure, p.Picture.Photo, wording.Text("The animal")})
	}
	for _, one := range p.Plates {
		if !one.empty() {
			out = append(out, one)
		}
	}
	return out
}

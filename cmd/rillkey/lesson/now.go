package lesson

import (
	"slices"
	"time"

	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/show"
	"rillkey/key"
	"rillkey/key/practice"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Now is the page as it stands.
func (l *Lesson) Now() Prompt {
	if l.ended {
		return Prompt{}
	}
	p := pageOf(l)
	p.Where = where(l)
	if l.said != "" {
		p.Said = l.said
	}
	if l.unsaved != nil {
		why := plain.OneLine(wording.Reason(l.unsaved).Error())
		p.Said = wording.Sprintf("NOT saved: %s. It is tried again with the next animal. %s", why, p.Said)
	}
	return p
}

func pageOf(l *Lesson) Prompt {
	switch {
	case l.helping:
		return helpPage(l)
	case l.looking:
		return Prompt{Title: wording.Text("A closer look"), Before: l.closerTexts(), Picture: picture(l, l.setOff()),
			Go: wording.Text("back to the question")}
	case l.stage == meeting:
		return meetingPage(l)
	case l.stage == walking:
		return walkingPage(l)
	case l.stage == telling || l.stage == announcing:
		return l.lesson
	}
	return restPage(l)
}

// where says how far the sitting is.
func where(l *Lesson) string {
	n := l.met + 1
	if l.stage == telling || l.stage == resting {
		n = max(1, l.met)
	}
	switch {
	case l.stage == announcing:
		return wording.Text("A test begins")
	case l.Test != "":
		return wording.Sprintf("Test %d %s, animal %d of %d", l.Record.Number(l.test), show.TestKindWords(l.Test), min(n, l.Animals),
			l.Animals)
	case l.Animals > 0:
		return wording.Sprintf("Animal %d of %d", min(n, l.Animals), l.Animals)
	}
	minutes := int(l.Clock().Sub(l.began).Minutes())
	return wording.Sprintf("Animal %d, minute %d of %d", n, min(minutes+1, int(l.Length.Minutes())), int(l.Length.Minutes()))
}

// picture is the drawing of the animal, where there is one to show.
func picture(l *Lesson, setOff []string) Picture {
	if l.photo != nil {
		return Picture{Photo: l.photo}
	}
	atlas := l.atlas()
	if l.Source != practice.DrawingSource || atlas == nil {
		return Picture{}
	}
	return Picture{Figure: atlas.Specimen(l.kind, l.animal.Shows, setOff).Posed(l.pose)}
}

// seenTexts are the words beside the animal.
func seenTexts(l *Lesson) (out []question.Paragraph) {
	switch l.Source {
	case practice.TraySource:
		return append(out, question.Paragraph{Words: wording.Sprintf("Take cup %d and look at the animal in it.", l.cup.Number)},
			question.Paragraph{Advice: true, Words: wording.Text(
				"Some animals pinch or bite: use a soft brush or a spoon, not your fingers, and keep it in water.")})
	case practice.WordsSource:
		out = append(out, question.Paragraph{Words: wording.Sprintf("You see: %s", l.glance())})
	case practice.DrawingSource:
		if words := l.toldOf("colour"); words != "" {
			out = append(out, question.Paragraph{Words: wording.Sprintf("Its colour: %s.", words)})
		}
	}
	if l.length > 0 {
		out = append(out, question.Paragraph{
			Words: wording.Sprintf("It is %s long, without tails and feelers.", show.LengthWords(l.length))})
	}
	return out
}

func meetingPage(l *Lesson) Prompt {
	p := Prompt{Title: wording.Text("What is it?"), Before: seenTexts(l), Picture: picture(l, nil), Named: true}
	if l.Source == practice.TraySource {
		p.Title = wording.Sprintf("Cup %d: what is it?", l.cup.Number)
	}
	if l.Test == practice.OnSight {
		p.After = []question.Paragraph{
			{Words: wording.Text("Say its name if you know it on sight. Nothing is told of whether it is right.")}}
		p.Keys = append(l.choiceKeys(), Command{
			key.Unsure, wording.Text("leave it unnamed"), wording.Text("you do not know it on sight; the next animal comes.")})
		return withKeys(l, p)
	}
	p.After = []question.Paragraph{
		{Words: wording.Text("Say its name if you know it on sight, or walk with the key. Not knowing is a good answer too.")}}
	p.Keys = append(l.choiceKeys(), Command{
		byKey, wording.Text("walk with the key"), wording.Text("answer the key's questions about it, one by one.")})
	return withKeys(l, p)
}

// withKeys adds the keys that an animal always has.
func withKeys(l *Lesson, p Prompt) Prompt {
	if l.Source != practice.TraySource {
		p.Keys = append(p.Keys, Command{closer, wording.Text("look closer"), wording.Text("what a lens, a touch or waiting shows.")})
	}
	p.Keys = append(p.Keys, Command{help, wording.Text("help"), wording.Text("how to look, and what you can answer.")},
		Command{leave, wording.Text("leave"), wording.Text("end the sitting. This animal does not count; the others are saved.")})
	return p
}

func walkingPage(l *Lesson) Prompt {
	asked := l.talk.Now()
	p := Prompt{Title: asked.Title, Picture: picture(l, l.setOff())}
	if l.Source == practice.WordsSource {
		p.Before = append(p.Before, seenTexts(l)...)
	}
	p.Before = append(p.Before, asked.Before...)
	for _, o := range asked.Options {
		p.Options = append(p.Options, LetteredAnswer{o.Answer, o.Words})
	}
	if words := undrawn(l); words != "" {
		p.After = append(p.After, question.Paragraph{Advice: true, Words: words})
	}
	for _, t := range l.talk.Traits() {
		if words := l.toldOf(t.ID); l.Source == practice.DrawingSource && words != "" {
			p.After = append(p.After, question.Paragraph{Words: wording.Sprintf("You were told: %s.", words)})
		}
	}
	if l.length > 0 && l.talk.Inquiry().Questions() == 0 && l.Test == "" {
		p.After = append(p.After, question.Paragraph{
			Words: wording.Sprintf("The key knows already that it is %s long.", show.LengthWords(l.length))})
	}
	for _, t := range asked.After {
		if t.Advice || l.Test == "" { // what is still possible would teach
			p.After = append(p.After, t)
		}
	}
	for _, k := range asked.Also {
		switch {
		case l.Test != "" && k.Answer == again:
		case l.Test != "" && k.Answer == stop:
			p.Keys = append(p.Keys, Command{
				stop, wording.Text("end here"), wording.Text("end the questions; a name that is not close enough is told first.")})
		default:
			p.Keys = append(p.Keys, Command{k.Answer, k.Short, k.Long})
		}
	}
	return withKeys(l, p)
}

// undrawn says what the drawing does not show of what is asked.
func undrawn(l *Lesson) string {
	if l.Source == practice.TraySource {
		return ""
	}
	if l.photo != nil {
		return wording.Sprintf("What the photograph does not show, a closer look tells: %s.", l.press(closer, wording.Text("look closer")))
	}
	for _, t := range l.talk.Traits() {
		if !l.told[t.ID] && (l.Source == practice.WordsSource && !seenAtOnce(l, t) || l.Source == practice.DrawingSource && !l.answers(t)) {
			if l.Source == practice.WordsSource {
				return wording.Sprintf("You have not looked at all of that yet: %s.", l.press(closer, wording.Text("look closer")))
			}
			return wording.Sprintf("The drawing does not show all of that: %s.", l.press(closer, wording.Text("look closer")))
		}
	}
	return ""
}

func seenAtOnce(l *Lesson, t *taxa.Trait) bool { return t.Glance && l.animal.Shows[t.ID] != "" }

func helpPage(l *Lesson) Prompt {
	p := Prompt{Title: wording.Text("How to look"), Go: wording.Text("back")}
	if l.stage == walking {
		for _, t := range l.talk.Traits() {
			p.Before = append(p.Before, question.Paragraph{Words: plain.OneLine(t.Question + " " + t.How)})
		}
	}
	p.Before = append(p.Before, question.Paragraph{Words: helpWords(l)})
	for _, k := range keysHere(l) {
		sign := k.Sign
		if l.Buttons {
			sign = plain.Capital(k.Short)
		}
		p.Before = append(p.Before, question.Paragraph{Words: sign + ": " + k.Long})
	}
	return p
}

// helpWords says what is to be done with an animal.
func helpWords(l *Lesson) string {
	switch l.Test {
	case practice.OnSight:
		return wording.Text("Say its name when you know it on sight: one of the names of its kind is enough, and one that means several " +
			"kinds may stand. Else leave it unnamed. The key is for the other kind of test.")
	case practice.WithKey:
		return wording.Text("Answer the key's questions until the animal has a name. What you know on sight is for the other kind of test.")
	}
	return wording.Text("Say its name when you know it on sight: one of the names of its kind is enough. " +
		"Else walk with the key, which asks as it will by the stream. Nobody is graded: a mistake shows what to practise.")
}

func keysHere(l *Lesson) []Command {
	if l.stage == walking {
		return walkingPage(l).Keys
	}
	return meetingPage(l).Keys
}

// restPage ends the sitting.
func restPage(l *Lesson) Prompt {
	now := l.Clock()
	after := l.learner.Error(now)
	p := Prompt{Title: wording.Text("That is enough for one sitting"), Go: wording.Text("end")}
	if l.Test != "" {
		return l.testOver()
	}
	p.Before = []question.Paragraph{
		{Words: wording.Sprintf("%s in %s, %d of them named rightly.", plain.Capital(plain.Count(l.met, "animal")), spell(now.Sub(l.began)),
			l.right)},
		{Words: forecast(l, after)},
	}
	for _, m := range l.learner.Misreads(now, 3) {
		if !slices.ContainsFunc(l.missed, func(r practice.Reading) bool { return r.Trait == m.Trait && r.Is == m.Is }) {
			continue // it was told of after the sitting in which it was
		}
		p.Before = append(p.Before, question.Paragraph{Words: wording.Sprintf("To look at next time: %s", confusion(l, m))})
	}
	if l.Animals == 0 {
		p.Keys = []Command{{more, wording.Text("ten minutes more"), wording.Text("another sitting, at once. One tomorrow does more.")}}
	}
	return p
}

// forecast is how many names of a tally would be wrong, once enough was met to say.
func forecast(l *Lesson, after float64) string {
	lines := l.Course.Ready()
	if n, _, tested := l.Record.Met(); !lines.Enough(n, tested) {
		return wording.Sprintf("After %d more animals you are told how many names of a tally would be right.", lines.Sittings-n)
	}
	return wording.Sprintf("In a tally of 100 animals about %.0f would now get a wrong name; before this sitting about %.0f. That is an "+
		"estimate from what you practised here; real animals are harder.", 100*after, 100*l.startError)
}

// confusion is a misread in words.
func confusion(l *Lesson, m practice.Misreading) string {
	t := l.catalog.Vocabulary().Trait(m.Trait)
	return plain.OneLine(wording.Sprintf("%s You take %q for %q now and then.", t.Question, t.States[t.State(m.Is)].Label,
		t.States[t.State(m.TakenFor)].Label))
}

func spell(d time.Duration) string { return plain.Count(max(1, int(d.Minutes()+0.5)), "minute") }

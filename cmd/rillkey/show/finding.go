package show

import (
	"slices"
	"strings"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// stopped is what stopping is called in a path.
const stopped = "stop"

// Answer puts one thing that was said in the words of the key: "three tails",
// "legs: six", "outline: can't tell", "12 mm long".
func Answer(v *taxa.Vocabulary, g key.Given) string {
	switch mm, isLength := strings.CutPrefix(g.Answer, "length="); {
	case isLength:
		return wording.Sprintf("%s mm long", mm)
	case g.Question.ID() == "":
		return wording.Text("stopped here") // nothing but stopping has no question
	case len(g.Says) == 0 && g.Question.Couplet != nil:
		return wording.Sprintf("%s: can't tell", asked(g.Question.Couplet.Ask))
	case len(g.Says) == 0:
		return wording.Sprintf("%s: can't tell", words(g.Question.ID()))
	}
	if text := leadText(g); text != "" {
		return shorter(findings(v, g.Says, eachState), text)
	}
	return findings(v, g.Says, TraitStates)
}

func shorter(a, b string) string {
	if len(b) < len(a) {
		return b
	}
	return a
}

// leadText is what was asked and the first sentence of the lead that was taken;
// empty for a trait.
func leadText(g key.Given) string {
	if c := g.Question.Couplet; c != nil {
		for _, l := range c.Leads {
			if c.ID+l.Letter == g.Answer {
				text, _, _ := strings.Cut(plain.OneLine(l.Text), ". ")
				return plain.OneLine(asked(c.Ask)) + ": " + decapital(strings.TrimRight(text, "."))
			}
		}
	}
	return ""
}

// asked is a heading as it stands before a colon and an answer.
func asked(heading string) string { return decapital(strings.TrimSuffix(heading, "?")) }

// decapital puts a sentence into the middle of another one.
func decapital(text string) string {
	if text == "" || wording.Language() != "en" { // where nouns may have a capital
		return text
	}
	return strings.ToLower(text[:1]) + text[1:]
}

// words is the id of a trait as people read it: "leg place".
func words(id string) string {
	switch id {
	case "prolegs":
		return wording.Text("stub legs")
	case "antennae":
		return wording.Text("feelers")
	case "feelers":
		return wording.Text("pairs of feelers")
	}
	return wording.Text(strings.ReplaceAll(id, "-", " ")) // "colour" in the region's spelling
}

// findings are what an answer stands for, in the words of the vocabulary.
func findings(v *taxa.Vocabulary, says []couplets.Condition, in func(*taxa.Trait, []string) string) string {
	var out []string
	for _, c := range says {
		if t := v.Trait(c.Trait); t != nil {
			out = append(out, in(t, c.States))
		}
	}
	return strings.Join(out, ", ")
}

// TraitStates is the states of a trait, with its name where they do not say it: "legs: six",
// "two tails, or three tails"; most of them are told by the few that are left out.
func TraitStates(t *taxa.Trait, states []string) string {
	if others := AllBut(t, states); others != "" {
		return words(t.ID) + ": " + others
	}
	return eachState(t, states)
}

// eachState is all states that are meant, however many, with the name of the trait where
// they do not say it.
func eachState(t *taxa.Trait, states []string) string {
	var labels []string
	named := true
	name := strings.TrimSuffix(t.ID, "s") // also where a label has letters that an id has not
	for _, id := range states {
		label := t.States[t.State(id)].Label
		named = named && (strings.Contains(strings.ToLower(label), name) || strings.Contains(plain.ID(label), name))
		labels = append(labels, label)
	}
	text := strings.Join(labels, wording.Text(", or "))
	if named {
		return text
	}
	return words(t.ID) + ": " + text
}

// AllBut is many states of a trait by the few that are left out, as when something was
// denied: "anything but: walks or creeps"; where only that it is not there is left out, it is
// there. It is empty where the states are few, or too many are left out.
func AllBut(t *taxa.Trait, states []string) string {
	const many, few = 4, 2
	var left []string
	absent := false
	for _, s := range t.States {
		if !slices.Contains(states, s.ID) {
			left, absent = append(left, s.Label), s.ID == "none"
		}
	}
	switch {
	case len(states) < many || len(left) == 0 || len(left) > few:
		return ""
	case len(left) == 1 && absent:
		return wording.Text("there; more was not said")
	}
	return wording.Sprintf("anything but: %s", strings.Join(left, wording.Text(", or ")))
}

// AnswerList are all that was said, in the words of the key; what was said
// again stands once, and what nobody could tell is counted and not listed.
func AnswerList(v *taxa.Vocabulary, given []key.Given) string {
	var told []string
	open := 0
	for _, g := range given {
		if g.Answer == stopped {
			continue
		}
		if g.Asked && len(g.Says) == 0 {
			open++
		} else if answer := Answer(v, g); !slices.Contains(told, answer) {
			told = append(told, answer)
		}
	}
	if open > 0 {
		told = append(told, wording.Sprintf("%s nobody could tell", plain.Count(open, "question")))
	}
	return strings.Join(told, "; ")
}

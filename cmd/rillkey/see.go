package main

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"rillkey/cmd/rillkey/question"
	"rillkey/key"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// observeWords takes what was said in a person's own words: each part must be understood,
// or nothing is. A length among the words is given back in mm, else 0.
func observeWords(a *app, q *key.Inquiry, text string) (length float64, err error) {
	vocabulary := q.Model().Key().Catalog().Vocabulary()
	said, err := question.HowLong(vocabulary, text)
	if err != nil {
		return 0, misused("--see: %v", err)
	}
	length, text = said.MM, said.Rest
	if said.Wide && text == "" {
		return 0, misused("--see: %s", question.NotItsLength(said.SaidLength))
	}
	if said.Part != "" || said.Wide {
		fmt.Fprintln(a.stderr, question.NotItsLength(said.SaidLength))
	}
	seen, unclear, err := vocabulary.Understand(text)
	if err != nil {
		return 0, misused("--see: %w", err)
	}
	if len(unclear) > 0 {
		return 0, misused("--see: %s", notUnderstood(unclear)+instead(q, unclear)+understood(seen, length))
	}
	if len(seen) == 0 && length == 0 && strings.ContainsFunc(text, unicode.IsLetter) {
		return 0, misused("--see: nothing in %s tells what the animal looks like; say what strikes you, as in --see \"ten legs, pincers\"",
			plain.Quote(text))
	}
	if len(seen) == 0 && length == 0 {
		return 0, misused("--see: %s", nothingSaid())
	}
	for _, s := range seen {
		if err := q.Hear(s.Trait.ID, s.States...); err != nil {
			return 0, misused("--see: %w", err)
		}
		fmt.Fprintf(a.stderr, "%s: %s\n", plain.Quote(s.Words), plain.Printable(meaningOf(s)))
	}
	if length > 0 {
		if err := q.ObserveLength(length); err != nil {
			return 0, misused("--see: %w", err)
		}
		fmt.Fprintln(a.stderr, plain.Printable(said.Words()))
	}
	return length, nil
}

// understood says how what was understood beside unclear words is said again without them;
// empty where that was nothing.
func understood(seen []taxa.Seen, length float64) string {
	said := ""
	for _, s := range seen {
		said += " --observe " + key.InOwnWords + s.Trait.ID + "=" + strings.Join(s.States, ",")
	}
	if length > 0 {
		said += fmt.Sprintf(" --length %g", length)
	}
	if said == "" {
		return ""
	}
	return "\n" + wording.Sprintf("The rest was understood:%s", said)
}

// instead offers marks to say in the place of words that are near nothing: those that would
// tell most. Empty where all words are near something.
func instead(q *key.Inquiry, unclear []taxa.Unclear) string {
	const most = 3
	if !slices.ContainsFunc(unclear, func(u taxa.Unclear) bool { return len(u.Choice) == 0 }) {
		return ""
	}
	out := "\n" + wording.Text("No word known here is near that; these marks would tell most:")
	for _, m := range q.Striking(most) {
		out += offered(taxa.Seen{Trait: m.Trait, States: []string{m.State}})
	}
	return out
}

// offered is a line with what may be meant, as it is typed and in words.
func offered(s taxa.Seen) string {
	return wording.Sprintf("\n  --observe %s=%s  %s", key.InOwnWords+s.Trait.ID, strings.Join(s.States, ","), meaningOf(s))
}

// nothingSaid says that there are no words at all.
func nothingSaid() string {
	return wording.Text("nothing was said; say what strikes you, as in --see \"ten legs, pincers\"")
}

// meaningOf is what was understood, in the words of the vocabulary.
func meaningOf(s taxa.Seen) string {
	var labels []string
	for _, id := range s.States {
		labels = append(labels, s.Trait.States[s.Trait.State(id)].Label)
	}
	return s.Trait.Question + " " + strings.Join(labels, wording.Text(", or "))
}

// notUnderstood says of unclear words what may be meant by them; those that are near
// nothing come last, in one line.
func notUnderstood(unclear []taxa.Unclear) string {
	var lines, strange []string
	for _, u := range unclear {
		if len(u.Choice) == 0 {
			strange = append(strange, u.Words)
			continue
		}
		line := wording.Sprintf("%s is not among the words known here; say which, or leave it out:", plain.Quote(u.Words))
		switch {
		case u.Known && len(u.Choice) == 1:
			line = wording.Sprintf("%s may mean this or something else; say so, or leave it out:", plain.Quote(u.Words))
		case u.Known:
			line = wording.Sprintf("%s may mean several things; say which, or leave it out:", plain.Quote(u.Words))
		}
		for _, c := range u.Choice {
			line += offered(c)
		}
		lines = append(lines, line)
	}
	switch len(strange) {
	case 0:
	case 1:
		lines = append(lines, wording.Sprintf("%s is not among the words known here; say it in other words, or leave it out",
			plain.Quote(strange[0])))
	default:
		lines = append(lines, wording.Sprintf("%s are not among the words known here; say it in other words, or leave it out",
			plain.List(strange)))
	}
	return strings.Join(lines, "\n")
}

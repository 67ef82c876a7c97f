// Package ask puts a few questions to a person, as a form on a terminal or line
// by line without one. Both are made from the same description, take the same
// answers and refuse the same ones.
//
// Begin with [Field], [Option] and [Answers].
package ask

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// ErrLeft means that the person went away before the last field was answered.
// Nothing was answered then.
var ErrLeft = wording.NewError("left before the last question was answered")

// ErrBefore means that the person goes back from the first field to what was asked
// before it. Nothing was answered then.
var ErrBefore = wording.NewError("gone back before the first question")

// Option is one of a field's choices.
type Option struct {
	Value string // what the answer is
	Label string // what people read; empty stands for Value
}

// Field is one thing to ask. With Options it is a choice; with Confirm a
// question for yes or no, answered as "yes" or "no"; with Text it is something to
// read, which has no answer; else a line of text.
type Field struct {
	Key   string // of the answer
	Title string // a few words
	Help  string // a sentence or two, or empty
	// Default is the answer that stands when nothing else is given: a text, an
	// option's Value, or "yes". A Confirm without one stands at "no".
	Default string
	Options []Option
	Confirm bool
	// Text is paragraphs to read before the next field is asked, on as many pages
	// as the terminal needs.
	Text []string
	// Offers are answers that a line of text may take by their number; any other
	// text is taken too.
	Offers   []string
	Optional bool // a text that may stay empty
	// GoesBack lets going back from the field end all asking with [ErrBefore], where it is
	// the first: something was asked before that can be asked again.
	GoesBack bool
	// Instead are letters each of which ends all asking, as the answer to this field: it
	// leads elsewhere. No text of the field begins with one.
	Instead []Option
	// Check refuses an answer with an error for people to read; nil takes all.
	// It is given the answer without blanks around it, and not the empty one.
	Check func(string) error
}

// Answers are the answers by the key of their field.
type Answers map[string]string

// Yes reports whether a Confirm was answered with yes.
func (a Answers) Yes(key string) bool { return a[key] == yes }

const (
	yes = "yes"
	no  = "no"
	// longest is how many characters a text may have.
	longest = 200
)

// elsewhere is the letter that leads elsewhere which was typed, or empty.
func (f Field) elsewhere(typed string) string {
	for _, o := range f.Instead {
		if strings.EqualFold(typed, o.Value) {
			return o.Value
		}
	}
	return ""
}

func (o Option) label() string {
	if o.Label == "" {
		return plain.OneLine(o.Value)
	}
	return plain.OneLine(wording.Text(o.Label))
}

// standing is the answer that a field has before anybody answered, empty where
// there is none.
func (f Field) standing() string {
	if f.Confirm && f.Default == "" {
		return no
	}
	return f.Default
}

// meant is the answer that a typed line of text stands for: an offer by its
// number, or however its letters were typed.
func (f Field) meant(typed string) string {
	typed = strings.TrimSpace(typed)
	for i, o := range f.Offers {
		if typed == fmt.Sprint(i+1) || strings.EqualFold(typed, o) {
			return o
		}
	}
	return typed
}

// check says what is wrong with an answer.
func (f Field) check(answer string) error {
	answer = strings.TrimSpace(answer)
	switch {
	case len(f.Text) > 0:
		return nil
	case answer == "" && f.Optional:
		return nil
	case answer == "":
		return errors.New(wording.Text("an answer is needed here"))
	case utf8.RuneCountInString(answer) > longest:
		return wording.Errorf("at most %d characters fit here", longest)
	case plain.HasControl(answer) || !utf8.ValidString(answer):
		return terminal.ErrControl
	case f.Check == nil:
		return nil
	}
	return f.Check(answer)
}

// pick finds the choice that a typed line means: its number, its name, or how
// just one of the names begins.
func (f Field) pick(typed string) (string, error) {
	typed = strings.ToLower(typed)
	var begun []Option
	for i, o := range f.Options {
		if typed == fmt.Sprint(i+1) {
			return o.Value, nil
		}
	}
	for _, o := range f.Options {
		label := strings.ToLower(o.label())
		if typed == label || typed == strings.ToLower(o.Value) {
			return o.Value, nil
		}
		if strings.HasPrefix(label, typed) {
			begun = append(begun, o)
		}
	}
	if len(begun) == 1 {
		return begun[0].Value, nil
	}
	return "", wording.Errorf("answer with a number from 1 to %d, or with the name beside it", len(f.Options))
}

// shown is an answer as people read it.
func (f Field) shown(answer string) string {
	i := slices.IndexFunc(f.Options, func(o Option) bool { return o.Value == answer })
	if i >= 0 {
		return f.Options[i].label()
	}
	if f.Confirm {
		return wording.Text(answer)
	}
	return plain.OneLine(answer)
}

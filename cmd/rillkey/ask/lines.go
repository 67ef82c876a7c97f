package ask

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

const (
	back     = terminal.Back // the field before, again
	none     = "-"           // nothing, where there is a default
	patience = 100           // lines in a row that may be no answer
)

// TerminalSize is that of a terminal in characters. Without a width nothing is folded,
// without a height nothing stops until somebody has read it.
type TerminalSize struct{ Width, Height int }

// Lines asks the fields line by line, once what they are about was said. An empty line takes the default, or
// nothing where the field is optional; "-" takes nothing although there is a
// default; "<" asks the field before once more. A text to read stops where the
// size says that the screen is full. The end of the input before the last answer
// is an error that wraps io.ErrUnexpectedEOF and says at which field.
func Lines(about string, fields []Field, in *bufio.Reader, out io.Writer, size TerminalSize) (Answers, error) {
	l := &liner{input: in, output: bufio.NewWriter(out), size: size}
	answers := Answers{}
	tries := 0
	if about != "" {
		l.say("%s", plain.OneLine(about))
	}
	if asked(fields) > 1 || len(fields) > 0 && fields[0].GoesBack {
		l.say(wording.Text("Answer each with a line; %s asks the one before again, %s leaves one empty that may be."), back, none)
	}
	for i := 0; i < len(fields); {
		if tries++; tries > patience {
			return nil, wording.Errorf("%d lines in a row were no answer to %q", patience, plain.OneLine(fields[i].Title))
		}
		answer, err := l.ask(fields, i, answers[fields[i].Key])
		switch {
		case err != nil:
			return nil, err
		case answer.back && i == 0 && fields[i].GoesBack:
			return nil, ErrBefore
		case answer.back:
			i = max(0, i-1)
		case answer.text != "" && answer.text == fields[i].elsewhere(answer.text):
			return Answers{fields[i].Key: answer.text}, l.output.Flush()
		case answer.refused != nil:
			l.say("%s.", plain.Capital(plain.OneLine(answer.refused.Error())))
		default:
			if len(fields[i].Text) == 0 {
				answers[fields[i].Key] = answer.text
			}
			tries = 0
			i++
		}
	}
	return answers, l.output.Flush()
}

type liner struct {
	input  *bufio.Reader
	output *bufio.Writer
	size   TerminalSize
}

// say writes one sentence; detail is one that belongs to the line above it.
func (l *liner) say(format string, args ...any) { l.write("", fmt.Sprintf(format, args...)) }

func (l *liner) detail(format string, args ...any) { l.write("  ", wording.Sprintf(format, args...)) }

func (l *liner) write(indent, text string) {
	for _, line := range terminal.Wrap(text, l.size.Width-len(indent)) {
		fmt.Fprintln(l.output, indent+line)
	}
}

// line is what one typed line came to.
type line struct {
	text    string
	back    bool
	refused error
}

// ask shows a field and reads one line for it. An error means that no line
// could be read.
func (l *liner) ask(fields []Field, i int, before string) (line, error) {
	f := fields[i]
	if len(f.Text) > 0 {
		return l.read(f)
	}
	if before != "" {
		f.Default = before
	}
	l.show(f, heading(fields, i))
	typed, err := l.typed(f)
	switch {
	case terminal.Again(err):
		return line{refused: err}, nil
	case err != nil:
		return line{}, err
	case typed == back:
		return line{back: true}, nil
	}
	return f.read(typed), nil
}

// typed is the next line.
func (l *liner) typed(f Field) (string, error) {
	if err := l.output.Flush(); err != nil {
		return "", err
	}
	typed, err := terminal.ReadLine(l.input)
	if err != nil && !terminal.Again(err) {
		err = wording.Errorf("no answer could be read to %q; nothing was kept: %w", plain.OneLine(f.Title), err)
	}
	return typed, err
}

// read writes a text, page by page where the terminal has a height.
func (l *liner) read(f Field) (line, error) {
	lines := 1 << 20
	if l.size.Height > 0 {
		lines = l.size.Height - 2 // the line that says how to go on, and where that is typed
	}
	pages := pagesOf(append([]string{f.Title}, f.Text...), l.size.Width, lines)
	for i := 0; i < len(pages); {
		for _, s := range pages[i] {
			fmt.Fprintln(l.output, s)
		}
		if l.size.Height == 0 {
			return line{}, nil
		}
		l.say(wording.Text("Page %d of %d. Enter goes on."), i+1, len(pages))
		switch typed, err := l.typed(f); {
		case err != nil && !terminal.Again(err):
			return line{}, err
		case typed == back && i == 0:
			return line{back: true}, nil
		case typed == back:
			i--
		default:
			i++
		}
	}
	return line{}, nil
}

// show writes a field: what is asked, the choices, and what an empty line does.
func (l *liner) show(f Field, heading string) {
	l.say("%s", heading)
	if f.Help != "" {
		l.detail("%s", plain.OneLine(f.Help))
	}
	for i, o := range f.Options {
		l.detail("%d: %s", i+1, o.label())
	}
	for i, o := range f.Offers {
		l.detail("%d: %s", i+1, plain.OneLine(o))
	}
	if len(f.Offers) > 0 {
		l.detail(wording.Text("Answer with a number, or with any other name."))
	}
	if f.Confirm {
		l.detail(wording.Text("Answer y for yes or n for no."))
	}
	for _, o := range f.Instead {
		l.detail("%s: %s", o.Value, o.label())
	}
	if s := f.standing(); s != "" {
		l.detail(wording.Text("Enter alone: %s"), f.shown(s))
	} else if f.Optional {
		l.detail(wording.Text("Enter alone: nothing"))
	}
}

// asked is how many of the fields want an answer.
func asked(fields []Field) (n int) {
	for _, f := range fields {
		if len(f.Text) == 0 {
			n++
		}
	}
	return n
}

// heading is what is asked, and how far along it is.
func heading(fields []Field, i int) string {
	title := plain.OneLine(fields[i].Title)
	if of := asked(fields); of > 1 {
		return wording.Sprintf("%d of %d: %s", asked(fields[:i])+1, of, title)
	}
	return title
}

// read takes a typed line for an answer.
func (f Field) read(typed string) line {
	text := f.meant(typed)
	switch {
	case f.elsewhere(typed) != "":
		return line{text: f.elsewhere(typed)}
	case typed == "":
		text = f.standing()
	case typed == none && f.Optional:
		text = ""
	case f.Confirm:
		var ok bool
		if text, ok = yesOrNo(typed); !ok {
			return line{refused: errors.New(wording.Text("answer y or n"))}
		}
	case len(f.Options) > 0:
		var err error
		if text, err = f.pick(typed); err != nil {
			return line{refused: err}
		}
	}
	return line{text: text, refused: f.check(text)}
}

// yesOrNo takes a typed word for yes or no, or its first letter, in the language in use or
// in English.
func yesOrNo(typed string) (string, bool) {
	for _, translated := range []func(string) string{wording.Text, func(word string) string { return word }} {
		for _, answer := range []string{yes, no} {
			word := translated(answer)
			_, first := utf8.DecodeRuneInString(word)
			if strings.EqualFold(typed, word) || strings.EqualFold(typed, word[:first]) {
				return answer, true
			}
		}
	}
	return "", false
}

package ask

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"rillkey/cmd/rillkey/ask/terminal"
)

const (
	back     = "<" // the field before, again
	none     = "-" // nothing, where there is a default
	patience = 100 // lines in a row that may be no answer
)

// Lines asks the fields line by line. An empty line takes the default, or
// nothing where the field is optional; "-" takes nothing although there is a
// default; "<" asks the field before once more. The end of the input before the
// last answer is an error that wraps io.ErrUnexpectedEOF and says at which
// field.
func Lines(fields []Field, in *bufio.Reader, out io.Writer) (Answers, error) {
	l := &liner{in: in, out: bufio.NewWriter(out)}
	answers := Answers{}
	tries := 0
	if len(fields) > 1 {
		fmt.Fprintf(l.out, "Answer each with a line; %s asks the one before again, %s leaves one empty that may be.\n", back, none)
	}
	for i := 0; i < len(fields); {
		if tries++; tries > patience {
			return nil, fmt.Errorf("%d lines in a row were no answer to %q", patience, terminal.Safe(fields[i].Title))
		}
		answer, err := l.ask(fields[i], answers[fields[i].Key], i, len(fields))
		switch {
		case err != nil:
			return nil, err
		case answer.back:
			i = max(0, i-1)
		case answer.refused != nil:
			fmt.Fprintf(l.out, "%s.\n", sentence(answer.refused))
		default:
			answers[fields[i].Key] = answer.text
			tries = 0
			i++
		}
	}
	return answers, l.out.Flush()
}

type liner struct {
	in  *bufio.Reader
	out *bufio.Writer
}

// line is what one typed line came to.
type line struct {
	text    string
	back    bool
	refused error
}

// ask shows a field and reads one line for it. An error means that no line
// could be read.
func (l *liner) ask(f Field, before string, i, of int) (line, error) {
	if before != "" {
		f.Default = before
	}
	l.show(f, i, of)
	if err := l.out.Flush(); err != nil {
		return line{}, err
	}
	typed, err := terminal.ReadLine(l.in)
	switch {
	case terminal.Again(err):
		return line{refused: err}, nil
	case err != nil:
		return line{}, fmt.Errorf("no answer could be read to %q; nothing was kept: %w", terminal.Safe(f.Title), err)
	case typed == back:
		return line{back: true}, nil
	}
	return f.read(typed), nil
}

// show writes a field: what is asked, the choices, and what an empty line does.
func (l *liner) show(f Field, i, of int) {
	fmt.Fprintln(l.out, heading(f, i, of))
	if f.Help != "" {
		fmt.Fprintf(l.out, "  %s\n", terminal.Safe(f.Help))
	}
	for i, o := range f.Options {
		fmt.Fprintf(l.out, "  %d: %s\n", i+1, o.label())
	}
	if f.Confirm {
		fmt.Fprintln(l.out, "  Answer y for yes or n for no.")
	}
	if s := f.standing(); s != "" {
		fmt.Fprintf(l.out, "  Enter alone: %s\n", f.shown(s))
	} else if f.Optional {
		fmt.Fprintln(l.out, "  Enter alone: nothing")
	}
}

// heading is what is asked, and how far along it is.
func heading(f Field, i, of int) string {
	if of == 1 {
		return terminal.Safe(f.Title)
	}
	return fmt.Sprintf("%d of %d: %s", i+1, of, terminal.Safe(f.Title))
}

// read takes a typed line for an answer.
func (f Field) read(typed string) line {
	text := typed
	switch {
	case typed == "":
		text = f.standing()
	case typed == none && f.Optional:
		text = ""
	case f.Confirm:
		var ok bool
		if text, ok = map[string]string{"y": yes, "yes": yes, "n": no, "no": no}[strings.ToLower(typed)]; !ok {
			return line{refused: fmt.Errorf("answer y or n")}
		}
	case len(f.Options) > 0:
		var err error
		if text, err = f.pick(typed); err != nil {
			return line{refused: err}
		}
	}
	return line{text: text, refused: f.check(text)}
}

// sentence is an error as the start of a sentence for people to read.
func sentence(err error) string {
	s := terminal.Safe(err.Error())
	for i, r := range s {
		return strings.ToUpper(string(r)) + s[i+len(string(r)):]
	}
	return s
}

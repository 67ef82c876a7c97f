package question

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"rillkey/cmd/rillkey/ask/terminal"
	"rillkey/key"
)

// patience is how many lines in a row may fail to answer a question: nobody
// errs so often, but a program that feeds the input may never stop.
const patience = 100

// Lines asks the rest of a walk line by line: the words of the screen, one
// answer to a line, nothing that moves a cursor. width is where lines are
// folded; 0 leaves that to whatever shows them. An answer may carry the number
// of its couplet, as in a path: "4a" for "a".
//
// In this mode s and q act at once, since a line is sent off with Enter. The
// end of the input before the walk has ended is an error that wraps
// io.ErrUnexpectedEOF.
func Lines(w *key.Walk, in *bufio.Reader, out io.Writer, width int) (Outcome, error) {
	l := &liner{sitting: sit(w), in: in, out: bufio.NewWriter(out), width: width, ink: terminal.Bare()}
	for tries := 0; !l.done; tries++ {
		if tries > patience {
			return Left, fmt.Errorf("%d lines in a row were no answer to %s", patience, l.place())
		}
		before := l.walk.Questions()
		if err := l.turn(); err != nil {
			return Left, err
		}
		if l.walk.Questions() != before {
			tries = -1
		}
	}
	return l.outcome, l.out.Flush()
}

type liner struct {
	*sitting
	in    *bufio.Reader
	out   *bufio.Writer
	width int
	ink   terminal.Ink
	asked bool // the question has been shown since the walk last moved
}

// turn shows the question unless it still stands above, and takes one line.
func (l *liner) turn() error {
	if !l.asked {
		l.show(ask(l.walk))
		l.asked = true
	}
	l.show([]block{{remark, "", l.prompt()}})
	if err := l.out.Flush(); err != nil {
		return err
	}
	line, err := terminal.ReadLine(l.in)
	switch {
	case terminal.Again(err):
		l.said = terminal.Safe(err.Error()) + "."
	case err != nil:
		return fmt.Errorf("no answer could be read to %s; nothing of this animal was saved: %w", l.place(), err)
	default:
		l.take(line)
	}
	l.say()
	return nil
}

func (l *liner) take(line string) {
	line = strings.ToLower(line)
	if short, ok := strings.CutPrefix(line, l.walk.Couplet().ID); ok && short != "" {
		line = short
	}
	if line == howTo {
		l.said = ""
		l.show(help(l.walk, false))
		return
	}
	l.asked = !l.answer(line)
}

func (l *liner) say() {
	if l.said != "" {
		l.show([]block{{remark, "", l.said}})
	}
	if !l.asked {
		fmt.Fprintln(l.out)
	}
	l.said = ""
}

// prompt names the answers there are.
func (l *liner) prompt() string {
	all := keys(l.walk)
	text := "Answer " + all[0].mark
	for _, k := range all[1:] {
		text += ", " + k.mark + " " + k.short
	}
	return text + "."
}

func (l *liner) place() string {
	c := l.walk.Couplet()
	return fmt.Sprintf("question %d (couplet %s: %s)", l.walk.Questions()+1, terminal.Safe(c.ID), terminal.Safe(c.Ask))
}

func (l *liner) show(blocks []block) {
	for _, line := range set(blocks, l.width, false, l.ink) {
		fmt.Fprintln(l.out, line)
	}
}

package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/terminal"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// console is where the program talks with a person.
type console struct {
	world
	lines       *bufio.Reader // the one reader of standard input
	json, plain bool
	typed       []string // all words of the command line; nil where any command may be meant
}

// meant reports whether a command may be meant. Only then are its flags made, and the
// commands that it holds: help spent an eighth of its time on all of them.
func (c *console) meant(command string) bool {
	return c.typed == nil || slices.Contains(c.typed, command)
}

// give writes what a command came to: as one JSON document where that was asked for, else
// in words.
func (c *console) give(result any, words func() error) error {
	if c.json {
		return show.JSON(c.stdout, result)
	}
	return words()
}

// complain writes a line to standard error, folded between words where that is a
// terminal; a command that ends it stays in one piece, to be copied.
func (w world) complain(line string) {
	line = brief(line)
	if !w.errScreen || w.width <= 0 {
		fmt.Fprintln(w.stderr, line)
		return
	}
	lines := terminal.Wrap(line, w.width)
	if before, command := plain.CommandAtEnd(line); !strings.HasSuffix(lines[len(lines)-1], command) {
		lines = append(terminal.Wrap(before, w.width), "  "+command)
	}
	for _, l := range lines {
		fmt.Fprintln(w.stderr, l)
	}
}

// onScreen reports whether full screens can be used: both ends are terminals
// that know how to move a cursor, and nobody asked for plain lines.
func (c *console) onScreen() bool {
	t := c.env("TERM")
	return c.screen && !c.plain && !c.json && t != "" && t != "dumb"
}

// look is how screens are painted. The background is not asked of the terminal,
// since one that does not answer would hold up the first screen: without a word
// of it in COLORFGBG letters are bold, and nothing is coloured.
func (c *console) look() terminal.Appearance {
	dark, known := terminal.Background(c.env("COLORFGBG"))
	return terminal.Appearance{Color: known && !c.plain && c.env("NO_COLOR") == "", Dark: dark}
}

// talk is where prompts and remarks go: standard output, which --json keeps for
// the document alone.
func (c *console) talk() io.Writer {
	if c.json {
		return c.stderr
	}
	return c.stdout
}

// ask puts fields to the person, as a form or line by line. Going away without
// answering ends the command with the status for "no answer".
func (c *console) ask(fields ...ask.Field) (ask.Answers, error) { return c.askAbout("", fields...) }

// askAbout asks with what the questions are about in view.
func (c *console) askAbout(about string, fields ...ask.Field) (ask.Answers, error) {
	var answers ask.Answers
	var err error
	if c.onScreen() {
		answers, err = ask.Screen(about, fields, c.stdin, c.stdout, c.look())
	} else {
		err = c.untilLeft(func() (err error) {
			answers, err = ask.Lines(about, fields, c.lines, c.talk(), c.size())
			return err
		})
	}
	if errors.Is(err, ask.ErrLeft) {
		return nil, fault{statusCannotSay, plain.WithCause(wording.Text("left; nothing was saved by this step"), ask.ErrLeft)}
	}
	return answers, err
}

// untilLeft does something that waits for lines; Ctrl-C ends it as it ends a
// screen.
func (c *console) untilLeft(do func() error) error {
	ctx, stop := c.leaving.untilSignal()
	err := c.unlessLeft(ctx, do)
	if !errors.Is(err, ask.ErrLeft) {
		stop()
	}
	return err
}

// unlessLeft is untilLeft where the signal is held already.
func (c *console) unlessLeft(ctx context.Context, do func() error) error {
	if ctx.Err() != nil {
		return ask.ErrLeft // nothing more is asked
	}
	done := make(chan error, 1)
	go func() { done <- do() }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
		// The line that is waited for is never read, and the signal stays held:
		// what is left to say is said before the program ends.
		fmt.Fprintln(c.talk())
		return ask.ErrLeft
	}
}

// leavable are the lines that the person types; waiting for one ends with
// [ask.ErrLeft] at Ctrl-C.
type leavable struct {
	*console
	left context.Context // done at Ctrl-C, also while no line is waited for
	rest string          // of the line read last
}

// Read implements io.Reader, no more than one line at a time: what was typed ahead is
// for whoever asks next.
func (l *leavable) Read(p []byte) (int, error) {
	if l.rest == "" {
		var line string
		var ended error
		err := l.unlessLeft(l.left, func() error {
			line, ended = l.lines.ReadString('\n')
			return nil
		})
		if err != nil {
			return 0, err
		}
		if line == "" {
			return 0, ended
		}
		l.rest = line
	}
	n := copy(p, l.rest)
	l.rest = l.rest[n:]
	return n, nil
}

// size is that of the terminal, where the program talks to one.
func (c *console) size() ask.TerminalSize {
	if !c.screen {
		return ask.TerminalSize{}
	}
	return ask.TerminalSize{Width: c.width, Height: c.height}
}

// plainly says something to the person, beside the prompts. That it could not be
// said undoes nothing.
func (c *console) plainly(format string, args ...any) {
	_ = show.Say(c.talk(), c.width, format, args...)
}

func (c *console) room() show.Room { return show.Room{Width: c.width, Height: c.height} }

// progress shows on standard error how far long work is, if somebody watches
// there: what is counted and how many there are, or, with of = 0, what is done.
// Elsewhere it gives nil, which shows nothing.
func (c *console) progress(what string, of int) *terminal.ProgressLine {
	t := c.env("TERM")
	if !c.errScreen || c.plain || c.json || t == "" || t == "dumb" {
		return nil
	}
	return terminal.StartProgress(c.stderr, c.width, what, of)
}

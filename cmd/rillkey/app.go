package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/terminal"
	"rillkey/taxa/authored"
)

// The exit statuses, which scripts rely on.
const (
	statusDone      = 0
	statusBadData   = 1 // the input or a file is wrong
	statusMisused   = 2 // the command was misused
	statusCannotSay = 3 // undecided, withheld, or left without an answer
	statusUntold    = 4 // it is on the disk, but standard output could not be written
)

// world is all that the program touches outside itself.
type world struct {
	in       io.Reader
	out, err io.Writer
	now      func() time.Time
	random   io.Reader
	env      func(string) string
	screen   bool // input and output are terminals

	errScreen bool // standard error is a terminal
	width     int  // columns of the output
	height    int  // lines of the output, if it is a terminal

	leaving *leaving // what is done when a signal ends the program
}

// app is one run of the program.
type app struct {
	world
	lines *bufio.Reader // the one reader of standard input

	json, plain      bool
	visitFile        string
	keyFile, taxaDir string
	rulesDir         string

	onDisk []string      // what was saved or written so far
	passed []string      // files in this folder that were passed over
	from   []string      // the files that a page is made from
	record recordFlags   // of the creature before, in one sitting
	atlas  *figure.Atlas // of the key, once something was drawn
}

// fault is an error with the exit status it leads to. Without a cause it only
// sets the status: what there was to say is said.
type fault struct {
	status int
	cause  error
}

func (f fault) Error() string {
	if f.cause == nil {
		return ""
	}
	return f.cause.Error()
}

func (f fault) Unwrap() error { return f.cause }

func misused(format string, args ...any) error {
	return fault{statusMisused, fmt.Errorf(format, args...)}
}

// cannotSay ends the command with the status for "no answer".
var cannotSay = fault{status: statusCannotSay}

// run runs the program with these arguments and gives its exit status.
func run(args []string, w world) int {
	a := &app{world: w, lines: bufio.NewReader(w.in)}
	var out *outlet
	if !w.screen { // a screen needs the terminal itself, and shows that it failed
		out = &outlet{Writer: w.out}
		a.out = out
	}
	root := a.root()
	root.SetArgs(args)
	root.SetIn(w.in)
	root.SetOut(a.out)
	root.SetErr(w.err)
	err := a.ended(out, root.Execute())
	if err == nil {
		return statusDone
	}
	status := statusBadData
	var f fault
	if errors.As(err, &f) {
		status = f.status
	}
	if text := err.Error(); text != "" {
		for _, line := range strings.Split(text, "\n") {
			w.complain("rillkey: " + authored.Printable(line))
		}
	}
	return status
}

// brief is a line of a message without its middle where somebody typed or pasted
// too much of it: what is wrong stands at its beginning, what to do at its end.
func brief(line string) string {
	const most = 1000
	r := []rune(line)
	if len(r) <= most {
		return line
	}
	return string(r[:most/2]) + " … " + string(r[len(r)-most/2:])
}

// complain writes a line to standard error, folded between words where that is a
// terminal.
func (w world) complain(line string) {
	width := 0
	if w.errScreen {
		width = w.width
	}
	for _, l := range terminal.Fold(brief(line), width) {
		fmt.Fprintln(w.err, l)
	}
}

// onScreen reports whether full screens can be used: both ends are terminals
// that know how to move a cursor, and nobody asked for plain lines.
func (a *app) onScreen() bool {
	t := a.env("TERM")
	return a.screen && !a.plain && !a.json && t != "" && t != "dumb"
}

// look is how screens are painted. The background is not asked of the terminal,
// since one that does not answer would hold up the first screen: without a word
// of it in COLORFGBG letters are bold, and nothing is coloured.
func (a *app) look() question.Look {
	dark, known := terminal.Background(a.env("COLORFGBG"))
	return question.Look{Color: known && !a.plain && a.env("NO_COLOR") == "", Dark: dark}
}

// talk is where prompts and remarks go: standard output, which --json keeps for
// the document alone.
func (a *app) talk() io.Writer {
	if a.json {
		return a.err
	}
	return a.out
}

package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
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
	stdin          io.Reader
	stdout, stderr io.Writer
	now            func() time.Time
	random         io.Reader
	env            func(string) string
	screen         bool // input and output are terminals

	errScreen bool // standard error is a terminal
	width     int  // columns of the output
	height    int  // lines of the output, if it is a terminal

	leaving *leaving // what is done when a signal ends the program
}

// app is one run of the program: what every command has at hand.
type app struct {
	*console
	*library
	*disk
	*visitFolder
	*drawer
}

func newApp(w world) *app {
	c := &console{world: w, lines: bufio.NewReader(w.stdin)}
	d := &disk{}
	l := &library{console: c}
	return &app{
		console: c, library: l, disk: d,
		visitFolder: &visitFolder{console: c, disk: d, habitats: l.habitats}, drawer: &drawer{console: c},
	}
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

// misused is an error of what somebody typed, said in the language in use.
func misused(format string, args ...any) error {
	return fault{statusMisused, fmt.Errorf(wording.Text(format), args...)}
}

// cannotSay ends the command with the status for "no answer".
var cannotSay = fault{status: statusCannotSay}

// run runs the program with these arguments and gives its exit status.
func run(args []string, w world) int {
	a := newApp(w)
	var out *outlet
	if !w.screen { // a screen needs the terminal itself, and shows that it failed
		out = &outlet{Writer: w.stdout}
		a.stdout = out
	}
	err := noSecretIn(args)
	if err == nil {
		if !aShellAsks(args) {
			a.typed = append([]string{}, args...)
		}
		root := rootCommand(a)
		if aShellAsks(args) {
			completeFlags(a, root)
			completeWords(a, root)
		}
		root.SetArgs(args)
		root.SetIn(w.stdin)
		root.SetOut(a.stdout)
		root.SetErr(w.stderr)
		err = a.ended(out, ofGroups(root.Execute()))
	}
	if err == nil {
		return statusDone
	}
	status := statusBadData
	var f fault
	if errors.As(err, &f) {
		status = f.status
	}
	for _, line := range complaints(err) {
		w.complain("rillkey: " + plain.Printable(line))
	}
	return status
}

// complaints are the lines of an error. Where it is about a file that somebody writes,
// they name the commands that explain its rules.
func complaints(err error) []string {
	text := wording.Reason(err).Error()
	if text == "" {
		return nil
	}
	var found authored.Findings
	if errors.As(err, &found) {
		text = strings.Replace(text, found.Error(), show.Explained(found), 1)
	}
	return strings.Split(text, "\n")
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

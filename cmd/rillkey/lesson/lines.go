//go:build !js

package lesson

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// patience is how many lines in a row may change nothing: nobody errs so often, but a
// program that feeds the input may never stop.
const patience = 100

// Lines leads a lesson line by line: the words of the screen, one answer to a line,
// nothing that moves a cursor and no dots. width is where lines are folded; 0 leaves
// that to whatever shows them. draw, which may be nil, is given the drawings of each
// page before its words are shown. The end of the input is an error that wraps
// io.ErrUnexpectedEOF; what was practised by then is saved.
func Lines(l *Lesson, in *bufio.Reader, out io.Writer, width int, draw func([]Picture) error) error {
	w := bufio.NewWriter(out)
	shown, idle := "", 0
	for !l.Ended() {
		p := l.Now()
		text := inLines(&p)
		if text == shown {
			idle++
			text = ""
		} else {
			shown, idle = text, 0
			if draw != nil {
				if err := draw(p.Drawings()); err != nil {
					return err
				}
			}
		}
		if idle > patience {
			return wording.Errorf("%d lines in a row were no answer; what was practised is saved", patience)
		}
		say(w, p.Said, width)
		say(w, text, width)
		say(w, p.prompt(), width)
		if err := w.Flush(); err != nil {
			return err
		}
		line, err := terminal.ReadLine(in)
		switch {
		case terminal.Again(err):
			say(w, plain.OneLine(err.Error())+".", width)
			continue
		case errors.Is(err, io.ErrUnexpectedEOF):
			return wording.Errorf("the input ended before the sitting did; what was practised is saved: %w", err)
		case err != nil:
			return err
		}
		fmt.Fprintln(w)
		take(l, &p, line)
	}
	return w.Flush()
}

// take takes a line as a sign, a letter or a name.
func take(l *Lesson, p *Prompt, line string) {
	sign := strings.ToLower(line)
	known := line == GoOn && p.Go != "" || slices.ContainsFunc(p.Keys, func(k Command) bool { return k.Sign == sign }) ||
		slices.ContainsFunc(p.Options, func(o LetteredAnswer) bool { return o.Letter == sign })
	switch {
	case known, p.Go != "", line == GoOn:
		l.Do(sign)
	case p.Named && len([]rune(line)) > 1:
		l.Name(line)
	default:
		l.Do(sign)
	}
}

// inLines is a page in words, but for what came of the last answer.
func inLines(p *Prompt) string {
	var all []string
	add := func(s string) {
		if s != "" {
			all = append(all, plain.Printable(s))
		}
	}
	add(p.Where + ". " + p.Title)
	for _, t := range p.Before {
		add(t.Words)
	}
	for _, o := range p.Options {
		add(o.Letter + ": " + o.Words)
	}
	for _, t := range p.After {
		add(t.Words)
	}
	return strings.Join(all, "\n")
}

func say(w io.Writer, text string, width int) {
	if text == "" {
		return
	}
	for _, line := range strings.Split(text, "\n") {
		for _, folded := range terminal.Wrap(plain.Printable(line), width) {
			fmt.Fprintln(w, folded)
		}
	}
}

// prompt names the answers there are.
func (p *Prompt) prompt() string {
	var parts []string
	if p.Named {
		parts = append(parts, wording.Text("its name"))
	}
	switch n := len(p.Options); {
	case n == 1:
		parts = append(parts, p.Options[0].Letter)
	case n > 1:
		parts = append(parts, wording.Sprintf("%s to %s", p.Options[0].Letter, p.Options[n-1].Letter))
	}
	if p.Go != "" {
		parts = append(parts, wording.Sprintf("an empty line: %s", p.Go))
	}
	for _, k := range p.Keys {
		parts = append(parts, k.Sign+" "+k.Short)
	}
	return wording.Sprintf("Answer %s.", strings.Join(parts, ", "))
}

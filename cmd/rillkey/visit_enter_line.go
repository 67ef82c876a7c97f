package main

import (
	"slices"
	"strconv"
	"strings"

	"rillkey/cmd/rillkey/units"
	"rillkey/scoring/sheet"
	"rillkey/taxa/wording"
)

// take does what a typed line asks for and says whose turn is next.
func (e *entering) take(at int, line string, err error) (next int, _ error) {
	line = keyMeant(line)
	if units.SaysNone(line) {
		line = ""
		if e.unclear == nil && e.pending == 0 && e.OnRow(at) {
			line = "0"
		}
	}
	switch {
	case err != nil:
		return at, fault{statusMisused, err}
	case line == ".":
		return at, errDone
	case e.unclear != nil:
		return e.takeMeant(at, line)
	case line == "<" && e.pending > 0:
		e.pending = 0
		return at, nil
	case line == "<":
		return at - 1, nil
	case line == "?":
		e.all(at)
		return at, nil
	case strings.EqualFold(line, wording.Text("help")), strings.EqualFold(line, "help"), strings.EqualFold(line, "h"):
		e.help()
		return at, nil
	case e.pending > 0:
		return e.takeName(at, line)
	case e.LookAgain(at):
		return e.takeAgain(at, line)
	case line == ">" && e.OnRow(at):
		p := e.Place(at)
		return at + len(e.Rows) - p.Row, e.save(e.PassRest(p)...)
	case line == "" || line == ">":
		return e.pass(at)
	}
	return e.takeCount(at, strings.Fields(line))
}

func (e *entering) all(at int) {
	column := min(e.Place(at).Column, len(e.Samples)-1)
	for i := range e.Rows {
		e.row(sheet.Position{Column: column, Row: i})
	}
}

// takeCount takes the count of the row at hand, or of one that is named.
func (e *entering) takeCount(at int, words []string) (next int, _ error) {
	p := e.Place(at)
	words = units.CountLast(words)
	count := words[len(words)-1]
	name := strings.Join(words[:len(words)-1], " ")
	switch {
	case name == "" && !units.IsNumber(count):
		return at, misused("%q has no count; type a name and a count, such as stonefly 3", count)
	case name == "" && !e.OnRow(at):
		return at, misused("the rows are at their end; type a name and a count, such as stonefly 3")
	}
	n, err := units.AnimalsOrNone(count)
	switch {
	case err != nil:
		return at, misused("%w", err)
	case name == "":
		return e.count(at, n)
	case units.IsNumber(name):
		row, _ := strconv.Atoi(name)
		if row < 1 || row > len(e.Rows) {
			return at, misused("there is no row %s; the rows are 1 to %d", name, len(e.Rows))
		}
		return at, e.outOfTurn(sheet.Position{Column: p.Column, Row: row - 1}, n)
	}
	return at, e.byName(p.Column, name, n)
}

// keyMeant is the key that people mean by a word of their own; else the line as it is.
func keyMeant(line string) string {
	for key, words := range map[string][]string{
		"<": {"back", "undo", wording.Text("back")}, ".": {"done", "quit", "exit", "q", "end", wording.Text("leave")},
	} {
		if slices.ContainsFunc(words, func(word string) bool { return strings.EqualFold(line, word) }) {
			return key
		}
	}
	return line
}

// count enters or corrects the count of the row at hand. A row whose name is too
// broad to be counted asks for a closer one first.
func (e *entering) count(at, n int) (next int, _ error) {
	p := e.Place(at)
	if n > 0 && e.TooBroad(p) {
		e.pending = n
		return at, nil
	}
	if err := e.enterCount(p, n); err != nil {
		return at, err
	}
	return e.pass(at)
}

func (e *entering) outOfTurn(p sheet.Position, n int) error {
	if n > 0 && e.TooBroad(p) {
		return misused("%q alone is too broad to be counted; type the name written beside it and the count, such as water strider 3",
			e.Rows[p.Row].Kind.Label)
	}
	if err := e.enterCount(p, n); err != nil {
		return err
	}
	return e.save(e.Pass(p)...)
}

// takeName takes the closer name of a row's animals. Nothing but Enter keeps
// them set aside.
func (e *entering) takeName(at int, line string) (next int, _ error) {
	p := e.Place(at)
	var err error
	if line == "" {
		err = e.put(e.CountUnnamed(p, e.pending))
	} else {
		err = e.byName(p.Column, line, e.pending)
	}
	switch {
	case err != nil:
		return at, err
	case e.unclear != nil:
		e.unclear.row = at
		return at, nil
	}
	e.pending = 0
	return e.pass(at)
}

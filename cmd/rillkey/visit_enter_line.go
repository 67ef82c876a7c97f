package main

import (
	"strconv"
	"strings"
)

// take does what a typed line asks for and says which station comes next.
func (e *entering) take(at int, line string, err error) (next int, _ error) {
	switch {
	case err != nil:
		return at, fault{statusMisused, err}
	case line == ".":
		return at, errDone
	case e.unclear != nil:
		return e.takeMeant(at, line)
	case line == "<" && e.pending != "":
		e.pending = ""
		return at, nil
	case line == "<":
		return at - 1, nil
	case line == "?":
		e.all(at)
		return at, nil
	case e.pending != "":
		return e.takeName(at, line)
	case e.lastStation(at):
		return e.takeAgain(at, line)
	case line == ">" && e.onRow(at):
		return e.passRest(at)
	case line == "" || line == ">":
		return e.pass(at)
	}
	return e.takeCount(at, strings.Fields(line))
}

func (e *entering) all(at int) {
	column := min(e.station(at).column, len(e.samples)-1)
	for i := range e.rows {
		e.row(station{column, i})
	}
}

// takeCount takes the count of the row at hand, or of one that is named.
func (e *entering) takeCount(at int, words []string) (next int, _ error) {
	s := e.station(at)
	count := words[len(words)-1]
	name := strings.Join(words[:len(words)-1], " ")
	switch {
	case name == "" && !isNumber(count):
		return at, misused("%q has no count; type a name and a count, such as stonefly 3", count)
	case name == "" && !e.onRow(at):
		return at, misused("the rows are at their end; type a name and a count, such as stonefly 3")
	case name == "":
		return e.count(at, count)
	case isNumber(name):
		n, _ := strconv.Atoi(name)
		if n < 1 || n > len(e.rows) {
			return at, misused("there is no row %s; the rows are 1 to %d", name, len(e.rows))
		}
		return at, e.outOfTurn(station{s.column, n - 1}, count)
	}
	return at, e.byName(s.column, name, count)
}

func isNumber(s string) bool { _, err := strconv.Atoi(s); return err == nil }

// count enters or corrects the count of the row at hand. A row whose name is too
// broad to be counted asks for a closer one first.
func (e *entering) count(at int, text string) (next int, _ error) {
	s := e.station(at)
	if len(e.held[s.column][s.row]) == 0 && e.mustBeNamed(s.row) && text != "0" {
		if _, err := wholeCount(text); err != nil {
			return at, misused("%w", err)
		}
		e.pending = text
		return at, nil
	}
	if err := e.onto(s, text); err != nil {
		return at, err
	}
	return e.pass(at)
}

func (e *entering) outOfTurn(s station, text string) error {
	if len(e.held[s.column][s.row]) == 0 && e.mustBeNamed(s.row) && text != "0" {
		return misused("%q alone is too broad to be counted; type the name written beside it and the count, such as water strider 3", e.rows[s.row].Kind.Label)
	}
	if err := e.onto(s, text); err != nil {
		return err
	}
	return e.remember(s)
}

// takeName takes the closer name of a row's animals. Nothing but Enter keeps
// them set aside.
func (e *entering) takeName(at int, line string) (next int, _ error) {
	s := e.station(at)
	var err error
	if line == "" {
		err = e.saveUnnamed(s, e.pending)
	} else {
		err = e.byName(s.column, line, e.pending)
	}
	switch {
	case err != nil:
		return at, err
	case e.unclear != nil:
		e.unclear.row = at
		return at, nil
	}
	e.pending = ""
	return e.pass(at)
}

package main

import (
	"slices"
	"strconv"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/units"
	"rillkey/scoring/sheet"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// againForm and againExample say how an entry of the column "look again" is
// typed: in the order in which it stands on the sheet.
func (e *entering) againForm() string {
	if len(e.Samples) == 1 {
		return wording.Text("ROW COUNT CELL")
	}
	return wording.Text("ROW SAMPLE COUNT CELL")
}

func (e *entering) againExample() string {
	sample := ""
	if len(e.Samples) > 1 {
		sample = e.Samples[0] + " "
	}
	return wording.Sprintf("4 %s1 B2, or ? %s1 B3 for one without any name", sample, sample)
}

// takeAgain takes an entry of the column "look again". Its animals are set aside
// and do not count until somebody settles their name.
func (e *entering) takeAgain(at int, line string) (next int, _ error) {
	words := strings.Fields(line)
	form := strings.Count(e.againForm(), " ") + 1
	switch {
	case line == "" || line == ">":
		return at, errDone
	case len(words) < form:
		return at, misused(`%q lacks something: an entry is %s; a dash stands for a cell nobody wrote`, line, e.againForm())
	}
	column := 0
	cut := len(words) - form + 1 // a name may be of several words
	if len(e.Samples) > 1 {
		column = slices.IndexFunc(e.Samples, func(s string) bool { return strings.EqualFold(s, words[cut]) })
		if column < 0 {
			return at, misused("there is no sample %q; there are %s", words[cut], strings.Join(e.Samples, ", "))
		}
	}
	return at, e.setAside(column, strings.Join(words[:cut], " "), words[len(words)-2], words[len(words)-1])
}

// setAside enters or corrects animals that wait for a second look, by the number of
// a row, a name, or "?" for those without any.
func (e *entering) setAside(column int, name, count, cell string) error {
	if cell == "-" {
		cell = ""
	}
	n, err := units.AnimalsOrNone(count)
	_, again := e.InCell(column, cell)
	switch {
	case err != nil:
		return misused("%w", err)
	case n == 0 && !again:
		return misused("%q is not a count; there is nothing to take out", count)
	}
	row, err := strconv.Atoi(name)
	switch {
	case again, name == "?":
		return e.put(e.SetAside(column, cell, n, sheet.Alternatives{}))
	case err == nil && (row < 1 || row > len(e.Rows)):
		return misused("there is no row %s; the rows are 1 to %d, and ? is the one without a name", name, len(e.Rows))
	case err == nil:
		kind := e.Rows[row-1].Kind
		return e.put(e.SetAside(column, cell, n, sheet.Alternatives{Label: kind.Label, Taxa: kind.Taxa}))
	}
	always := func(*taxa.Taxon) bool { return true }
	return e.mean(name, n, always, func(t *taxa.Taxon) error {
		return e.put(e.SetAside(column, cell, n, sheet.Alternatives{Label: show.BothNames(t), Taxa: []string{t.ID}}))
	})
}

package main

import (
	"slices"
	"strconv"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

// againForm and againExample say how an entry of the column "look again" is
// typed: in the order in which it stands on the sheet.
func (e *entering) againForm() string {
	if len(e.samples) == 1 {
		return "ROW COUNT CELL"
	}
	return "ROW SAMPLE COUNT CELL"
}

func (e *entering) againExample() string {
	sample := ""
	if len(e.samples) > 1 {
		sample = e.samples[0] + " "
	}
	return "4 " + sample + "1 B2, or ? " + sample + "1 B3 for one without any name"
}

// doubtful are the records of the column "look again".
func (e *entering) doubtful() (out []visit.Record) {
	for _, r := range e.tally.Records {
		if r.Undecided && slices.Contains(e.samples, r.Sample) && strings.HasPrefix(r.Note, fromPaper+lookAgain) {
			out = append(out, r)
		}
	}
	return out
}

const lookAgain = ", to be looked at again"

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
	sample := e.samples[0]
	cut := len(words) - form + 1 // a name may be of several words
	if len(e.samples) > 1 {
		i := slices.IndexFunc(e.samples, func(s string) bool { return strings.EqualFold(s, words[cut]) })
		if i < 0 {
			return at, misused("there is no sample %q; there are %s", words[cut], strings.Join(e.samples, ", "))
		}
		sample = e.samples[i]
	}
	return at, e.setAside(sample, strings.Join(words[:cut], " "), words[len(words)-2], words[len(words)-1])
}

// setAside enters or corrects animals that wait for a second look. A cell holds
// one lot of them, so the same cell once more corrects its count.
func (e *entering) setAside(sample, name, count, cell string) error {
	if cell == "-" {
		cell = ""
	}
	for _, r := range e.doubtful() {
		if cell != "" && r.Sample == sample && strings.EqualFold(r.Cell, cell) {
			return e.correct(r, count)
		}
	}
	n, err := wholeCount(count)
	if err != nil {
		return misused("%w", err)
	}
	row, err := strconv.Atoi(name)
	switch {
	case name == "?":
		return e.saveAside(sample, n, cell, "", nil)
	case err == nil && (row < 1 || row > len(e.rows)):
		return misused("there is no row %s; the rows are 1 to %d, and ? is the one without a name", name, len(e.rows))
	case err == nil:
		kind := e.rows[row-1].Kind
		return e.saveAside(sample, n, cell, kind.Label, kind.Taxa)
	}
	always := func(*taxa.Taxon) bool { return true }
	return e.mean(name, count, always, func(t *taxa.Taxon) error {
		return e.saveAside(sample, n, cell, show.Named(t), []string{t.ID})
	})
}

// saveAside enters animals that wait for a second look, with what they may be:
// that, and what the catalog says it is taken for.
func (e *entering) saveAside(sample string, n int, cell, label string, ids []string) error {
	possible := slices.Clone(ids)
	for _, id := range ids {
		for _, m := range e.catalog.Taxon(id).Mistaken {
			if !slices.Contains(possible, m.Taxon) {
				possible = append(possible, m.Taxon)
			}
		}
	}
	note := fromPaper + lookAgain
	if label != "" {
		note += ": " + label
	}
	if err := e.save(visit.Identification{Sample: sample, Count: n, Cell: cell, Undecided: true, Possible: possible, Note: note}); err != nil {
		return err
	}
	e.plainly("Saved: %d set aside for a second look: %s.", n, orWords(label, "no name yet"))
	return nil
}

func orWords(s, otherwise string) string {
	if s == "" {
		return otherwise
	}
	return s
}

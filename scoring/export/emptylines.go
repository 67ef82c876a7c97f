package export

import (
	"encoding/csv"
	"slices"
	"strings"

	"rillkey/taxa/wording"
)

// emptyLines are the lines of a table that say nothing: without any cell, or with
// empty ones alone, as spreadsheets leave them behind.
type emptyLines struct {
	next         int // the line after the last row
	first, count int
}

// row takes the row read last, which is passed over where it is empty.
func (e *emptyLines) row(in *csv.Reader, row []string) (passedOver bool) {
	line, _ := in.FieldPos(0)
	passedOver = !slices.ContainsFunc(row, func(cell string) bool { return cell != "" })
	if passedOver {
		e.skipped(line + 1)
	} else {
		e.skipped(line)
	}
	last := len(row) - 1
	line, _ = in.FieldPos(last)
	e.next = line + strings.Count(row[last], "\n") + 1
	return passedOver
}

// skipped counts the lines up to another as empty.
func (e *emptyLines) skipped(to int) {
	if n := to - e.next; n > 0 {
		if e.count == 0 {
			e.first = e.next
		}
		e.count += n
	}
}

func (e *emptyLines) remarks(file string) []string {
	switch e.count {
	case 0:
		return nil
	case 1:
		return []string{wording.Sprintf("%s:%d: this line is empty and was passed over", file, e.first)}
	}
	return []string{wording.Sprintf("%s:%d: this line and %d more are empty and were passed over", file, e.first, e.count-1)}
}

// Package authored reads the TOML files that people write (traits, taxa, keys,
// schemes) strictly: it reports everything it finds wrong, each with the exact
// place, instead of stopping at the first.
//
// Begin with [Report], [Table] and [Finding].
//
// It does not write files, and it does not read a visit's records, which have a
// reader of their own because a damaged record must not hide the others.
package authored

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"

	"rillkey/taxa/sorting"
)

// Pos is a place in a file. Line and Col start at 1; Col counts characters, not
// bytes. A zero Line means the whole file.
type Pos struct {
	File string `json:"file"`
	Line int    `json:"line"`
	Col  int    `json:"column"`
	// Cell is its name in a workbook, such as "B7"; Line and Col are then the row and
	// the column.
	Cell string `json:"cell,omitempty"`
}

// String gives "file:line:col", or "file:cell", or the file alone where there is no
// line.
func (p Pos) String() string {
	switch {
	case p.Line == 0:
		return plain.Printable(p.File)
	case p.Cell != "":
		return plain.Printable(p.File) + ":" + p.Cell
	}
	return fmt.Sprintf("%s:%d:%d", plain.Printable(p.File), p.Line, p.Col)
}

// Finding is one thing wrong with an authored file.
type Finding struct {
	Pos
	Rule    string `json:"rule"`           // short name of the rule broken
	Message string `json:"message"`        // what is wrong
	Hint    string `json:"hint,omitempty"` // what to do about it
	// Follows are findings that most likely go away with this one.
	Follows Findings `json:"follows,omitempty"`
}

// Error gives the finding on one line: "file:line:col: rule: message (hint)".
func (f Finding) Error() string {
	s := fmt.Sprintf("%s: %s: %s", f.Pos, f.Rule, f.Message)
	if f.Hint != "" {
		s += " (" + f.Hint + ")"
	}
	return s
}

// Folded says on one line how many findings follow from this one; it is empty
// where none does.
func (f Finding) Folded() string {
	if len(f.Follows) == 0 {
		return ""
	}
	first := f.Follows[0]
	if n := len(f.Follows); n > 1 {
		return wording.Sprintf("%d more findings follow from this, such as line %d: %s: %s", n, first.Line, first.Rule, first.Message)
	}
	return wording.Sprintf("1 more finding follows from this: line %d: %s: %s", first.Line, first.Rule, first.Message)
}

// Findings are all findings of one run, in the order of the files.
type Findings []Finding

// Error gives one line per finding, and an indented one beneath where others
// follow from it.
func (fs Findings) Error() string {
	var lines []string
	for _, f := range fs {
		lines = append(lines, f.Error())
		if folded := f.Folded(); folded != "" {
			lines = append(lines, "    "+folded)
		}
	}
	return strings.Join(lines, "\n")
}

// Err is fs as an error, nil when there are none.
func (fs Findings) Err() error {
	if len(fs) == 0 {
		return nil
	}
	return fs
}

// Sort orders findings by file, line, column and rule.
func (fs Findings) Sort() {
	sorting.Stable(fs, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col), cmp.Compare(a.Rule, b.Rule))
	})
}

// Report collects the findings of one or more files, and counts those beyond a
// number that nobody reads. The zero value is ready.
type Report struct {
	found Findings
	more  int
}

// mostKept is how many findings a report keeps. A file of millions of unknown
// fields would otherwise fill gigabytes.
const mostKept = 10000

// Add records one finding.
func (r *Report) Add(p Pos, rule, message, hint string) {
	if len(r.found) == mostKept {
		r.more++
		return
	}
	r.found = append(r.found, Finding{Pos: p, Rule: rule, Message: message, Hint: hint})
}

// All are the findings so far, as they were added. The caller must not change them.
func (r *Report) All() []Finding { return r.found }

// mostFolded is how many findings are kept beneath another.
const mostFolded = 1000

// Fold puts a finding beneath the one at a place in [Report.All], from which it
// follows.
func (r *Report) Fold(i int, f Finding) {
	if cause := &r.found[i]; len(cause.Follows) < mostFolded {
		cause.Follows = append(cause.Follows, f)
	}
}

// explain puts a finding in the place of the last one that says this at a place, which
// then follows from it, and reports whether there was one.
func (r *Report) explain(at Pos, message string, by Finding) bool {
	const mostBack = 50 // findings of one table
	for i := len(r.found) - 1; i >= max(0, len(r.found)-mostBack); i-- {
		if f := r.found[i]; f.Pos == at && f.Message == message {
			by.Follows = append(Findings{f}, f.Follows...)
			by.Follows[0].Follows = nil
			r.found[i] = by
			return true
		}
	}
	return false
}

// Skip counts one finding that is not recorded.
func (r *Report) Skip() { r.more++ }

// Findings are the findings so far, sorted; the last one counts those that are
// not among them.
func (r *Report) Findings() Findings {
	out := slices.Clone(r.found)
	for i := range out {
		out[i].Follows.Sort()
	}
	out.Sort()
	if r.more > 0 && len(out) > 0 {
		out = append(out, Finding{Pos: out[len(out)-1].Pos, Rule: "and-more",
			Message: wording.Sprintf("%d more findings are not listed", r.more), Hint: wording.Text("fix these first, then check again")})
	}
	return out
}

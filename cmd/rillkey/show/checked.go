//go:build !js

package show

import (
	"fmt"
	"io"
	"strings"

	"rillkey/couplets/rules"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// CheckJSON is what a check of keys has found.
type CheckJSON struct {
	Files    []CheckedFile     `json:"files"`
	Errors   authored.Findings `json:"errors"`
	Warnings authored.Findings `json:"warnings"`
	Note     string            `json:"note,omitempty"` // what was not checked, and why
}

// CheckedFile is one key that was checked; counts are 0 where it has errors.
type CheckedFile struct {
	File     string `json:"file"`
	Couplets int    `json:"couplets"`
	Ends     int    `json:"end_points"`
}

// NewChecked is a check without files.
func NewChecked() *CheckJSON {
	return &CheckJSON{Files: []CheckedFile{}, Errors: authored.Findings{}, Warnings: authored.Findings{}}
}

// Add adds one file and what was found in it.
func (c *CheckJSON) Add(file string, couplets, ends int, errors, warnings authored.Findings) {
	c.Files = append(c.Files, CheckedFile{file, couplets, ends})
	c.Errors = append(c.Errors, errors...)
	c.Warnings = append(c.Warnings, warnings...)
	c.Errors.Sort()
	c.Warnings.Sort()
}

// Warning is a warning on one line.
func Warning(f authored.Finding) string {
	f.Rule = wording.Sprintf("warning: %s", f.Rule)
	return f.Error()
}

// Text writes one line for every finding and one for every sound file. Findings
// stay on one line, however long, so that editors can follow them.
func (c *CheckJSON) Text(w io.Writer) error {
	var b strings.Builder
	told := map[string]bool{}
	for _, line := range errorLines(c.Errors, told) {
		fmt.Fprintln(&b, line)
	}
	for _, f := range c.Warnings {
		f = explained(f, told)
		fmt.Fprintf(&b, "%s\n", Warning(f))
	}
	for _, f := range c.Files {
		if f.Couplets > 0 {
			fmt.Fprintf(&b, "%s\n", wording.Sprintf("%s: sound; %s, %s",
				plain.Printable(f.File), plain.Count(f.Couplets, "couplet"), plain.Count(f.Ends, "end point")))
		}
	}
	fmt.Fprintf(&b, "%s, %s\n", plain.Count(len(c.Errors), "error"), plain.Count(len(c.Warnings), "warning"))
	if c.Note != "" {
		fmt.Fprintln(&b, c.Note)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// Explained are the lines of findings, the first of each rule with the command that
// explains it.
func Explained(found authored.Findings) string {
	return strings.Join(errorLines(found, map[string]bool{}), "\n")
}

// errorLines are a line for each finding, and beneath it what follows from it. A trait
// that one file misspells in the same way at several places is told at its first.
func errorLines(found authored.Findings, told map[string]bool) (lines []string) {
	type slip struct{ file, message string }
	places := map[slip][]string{}
	of := func(f authored.Finding) (slip, bool) {
		return slip{f.File, f.Message}, f.Rule == "unknown-trait" && f.Line > 0
	}
	for _, f := range found {
		if s, ok := of(f); ok {
			places[s] = append(places[s], fmt.Sprintf("%d:%d", f.Line, f.Col))
		}
	}
	for _, f := range found {
		s, ok := of(f)
		at, first := places[s], fmt.Sprintf("%d:%d", f.Line, f.Col)
		again := ok && at[0] != first
		if !again {
			lines = append(lines, explained(f, told).Error())
		}
		if folded := f.Folded(); folded != "" {
			lines = append(lines, "    "+folded)
		}
		if ok && !again && len(at) > 1 {
			lines = append(lines, "    "+theSameAt(at[1:]))
		}
	}
	return lines
}

// theSameAt says where else the same is wrong.
func theSameAt(places []string) string {
	const most = 8
	if len(places) == 1 {
		return wording.Sprintf("the same at %s", places[0])
	}
	shown := strings.Join(places[:min(most, len(places))], ", ")
	if len(places) > most {
		shown += ", …"
	}
	return wording.Sprintf("the same at %d more places: %s", len(places), shown)
}

// explained is a finding that names the command that explains its rule, if that has a
// page and was not told before.
func explained(f authored.Finding, told map[string]bool) authored.Finding {
	if _, ok := rules.Explain(f.Rule); !ok || told[f.Rule] {
		return f
	}
	told[f.Rule] = true
	if f.Hint != "" {
		f.Hint += "; "
	}
	f.Hint += wording.Sprintf("more: 'rillkey couplets check --explain %s'", f.Rule)
	return f
}

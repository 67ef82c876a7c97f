//go:build !js

package show

import (
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"rillkey/couplets/rules"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// KeyRules lists all rules of checking keys with one sentence each.
func KeyRules(w io.Writer, width int, pages []rules.HelpPage) error {
	p := newPage(w, width)
	kind := ""
	for _, page := range pages {
		if page.Kind != kind {
			kind = page.Kind
			p.line(kinds(kind))
		}
		if p.width < narrow {
			p.text(2, 2, "%s", page.Rule)
			p.text(4, 4, "%s", wording.Text(page.Brief))
			continue
		}
		for i, l := range fold(wording.Text(page.Brief), p.width-24) {
			name := page.Rule
			if i > 0 {
				name = ""
			}
			p.line(fmt.Sprintf("  %-20s %s", name, l))
		}
	}
	p.line("")
	p.text(0, 0, "More about one, such as the first: rillkey couplets check --explain %s", pages[0].Rule)
	return p.err
}

// Rule writes the page of one rule. Examples keep their lines, since they are
// to be compared with a file.
func Rule(w io.Writer, page rules.HelpPage) error {
	var b strings.Builder
	text := page.Text
	if !strings.Contains(text, "\n") {
		text = strings.Join(fold(wording.Text(text), 78), "\n")
	} else {
		text = wording.Long(text, func(s string) []string { return fold(s, 78) })
	}
	fmt.Fprintf(&b, "%s (%s)\n%s\n\n%s\n", page.Rule, wording.Text(page.Kind), wording.Text(page.Brief), text)
	if page.Passes != "" {
		at, column := failsAt(page)
		example(&b, wording.Sprintf("Fails, at line %s, column %s:", at, column), inLanguage(page.Fails))
		example(&b, wording.Text("Passes:"), inLanguage(page.Passes))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// inLanguage is an example with what people read in it said in the language in use.
func inLanguage(example string) string {
	return rules.Readable().ReplaceAllStringFunc(example, func(field string) string {
		m := rules.Readable().FindStringSubmatch(field)
		return m[1] + wording.Text(m[2]) + `"`
	})
}

// failsAt is the line and column at which the example of a rule fails, in the words in
// which it is shown.
func failsAt(page rules.HelpPage) (line, column string) {
	line, column, _ = strings.Cut(page.FailsAt, ":")
	n, _ := strconv.Atoi(line)
	at, err := strconv.Atoi(column)
	lines := strings.Split(page.Fails, "\n")
	if err != nil || n < 1 || n > len(lines) {
		return line, column
	}
	before := []rune(lines[n-1])
	before = before[:min(max(0, at-1), len(before))]
	return line, strconv.Itoa(at + utf8.RuneCountInString(inLanguage(string(before))) - len(before))
}

// kinds is the heading of the rules of a kind.
func kinds(kind string) string {
	if kind == "warning" {
		return wording.Text("Warnings")
	}
	return wording.Text("Errors")
}

func example(b *strings.Builder, title, text string) {
	fmt.Fprintf(b, "\n%s\n\n", title)
	if text == "" {
		text = wording.Text("(an empty file)\n")
	}
	for i, l := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		fmt.Fprintf(b, "%4d  %s\n", i+1, plain.Printable(l))
	}
}

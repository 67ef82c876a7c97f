package rules

import (
	"cmp"
	"embed"
	"path"
	"slices"
	"strings"
	"sync"

	"github.com/rogpeppe/go-internal/txtar"

	"rillkey/taxa/authored"
	"rillkey/taxa/pattern"
)

//go:embed pages/*.txtar
var pagesFS embed.FS

// HelpPage explains one rule. Its examples are couplets alone, or whole keys; rules of
// other files have none.
type HelpPage struct {
	Rule    string `json:"rule"`
	Kind    string `json:"kind"`        // "error" or "warning"
	Brief   string `json:"brief"`       // one sentence
	Text    string `json:"explanation"` // paragraphs
	Fails   string `json:"fails,omitempty"`
	FailsAt string `json:"fails_at,omitempty"` // where in Fails: "line:column"
	Passes  string `json:"passes,omitempty"`
}

// elsewhere are the rules of other files than keys, whose pages have no examples.
//
//go:embed elsewhere.toml
var elsewhere []byte

// elsewherePages are the pages of the rules of files other than keys.
func elsewherePages() []HelpPage {
	var report authored.Report
	var out []HelpPage
	for _, row := range authored.Parse("elsewhere.toml", elsewhere, &report).Subs("rule") {
		p := HelpPage{Rule: row.ID, Kind: row.Str("kind"), Text: row.NeedStr("text")}
		if p.Kind == "" {
			p.Kind = "error"
		}
		p.Brief = "In " + row.NeedStr("of") + "."
		row.Done()
		out = append(out, p)
	}
	if found := report.Findings(); len(found) > 0 {
		panic(found) // the file is part of the program
	}
	return out
}

// pages are all pages, errors first, in the order of their names.
var pages = sync.OnceValue(func() []HelpPage {
	entries, err := pagesFS.ReadDir("pages")
	if err != nil {
		panic(err) // the files are part of the program
	}
	var out []HelpPage
	for _, e := range entries {
		data, err := pagesFS.ReadFile(path.Join("pages", e.Name()))
		if err != nil {
			panic(err)
		}
		out = append(out, parsePage(strings.TrimSuffix(e.Name(), ".txtar"), data))
	}
	out = append(out, elsewherePages()...)
	slices.SortStableFunc(out, func(a, b HelpPage) int {
		return cmp.Or(strings.Compare(a.Kind, b.Kind), strings.Compare(a.Rule, b.Rule))
	})
	return out
})

func parsePage(rule string, data []byte) HelpPage {
	archive := txtar.Parse(data)
	p := HelpPage{Rule: rule}
	head := string(archive.Comment)
	p.Kind, head, _ = strings.Cut(head, "\n")
	p.Brief, p.Text, _ = strings.Cut(head, "\n")
	p.Text = strings.TrimSpace(p.Text)
	for _, f := range archive.Files {
		if name, at, _ := strings.Cut(f.Name, ":"); name == "fails.toml" {
			p.Fails, p.FailsAt = string(f.Data), at
		} else {
			p.Passes = string(f.Data)
		}
	}
	return p
}

// Readable finds what people read in an example, behind the name of its field.
var Readable = pattern.New(`(\b(?:text|ask|why|title|source|cerci)\s*=\s*")((?:[^"\\]|\\.)*)"`)

// Pages are the pages of all rules, errors first.
func Pages() []HelpPage { return pages() }

// Explain is the page of a rule, and whether there is one.
func Explain(rule string) (HelpPage, bool) {
	i := slices.IndexFunc(pages(), func(p HelpPage) bool { return p.Rule == rule })
	if i < 0 {
		return HelpPage{}, false
	}
	return pages()[i], true
}

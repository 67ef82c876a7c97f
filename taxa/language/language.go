// Package language reads what the program says in other languages: the files inside
// it, named by their language, and a region's own words.toml, which comes before them.
package language

import (
	"bufio"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strconv"
	"strings"
	"sync"

	"rillkey/taxa/authored"
	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

//go:embed *.toml
var embedded embed.FS

// Names are the languages that the program speaks beside English, sorted.
func Names() (out []string) {
	files, _ := fs.Glob(embedded, "*.toml") // the pattern is sound
	for _, f := range files {
		out = append(out, strings.TrimSuffix(f, ".toml"))
	}
	return out
}

// Catalogue is the catalogue of a language, as RFC 5646 writes it: that of "de" for "de-AT"
// too. It is nil for English, and for a language that the program does not speak.
func Catalogue(language string) (*wording.Catalogue, error) {
	base, _, _ := strings.Cut(strings.ToLower(language), "-")
	if !slices.Contains(Names(), base) {
		return nil, nil
	}
	c, err := Read(embedded, base+".toml", base+".toml", nil)
	if c != nil {
		c.Language = language
	}
	return c, err
}

// Region is the catalogue of a region in a language with a file of its own words,
// which may lack. The error is of type [authored.Findings] where that could be read.
func Region(language string, fsys fs.FS, name, shown string) (*wording.Catalogue, error) {
	base, err := Catalogue(language)
	if err != nil {
		return nil, err
	}
	if base == nil && language != "" {
		base = &wording.Catalogue{Language: language}
	}
	c, err := Read(fsys, name, shown, base)
	if errors.Is(err, fs.ErrNotExist) {
		if base != nil && len(base.Say) == 0 {
			return nil, nil
		}
		return base, nil
	}
	return c, err
}

// Read reads a file of words over those of a base, which may be nil. The error is of
// type [authored.Findings] where the file could be read.
func Read(fsys fs.FS, name, shown string, base *wording.Catalogue) (*wording.Catalogue, error) {
	var report authored.Report
	top, err := authored.ReadTable(fsys, name, shown, &report)
	if err != nil {
		return nil, err
	}
	c := &wording.Catalogue{Say: map[string]string{}, Instead: map[string]string{}}
	if base != nil {
		c.Language, c.Comma, c.Date, c.Months = base.Language, base.Comma, base.Date, base.Months
		c.Say, c.Instead = maps.Clone(base.Say), maps.Clone(base.Instead)
		if c.Say == nil {
			c.Say = map[string]string{}
		}
		if c.Instead == nil {
			c.Instead = map[string]string{}
		}
	}
	if top != nil {
		_, builtIn := fsys.(embed.FS)
		r := reader{c, !builtIn}
		r.file(top)
	}
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	return c, nil
}

type reader struct {
	c     *wording.Catalogue
	known bool // sentences must be the program's
}

func (r reader) file(top *authored.Table) {
	if t := top.Sub("numbers"); t != nil {
		r.numbers(t)
	}
	if t := top.Sub("instead"); t != nil {
		for _, from := range t.Keys() {
			to := t.NeedStr(from)
			if !phrase().MatchString(from) {
				t.FailAt(t.KeyPos(from), "bad-phrase", plain.Quote(from)+" is no word or phrase",
					"write words of two letters at least, as they stand in the program's sentences")
				continue
			}
			r.c.Instead[from] = to
			if strings.ContainsAny(to, "%{}") {
				t.Fail(from, "bad-phrase", "a word said instead holds no %, { or }", "write plain words")
			}
		}
		t.Done()
	}
	if t := top.Sub("say"); t != nil {
		r.say(t)
	}
	top.Done()
}

var phrase = pattern.New(`^[\pL\d][\pL\d' -]*[\pL\d]$`)

func (r reader) numbers(t *authored.Table) {
	if d := t.Str("decimals"); t.Has("decimals") && d != "," && d != "." {
		t.Fail("decimals", "bad-decimals", "decimals come after a comma or a point", `write decimals = ","`)
	} else if d != "" {
		r.c.Comma = d == ","
	}
	if t.Has("date") {
		if r.c.Date = t.NeedStr("date"); strings.Count(r.c.Date, "January") != 1 || !strings.Contains(r.c.Date, "2006") {
			t.Fail("date", "bad-date", "this does not say how a day is written",
				`write how 2 January 2006 is, with January for the month's name: date = "2. January 2006"`)
		}
	}
	if t.Has("months") {
		if r.c.Months = t.Strs("months"); len(r.c.Months) != 12 {
			t.Fail("months", "bad-months", fmt.Sprintf("these are %d names of months, not 12", len(r.c.Months)),
				"name all of them, January first")
		}
	}
	t.Done()
}

func (r reader) say(t *authored.Table) {
	forms := len(wording.Forms(r.c.Language))
	for _, english := range t.Keys() {
		said := t.NeedStr(english)
		r.c.Say[english] = said
		if r.known && !Known(english) {
			t.FailAt(t.KeyPos(english), "unknown-sentence", "the program says nothing like "+plain.Quote(english), nearest(english))
			continue
		}
		if isPlural(english) {
			if n := strings.Count(said, "|") + 1; n != forms {
				t.Fail(english, "plural-forms", fmt.Sprintf("these are %d forms, and the language has %d beside a number (%s)", n, forms,
					strings.Join(wording.Forms(r.c.Language), ", ")), "part them by | in this order")
			}
			continue
		}
		if problem := wording.Fits(english, said); problem != "" {
			t.Fail(english, "other-values", problem,
				"each % with its letter, and each {{…}}, stands for a value: keep them, with %[2]s for the second in another order")
		}
	}
	t.Done()
}

// isPlural reports whether a sentence is the forms of a word beside a number.
func isPlural(english string) bool {
	return strings.Count(english, "|") == 1 && !strings.Contains(english, "{{")
}

// nearest is what to do about a sentence that the program does not say.
func nearest(english string) string {
	fold := plain.Fold(english)
	for _, s := range Sentences() {
		if f := plain.Fold(s); f == fold || len(fold) > 12 && len(f) > 12 && f[:12] == fold[:12] {
			return "did you mean " + plain.Quote(s) + "?"
		}
	}
	return "'rillkey region words' lists what it says"
}

//go:embed sentences.txt
var sentences string

// Sentences are all that the program says to those who name and count, in English, as
// files of words have them; sorted.
var Sentences = sync.OnceValue(func() (out []string) {
	lines := bufio.NewScanner(strings.NewReader(sentences))
	for lines.Scan() {
		if s, err := strconv.Unquote(lines.Text()); err == nil {
			out = append(out, s)
		}
	}
	return out
})

// Known reports whether the program says a sentence.
func Known(english string) bool {
	_, known := slices.BinarySearch(Sentences(), english)
	return known
}

// Missing are the sentences that a catalogue does not say in its own words.
func Missing(c *wording.Catalogue) (out []string) {
	for _, s := range Sentences() {
		if c == nil || c.Say[s] == "" {
			out = append(out, s)
		}
	}
	return out
}

// streamWords are what the program's English sentences call things at a stream.
var streamWords = pattern.New(`(?i)\b(?:animals?|trays?|nets?|water|streams?|stream bed|stones?|gills?)\b`)

// OfStreams are the sentences that speak of streams and their animals and that a
// region's words, which may be nil, say as its language does at a stream.
func OfStreams(words *wording.Catalogue) (out []string) {
	var usual *wording.Catalogue
	if words != nil {
		usual, _ = Catalogue(words.Language) // nil where the program has no file of it: English
	}
	for _, s := range Sentences() {
		if streamWords().MatchString(s) && words.Text(s) == usual.Text(s) {
			out = append(out, s)
		}
	}
	return out
}

// Quoted is a sentence as a key of a file of words.
func Quoted(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`).Replace(s) + `"`
}

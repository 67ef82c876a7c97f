// Package language reads what the program says in other languages: the files inside
// it, named by their language, and a region's own words.toml, which comes before them.
package language

import (
	"bufio"
	"cmp"
	"embed"
	"errors"
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

//go:embed *.toml elsewhere/*.toml
var embedded embed.FS

// Setting says what lives in a region: in what words the program speaks of it.
type Setting int

const (
	AtStreams Setting = iota // animals of streams, as the program's own sentences have it
	Elsewhere                // something else, such as leaves of trees
)

// Names are the languages that the program speaks beside English, sorted.
func Names() (out []string) {
	files, _ := fs.Glob(embedded, "*.toml") // the pattern is sound
	for _, f := range files {
		out = append(out, strings.TrimSuffix(f, ".toml"))
	}
	return out
}

// BuiltIn is the catalogue of a language, as RFC 5646 writes it: that of "de" for "de-AT"
// too. It is nil for English, and for a language that the program does not speak. What it
// says is shared by all who ask, and not to be changed.
func BuiltIn(language string) (*wording.Translation, error) {
	base, _, _ := strings.Cut(strings.ToLower(language), "-")
	if !slices.Contains(Names(), base) {
		return nil, nil
	}
	c, err := catalogues()[base]()
	if err != nil {
		return nil, err
	}
	return &wording.Translation{Language: language, Say: c.Say, Instead: c.Instead, Comma: c.Comma, Date: c.Date, Months: c.Months}, nil
}

// catalogues are those inside the program by their language, each read when it is
// first asked for.
var catalogues = sync.OnceValue(func() map[string]func() (*wording.Translation, error) {
	out := map[string]func() (*wording.Translation, error){}
	for _, name := range Names() {
		out[name] = sync.OnceValues(func() (*wording.Translation, error) {
			return read(embedded, name+".toml", name+".toml", nil)
		})
	}
	return out
})

// WithoutRegion is the catalogue of a language where a region has no words of its own,
// which for what is no stream has words that speak of none, as far as the program has such.
func WithoutRegion(language string, where Setting) (*wording.Translation, error) {
	base, err := BuiltIn(language)
	if err != nil || where == AtStreams {
		return base, err
	}
	tag, _, _ := strings.Cut(cmp.Or(strings.ToLower(language), "en"), "-")
	c, err := read(embedded, "elsewhere/"+tag+".toml", tag+".toml", base)
	if errors.Is(err, fs.ErrNotExist) {
		return base, nil
	}
	if c != nil {
		c.Language = language
	}
	return c, err
}

// OfRegion is the catalogue of a region in a language with a file of its own words,
// which may lack. The error is of type [authored.Findings] where that could be read.
func OfRegion(language string, where Setting, fsys fs.FS, name, shown string) (*wording.Translation, error) {
	base, err := WithoutRegion(language, where)
	if err != nil {
		return nil, err
	}
	if base == nil && language != "" {
		base = &wording.Translation{Language: language}
	}
	c, err := read(fsys, name, shown, base)
	if errors.Is(err, fs.ErrNotExist) {
		if base != nil && len(base.Say) == 0 && len(base.Instead) == 0 {
			return nil, nil
		}
		return base, nil
	}
	return c, err
}

// read reads a file of words over those of a base, which may be nil. The error is of
// type [authored.Findings] where the file could be read.
func read(fsys fs.FS, name, shown string, base *wording.Translation) (*wording.Translation, error) {
	var report authored.Report
	top, err := authored.ReadTable(fsys, name, shown, &report)
	if err != nil {
		return nil, err
	}
	c := &wording.Translation{Say: map[string]string{}, Instead: map[string]string{}}
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
		r := reader{c, builtIn}
		r.file(top)
	}
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	return c, nil
}

type reader struct {
	c     *wording.Translation
	sound bool // as what is inside the program, which its tests hold to what others are held to here
}

func (r reader) file(top *authored.Table) {
	if t := top.Sub("numbers"); t != nil {
		r.numbers(t)
	}
	if t := top.Sub("instead"); t != nil {
		for _, from := range t.Keys() {
			to := t.NeedStr(from)
			if !phrase().MatchString(from) {
				t.FailAt(t.KeyPos(from), "bad-phrase", wording.Sprintf("%s is no word or phrase", plain.Quote(from)),
					wording.Text("write words of two letters at least, as they stand in the program's sentences"))
				continue
			}
			r.c.Instead[from] = to
			if strings.ContainsAny(to, "%{}") {
				t.Fail(from, "bad-phrase", wording.Text("a word said instead holds no %, { or }"), wording.Text("write plain words"))
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
		t.Fail("decimals", "bad-decimals", wording.Text("decimals come after a comma or a point"), wording.Text(`write decimals = ","`))
	} else if d != "" {
		r.c.Comma = d == ","
	}
	if t.Has("date") {
		if r.c.Date = t.NeedStr("date"); strings.Count(r.c.Date, "January") != 1 || !strings.Contains(r.c.Date, "2006") {
			t.Fail("date", "bad-date", wording.Text("this does not say how a day is written"),
				wording.Text(`write how 2 January 2006 is, with January for the month's name: date = "2. January 2006"`))
		}
	}
	if t.Has("months") {
		if r.c.Months = t.Strs("months"); len(r.c.Months) != 12 {
			t.Fail("months", "bad-months", wording.Sprintf("these are %d names of months, not 12", len(r.c.Months)),
				wording.Text("name all of them, January first"))
		}
	}
	t.Done()
}

func (r reader) say(t *authored.Table) {
	forms := len(wording.Forms(r.c.Language))
	for _, english := range t.Keys() {
		said := t.NeedStr(english)
		if strings.Contains(english, "\n") {
			said = t.Lines(english)
		}
		r.c.Say[english] = said
		if r.sound {
			continue
		}
		if !Known(english) {
			t.FailAt(t.KeyPos(english), "unknown-sentence", wording.Sprintf("the program says nothing like %s", plain.Quote(english)),
				nearest(english))
			continue
		}
		if isPlural(english) {
			if n := strings.Count(said, "|") + 1; n != forms {
				t.Fail(english, "plural-forms", wording.Sprintf("these are %d forms, and the language has %d beside a number (%s)", n,
					forms,
					strings.Join(wording.Forms(r.c.Language), ", ")), wording.Text("part them by | in this order"))
			}
			continue
		}
		if problem := wording.Fits(english, said); problem != "" {
			t.Fail(english, "other-values", problem,
				wording.Text("each % with its letter, and each {{…}}, stands for a value: keep them, with %[2]s for the second in "+
					"another order"))
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
			return wording.Sprintf("did you mean %s?", plain.Quote(s))
		}
	}
	return wording.Text("'rillkey region words' lists what it says")
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
func Missing(c *wording.Translation) (out []string) {
	for _, s := range Sentences() {
		if c == nil || c.Say[s] == "" {
			out = append(out, s)
		}
	}
	return out
}

// streamWords are what the program's English sentences call things at a stream.
var streamWords = pattern.New(`(?i)\b(?:animals?|creatures?|trays?|nets?|netted|water|streams?|stream bed|stones?|gills?|` +
	`nymphs?|larvae?)\b`)

// ofDrawings name what drawings of animals show, and stand beside such alone.
var ofDrawings = map[string]bool{
	"caddisfly larva without a case": true, "damselfly nymph": true, "dragonfly nymph": true, "gills": true, "its gills": true,
	"hunting larva": true, "larva in a case": true, "larva of beads": true, "larva of hard rings": true,
	"larva with jaws and side arms": true, "legless larva": true, "mayfly nymph": true, "plump larva": true,
	"saucer-like larva": true, "six-legged nymph or larva": true, "soft larva with six legs": true, "stonefly nymph": true,
	"twigs on a stone": true, "water bug": true, "water-flea-like animal": true,
}

// typed is what stands in a sentence to be typed as it is, or speaks of the words of streams.
var typed = pattern.New(`--[a-z-]+|"[a-z]+"|as at a stream`)

// OfStreams are the sentences that speak of streams and their animals and that a
// region's words, which may be nil, say as at a stream: in English those with a word of
// streams in them, else those that they say as the region's language does.
func OfStreams(words *wording.Translation) (out []string) {
	var usual *wording.Translation
	if words != nil {
		usual, _ = BuiltIn(words.Language) // nil where the program has no file of it: English
	}
	for _, s := range Sentences() {
		if !streamWords().MatchString(s) || ofDrawings[s] {
			continue
		}
		said := typed().ReplaceAllString(words.Text(s), "")
		if usual == nil && streamWords().MatchString(said) || usual != nil && said == usual.Text(s) {
			out = append(out, s)
		}
	}
	return out
}

// Quoted is a sentence as a key of a file of words.
func Quoted(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`).Replace(s) + `"`
}

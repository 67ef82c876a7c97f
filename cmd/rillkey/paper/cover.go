package paper

import (
	"embed"
	"io/fs"
	"path"
	"slices"
	"strings"

	"rillkey/taxa/authored"
	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

//go:embed covers
var covers embed.FS

// Cover is the words of a report's first page for one kind of reader, over the same
// report: a file of the folder covers, whose head says what belongs where, or one of
// a group's own.
type Cover struct {
	title, opens string
	facts        bool // figures for those who judge the work
	lines        []string
	answers      map[string]string // what may be said of the stream, by answerCases
	classes      map[string]string // what animals of a class are, by its label
	parts        []coverPart
}

type coverPart struct {
	title  string
	points []string
}

// answerCases are what a grade may come to.
var answerCases = []string{"word", "provisional", "between", "none"}

// blanks are what stands for something of the visit in a cover's texts; those of the
// answer stand nowhere else.
var blanks = []string{"site", "day", "people", "samples", "animals", "kinds", "protocol", "index", "value"}

// CoverNames are the readers that there are words for.
func CoverNames() (names []string) {
	entries, _ := covers.ReadDir("covers") // it is part of the program
	for _, e := range entries {
		if e.IsDir() {
			continue // the same in another language
		}
		names = append(names, strings.TrimSuffix(e.Name(), ".toml"))
	}
	return names
}

// EmbeddedCover is the cover of the name, one of [CoverNames], in the language in use if
// it is there in that.
func EmbeddedCover(name string) (*Cover, error) {
	if !slices.Contains(CoverNames(), name) {
		return nil, wording.Errorf("there are no words for %s; there are some for %s, or name a file of your own",
			plain.Quote(name), plain.And(CoverNames()))
	}
	file := path.Join("covers", name+".toml")
	language, _, _ := strings.Cut(strings.ToLower(wording.Language()), "-")
	own := path.Join("covers", language, name+".toml")
	if _, err := fs.Stat(covers, own); err == nil {
		file = own
	}
	return LoadCover(covers, file, name)
}

// LoadCover reads a file of covers, whose messages call it shown. The error is of
// type [authored.Findings] where the file could be read at all.
func LoadCover(fsys fs.FS, name, shown string) (*Cover, error) {
	var report authored.Report
	top, err := authored.ReadTable(fsys, name, shown, &report)
	if err != nil {
		return nil, err
	}
	if top == nil {
		return nil, report.Findings().Err()
	}
	var r Cover
	top.Need("cover", "answer")
	if t := top.Sub("cover"); t != nil {
		r.head(t)
	}
	if t := top.Sub("answer"); t != nil {
		r.answer(t)
	}
	if t := top.Sub("classes"); t != nil {
		r.classes = map[string]string{}
		for _, label := range t.Keys() {
			r.classes[label] = text(t, label)
		}
		t.Done()
	}
	for _, row := range top.Subs("part") {
		r.part(row.Table)
	}
	top.Done()
	if err := report.Findings().Err(); err != nil {
		return nil, err
	}
	return &r, nil
}

func (r *Cover) head(t *authored.Table) {
	r.title, r.opens, r.facts = text(t, "title"), text(t, "opens"), t.Bool("facts")
	t.NeedStr("source") // for whoever reads the file
	r.lines = texts(t, "lines")
	t.Done()
}

func (r *Cover) answer(t *authored.Table) {
	r.answers = map[string]string{}
	for _, c := range answerCases {
		r.answers[c] = text(t, c, answerBlanks()[c]...)
		for _, b := range answerBlanks()[c] {
			if t.Has(c) && !strings.Contains(r.answers[c], "{"+b+"}") {
				t.Fail(c, "no-blank", wording.Sprintf("the answer lacks {%s}", b), wording.Text("what the grade says must stand in it"))
			}
		}
	}
	t.Done()
}

func (r *Cover) part(t *authored.Table) {
	t.Need("points")
	r.parts = append(r.parts, coverPart{title: text(t, "title"), points: texts(t, "points")})
	t.Done()
}

// text reads what stands under a key, in which more may be filled in than elsewhere.
func text(t *authored.Table, key string, more ...string) string {
	s := t.NeedStr(key)
	checkText(t, key, s, more)
	return s
}

func texts(t *authored.Table, key string) []string {
	all := t.Strs(key)
	for _, s := range all {
		checkText(t, key, s, nil)
	}
	return all
}

var (
	blank   = pattern.New(`\{[^}]*\}?`)
	unasked = pattern.New(`(?i)\b(drink|drank|drunk|potable|swim|swam|bath(e|ing)|paddl|trink|schwimm|bade[nst]?\b)`)
)

// checkText refuses what nothing stands for, and what a grade never speaks on.
func checkText(t *authored.Table, key, text string, more []string) {
	may := slices.Concat(blanks, more)
	for _, b := range blank().FindAllString(text, -1) {
		if !slices.Contains(may, strings.Trim(b, "{}")) {
			t.Fail(key, "unknown-blank", wording.Sprintf("nothing stands for %s here", plain.Quote(b)), wording.Sprintf("there are {%s}",
				strings.Join(may, "}, {")))
		}
	}
	if found := unasked().FindString(text); found != "" {
		t.Fail(key, "unasked", wording.Sprintf("%s: a grade never speaks on drinking or swimming", plain.Quote(found)),
			wording.Text("leave it out; the page says itself that it does not"))
	}
}

func answerBlanks() map[string][]string {
	return map[string][]string{"word": {"word"}, "provisional": {"word"}, "between": {"low", "high"}, "none": {"reason"}}
}

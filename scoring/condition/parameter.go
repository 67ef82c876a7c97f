// Package condition knows what can be noted of a stream and a day beside the
// animals: weather, water, bed, banks, how the work was done. What there is stands
// in conditions.toml, in the order of the field sheet; whatever types it in, keeps
// it, prints it or hands it over goes through that table.
//
// Begin with [Parameter], [Value] and [Values].
package condition

import (
	"embed"
	"io/fs"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Form is what kind of value a parameter takes.
type Form string

// The forms.
const (
	NumberForm  Form = "number"  // of the parameter's unit
	TimeForm    Form = "time"    // of the day, 24 hours, as 09:30
	ChoiceForm  Form = "choice"  // one of the categories
	ChoicesForm Form = "choices" // several of the categories
	PartsForm   Form = "parts"   // per cent of several categories, 100 together
	TextForm    Form = "text"
	PersonsForm Form = "people" // names
	FilesForm   Form = "files"  // names of files with their checksums
)

var forms = []Form{NumberForm, TimeForm, ChoiceForm, ChoicesForm, PartsForm, TextForm, PersonsForm, FilesForm}

// Parameter is one thing that can be noted.
type Parameter struct {
	ID           string
	Title        string
	Section      string // title of the part of the sheet that it stands in
	Form         Form
	Column       string // its name in files and tables
	Unit         string // of a number or of parts; empty without
	Help         string
	Categories   []Category
	Instrumented bool   // an instrument or kit may be named
	Term         string // of Darwin Core for an event; empty for a measurement or fact

	low, high float64
	units     []unit
	alike     *float64
}

// Category is one of the words that a parameter takes.
type Category struct {
	Word string
	What string // what it is; may be empty
}

// unit is another unit that is taken.
type unit struct {
	name        string
	less, times float64
}

// WithColumn is the name in files and tables of the instrument of a parameter.
func (f *Parameter) WithColumn() string { return f.Column + "_with" }

// Label is the title with the unit that is kept.
func (f *Parameter) Label() string {
	unit := f.unitWord()
	begins := len(unit) > 2 && strings.HasPrefix(strings.ToLower(f.Title), strings.ToLower(unit)) // as "Days since"
	if unit == "" || f.Form == PartsForm || begins || strings.Contains(f.Title, f.Unit) {
		return f.Title
	}
	return f.Title + ", " + unit
}

// unitWord is the unit in the language in use.
func (f *Parameter) unitWord() string { return wording.Text(f.Unit) }

//go:embed conditions.toml
var embedded embed.FS

// Parameters are all parameters in the order of the field sheet. Nothing in them is to be
// changed.
func Parameters() []*Parameter { return table() }

// table is read when it is first needed.
var table = sync.OnceValue(func() []*Parameter {
	fields, err := load(embedded, "conditions.toml")
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return fields
})

// SpokenParameters are all parameters, their titles, sections and help in the language in use. The
// words of their categories stay what files hold; [Category.Label] is what people read.
func SpokenParameters() []*Parameter {
	language := wording.InUse()
	if language == nil {
		return Parameters()
	}
	if last := spoken.Load(); last != nil && last.language == language {
		return last.fields
	}
	out := slices.Clone(Parameters())
	for i, f := range out {
		said := *f
		said.Title, said.Section, said.Help = wording.Text(f.Title), wording.Text(f.Section), wording.Text(f.Help)
		said.Categories = slices.Clone(f.Categories)
		for o := range said.Categories {
			said.Categories[o].What = wording.Text(said.Categories[o].What)
		}
		out[i] = &said
	}
	spoken.Store(&spokenIn{language, out})
	return out
}

// spokenIn are the parameters in a language.
type spokenIn struct {
	language *wording.Translation
	fields   []*Parameter
}

// spoken are those of the language that was in use last.
var spoken atomic.Pointer[spokenIn]

// Label is the word in the language in use.
func (o Category) Label() string { return wording.Text(o.Word) }

// Find is the parameter that people call name, by its id or column, as [SpokenParameters] has it, or nil.
func Find(name string) *Parameter {
	name = strings.ReplaceAll(strings.ToLower(strings.TrimSpace(name)), "_", "-")
	for _, f := range SpokenParameters() {
		if f.ID == name || strings.ReplaceAll(f.Column, "_", "-") == name {
			return f
		}
	}
	return nil
}

// UnknownParameter says that there is no parameter of the name, and which are nearest to it.
func UnknownParameter(name string) error {
	var near, all []string
	for _, f := range Parameters() {
		all = append(all, f.ID)
		if plain.Alike(f.ID, name) || len(name) > 2 && strings.Contains(f.ID, strings.ToLower(name)) {
			near = append(near, f.ID)
		}
	}
	if len(near) > 0 {
		return wording.Errorf("there is no condition %s; did you mean %s?", plain.Quote(name), strings.Join(near, ", "))
	}
	return wording.Errorf("there is no condition %s; there are %s", plain.Quote(name), strings.Join(all, ", "))
}

// load reads a table of parameters strictly, with every finding at its place.
func load(fsys fs.FS, name string) ([]*Parameter, error) {
	report := &authored.Report{}
	top, err := authored.ReadTable(fsys, name, name, report)
	if err != nil || top == nil {
		return nil, firstOf(err, report)
	}
	sections := map[string]string{}
	if s := top.Sub("section"); s != nil {
		for _, id := range s.Keys() {
			sections[id] = s.NeedStr(id)
		}
		s.Done()
	}
	var out []*Parameter
	taken := map[string]bool{}
	for _, row := range top.Subs("condition") {
		f := readParameter(row, sections)
		for _, column := range []string{f.Column, f.WithColumn()} {
			if taken[column] {
				row.Fail("column", "doubled-column", wording.Sprintf("another condition has the column %s", plain.Quote(column)),
					wording.Text("give one of the two another column"))
			}
			taken[column] = true
		}
		out = append(out, f)
	}
	top.Done()
	return out, firstOf(nil, report)
}

func firstOf(err error, report *authored.Report) error {
	if err != nil {
		return err
	}
	return report.Findings().Err()
}

func readParameter(row authored.Section, sections map[string]string) *Parameter {
	f := &Parameter{
		ID: row.ID, Title: row.NeedStr("title"), Section: sections[row.NeedStr("section")], Form: Form(row.NeedStr("form")),
		Column: row.NeedStr("column"), Unit: row.Str("unit"), Help: row.Str("help"), Instrumented: row.Bool("with"), Term: row.Str("term"),
	}
	if f.Section == "" {
		row.Fail("section", "unknown-section", wording.Sprintf("there is no section %s", plain.Quote(row.Str("section"))),
			wording.Text("name one of [section]"))
	}
	if !slices.Contains(forms, f.Form) {
		row.Fail("form", "unknown-form", wording.Sprintf("a condition cannot be %s", plain.Quote(string(f.Form))),
			wording.Sprintf("it is one of %v", forms))
	}
	f.readCategories(row)
	if f.Form == NumberForm {
		f.readNumber(row)
	}
	if v, ok := row.Num("alike"); ok {
		f.alike = &v
	}
	row.Done()
	return f
}

func (f *Parameter) readCategories(row authored.Section) {
	wants := f.Form == ChoiceForm || f.Form == ChoicesForm || f.Form == PartsForm
	if !wants {
		return
	}
	row.Need("options")
	options := row.Sub("options")
	if options == nil {
		return
	}
	for _, word := range options.Keys() {
		f.Categories = append(f.Categories, Category{word, options.Str(word)})
	}
	options.Done()
}

func (f *Parameter) readNumber(row authored.Section) {
	row.Need("low", "high")
	f.low, _ = row.Num("low")
	f.high, _ = row.Num("high")
	if f.low >= f.high {
		row.Fail("high", "bad-figure", wording.Text("high must be above low"), wording.Text("correct one of the two"))
	}
	also := row.Sub("also")
	if also == nil {
		return
	}
	for _, name := range also.Keys() {
		u := also.Sub(name)
		if u == nil {
			continue
		}
		u.Need("less", "times")
		less, _ := u.Num("less")
		times, _ := u.Num("times")
		u.Done()
		f.units = append(f.units, unit{name, less, times})
	}
	also.Done()
}

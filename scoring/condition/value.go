package condition

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Value is what was noted of one parameter. Which of its parts are used depends on the
// parameter's form; None says that what was noted is taken back.
type Value struct {
	Number     float64         // of a Number, in the parameter's unit
	Text       string          // of a Time, Choice or Text
	List       []string        // of Choices, Persons and Files
	Parts      []CategoryShare // in the order of the parameter's categories
	Instrument string          // the instrument or kit; empty where nobody named one
	None       bool
}

// CategoryShare is the share of one category.
type CategoryShare struct {
	Word    string
	Percent float64
}

// Limits on what is noted.
const (
	longest  = 2_000 // characters in a text
	mostList = 200   // entries in a list
)

// Parse reads what people type: a number in the parameter's unit or another that is
// taken, and behind "with", or that in the language in use, the instrument; a word; words or names with commas;
// "cobble 60, sand 40". A dash takes back what was noted.
func (f *Parameter) Parse(typed string) (Value, error) {
	typed = strings.TrimSpace(typed)
	v, err := f.parse(typed)
	switch {
	case typed == "-":
		return Value{None: true}, nil
	case typed == "":
		return v, wording.Errorf("%s: nothing is said; '-' takes back what was noted", f.Title)
	case err == nil:
		err = f.Check(v)
	}
	return v, err
}

func (f *Parameter) parse(typed string) (v Value, err error) {
	switch f.Form {
	case NumberForm:
		figure, with, found := strings.Cut(typed, " with ")
		if !found {
			figure, with, _ = strings.Cut(typed, " "+wording.Text("with")+" ")
		}
		v.Instrument = strings.TrimSpace(with)
		if v.Instrument != "" && !f.Instrumented {
			return v, wording.Errorf("%s takes no instrument", f.Title)
		}
		v.Number, err = f.number(strings.TrimSpace(figure))
	case TimeForm:
		v.Text = typed
		if t, ok := timeOfDay(typed); ok {
			v.Text = t.Format("15:04")
		}
	case ChoiceForm:
		v.Text, err = f.word(typed)
	case ChoicesForm:
		v.List, err = f.words(entries(typed))
	case PartsForm:
		v.Parts, err = f.parts(shares(typed))
	case PersonsForm, FilesForm:
		v.List = entries(typed)
	default:
		v.Text = typed
	}
	return v, err
}

// entries are what stands between commas; a dash says nothing among them.
func entries(typed string) (out []string) {
	for _, s := range strings.Split(typed, ",") {
		if s = strings.TrimSpace(s); s != "" && s != "-" {
			out = append(out, s)
		}
	}
	return out
}

var (
	decimalComma = pattern.New(`(\d),(\d)`)

	wordFirst   = pattern.New(`[^0-9]+[0-9.]+\s*%?`)
	figureFirst = pattern.New(`[0-9.]+\s*%?[^0-9]+`)
)

// shares are those between commas, or one behind the other: "cobble 60 sand 40" and
// "60 cobble 40 sand".
func shares(typed string) []string {
	typed = decimalComma().ReplaceAllString(typed, "$1.$2")
	if strings.Contains(typed, ",") {
		return entries(typed)
	}
	parted := wordFirst().FindAllString(typed, -1)
	if typed != "" && typed[0] >= '0' && typed[0] <= '9' {
		parted = figureFirst().FindAllString(typed, -1)
	}
	if strings.Join(parted, "") != typed {
		return entries(typed)
	}
	return entries(strings.Join(parted, ","))
}

var figure = pattern.New(`^([-+−]?[0-9]+(?:[.,][0-9]+)?|[-+−]?[.,][0-9]+)\s*(.*)$`)

// number reads a figure with its unit, and keeps two decimals of what it works out.
func (f *Parameter) number(typed string) (float64, error) {
	m := figure().FindStringSubmatch(typed)
	if m == nil {
		return 0, wording.Errorf("%s: %s is no number; write it as %s", f.Title, plain.Quote(typed), f.example())
	}
	n, err := strconv.ParseFloat(strings.NewReplacer(",", ".", "−", "-").Replace(m[1]), 64)
	if err != nil {
		return 0, wording.Errorf("%s: %s is no number", f.Title, plain.Quote(typed))
	}
	given := sameUnit(m[2])
	if given == "" || given == sameUnit(f.Unit) || given == sameUnit(f.unitWord()) {
		return n, nil
	}
	var taken []string
	for _, u := range f.units {
		if given == sameUnit(u.name) {
			return math.Round((n-u.less)*u.times*100) / 100, nil
		}
		taken = append(taken, u.name)
	}
	if f.Unit == "" {
		return 0, wording.Errorf("%s: %s; it has no unit", f.Title, plain.Quote(typed))
	}
	return 0, wording.Errorf("%s: %s is no unit for it; give %s", f.Title, plain.Quote(m[2]),
		strings.Join(append([]string{f.unitWord()}, taken...), wording.Text(" or ")))
}

func (f *Parameter) example() string {
	return wording.Number(math.Round((max(f.low, 0)+min(f.high, 20))/2)) + " " + f.unitWord()
}

// sameUnit is a unit however it was written.
func sameUnit(s string) string {
	return strings.NewReplacer("°", "", "µ", "u", "μ", "u", " ", "", "₃", "3").Replace(strings.ToLower(s))
}

// word is the category that was meant: by its word, or how just one of them begins.
func (f *Parameter) word(typed string) (string, error) {
	typed = strings.ToLower(typed)
	var begun, all []string
	for _, o := range f.Categories {
		if o.Word == typed || strings.ToLower(o.Label()) == typed {
			return o.Word, nil
		}
		if strings.HasPrefix(o.Word, typed) || strings.HasPrefix(strings.ToLower(o.Label()), typed) {
			begun = append(begun, o.Word)
		}
		all = append(all, o.Label())
	}
	if len(begun) == 1 {
		return begun[0], nil
	}
	return "", wording.Errorf("%s: %s is none of %s", f.Title, plain.Quote(typed), strings.Join(all, ", "))
}

func (f *Parameter) words(typed []string) (out []string, err error) {
	for _, s := range typed {
		word, err := f.word(s)
		if err != nil {
			return nil, err
		}
		out = append(out, word)
	}
	f.inOrder(out)
	return slices.Compact(out), nil
}

func (f *Parameter) inOrder(words []string) {
	sorting.Stable(words, func(a, b string) int { return f.place(a) - f.place(b) })
}

func (f *Parameter) place(word string) int {
	return slices.IndexFunc(f.Categories, func(o Category) bool { return o.Word == word })
}

var (
	partOf = pattern.New(`^(.*?)[\s=:]*([0-9]+(?:\.[0-9]+)?)\s*%?$`)
	ofPart = pattern.New(`^([0-9]+(?:\.[0-9]+)?)\s*%?\s*(\D+)$`)
)

func (f *Parameter) parts(typed []string) (out []CategoryShare, err error) {
	for _, s := range typed {
		m := partOf().FindStringSubmatch(s)
		if turned := ofPart().FindStringSubmatch(s); turned != nil {
			m = []string{s, turned[2], turned[1]}
		}
		if m == nil {
			return nil, wording.Errorf("%s: %s is no share; write it as \"%s 60, %s 40\"", f.Title, plain.Quote(s),
				f.Categories[0].Label(), f.Categories[1].Label())
		}
		word, err := f.word(m[1])
		if err != nil {
			return nil, err
		}
		percent, err := strconv.ParseFloat(m[2], 64)
		if err != nil {
			return nil, wording.Errorf("%s: %s is no number", f.Title, plain.Quote(m[2]))
		}
		if percent > 0 {
			out = append(out, CategoryShare{word, percent})
		}
	}
	sorting.Stable(out, func(a, b CategoryShare) int { return f.place(a.Word) - f.place(b.Word) })
	return out, nil
}

// Check says what is wrong with a value, in a sentence, or nil.
func (f *Parameter) Check(v Value) error {
	if v.None {
		return nil
	}
	err := f.checkForm(v)
	if v.Instrument != "" && !f.Instrumented {
		err = wording.NewError("it takes no instrument")
	}
	if err == nil {
		err = checkText(append([]string{v.Text, v.Instrument}, v.List...)...)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", f.Title, err)
	}
	return nil
}

func (f *Parameter) checkForm(v Value) error {
	switch f.Form {
	case NumberForm:
		if !(v.Number >= f.low && v.Number <= f.high) {
			return wording.Errorf("%s cannot be; it is from %s to %s", strings.TrimSpace(wording.Number(v.Number)+" "+f.unitWord()),
				wording.Number(f.low), strings.TrimSpace(wording.Number(f.high)+" "+f.unitWord()))
		}
	case TimeForm:
		if t, err := time.Parse("15:04", v.Text); err != nil || t.Format("15:04") != v.Text {
			return wording.Errorf("%s is no time of the day; write hours and minutes as 09:30", plain.Quote(v.Text))
		}
	case ChoiceForm:
		return f.checkWords([]string{v.Text})
	case ChoicesForm:
		return f.checkWords(v.List)
	case PartsForm:
		return f.checkParts(v.Parts)
	case FilesForm:
		return checkFiles(v.List)
	case TextForm:
		if v.Text == "" {
			return wording.NewError("it is empty")
		}
	case PersonsForm:
		if len(v.List) == 0 {
			return wording.NewError("nobody is named")
		}
	}
	if len(v.List) > mostList {
		return wording.Errorf("%d entries are too many; at most %d are kept", len(v.List), mostList)
	}
	return nil
}

func (f *Parameter) checkWords(words []string) error {
	if len(words) == 0 {
		return wording.NewError("no word is given")
	}
	for i, w := range words {
		if f.place(w) < 0 {
			return wording.Errorf("%s is not one of its words", plain.Quote(w))
		}
		if slices.Contains(words[:i], w) {
			return wording.Errorf("%s stands twice", plain.Quote(w))
		}
	}
	return nil
}

// rounding is by how much the parts may miss 100 because of rounding.
const rounding = 1

func (f *Parameter) checkParts(parts []CategoryShare) error {
	sum := 0.0
	for i, p := range parts {
		if f.place(p.Word) < 0 {
			return wording.Errorf("%s is not one of its words", plain.Quote(p.Word))
		}
		if slices.ContainsFunc(parts[:i], func(o CategoryShare) bool { return o.Word == p.Word }) {
			return wording.Errorf("%s stands twice", plain.Quote(p.Word))
		}
		if !(p.Percent > 0 && p.Percent <= 100) {
			return wording.Errorf("%s %% of %s cannot be", wording.Number(p.Percent), wording.Text(p.Word))
		}
		sum += p.Percent
	}
	if math.Abs(sum-100) > rounding {
		return wording.Errorf("the parts make %s %%, not 100", wording.Number(math.Round(sum*100)/100))
	}
	return nil
}

// checkedFile is the name of a file with the SHA-256 of what it holds.
var checkedFile = pattern.New(`^[^/\\]+ sha256:[0-9a-f]{64}$`)

func checkFiles(list []string) error {
	if len(list) == 0 {
		return wording.NewError("no file is named")
	}
	for _, s := range list {
		if !checkedFile().MatchString(s) {
			return wording.Errorf("%s is no name of a file with its checksum", plain.Quote(s))
		}
	}
	return nil
}

func checkText(texts ...string) error {
	for _, s := range texts {
		switch {
		case !utf8.ValidString(s):
			return wording.Errorf("%s is not valid text (UTF-8)", plain.Quote(s))
		case plain.HasControl(s):
			return wording.Errorf("%s holds a control character, which could disturb a screen; type it again", plain.Quote(s))
		case utf8.RuneCountInString(s) > longest:
			return wording.Errorf("it is longer than %d characters; shorten it", longest)
		}
	}
	return nil
}

// Words is a value as people read it, with its unit but without the instrument.
func (f *Parameter) Words(v Value) string {
	switch f.Form {
	case NumberForm:
		return strings.TrimSpace(wording.Number(v.Number) + " " + f.unitWord())
	case PartsForm:
		var out []string
		for _, p := range v.Parts {
			out = append(out, wording.Text(p.Word)+" "+wording.Number(p.Percent)+" %")
		}
		return strings.Join(out, ", ")
	case ChoicesForm:
		out := slices.Clone(v.List)
		for i, word := range out {
			out[i] = wording.Text(word)
		}
		return strings.Join(out, ", ")
	case PersonsForm:
		return strings.Join(v.List, ", ")
	case FilesForm:
		var out []string
		for _, s := range v.List {
			name, sum, _ := strings.Cut(s, " sha256:")
			out = append(out, name+" ("+sum[:min(8, len(sum))]+"…)")
		}
		return strings.Join(out, ", ")
	}
	if f.Form == ChoiceForm {
		return wording.Text(v.Text)
	}
	return v.Text
}

// Full is a value as people read it, with the instrument.
func (f *Parameter) Full(v Value) string {
	if v.Instrument == "" {
		return f.Words(v)
	}
	return wording.Sprintf("%s with %s", f.Words(v), v.Instrument)
}

// Cell is a value in a table of others: a number without its unit, several things
// with semicolons.
func (f *Parameter) Cell(v Value) string {
	switch f.Form {
	case NumberForm:
		return plain.FormatFloat(v.Number)
	case PartsForm:
		var out []string
		for _, p := range v.Parts {
			out = append(out, p.Word+" "+plain.FormatFloat(p.Percent))
		}
		return strings.Join(out, "; ")
	case ChoicesForm, PersonsForm, FilesForm:
		return strings.Join(v.List, "; ")
	}
	return v.Text
}

// Typed is a value as [Field.Parse] reads it; of files only the names.
func (f *Parameter) Typed(v Value) string {
	typed := f.Cell(v)
	switch f.Form {
	case PartsForm, ChoicesForm, PersonsForm:
		typed = strings.ReplaceAll(typed, "; ", ", ")
	case FilesForm:
		names := slices.Clone(v.List)
		for i, s := range names {
			names[i], _, _ = strings.Cut(s, " sha256:")
		}
		typed = strings.Join(names, ", ")
	}
	switch {
	case v.None:
		return "-"
	case v.Instrument != "":
		return typed + " with " + v.Instrument
	}
	return typed
}

// timeOfDay reads a time as people write it: 9:30, 9.30, 9h30, 0930, 9:30 am.
func timeOfDay(typed string) (t time.Time, ok bool) {
	plainly := strings.NewReplacer(" ", "", ".", ":", "h", ":").Replace(strings.ToLower(typed))
	for _, layout := range []string{"15:04", "1504", "3:04pm"} {
		if t, err := time.Parse(layout, plainly); err == nil {
			return t, true
		}
	}
	return t, false
}

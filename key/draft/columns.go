package draft

import (
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"rillkey/taxa"
	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// rowDetails is what a sheet says of a taxon beside its traits. Empty fields are not
// said.
type rowDetails struct {
	scientific, rank, group, class, source, notes, wording string
	least, most                                            float64 // length in millimetres
}

// aboutColumn reads a cell of a column that is no trait: what is wrong with it, and
// what to write; empty where nothing is.
type aboutColumn func(a *rowDetails, text string) (problem, hint string)

// aboutColumns are the columns that are no traits, by their names in English. A sheet
// may call them so in the language in use.
func aboutColumns() map[string]aboutColumn {
	return map[string]aboutColumn{
		wording.Mark("scientific name"): textColumn(func(a *rowDetails) *string { return &a.scientific }),
		wording.Mark("scientific"):      textColumn(func(a *rowDetails) *string { return &a.scientific }),
		wording.Mark("source"):          textColumn(func(a *rowDetails) *string { return &a.source }),
		wording.Mark("notes"):           textColumn(func(a *rowDetails) *string { return &a.notes }),
		wording.Mark("note"):            textColumn(func(a *rowDetails) *string { return &a.notes }),
		wording.Mark("group"):           textColumn(func(a *rowDetails) *string { return &a.group }),
		wordingName:                     textColumn(func(a *rowDetails) *string { return &a.wording }),
		wording.Mark("rank"):            wordColumn("rank", taxa.Ranks, func(a *rowDetails) *string { return &a.rank }),
		wording.Mark("class"):           wordColumn("class", classWords(), func(a *rowDetails) *string { return &a.class }),
		wording.Mark("length"):          lengthColumn(1),
		wording.Mark("length (mm)"):     lengthColumn(1),
		wording.Mark("length (cm)"):     lengthColumn(10),
		wording.Mark("length (in)"):     lengthColumn(25.4),
	}
}

// commonnessName and wordingName are names of columns; wordingName is that of a row
// too, which holds what is asked of each trait, and misreadName that of a row with how
// often each is misread.
var (
	commonnessName = wording.Mark("commonness")
	wordingName    = wording.Mark("wording")
	misreadName    = wording.Mark("misread")
)

// isCalled reports whether a column or row has a name, in English or in the language
// in use.
func isCalled(id, english string) bool {
	return id == plain.ID(english) || id == plain.ID(wording.Text(english))
}

// aboutNamed is how a column is read that is no trait; nil for one that is.
func aboutNamed(id string) aboutColumn {
	all := aboutColumns()
	for _, name := range slices.Sorted(maps.Keys(all)) {
		if isCalled(id, name) {
			return all[name]
		}
	}
	return nil
}

func classWords() (out []string) {
	for _, c := range taxa.Classes {
		out = append(out, string(c))
	}
	return out
}

func textColumn(field func(*rowDetails) *string) aboutColumn {
	return func(a *rowDetails, text string) (string, string) {
		*field(a) = strings.Join(strings.Fields(text), " ")
		return "", ""
	}
}

func wordColumn(name string, words []string, field func(*rowDetails) *string) aboutColumn {
	return func(a *rowDetails, text string) (string, string) {
		text = strings.ToLower(text)
		if at := slices.IndexFunc(words, func(w string) bool { return strings.ToLower(wording.Text(w)) == text }); at >= 0 {
			text = words[at]
		}
		if !slices.Contains(words, text) {
			own := make([]string, len(words))
			for i, w := range words {
				own[i] = wording.Text(w)
			}
			return wording.Sprintf("%s is no %s", plain.Quote(text), wording.Text(name)),
				wording.Sprintf("write one of %s; if the column is a trait, call it something else", plain.List(own))
		}
		*field(a) = text
		return "", ""
	}
}

// lengths is a length or a range of them, with its unit or without.
var lengths = pattern.New(`^(\d+(?:[.,]\d+)?)(?:\s*(?:[-–—]|to)\s*(\d+(?:[.,]\d+)?))?\s*(mm|cm|in)?\.?$`)

var unitMM = map[string]float64{"mm": 1, "cm": 10, "in": 25.4}

// lengthColumn reads lengths in a unit of so many millimetres, or in that which a cell
// names.
func lengthColumn(unit float64) aboutColumn {
	return func(a *rowDetails, text string) (string, string) {
		m := lengths().FindStringSubmatch(strings.ToLower(text))
		if m == nil {
			return wording.Sprintf("%s is no length", plain.Quote(text)),
				wording.Text("write it in millimetres: 12, or 4-20; if the column is a trait, call it something else")
		}
		mm := unit
		if m[3] != "" {
			mm = unitMM[m[3]]
		}
		if m[2] == "" {
			m[2] = m[1]
		}
		read := func(s string) float64 {
			v, _ := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64) // the pattern leaves nothing else
			return v * mm
		}
		if a.least, a.most = read(m[1]), read(m[2]); !(a.least > 0 && a.least <= a.most && a.most <= 2000) {
			return wording.Sprintf("%s is no length of an animal", plain.Quote(text)),
				wording.Text("write the smaller number first, above 0 and at most 2000 millimetres")
		}
		return "", ""
	}
}

// aboutCells reads the cells of a row that are no traits.
func (r *sheetReader) aboutCells(record []string) {
	var a rowDetails
	for field := range record {
		read, text := r.details[field], strings.TrimSpace(record[field])
		if read == nil || r.kindOf(text) == unknown || r.kindOf(text) == unknownWord {
			continue
		}
		if text = r.text(field, text); text == "" {
			continue
		}
		if problem, hint := read(&a, text); problem != "" && !r.told[problem] {
			r.told[problem] = true // a word that stands in many rows is told at the first
			r.fail(r.pos(field), "bad-cell", problem, hint)
		}
	}
	r.sheet.details = append(r.sheet.details, a)
}

// looking is how a trait is looked at, as its name in the first row may say:
// "gills (lens)".
var looking = pattern.New(`(?i)^(.*\S)\s*\((?:hand )?([^()]+)\)$`)

// looks are the words for how a trait is looked at.
func looks() map[taxa.Look]string {
	return map[taxa.Look]string{taxa.Lens: wording.Mark("lens"), taxa.Patience: wording.Mark("patience"), taxa.Eye: wording.Mark("eye")}
}

// lookOf parts the name of a column from how the trait is looked at.
func lookOf(name string) (string, taxa.Look) {
	if m := looking().FindStringSubmatch(name); m != nil {
		for look, word := range looks() {
			if said := strings.ToLower(m[2]); said == word || said == strings.ToLower(wording.Text(word)) {
				return m[1], look
			}
		}
	}
	return name, taxa.Eye
}

// taxonHead writes what a sheet says of a taxon beside its traits.
func (s *Spreadsheet) taxonHead(b *bytes.Buffer, i int) {
	a, id, name := &s.details[i], s.IDs[i], s.Names[i]
	field := func(key, text string) { fmt.Fprintf(b, "%-10s = %s\n", key, text) }
	fmt.Fprintf(b, "[taxon.%s]\n", id)
	if a.notes != "" {
		fmt.Fprintf(b, "# %s\n", plain.Printable(a.notes))
	}
	field("rank", quote(cmp.Or(a.rank, taxa.Informal)))
	field("scientific", quote(cmp.Or(a.scientific, name)))
	if a.scientific != "" && a.scientific != name {
		field("common", "["+quote(name)+"]")
	}
	if group := plain.ID(a.group); group != "" && group != id {
		field("parent", quote(group))
	}
	if a.most > 0 {
		field("length_mm", fmt.Sprintf("[%s, %s]", plain.FormatFloat(a.least), plain.FormatFloat(a.most)))
	}
	if a.class != "" {
		field("class", quote(a.class))
		fmt.Fprintf(b, "class_source = %s\n", quote(sheetSource()))
	}
	field("source", quote(cmp.Or(a.source, sheetSource())))
}

// sheetSource is the source of what a sheet says.
func sheetSource() string { return wording.Text("the author's table") }

// groupsText writes the groups that are not themselves rows of the sheet.
func (s *Spreadsheet) groupsText(b *bytes.Buffer) {
	done := map[string]bool{}
	for _, id := range s.IDs {
		done[id] = true
	}
	for _, a := range s.details {
		if id := plain.ID(a.group); id != "" && !done[id] {
			done[id] = true
			fmt.Fprintf(b, "[taxon.%s]\nrank       = %s\nscientific = %s\nsource     = %s\n\n", id, quote(taxa.Informal),
				quote(a.group), quote(sheetSource()))
		}
	}
}

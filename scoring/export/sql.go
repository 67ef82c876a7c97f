package export

import (
	"bufio"
	_ "embed"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"rillkey/scoring/account"
	"rillkey/scoring/condition"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// schemaSQL makes the tables and the views with the example queries. It is in
// the part of SQL that SQLite and PostgreSQL share.
//
//go:embed schema.sql
var schemaSQL string

//go:embed views.sql
var viewsSQL string

// SQL writes the visits as one script that SQLite (3.24 or later) and
// PostgreSQL (9.5 or later) both load: tables, rows, and three views with
// example queries. Loaded again, or after another group's script, it adds what
// is not there yet. It holds the records as they stand, not every entry.
func SQL(w io.Writer, visits Visits, k Knowledge, d Discretion, about Metadata) error {
	s := &script{w: bufio.NewWriterSize(w, 64<<10)}
	s.text("-- %s\n-- %s\nBEGIN;\n%s\n", comment(about.Title),
		wording.Sprintf("Written by rillkey on %s for SQLite and PostgreSQL.", about.Day.Format("2006-01-02")), explained(schemaSQL))
	s.knowledge(k)
	err := each(visits, d, func(v *visit.Visit) error {
		s.visit(k.forVisit(v), v)
		return s.err
	})
	if err != nil {
		return err
	}
	s.end()
	s.text("\n%s\nCOMMIT;\n", explained(viewsSQL))
	if s.err != nil {
		return s.err
	}
	return s.w.Flush()
}

// remarks are the comments of a script: each is one sentence or more, and may go on on
// lines of its own.
var remarks = pattern.New(`--[^\n]*(?:\n--[^\n]*)*`)

// Remarks are the comments of what the scripts begin and end with, for those who say
// them in other languages.
func Remarks() (out []string) {
	for _, r := range remarks().FindAllString(schemaSQL+viewsSQL, -1) {
		out = append(out, unfolded(r))
	}
	return out
}

// explained is SQL with its comments in the language in use.
func explained(sql string) string {
	return remarks().ReplaceAllStringFunc(sql, func(lines string) string {
		said := wording.Text(unfolded(lines))
		if said == unfolded(lines) {
			return lines
		}
		return "-- " + comment(said)
	})
}

// unfolded is a comment on one line, without its marks.
func unfolded(lines string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(lines, "--", " ")), " ")
}

func comment(title string) string { return strings.NewReplacer("\n", " ", "\r", " ").Replace(title) }

// script writes rows; those of one table that follow each other share one
// statement.
type script struct {
	w     *bufio.Writer
	err   error
	table string // of the statement that is open
	rows  int
}

func (s *script) text(format string, args ...any) {
	if s.err == nil {
		_, s.err = fmt.Fprintf(s.w, format, args...)
	}
}

// perStatement bounds the length of one statement.
const perStatement = 200

func (s *script) row(table string, values ...any) {
	if s.table == table && s.rows < perStatement {
		s.text(",\n")
	} else {
		s.end()
		s.text("INSERT INTO %s VALUES\n", table)
		s.table, s.rows = table, 0
	}
	s.rows++
	literals := make([]string, len(values))
	for i, v := range values {
		literals[i] = literal(v)
	}
	s.text("(%s)", strings.Join(literals, ", "))
}

func (s *script) end() {
	if s.table != "" {
		s.text("\nON CONFLICT DO NOTHING;\n")
		s.table = ""
	}
}

// textLiteral writes a text so that it means the same whether or not a backslash
// escapes what follows it, which PostgreSQL can be told (its setting
// standard_conforming_strings): another character stands for it, and the first
// one of two backslashes is a backslash either way.
func textLiteral(s string) string {
	quoted := "'" + strings.ReplaceAll(s, "'", "''") + "'"
	if !strings.Contains(s, `\`) {
		return quoted
	}
	stand := '|'
	for strings.ContainsRune(s, stand) {
		stand++
	}
	return fmt.Sprintf(`replace(%s, '%c', substr('\\', 1, 1))`, strings.ReplaceAll(quoted, `\`, string(stand)), stand)
}

// literal writes a value for SQL. Empty texts and nil are NULL. A text never
// holds a control character.
func literal(v any) string {
	switch v := v.(type) {
	case string:
		if v == "" {
			return "NULL"
		}
		return textLiteral(v)
	case bool:
		return strings.ToUpper(fmt.Sprint(v))
	case int:
		return fmt.Sprint(v)
	case float64:
		return plain.FormatFloat(v)
	case *float64:
		if v != nil {
			return plain.FormatFloat(*v)
		}
	}
	return "NULL"
}

// known is a value that is NULL when nobody measured it.
func known(f float64) *float64 {
	if f == 0 {
		return nil
	}
	return &f
}

// knowledge writes the taxa, and the kinds that the indices count.
func (s *script) knowledge(k Knowledge) {
	for _, t := range k.Catalog.Taxa() {
		s.row("taxon", t.ID, t.Scientific, t.Name(), t.Rank, t.Parent, string(t.Class))
	}
	for _, index := range k.Rules.Schemes() {
		for _, kind := range index.Kinds {
			var hundredths any
			if w, ok := index.Weight(kind.Group); ok {
				hundredths = int(math.Round(w * 100))
			}
			s.row("index_kind", index.ID, kind.ID, kind.Label, kind.Group, hundredths)
		}
	}
}

// viewed are the schemes that the example queries work out.
var viewed = []string{"presence", "fbi"}

// counted writes what each record counts as, in the indices of the visit's
// protocol and those of the example queries.
func (s *script) counted(k Knowledge, p *scheme.Protocol, a *account.Account) {
	schemes := slices.Clone(viewed)
	if p != nil {
		schemes = append(schemes, p.Schemes...)
	}
	slices.Sort(schemes)
	for _, one := range slices.Compact(schemes) {
		index := k.Rules.Scheme(one)
		if index == nil {
			continue
		}
		for _, b := range a.Rows(index.Counting()) {
			if b.Why == "" {
				s.row("record_kind", a.Visit.Header.ID, b.ID, index.ID, index.Kinds[b.Kind].ID, int(b.Animals))
			}
		}
	}
}

func (s *script) visit(k Knowledge, v *visit.Visit) {
	a := k.Rules.Account(v)
	h, t, g := v.Header, a.Tally, k.grade(a)
	var latitude, longitude, uncertainty *float64
	if p := h.Spot; p != nil {
		latitude, longitude, uncertainty = &p.Latitude, &p.Longitude, known(p.Uncertainty)
	}
	combine := ""
	p, err := k.Rules.Protocol(h.Protocol)
	if err == nil {
		combine = string(p.Combine)
	}
	s.row("visit", h.ID, h.Site, h.Date, h.Protocol, combine, strings.Join(h.People, ", "), moment(h.Begun), latitude,
		longitude, uncertainty, t.Obscured, t.Finished, g != nil && g.Effort.Complete)
	for _, taken := range t.Samples {
		s.row("sample", h.ID, taken.Label, taken.Habitat, known(taken.Area), taken.Effort, string(taken.State), known(taken.Fraction))
	}
	for _, r := range t.Records {
		s.row("record", h.ID, r.ID, r.Sample, r.Taxon, r.Count, r.Undecided, known(r.Confidence), known(r.Length),
			len(r.Looks), v.Person(r.Who), r.Note)
	}
	t.Conditions().Each(func(f *condition.Parameter, v condition.Value) {
		var number *float64
		if f.Form == condition.NumberForm {
			number = &v.Number
		}
		s.row("visit_condition", h.ID, f.Column, f.Cell(v), number, f.Unit, v.Instrument)
	})
	s.counted(k, p, a)
	if g == nil {
		return
	}
	for _, i := range g.Indices {
		s.row("visit_index", h.ID, i.ID, i.Value, i.Rating, i.Withheld, i.Reason)
	}
}

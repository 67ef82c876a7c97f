// Package series holds what is said of several visits: a list of those in a folder
// ([List], [Find]), and a table of their grades that sets those of one place side
// by side, with the trend ([Grade]).
//
// Visits are read one by one by several workers, and of each only its main index
// is kept, so that a hundred thousand of them fit into little memory.
package series

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
)

// Row is one visit of the table.
type Row struct {
	File string `json:"file"`
	scoring.Summary
	Aside  string  `json:"set_aside,omitempty"` // why it is compared with nothing
	Change *Change `json:"change"`              // from the graded visit before at the same place; nil for the first
}

// Change is how a value differs from the one before, judged by the two kinds of
// uncertainty, each by itself.
type Change struct {
	Difference float64 `json:"difference"`
	Shown      bool    `json:"shown"` // more than both kinds of uncertainty bring about by chance
	Words      string  `json:"words"`
}

// Place is what the visits to one place say together.
type Place struct {
	Site   string `json:"site"`
	Scheme string `json:"scheme"`
	Title  string `json:"title"`
	Visits int    `json:"visits"` // graded ones
	Trend  *Trend `json:"trend"`  // value by year; nil for fewer than four visits
	Words  string `json:"words"`
}

// Table is many visits by place and date.
type Table struct {
	Rows     []Row    `json:"visits"`
	Places   []Place  `json:"sites"`
	Problems []string `json:"problems"` // files that could not be read or not in full, and visits set aside
}

// Source is where visits are read from.
type Source struct {
	Files []string
	Read  func(file string) (*visit.Visit, error)
}

// Options say how to go about it.
type Options struct {
	Today    time.Time      // visits after it are set aside
	Workers  int            // at least one is used
	Progress func(done int) // called after each visit, by one caller at a time; may be nil
	Seed     uint64         // of simulations
}

// Grade grades all visits of the source. A file that cannot be read or graded is
// a problem and no row.
func Grade(rules *scoring.Rules, from Source, o Options) *Table {
	t := &Table{Rows: []Row{}, Places: []Place{}, Problems: []string{}}
	next := make(chan string)
	var lock sync.Mutex
	done := 0
	keep := func(row Row, problems []string, ok bool) {
		lock.Lock()
		defer lock.Unlock()
		t.Problems = append(t.Problems, problems...)
		if ok {
			t.Rows = append(t.Rows, row)
		}
		if done++; o.Progress != nil {
			o.Progress(done)
		}
	}
	var workers sync.WaitGroup
	for range max(1, o.Workers) {
		workers.Go(func() {
			for file := range next {
				keep(one(rules, from, file, o.Seed))
			}
		})
	}
	for _, file := range from.Files {
		next <- file
	}
	close(next)
	workers.Wait()
	t.finish(o.Today)
	return t
}

func one(rules *scoring.Rules, from Source, file string, seed uint64) (row Row, problems []string, ok bool) {
	v, err := from.Read(file)
	if err != nil {
		return row, []string{err.Error()}, false
	}
	b, err := rules.Summary(rules.Account(v), seed)
	for _, n := range b.Notices {
		problems = append(problems, n.String())
	}
	if err != nil {
		return row, append(problems, fmt.Sprintf("%s: %v", plain.Printable(file), err)), false
	}
	return Row{File: file, Summary: b}, problems, true
}

// finish orders the rows, sets aside what cannot be compared, and compares the
// others.
func (t *Table) finish(today time.Time) {
	slices.SortFunc(t.Rows, func(a, b Row) int {
		return cmp.Or(strings.Compare(place(a), place(b)), strings.Compare(a.Visit.Date, b.Visit.Date), strings.Compare(a.File, b.File))
	})
	t.setAside(today)
	for i := 0; i < len(t.Rows); {
		j := i
		for j < len(t.Rows) && place(t.Rows[j]) == place(t.Rows[i]) {
			j++
		}
		t.Places = append(t.Places, compare(t.Rows[i:j]))
		i = j
	}
	slices.Sort(t.Problems)
}

// place is what makes visits comparable: one site, whatever the case it is
// written in, by one scheme.
func place(r Row) string {
	return strings.ToLower(strings.Join(strings.Fields(r.Visit.Site), " ")) + "\x00" + r.Scheme
}

// SamePlace tells that a row is of the place.
func SamePlace(r Row, p Place) bool {
	return place(r) == place(Row{Summary: scoring.Summary{Visit: scoring.Subject{Site: p.Site}, Scheme: p.Scheme}})
}

func (t *Table) setAside(today time.Time) {
	byFile := make([]*Row, len(t.Rows))
	for i := range t.Rows {
		byFile[i] = &t.Rows[i]
	}
	slices.SortFunc(byFile, func(a, b *Row) int { return strings.Compare(a.File, b.File) })
	first := map[string]string{}
	day := today.Format(time.DateOnly)
	for _, r := range byFile {
		file := plain.Printable(r.File)
		switch before, doubled := first[r.Visit.ID]; {
		case doubled:
			r.Aside = "doubled"
			t.Problems = append(t.Problems, fmt.Sprintf("%s: this visit has the id %s of %s; only the first is compared. If they are copies of one visit, merge them", file, plain.Quote(r.Visit.ID), plain.Printable(before)))
		case r.Visit.Date > day:
			r.Aside = "future"
			t.Problems = append(t.Problems, fmt.Sprintf("%s: this visit is dated %s, after today (%s); it is compared with nothing", file, plain.Printable(r.Visit.Date), day))
		}
		if _, doubled := first[r.Visit.ID]; !doubled {
			first[r.Visit.ID] = r.File
		}
	}
}

// compare sets the visits of one place, ordered by date, against each other.
func compare(rows []Row) Place {
	p := Place{Site: rows[0].Visit.Site, Scheme: rows[0].Scheme, Title: rows[0].Title}
	var before *Row
	var points []point
	for i := range rows {
		r := &rows[i]
		if !r.Comparable() || r.Aside != "" {
			continue
		}
		p.Visits++
		if before != nil {
			r.Change = change(before, r)
		}
		before = r
		if at, err := time.Parse(time.DateOnly, r.Visit.Date); err == nil {
			points = append(points, point{time: years(at), value: *r.Value})
		}
	}
	p.Words = fmt.Sprintf("a trend needs %d graded visits on different days; there are %d", fewestPoints, p.Visits)
	if tr, ok := mannKendall(points); ok {
		p.Trend, p.Words = &tr, trendWords(tr)
	}
	return p
}

// daysPerYear is the mean length of a year of the calendar.
const daysPerYear = 365.2425

func years(t time.Time) float64 { return float64(t.Unix()) / 86400 / daysPerYear }

// sure is how many standard deviations a difference must exceed to be shown,
// 95 % on a normal curve.
const sure = 1.96

func change(a, b *Row) *Change {
	c := &Change{Difference: *b.Value - *a.Value}
	beyond := func(x, y *float64) bool {
		return x != nil && y != nil && math.Abs(c.Difference) > sure*math.Hypot(*x, *y)
	}
	switch {
	case c.Difference == 0:
		c.Words = "no change"
	case a.Samples == nil || b.Samples == nil:
		c.Words = "cannot be judged: one sample says nothing of how samples differ"
	case !beyond(a.Samples, b.Samples):
		c.Words = "no change that the sampling could show"
	case !beyond(a.Names, b.Names):
		c.Words = "no change that the names are certain enough to show"
	default:
		c.Shown, c.Words = true, "a change that neither the sampling nor the names explain"
	}
	return c
}

// oftenByChance is the chance above which no trend is spoken of.
const oftenByChance = 0.05

func trendWords(t Trend) string {
	if t.P > oftenByChance {
		return fmt.Sprintf("no trend to be shown over %d visits (Mann-Kendall S = %d, p = %.3f; Sen's slope %+.2f a year)", t.Points, t.S, t.P, t.Sen)
	}
	way := "rising"
	if t.S < 0 {
		way = "falling"
	}
	return fmt.Sprintf("%s over %d visits (Mann-Kendall S = %d, p = %.3f; Sen's slope %+.2f a year)", way, t.Points, t.S, t.P, t.Sen)
}

// Package series holds what is said of several visits: a list of those in a folder
// ([ReadFolder], [Find]), and a table of their grades that sets those of one place side
// by side, with the trend ([GradeVisits]).
//
// Begin with [VisitTable], [Row] and [Query].
//
// Visits are read one by one by several workers, and of each only its main index
// is kept, so that a hundred thousand of them fit into little memory.
package series

import (
	"cmp"
	"fmt"
	"iter"
	"slices"
	"strings"
	"sync"
	"time"

	"rillkey/scoring"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Row is one visit of the table.
type Row struct {
	File string `json:"file"`
	scoring.Summary
	Aside        string      `json:"set_aside,omitempty"` // why it is compared with nothing
	Change       *Difference `json:"change"`              // from the graded visit before at the same place; nil for the first
	ReferenceDay string      `json:"beside,omitempty"`    // the day of the visit to the reference that it is compared with; empty for none
}

// Difference is how a value differs from the one before. By itself that says little:
// what is beyond chance is in the [Hypothesis]s of the place.
type Difference struct {
	Difference      *float64 `json:"difference"`       // nil where the effort was another
	Shown           bool     `json:"shown"`            // a step that the place's tests show lies before this visit
	OtherConditions []string `json:"unlike,omitempty"` // in what else the visits differ: time of year, water, weather
	Words           string   `json:"words"`
}

// Site is what the visits to one place say together.
type Site struct {
	Site   string       `json:"site"`
	Scheme string       `json:"scheme"`
	Title  string       `json:"title"`
	Visits int          `json:"visits"` // graded ones
	Trend  *Trend       `json:"trend"`  // of the index; nil for fewer than four visits, or where the day of the visit drifts
	Tests  []Hypothesis `json:"tests"`  // what was asked of the visits, or of that what is shown, see [Options]
	Usual  *Baseline    `json:"usual"`  // what the site holds at the time of year of the newest visit; nil for too few visits
	// How it compares with the reference that the group names; nil without one.
	Reference *ReferenceComparison `json:"reference,omitempty"`
	Words     string               `json:"words"` // sentences that say what that comes to

	references []*ReferenceComparison // all that visits to it were compared with
	drifts     bool                   // the day of the visit wanders through the year
}

// VisitTable is many visits by place and date.
type VisitTable struct {
	Rows     []Row    `json:"visits"`
	Places   []Site   `json:"sites"`
	Problems []string `json:"problems"` // files that could not be read or not in full, and visits set aside
	Failed   error    `json:"-"`        // why the source ended early; nil where it did not
}

// Options say how to go about it.
type Options struct {
	Today    time.Time      // visits after it are set aside
	Workers  int            // at least one is used
	Progress func(done int) // called after each visit, by one caller at a time; may be nil
	Seed     uint64         // of simulations
	// Reference is the site that the others are compared with, however it is written;
	// empty for that which each visit names, if it does.
	Reference string
	// Brief keeps of what is asked of a site only what is shown; its words say all.
	Brief bool
}

// Grade grades all visits of the source. A file that cannot be read or graded is
// a problem and no row.
func GradeVisits(rules *scoring.Rules, from Source, o Options) *VisitTable {
	t := &VisitTable{Rows: make([]Row, 0, from.Len()), Places: []Site{}, Problems: []string{}}
	var lock sync.Mutex
	done := 0
	names := map[string]string{} // of sites, days and reasons: each once, however many visits
	once := func(s string) string {
		if _, known := names[s]; !known {
			names[s] = s
		}
		return names[s]
	}
	keep := func(row Row, problems []string, ok bool) {
		lock.Lock()
		defer lock.Unlock()
		row.Visit.Site, row.Visit.Date, row.Reason = once(row.Visit.Site), once(row.Visit.Date), once(row.Reason)
		t.Problems = append(t.Problems, problems...)
		if ok {
			t.Rows = append(t.Rows, row)
		}
		if done++; o.Progress != nil {
			o.Progress(done)
		}
	}
	t.Failed = inParallel(o.Workers, from.Each, func(_ int, item Item) { keep(one(rules, item, o.Seed)) })
	t.finish(rules, o)
	return t
}

// GradeRows judges visits whose main indices are worked out already, as [GradeVisits] does.
func GradeRows(rules *scoring.Rules, rows []Row, problems []string, o Options) *VisitTable {
	t := &VisitTable{Rows: append([]Row{}, rows...), Places: []Site{}, Problems: append([]string{}, problems...)}
	t.finish(rules, o)
	return t
}

func one(rules *scoring.Rules, i Item, seed uint64) (row Row, problems []string, ok bool) {
	v, err := i.Read()
	if err != nil {
		return row, []string{wording.Reason(err).Error()}, false
	}
	a := rules.Account(v)
	b, err := rules.Summary(a, seed)
	for _, n := range slices.Concat(v.Notices, a.Tally.Notices) {
		problems = append(problems, n.String())
	}
	if err != nil {
		return row, append(problems, fmt.Sprintf("%s: %v", plain.Printable(i.Name), err)), false
	}
	return Row{File: i.Name, Summary: b}, problems, true
}

// finish orders the rows, sets aside what cannot be compared, and judges the
// others place by place.
func (t *VisitTable) finish(rules *scoring.Rules, o Options) {
	t.inOrder()
	t.setAside(o.Today)
	parts := t.split()
	leasts, asked := make([]float64, len(parts)), make([]bool, len(parts))
	AtOnce(o.Workers, len(parts), func(i int) { leasts[i], asked[i] = least(t.Places[i], parts[i], rules) })
	level, judged := shown(leasts, asked)
	AtOnce(o.Workers, len(parts), func(i int) {
		p := &t.Places[i]
		p.judge(parts[i], rules, level[i])
		p.say(judged)
		compare(parts[i], p.Tests, rules)
		if o.Brief {
			p.brief()
		}
	})
	if o.Reference != "" || t.named() {
		t.compareWith(o.Reference, func(r *Row) []*figure { return followed(r, rules) })
	}
	slices.Sort(t.Problems)
}

// split enters the places, and gives the rows of each.
func (t *VisitTable) split() (parts [][]Row) {
	of := placesOf(t.Rows)
	for i := 0; i < len(t.Rows); {
		j := i
		for here := of(i); j < len(t.Rows) && of(j) == here; {
			j++
		}
		rows := t.Rows[i:j]
		p := Site{Site: rows[0].Visit.Site, Scheme: rows[0].Scheme, Title: rows[0].Title, Tests: []Hypothesis{}}
		t.Places, parts = append(t.Places, p), append(parts, rows)
		i = j
	}
	return parts
}

// inOrder sorts the rows by place and date. Names are folded once, and not for each comparison.
func (t *VisitTable) inOrder() {
	type placed struct {
		place string
		row   int
	}
	of := placesOf(t.Rows)
	order := make([]placed, len(t.Rows))
	for i := range t.Rows {
		order[i] = placed{of(i), i}
	}
	slices.SortFunc(order, func(a, b placed) int {
		x, y := &t.Rows[a.row], &t.Rows[b.row]
		return cmp.Or(strings.Compare(a.place, b.place), strings.Compare(x.Visit.Date, y.Visit.Date), strings.Compare(x.File, y.File))
	})
	// Each row moves to where it belongs along a circle of rows: there is no room for
	// all of them twice.
	for i := range order {
		if order[i].row < 0 {
			continue
		}
		at, first := i, t.Rows[i]
		for {
			from := order[at].row
			order[at].row = -1
			if from == i {
				t.Rows[at] = first
				break
			}
			t.Rows[at] = t.Rows[from]
			at = from
		}
	}
}

// AtOnce does n things, numbered from 0, with at most so many workers.
func AtOnce(workers, n int, do func(i int)) {
	_ = inParallel(min(workers, n), func(hand func(int) bool) error { // which never fails
		for i := range n {
			hand(i)
		}
		return nil
	}, func(i, _ int) { do(i) })
}

// inParallel does something with each of what is handed out and its number, with so many
// workers, one at least. The error is that of what hands out.
func inParallel[T any](workers int, each func(hand func(T) bool) error, do func(i int, one T)) error {
	type numbered struct {
		i   int
		one T
	}
	var running sync.WaitGroup
	next := make(chan numbered)
	for range max(1, workers) {
		running.Go(func() {
			for n := range next {
				do(n.i, n.one)
			}
		})
	}
	i := 0
	err := each(func(one T) bool {
		next <- numbered{i, one}
		i++
		return true
	})
	close(next)
	running.Wait()
	return err
}

// place is what makes visits comparable: one site, whatever the case it is
// written in, by one scheme.
func place(site, scheme string) string { return folded(site) + "\x00" + scheme }

// placesOf gives the place of a row by its number; names are folded once, not for each visit.
func placesOf(rows []Row) func(i int) string {
	known := map[[2]string]string{}
	return func(i int) string {
		name := [2]string{rows[i].Visit.Site, rows[i].Scheme}
		p, ok := known[name]
		if !ok {
			p = place(name[0], name[1])
			known[name] = p
		}
		return p
	}
}

// folded is the name of a site whatever the case and the spaces it is written with.
func folded(site string) string { return strings.ToLower(strings.Join(strings.Fields(site), " ")) }

// ByPlace are the places in their order, each with the rows of the visits to it by its
// scheme.
func (t *VisitTable) ByPlace() iter.Seq2[*Site, []Row] {
	return func(yield func(*Site, []Row) bool) {
		from := 0
		for i := range t.Places {
			to := from
			for to < len(t.Rows) && samePlace(t.Rows[to], t.Places[i]) {
				to++
			}
			if !yield(&t.Places[i], t.Rows[from:to]) {
				return
			}
			from = to
		}
	}
}

// samePlace tells that a row is of the place.
func samePlace(r Row, p Site) bool {
	return r.Scheme == p.Scheme && (r.Visit.Site == p.Site || folded(r.Visit.Site) == folded(p.Site))
}

func (t *VisitTable) setAside(today time.Time) {
	byID := make([]*Row, len(t.Rows))
	for i := range t.Rows {
		byID[i] = &t.Rows[i]
	}
	slices.SortFunc(byID, func(a, b *Row) int {
		return cmp.Or(strings.Compare(a.Visit.ID, b.Visit.ID), strings.Compare(a.File, b.File))
	})
	day := today.Format(time.DateOnly)
	var first *Row // of an id
	for _, r := range byID {
		file := plain.Printable(r.File)
		switch {
		case first != nil && r.Visit.ID == first.Visit.ID:
			r.Aside = "doubled"
			t.Problems = append(t.Problems,
				wording.Sprintf("%s: this visit has the id %s of %s; only the first is compared. If they are copies of one "+
					"visit, merge them", file, plain.Quote(r.Visit.ID), plain.Printable(first.File)))
			continue
		case r.Visit.Date > day:
			r.Aside = "future"
			t.Problems = append(t.Problems,
				wording.Sprintf("%s: this visit is dated %s, after today (%s); it is compared with nothing", file,
					plain.Printable(r.Visit.Date), day))
		}
		first = r
	}
}

// daysPerYear is the mean length of a year of the calendar.
const daysPerYear = 365.2425

package network

import (
	"cmp"
	"context"
	"encoding/json"
	"slices"
	"strings"

	"github.com/jackc/pgx/v5"

	"rillkey/scoring"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Listed gives what is kept of the visits that a query may want, by date, site and name, and
// how many visits there are, or NotCounted. Those without a grade by the book, or of which something came
// since, are graded on the way, and that is not kept. A reader gets those that a coordinator
// graded, without people and obscured places.
func (db *DB) Listed(ctx context.Context, b Book, q series.Query) (out []Graded, of int, err error) {
	reader, err := db.isReader(ctx)
	if err != nil {
		return nil, 0, err
	}
	if reader {
		out, of, err = db.open(ctx, b, q)
	} else {
		out, of, err = db.graded(ctx, b, q)
	}
	slices.SortFunc(out, func(x, y Graded) int {
		return cmp.Or(cmp.Compare(x.Date, y.Date), cmp.Compare(x.Site, y.Site), cmp.Compare(x.File, y.File))
	})
	return out, of, err
}

// isReader tells that the user of the connection may not read what groups sent.
func (db *DB) isReader(ctx context.Context) (reader bool, err error) {
	err = db.again(ctx, reading, func(tx pgx.Tx) error {
		return tx.QueryRow(ctx, `select not has_table_privilege('rillkey.events', 'select')`).Scan(&reader)
	})
	return reader, err
}

func (db *DB) graded(ctx context.Context, b Book, q series.Query) (out []Graded, of int, err error) {
	var missing []GroupVisit
	err = db.again(ctx, reading, func(tx pgx.Tx) error {
		out, missing = nil, nil
		sites, err := sitesMeant(ctx, tx, q)
		if err != nil {
			return err
		}
		if err := keptGrades(ctx, tx, b, q, sites, &out); err != nil {
			return err
		}
		missing, err = ungradedIn(ctx, tx, b)
		return err
	})
	if err != nil {
		return nil, 0, err
	}
	again := map[string]bool{}
	for _, k := range missing {
		for _, id := range k.IDs {
			again[k.Group+"/"+id] = true
		}
	}
	out = slices.DeleteFunc(out, func(g Graded) bool { return again[g.File] })
	of = len(out)
	err = db.gradeEach(ctx, b, missing, func(batch gradedBatch) error {
		for _, g := range batch.graded {
			if q.WantsSite(g.Site) || g.State == series.Unreadable {
				out = append(out, g)
			}
			of++
		}
		return nil
	})
	if narrowed(q) {
		of = notCounted
	}
	return out, of, err
}

// notCounted stands for how many visits there are where counting them would take longer than
// finding those that are wanted.
const notCounted = -1

// narrowed tells that the database looks for some visits only.
func narrowed(q series.Query) bool { return q.Site != "" || q.FirstDay != "" || q.LastDay != "" }

// sitesMeant are the names of sites that a query may mean; nil for all.
func sitesMeant(ctx context.Context, tx pgx.Tx, q series.Query) ([]string, error) {
	if q.Site == "" {
		return nil, nil
	}
	sites := []string{}
	var site string
	err := eachRow(ctx, tx, []any{&site}, func() error {
		if q.WantsSite(site) {
			sites = append(sites, site)
		}
		return nil
	}, `select distinct site from rillkey.sites`)
	return sites, err
}

// bounds are the first and the last day of a query, written out, so that they compare as texts
// in any order of letters.
func bounds(q series.Query) (from, to string) {
	from, to = q.FirstDay, cmp.Or(q.LastDay, "9999")
	return from + "0000-00-00"[min(len(from), 10):], to + "9999-99-99"[min(len(to), 10):]
}

const gradeColumns = `visit, edition, day, site, region, protocol, state, latitude, longitude,
samples, animals, taxa, value, rating, summary`

// keptGrades adds the grades that are kept and of which nothing came since.
func keptGrades(ctx context.Context, tx pgx.Tx, b Book, q series.Query, sites []string, out *[]Graded) error {
	from, to := bounds(q)
	query := `select ` + gradeColumns + `, obscured, group_name, people, undecided, looks, contrary, misfits, invaders, reference
from rillkey.grades g where edition = any($1) and day between $2 and $3 and state <> 'joined'
and not exists (select 1 from rillkey.ungraded u where u.visit = g.visit and u.group_name = g.group_name)`
	args := []any{b.editions(), from, to}
	if sites != nil { // said by itself, so that the index of sites is used
		query, args = query+` and site = any($4)`, append(args, sites)
	}
	var k keptRow
	var people, invaders, reference string
	return eachRow(ctx, tx, append(k.columns(), &k.g.Obscured, &k.g.Group, &people, &k.g.Undecided, &k.g.Looks,
		&k.g.Contrary, &k.g.Remarks, &invaders, &reference), func() error {
		k.g.People, k.g.Invaders = lines(people), strings.Fields(invaders)
		g, err := k.graded(k.g.Group + "/" + k.g.ID)
		g.Summary.Reference = reference
		*out = append(*out, g)
		return err
	}, query, args...)
}

func lines(text string) []string {
	if text == "" {
		return nil
	}
	return strings.Split(text, "\n")
}

// keptRow is a row of kept grades on its way.
type keptRow struct {
	g                    Graded
	state, taxa, summary string
	north, east          *float64
	value                *float64
}

func (k *keptRow) columns() []any {
	return []any{&k.g.ID, &k.g.edition, &k.g.Date, &k.g.Site, &k.g.Region, &k.g.Protocol, &k.state, &k.north, &k.east,
		&k.g.Samples, &k.g.Animals,
		&k.taxa, &k.value, &k.g.Rating, &k.summary}
}

func (k *keptRow) graded(name string) (Graded, error) {
	g := k.g
	g.File, g.State, g.Taxa = name, series.Stage(k.state), strings.Fields(k.taxa)
	var s kept
	if err := json.Unmarshal([]byte(k.summary), &s); err != nil {
		return g, wording.Errorf("the grade that is kept of %s cannot be read: %w", name, err)
	}
	g.Summary, g.Failed = s.Summary, s.Failed
	g.Summary.Kinds, g.Summary.Conditions = s.Kinds, s.Conditions
	g.Summary.Visit = scoring.Subject{ID: g.ID, Site: g.Site, Date: g.Date}
	g.Value, g.Index, g.RatingRange, g.Reason = s.Value, s.Index, s.RatingRange, s.Reason
	g.RatingProvisional = s.RatingProvisional
	g.Spot = nil
	if k.north != nil && k.east != nil {
		g.Spot = &visit.Spot{Latitude: *k.north, Longitude: *k.east, Uncertainty: s.Uncertainty}
	}
	return g, nil
}

// ungradedIn are the visits without a grade that holds: of a book by which all were graded
// once, those of which something came since.
func ungradedIn(ctx context.Context, tx pgx.Tx, b Book) ([]GroupVisit, error) {
	var complete bool
	if err := tx.QueryRow(ctx, `select exists (select 1 from rillkey.books where book = $1)`, b.whole()).Scan(&complete); err != nil {
		return nil, err
	}
	if complete {
		return keysOf(ctx, tx, `select distinct group_name, visit from rillkey.ungraded order by 1, 2`)
	}
	return keysOf(ctx, tx, ungradedVisits, b.editions())
}

// open are the grades that a reader may see.
func (db *DB) open(ctx context.Context, b Book, q series.Query) (out []Graded, of int, err error) {
	from, to := bounds(q)
	err = db.again(ctx, reading, func(tx pgx.Tx) error {
		out = nil
		var k keptRow
		return eachRow(ctx, tx, append(k.columns(), &k.g.Obscured), func() error {
			g, err := k.graded(k.g.ID)
			if g.Summary.Held != nil {
				g.Summary.Reason = unseen()
				g.Reason = g.Summary.Reason
			}
			if of++; q.WantsSite(g.Site) {
				out = append(out, g)
			}
			return err
		}, `select `+gradeColumns+`, hidden from rillkey.open_grades
where edition = any($1) and day between $2 and $3 and state <> 'joined'`, b.editions(), from, to)
	})
	return out, of, err
}

// unseen is why a reader gets no word of a visit that a group compares with another site.
func unseen() string {
	return wording.Text("the group compares with a reference site, which readers are not told")
}

// SeriesRows are the kept grades as the rows of a table, and what stands in the way of others.
func SeriesRows(all []Graded) (rows []series.Row, problems []string) {
	for _, g := range all {
		switch {
		case g.State == series.Unreadable:
			problems = append(problems, g.Problem)
		case g.Failed != "":
			problems = append(problems, g.File+": "+g.Failed)
		default:
			rows = append(rows, series.Row{File: g.File, Summary: g.Summary})
		}
	}
	return rows, problems
}

// WithReferences adds to some visits those to the sites that they are compared with.
func (db *DB) WithReferences(ctx context.Context, book Book, some []Graded) ([]Graded, error) {
	known, asked := map[string]bool{}, map[string]bool{}
	for _, g := range some {
		known[g.File] = true
	}
	for _, g := range some {
		site := g.Summary.Reference
		if site == "" || asked[plain.Fold(site)] {
			continue
		}
		asked[plain.Fold(site)] = true
		there, _, err := db.Listed(ctx, book, series.Query{Site: site})
		if err != nil {
			return nil, err
		}
		for _, g := range there {
			if !known[g.File] {
				known[g.File] = true
				some = append(some, g)
			}
		}
	}
	return some, nil
}

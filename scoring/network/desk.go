package network

import (
	"cmp"
	"context"
	"crypto/sha256"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/jackc/pgx/v5"

	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

// Came is what came of one group.
type Came struct {
	Group  string    `json:"group"`
	Visits int       `json:"visits"`
	Events int       `json:"events"`
	Last   time.Time `json:"last"`
}

// News are what came since a moment, by group.
func (db *DB) News(ctx context.Context, since time.Time) ([]Came, error) {
	out := []Came{}
	err := db.again(ctx, reading, func(tx pgx.Tx) error {
		out = out[:0]
		var c Came
		return eachRow(ctx, tx, []any{&c.Group, &c.Visits, &c.Events, &c.Last}, func() error { out = append(out, c); return nil },
			`select group_name, count(distinct visit), sum(events), max(arrived)
from rillkey.arrivals where arrived >= $1
group by group_name order by group_name`, since)
	})
	return out, err
}

// Waiting is what somebody should look at.
type Waiting struct {
	Visits  []WaitingVisit `json:"visits"`  // by date, newest first
	Total   int            `json:"of"`      // how many there are
	Refused []Refusal      `json:"refused"` // entries kept apart, newest first
	Kept    int            `json:"kept_apart"`
	Alarms  []Alarm        `json:"alarms"` // sites that changed
}

// WaitingVisit is a visit with something open about it.
type WaitingVisit struct {
	Visit     string   `json:"visit"`
	Site      string   `json:"site"`
	Date      string   `json:"date"`
	Open      bool     `json:"open"`      // nobody finished it
	Future    bool     `json:"future"`    // its day has not come: a clock was ahead, or a date is wrong
	Undecided int      `json:"undecided"` // records set aside
	Contrary  int      `json:"contrary"`  // second looks that say another name and are not settled
	Misfits   int      `json:"misfits"`   // entries that do not fit the visit
	Invaders  []string `json:"invaders"`  // animals that do not belong there
}

// Alarm is a site whose visits changed.
type Alarm struct {
	Site     string `json:"site"`
	Scheme   string `json:"scheme"`
	FirstDay string `json:"since"`
	Words    string `json:"words"`
}

// Waiting is what waits among the visits that are graded by the book, at most so many of each.
// With alarms every visit is compared with those before it, which takes a while.
func (db *DB) Waiting(ctx context.Context, b Book, most int, today time.Time, alarms bool) (Waiting, error) {
	w := Waiting{Visits: []WaitingVisit{}, Alarms: []Alarm{}}
	err := db.again(ctx, reading, func(tx pgx.Tx) (err error) {
		if w.Visits, w.Total, err = waitingVisits(ctx, tx, b, most, today.Format(time.DateOnly)); err != nil {
			return err
		}
		w.Refused, w.Kept, err = refusals(ctx, tx, most)
		return err
	})
	if err != nil || !alarms {
		return w, err
	}
	all, _, err := db.Listed(ctx, b, series.Query{})
	if err != nil {
		return w, err
	}
	rows, _ := SeriesRows(all)
	for _, place := range series.GradeRows(b.Rules, rows, nil, series.Options{Today: today}).Places {
		if words := place.ChangedBy(today.Format(time.DateOnly)); words != "" {
			w.Alarms = append(w.Alarms, Alarm{place.Site, place.Scheme, lastStep(place), words})
		}
	}
	slices.SortStableFunc(w.Alarms, func(x, y Alarm) int { return -cmp.Compare(x.FirstDay, y.FirstDay) })
	return w, nil
}

// lastStep is the date of the first visit after the last change that is shown.
func lastStep(p series.Site) (since string) {
	for _, t := range p.Tests {
		if t.Shown && t.Asked == series.StepChange {
			since = max(since, t.FirstDay)
		}
	}
	return since
}

func waitingVisits(ctx context.Context, tx pgx.Tx, b Book, most int, today string) (out []WaitingVisit, of int, err error) {
	const where = ` from rillkey.grades where edition = any($1) and state <> 'joined' and
(state = 'open' or day > $2 or undecided > 0 or contrary > 0 or misfits > 0 or invaders <> '')`
	out = []WaitingVisit{}
	if err = tx.QueryRow(ctx, `select count(*)`+where, b.editions(), today).Scan(&of); err != nil {
		return nil, 0, err
	}
	var v WaitingVisit
	var invaders string
	err = eachRow(ctx, tx, []any{
		&v.Visit, &v.Site, &v.Date, &v.Open, &v.Future, &v.Undecided, &v.Contrary, &v.Misfits, &invaders}, func() error {
		v.Invaders = append([]string{}, strings.Fields(invaders)...)
		out = append(out, v)
		return nil
	}, `select group_name || '/' || visit, site, day, state = 'open', day > $2, undecided, contrary, misfits, invaders`+where+
		` order by day desc, 1 limit $3`, b.editions(), today, most)
	return out, of, err
}

func refusals(ctx context.Context, tx pgx.Tx, most int) (out []Refusal, of int, err error) {
	out = []Refusal{}
	if err = tx.QueryRow(ctx, `select count(*) from rillkey.refused`).Scan(&of); err != nil {
		return nil, 0, err
	}
	var r Refusal
	err = eachRow(ctx, tx, []any{&r.Visit, &r.Group, &r.File, &r.Line, &r.Reason, &r.Arrived},
		func() error { out = append(out, r); return nil },
		`select visit, group_name, file, line, reason, arrived from rillkey.refused order by arrived desc, visit, mark limit $1`, most)
	return out, of, err
}

// GroupAgreement is how two groups agree at the sites that both visited within a fortnight, by one
// protocol.
type GroupAgreement struct {
	Groups  [2]string `json:"groups"`
	Pairs   int       `json:"pairs"`       // of visits, each with the nearest of the other group
	Graded  int       `json:"graded"`      // those of which both have a word
	Same    int       `json:"same_word"`   // those whose words are one
	Mean    float64   `json:"mean"`        // difference of the values, the first group's less the second's
	Typical float64   `json:"typical_gap"` // root of the mean square of the differences
}

// Agree holds the groups against each other.
func (db *DB) Agree(ctx context.Context, b Book) ([]GroupAgreement, error) {
	by := map[[2]string]*GroupAgreement{}
	err := db.again(ctx, reading, func(tx pgx.Tx) error {
		clear(by)
		var place string
		var here []valued
		var site, protocol string
		var v valued
		err := eachRow(ctx, tx, []any{&site, &protocol, &v.group, &v.id, &v.day, &v.value, &v.rating}, func() error {
			if now := site + "\x00" + protocol; now != place {
				pairUp(here, by)
				place, here = now, nil
			}
			here = append(here, v)
			return nil
		}, `select site, protocol, group_name, visit, day, value, rating from rillkey.grades g
where edition = any($1) and state <> 'joined' and value is not null and exists
(select 1 from rillkey.grades o where o.site = g.site and o.edition = g.edition and o.group_name <> g.group_name)
order by site, protocol, day, group_name, visit`, b.editions())
		pairUp(here, by)
		return err
	})
	out := []GroupAgreement{}
	for _, a := range by {
		a.Mean, a.Typical = a.Mean/float64(a.Pairs), math.Sqrt(a.Typical/float64(a.Pairs))
		out = append(out, *a)
	}
	slices.SortFunc(out, func(x, y GroupAgreement) int { return slices.Compare(x.Groups[:], y.Groups[:]) })
	return out, err
}

// valued is a visit with a value.
type valued struct {
	group, id, day, rating string
	value                  float64
}

// pairUp counts the pairs of visits to one site, which are in the order of their days: each with
// the next one that another group made.
func pairUp(here []valued, by map[[2]string]*GroupAgreement) {
	for i, v := range here {
		j := slices.IndexFunc(here[i+1:], func(o valued) bool { return o.group != v.group }) + i + 1
		if j == i || !series.WithinPair(v.day, here[j].day) {
			continue
		}
		x, y := v, here[j]
		if x.group > y.group {
			x, y = y, x
		}
		pair := [2]string{x.group, y.group}
		a := by[pair]
		if a == nil {
			a = &GroupAgreement{Groups: pair}
			by[pair] = a
		}
		a.Pairs++
		a.Mean += x.value - y.value
		a.Typical += (x.value - y.value) * (x.value - y.value)
		if x.rating != "" && y.rating != "" {
			if a.Graded++; x.rating == y.rating {
				a.Same++
			}
		}
	}
}

// Drawn is a record that chance drew for a second look. It has no name, so that whoever looks
// is not told the first.
type Drawn struct {
	Group  string `json:"group"`
	Visit  string `json:"visit"`
	Site   string `json:"site"`
	Date   string `json:"date"`
	Record string `json:"record"`
	Sample string `json:"sample"`
	Cell   string `json:"cell"`
}

// Draw draws records for second looks by design: of each group so many visits since a day, each
// visit as likely as any other of its group, and of each visit the first records of the draw
// that is the same everywhere ([visit.Visit.Draw]). The same seed draws the same.
func (db *DB) Draw(ctx context.Context, seed string, since string, visits, records int) ([]Drawn, error) {
	keys, err := db.keys(ctx, `select distinct group_name, visit from rillkey.arrivals
where $1 = '' or arrived >= nullif($1, '')::timestamptz order by 1, 2`, since)
	if err != nil {
		return nil, err
	}
	slices.SortFunc(keys, func(a, b GroupVisit) int {
		return cmp.Or(cmp.Compare(a.Group, b.Group), strings.Compare(lotOf(seed, a), lotOf(seed, b)))
	})
	var meant []GroupVisit
	n := 0
	for i, k := range keys {
		if i > 0 && k.Group != keys[i-1].Group {
			n = 0
		}
		if n++; n <= visits {
			meant = append(meant, k)
		}
	}
	out := []Drawn{}
	i := 0
	err = db.Source(ctx, meant).Each(func(item series.Item) bool {
		if v, err := item.Read(); err == nil {
			out = append(out, drawnOf(meant[i].Group, v, records)...)
		}
		i++
		return true
	})
	return out, err
}

// lotOf orders visits by a seed.
func lotOf(seed string, k GroupVisit) string {
	sum := sha256.Sum256([]byte(seed + "\x00" + k.Name()))
	return string(sum[:])
}

func drawnOf(group string, v *visit.Visit, most int) (out []Drawn) {
	t := v.Tally()
	for _, id := range v.Draw() {
		r, ok := t.Record(id)
		if ok && len(r.Looks) == 0 && len(out) < most {
			out = append(out, Drawn{group, v.Header.ID, v.Header.Site, v.Header.Date, id, r.Sample, r.Cell})
		}
	}
	return out
}

// Health is how a network is.
type Health struct {
	Schema   int        `json:"schema"`
	Groups   int        `json:"groups"`
	Visits   int        `json:"visits"`
	Events   int        `json:"events"` // as they were counted when they came
	Kept     int        `json:"kept_apart"`
	Ungraded int        `json:"ungraded"` // visits of which something came since they were graded
	Graded   int        `json:"graded"`   // grades that are kept
	Last     *time.Time `json:"last"`     // when something came; nil where nothing did
	Answered float64    `json:"answered_ms"`
}

// Health counts what there is, and how long the server takes to answer. now tells the time.
func (db *DB) Health(ctx context.Context, now func() time.Time) (Health, error) {
	h := Health{Schema: SchemaVersion()}
	err := db.again(ctx, reading, func(tx pgx.Tx) error {
		begun := now()
		if _, err := tx.Exec(ctx, `select 1`); err != nil {
			return err
		}
		h.Answered = float64(now().Sub(begun).Microseconds()) / 1000
		return tx.QueryRow(ctx, `select (select count(distinct group_name) from rillkey.arrivals),
(select count(*) from (select distinct group_name, visit from rillkey.headers) v),
(select coalesce(sum(events), 0) from rillkey.arrivals), (select count(*) from rillkey.refused),
(select count(*) from (select distinct group_name, visit from rillkey.ungraded) u),
(select count(*) from rillkey.grades where state <> 'joined'),
(select max(arrived) from rillkey.arrivals)`).Scan(&h.Groups, &h.Visits, &h.Events, &h.Kept, &h.Ungraded, &h.Graded, &h.Last)
	})
	if err == nil {
		db.log.Info("health", "visits", h.Visits, "events", h.Events, "ungraded", h.Ungraded, "kept apart", h.Kept)
	}
	return h, err
}

// WeekBefore is from when on news are told where nobody says.
func WeekBefore(at time.Time) time.Time { return at.AddDate(0, 0, -7) }

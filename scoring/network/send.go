package network

import (
	"bytes"
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"maps"
	"runtime"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/jackc/pgx/v5"

	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Refusal is an event, or the header of a visit, that is kept apart, and why.
type Refusal struct {
	Visit   string    `json:"visit"`
	Group   string    `json:"group,omitempty"`
	File    string    `json:"file"`
	Line    int       `json:"line"`
	Reason  string    `json:"reason"`
	Arrived time.Time `json:"arrived,omitzero"`

	body string
}

// SendResult is what came of sending.
type SendResult struct {
	Visits  int       `json:"visits"`      // files that were sent
	Events  int       `json:"events"`      // events that they hold
	New     int       `json:"new"`         // those that the network did not have
	Refused []Refusal `json:"refused"`     // kept apart
	Unread  []string  `json:"not_a_visit"` // why files could not be sent at all
	Ahead   []Ahead   `json:"ahead"`       // visits with entries dated after the time at the network
	Began   time.Time `json:"began"`       // by the clock of the network; zero where nothing was to be sent
}

// Ahead is a visit with entries that are dated after the time at the network: the clock of a
// laptop was wrong. They are sent as they are.
type Ahead struct {
	Visit   string    `json:"visit"`
	File    string    `json:"file"`
	Entries int       `json:"entries"`
	Latest  time.Time `json:"until"` // the date of the last of them
}

// aheadBy is how far clocks may lie apart without a word.
const aheadBy = 10 * time.Minute

// outgoing is one visit's file on its way.
type outgoing struct {
	file     string
	parts    visit.Parts
	obscured []string // names of sites that it obscures, folded
	fault    error
}

// batchEvents is how many events go in one transaction: enough that their number costs
// nothing, few enough that little is done again after a lost connection.
const batchEvents = 4000

// Send sends the visits in files. Those that the network has cost a look each. The report
// says what came of it, also with an error: what was sent before the error stays sent.
// done, which may be nil, is told how many files are sent.
func (db *DB) Send(ctx context.Context, files []string, read func(string) ([]byte, error), done func(int)) (SendResult, error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	report := SendResult{Refused: []Refusal{}, Unread: []string{}, Ahead: []Ahead{}}
	if len(files) == 0 {
		return report, nil
	}
	var err error
	if report.Began, err = db.time(ctx); err != nil {
		return report, err
	}
	var batch []outgoing
	events := 0
	flush := func() error {
		if len(batch) == 0 {
			return nil
		}
		if err := db.sendBatch(ctx, batch, &report); err != nil {
			return err
		}
		if batch, events = batch[:0], 0; done != nil {
			done(report.Visits + len(report.Unread))
		}
		return nil
	}
	for o := range prepareAll(ctx, files, read) {
		if o.fault != nil {
			report.Unread = append(report.Unread, o.fault.Error())
			continue
		}
		batch = append(batch, o)
		if events += len(o.parts.Events); events >= batchEvents || len(batch) >= batchEvents/4 {
			if err := flush(); err != nil {
				return report, err
			}
		}
	}
	return report, errors.Join(flush(), ctx.Err())
}

// prepareAll reads files and parts them, several at once, in the order of the files.
func prepareAll(ctx context.Context, files []string, read func(string) ([]byte, error)) func(func(outgoing) bool) {
	return func(yield func(outgoing) bool) {
		ctx, cancel := context.WithCancel(ctx)
		defer cancel()
		waiting := make(chan chan outgoing, 4*runtime.GOMAXPROCS(0))
		go func() {
			defer close(waiting)
			slots := make(chan struct{}, runtime.GOMAXPROCS(0))
			for _, file := range files {
				one := make(chan outgoing, 1)
				select {
				case <-ctx.Done():
					return
				case waiting <- one:
				}
				slots <- struct{}{}
				go func() { one <- prepared(file, read); <-slots }()
			}
		}()
		for one := range waiting {
			if !yield(<-one) {
				return
			}
		}
	}
}

func prepared(file string, read func(string) ([]byte, error)) (o outgoing) {
	o.file = file
	data, err := read(file)
	if err == nil {
		o.parts, err = visit.PartsOf(file, data)
	}
	switch {
	case errors.Is(err, visit.ErrUnsealed):
		head := o.parts.Head
		head.Fault = wording.Text("the header was changed by hand; undo that, then correct it with 'rillkey visit amend'")
		o.parts.Head.Text, o.parts.Events, o.parts.Refused = "", nil, append(o.parts.Refused, head)
	case err != nil:
		o.fault = err
		return o
	}
	o.parts.Events = slices.DeleteFunc(o.parts.Events, func(p visit.Part) bool {
		fits := utf8.ValidString(p.Text) && !strings.ContainsRune(p.Text, 0) && len(p.ID) <= 64
		if !fits {
			p.Fault = wording.Text("its text is not UTF-8, or its id is too long")
			o.parts.Refused = append(o.parts.Refused, p)
		}
		return !fits
	})
	if bytes.Contains(data, []byte("obscured")) {
		if v, err := visit.Parse(file, data); err == nil && v.Obscured() {
			for _, site := range v.Sites() {
				o.obscured = append(o.obscured, plain.Fold(site))
			}
		}
	}
	return o
}

// eventColumns are events to be inserted, column by column.
type eventColumns struct {
	visits, events, marks, bodies []string
	times                         []time.Time
}

func (c *eventColumns) add(visit string, p visit.Part) {
	c.visits, c.events, c.marks = append(c.visits, visit), append(c.events, p.ID), append(c.marks, p.Check)
	c.bodies, c.times = append(c.bodies, p.Text), append(c.times, p.Time)
}

// sendBatch sends some visits in one transaction, and adds to the report what came of it.
func (db *DB) sendBatch(ctx context.Context, batch []outgoing, report *SendResult) error {
	slices.SortStableFunc(batch, func(a, b outgoing) int { return cmp.Compare(a.parts.Header.ID, b.parts.Header.ID) })
	var fresh int
	var refused []Refusal
	send := func(careful bool) error {
		return db.again(ctx, pgx.TxOptions{}, func(tx pgx.Tx) (err error) {
			s := sender{tx: tx, counts: map[string]int{}, careful: careful}
			if err = s.send(ctx, batch); err != nil {
				return err
			}
			fresh, refused = s.fresh, s.refused
			return nil
		})
	}
	err := send(false)
	if sqlState(err) == codeTwice { // somebody else sends the same now
		err = send(true)
	}
	if err != nil {
		return err
	}
	ahead, err := db.ahead(ctx, batch, report.Began)
	if err != nil {
		return err
	}
	for _, o := range batch {
		report.Events += len(o.parts.Events)
	}
	report.Ahead = append(report.Ahead, ahead...)
	report.Visits += len(batch)
	report.New += fresh
	report.Refused = append(report.Refused, refused...)
	db.log.Debug("sent", "visits", len(batch), "new events", fresh, "refused", len(refused))
	return nil
}

// sender is one transaction of sending.
type sender struct {
	tx      pgx.Tx
	careful bool           // others may send the same meanwhile; this costs the server half as much again
	counts  map[string]int // what is new, by visit
	fresh   int
	refused []Refusal
}

func (s *sender) send(ctx context.Context, batch []outgoing) error {
	known, err := s.known(ctx, batch)
	if err != nil {
		return err
	}
	if err := s.headers(ctx, batch); err != nil {
		return err
	}
	var rows eventColumns
	for _, o := range batch {
		id := o.parts.Header.ID
		for _, p := range o.parts.Refused {
			s.refuse(id, o.file, p)
		}
		for _, p := range o.parts.Events {
			switch mark, there := known[eventKey{id, p.ID}]; {
			case !there:
				known[eventKey{id, p.ID}] = p.Check
				rows.add(id, p)
			case mark != p.Check:
				s.refuseOther(id, o.file, p)
			}
		}
	}
	if err := s.events(ctx, &rows, batch); err != nil {
		return err
	}
	return errors.Join(s.arrivals(ctx), s.keepRefused(ctx), s.obscured(ctx, batch))
}

type eventKey struct{ visit, event string }

// known are the checksums of the events that the network has of some visits.
func (s *sender) known(ctx context.Context, batch []outgoing) (map[eventKey]string, error) {
	ids := make([]string, len(batch))
	for i, o := range batch {
		ids[i] = o.parts.Header.ID
	}
	// Visit by visit, so that the planner takes the key however little it knows of a new table.
	out := map[eventKey]string{}
	var k eventKey
	var mark string
	err := eachRow(ctx, s.tx, []any{&k.visit, &k.event, &mark}, func() error { out[k] = mark; return nil },
		`select n.visit, e.event, e.mark
from (select distinct visit from unnest($1::text[]) as given (visit)) n cross join lateral
(select event, mark from rillkey.events where visit = n.visit and group_name = session_user offset 0) e`, ids)
	return out, err
}

func (s *sender) headers(ctx context.Context, batch []outgoing) error {
	var visits, marks, bodies []string
	for _, o := range batch {
		if o.parts.Head.Text != "" {
			visits, marks, bodies = append(visits, o.parts.Header.ID), append(marks, o.parts.Head.Check), append(bodies, o.parts.Head.Text)
		}
	}
	var id string
	return eachRow(ctx, s.tx, []any{&id}, func() error { s.counts[id] += 0; return nil },
		`insert into rillkey.headers (visit, mark, body)
select * from unnest($1::text[], $2::text[], $3::text[]) on conflict do nothing returning visit`, visits, marks, bodies)
}

func (s *sender) events(ctx context.Context, c *eventColumns, batch []outgoing) error {
	if len(c.visits) == 0 {
		return nil
	}
	const insert = `insert into rillkey.events (visit, event, at, mark, body)
select * from unnest($1::text[], $2::text[], $3::timestamptz[], $4::text[], $5::text[])`
	columns := []any{c.visits, c.events, c.times, c.marks, c.bodies}
	if !s.careful {
		if _, err := s.tx.Exec(ctx, insert, columns...); err != nil {
			return err
		}
		for _, id := range c.visits {
			s.counts[id]++
		}
		s.fresh = len(c.visits)
		return nil
	}
	var id string
	var n int
	err := eachRow(ctx, s.tx, []any{&id, &n}, func() error { s.counts[id] += n; s.fresh += n; return nil }, `with fresh as (`+insert+
		` on conflict do nothing returning visit) select visit, count(*) from fresh group by visit`, columns...)
	if err != nil || s.fresh == len(c.visits) {
		return err
	}
	return s.overtaken(ctx, batch)
}

// overtaken finds among the events that somebody else sent meanwhile those that say
// something else.
func (s *sender) overtaken(ctx context.Context, batch []outgoing) error {
	known, err := s.known(ctx, batch)
	if err != nil {
		return err
	}
	for _, o := range batch {
		for _, p := range o.parts.Events {
			if mark, there := known[eventKey{o.parts.Header.ID, p.ID}]; there && mark != p.Check {
				s.refuseOther(o.parts.Header.ID, o.file, p)
			}
		}
	}
	return nil
}

// arrivals notes which visits something new came of.
func (s *sender) arrivals(ctx context.Context) error {
	if len(s.counts) == 0 {
		return nil
	}
	visits := slices.Sorted(maps.Keys(s.counts))
	counts := make([]int, len(visits))
	for i, id := range visits {
		counts[i] = s.counts[id]
	}
	_, err := s.tx.Exec(ctx, `with came as (
insert into rillkey.arrivals (visit, events) select * from unnest($1::text[], $2::integer[]) returning visit, arrival)
insert into rillkey.ungraded (visit, arrival) select visit, arrival from came`, visits, counts)
	return err
}

func (s *sender) refuse(id, file string, p visit.Part) {
	if slices.ContainsFunc(s.refused, func(r Refusal) bool {
		return r.Visit == id && r.File == file && r.Line == p.Line && r.Reason == p.Fault
	}) {
		return
	}
	s.refused = append(s.refused, Refusal{Visit: id, File: file, Line: p.Line, Reason: p.Fault, body: p.Text})
}

// refuseOther refuses an event whose id another event has in the network.
func (s *sender) refuseOther(id, file string, p visit.Part) {
	p.Fault = wording.Text("the network holds another event with its id, which says something else")
	s.refuse(id, file, p)
}

func (s *sender) keepRefused(ctx context.Context) error {
	if len(s.refused) == 0 {
		return nil
	}
	var visits, marks, files, reasons, bodies []string
	var lines []int
	for _, r := range s.refused {
		sum := sha256.Sum256([]byte(r.Reason + "\x00" + r.body))
		visits, marks, files = append(visits, r.Visit), append(marks, hex.EncodeToString(sum[:8])), append(files, fitting(r.File))
		reasons, bodies, lines = append(reasons, fitting(r.Reason)), append(bodies, fitting(r.body)), append(lines, r.Line)
	}
	_, err := s.tx.Exec(ctx, `insert into rillkey.refused (visit, mark, file, line, reason, body)
select * from unnest($1::text[], $2::text[], $3::text[], $4::integer[], $5::text[], $6::text[]) on conflict do nothing`,
		visits, marks, files, lines, reasons, bodies)
	return err
}

// fitting is a text that any database keeps, however it came about.
func fitting(text string) string {
	const most = 100_000
	if len(text) > most {
		text = text[:most] + wording.Sprintf(" … and %d bytes more", len(text)-most)
	}
	return strings.ReplaceAll(strings.ToValidUTF8(text, "\ufffd"), "\x00", "\ufffd")
}

func (s *sender) obscured(ctx context.Context, batch []outgoing) error {
	var visits, sites []string
	for _, o := range batch {
		for _, site := range o.obscured {
			visits, sites = append(visits, o.parts.Header.ID), append(sites, site)
		}
	}
	if len(visits) == 0 {
		return nil
	}
	_, err := s.tx.Exec(ctx,
		`insert into rillkey.obscured (visit, site) select * from unnest($1::text[], $2::text[]) on conflict do nothing`, visits, sites)
	return err
}

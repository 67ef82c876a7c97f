package network

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"slices"
	"strings"

	"github.com/jackc/pgx/v5"

	"rillkey/scoring"
	"rillkey/scoring/condition"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Book is by what visits are graded.
type Book struct {
	Rules *scoring.Rules
	Mark  string // fingerprint of animals, keys and regions, and of how grades are kept
	// Invaders are those of a visit's animals that do not belong where it was.
	Invaders func(v *visit.Visit, taxa []string) []string
}

// form is counted up whenever what is kept of a grade changes.
const form = "2"

// edition is the fingerprint of what a visit by a protocol is graded by.
func (b Book) edition(protocol string) string {
	return form + "-" + b.Mark + "-" + b.Rules.Mark(protocol)
}

// editions are those of all protocols, and of those that there are not.
func (b Book) editions() []string {
	out := []string{b.edition("")}
	for _, p := range b.Rules.Protocols() {
		out = append(out, b.edition(p.ID))
	}
	return out
}

// whole is the fingerprint of all of it.
func (b Book) whole() string {
	all := b.editions()
	slices.Sort(all)
	sum := sha256.Sum256([]byte(strings.Join(all, "\n")))
	return hex.EncodeToString(sum[:8])
}

// Graded is what a visit came to by one book.
type Graded struct {
	series.VisitFile
	Group     string
	Summary   scoring.Summary
	Failed    string // why it has no grade at all, such as a protocol that there is not
	Undecided int    // records that were set aside and not named since
	Looks     int    // second looks
	Contrary  int    // those that say another name and are not settled
	Invaders  []string

	names   []string // of the site, folded
	edition string
}

// kept is the summary as it is kept: without site, reference and person.
type kept struct {
	scoring.Summary
	Index      string             `json:"index"`
	Failed     string             `json:"failed,omitempty"`
	Kinds      []uint16           `json:"kinds"`
	Conditions condition.Compared `json:"conditions"`
	// Uncertainty is how far, in metres, the place may be off; 0 where nobody said.
	Uncertainty float64 `json:"uncertainty_m,omitempty"`
}

// grade works out what a visit comes to.
func (b Book) grade(group string, v *visit.Visit) Graded {
	a := b.Rules.Account(v)
	summary, err := b.Rules.Summary(a, 0) // the seed that grades have everywhere
	g := Graded{VisitFile: series.EntryOf(v.File, a, summary, err), Group: group, Summary: summary, edition: b.edition(v.Header.Protocol)}
	if err != nil {
		g.Failed = err.Error()
	}
	for _, r := range a.Tally.Records {
		if r.Undecided || r.Taxon == "" {
			g.Undecided++
		}
		g.Looks += len(r.Looks)
		if n := len(r.Looks); n > 0 && r.Looks[n-1].Taxon != "" && r.Looks[n-1].Taxon != r.Taxon {
			g.Contrary++
		}
	}
	for _, site := range v.Sites() {
		g.names = append(g.names, plain.Fold(site))
	}
	if b.Invaders != nil {
		g.Invaders = b.Invaders(v, g.Taxa)
	}
	return g
}

const ungradedVisits = `select h.group_name, h.visit from (select distinct group_name, visit from rillkey.headers) h
left join rillkey.grades g on g.visit = h.visit and g.group_name = h.group_name and g.edition = any($1)
left join (select distinct group_name, visit from rillkey.ungraded) u on u.visit = h.visit and u.group_name = h.group_name
where g.visit is null or u.visit is not null order by 1, 2`

// ungradedKeys are the visits that have no grade by the book, or of which something came since.
func (db *DB) ungradedKeys(ctx context.Context, b Book) (keys []GroupVisit, err error) {
	err = db.again(ctx, reading, func(tx pgx.Tx) (err error) {
		keys, err = ungradedIn(ctx, tx, b)
		return err
	})
	return keys, err
}

// keysOf are the visits of a query for groups and ids, with all ids under which each is known.
func keysOf(ctx context.Context, tx pgx.Tx, query string, args ...any) (keys []GroupVisit, err error) {
	var group, id string
	err = eachRow(ctx, tx, []any{&group, &id}, func() error {
		keys = append(keys, GroupVisit{group, []string{id}})
		return nil
	}, query, args...)
	if err != nil || len(keys) == 0 {
		return nil, err
	}
	joined, err := joinedHeads(ctx, tx)
	if err != nil || len(joined) == 0 {
		return keys, err
	}
	return whole(keys, joined), nil
}

// whole completes keys by the other ids of their visits.
func whole(keys []GroupVisit, joined []GroupVisit) []GroupVisit {
	meant := map[string]bool{}
	for _, k := range keys {
		meant[k.Name()] = true
	}
	for _, j := range joined {
		if slices.ContainsFunc(j.IDs, func(id string) bool { return meant[j.Group+"/"+id] }) {
			for _, id := range j.IDs {
				if name := j.Group + "/" + id; !meant[name] {
					meant[name] = true
					keys = append(keys, GroupVisit{j.Group, []string{id}})
				}
			}
		}
	}
	slices.SortFunc(keys, func(a, b GroupVisit) int { return strings.Compare(a.Name(), b.Name()) })
	return unite(keys, joined)
}

// Regrade grades the visits that have no grade by the book or of which something came since,
// and keeps the grades beside the visits. done, which may be nil, is told how many of how many.
// It gives how many were graded.
func (db *DB) Regrade(ctx context.Context, b Book, done func(n, of int)) (int, error) {
	keys, err := db.ungradedKeys(ctx, b)
	if err != nil {
		return 0, err
	}
	n := 0
	keeper := db.secondConnection()
	defer keeper.Close()
	err = db.gradeEach(ctx, b, keys, func(batch gradedBatch) error {
		if err := keeper.keep(ctx, batch); err != nil {
			return err
		}
		if n += len(batch.keys); done != nil {
			done(n, len(keys))
		}
		return nil
	})
	if err != nil {
		return n, err
	}
	err = db.again(ctx, pgx.TxOptions{}, func(tx pgx.Tx) error {
		_, err := tx.Exec(ctx, `insert into rillkey.books (book) values ($1) on conflict (book) do update set graded = now()`, b.whole())
		return err
	})
	db.log.Info("graded", "visits", n)
	return n, err
}

const keepGrades = `insert into rillkey.grades (visit, group_name, edition, arrivals, day, site, site_names, region, protocol, state,
obscured, latitude, longitude, samples, animals, undecided, looks, contrary, misfits, taxa, invaders, people, value, rating, summary,
reference)
select * from unnest($1::text[], $2::text[], $3::text[], $4::integer[], $5::text[], $6::text[], $7::text[], $8::text[], $9::text[],
$10::text[], $11::boolean[], $12::double precision[], $13::double precision[], $14::integer[], $15::integer[], $16::integer[],
$17::integer[], $18::integer[], $19::integer[], $20::text[], $21::text[], $22::text[], $23::double precision[], $24::text[], $25::text[],
$26::text[])
on conflict (visit, group_name, edition) do update set arrivals = excluded.arrivals, graded = now(), day = excluded.day,
site = excluded.site, site_names = excluded.site_names, region = excluded.region, protocol = excluded.protocol,
state = excluded.state, obscured = excluded.obscured,
latitude = excluded.latitude, longitude = excluded.longitude, samples = excluded.samples, animals = excluded.animals,
undecided = excluded.undecided, looks = excluded.looks, contrary = excluded.contrary, misfits = excluded.misfits, taxa = excluded.taxa,
invaders = excluded.invaders, people = excluded.people, value = excluded.value, rating = excluded.rating, summary = excluded.summary,
reference = excluded.reference
where rillkey.grades.arrivals <= excluded.arrivals`

// keep writes grades, and takes out what they have seen.
func (db *DB) keep(ctx context.Context, batch gradedBatch) error {
	rows, err := batch.columns()
	if err != nil {
		return err
	}
	var groups, sites, hiddenGroups, hiddenVisits, hiddenSites []string
	for _, g := range batch.graded {
		groups, sites = append(groups, g.Group), append(sites, g.Site)
		for _, name := range g.names {
			if g.Obscured {
				hiddenGroups, hiddenVisits, hiddenSites = append(hiddenGroups, g.Group), append(hiddenVisits, g.ID),
					append(hiddenSites, name)
			}
		}
	}
	var pendingGroups, pendingVisits, arrivals []string
	for _, p := range batch.pending {
		pendingGroups, pendingVisits, arrivals = append(pendingGroups, p.group), append(pendingVisits, p.id), append(arrivals, p.arrival)
	}
	return db.again(ctx, pgx.TxOptions{}, func(tx pgx.Tx) error {
		if _, err := tx.Exec(ctx, keepGrades, rows...); err != nil {
			return err
		}
		if _, err := tx.Exec(ctx,
			`insert into rillkey.sites (site, group_name) select distinct * from unnest($1::text[], $2::text[]) on conflict do nothing`,
			sites, groups); err != nil {
			return err
		}
		if _, err := tx.Exec(ctx,
			`insert into rillkey.obscured (group_name, visit, site)
select * from unnest($1::text[], $2::text[], $3::text[]) on conflict do nothing`,
			hiddenGroups, hiddenVisits, hiddenSites); err != nil {
			return err
		}
		_, err := tx.Exec(ctx, `delete from rillkey.ungraded u
using unnest($1::text[], $2::text[], $3::uuid[]) as s(group_name, visit, arrival)
where u.group_name = s.group_name and u.visit = s.visit and u.arrival = s.arrival`, pendingGroups, pendingVisits, arrivals)
		return err
	})
}

// joinedState marks the further ids of a visit that was united from several.
const joinedState = "joined"

// columns are the grades of a batch as the columns of their table. Further ids of a visit get
// rows that lists leave out.
func (batch gradedBatch) columns() ([]any, error) {
	c := make(tableColumns, 26)
	for at, g := range batch.graded {
		summary, err := g.kept()
		if err != nil {
			return nil, err
		}
		k := batch.keys[at]
		for i, id := range k.IDs {
			state := string(g.State)
			if i > 0 {
				state = joinedState
			}
			c.text(0, id, k.Group, g.edition)
			c.integer(3, batch.arrivals(k))
			c.text(4, g.Date, g.Site, strings.Join(g.names, "\n"), g.Region, g.Protocol, state)
			c[10].yes = append(c[10].yes, g.Obscured)
			var north, east *float64
			if g.Spot != nil {
				north, east = &g.Spot.Latitude, &g.Spot.Longitude
			}
			c[11].number, c[12].number = append(c[11].number, north), append(c[12].number, east)
			c.integer(13, g.Samples, g.Animals, g.Undecided, g.Looks, g.Contrary, g.Remarks)
			c.text(19, strings.Join(g.Taxa, " "), strings.Join(g.Invaders, " "), strings.Join(g.People, "\n"))
			c[22].number = append(c[22].number, g.Value)
			c.text(23, g.Rating, summary, g.Summary.Reference)
		}
	}
	return c.values(), nil
}

// tableColumns are columns of a table, each of one kind of value.
type tableColumns []struct {
	text    []string
	integer []int
	number  []*float64
	yes     []bool
}

// text adds a row's texts to the columns from one on.
func (c tableColumns) text(from int, texts ...string) {
	for i, s := range texts {
		c[from+i].text = append(c[from+i].text, fitting(s))
	}
}

// integer adds a row's numbers to the columns from one on.
func (c tableColumns) integer(from int, numbers ...int) {
	for i, n := range numbers {
		c[from+i].integer = append(c[from+i].integer, n)
	}
}

func (c tableColumns) values() []any {
	out := make([]any, len(c))
	for i := range c {
		switch {
		case c[i].integer != nil:
			out[i] = c[i].integer
		case c[i].yes != nil:
			out[i] = c[i].yes
		case c[i].number != nil:
			out[i] = c[i].number
		default:
			out[i] = c[i].text
		}
	}
	return out
}

func (batch gradedBatch) arrivals(k GroupVisit) (n int) {
	for _, id := range k.IDs {
		n += batch.seen[visitKey{k.Group, id}]
	}
	return n
}

// kept is the text that is kept of a grade.
func (g Graded) kept() (string, error) {
	s := g.Summary
	s.Visit, s.Reference = scoring.Subject{ID: g.ID, Date: g.Date}, ""
	k := kept{Summary: s, Index: g.Index, Failed: g.Failed, Kinds: s.Kinds, Conditions: s.Conditions}
	if g.Spot != nil {
		k.Uncertainty = g.Spot.Uncertainty
	}
	text, err := json.Marshal(k)
	if err != nil {
		return "", wording.Errorf("the grade of %s cannot be kept: %w", plain.Printable(g.File), err)
	}
	return string(text), nil
}

package network

import (
	"context"
	"slices"

	"github.com/jackc/pgx/v5"

	"rillkey/scoring/series"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// GroupVisit is one visit of one group. A visit that was united from several that were begun
// apart has several ids.
type GroupVisit struct {
	Group string
	IDs   []string // the first names it
}

// Name is what the visit is called in lists and messages.
func (k GroupVisit) Name() string { return k.Group + "/" + k.IDs[0] }

// Keys are the visits that the user of the connection may read, by group and id.
func (db *DB) Keys(ctx context.Context) ([]GroupVisit, error) {
	return db.keys(ctx, `select distinct group_name, visit from rillkey.headers order by 1, 2`)
}

// keys are those of a query for groups and ids.
func (db *DB) keys(ctx context.Context, query string, args ...any) (keys []GroupVisit, err error) {
	err = db.again(ctx, reading, func(tx pgx.Tx) (err error) {
		keys, err = keysOf(ctx, tx, query, args...)
		return err
	})
	return keys, err
}

// joinedHeads are the visits of which a header says under which other ids they are known.
func joinedHeads(ctx context.Context, tx pgx.Tx) (out []GroupVisit, err error) {
	var group, body string
	err = eachRow(ctx, tx, []any{&group, &body}, func() error {
		v, err := visit.Assemble("", []visit.Copy{{Head: body}})
		if err == nil && len(v.Header.Joined) > 0 { // what is no header is told when it is read
			out = append(out, GroupVisit{group, append([]string{v.Header.ID}, v.Header.Joined...)})
		}
		return nil
	}, `select group_name, body from rillkey.headers where body like '%joined = %'`)
	return out, err
}

// unite puts the ids of one visit into one key.
func unite(keys []GroupVisit, joined []GroupVisit) []GroupVisit {
	at := make(map[string]int, len(keys))
	for i, k := range keys {
		at[k.Name()] = i
	}
	for _, j := range joined {
		into := -1
		for _, id := range j.IDs {
			i, there := at[j.Group+"/"+id]
			switch {
			case !there || i == into:
			case into < 0:
				into = i
			default:
				into = move(keys, at, min(i, into), max(i, into))
			}
		}
	}
	return slices.DeleteFunc(keys, func(k GroupVisit) bool { return len(k.IDs) == 0 })
}

// move puts all ids of one key into another, and gives where that is.
func move(keys []GroupVisit, at map[string]int, into, from int) int {
	for _, id := range keys[from].IDs {
		at[keys[from].Group+"/"+id] = into
	}
	keys[into].IDs = append(keys[into].IDs, keys[from].IDs...)
	keys[from].IDs = nil
	return into
}

// readAtOnce is how many visits are fetched at once.
const readAtOnce = 200

// Source gives the visits of some keys one by one, as a folder gives its files: a few
// hundred of them are in memory at most. What came while it is read may be missing.
func (db *DB) Source(ctx context.Context, keys []GroupVisit) series.Source {
	return source{ctx, db, keys}
}

type source struct {
	ctx  context.Context
	db   *DB
	keys []GroupVisit
}

func (s source) Len() int { return len(s.keys) }

type fetched struct {
	items []series.Item
	err   error
}

// Each implements [series.Source]: while some visits are gone through, the next are fetched.
func (s source) Each(yield func(series.Item) bool) error {
	ctx, cancel := context.WithCancel(s.ctx)
	next := make(chan fetched)
	go func() {
		defer close(next)
		for some := range slices.Chunk(s.keys, readAtOnce) {
			items, err := s.db.fetch(ctx, some)
			select {
			case <-ctx.Done():
				return
			case next <- fetched{items, err}:
			}
			if err != nil {
				return
			}
		}
	}()
	defer func() { // the connection is for one at a time
		cancel()
		for range next {
		}
	}()
	for f := range next {
		for _, item := range f.items {
			if !yield(item) {
				return nil
			}
		}
		if f.err != nil {
			return f.err
		}
	}
	return s.ctx.Err()
}

type visitKey struct{ group, id string }

// fetch reads the texts of some visits.
func (db *DB) fetch(ctx context.Context, keys []GroupVisit) (items []series.Item, err error) {
	heads, events := map[visitKey][]string{}, map[visitKey][]string{}
	err = db.again(ctx, reading, func(tx pgx.Tx) error {
		clear(heads)
		clear(events)
		ids := idsOf(keys)
		if err := collect(ctx, tx, heads,
			`select group_name, visit, body from rillkey.headers where visit = any($1) order by mark`, ids); err != nil {
			return err
		}
		return collect(ctx, tx, events, `select group_name, visit, body from rillkey.events where visit = any($1)`, ids)
	})
	for _, k := range keys {
		name, copies := k.Name(), k.copies(heads, events)
		items = append(items, series.Item{Name: name, Read: func() (*visit.Visit, error) {
			if len(copies) == 0 {
				return nil, wording.Errorf("%s: this visit is not in the database any more", name)
			}
			return visit.Assemble(name, copies)
		}})
	}
	return items, err
}

func idsOf(keys []GroupVisit) (ids []string) {
	for _, k := range keys {
		ids = append(ids, k.IDs...)
	}
	return ids
}

func collect(ctx context.Context, tx pgx.Tx, into map[visitKey][]string, query string, ids []string) error {
	var k visitKey
	var body string
	return eachRow(ctx, tx, []any{&k.group, &k.id, &body}, func() error { into[k] = append(into[k], body); return nil }, query, ids)
}

// copies are the headers of a visit, with the events that came under each id.
func (k GroupVisit) copies(heads, events map[visitKey][]string) (out []visit.Copy) {
	for _, id := range k.IDs {
		of := visitKey{k.Group, id}
		for i, head := range heads[of] {
			c := visit.Copy{Head: head}
			if i == 0 {
				c.Events = events[of]
			}
			out = append(out, c)
		}
	}
	return out
}

// Obscured are the sites that visits obscure, each with one that does.
func (db *DB) Obscured(ctx context.Context) (series.ObscuredSites, error) {
	out := series.ObscuredSites{}
	err := db.again(ctx, reading, func(tx pgx.Tx) error {
		var site, name string
		return eachRow(ctx, tx, []any{&site, &name}, func() error { out[site] = name; return nil },
			`select site, min(group_name || '/' || visit) from rillkey.obscured group by site`)
	})
	return out, err
}

package network

import (
	"context"
	"runtime"
	"slices"
	"sync"

	"github.com/jackc/pgx/v5"

	"rillkey/scoring/series"
	"rillkey/taxa/wording"
)

// gradedBatch are some visits that were graded, and what they had seen.
type gradedBatch struct {
	keys    []GroupVisit
	graded  []Graded
	seen    map[visitKey]int // arrivals by visit
	pending []pending
}

// pending is one row of what came since a visit was graded.
type pending struct {
	visitKey
	arrival string
}

// lot is some visits that were read, to be graded.
type lot struct {
	gradedBatch
	items []series.Item
}

// gradeEach grades visits some hundreds at a time, and hands each lot over: while one is graded
// the next is read and the one before handed over, so that neither this machine nor the server
// waits. over is called by one at a time, in the order of the keys; what it asks the network
// for it asks by a connection of its own.
func (db *DB) gradeEach(ctx context.Context, b Book, keys []GroupVisit, over func(gradedBatch) error) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	read, graded := make(chan lot), make(chan gradedBatch)
	var working sync.WaitGroup
	working.Go(func() {
		defer close(read)
		if err := db.readLots(ctx, keys, read); err != nil {
			cancel(err)
		}
	})
	working.Go(func() {
		for batch := range graded {
			if ctx.Err() != nil {
				continue
			}
			if err := over(batch); err != nil {
				cancel(err)
			}
		}
	})
	for l := range read {
		graded <- b.gradeLot(l)
	}
	close(graded)
	working.Wait()
	return context.Cause(ctx)
}

// readLots reads visits lot by lot.
func (db *DB) readLots(ctx context.Context, keys []GroupVisit, read chan<- lot) error {
	for some := range slices.Chunk(keys, readAtOnce) {
		l := lot{gradedBatch: gradedBatch{keys: some, seen: map[visitKey]int{}}}
		err := db.came(ctx, &l.gradedBatch) // before the events, so that what comes meanwhile is graded again
		if err == nil {
			l.items, err = db.fetch(ctx, some)
		}
		if err != nil {
			return err
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case read <- l:
		}
	}
	return nil
}

// gradeLot grades the visits of a lot by as many workers as there are processors.
func (b Book) gradeLot(l lot) gradedBatch {
	l.graded = make([]Graded, len(l.items))
	series.AtOnce(runtime.GOMAXPROCS(0), len(l.items), func(i int) {
		l.graded[i] = b.gradeItem(l.keys[i], l.items[i])
	})
	return l.gradedBatch
}

func (b Book) gradeItem(k GroupVisit, item series.Item) Graded {
	v, err := item.Read()
	if err != nil {
		file := series.VisitFile{File: item.Name, ID: k.IDs[0], State: series.Unreadable, Problem: wording.Reason(err).Error()}
		return Graded{VisitFile: file, Group: k.Group, edition: b.edition("")}
	}
	return b.grade(k.Group, v)
}

func (db *DB) came(ctx context.Context, batch *gradedBatch) error {
	ids := idsOf(batch.keys)
	return db.again(ctx, reading, func(tx pgx.Tx) error {
		clear(batch.seen)
		batch.pending = nil
		var k visitKey
		var n int
		err := eachRow(ctx, tx, []any{&k.group, &k.id, &n}, func() error { batch.seen[k] = n; return nil },
			`select group_name, visit, count(*) from rillkey.arrivals where visit = any($1) group by 1, 2`, ids)
		if err != nil {
			return err
		}
		var p pending
		return eachRow(ctx, tx, []any{&p.group, &p.id, &p.arrival},
			func() error { batch.pending = append(batch.pending, p); return nil },
			`select group_name, visit, arrival::text from rillkey.ungraded where visit = any($1)`, ids)
	})
}

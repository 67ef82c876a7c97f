package network

import (
	"context"
	"time"

	"github.com/jackc/pgx/v5"
)

// time is the present time by the clock of the server.
func (db *DB) time(ctx context.Context) (now time.Time, err error) {
	err = db.again(ctx, reading, func(tx pgx.Tx) error { return tx.QueryRow(ctx, `select now()`).Scan(&now) })
	return now.UTC(), err
}

// ahead are the visits of a batch with entries that are dated after the time at the network,
// which was at least began.
func (db *DB) ahead(ctx context.Context, batch []outgoing, began time.Time) ([]Ahead, error) {
	if len(aheadOf(batch, began)) == 0 {
		return nil, nil
	}
	now, err := db.time(ctx) // sending may take an hour
	return aheadOf(batch, now), err
}

func aheadOf(batch []outgoing, now time.Time) (out []Ahead) {
	now = now.Add(aheadBy)
	for _, o := range batch {
		a := Ahead{Visit: o.parts.Header.ID, File: o.file}
		for _, p := range o.parts.Events {
			if p.Time.After(now) {
				a.Entries++
			}
			if p.Time.After(a.Latest) {
				a.Latest = p.Time
			}
		}
		if a.Entries > 0 {
			out = append(out, a)
		}
	}
	return out
}

// ClockOff is how far a clock that showed begun when sending began is ahead of that of the
// network, below zero behind it; zero where the two go together, or nothing was sent.
func (r SendResult) ClockOff(begun time.Time) time.Duration {
	off := begun.Sub(r.Began)
	if r.Began.IsZero() || off.Abs() <= aheadBy {
		return 0
	}
	return off
}

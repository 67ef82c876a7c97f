// Package network keeps the visits of many groups in one database that speaks
// PostgreSQL's protocol, and reads them again. Events are rows that are inserted once
// and never changed, so that what many laptops send, in any order and any number of
// times, is the union that [visit.Unite] makes. Who may read and write what is held by
// the database itself (see migrations).
//
// Begin with [DB], [Role] and [Graded].
//
// The package reads neither flags nor the environment: it is given the settings of a
// connection. It logs with the logger that it is given; no log and no error holds a
// password or the text of an event.
package network

import (
	"context"
	"errors"
	"log/slog"
	"time"

	"github.com/jackc/pgx/v5"
)

// DB is one connection to a network's database, for one goroutine at a time. It is
// opened again where it was lost.
type DB struct {
	conf *pgx.ConnConfig
	conn *pgx.Conn
	log  *slog.Logger

	Retries int           // how often something is tried again where the server was lost
	Pause   time.Duration // before the first of them; it doubles
}

// Open connects, and makes sure that the schema is the one that this program knows.
func Open(ctx context.Context, conf *pgx.ConnConfig, log *slog.Logger) (*DB, error) {
	db := &DB{conf: conf, log: log, Retries: 5, Pause: 200 * time.Millisecond}
	if err := db.connect(ctx); err != nil {
		return nil, inWords(err)
	}
	if err := db.checkSchema(ctx); err != nil {
		db.Close()
		return nil, err
	}
	return db, nil
}

// secondConnection is another connection to the same database, which is opened once it is used.
func (db *DB) secondConnection() *DB {
	return &DB{conf: db.conf, log: db.log, Retries: db.Retries, Pause: db.Pause}
}

// Close ends the connection.
func (db *DB) Close() {
	if db.conn != nil {
		ctx, cancel := context.WithTimeout(context.Background(), time.Second)
		defer cancel()
		_ = db.conn.Close(ctx) // what there was to save is saved
		db.conn = nil
	}
}

func (db *DB) connect(ctx context.Context) error {
	if db.conn != nil && !db.conn.IsClosed() {
		return nil
	}
	conn, err := pgx.ConnectConfig(ctx, db.conf)
	if err != nil {
		return err
	}
	db.conn = conn
	db.log.Debug("connected", "host", db.conf.Host, "database", db.conf.Database, "user", db.conf.User)
	return nil
}

// again does something in one transaction, and once more where the server was lost or
// two who worked at once stood in each other's way. What do does must bear being done
// twice.
func (db *DB) again(ctx context.Context, opts pgx.TxOptions, do func(pgx.Tx) error) error {
	pause := db.Pause
	for tried := 0; ; tried++ {
		err := db.connect(ctx)
		if err == nil {
			err = pgx.BeginTxFunc(ctx, db.conn, opts, do)
		}
		if err == nil || ctx.Err() != nil || tried >= db.Retries || !passing(err) {
			return inWords(err)
		}
		db.log.Warn("tried again", "attempt", tried+1, "because", inWords(err).Error())
		select {
		case <-ctx.Done():
			return inWords(errors.Join(err, ctx.Err()))
		case <-time.After(pause):
		}
		pause *= 2
	}
}

// reading is how consistent reads are made.
var reading = pgx.TxOptions{IsoLevel: pgx.RepeatableRead, AccessMode: pgx.ReadOnly}

// eachRow does something after each row of a query was read into some places.
func eachRow(ctx context.Context, tx pgx.Tx, into []any, do func() error, query string, args ...any) error {
	rows, err := tx.Query(ctx, query, args...)
	if err == nil {
		_, err = pgx.ForEachRow(rows, into, do)
	}
	return err
}

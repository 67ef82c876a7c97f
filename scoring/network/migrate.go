package network

import (
	"context"
	"embed"
	"fmt"
	"io/fs"
	"log/slog"
	"strconv"
	"strings"
	"time"

	"github.com/jackc/pgx/v5"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

//go:embed migrations/*.sql
var migrations embed.FS

// migration is one numbered step of the schema.
type migration struct {
	number int
	name   string
	text   string
}

// steps are the migrations of this program, from the first.
func steps() (out []migration, err error) {
	names, err := fs.Glob(migrations, "migrations/*.sql")
	if err != nil {
		return nil, err
	}
	for i, name := range names {
		text, err := migrations.ReadFile(name)
		if err != nil {
			return nil, err
		}
		short := strings.TrimSuffix(strings.TrimPrefix(name, "migrations/"), ".sql")
		number, _, _ := strings.Cut(short, "_")
		if n, err := strconv.Atoi(number); err != nil || n != i+1 {
			return nil, wording.Errorf("migration %s is not number %d", name, i+1)
		}
		out = append(out, migration{i + 1, short, string(text)})
	}
	return out, nil
}

// SchemaVersion is the number of the schema that this program knows.
func SchemaVersion() int {
	all, err := steps()
	if err != nil {
		return 0
	}
	return len(all)
}

const newestStep = `select coalesce(max(number), 0) from rillkey.migrations`

// checkSchema says in plain words where the database has another schema than this program.
func (db *DB) checkSchema(ctx context.Context) error {
	var has int
	if err := db.conn.QueryRow(ctx, newestStep).Scan(&has); err != nil {
		return inWords(err)
	}
	return compareSchema(has, SchemaVersion())
}

func compareSchema(has, knows int) error {
	switch {
	case has > knows:
		return wording.Errorf("the database has schema %d, newer than the %d that this program knows; get the newer rillkey", has, knows)
	case has < knows:
		return told(ErrNotBegun, wording.Sprintf("the database has schema %d, older than the %d of this program", has, knows))
	}
	return nil
}

// mostParts is into how many the tables of a network are parted at most: each part is a
// table of its own, which every query that names no visit opens (common practice).
const mostParts = 256

// CheckParts is an error if tables cannot be parted into n; 0 leaves them whole.
func CheckParts(n int) error {
	if n < 0 || n > mostParts {
		return wording.Errorf("%d parts: a number from 0, which is none, to %d", n, mostParts)
	}
	return nil
}

// Migrate makes the schema in a database, or brings it up to date, and gives the names of the
// steps that it took. Only the owner of the database can. Where several do at once, each
// waits for the other. With parts above 0 the tables of a new network are parted by the
// hash of the visit.
func Migrate(ctx context.Context, conf *pgx.ConnConfig, log *slog.Logger, parts int) ([]string, error) {
	if err := CheckParts(parts); err != nil {
		return nil, err
	}
	db := &DB{conf: conf, log: log, Retries: 5, Pause: 100 * time.Millisecond}
	defer db.Close()
	all, err := steps()
	if err != nil {
		return nil, err
	}
	if err := db.connect(ctx); err != nil { // nothing is begun yet that were worth trying again
		return nil, inWords(err)
	}
	err = db.again(ctx, pgx.TxOptions{}, prepare)
	if state := sqlState(err); state == codeTwice || strings.HasPrefix(state, classDoubled) { // somebody else began too
		err = db.again(ctx, pgx.TxOptions{}, prepare)
	}
	if err != nil {
		return nil, err
	}
	var done []string
	err = db.again(ctx, pgx.TxOptions{}, func(tx pgx.Tx) error {
		done = nil
		// A row that all who migrate lock: not every engine has advisory locks.
		if _, err := tx.Exec(ctx, `select id from rillkey.migration_lock where id = 1 for update`); err != nil {
			return err
		}
		var has int
		if err := tx.QueryRow(ctx, newestStep).Scan(&has); err != nil {
			return err
		}
		if has > len(all) {
			return compareSchema(has, len(all))
		}
		for _, m := range all[has:] {
			if _, err := tx.Exec(ctx, parted(m.text, parts)); err != nil {
				return wording.Errorf("step %s: %w", m.name, err)
			}
			if _, err := tx.Exec(ctx, `insert into rillkey.migrations (number, name) values ($1, $2)`, m.number, m.name); err != nil {
				return err
			}
			done = append(done, m.name)
			log.Info("schema", "step", m.name)
		}
		return nil
	})
	return done, err
}

// prepare makes what migrations need: schema, roles, the lock. It can be done again.
func prepare(tx pgx.Tx) error {
	ctx := context.Background()
	for _, role := range []Role{roleGroup, roleCoordinator, roleReader} {
		if err := makeRole(ctx, tx, role.role(), "nologin"); err != nil {
			return err
		}
	}
	_, err := tx.Exec(ctx, `create schema if not exists rillkey;
create table if not exists rillkey.migrations (number integer primary key, name text not null, applied timestamptz not null default now());
create table if not exists rillkey.migration_lock (id integer primary key);
insert into rillkey.migration_lock (id) values (1) on conflict do nothing`)
	return err
}

// parted is a step whose tables are parted by the hash of the visit into so many.
func parted(text string, parts int) string {
	const mark = " /*hash*/"
	if parts < 1 {
		return strings.ReplaceAll(text, mark, "")
	}
	var more strings.Builder
	for _, table := range hashed(text) {
		for i := range parts {
			fmt.Fprintf(&more, "create table rillkey.%s_%d partition of rillkey.%[1]s for values with (modulus %[3]d, "+
				"remainder %[2]d);\n", table, i, parts)
		}
	}
	return strings.ReplaceAll(text, mark, " partition by hash (visit)") + more.String()
}

// hashed are the tables of a step that can be parted.
func hashed(text string) (out []string) {
	for _, part := range strings.Split(text, "create table rillkey.")[1:] {
		body, _, _ := strings.Cut(part, ";")
		if strings.Contains(body, "/*hash*/") {
			name, _, _ := strings.Cut(part, " ")
			out = append(out, name)
		}
	}
	return out
}

// Role is what somebody may do in a network.
type Role string

// The roles.
const (
	roleGroup       Role = "group"       // sends visits, and reads its own
	roleCoordinator Role = "coordinator" // reads all, and grades
	roleReader      Role = "reader"      // sees grades without people and obscured places
)

// Roles are all there are.
func Roles() []string {
	return []string{string(roleGroup), string(roleCoordinator), string(roleReader)}
}

func (r Role) role() string { return "rillkey_" + string(r) }

// makeRole makes a role that is not there yet.
func makeRole(ctx context.Context, tx pgx.Tx, name, options string) error {
	var there bool
	if err := tx.QueryRow(ctx, `select exists (select 1 from pg_roles where rolname = $1)`, name).Scan(&there); err != nil || there {
		return err
	}
	_, err := tx.Exec(ctx, "create role "+pgx.Identifier{name}.Sanitize()+" "+options)
	return err
}

// Admit lets somebody into the network: a user of the database with that name, who is
// made where there is none, without a password. Only the owner of the database can.
func (db *DB) Admit(ctx context.Context, name string, as Role) error {
	if !plain.IsID(name) || len(name) > 40 {
		return wording.NewError("the name of a group or person is up to 40 small letters, digits and hyphens")
	}
	if strings.HasPrefix(name, "rillkey") || strings.HasPrefix(name, "pg") {
		return wording.Errorf("%s is kept for the database itself; choose another name", name)
	}
	return db.again(ctx, pgx.TxOptions{}, func(tx pgx.Tx) error {
		if err := makeRole(ctx, tx, name, "login nosuperuser nocreatedb nocreaterole inherit"); err != nil {
			return err
		}
		_, err := tx.Exec(ctx, "grant "+as.role()+" to "+pgx.Identifier{name}.Sanitize())
		return err
	})
}

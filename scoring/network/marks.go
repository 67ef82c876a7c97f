package network

import (
	"context"
	"strings"

	"github.com/jackc/pgx/v5"
)

// Marks tell of each visit all that ever came of it, by the names of keys: since nothing
// is changed once it came, another mark means that something new did.
func (db *DB) Marks(ctx context.Context, keys []GroupVisit) (map[string]string, error) {
	came := map[visitKey]string{}
	err := db.again(ctx, reading, func(tx pgx.Tx) error {
		clear(came)
		var k visitKey
		var all string
		return eachRow(ctx, tx, []any{&k.group, &k.id, &all}, func() error { came[k] = all; return nil },
			`select group_name, visit, string_agg(arrival::text, ' ' order by arrival) from rillkey.arrivals group by group_name, visit`)
	})
	out := make(map[string]string, len(keys))
	for _, k := range keys {
		var marks []string
		for _, id := range k.IDs {
			marks = append(marks, id+" "+came[visitKey{k.Group, id}])
		}
		out[k.Name()] = strings.Join(marks, ", ")
	}
	return out, err
}

package network

import (
	"cmp"
	"context"
	"slices"

	"github.com/jackc/pgx/v5"
)

// Changes are what another book would change in the grades that are kept.
type Changes struct {
	Graded  int           `json:"graded"`  // visits whose grade does not hold by the book, or of which something came
	First   int           `json:"first"`   // those that have no grade yet
	Same    int           `json:"same"`    // those that come to the same value and word
	Values  int           `json:"values"`  // those whose value is another, and the word is not
	Ratings []GradeChange `json:"ratings"` // words that become others, by how often
	Visits  []Moved       `json:"visits"`  // the first of those whose word is another, by name
}

// GradeChange is how many visits go from one word to another; "" is none.
type GradeChange struct {
	Protocol string `json:"protocol"`
	Old      string `json:"from"`
	New      string `json:"to"`
	Visits   int    `json:"visits"`
}

// Moved is one visit whose word would be another.
type Moved struct {
	Visit string   `json:"visit"`
	Site  string   `json:"site"`
	Date  string   `json:"date"`
	Old   string   `json:"from"`
	New   string   `json:"to"`
	Was   *float64 `json:"was"`
	Value *float64 `json:"value"`
}

// movedAtMost is how many visits are named.
const movedAtMost = 1000

// keptBefore is what was kept of a visit last.
type keptBefore struct {
	value  *float64
	rating string
}

// WouldChange tells what grading by the book would change, and keeps nothing.
func (db *DB) WouldChange(ctx context.Context, b Book, done func(n, of int)) (Changes, error) {
	c := Changes{Ratings: []GradeChange{}, Visits: []Moved{}}
	keys, err := db.ungradedKeys(ctx, b)
	if err != nil {
		return c, err
	}
	times := map[GradeChange]int{}
	asks := db.secondConnection()
	defer asks.Close()
	err = db.gradeEach(ctx, b, keys, func(batch gradedBatch) error {
		was, err := asks.lastKept(ctx, batch.keys)
		if err != nil {
			return err
		}
		for i, g := range batch.graded {
			old, there := was[visitKey{g.Group, batch.keys[i].IDs[0]}]
			c.count(g, old, there, times)
		}
		if done != nil {
			done(c.Graded, len(keys))
		}
		return nil
	})
	for change, n := range times {
		change.Visits = n
		c.Ratings = append(c.Ratings, change)
	}
	slices.SortFunc(c.Ratings, func(x, y GradeChange) int {
		return cmp.Or(-cmp.Compare(x.Visits, y.Visits), cmp.Compare(x.Protocol, y.Protocol), cmp.Compare(x.Old, y.Old),
			cmp.Compare(x.New, y.New))
	})
	return c, err
}

func (c *Changes) count(g Graded, old keptBefore, there bool, times map[GradeChange]int) {
	c.Graded++
	switch {
	case !there:
		c.First++
	case old.rating != g.Rating:
		times[GradeChange{Protocol: g.Protocol, Old: old.rating, New: g.Rating}]++
		if len(c.Visits) < movedAtMost {
			c.Visits = append(c.Visits, Moved{g.File, g.Site, g.Date, old.rating, g.Rating, old.value, g.Value})
		}
	case (old.value == nil) != (g.Value == nil), old.value != nil && *old.value != *g.Value:
		c.Values++
	default:
		c.Same++
	}
}

// lastKept are the grades of some visits that were kept last, by whatever book.
func (db *DB) lastKept(ctx context.Context, keys []GroupVisit) (map[visitKey]keptBefore, error) {
	out := map[visitKey]keptBefore{}
	err := db.again(ctx, reading, func(tx pgx.Tx) error {
		var k visitKey
		var b keptBefore
		return eachRow(ctx, tx, []any{&k.group, &k.id, &b.value, &b.rating}, func() error { out[k] = b; return nil },
			`select group_name, visit, value, rating from rillkey.grades where visit = any($1) order by graded`, idsOf(keys))
	})
	return out, err
}

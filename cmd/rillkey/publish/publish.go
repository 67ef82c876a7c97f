// Package publish makes a static site of many visits: a page for each site, stream
// and year, sketches of where they lie, a feed, and tables to take away.
//
// Begin with [NamedVisits], [Options] and [SiteSummary].
//
// It is discreet: people are never named, texts in their own words stay at home, and
// a site that any visit obscures has neither its name nor its exact place anywhere.
//
// It is incremental: what is known of a visit is remembered by the visit's mark, each
// file of the site says what it rests on, and only what rests on something else is made
// anew ([siteLedger]). The same visits give the same bytes, whatever was there before.
package publish

import (
	"runtime"
	"time"

	"rillkey/scoring"
	"rillkey/scoring/export"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// NamedVisits is where visits are read from, each under a name.
type NamedVisits struct {
	Names []string
	// Mark is a fingerprint of all that is recorded under a name: another record has
	// another.
	Mark func(name string) (string, error)
	Read func(name string) (*visit.Visit, error)
}

// Options say what is made, of what, and where to.
type Options struct {
	Visits NamedVisits
	Dir    string // the folder of the site
	Memory string // the file in which the program remembers visits, for its own use
	Title  string
	Group  string // who publishes; may be empty
	Terms  string // on which others may use the data; may be empty
	// Address is where the site will stand, as "https://example.org/streams/"; empty
	// where nobody said: the feed then has no address of its own.
	Address string
	Streams *Streams  // which sites lie on which stream; nil goes by their names
	Today   time.Time // visits after it stay out
	Maker   string    // fingerprint of the program and all its data
	Seed    uint64    // of simulations

	Catalog *taxa.Catalog
	Rules   *scoring.Rules
	// Regional is what describes one visit, in its own region and protocol. It may be called
	// by several at once.
	Regional func(visit.Header) export.Knowledge

	Read func(done int) // called after each visit, by one at a time; may be nil
}

// SiteSummary says what was done.
type SiteSummary struct {
	Visits, Sites, Streams, Years int
	Files                         int // of the site
	Written, Removed              int
	Left                          []string // what the program did not make, or somebody changed, and was left as it is
	Open                          []string // files of visits that are not finished and stay out
	Future                        int      // visits that stay out because their day has not come
	Problems                      []string // files that could not be read or graded
	// Naming are the sites whose public name holds that of a person, with the file of a
	// visit there.
	Naming map[string]string
}

// ErrNoFinishedVisit means that there was no visit to show.
var ErrNoFinishedVisit = wording.NewError("there is no finished visit to publish")

// Make makes the site, or makes an earlier one of the same folder fit.
func Make(o Options) (*SiteSummary, error) {
	done := &SiteSummary{Naming: map[string]string{}}
	given := newGivenVisits(o)
	defer given.Close()
	known, news := gather(o, given, done)
	kept := make(chan error, 1)
	go func() {
		var err error
		if news {
			err = remember(o, known)
		}
		kept <- err
	}()
	c := newCounty(o, given, known, done)
	if err := <-kept; err != nil {
		return nil, err
	}
	if done.Visits == 0 {
		return done, ErrNoFinishedVisit
	}
	ledger, err := openLedger(o.Dir)
	if err != nil {
		return nil, err
	}
	if err := ledger.write(c.files(), len(done.Problems) > 0, done); err != nil {
		return nil, wording.Errorf("the site is not whole: %w; the same command goes on where it ended", err)
	}
	return done, nil
}

// workers is how many work at once.
func workers() int { return runtime.GOMAXPROCS(0) }

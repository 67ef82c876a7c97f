// Package table is the server of a sorting table: it gives phones the page on which
// people count, and unites in the visit's file what all of them enter. It opens no
// port by itself; who does, decides on which addresses.
//
// Begin with [SortingTable], [Guests] and [Codes].
//
// What it guards against, and how, is in DEVELOPERS.md under "The table".
package table

import (
	"io"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"rillkey/cmd/rillkey/phone"
	"rillkey/scoring/visit"
)

// SortingTable is one table. All its fields are set before its Handler is asked for.
type SortingTable struct {
	Visit  *visit.Shared
	Guests *Guests
	Kit    *phone.Kit
	Page   []byte     // the page for phones; nil where there is none, then all have plain pages
	Policy string     // the content policy of Page
	Hosts  []string   // what a request may be for, as "192.168.1.5:8017"
	Secure bool       // it is reached by TLS alone
	Often  rate.Limit // how many requests a second may come from one address; 0 is the usual

	Now    func() time.Time
	Random io.Reader

	mu       sync.Mutex
	present  map[string]presence      // by name
	sessions map[string]*session      // of plain pages, by the key of their token
	limits   map[string]*rate.Limiter // by address
	board    boardKept
}

// presence is what a phone said last.
type presence struct {
	heard   time.Time
	doing   string
	waiting int
}

// Limits on what is asked.
const (
	usualOften = 60 // requests a second from one address, which many phones may share
	burst      = 300
	mostBody   = 1 << 20  // bytes of a handing
	mostForm   = 64 << 10 // bytes of a form
	mostLimits = 2000     // who asks, before all are forgotten
)

// allowed reports whether who asks may ask now.
func (t *SortingTable) allowed(who string) bool {
	often := t.Often
	if often == 0 {
		often = usualOften
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.limits == nil || len(t.limits) > mostLimits {
		t.limits = map[string]*rate.Limiter{}
	}
	l := t.limits[who]
	if l == nil {
		l = rate.NewLimiter(often, burst)
		t.limits[who] = l
	}
	return l.AllowN(t.Now(), 1)
}

// hears notes what a phone said of itself.
func (t *SortingTable) hears(name string, p presence) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.present == nil {
		t.present = map[string]presence{}
	}
	t.present[name] = p
}

// Package desk serves the page of a network's coordinator to one desk: what came in, what
// waits, how groups agree. It changes nothing, and answers only requests for this very machine.
package desk

import (
	"bytes"
	"context"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"html/template"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"

	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/table"
	"rillkey/scoring/network"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Sight is what the page shows.
type Sight struct {
	Taken     time.Time
	Health    network.Health
	News      []network.Came
	FirstDay  time.Time
	Waiting   network.Waiting
	Agreement []network.GroupAgreement
}

// mostRows is how many rows of each kind the page shows.
const mostRows = 200

// database is what a sight is taken of; a [network.DB] is one.
type database interface {
	Health(ctx context.Context, now func() time.Time) (network.Health, error)
	News(ctx context.Context, since time.Time) ([]network.Came, error)
	Waiting(ctx context.Context, b network.Book, most int, today time.Time, alarms bool) (network.Waiting, error)
	Agree(ctx context.Context, b network.Book) ([]network.GroupAgreement, error)
}

// SightOf looks at a network at a time: what came within a week, up to 200 visits that wait
// and as many alarms, and how groups agree; now is the clock that its answer is timed by. It
// is an error if one of them cannot be had, and the rest is then not asked for.
func SightOf(ctx context.Context, db database, book network.Book, at time.Time, now func() time.Time) (Sight, error) {
	s := Sight{Taken: at, FirstDay: network.WeekBefore(at)}
	var err error
	if s.Health, err = db.Health(ctx, now); err != nil {
		return s, err
	}
	if s.News, err = db.News(ctx, s.FirstDay); err != nil {
		return s, err
	}
	if s.Waiting, err = db.Waiting(ctx, book, mostRows, at, true); err != nil {
		return s, err
	}
	s.Agreement, err = db.Agree(ctx, book)
	return s, err
}

// Desk answers requests for the page.
type Desk struct {
	Hosts []string // what a request may be for, as "127.0.0.1:8017"
	// Look looks at the network. It is called for one request at a time.
	Look func(context.Context) (Sight, error)

	turn chan struct{}
}

//go:embed desk.html
var text string

//go:embed desk.css
var style string

var page = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("desk").Funcs(template.FuncMap{
		"open": func(v network.WaitingVisit) string { return strings.Join(show.OpenAbout(v), ", ") },
		"day":  func(t time.Time) string { return t.UTC().Format("2006-01-02 15:04 UTC") },
		"css":  func() template.CSS { return template.CSS(style) },
		"safe": plain.Printable,
		"gap":  func(v float64) string { return plain.FormatFloat(float64(int(v*100+0.5)) / 100) },
	}).Parse(text))
})

// policy lets the page use its own style and nothing else.
func policy() string {
	sum := sha256.Sum256([]byte(style))
	return "default-src 'none'; style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) +
		"'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
}

// Handler answers the page at / and whether the network answers at /health; there is nothing
// else to be had.
func (d *Desk) Handler() http.Handler {
	d.turn = make(chan struct{}, 1)
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", d.page)
	mux.HandleFunc("GET /health", d.health)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		table.SetSafe(w.Header(), policy())
		if !slices.Contains(d.Hosts, r.Host) {
			http.Error(w, wording.Text("This desk goes by another address."), http.StatusMisdirectedRequest)
			return
		}
		mux.ServeHTTP(w, r)
	})
}

// look looks when it is this request's turn.
func (d *Desk) look(ctx context.Context) (Sight, error) {
	select {
	case d.turn <- struct{}{}:
		defer func() { <-d.turn }()
		return d.Look(ctx)
	case <-ctx.Done():
		return Sight{}, ctx.Err()
	}
}

func (d *Desk) page(w http.ResponseWriter, r *http.Request) {
	sight, err := d.look(r.Context())
	if err != nil {
		http.Error(w, plain.Printable(wording.Reason(err).Error()), http.StatusServiceUnavailable)
		return
	}
	var out bytes.Buffer
	if err := page().Execute(&out, sight); err != nil {
		http.Error(w, wording.Text("The page cannot be made."), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = w.Write(out.Bytes()) // whoever asked may be gone
}

func (d *Desk) health(w http.ResponseWriter, r *http.Request) {
	if _, err := d.look(r.Context()); err != nil {
		http.Error(w, plain.Printable(wording.Reason(err).Error()), http.StatusServiceUnavailable)
		return
	}
	_, _ = w.Write([]byte("ok\n"))
}

package table

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"io"
	"log"
	"net"
	"net/http"
	"slices"
	"time"

	"rillkey/cmd/rillkey/phone"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// NewServer is a server for one group of people: nothing that asks slowly, or for much,
// holds it up. It says nothing of what goes wrong, since anybody could make it.
func NewServer(h http.Handler) *http.Server {
	return &http.Server{
		Handler: h, ErrorLog: log.New(io.Discard, "", 0), MaxHeaderBytes: 16 << 10,
		ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 30 * time.Second, WriteTimeout: 3 * time.Minute, IdleTimeout: 2 * time.Minute,
	}
}

// SetSafe says that a page keeps to itself: its policy for what it may load, and that
// nothing of it is guessed at, kept or shown within another.
func SetSafe(h http.Header, policy string) {
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Content-Security-Policy", policy)
	h.Set("Cache-Control", "no-store")
}

// cookie is where a phone keeps its token.
const cookie = "rillkey"

// Handler answers all requests: the page, joining, handing over, plain pages and
// the board. There is nothing else to be had.
func (t *SortingTable) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", t.page)
	mux.HandleFunc("POST /join", t.join)
	mux.HandleFunc("POST /hand", t.known(t.hand))
	mux.HandleFunc("GET /plain", t.plain)
	mux.HandleFunc("POST /plain", t.press)
	mux.HandleFunc("GET /board", t.known(t.boardPage))
	mux.HandleFunc("POST /away", t.known(t.away))
	return t.guarded(http.NewCrossOriginProtection().Handler(mux))
}

// guarded lets only requests for the table itself through, so that no page from
// elsewhere reaches it by a name of its own.
func (t *SortingTable) guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		SetSafe(w.Header(), plainPolicy())
		switch {
		case !slices.Contains(t.Hosts, r.Host):
			http.Error(w, wording.Text("This table goes by another address."), http.StatusMisdirectedRequest)
		case !t.allowed(address(r)):
			http.Error(w, wording.Text("Too many requests; wait a moment."), http.StatusTooManyRequests)
		default:
			next.ServeHTTP(w, r)
		}
	})
}

func address(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	return host
}

// refuse says why something is not done, in one sentence.
func (t *SortingTable) refuse(w http.ResponseWriter, status int, err error) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(map[string]string{"error": wording.Reason(err).Error()})
}

// known lets only those through who joined.
func (t *SortingTable) known(next func(http.ResponseWriter, *http.Request, guest)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		g, err := t.who(r)
		if err != nil {
			t.refuse(w, http.StatusUnauthorized, err)
			return
		}
		next(w, r, g)
	}
}

func (t *SortingTable) who(r *http.Request) (guest, error) {
	c, err := r.Cookie(cookie)
	if err != nil {
		return guest{}, errAway
	}
	return t.Guests.withToken(c.Value)
}

// keptFor is how long a phone may show the page without asking for it again, so that
// it opens out of reach too.
const keptFor = "private, max-age=43200"

func (t *SortingTable) page(w http.ResponseWriter, r *http.Request) {
	if t.Page == nil {
		http.Redirect(w, r, "/plain", http.StatusSeeOther)
		return
	}
	sum := sha256.Sum256(t.Page)
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Security-Policy", t.Policy)
	w.Header().Set("Cache-Control", keptFor)
	w.Header().Set("ETag", `"`+hex.EncodeToString(sum[:8])+`"`)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(t.Page))
}

// join takes a name and a code, and gives the token as a cookie that no script of
// the page can read.
func (t *SortingTable) join(w http.ResponseWriter, r *http.Request) {
	var asked struct{ Name, Code string }
	if err := json.NewDecoder(http.MaxBytesReader(w, r.Body, mostForm)).Decode(&asked); err != nil {
		t.refuse(w, http.StatusBadRequest, wording.NewError("the request cannot be read"))
		return
	}
	g, err := t.admit(w, r, asked.Name, asked.Code)
	if err != nil {
		t.refuse(w, http.StatusForbidden, err)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	_ = json.NewEncoder(w).Encode(phone.JoinAnswer{Joined: joined(g), Visit: string(visit.Encoded(t.Visit.Header()))})
}

// admit lets somebody join, who keeps the token they have under the same name.
func (t *SortingTable) admit(w http.ResponseWriter, r *http.Request, name, code string) (guest, error) {
	if g, err := t.who(r); err == nil && visit.SamePerson(g.Name, name) {
		if _, leader := t.Guests.Codes().opens(code, spokenTries); leader && !g.Leader {
			return t.Guests.lead(g)
		}
		return g, nil
	}
	before, known := t.who(r)
	g, token, err := t.Guests.join(name, code)
	if err != nil {
		return g, err
	}
	if known == nil && !visit.SamePerson(before.Name, g.Name) {
		_ = t.Guests.sendAway(before.Name) // the phone goes by its new name; else the old one stays listed
	}
	http.SetCookie(w, &http.Cookie{Name: cookie, Value: token, Path: "/", MaxAge: 2 * 24 * 3600, HttpOnly: true, Secure: t.Secure,
		SameSite: http.SameSiteStrictMode})
	return g, nil
}

func joined(g guest) phone.Joined { return phone.Joined{Name: g.Name, Leader: g.Leader} }

package table

import (
	"html/template"
	"net/http"
	"slices"
	"strings"
	"sync"

	"rillkey/cmd/rillkey/markup"
	"rillkey/cmd/rillkey/phone"
	"rillkey/cmd/rillkey/pocket"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// session is the page of somebody whose browser runs no script: it lives here.
type session struct {
	mu   sync.Mutex
	page *phone.Phone
}

// mostSessions is more than have phones without scripts; then the oldest pages are
// begun anew, which loses no entry.
const mostSessions = 100

func (t *SortingTable) session(g guest) *session {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.sessions == nil || len(t.sessions) > mostSessions {
		t.sessions = map[string]*session{}
	}
	s := t.sessions[g.Key]
	if s == nil {
		s = &session{page: phone.New(t.Kit, t.Now, t.Random)}
		t.sessions[g.Key] = s
	}
	return s
}

func plainPolicy() string {
	return "default-src 'none'; style-src " + pocket.Hashed(pocket.Style()) +
		"; img-src data:; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
}

// frame is what stands around a plain page. What people wrote is in its body, which
// package phone has escaped.
var frame = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("frame").Parse(`<!DOCTYPE html>
<html lang="{{.Language}}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
{{- if .Seconds}}
<meta http-equiv="refresh" content="{{.Seconds}}">
{{- end}}
<title>{{.Title}}</title>
<style>{{.Style}}</style>
</head>
<body>
{{.Body}}
</body>
</html>
`))
})

// framed writes a plain page; it is asked for again after some seconds, unless those are
// none.
func framed(w http.ResponseWriter, status int, title, body string, seconds int) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	_ = frame().Execute(w, map[string]any{"Language": wording.Language(), "Title": title, "Seconds": seconds,
		"Style": template.CSS(pocket.Style()), "Body": template.HTML(body)}) // whoever has gone reads no more
}

// plain shows somebody's page as it stands, or asks them to join.
func (t *SortingTable) plain(w http.ResponseWriter, r *http.Request) {
	g, err := t.who(r)
	if err != nil {
		t.asksToJoin(w, "", "")
		return
	}
	s := t.session(g)
	s.mu.Lock()
	defer s.mu.Unlock()
	v, err := t.Visit.Now()
	if err != nil {
		var m markup.Writer
		m.Open("main")
		m.Element("h1", wording.Text("The visit cannot be read"))
		m.Close("main")
		framed(w, http.StatusInsufficientStorage, "rillkey", m.String(), 0)
		return
	}
	s.page.Follow(v, joined(g))
	framed(w, http.StatusOK, wording.Text("rillkey: name and count stream animals"), s.page.Plain("/plain"), 0)
}

// asksToJoin asks for name and code, the name as it was typed before, and says why that
// was refused.
func (t *SortingTable) asksToJoin(w http.ResponseWriter, said, name string) {
	p := phone.Joining(t.Kit, t.Now, t.Random, name)
	status := http.StatusOK
	if said != "" {
		p.Refuse(said)
		status = http.StatusForbidden
	}
	framed(w, status, wording.Text("rillkey: join the table"), p.Plain("/plain"), 0)
}

// press does what a button of a plain page stands for, and shows the page anew.
func (t *SortingTable) press(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if err := r.ParseForm(); err != nil {
		t.asksToJoin(w, wording.Text("what was typed is too long"), "")
		return
	}
	if r.PostForm.Get("do") == "join" {
		if _, err := t.admit(w, r, r.PostForm.Get("name"), r.PostForm.Get("code")); err != nil {
			t.asksToJoin(w, wording.Reason(err).Error(), r.PostForm.Get("name"))
			return
		}
	} else if g, err := t.who(r); err == nil && r.PostForm.Get("do") == phone.LeaveTable {
		t.leaves(w, g)
	} else if err == nil {
		t.act(g, r.PostForm.Get("do"), fieldsOf(r))
	}
	http.Redirect(w, r, "/plain", http.StatusSeeOther)
}

// leaves takes who asks for it from the table; their name is free again.
func (t *SortingTable) leaves(w http.ResponseWriter, g guest) {
	if t.Guests.sendAway(g.Name) != nil {
		return // the phone stays, as its page then says
	}
	http.SetCookie(w, &http.Cookie{Name: cookie, Path: "/", MaxAge: -1, HttpOnly: true, Secure: t.Secure,
		SameSite: http.SameSiteStrictMode})
	t.mu.Lock()
	defer t.mu.Unlock()
	delete(t.sessions, g.Key)
}

func fieldsOf(r *http.Request) phone.FormValues {
	f := phone.FormValues{}
	for name, values := range r.PostForm {
		f[name] = values[0]
	}
	return f
}

// act presses a button of somebody's page and enters what comes of it.
func (t *SortingTable) act(g guest, do string, f phone.FormValues) {
	s := t.session(g)
	s.mu.Lock()
	defer s.mu.Unlock()
	v, err := t.Visit.Now()
	if err != nil {
		s.page.Refuse(wording.Reason(err).Error())
		return
	}
	s.page.Follow(v, joined(g))
	s.page.Do(do, f)
	h := s.page.Hand()
	t.hears(g.Name, presence{t.Now(), h.Doing, 0})
	events, err := visit.ParseBlocks([]byte(h.Blocks), phone.MostHanded)
	if err != nil || len(events) == 0 {
		return
	}
	a, err := t.take(g, events)
	if err != nil {
		s.page.Refuse(wording.Reason(err).Error())
	}
	for _, e := range events {
		if why := a.Refused[e.ID]; why != "" {
			s.page.Refuse(why)
		}
	}
	if v, err := t.Visit.Now(); err == nil {
		s.page.Follow(v, joined(g))
	}
}

// boardKept is the board as it was made last.
type boardKept struct {
	events int
	expiry int64 // seconds
	board  *show.Board
}

// Board is how the visit stands, with what phones said of themselves.
func (t *SortingTable) Board() (*show.Board, error) {
	v, err := t.Visit.Now()
	if err != nil {
		return nil, err
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	if k := t.board; k.board != nil && k.events == len(v.Events) && t.Now().Unix() < k.expiry {
		return k.board, nil
	}
	catalog, err := t.Kit.Catalog()
	if err != nil {
		return nil, err
	}
	rules, err := t.Kit.Rules()
	if err != nil {
		return nil, err
	}
	b := show.NewBoard(rules, catalog, v, t.Now())
	for name, p := range t.present {
		i := slices.IndexFunc(b.People, func(one show.BoardPerson) bool { return one.Name == name })
		if i < 0 {
			b.People, i = append(b.People, show.BoardPerson{Name: name}), len(b.People)
		}
		b.People[i].Hear(p.doing, p.waiting, t.Now().Sub(p.heard))
	}
	slices.SortStableFunc(b.People, func(x, y show.BoardPerson) int { return strings.Compare(x.Name, y.Name) })
	t.board = boardKept{len(v.Events), t.Now().Unix() + 3, b}
	return b, nil
}

func (t *SortingTable) boardPage(w http.ResponseWriter, r *http.Request, g guest) {
	b, err := t.Board()
	if err != nil {
		t.refuse(w, http.StatusInsufficientStorage, err)
		return
	}
	s := phone.BoardScreen{Fresh: r.URL.Query().Get("fresh") != "", Here: "/board", Anew: "/board?fresh=yes", Back: "/", Away: "/away"}
	if fromPlain(r) {
		s.Here, s.Anew, s.Back, s.Away = s.Here+phone.PlainQuery, s.Here+phone.PlainQuery+"&fresh=yes", "/plain", s.Away+phone.PlainQuery
	}
	if g.Leader {
		s.Phones = slices.DeleteFunc(t.names(), func(name string) bool { return name == g.Name })
	}
	again := 0
	if s.Fresh {
		again = 10
	}
	framed(w, http.StatusOK, "rillkey: "+wording.Text("Board"), phone.BoardHTML(b, s), again)
}

func (t *SortingTable) names() (out []string) {
	for _, g := range t.Guests.all() {
		out = append(out, g.Name)
	}
	return out
}

// away sends a phone away; only the leader does.
func (t *SortingTable) away(w http.ResponseWriter, r *http.Request, g guest) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if !g.Leader {
		t.refuse(w, http.StatusForbidden, errLeader)
		return
	}
	if err := t.Guests.sendAway(r.PostFormValue("do")); err != nil {
		t.refuse(w, http.StatusBadRequest, err)
		return
	}
	to := "/board"
	if fromPlain(r) {
		to += phone.PlainQuery
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
}

// fromPlain reports whether somebody came to the board from a plain page.
func fromPlain(r *http.Request) bool { return r.URL.Query().Get("plain") != "" }

//go:build unix

package network

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

// dated is a visit whose entries a clock dated from a moment on.
func dated(t *testing.T, n int, moment time.Time) *visit.Visit {
	t.Helper()
	v := invented(t, n)
	apart := moment.Sub(v.Header.Begun)
	h := v.Written()
	h.Begun, h.Date = moment, moment.Format(time.DateOnly)
	events := v.Events
	for i := range events {
		events[i].Time = events[i].Time.Add(apart)
	}
	v, err := visit.Parse("", append(visit.Encoded(h), visit.Blocks(events)...)) // with the checksums of the times
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Entries that a wrong clock dated are sent as they are, come back to the byte, and in order;
// those from days to come are told to the sender and to the coordinator.
func clocksThatAreWrong(s *served) {
	t := s.t
	db, ann := s.open("mill-brook"), s.open("ann")
	defer db.Close()
	defer ann.Close()
	now, err := db.time(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	clocks := map[string]struct {
		at    time.Time
		ahead bool
	}{
		"right": {now.Add(-2 * time.Hour), false}, "a little ahead": {now.Add(-25 * time.Minute), false},
		"an hour ahead": {now.Add(time.Hour), true}, "years ahead": {now.AddDate(3, 0, 0), true},
		"at the end": {time.Date(9998, 12, 30, 1, 0, 0, 0, time.UTC), true},
		"never set":  {time.Date(1970, 1, 1, 0, 0, 0, 0, time.UTC), false},
		"before all": {time.Date(1901, 1, 2, 0, 0, 0, 0, time.UTC), false},
	}
	n, days := 0, 0
	for name, clock := range clocks {
		n++
		v := dated(t, n, clock.at)
		r := sends(t, db, map[string]*visit.Visit{name: v})
		if r.New != len(v.Events) || len(r.Refused) > 0 {
			t.Errorf("%s: %+v", name, r)
		}
		switch told := len(r.Ahead) == 1; {
		case told != clock.ahead:
			t.Errorf("%s: told is %+v", name, r.Ahead)
		case told && (r.Ahead[0].Entries != len(v.Events) || r.Ahead[0].File != name ||
			!r.Ahead[0].Latest.Equal(v.Events[len(v.Events)-1].Time)):
			t.Errorf("%s: told is %+v", name, r.Ahead[0])
		}
		if got := s.all("mill-brook")["mill-brook/"+v.Header.ID]; !bytes.Equal(got, v.Encode()) {
			t.Errorf("%s: it reads\n%s\nnot\n%s", name, got, v.Encode())
		}
		if clock.at.Format(time.DateOnly) > now.Format(time.DateOnly) {
			days++
		}
	}
	if _, err := ann.Regrade(t.Context(), book(t), nil); err != nil {
		t.Fatal(err)
	}
	w, err := ann.Waiting(t.Context(), book(t), 100, now, false)
	future := 0
	for _, v := range w.Visits {
		if v.Future {
			future++
		}
	}
	if err != nil || future != days || days < 2 {
		t.Errorf("the coordinator is told of %d days to come, of %d: %v", future, days, err)
	}
}

// A hostile text in the place of an event is kept apart or not counted, says why in one
// printable line, and costs no other entry.
func hostileTextsAreKeptApart(s *served) {
	t := s.t
	db := s.open("mill-brook")
	defer db.Close()
	v := invented(t, 8)
	sound := v.Encode()
	for name, text := range map[string]string{
		"not UTF-8":  "[[event]]\nid = \"x\xff\"\ncheck = \"0123456789abcdef\"\n",
		"NUL":        "[[event]]\nid = \"x\"\nnote = \"\x00\"\ncheck = \"0123456789abcdef\"\n",
		"escapes":    "[[event]]\nid = \"\x1b[2J\x1b]0;x\a\"\ncheck = \"0123456789abcdef\"\n",
		"SQL":        "[[event]]\nid = \"'); drop schema rillkey cascade; --\"\ncheck = \"0123456789abcdef\"\n",
		"very long":  "[[event]]\nid = \"x\"\nnote = \"" + strings.Repeat("x", 200_000) + "\"\ncheck = \"0123456789abcdef\"\n",
		"deep":       "[[event]]\nid = " + strings.Repeat("[", 5000) + "\ncheck = \"0123456789abcdef\"\n",
		"of control": "[[event]]\nid = \"x\"\nnote = \"\u202egpj.exe\u2066\"\ncheck = \"0123456789abcdef\"\n",
	} {
		file := append(append([]byte{}, sound...), text...)
		r, err := db.Send(t.Context(), []string{name}, func(string) ([]byte, error) { return file, nil }, nil)
		if err != nil || len(r.Refused) == 0 {
			t.Errorf("%s: %+v, %v", name, r, err)
			continue
		}
		if why := r.Refused[0].Reason; why == "" || len(why) > 1000 || strings.ContainsAny(why, "\x00\x1b\n\u202e") {
			t.Errorf("%s is kept apart since %q", name, why)
		}
	}
	if got := s.all("mill-brook")["mill-brook/"+v.Header.ID]; !bytes.Equal(got, sound) {
		t.Errorf("it reads\n%s", got)
	}
}

// A server that is gone is said in plain words by all that ask it, and what was sent before is
// there when it is back.
func aServerThatIsGone(s *served) {
	t := s.t
	db := s.open("mill-brook")
	defer db.Close()
	db.Retries, db.Pause = 1, time.Millisecond
	v := invented(t, 9)
	sends(t, db, map[string]*visit.Visit{"v": v})
	s.Kill()
	gone := func(what string, err error) {
		if err == nil || !strings.Contains(err.Error(), "cannot be reached, or is gone") &&
			!strings.Contains(err.Error(), "could not go on") {
			t.Errorf("%s: %v", what, err)
		}
	}
	files, read := texts(map[string]*visit.Visit{"w": invented(t, 10)})
	_, err := db.Send(t.Context(), files, read, nil)
	gone("sending", err)
	_, err = db.Keys(t.Context())
	gone("reading", err)
	ours := []GroupVisit{{"mill-brook", []string{v.Header.ID}}}
	gone("fetching", db.Source(t.Context(), ours).Each(func(series.Item) bool { return true }))
	_, _, err = db.Listed(t.Context(), book(t), series.Query{})
	gone("listing", err)
	_, err = db.Regrade(t.Context(), book(t), nil)
	gone("grading", err)
	_, err = Open(t.Context(), s.conf("mill-brook"), quiet)
	gone("opening", err)
	s.Start()
	sends(t, db, map[string]*visit.Visit{"w": invented(t, 10)})
	if got := s.all("mill-brook"); len(got) != 2 || !bytes.Equal(got["mill-brook/"+v.Header.ID], v.Encode()) {
		t.Errorf("%d visits are there afterwards", len(got))
	}
}

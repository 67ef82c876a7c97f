package table

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"runtime"
	"testing"
	"time"

	"rillkey/cmd/rillkey/phone"
	"rillkey/scoring/visit"
)

// What an answer makes in memory with 40 phones that take turns, each of which then hears of
// what 39 others counted, is bounded in bytes, which the machine's load does not move: all of
// it is swept while phones wait.
func TestAnAnswerMakesLittle(t *testing.T) {
	const phones, rounds, most = 40, 20, 120_000 // bytes an answer
	table, server := served(t, begun(t))
	handler := table.Handler()
	ask := func(path string, body, answer any, token *http.Cookie) *http.Response {
		text, err := json.Marshal(body)
		if err != nil {
			t.Fatal(err)
		}
		r := httptest.NewRequest("POST", server.URL+path, bytes.NewReader(text))
		if token != nil {
			r.AddCookie(token)
		}
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, r)
		if err := json.Unmarshal(w.Body.Bytes(), answer); w.Code != http.StatusOK || err != nil {
			t.Fatalf("%s: %d, %s, %v", path, w.Code, w.Body, err)
		}
		return w.Result()
	}
	tokens, cursors := make([]*http.Cookie, phones), make([]string, phones)
	for n := range phones {
		tokens[n] = ask("/join", map[string]string{"Name": fmt.Sprintf("Phone %d", n), "Code": table.Guests.Codes().Day},
			&phone.JoinAnswer{}, nil).Cookies()[0]
	}
	var made, heard int
	for round := range rounds {
		for n := range phones {
			e := visit.Event{ID: fmt.Sprintf("e%03d%04d", n, round), Time: time.Now().Round(0), Who: fmt.Sprintf("Phone %d", n),
				Body: visit.Identification{Sample: "1", Taxon: "baetidae", Rank: "family", Count: 1, Note: "counted by name"}}
			h := phone.Handing{Cursor: cursors[n], Blocks: string(visit.Blocks([]visit.Event{e})), Doing: "counts"}
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			var a phone.Receipt
			ask("/hand", h, &a, tokens[n])
			runtime.ReadMemStats(&after)
			cursors[n] = a.Cursor
			if len(a.Kept) != 1 {
				t.Fatalf("%+v", a)
			}
			if round > 0 {
				made += int(after.TotalAlloc - before.TotalAlloc)
				heard += len(a.Blocks)
			}
		}
	}
	answers := phones * (rounds - 1)
	t.Logf("an answer makes %d bytes, of which the phone hears %d", made/answers, heard/answers)
	if made/answers > most || heard/answers < 30*200 {
		t.Errorf("an answer makes %d bytes, of which the phone hears %d", made/answers, heard/answers)
	}
}

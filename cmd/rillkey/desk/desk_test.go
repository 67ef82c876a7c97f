package desk

import (
	"context"
	"errors"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"rillkey/scoring/network"
)

func got(t *testing.T, d *Desk, host, path string) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequest(http.MethodGet, path, nil)
	r.Host = host
	w := httptest.NewRecorder()
	d.Handler().ServeHTTP(w, r)
	return w
}

func TestTheDeskShowsItToThisMachineAlone(t *testing.T) {
	hostile := "<script>alert(1)</script>\x1b[2J"
	d := &Desk{Hosts: []string{"127.0.0.1:8017"}, Look: func(context.Context) (Sight, error) {
		return Sight{Taken: time.Unix(0, 0), News: []network.Came{{Group: hostile, Visits: 3}},
			Waiting: network.Waiting{Total: 1, Kept: 1,
				Visits:  []network.WaitingVisit{{Site: hostile, Open: true, Undecided: 2, Invaders: []string{hostile}}},
				Refused: []network.Refusal{{Reason: hostile}}, Alarms: []network.Alarm{{Site: hostile}}},
			Agreement: []network.GroupAgreement{{Groups: [2]string{hostile, "b"}, Pairs: 2}}}, nil
	}}
	w := got(t, d, "127.0.0.1:8017", "/")
	body := w.Body.String()
	if w.Code != http.StatusOK || !strings.Contains(body, "not finished, 2 animals undecided") {
		t.Errorf("%d: %s", w.Code, body)
	}
	if strings.Contains(body, "<script") || strings.Contains(body, "\x1b") {
		t.Errorf("markup or a control character came through: %s", body)
	}
	if p := w.Header().Get("Content-Security-Policy"); !strings.HasPrefix(p, "default-src 'none'; style-src 'sha256-") ||
		strings.Contains(p, "unsafe") {
		t.Errorf("the policy is %s", p)
	}
	for _, c := range []struct {
		host, path string
		want       int
	}{
		{"evil.example", "/", http.StatusMisdirectedRequest}, {"127.0.0.1:8017", "/health", http.StatusOK},
		{"127.0.0.1:8017", "/etc/passwd", http.StatusNotFound},
	} {
		if w := got(t, d, c.host, c.path); w.Code != c.want {
			t.Errorf("%s at %s gives %d, not %d", c.path, c.host, w.Code, c.want)
		}
	}
	d.Look = func(context.Context) (Sight, error) { return Sight{}, errors.New("gone") }
	if w := got(t, d, "127.0.0.1:8017", "/health"); w.Code != http.StatusServiceUnavailable {
		t.Errorf("a network that is gone gives %d", w.Code)
	}
}

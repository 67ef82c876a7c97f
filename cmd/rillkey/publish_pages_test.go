//go:build unix

package main

import (
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rillkey/cmd/rillkey/desk"
	"rillkey/scoring/export/exporttest"
	"rillkey/scoring/network"
	"rillkey/scoring/streamtest"
)

// publishedPages are one page of each sort of a published site of 45 sites.
func publishedPages(t *testing.T) (files []string) {
	t.Helper()
	dir := t.TempDir()
	n := streamtest.Network{Sites: 45, Years: 2, Seed: 11, Protocol: "riffle-three", Region: "north-america"}
	for v := range n.Visits() {
		if err := os.WriteFile(filepath.Join(dir, v.File), v.Encode(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	site := filepath.Join(dir, "site")
	runIn(t, "publish", dir, "--to", site, "--today", "2026-12-31", "--title", "Streams of Alder County", "--group", "County volunteers")
	for _, page := range []string{"index.html", "sites/alder-brook-above-the-ford.html", "sites/site-withheld-*.html", "sites/index.html",
		"streams/bramble-brook.html", "streams/index.html", "years/2026.html", "map/square-*.html", "data/index.html",
		"animals/index.html"} {
		found, err := filepath.Glob(filepath.Join(site, page))
		if err != nil || len(found) == 0 {
			t.Fatalf("there is no %s (%v)", page, err)
		}
		files = append(files, found[0])
	}
	return files
}

// busy is what a coordinator may see.
var busy = desk.Sight{
	Taken: time.Date(2026, 5, 16, 9, 30, 0, 0, time.UTC), FirstDay: time.Date(2026, 5, 9, 9, 30, 0, 0, time.UTC),
	Health: network.Health{Schema: 3, Groups: 2, Visits: 1204, Events: 36120, Kept: 1, Ungraded: 3},
	News: []network.Came{{Group: "mill-brook", Visits: 12, Events: 360, Last: time.Date(2026, 5, 15, 17, 2, 0, 0, time.UTC)},
		{Group: "the-friends-of-the-upper-tanyard-brook", Visits: 1, Events: 31, Last: time.Date(2026, 5, 14, 8, 0, 0, 0, time.UTC)}},
	Waiting: network.Waiting{Total: 2, Kept: 1,
		Visits: []network.WaitingVisit{
			{Visit: "mill-brook/k3v9m2qa", Site: "Tanyard Brook above the footbridge by the old school", Date: "2026-05-15",
				Open: true, Undecided: 3, Contrary: 1},
			{Visit: "mill-brook/p8w2x4zz", Site: "Mill Brook", Date: "2031-01-02", Future: true, Misfits: 2,
				Invaders: []string{"dreissenidae", "astacidea"}}},
		Refused: []network.Refusal{{Visit: "k3v9m2qa", Group: "mill-brook",
			File: "2026-05-15-tanyard-brook-above-the-footbridge.k3v9m2qa.visit.toml", Line: 212,
			Reason:  "this event was changed by hand and is counted as it stands: record k3v9m2qa of a perlidae in sample 1",
			Arrived: time.Date(2026, 5, 15, 17, 2, 0, 0, time.UTC)}},
		Alarms: []network.Alarm{{Site: "Mill Brook", Scheme: "presence", FirstDay: "2026-05-01",
			Words: "The index fell beyond chance since 2026-05-01."}}},
	Agreement: []network.GroupAgreement{{Groups: [2]string{"mill-brook", "tan-yard"}, Pairs: 14, Graded: 12,
		Same: 9, Mean: 0.4, Typical: 1.7}},
}

// deskPage is the page of a network's desk that shows something, as a file.
func deskPage(t *testing.T, name string, sight desk.Sight) string {
	t.Helper()
	d := &desk.Desk{Hosts: []string{"127.0.0.1:8017"}, Look: func(context.Context) (desk.Sight, error) { return sight, nil }}
	r := httptest.NewRequest(http.MethodGet, "/", nil)
	r.Host = d.Hosts[0]
	w := httptest.NewRecorder()
	d.Handler().ServeHTTP(w, r)
	file := filepath.Join(t.TempDir(), name+".html")
	if err := os.WriteFile(file, w.Body.Bytes(), 0o644); err != nil || w.Code != http.StatusOK {
		t.Fatalf("the desk answers %d: %v", w.Code, err)
	}
	return file
}

// Pages of a site and the desk hold up in a browser, bright and dark, on a desk, on phones and on
// paper, as the printed ones do, and the Nu checker finds nothing in them.
func TestPublishedPages(t *testing.T) {
	if testing.Short() {
		t.Skip("it opens pages in a browser")
	}
	t.Parallel()
	tools := pagesTools(t)
	files := append(publishedPages(t), deskPage(t, "desk", busy),
		deskPage(t, "desk-of-nothing", desk.Sight{Taken: busy.Taken, FirstDay: busy.FirstDay}))
	shots := os.Getenv("RILLKEY_SHOTS")
	if shots == "" {
		shots = t.TempDir()
	}
	for _, s := range lookAt(t, shots, files...) {
		for _, fault := range append(s.Faults, s.Remarks...) {
			t.Errorf("%s: %s", s.Page, fault)
		}
		if s.Smallest.Pt < 7.95 {
			t.Errorf("%s has letters of %.1f pt: %q", s.Page, s.Smallest.Pt, s.Smallest.Words)
		}
	}
	checker := filepath.Join(tools, "node_modules", "vnu-jar", "build", "dist", "vnu.jar")
	java := exporttest.FindProgram(t, "java")
	cmd := exec.Command(java, append([]string{
		"-Xss4m", "-jar", checker, "--format", "json", "--exit-zero-always", "--stdout"}, files...)...)
	var report struct {
		Messages []struct{ Type, URL, Message, Extract string }
	}
	if err := json.Unmarshal([]byte(exporttest.Run(t, cmd)), &report); err != nil {
		t.Fatal(err)
	}
	for _, m := range report.Messages {
		// To the checker a file has no origin, so that no picture is of the page's own.
		if !strings.Contains(m.Message, "Content Security Policy") {
			t.Errorf("%s: %s: %s: %s", m.Type, filepath.Base(m.URL), m.Message, m.Extract)
		}
	}
}

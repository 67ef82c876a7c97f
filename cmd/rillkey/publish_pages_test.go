//go:build unix

package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"rillkey/scoring/export/exporttest"
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

// Pages of a site hold up in a browser, bright and dark, on a desk, on phones and on
// paper, as the printed ones do, and the Nu checker finds nothing in them.
func TestPublishedPages(t *testing.T) {
	if testing.Short() {
		t.Skip("it opens pages in a browser")
	}
	t.Parallel()
	tools := pagesTools(t)
	files := publishedPages(t)
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
	java := exporttest.Program(t, "java")
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

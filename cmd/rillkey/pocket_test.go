package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sync"
	"testing"

	"rillkey/cmd/rillkey/pocket"
	"rillkey/scoring/visit"
)

// builtPage is the program for browsers, built once for all tests.
var builtPage = sync.OnceValues(func() (pocket.Program, error) { return pocket.BuildProgram(context.Background(), ".", (*exec.Cmd).Run) })

// pageFile is the page for phones as a file.
func pageFile(t *testing.T) string {
	t.Helper()
	program, err := builtPage()
	if err != nil {
		t.Fatal(err)
	}
	var page bytes.Buffer
	edition, err := builtInEdition("north-america")
	if err != nil {
		t.Fatal(err)
	}
	if err := (pocket.PhonePage{Program: program, Key: "north-america", Edition: edition}).Write(&page); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "stream.html")
	if err := os.WriteFile(file, page.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// largestPage is what a page for phones may have, in bytes, so that it goes through a
// message.
const largestPage = 4_000_000

// The README's page for phones, as its command makes it, is small enough to be sent
// and asks nobody for anything.
func TestThePageForPhonesIsOneSmallFile(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds a program for browsers")
	}
	if _, err := exec.LookPath("go"); err != nil {
		t.Skip(err)
	}
	program, err := builtPage()
	if err != nil {
		t.Fatal(err)
	}
	var page bytes.Buffer
	if err := (pocket.PhonePage{Program: program, Key: "north-america"}).Write(&page); err != nil {
		t.Fatal(err)
	}
	t.Logf("%d bytes", page.Len())
	if page.Len() > largestPage {
		t.Errorf("the page has %d bytes, over %d", page.Len(), largestPage)
	}
	before, programText, _ := bytes.Cut(page.Bytes(), []byte(`type="application/octet-stream"`)) // whose letters may spell anything
	_, after, _ := bytes.Cut(programText, []byte("</script>"))
	said := append(before, after...)
	for _, outside := range []string{"src=", "href=\"http", "@import", "url("} {
		if bytes.Contains(said, []byte(outside)) {
			t.Errorf("the page says %s", outside)
		}
	}
}

// Phones ask the key of the region that is said, and never another in its place.
func TestPhonesAskTheKeyOfTheRegion(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	own := filepath.Join(t.TempDir(), "our-brook")
	runIn(t, "region", "export", "north-west-europe", "--to", own)
	for _, test := range []struct{ region, key, rules, want string }{
		{"", "", "", "north-america"},
		{"", "north-west-europe", "", "north-west-europe"},
		{"north-west-europe", "", "", "north-west-europe"},
		{own, "", "", "own"},
		{own, "north-america", "", "north-america"},
		{"", "kinds.toml", "", ""},
		{"", "", own, ""},
	} {
		a := newApp(world{})
		a.regionName, a.keyFile, a.rulesDir = test.region, test.key, test.rules
		kept, err := keptFor(a, "a page")
		got := kept.key
		if kept.own != nil && got == "" {
			got = "own"
		}
		if got != test.want || (err == nil) != (test.want != "") {
			t.Errorf("%+v: the key %q, %v", test, got, err)
		}
	}
}

// A visit begun on a phone and one begun on the laptop with the same program say the
// same of what they were begun with.
func TestAPageHasTheEditionOfItsProgram(t *testing.T) {
	_, file := begun(t)
	v, err := visit.Read(file)
	if err != nil {
		t.Fatal(err)
	}
	edition, err := builtInEdition(v.Header.Region)
	if err != nil || !slices.Equal(edition, v.Header.Edition) {
		t.Errorf("%v: the page says %q, the laptop %q", err, edition, v.Header.Edition)
	}
}

//go:build unix

package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rillkey/key/practice"
	"rillkey/scoring/export/exporttest"
)

// sheetCount is how many sheets a page may take.
type sheetCount struct{ least, most int }

// pagesToLookAt are all pages the program makes, each with the sheets it should
// take, on A4 as on Letter. WHOLE is the demo's whole visit, SHORT the one with
// too few samples, FOLDER where both are.
var pagesToLookAt = []struct {
	name   string
	args   []string
	sheets sheetCount
}{
	{"figures", []string{"figures"}, sheetCount{14, 24}},
	{"key", []string{"key"}, sheetCount{18, 24}},
	{"key-europe", []string{"key", "--key", "north-west-europe"}, sheetCount{18, 24}},
	{"key-of-kinds", []string{"key", "--key", "kinds"}, sheetCount{1, 1}},
	{"key-of-kinds-europe", []string{"key", "--key", "kinds", "--region", "north-west-europe"}, sheetCount{1, 1}},
	{"sheet", []string{"sheet"}, sheetCount{2, 2}},
	{"sheet-of-a-visit", []string{"sheet", "--visit", "SHORT"}, sheetCount{2, 2}},
	{"sheet-of-families", []string{"sheet", "--protocol", "riffle-families"}, sheetCount{2, 2}},
	{"sheet-europe", []string{"sheet", "--region", "north-west-europe", "--protocol", "all-habitats-three-minutes"}, sheetCount{3, 3}},
	{"quick", []string{"quick"}, sheetCount{2, 2}},
	{"quick-europe-large", []string{"quick", "--large-type", "--region", "north-west-europe"}, sheetCount{2, 2}},
	{"cards", []string{"cards"}, sheetCount{26, 34}},
	{"cards-europe", []string{"cards", "--region", "north-west-europe"}, sheetCount{24, 32}},
	{"howto", []string{"howto"}, sheetCount{1, 1}},
	{"labels", []string{"labels"}, sheetCount{2, 2}},
	{"labels-of-a-visit", []string{"labels", "--visit", "WHOLE"}, sheetCount{2, 2}},
	{"group", []string{"group", "PRACTISED"}, sheetCount{1, 2}},
	{"certificate", []string{"certificate", "PRACTISED"}, sheetCount{1, 1}},
	{"report", []string{"report", "WHOLE", "--history", "FOLDER"}, sheetCount{2, 5}},
	{"report-for-authority", []string{"report", "WHOLE", "--for", "authority"}, sheetCount{3, 6}},
	{"report-without-a-grade", []string{"report", "SHORT"}, sheetCount{2, 4}},
}

// A page that nobody entered above is named.
func TestEveryPageIsLookedAt(t *testing.T) {
	looked := map[string]bool{}
	for _, page := range pagesToLookAt {
		looked[page.args[0]] = true
	}
	commands, _, err := rootCommand(newApp(world{})).Find([]string{"print"})
	if err != nil || len(commands.Commands()) < 5 {
		t.Fatal(err, commands)
	}
	for _, cmd := range commands.Commands() {
		if !looked[cmd.Name()] {
			t.Errorf("the page of 'rillkey print %s' is looked at by nobody: add a row to pagesToLookAt", cmd.Name())
		}
	}
}

// leastLetters is the size in points under which no letter on paper is.
const leastLetters = 8.0

// pagesTools is the folder of what looks at pages; where it is not filled, the
// test is skipped.
func pagesTools(t *testing.T) string {
	t.Helper()
	dir, err := filepath.Abs(filepath.Join("..", "..", ".ci", "tools", "pages"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(dir, "node_modules")); err != nil {
		exporttest.SkipWithout(t, "the readers of pages are not installed")
	}
	return dir
}

// printedPages are all pages as files of a folder, by the program itself.
func printedPages(t *testing.T) []string {
	t.Helper()
	dir := t.TempDir()
	demo := filepath.Join(dir, "demo")
	runIn(t, "demo", "--plain", "--keep", demo)
	visits, err := filepath.Glob(filepath.Join(demo, "*.visit.toml"))
	if err != nil || len(visits) != 2 {
		t.Fatalf("the demo keeps %d visits of 2 (%v)", len(visits), err)
	}
	practised := filepath.Join(dir, "robin.practice.toml")
	if err := os.WriteFile(practised, practisedFile(t), 0o600); err != nil {
		t.Fatal(err)
	}
	var files []string
	for _, page := range pagesToLookAt {
		var args []string
		for _, arg := range page.args {
			args = append(args, strings.NewReplacer("WHOLE", visits[0], "SHORT", visits[1], "FOLDER", demo, "PRACTISED",
				practised).Replace(arg))
		}
		file := filepath.Join(dir, page.name+".html")
		runIn(t, append([]string{"print", "--to", file}, args...)...)
		files = append(files, file)
	}
	return files
}

// practisedFile is somebody's practice: 40 animals, each read wrongly once.
func practisedFile(t *testing.T) []byte {
	t.Helper()
	r := practice.PersonRecord{Person: "Robin"}
	for i := range 40 {
		r.Meetings = append(r.Meetings, practice.Meeting{
			Time: time.Date(2031, 4, 5, 9, i, 0, 0, time.UTC), Source: practice.DrawingSource, Kind: "perlidae",
			Walked: true, Named: []string{"perlodidae"},
			Readings: []practice.Reading{{Trait: "gills", Is: "chest", Fit: []string{"chest"}, Given: []string{"none"}, Blame: 1}}})
	}
	return r.TOML()
}

// seen is what one page showed: see look.cjs.
type seen struct {
	Page     string
	Sheets   map[string]int
	Smallest struct { // letters on paper
		Pt    float64
		Words string
	}
	Faults  []string
	Remarks []string
}

func lookAt(t *testing.T, shots string, files ...string) []seen {
	t.Helper()
	look := filepath.Join(pagesTools(t), "look.cjs")
	node, browser := exporttest.FindProgram(t, "node"), exporttest.FindProgram(t, "chromium", "chromium-browser", "google-chrome")
	out := exporttest.Run(t, exec.Command(node, append([]string{look, browser, shots}, files...)...))
	var all []seen
	if err := json.Unmarshal([]byte(out), &all); err != nil {
		t.Fatalf("%v in %s", err, out)
	}
	return all
}

// Pages that the program makes are looked at by others: a browser, an audit, a
// checker. They are made once for all of them.
func TestPages(t *testing.T) {
	if testing.Short() {
		t.Skip("it opens every page in a browser")
	}
	t.Parallel()
	pagesTools(t)
	files := printedPages(t)
	t.Run("hold up in a browser", func(t *testing.T) { holdUp(t, files) })
	t.Run("are valid", func(t *testing.T) { areValid(t, files) })
}

// holdUp has Chromium open every page on a desk, on two phones and on both sizes
// of paper: nothing may reach over an edge or lie on something else, axe-core
// (the rules of WCAG that a program can check) may find nothing serious, and the
// sheets are as many as expected. RILLKEY_SHOTS names a folder that keeps the
// screenshots and PDFs.
func holdUp(t *testing.T, files []string) {
	shots := os.Getenv("RILLKEY_SHOTS")
	if shots == "" {
		shots = t.TempDir()
	}
	all := lookAt(t, shots, files...)
	if len(all) != len(pagesToLookAt) {
		t.Fatalf("%d pages seen of %d", len(all), len(pagesToLookAt))
	}
	for i, s := range all {
		for _, fault := range s.Faults {
			t.Errorf("%s: %s", s.Page, fault)
		}
		for _, remark := range s.Remarks {
			t.Logf("%s: %s", s.Page, remark)
		}
		for _, size := range []string{"a4", "letter"} {
			want := pagesToLookAt[i].sheets
			if n := s.Sheets[size]; n < want.least || n > want.most {
				t.Errorf("%s takes %d sheets of %s, not %d to %d", s.Page, n, size, want.least, want.most)
			}
		}
		if s.Smallest.Pt < leastLetters-0.05 {
			t.Errorf("%s has letters of %.1f pt, and none may be below %v: %q", s.Page, s.Smallest.Pt, leastLetters, s.Smallest.Words)
		}
		t.Logf("%s: %v sheets, letters from %.1f pt", s.Page, s.Sheets, s.Smallest.Pt)
	}
}

// What the browser test holds up is worth something only if it finds faults
// where there are some.
func TestTheBrowserSeesFaults(t *testing.T) {
	if testing.Short() {
		t.Skip("it opens every page in a browser")
	}
	t.Parallel()
	pagesTools(t)
	file := filepath.Join(t.TempDir(), "bad.html")
	bad := `<!doctype html><html lang="en"><meta charset="utf-8"><title>Bad</title><main><h1>Bad</h1>
<p style="color:#bbb;background:#fff">pale</p>
<p style="width:900px">wide</p>
<p style="width:50px;overflow:hidden;white-space:nowrap">a text that is cut off by its box</p>
<div style="height:400mm;break-inside:avoid">tall</div>
<p style="width:20px;overflow-wrap:anywhere"><span class="letter">103a</span></p>
<svg viewBox="0 0 100 20" width="100" height="20" role="img" aria-label="x">
<text x="5" y="15" font-size="10">first</text><text x="6" y="15" font-size="10">second</text>
<text x="90" y="15" font-size="10">outside it</text></svg>
<img src="https://example.org/x.png"></main></html>`
	if err := os.WriteFile(file, []byte(bad), 0o644); err != nil {
		t.Fatal(err)
	}
	found := strings.Join(lookAt(t, t.TempDir(), file)[0].Faults, "\n")
	for _, want := range []string{
		"serious color-contrast", "critical image-alt", "beyond the right edge", "cut off by its own box",
		"higher than a sheet", "label is broken", "text outside its drawing", "lie on each other", "asks the network",
	} {
		if !strings.Contains(found, want) {
			t.Errorf("%q was not found in\n%s", want, found)
		}
	}
}

// areValid has the Nu checker of the W3C validate the HTML, the CSS and the SVG
// of all pages.
func areValid(t *testing.T, files []string) {
	checker := filepath.Join(pagesTools(t), "node_modules", "vnu-jar", "build", "dist", "vnu.jar")
	java := exporttest.FindProgram(t, "java")
	validate := func(files ...string) []string {
		cmd := exec.Command(java, append(
			[]string{"-Xss4m", "-jar", checker, "--format", "json", "--exit-zero-always", "--stdout"}, files...)...)
		var report struct {
			Messages []struct {
				Type, URL, Message, Extract string
				LastLine                    int
			}
		}
		if err := json.Unmarshal([]byte(exporttest.Run(t, cmd)), &report); err != nil {
			t.Fatal(err)
		}
		var out []string
		for _, m := range report.Messages {
			out = append(out, m.Type+": "+filepath.Base(m.URL)+": "+m.Message+": "+m.Extract)
		}
		return out
	}
	for _, message := range validate(files...) {
		t.Error(message)
	}
	bad := filepath.Join(t.TempDir(), "bad.html")
	if err := os.WriteFile(bad, []byte(`<!doctype html><html lang="en"><title>Bad</title><p><table><svg><path d="M 0 0 L x"/></svg>`),
		0o644); err != nil {
		t.Fatal(err)
	}
	if len(validate(bad)) == 0 {
		t.Error("the checker finds nothing wrong with a page that is wrong")
	}
}

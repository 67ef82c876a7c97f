//go:build unix

package main

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/rogpeppe/go-internal/txtar"

	"rillkey/taxa/language"
)

// inGerman are commands that somebody types in the folder of a German region, from its
// sheet to the last export, with what they answer after <. A command that cannot do it
// says why: what is said then is German too. {A} is the code of the first animal.
const inGerman = `
couplets draft --csv tiere.csv --out key.toml --taxa-out taxa
couplets draft --csv tiere.csv --write --out key.toml --taxa-out taxa
couplets draft --out entwurf.toml
couplets draft --keep key.toml
couplets draft --sheet tabelle.csv
couplets check
couplets check kaputt.toml
couplets check klammer.toml
couplets check --explain all
couplets check --explain gap
couplets check --json
couplets stats
couplets stats --json
couplets show
couplets show --as tree
couplets show --as dot
couplets trim --region region.toml --out kurz.toml
couplets renumber --to neu.toml --map karte.csv
couplets compare key.toml entwurf.toml
couplets compare key.toml anders.toml
couplets compare key.toml anders.toml --json
couplets merge key.toml key.toml anders.toml --to eins.toml
couplets trial --specimens 20
couplets trial --specimens 20 --people hard --json
region new neu
region check
region check --json
region check .. 
region show
region show europe
region show --json
region export north-west-europe --to eu
region pack . --to ../bach.zip
region words
region words --of-streams
rillkey
taxa steinfliege
taxa steinfliege --json
taxa steinfliege --against eintagsfliege
taxa steinfliege --card
taxa drache
taxa kocherflige
identify --plain <fragen
identify --observe beine=sechs
identify --observe beine=sechs --json
identify --answers 99z
identify --see drache
identify --check steinfliege --plain <fragen
identify --check steinfliege --list
identify --length riesig
practice --as Anna --plain <falsch
practice test --as Anna --plain <falsch
practice tray becher.toml --as Anna --plain <falsch
practice result --as Anna
practice result --as Anna --json
practice rates anna.rates.toml --as Anna
practice group Anna.practice.toml
practice forget Bo
visit begin --plain --site Bach --date 2026-05-17 --protocol drei-proben <nein
visit begin --site Bach --date 2026-05-16 --people Anna,Bo --protocol drei-proben --cautions-read --at 51.1,13.9 --visit v.visit.toml
visit begin --site Bach --date 2026-05-16 --people Anna,Bo --protocol drei-proben --cautions-read --visit v.visit.toml
visit begin --site Bach --date 16.13.2026 --protocol drei-proben --cautions-read
visit begin --site Bach --protocol vier-proben --cautions-read
visit show
identify --answers 1b,4a,bewegung=schwimmt-auf-der-seite --count 3
visit sample --habitat riffle --area 0.25m2
visit sample --habitat riffle --area 0.25m2
visit sample --habitat riffle --area gross
visit sample --habitat riffle --area 0.25m2
visit add steinfliege 4 --sample 1
visit add eintagsfliege 12 --sample 2
visit add eintagsfliege 2 --sample 2
visit add bachflohkrebs 8 --sample 3
visit add drache 2 --sample 3
visit add
visit undo
visit undo --who Carl
identify --answers 1b,4a,bewegung=schwimmt-auf-der-seite --count 3 --sample 1
identify --answers 1b,4a,bewegung=schwimmt-auf-der-seite --count 2 --sample 1 --json
visit conditions --set water-temperature=9,5
visit conditions --set water-temperature=heiß
visit conditions --set wassertemperatur=9
visit conditions --set ph=7 --json
visit enter --plain <bogen
grade --details
grade --anyway
grade .
visit list
table --board
print report --to offen.html
visit sorted
visit conditions mit
visit sorted --sample 9
visit sorted --sample 1 --sample 2 --sample 3
visit amend --of {A} --count 5 --reason verzählt
visit amend --of {A} --taxon egel --reason verguckt
visit amend --of nirgends --count 5
visit amend --set water-temperature=9
recheck
recheck --json
recheck draw
recheck look --of {A} --who Bo --plain <fragen
recheck settle --of {A} --taxon egel
recheck expert --of {A} --taxon egel --who Carl
recheck agreement
recheck agreement --json
visit show
visit show --json
visit finish
visit finish
visit add egel 2
grade
grade --details --charts
grade --json
grade .
grade . --json
grade --check-rules .
grade nirgends.visit.toml
visit list
visit list --json
visit list --site Nirgends
table --board
table --board --json
rates learn unsere.rates.toml v.visit.toml
rates show unsere.rates.toml
rates show
rates show --json
rates learn unsere.rates.toml taxa
couplets failures v.visit.toml
couplets failures v.visit.toml --json
export --as csv --to csv
export --as darwin-core --to dwc.zip
export --as sql --to alles.sql
export --as rows --to zeilen.csv
export --as csv --to csv
export --as brief --to x
import csv --to zurueck
import taxa --to zurueck
publish . --to seiten
publish . --to seiten
print key --to schluessel.html
print key --long --to ganz.html
print figures --to bilder.html
print sheet --to bogen.html
print sheet --visit v.visit.toml --to ausgefuellt.html
print labels --to etiketten.html
print labels --visit v.visit.toml --to etiketten2.html
print howto --to schritte.html
print quick --to blatt.html
print cards --to karten.html
print report --to bericht.html
print report --for council --to rat.html
print report --to bericht.html
print report --to nirgends/bericht.html
print certificate Anna.practice.toml --to urkunde.html
print group Anna.practice.toml --to gruppe.html
visit reopen
visit merge v.visit.toml
visit merge v.visit.toml v.visit.toml
visit salvage v.visit.toml
visit salvage kaputt.visit.toml
visit salvage
visit show --visit taxa
visit show --visit nirgends.visit.toml
couplets check taxa
couplets draft --csv nirgends.csv
couplets draft --csv taxa
print report --to taxa
export --as rows --to taxa
rates show taxa
table --at 1.2.3
demo --plain
send --to postgres://x@127.0.0.1:1/netz
fetch --from postgres://x@127.0.0.1:1/netz --to geholt
regrade postgres://x@127.0.0.1:1/netz
network begin --at postgres://x@127.0.0.1:1/netz
network admit anna --at postgres://x@127.0.0.1:1/netz --as group
network news --at postgres://x@127.0.0.1:1/netz
network waiting --at postgres://x@127.0.0.1:1/netz
network agreement --at postgres://x@127.0.0.1:1/netz
network draw --at postgres://x@127.0.0.1:1/netz --seed a
network health --at postgres://x@127.0.0.1:1/netz
pocket --to taxa
`

// answersInGerman are what is typed where a command asks.
var answersInGerman = map[string]string{
	"fragen": "\nx\nh\nw\n\na\n?\nq\nq\n",
	"falsch": "!\nq\nq\n",
	"nein":   "n\nn\n",
	"bogen":  "\n3\nabc\n2\n\n\nx\nhelp\nback\nq\nq\n",
}

// ofBoth are English words that a German page may hold: what commands, fields and
// states are called, and what standards call their things.
var ofBoth = regexp.MustCompile(`(?i)darwin core|data package|table schema|as counted|north america|common practice|temperate|` +
	`streams and rivers of|the authors of rillkey|["',](?:not yet|being) sorted["',]|journal of|Mann-Kendall|GNU|` +
	`Creative Commons|--[a-z-]+`)

// englishWords stand in no German sentence.
var englishWords = strings.Fields(`the and with is are were been this that these those its you your when which who whose have than
	then there they them because but between only every each other another would should could nothing still behind where did whether
	while until nobody somebody something anything cannot does how why without of it if what has no of to be by not or from for`)

// Nothing that a command says, writes or prints in a German region is English, whatever
// somebody types: see everything that it said where this fails.
func TestNothingIsEnglishInAGermanRegion(t *testing.T) {
	if testing.Short() {
		t.Skip("it runs every command")
	}
	t.Parallel()
	g := newGermans(t)
	done := map[string]bool{}
	for _, line := range strings.Split(strings.TrimSpace(inGerman), "\n") {
		command, input, _ := strings.Cut(line, " <")
		args := strings.Fields(strings.ReplaceAll(command, "{A}", g.animal))
		if args[0] == "rillkey" {
			args = nil
		}
		g.run(answersInGerman[input], args...)
		for n := range min(3, len(args)) {
			done[strings.Join(args[:n+1], " ")] = true
		}
	}
	for _, cmd := range append(leaves(rootCommand(newApp(world{}))), rootCommand(newApp(world{}))) {
		path := strings.TrimPrefix(strings.TrimPrefix(cmd.CommandPath(), "rillkey"), " ")
		if path != "" && !done[path] && !strings.HasPrefix(path, "completion") && path != "help" {
			t.Errorf("no line here runs 'rillkey %s'", path)
		}
		g.run("", append(strings.Fields(path), "--help")...)
		g.run("", append(strings.Fields(path), "--nosuch")...)
	}
	for key := range g.nulls {
		if g.lists[key] {
			t.Errorf("%q is null in a document where there is nothing to list", key)
		}
	}
	if g.animal == "" || len(g.lists) < 20 {
		t.Errorf("animal %q, %d lists", g.animal, len(g.lists))
	}
	t.Logf("%d commands, %d files, %d lists", g.commands, len(g.seen), len(g.lists))
}

// germans run the program in the folder of a German region and look at all it says.
type germans struct {
	*testing.T
	dir, animal string
	said        []string        // fragments of English sentences
	seen        map[string]bool // files
	lists       map[string]bool // fields of documents that are lists somewhere
	nulls       map[string]bool // and that are null somewhere
	commands    int
}

func newGermans(t *testing.T) *germans {
	t.Helper()
	archive, err := txtar.ParseFile("testdata/script/language.txtar")
	if err != nil {
		t.Fatal(err)
	}
	g := &germans{T: t, dir: filepath.Join(t.TempDir(), "bach"), seen: map[string]bool{}, lists: map[string]bool{},
		nulls: map[string]bool{}, said: englishFragments(t)}
	for _, f := range archive.Files {
		if name, ok := strings.CutPrefix(f.Name, "bach/"); ok {
			g.write(name, f.Data)
		}
	}
	g.write("becher.toml", []byte("[cup.1]\ntaxon = \"steinfliege\"\n[cup.2]\ntaxon = \"egel\"\n"))
	g.write("kaputt.visit.toml", []byte("[visit]\nformat = 1\n"))
	g.news() // what is there is the region's own
	return g
}

func (g *germans) write(name string, data []byte) {
	g.Helper()
	path := filepath.Join(g.dir, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		g.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		g.Fatal(err)
	}
}

// run runs one command, and wants no English in what it said and wrote.
func (g *germans) run(input string, args ...string) {
	g.Helper()
	g.commands++
	done, err := do(os.Getenv("PATH"), errand{g.dir, args, []byte(input)})
	if err != nil {
		g.Fatal(err)
	}
	told := "rillkey " + strings.Join(args, " ")
	switch told {
	case "rillkey region words", "rillkey region words --of-streams":
		done.Out = nil // the English sentences are what it lists
	case "rillkey demo --plain":
		return // it plays at a built-in stream of English people, wherever it is shown
	}
	g.look(told+", standard output", string(done.Out))
	g.look(told+", standard error", string(done.Err))
	for _, name := range g.news() {
		if strings.HasPrefix(name, "eu/") || strings.HasPrefix(name, "neu/") || strings.HasSuffix(name, ".memory") {
			continue // a built-in region is written in English; what publish remembers is for nobody to read
		}
		g.lookInto(told+", file "+name, filepath.Join(g.dir, name))
	}
	if m := firstAnimal.FindStringSubmatch(string(done.Out)); m != nil && g.animal == "" {
		g.animal = m[1]
	}
	if slices.Contains(args, "entwurf.toml") {
		text, _ := os.ReadFile(filepath.Join(g.dir, "entwurf.toml"))
		g.write("anders.toml", bytes.Replace(text, []byte(`text   = "`), []byte(`text   = "Anders: `), 1))
		g.news()
	}
}

// firstAnimal is told by "identify --json" of what it saved.
var firstAnimal = regexp.MustCompile(`"event": "([0-9a-z]{8})"`)

// news are the files that were not there before.
func (g *germans) news() (out []string) {
	g.Helper()
	err := fs.WalkDir(os.DirFS(g.dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && !g.seen[name] {
			g.seen[name] = true
			out = append(out, name)
		}
		return err
	})
	if err != nil {
		g.Fatal(err)
	}
	return out
}

func (g *germans) lookInto(told, path string) {
	g.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		g.Fatal(err)
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		g.look(told, string(data))
		return
	}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			g.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			g.Fatal(err)
		}
		g.look(told+" "+f.Name, string(text))
	}
}

// look wants a text in German.
func (g *germans) look(told, text string) {
	g.Helper()
	read := g.people(told, text)
	for _, part := range g.said {
		if at := strings.Index(read, part); at >= 0 {
			g.Errorf("%s: %q", told, excerpt(read, at))
			return
		}
	}
	words := wordPlaces.FindAllStringIndex(read, -1)
	for _, w := range words {
		if slices.Contains(englishWords, strings.ToLower(read[w[0]:w[1]])) {
			g.Errorf("%s: %q", told, excerpt(read, w[0]))
			return
		}
	}
}

var wordPlaces = regexp.MustCompile(`[\pL\d]+`)

func excerpt(text string, at int) string {
	return strings.ToValidUTF8(text[max(0, at-60):min(len(text), at+80)], "")
}

// people is what of a text people read: the values of JSON, no markup, no command, no
// name of a field, no code.
func (g *germans) people(told, text string) string {
	switch {
	case strings.HasSuffix(told, ".csv"):
		_, text, _ = strings.Cut(text, "\n")
	case strings.HasSuffix(told, ".sql"):
		text = strings.Join(ofSQL.FindAllString(text, -1), "\n")
	}
	var doc any
	if json.Unmarshal([]byte(text), &doc) == nil {
		var values []string
		g.collect("", doc, &values)
		text = strings.Join(values, "\n")
	}
	return ofBoth.ReplaceAllString(ofPrograms.ReplaceAllString(readable(text), " "), " ")
}

// ofSQL are its comments and texts.
var ofSQL = regexp.MustCompile(`(?m)--.*$|'[^']*'`)

// ofPrograms are names of fields, ids, code and addresses.
var ofPrograms = regexp.MustCompile("(?m)`[^`]*`" + `|^\s*rillkey .*$|^\[[a-z0-9.-]+\]$|\b[a-z_]+ *= *|[a-z]+://\S+|` +
	`"[a-z0-9.:+-]*"|\b[a-z0-9]+[-_.][a-z0-9_.-]+\b|[a-z]+=\S+`)

// collect gathers the texts of a document, and which of its fields are lists.
func (g *germans) collect(field string, v any, out *[]string) {
	switch v := v.(type) {
	case nil:
		g.nulls[field] = true
	case string:
		if strings.Contains(v, " ") && !strings.HasSuffix(v, "sorted") { // states are ids
			*out = append(*out, v)
		}
	case []any:
		g.lists[field] = true
		for _, e := range v {
			g.collect("", e, out)
		}
	case map[string]any:
		for name, e := range v {
			g.collect(name, e, out)
		}
	}
}

// englishFragments are the longest parts without values of the sentences that German
// says otherwise, if they are three words or more.
func englishFragments(t *testing.T) (out []string) {
	t.Helper()
	german, err := language.BuiltIn("de")
	if err != nil {
		t.Fatal(err)
	}
	for english, said := range german.Say {
		part := longestPart(english)
		if words := strings.FieldsFunc(part, func(r rune) bool { return !unicode.IsLetter(r) }); len(words) < 3 ||
			strings.Contains(said, part) || ofBoth.MatchString(part) {
			continue
		}
		out = append(out, part)
	}
	slices.Sort(out)
	if len(out) < 2000 {
		t.Fatalf("only %d sentences", len(out))
	}
	return out
}

var values = regexp.MustCompile(`%[-+#0-9.\[\]*]*[a-zA-Z%]|\{\{[^}]*\}\}|\n`)

func longestPart(english string) (longest string) {
	for _, part := range values.Split(english, -1) {
		if part = strings.TrimSpace(part); len(part) > len(longest) {
			longest = part
		}
	}
	return longest
}

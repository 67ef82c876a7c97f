//go:build unix

package export

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"rillkey/scoring/export/exporttest"
	"rillkey/scoring/visit"
)

// meta.xml holds against the schema of the text guide. The schema imports
// others by address; a catalog leads those to the files, so that nothing is
// fetched.
func TestMetaValidatesAgainstTheTextGuide(t *testing.T) {
	dir := os.Getenv("RILLKEY_DARWIN_CORE")
	if dir == "" {
		dir = "../../../shared/darwin-core"
	}
	if _, err := os.Stat(filepath.Join(dir, "tdwg_dwc_text.xsd")); err != nil {
		t.Skip("the schemas of Darwin Core are not here; name their folder with RILLKEY_DARWIN_CORE")
	}
	xmllint := exporttest.FindProgram(t, "xmllint")
	dir, err := filepath.Abs(dir)
	if err != nil {
		t.Fatal(err)
	}
	tmp := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(tmp, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	stub := func(name, space string) string {
		return write(name, `<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema" targetNamespace="`+space+`"/>`)
	}
	xmlSpace := write("xml.xsd",
		`<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema" targetNamespace="http://www.w3.org/XML/1998/namespace">`+
			`<xs:attribute name="lang" type="xs:string"/></xs:schema>`)
	catalog := `<catalog xmlns="urn:oasis:names:tc:entity:xmlns:xml:catalog">`
	for uri, file := range map[string]string{
		"https://raw.githubusercontent.com/tdwg/dwc/master/docs/xml/tdwg_dwcterms.xsd": stub("dwc.xsd", termSpace),
		"http://rs.gbif.org/schema/xml.xsd":                                            xmlSpace,
	} {
		catalog += fmt.Sprintf(`<uri name="%s" uri="file://%s"/><system systemId="%[1]s" uri="file://%[2]s"/>`, uri, file)
	}
	catalogFile := write("catalog.xml", catalog+`</catalog>`)
	check := func(meta string) error {
		cmd := exec.Command(xmllint, "--nonet", "--noout", "--schema", filepath.Join(dir, "tdwg_dwc_text.xsd"), write("meta.xml", meta))
		cmd.Env = append(os.Environ(), "XML_CATALOG_FILES="+catalogFile)
		if out, err := cmd.CombinedOutput(); err != nil {
			return fmt.Errorf("%w\n%s", err, out)
		}
		return nil
	}
	r := openArchive(t, scenes(t), open)
	if err := check(r.files["meta.xml"]); err != nil {
		t.Error(err)
	}
	if check(strings.Replace(r.files["meta.xml"], "<coreid", "<core", 1)) == nil {
		t.Error("the validator takes anything")
	}
	exporttest.Run(t, exec.Command(xmllint, "--nonet", "--noout", write("eml.xml", r.files["eml.xml"])))
}

// The tables hold against their own data dictionary, as a reader from elsewhere
// sees it.
func TestTablesValidate(t *testing.T) {
	const folder = "../../.ci/tools/tables"
	if _, err := os.Stat(filepath.Join(folder, "node_modules", "datapackage")); err != nil {
		exporttest.SkipWithout(t, "the Data Package reader for node is not installed in .ci/tools/tables (npm ci)")
	}
	node := exporttest.FindProgram(t, "node")
	for _, d := range []Discretion{open, {}} {
		dir := tables(t, scenes(t), d)
		out := exporttest.Run(t, exec.Command(node, filepath.Join(folder, "check.cjs"), dir))
		if !strings.Contains(out, "visits: 7 rows") || !strings.Contains(out, "records:") {
			t.Errorf("it read %s", out)
		}
		path := filepath.Join(dir, EventsFile)
		data, _ := os.ReadFile(path)
		if err := os.WriteFile(path, bytes.Replace(data, []byte(",40,"), []byte(",many,"), 1), 0o644); err != nil {
			t.Fatal(err)
		}
		if exec.Command(node, filepath.Join(folder, "check.cjs"), dir).Run() == nil {
			t.Error("the validator takes anything")
		}
	}
}

// database runs a script, then gives the answer to a query as CSV.
func TestSQLInDatabases(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	// Scripts of dumps set this, and it stays set for what is loaded after them.
	whereBackslashEscapes := func(t *testing.T) exporttest.Database {
		db := exporttest.Postgres(t)
		return func(script, query string) string {
			return db("SET standard_conforming_strings = off; SET escape_string_warning = off;\n"+script, query)
		}
	}
	for name, start := range map[string]func(*testing.T) exporttest.Database{
		"SQLite": exporttest.SQLite, "PostgreSQL": exporttest.Postgres, "PostgreSQL where a backslash escapes": whereBackslashEscapes,
	} {
		t.Run(name, func(t *testing.T) {
			db := start(t)
			visits := scenes(t)
			var script bytes.Buffer
			if err := SQL(&script, all(visits), knowledge(t), open, metadata); err != nil {
				t.Fatal(err)
			}
			checkDatabase(t, db, script.String(), visits)
		})
	}
}

// checkDatabase works the indices out in the database and compares them with
// those of grade; loaded twice, the script gives nothing twice.
func checkDatabase(t *testing.T, db exporttest.Database, script string, visits []*visit.Visit) {
	t.Helper()
	db(script, "SELECT 1")
	values := map[string]string{}
	for _, view := range []string{"presence_index", "family_biotic_index"} {
		for _, row := range rows(t, db(script, "SELECT visit, value FROM "+view)) {
			values[view+" "+row[0]] = row[1]
		}
	}
	compared := 0
	for _, v := range visits {
		g := knowledge(t).grade(knowledge(t).Rules.Account(v))
		if g == nil {
			continue
		}
		for _, i := range g.Indices {
			view := map[string]string{"presence": "presence_index", "fbi": "family_biotic_index"}[i.ID]
			if view == "" {
				continue
			}
			compared++
			got := values[view+" "+v.Header.ID]
			if i.Value == nil {
				if got != "" {
					t.Errorf("%s of %s is withheld, but %s here", i.ID, v.Header.ID, got)
				}
				continue
			}
			if f, err := strconv.ParseFloat(got, 64); err != nil || math.Abs(f-*i.Value) > 1e-9 {
				t.Errorf("%s of %s is %v, but %q here", i.ID, v.Header.ID, *i.Value, got)
			}
		}
	}
	if compared < 6 {
		t.Errorf("only %d values compared", compared)
	}
	animals, odd := 0, 0
	for _, v := range visits {
		for _, r := range v.Tally().Records {
			animals += r.Count
			if r.Note != "" {
				odd++
			}
		}
	}
	got := rows(t, db(script, "SELECT SUM(animals), COUNT(note), (SELECT COUNT(*) FROM visit), (SELECT SUM(visits) FROM "+
		"site_taxon WHERE taxon = 'perlidae') FROM record"))
	if want := fmt.Sprint([]string{fmt.Sprint(animals), fmt.Sprint(odd), fmt.Sprint(len(visits)), "5"}); fmt.Sprint(got[0]) != want {
		t.Errorf("sums %v, not %v", got[0], want)
	}
	note := rows(t, db(script, `SELECT note FROM record WHERE taxon = 'baetidae' AND note LIKE 'it%'`))
	if len(note) != 1 || note[0][0] != `it's "odd", =1+1; \' -- DROP` {
		t.Errorf("the note came out as %v", note)
	}
}

func rows(t *testing.T, text string) [][]string {
	t.Helper()
	out, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

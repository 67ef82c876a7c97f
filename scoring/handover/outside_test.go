//go:build unix

package handover

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"rillkey/scoring/visit"
)

// program finds a program that is no part of this project. Without it a test
// says so and is skipped; in CI, which installs them, that is a failure.
func program(t *testing.T, names ...string) string {
	t.Helper()
	for _, name := range names {
		found, _ := filepath.Glob(name)
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
		if len(found) > 0 {
			return found[len(found)-1]
		}
	}
	missing(t, strings.Join(names, ", or ")+" is not installed")
	return ""
}

func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("RILLKEY_CI") == "1" {
		t.Fatal(what)
	}
	t.Skip(what + "; .ci/run installs it")
}

func run(t *testing.T, cmd *exec.Cmd) string {
	t.Helper()
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s: %v\n%s%s", cmd, err, out, stderr.String())
	}
	return string(out)
}

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
	xmllint := program(t, "xmllint")
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
	xmlSpace := write("xml.xsd", `<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema" targetNamespace="http://www.w3.org/XML/1998/namespace"><xs:attribute name="lang" type="xs:string"/></xs:schema>`)
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
	run(t, exec.Command(xmllint, "--nonet", "--noout", write("eml.xml", r.files["eml.xml"])))
}

// The tables hold against their own data dictionary, as a reader from elsewhere
// sees it.
func TestTablesValidate(t *testing.T) {
	const folder = "../../.ci/tools/tables"
	if _, err := os.Stat(filepath.Join(folder, "node_modules", "datapackage")); err != nil {
		missing(t, "the Data Package reader for node is not installed in .ci/tools/tables (npm ci)")
	}
	node := program(t, "node")
	for _, d := range []Discretion{open, {}} {
		dir := tables(t, scenes(t), d)
		out := run(t, exec.Command(node, filepath.Join(folder, "check.cjs"), dir))
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
type database func(script, query string) string

func TestSQLInDatabases(t *testing.T) {
	for name, start := range map[string]func(*testing.T) database{"SQLite": sqlite, "PostgreSQL": postgres} {
		t.Run(name, func(t *testing.T) {
			db := start(t)
			visits := scenes(t)
			var script bytes.Buffer
			if err := SQL(&script, all(visits), knowledge(t), open, about); err != nil {
				t.Fatal(err)
			}
			checkDatabase(t, db, script.String(), visits)
		})
	}
}

// checkDatabase works the indices out in the database and compares them with
// those of grade; loaded twice, the script gives nothing twice.
func checkDatabase(t *testing.T, db database, script string, visits []*visit.Visit) {
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
		g := knowledge(t).grade(v)
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
	got := rows(t, db(script, "SELECT SUM(animals), COUNT(note), (SELECT COUNT(*) FROM visit), (SELECT SUM(visits) FROM site_taxon WHERE taxon = 'perlidae') FROM record"))
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

func sqlite(t *testing.T) database {
	prog := program(t, "sqlite3")
	file := filepath.Join(t.TempDir(), "visits.db")
	return func(script, query string) string {
		load := exec.Command(prog, "-bail", file)
		load.Stdin = strings.NewReader("PRAGMA foreign_keys = ON;\n" + script)
		run(t, load)
		return run(t, exec.Command(prog, "-csv", file, query))
	}
}

// postgres starts a server of its own that listens on a socket in a folder of
// its own, as somebody who is not the administrator.
func postgres(t *testing.T) database {
	psql := program(t, "psql")
	initdb := program(t, "/usr/lib/postgresql/*/bin/initdb", "initdb")
	server := filepath.Join(filepath.Dir(initdb), "postgres")
	dir, err := os.MkdirTemp("", "rk-pg-") // a socket's path must be short
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	attr := asNobody(t, dir)
	asUser := func(cmd *exec.Cmd) *exec.Cmd {
		cmd.SysProcAttr, cmd.Dir = attr, dir
		cmd.Env = append(os.Environ(), "HOME="+dir, "PGUSER=tester", "PGHOST="+dir, "PGDATABASE=postgres", "PGOPTIONS=-c client_min_messages=warning")
		return cmd
	}
	data := filepath.Join(dir, "data")
	run(t, asUser(exec.Command(initdb, "-D", data, "-U", "tester", "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync")))
	ctx, stop := context.WithCancel(context.Background())
	serving := asUser(exec.CommandContext(ctx, server, "-D", data, "-k", dir, "-c", "listen_addresses=", "-c", "fsync=off"))
	serving.Cancel = func() error { return serving.Process.Signal(syscall.SIGINT) }
	serving.WaitDelay = 10 * time.Second
	if err := serving.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { stop(); _ = serving.Wait() })
	for begun := time.Now(); asUser(exec.Command(psql, "-c", "SELECT 1")).Run() != nil; time.Sleep(50 * time.Millisecond) {
		if time.Since(begun) > 30*time.Second {
			t.Fatal("the server does not answer")
		}
	}
	return func(script, query string) string {
		load := asUser(exec.Command(psql, "-q", "-v", "ON_ERROR_STOP=1"))
		load.Stdin = strings.NewReader(script)
		run(t, load)
		return run(t, asUser(exec.Command(psql, "--csv", "-t", "-c", query)))
	}
}

// asNobody hands dir to an ordinary user where the test runs as the
// administrator, whom the server refuses.
func asNobody(t *testing.T, dir string) *syscall.SysProcAttr {
	t.Helper()
	if os.Geteuid() != 0 {
		return nil
	}
	u, err := user.Lookup("nobody")
	if err != nil {
		missing(t, "there is no ordinary user to run PostgreSQL as")
	}
	uid, _ := strconv.Atoi(u.Uid)
	gid, _ := strconv.Atoi(u.Gid)
	if err := os.Chown(dir, uid, gid); err != nil {
		t.Fatal(err)
	}
	return &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}}
}

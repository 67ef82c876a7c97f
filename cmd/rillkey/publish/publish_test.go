package publish_test

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"rillkey/cmd/rillkey/publish"
	"rillkey/scoring"
	"rillkey/scoring/export"
	"rillkey/scoring/streamtest"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

var known = sync.OnceValue(func() export.Knowledge {
	catalog, err := taxa.Embedded()
	if err != nil {
		panic(err)
	}
	rules, err := scoring.EmbeddedRules(catalog)
	if err != nil {
		panic(err)
	}
	return export.Knowledge{Catalog: catalog, Rules: rules}
})

// county is a folder of visits, by the names of their files.
type county map[string]*visit.Visit

// invented is a county of so many sites and years.
func invented(sites, years int) county {
	out := county{}
	n := streamtest.Network{Sites: sites, Years: years, Seed: 5, Protocol: "riffle-three", Region: "north-america"}
	for v := range n.Visits() {
		out[v.File] = v
	}
	return out
}

func (c county) names() []string {
	var names []string
	for name := range c {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

func (c county) options(dir string) publish.Options {
	text := func(name string) ([]byte, error) {
		if c[name] == nil {
			return nil, fmt.Errorf("%s: unreadable", name)
		}
		return c[name].Encode(), nil
	}
	return publish.Options{
		Visits: publish.NamedVisits{Names: c.names(),
			Mark: func(name string) (string, error) {
				data, err := text(name)
				sum := sha256.Sum256(data)
				return hex.EncodeToString(sum[:]), err
			},
			Read: func(name string) (*visit.Visit, error) {
				data, err := text(name)
				if err != nil {
					return nil, err
				}
				return visit.Parse(name, data)
			},
		},
		Dir: dir, Memory: dir + ".memory", Title: "Streams of Alder County", Group: "County volunteers", Maker: "test",
		Today: time.Date(2026, 12, 31, 0, 0, 0, 0, time.UTC), Catalog: known().Catalog, Rules: known().Rules,
		Regional: func(visit.Header) export.Knowledge { return known() },
	}
}

func (c county) publish(t *testing.T, dir string) *publish.SiteSummary {
	t.Helper()
	return c.publishWith(t, c.options(dir))
}

// tree is every file of a site but its ledger.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasPrefix(path, ".rillkey") {
			return err
		}
		data, err := os.ReadFile(filepath.Join(dir, path))
		out[path] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// opened is every file of a site, and what is in its archives.
func opened(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := tree(t, dir)
	for path, data := range maps.Clone(out) {
		if !strings.HasSuffix(path, ".zip") {
			continue
		}
		z, err := zip.NewReader(strings.NewReader(data), int64(len(data)))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range z.File {
			text, err := fs.ReadFile(z, f.Name)
			if err != nil {
				t.Fatal(err)
			}
			out[path+"/"+f.Name] = string(text)
		}
	}
	return out
}

// differing are the names of files that are not the same in both.
func differing(a, b map[string]string) (out []string) {
	for name, text := range a {
		if other, there := b[name]; !there || other != text {
			out = append(out, name)
		}
	}
	for name := range b {
		if _, there := a[name]; !there {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return out
}

func firstHeading(page string) string {
	_, rest, _ := strings.Cut(page, "<h1>")
	words, _, _ := strings.Cut(rest, "</h1>")
	return words
}

func TestTheSameVisitsGiveTheSameBytes(t *testing.T) {
	dir := t.TempDir()
	c := invented(3, 2)
	c.publish(t, filepath.Join(dir, "a"))
	o := c.options(filepath.Join(dir, "b"))
	o.Today = o.Today.AddDate(1, 0, 0) // the day of publishing stands nowhere
	if _, err := publish.Make(o); err != nil {
		t.Fatal(err)
	}
	if out := differing(tree(t, filepath.Join(dir, "a")), tree(t, filepath.Join(dir, "b"))); len(out) > 0 {
		t.Errorf("not the same: %v", out)
	}
}

// A changed visit makes those pages anew that name it, and no other; what comes of
// that is what a site made from nothing is.
func TestAChangedVisitTouchesItsPagesAlone(t *testing.T) {
	dir := t.TempDir()
	c := invented(10, 2)
	at := filepath.Join(dir, "site")
	c.publish(t, at)
	before := tree(t, at)
	if r := c.publish(t, at); r.Written+r.Removed > 0 {
		t.Errorf("nothing changed, and %d files were written, %d removed", r.Written, r.Removed)
	}
	name := c.names()[0]
	v := c[name]
	site := v.Header.Site
	v.Events = slices.Insert(v.Events, len(v.Events)-1, visit.Event{ID: "later", Time: v.Header.Begun.Add(2 * time.Hour), Who: "Ada",
		Body: visit.Identification{Sample: "1", Taxon: "perlidae", Count: 3, Confidence: 1}})
	r := c.publish(t, at)
	now := tree(t, at)
	changed := differing(before, now)
	for _, file := range changed {
		switch dir := filepath.Dir(file); {
		case dir == "data/"+v.Header.Date[:4], dir == "data/darwin-core" && strings.HasSuffix(file, ".zip"),
			slices.Contains([]string{"index.html", "feed.atom", "animals/index.html"}, file), dir == "years",
			dir == "streams" && strings.HasPrefix(site, strings.TrimSuffix(firstHeading(now[file]), ",")), file == "sites/index.html":
		case dir == "sites" && strings.Contains(now[file], site+"</h1>"):
		default:
			t.Errorf("%s changed with a visit to %s", file, site)
		}
	}
	if len(changed) < 4 || r.Written < len(changed) || r.Written > 12 {
		t.Errorf("%d files changed, %d were written of %d", len(changed), r.Written, r.Files)
	}
	fresh := filepath.Join(dir, "fresh")
	c.publish(t, fresh)
	if out := differing(now, tree(t, fresh)); len(out) > 0 {
		t.Errorf("not as made from nothing: %v", out)
	}
}

// Whatever becomes of the visits, a site that is made fit is what one made from
// nothing is.
func TestASiteMadeFitIsOneMadeAnew(t *testing.T) {
	dir := t.TempDir()
	c := invented(4, 2)
	at := filepath.Join(dir, "site")
	c.publish(t, at)
	steps := []struct {
		name string
		do   func()
	}{
		{"a visit is gone", func() { delete(c, c.names()[2]) }},
		{"a site is gone", func() {
			site := c[c.names()[0]].Header.Site
			for name, v := range c {
				if v.Header.Site == site {
					delete(c, name)
				}
			}
		}},
		{"a site is obscured", func() { c[c.names()[1]].Header.Obscured = true }},
		{"a site is renamed", func() { c[c.names()[3]].Header.Site = "Fern Run" }},
		{"a visit is opened", func() { v := c[c.names()[0]]; v.Events = v.Events[:len(v.Events)-1] }},
	}
	for i, step := range steps {
		step.do()
		if testing.Short() && i < len(steps)-1 {
			continue // all that became of them meets the site at once
		}
		c.publish(t, at)
		fresh := filepath.Join(dir, fmt.Sprint("fresh", i))
		c.publish(t, fresh)
		if out := differing(tree(t, at), tree(t, fresh)); len(out) > 0 {
			t.Errorf("%s: not as made from nothing: %v", step.name, out)
		}
	}
}

// Of a year's tables a changed visit costs its week: what the rest of them is made of is taken
// from the files, unless somebody changed those.
func TestAChangedVisitCostsAWeekOfTheTables(t *testing.T) {
	if testing.Short() {
		t.Skip("it makes 24 sites three times")
	}
	dir := t.TempDir()
	c := invented(24, 1) // along three streams
	at := filepath.Join(dir, "site")
	c.publish(t, at)
	v := c[c.names()[0]]
	v.Events[1].Time = v.Events[1].Time.Add(time.Second)
	year := "data/" + v.Header.Date[:4]
	o := c.options(at)
	reads := map[string]int{}
	var lock sync.Mutex
	read := o.Visits.Read
	o.Visits.Read = func(name string) (*visit.Visit, error) {
		lock.Lock()
		defer lock.Unlock()
		reads[name]++
		return read(name)
	}
	c.publishWith(t, o)
	if len(reads) == 0 || len(reads) > 14 {
		t.Errorf("%d of %d visits were read", len(reads), len(c))
	}
	events := filepath.Join(at, year, "events.csv")
	if err := os.Remove(events); err != nil {
		t.Fatal(err)
	}
	v.Events[1].Time = v.Events[1].Time.Add(time.Second)
	c.publish(t, at)
	fresh := filepath.Join(dir, "fresh")
	c.publish(t, fresh)
	if out := differing(tree(t, at), tree(t, fresh)); len(out) > 0 {
		t.Errorf("not as made from nothing: %v", out)
	}
}

// A run that ends early is taken up by the next, whatever was written meanwhile.
func TestARunThatEndsEarlyIsTakenUp(t *testing.T) {
	dir := t.TempDir()
	c := invented(3, 2)
	at, fresh := filepath.Join(dir, "site"), filepath.Join(dir, "fresh")
	c.publish(t, fresh)
	c.publish(t, at)
	o := c.options(at)
	o.Title = "Another title"
	reads := 0
	var lock sync.Mutex
	read := o.Visits.Read
	o.Visits.Read = func(name string) (*visit.Visit, error) {
		lock.Lock()
		defer lock.Unlock()
		if reads++; reads > 2 {
			return nil, fmt.Errorf("the card is gone")
		}
		return read(name)
	}
	if _, err := publish.Make(o); err == nil || !strings.Contains(err.Error(), "the same command goes on") {
		t.Fatal(err)
	}
	c.publish(t, at)
	if out := differing(tree(t, at), tree(t, fresh)); len(out) > 0 {
		t.Errorf("not as made from nothing: %v", out)
	}
}

// A ledger that a crash left has entries of files that were or were not written.
func TestACrashLeavesNoFileToNobody(t *testing.T) {
	dir := t.TempDir()
	c := invented(2, 1)
	at := filepath.Join(dir, "site")
	c.publish(t, at)
	index := filepath.Join(at, "index.html")
	half := []byte("<!doctype html>written before the crash")
	if err := os.WriteFile(index, half, 0o644); err != nil {
		t.Fatal(err)
	}
	sum := sha256.Sum256(half)
	ledger := filepath.Join(at, ".rillkey-site")
	f, err := os.OpenFile(ledger, os.O_APPEND|os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	fmt.Fprintf(f, "\n{\"file\":\"index.html\",\"rests\":\"other\",\"sum\":%q,\"size\":%d,\"meant\":true}\n{\"file\":\"ind",
		hex.EncodeToString(sum[:]), len(half))
	f.Close()
	if r := c.publish(t, at); len(r.Left) > 0 || r.Written != 1 {
		t.Errorf("%+v", r)
	}
	if data, _ := os.ReadFile(index); bytes.Equal(data, half) {
		t.Error("the first page was not made anew")
	}
}

// A folder that somebody else prepared leads nowhere: no list is written through a link,
// nothing of a folder behind one is made or removed, and no pipe is waited for.
func TestAPreparedFolderLeadsNowhere(t *testing.T) {
	c := invented(2, 1)
	secret := []byte("alias ll=ls\n")
	t.Run("a link in the place of the list", func(t *testing.T) {
		at, own := filepath.Join(t.TempDir(), "site"), filepath.Join(t.TempDir(), ".bashrc")
		if err := errors.Join(os.Mkdir(at, 0o755), os.WriteFile(own, secret, 0o644),
			os.Symlink(own, filepath.Join(at, ".rillkey-site"))); err != nil {
			t.Fatal(err)
		}
		if _, err := publish.Make(c.options(at)); err == nil || !strings.Contains(err.Error(), ".rillkey-site") {
			t.Errorf("published: %v", err)
		}
		if data, err := os.ReadFile(own); !bytes.Equal(data, secret) {
			t.Errorf("the file behind the link holds %q (%v)", data, err)
		}
	})
	t.Run("a link in the place of a folder", func(t *testing.T) {
		at, home := filepath.Join(t.TempDir(), "site"), t.TempDir()
		sum := sha256.Sum256(secret)
		entry := fmt.Sprintf("{\"file\":\"sites/rc\",\"rests\":\"x\",\"sum\":%q,\"size\":1}\n", hex.EncodeToString(sum[:]))
		if err := errors.Join(os.Mkdir(at, 0o755), os.WriteFile(filepath.Join(home, "rc"), secret, 0o644),
			os.WriteFile(filepath.Join(at, ".rillkey-site"), []byte(entry), 0o644),
			os.Symlink(home, filepath.Join(at, "sites"))); err != nil {
			t.Fatal(err)
		}
		if r := c.publish(t, at); len(r.Left) < 3 {
			t.Errorf("left alone: %v", r.Left)
		}
		if there, _ := filepath.Glob(filepath.Join(home, "*")); len(there) != 1 || filepath.Base(there[0]) != "rc" {
			t.Errorf("behind the link there is %v", there)
		}
	})
}

// What the program did not make, or somebody changed, is neither replaced nor removed.
func TestWhatIsNotOursStays(t *testing.T) {
	dir := t.TempDir()
	c := invented(3, 1)
	at := filepath.Join(dir, "site")
	own := filepath.Join(at, "index.html")
	if err := os.MkdirAll(filepath.Join(at, "sites"), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{own, filepath.Join(at, "sites", "about-us.html"), filepath.Join(at, "CNAME")} {
		if err := os.WriteFile(file, []byte("ours"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if r := c.publish(t, at); !slices.Equal(r.Left, []string{"index.html"}) {
		t.Errorf("left: %v", r.Left)
	}
	var page string
	for file, text := range tree(t, at) {
		if strings.HasPrefix(file, "sites/") && strings.Contains(text, c[c.names()[0]].Header.Site+"</h1>") {
			page = filepath.Join(at, file)
		}
	}
	if err := os.WriteFile(page, []byte("edited"), 0o644); err != nil {
		t.Fatal(err)
	}
	delete(c, c.names()[0]) // its page would go
	r := c.publish(t, at)
	for _, want := range []struct{ file, text string }{{own, "ours"}, {page, "edited"},
		{filepath.Join(at, "sites", "about-us.html"), "ours"}, {filepath.Join(at, "CNAME"), "ours"}} {
		if data, err := os.ReadFile(want.file); string(data) != want.text {
			t.Errorf("%s holds %.20q (%v)", want.file, data, err)
		}
	}
	if len(r.Left) != 2 {
		t.Errorf("left: %v", r.Left)
	}
	other := filepath.Join(dir, "other.memory")
	if err := os.WriteFile(other, []byte("a diary"), 0o644); err != nil {
		t.Fatal(err)
	}
	o := c.options(filepath.Join(dir, "other"))
	if _, err := publish.Make(o); err == nil {
		t.Error("a file that is no memory was taken for one")
	}
	if data, _ := os.ReadFile(other); string(data) != "a diary" {
		t.Error("it was replaced")
	}
}

// A visit that cannot be read now may be there again tomorrow: no page is removed.
func TestNothingIsRemovedWhereAVisitCannotBeRead(t *testing.T) {
	dir := t.TempDir()
	c := invented(2, 1)
	at := filepath.Join(dir, "site")
	c.publish(t, at)
	c[c.names()[0]] = nil
	if r := c.publish(t, at); r.Removed > 0 || len(r.Problems) != 1 {
		t.Errorf("%+v", r)
	}
}

func (c county) publishWith(t *testing.T, o publish.Options) *publish.SiteSummary {
	t.Helper()
	r, err := publish.Make(o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// What another program made, or this one with other data, has another maker.
func TestAnotherProgramOrOtherDataIsAnotherMaker(t *testing.T) {
	one := publish.Maker([]byte("program"), []string{"a", "bc"})
	if one != publish.Maker([]byte("program"), []string{"a", "bc"}) {
		t.Error("the same maker is another")
	}
	for why, other := range map[string]string{
		"another program":  publish.Maker([]byte("Program"), []string{"a", "bc"}),
		"other data":       publish.Maker([]byte("program"), []string{"a", "bd"}),
		"parted elsewhere": publish.Maker([]byte("program"), []string{"ab", "c"}),
		"less data":        publish.Maker([]byte("program"), []string{"a"}),
	} {
		if other == one {
			t.Errorf("%s: the same maker", why)
		}
	}
}

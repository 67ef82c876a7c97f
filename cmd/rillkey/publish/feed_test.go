package publish_test

import (
	"encoding/xml"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"rillkey/scoring/export/exporttest"
)

// The feed holds to the schema of RFC 4287, has each visit once under a name for good,
// and leads to pages that are there.
func TestTheFeedIsOneAsTheStandardHasIt(t *testing.T) {
	dir := t.TempDir()
	c := invented(4, 2)
	c[c.names()[0]].Header.Site = `Fern & "Moss" <Run>`
	o := c.options(filepath.Join(dir, "site"))
	o.Address = "https://streams.example.org/county/"
	c.publishWith(t, o)
	var feed struct {
		XMLName xml.Name `xml:"http://www.w3.org/2005/Atom feed"`
		Links   []struct {
			Rel  string `xml:"rel,attr"`
			Href string `xml:"href,attr"`
		} `xml:"link"`
		Updated string `xml:"updated"`
		Entries []struct {
			ID   string `xml:"id"`
			Link struct {
				Href string `xml:"href,attr"`
			} `xml:"link"`
			Updated string `xml:"updated"`
		} `xml:"entry"`
	}
	file := filepath.Join(o.Dir, "feed.atom")
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := xml.Unmarshal(data, &feed); err != nil {
		t.Fatal(err)
	}
	ids := map[string]bool{}
	for _, e := range feed.Entries {
		ids[e.ID] = true
		page, ours := strings.CutPrefix(e.Link.Href, o.Address)
		if _, err := os.Stat(filepath.Join(o.Dir, page)); !ours || err != nil {
			t.Errorf("an entry leads to %s (%v)", e.Link.Href, err)
		}
		if e.Updated > feed.Updated {
			t.Errorf("an entry is newer (%s) than its feed (%s)", e.Updated, feed.Updated)
		}
	}
	if len(ids) != 8 || feed.Links[0].Rel != "self" || feed.Links[0].Href != o.Address+"feed.atom" {
		t.Errorf("%d entries of 8, links %v", len(ids), feed.Links)
	}
	lint := exporttest.FindProgram(t, "xmllint")
	exporttest.Run(t, exec.Command(lint, "--noout", "--relaxng", "testdata/atom.rng", file))
	bad := filepath.Join(dir, "bad.atom")
	if err := os.WriteFile(bad, []byte(strings.Replace(string(data), "<updated>", "<updated>on ", 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := exec.Command(lint, "--noout", "--relaxng", "testdata/atom.rng", bad).Run(); err == nil {
		t.Error("the schema finds nothing wrong with a feed that is wrong")
	}
}

package folder_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rillkey/taxa/folder"
)

// write makes a folder of files.
func write(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// zipped makes a ZIP file with the entries in this order.
func zipped(t *testing.T, entries ...zip.FileHeader) string {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, e := range entries {
		w, err := z.CreateHeader(&e)
		if err == nil && !strings.HasSuffix(e.Name, "/") {
			_, err = w.Write([]byte(strings.Repeat(" ", int(max(1, e.UncompressedSize64)))))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "r.zip")
	if err := os.WriteFile(path, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

func named(name string) zip.FileHeader { return zip.FileHeader{Name: name, Method: zip.Deflate} }

func TestOnlyWhatBelongsToARegionIsSeen(t *testing.T) {
	dir := write(t, map[string]string{"region.toml": "a", "key.toml": "b", "taxa/traits.toml": "c", "README.md": "d",
		"2026-05-01-brook.visit.toml": "e", "taxa/deep/x.toml": "f", "notes.ods": "g"})
	f, err := folder.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	if got := fmt.Sprint(f.Names()); got != "[README.md key.toml region.toml taxa/traits.toml]" {
		t.Error(got)
	}
	if !f.Has("taxa") || f.Has("schemes") || f.Has("tax") {
		t.Error("Has is wrong")
	}
}

func TestThePackedRegionIsTheRegion(t *testing.T) {
	files := map[string]string{"region.toml": "a\nb", "taxa/traits.toml": "c"}
	one, err := folder.Open(write(t, files))
	if err != nil {
		t.Fatal(err)
	}
	var first, again bytes.Buffer
	if err := one.Pack(&first); err != nil {
		t.Fatal(err)
	}
	files["region.toml"] = "a\r\nb" // as another system writes it
	other, err := folder.Open(write(t, files))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "r.zip")
	if err := os.WriteFile(path, first.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	packed, err := folder.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := packed.Pack(&again); err != nil || !bytes.Equal(first.Bytes(), again.Bytes()) {
		t.Errorf("packed twice it is not the same: %v", err)
	}
	want, err := one.Fingerprint()
	if err != nil || len(want) != 12 {
		t.Fatal(want, err)
	}
	for _, f := range []*folder.Folder{packed, other} {
		if got, err := f.Fingerprint(); got != want || err != nil {
			t.Errorf("%s: fingerprint %s, want %s (%v)", f.Shown, got, want, err)
		}
	}
	files["region.toml"] = "a b"
	changed, err := folder.Open(write(t, files))
	if err != nil {
		t.Fatal(err)
	}
	if got, _ := changed.Fingerprint(); got == want {
		t.Error("another text has the same fingerprint")
	}
	marks := map[string]string{}
	for why, all := range map[string][]*folder.Folder{"none": nil, "one": {one},
		"two": {one, changed}, "in another order": {changed, one}} {
		mark, err := folder.Fingerprints(all)
		if err != nil || len(mark) != 12 || marks[mark] != "" {
			t.Errorf("%s: %s, %v, as %s", why, mark, err, marks[mark])
		}
		marks[mark] = why
	}
	same, err := folder.Fingerprints([]*folder.Folder{packed, changed})
	if err != nil || marks[same] != "two" {
		t.Errorf("the same files have another fingerprint: %v", err)
	}
}

func TestWhatStrangersPackIsBounded(t *testing.T) {
	link := named("taxa/traits.toml")
	link.SetMode(os.ModeSymlink | 0o777)
	large := named("key.toml")
	large.UncompressedSize64 = 17 << 20
	many := []zip.FileHeader{named("region.toml")}
	for i := range folder.MaxFiles {
		many = append(many, named(fmt.Sprintf("taxa/t%d.toml", i)))
	}
	for _, row := range []struct {
		why     string
		entries []zip.FileHeader
		want    string // empty where it is sound
	}{
		{"a folder around it", []zip.FileHeader{named("brook/"), named("brook/region.toml")}, ""},
		{"a path upwards", []zip.FileHeader{named("region.toml"), named("../evil.toml")}, `leads out of the folder: "../evil.toml"`},
		{"a path from the root", []zip.FileHeader{named("region.toml"), named("/etc/evil.toml")}, "leads out of the folder"},
		{"a path of Windows", []zip.FileHeader{named("region.toml"), named(`taxa\..\..\evil.toml`)}, "leads out of the folder"},
		{"a link", []zip.FileHeader{named("region.toml"), link}, `a link or the like: "taxa/traits.toml"`},
		{"two regions", []zip.FileHeader{named("a/region.toml"), named("b/region.toml")}, `more than one region: "a", "b"`},
		{"a region and copies of it", []zip.FileHeader{named("region.toml"), named("old/region.toml")}, ""},
		{"a region two folders deep", []zip.FileHeader{named("a/b/region.toml")}, `too deep, in "a/b"`},
		{"what another system adds", []zip.FileHeader{named("__MACOSX/region.toml"), named("brook/region.toml")}, ""},
		{"a file twice", []zip.FileHeader{named("region.toml"), named("key.toml"), named("key.toml")}, `it holds "key.toml" twice`},
		{"no region", []zip.FileHeader{named("key.toml")}, "it holds no region.toml"},
		{"little that unpacks to much", []zip.FileHeader{named("region.toml"), large}, "too large for a region: a file has at most 16 MB"},
		{"too many files", many, "a region has at most 500 files, this has 501"},
	} {
		t.Run(row.why, func(t *testing.T) {
			f, err := folder.Open(zipped(t, row.entries...))
			switch {
			case row.want == "" && (err != nil || !f.Has(folder.HeadFile)):
				t.Error(err)
			case row.want != "" && (err == nil || !strings.Contains(err.Error(), row.want)):
				t.Errorf("%v, want %q", err, row.want)
			}
		})
	}
}

func TestLinksAreNotFollowed(t *testing.T) {
	secret := write(t, map[string]string{"traits.toml": "secret"})
	for _, row := range []struct{ link, to string }{
		{"taxa", secret}, {"key.toml", filepath.Join(secret, "traits.toml")},
	} {
		dir := write(t, map[string]string{"region.toml": ""})
		if err := os.Symlink(row.to, filepath.Join(dir, row.link)); err != nil {
			t.Skip("no links here: ", err)
		}
		if _, err := folder.Open(dir); err == nil || !strings.Contains(err.Error(), "this is a link") {
			t.Errorf("%s: %v", row.link, err)
		}
	}
}

// Whatever the bytes: an error or a region, never a panic, never a name outside it.
func FuzzOpenZip(f *testing.F) {
	f.Add([]byte("PK\x05\x06"))
	f.Fuzz(func(t *testing.T, data []byte) {
		path := filepath.Join(t.TempDir(), "r.zip")
		if err := os.WriteFile(path, data, 0o666); err != nil {
			t.Fatal(err)
		}
		r, err := folder.Open(path)
		if err != nil {
			return
		}
		for _, name := range r.Names() {
			if strings.Contains(name, "..") || strings.HasPrefix(name, "/") {
				t.Fatalf("%q leads outside", name)
			}
		}
		_ = r.Each(func(string, []byte) error { return nil })
	})
}

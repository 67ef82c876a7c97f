package visit

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// A visit in memory is the one that the same events make in a file.
func TestAVisitInMemoryIsTheOneInAFile(t *testing.T) {
	header := Header{Site: "Mill Brook", Date: "2026-05-16", Begun: noon}
	path := filepath.Join(t.TempDir(), "a.toml")
	if _, err := Create(path, header, rand.NewChaCha8([32]byte{1})); err != nil {
		t.Fatal(err)
	}
	v, err := Begin(header, rand.NewChaCha8([32]byte{1}))
	if err != nil {
		t.Fatal(err)
	}
	file, memory := rand.NewChaCha8([32]byte{2}), rand.NewChaCha8([32]byte{2})
	for i, body := range []Body{
		Sample{Label: "1", Habitat: "riffle"},
		Identification{Sample: "1", Taxon: "baetidae", Count: 4, Also: []Chance{{"b", 0.1}, {"a", 0.2}}},
		Finish{},
	} {
		at := noon.Add(time.Duration(i) * time.Minute)
		if _, err := Append(path, at, "Ada", body, file); err != nil {
			t.Fatal(err)
		}
		if _, err := v.Add(at, "Ada", body, memory); err != nil {
			t.Fatal(err)
		}
	}
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(v.Encode()) != string(raw) {
		t.Errorf("in memory:\n%s\nin the file:\n%s", v.Encode(), raw)
	}
}

func TestAddRefusesWhatAppendRefuses(t *testing.T) {
	v, err := Begin(Header{Site: "Mill Brook", Date: "2026-05-16", Begun: noon}, rand.NewChaCha8([32]byte{1}))
	if err != nil {
		t.Fatal(err)
	}
	before := string(v.Encode())
	for _, body := range []Body{Identification{Sample: "1", Taxon: "baetidae", Count: 1}, Sample{}, Identification{Sample: "1"}} {
		if _, err := v.Add(noon, "Ada", body, rand.NewChaCha8([32]byte{2})); err == nil {
			t.Errorf("%+v was taken", body)
		}
	}
	if string(v.Encode()) != before {
		t.Error("what was refused changed the visit")
	}
}

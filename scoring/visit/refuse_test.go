package visit

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func TestRefusedEvents(t *testing.T) {
	path := begin(t)
	a := add(t, path)
	sample := a.add(Sample{Label: "A1", Habitat: "riffle", Area: 0.37}).ID
	id := a.add(Identification{Sample: "A1", Taxon: "perlidae", Count: 2}).ID
	gone := a.add(Identification{Sample: "A1", Taxon: "perlidae", Count: 2}).ID
	a.add(Amendment{Entry: gone, Reason: "counted twice", Withdrawn: true})
	before, _ := os.ReadFile(path)

	one := func(change func(*Identification)) Body {
		d := Identification{Sample: "A1", Taxon: "perlidae", Count: 1}
		change(&d)
		return d
	}
	amend := func(of string, ch Change) Body { return Amendment{Entry: of, Reason: "r", Change: ch} }
	long := strings.Repeat("x", maxText+1)
	tests := []struct {
		label string
		body  Body
		says  string
	}{
		{"no animal", one(func(d *Identification) { d.Count = 0 }), "count must be from 1 to 1,000,000, not 0"},
		{"fewer than none", one(func(d *Identification) { d.Count = -3 }), "not -3"},
		{"more than any stream holds", one(func(d *Identification) { d.Count = 1_000_000_000_000 }), "not 1000000000000"},
		{"a sample nobody took", one(func(d *Identification) { d.Sample = "B7" }), `there is no sample "B7"`},
		{"no name", one(func(d *Identification) { d.Taxon = "" }), "taxon is missing"},
		{"a name that is no id", one(func(d *Identification) { d.Taxon = "Perlidae sp." }), "not an id"},
		{"confidence above 1", one(func(d *Identification) { d.Confidence = 1.01 }), "confidence must be from 0 to 1"},
		{"confidence below 0", one(func(d *Identification) { d.Confidence = -0.01 }), "confidence"},
		{"confidence that is no number", one(func(d *Identification) { d.Confidence = math.NaN() }), "confidence"},
		{"endless length", one(func(d *Identification) { d.Length = math.Inf(1) }), "length must be from 0.01 to 1,000 mm"},
		{"probability that is no number", one(func(d *Identification) { d.Also = []Chance{{"baetidae", math.NaN()}} }), "probability"},
		{"a taxon twice", one(func(d *Identification) { d.Also = []Chance{{"a", 0.1}, {"a", 0.2}} }), "twice"},
		{"an escape sequence", one(func(d *Identification) { d.Note = "\x1b[31mred" }), "control character"},
		{"a line break", one(func(d *Identification) { d.Cell = "B\n3" }), "control character"},
		{"reversed writing", one(func(d *Identification) { d.Path = []string{"1\u202ea"} }), "control character"},
		{"bytes that are no text", one(func(d *Identification) { d.Note = "\xff" }), "UTF-8"},
		{"a novel", one(func(d *Identification) { d.Note = long }), "longer than 2000"},
		{"too long a list", one(func(d *Identification) { d.Path = make([]string, MaxList+1) }), "at most 200"},
		{"label doubled in another case", Sample{Label: "a1", Habitat: "riffle"}, `sample "A1" already`},
		{"label with a blank", Sample{Label: "A 1", Habitat: "riffle"}, "not a label"},
		{"no habitat", Sample{Label: "B", Habitat: ""}, "habitat"},
		{"more than all of it sorted", Sample{Label: "B", Habitat: "riffle", Fraction: 1.5}, "fraction must be from 0.0001 to 1"},
		{"a state that nobody can say", Sample{Label: "B", Habitat: "riffle", Said: BeingSorted},
			`it can be "not yet sorted", "sorted" or "empty"`},
		{"empty, but for the animals in it", amend(sample, Change{Said: ptr(Empty)}), "holds animals, so it is not empty"},
		{"the sorting of an animal", amend(id, Change{Said: ptr(Sorted)}), "has no habitat, area"},
		{"area below 0", Sample{Label: "B", Habitat: "riffle", Area: -1}, "area must be from 0.0001 to 10,000 square metres"},
		{"an area of nothing", Sample{Label: "B", Habitat: "riffle", Area: 1e-300}, "area must be from"},
		{"a joiner where none is needed", one(func(d *Identification) { d.Note = "Bro\u200dok" }), "control character"},
		{"letters that nobody sees", one(func(d *Identification) { d.Note = "a\u200bb" }), "control character"},
		{"a tag", one(func(d *Identification) { d.Note = "a\U000e0041" }), "control character"},
		{"a note between lines", one(func(d *Identification) { d.Note = "a\ufff9b" }), "control character"},
		{"amended nothing", amend(id, Change{}), "changes nothing"},
		{"amended what is not there", amend("nobody", Change{Count: ptr(1)}), `"nobody"`},
		{"amended what was withdrawn", amend(gone, Change{Count: ptr(1)}), "withdrawn before"},
		{"amended to a count of 0", amend(id, Change{Count: ptr(0)}), "not 0"},
		{"amended to no name", amend(id, Change{Taxon: ptr("")}), "taxon is missing"},
		{"amended to a sample nobody took", amend(id, Change{Sample: ptr("Z")}), `no sample "Z"`},
		{"the area of an animal", amend(id, Change{Area: ptr(1.0)}), "has no habitat, area"},
		{"the count of a sample", amend(sample, Change{Count: ptr(1)}), "only its habitat"},
		{"both kinds of change", amend(id, Change{Count: ptr(1), Area: ptr(1.0)}), "one of them at a time"},
		{"amended without a reason", Amendment{Entry: id, Withdrawn: true}, "reason is missing"},
		{"withdrawn and changed", Amendment{Entry: id, Reason: "r", Withdrawn: true, Change: Change{Count: ptr(1)}}, "not both"},
		{"looked at what was withdrawn", SecondLook{Entry: gone, Taxon: "perlidae"}, "no identification"},
		{"looked at a sample", SecondLook{Entry: sample, Taxon: "perlidae"}, "no identification"},
		{"nothing at all", nil, "cannot be recorded"},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			_, err := Append(path, noon, "Ada", tt.body, someRandom())
			if err == nil || !strings.Contains(err.Error(), tt.says) || strings.Contains(err.Error(), "\n") {
				t.Errorf("got %v, want one line with %q", err, tt.says)
			}
			if after, _ := os.ReadFile(path); string(after) != string(before) {
				t.Error("the file changed")
			}
		})
	}
	t.Run("a second look by nobody", func(t *testing.T) {
		if _, err := Append(path, noon, "", SecondLook{Entry: id, Taxon: "perlidae"}, someRandom()); err == nil {
			t.Error("saved")
		}
	})
	t.Run("no time", func(t *testing.T) {
		if _, err := Append(path, time.Time{}, "Ada", one(func(*Identification) {}), someRandom()); err == nil {
			t.Error("saved")
		}
	})
}

func TestRefusedHeaders(t *testing.T) {
	good := Header{Site: "Otter Run", Date: "2024-02-29", Begun: noon}
	tests := []struct {
		label  string
		change func(*Header)
		says   string
	}{
		{"a day that does not exist", func(h *Header) { h.Date = "2023-02-29" }, `"2023-02-29" does not exist`},
		{"another order", func(h *Header) { h.Date = "31.05.2024" }, "does not exist"},
		{"no date", func(h *Header) { h.Date = "" }, "does not exist"},
		{"no site", func(h *Header) { h.Site = " " }, "site is missing"},
		{"an escape sequence", func(h *Header) { h.Site = "\x1b]0;x\a" }, "control character"},
		{"a nameless person", func(h *Header) { h.People = []string{""} }, "people is missing"},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "v.toml")
			h := good
			tt.change(&h)
			_, err := Create(path, h, someRandom())
			if err == nil || !strings.Contains(err.Error(), tt.says) {
				t.Errorf("got %v, want %q", err, tt.says)
			}
			if left, _ := os.ReadDir(filepath.Dir(path)); len(left) != 0 {
				t.Errorf("left behind: %v", left)
			}
		})
	}
	path := filepath.Join(t.TempDir(), "v.toml")
	if _, err := Create(path, good, someRandom()); err != nil {
		t.Errorf("a leap day was refused: %v", err)
	}
}

func TestCreateNeverOverwrites(t *testing.T) {
	path := begin(t)
	before, _ := os.ReadFile(path)
	_, err := Create(path, Header{Site: "Other", Date: "2024-06-01", Begun: noon}, someRandom())
	if err == nil || !strings.Contains(err.Error(), "exists already") {
		t.Errorf("got %v", err)
	}
	if after, _ := os.ReadFile(path); string(after) != string(before) {
		t.Error("the file changed")
	}
	if left, _ := os.ReadDir(filepath.Dir(path)); len(left) != 1 {
		t.Errorf("left behind: %v", left)
	}
}

func TestFolderThatCannotBeWritten(t *testing.T) {
	h := Header{Site: "Otter Run", Date: "2024-05-31", Begun: noon}
	if _, err := Create(filepath.Join(t.TempDir(), "nowhere", "v.toml"), h, someRandom()); err == nil ||
		!strings.Contains(err.Error(), "folder does not exist") {
		t.Errorf("missing folder: %v", err)
	}
	if os.Geteuid() == 0 {
		t.Skip("the administrator may write everywhere")
	}
	dir := t.TempDir()
	if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	if _, err := Create(filepath.Join(dir, "v.toml"), h, someRandom()); err == nil || !strings.Contains(err.Error(), "no permission") {
		t.Errorf("read-only folder: %v", err)
	}
}

package described_test

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/key/keytest"
	"rillkey/key/trial/described"
)

const animals = "../../../testdata/described"

// The accounts were written as 35 full, 20 partial ones and so on; ids run from
// d001 to d110.
func TestTheDescribedAnimalsAreReadWhole(t *testing.T) {
	all, err := described.Load(os.DirFS(animals), animals, keytest.Catalog(t))
	if err != nil {
		t.Fatal(err)
	}
	count := map[described.AccountKind]int{}
	for i, a := range all {
		count[a.Kind]++
		if len(a.Striking) != 2 || a.Reader < 1 || a.Reader > 3 {
			t.Errorf("%s: striking %v, reader %d", a.ID, a.Striking, a.Reader)
		}
		if odd := i%2 == 0; a.Odd() != odd {
			t.Errorf("%s stands at place %d", a.ID, i+1)
		}
	}
	for kind, n := range map[described.AccountKind]int{
		described.FullAccount: 35, described.PartialAccount: 20, described.ChildAccount: 10,
		described.DamagedAccount: 8, described.YoungAccount: 10,
		described.ShutAccount: 8, described.OutsideAccount: 9, described.MisreadAccount: 10,
	} {
		if count[kind] != n {
			t.Errorf("%d %s accounts, not %d", count[kind], kind, n)
		}
	}
}

const good = `[animal.a1]
taxon = ["leuctridae", "capniidae"]
region = "both"
kind = "full"
words = """Slim,
two tails."""
reader = 2
striking = ["tails"]
length_mm = [7, 8]
hidden = ["gills"]
unsaid = ["pretty"]
[animal.a1.shows]
tails = "2"
outline = ["long", "thread"]
`

func TestAnAnimal(t *testing.T) {
	all, err := described.Load(fstest.MapFS{"a.toml": {Data: []byte(good)}}, "d", keytest.Catalog(t))
	if err != nil {
		t.Fatal(err)
	}
	a := all[0]
	if a.Words != "Slim, two tails." || len(a.Taxa) != 2 || a.Length.Max != 8 ||
		len(a.States("outline")) != 2 || a.States("gills") != nil || !a.Odd() {
		t.Errorf("%+v", a)
	}
}

func TestWhatIsWrongIsToldAtItsPlace(t *testing.T) {
	for _, row := range []struct{ why, old, new, want string }{
		{"an unknown taxon", `["leuctridae", "capniidae"]`, `"leuctrida"`, "d/a.toml:2:9: unknown-taxon:"},
		{"an unknown state", `tails = "2"`, `tails = "5"`, "d/a.toml:13:1: unknown-state:"},
		{"an unknown trait", `tails = "2"`, `tales = "2"`, "d/a.toml:13:1: unknown-state:"},
		{"an unknown kind", `"full"`, `"fool"`, "d/a.toml:4:8: unknown-kind:"},
		{"an unknown field", `reader = 2`, `raeder = 2`, "d/a.toml:7:1: unknown-field:"},
		{"a length turned round", `[7, 8]`, `[8, 7]`, "d/a.toml:9:13: bad-length:"},
		{"striking and not shown", `["tails"]`, `["legs"]`, "d/a.toml:8:13: not-shown:"},
		{"an unknown hidden trait", `["gills"]`, `["gilles"]`, "d/a.toml:10:11: unknown-trait:"},
		{"misread, and nothing says what", `"full"`, `"misread"`, "d/a.toml:1:1: missing-field:"},
		{"an id without a number", `[animal.a1]`, `[animal.a]`, "bad-id:"},
	} {
		text := strings.Replace(good, row.old, row.new, 1)
		_, err := described.Load(fstest.MapFS{"a.toml": {Data: []byte(text)}}, "d", keytest.Catalog(t))
		if err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%s: %v, want %s", row.why, err, row.want)
		}
	}
	twice := fstest.MapFS{"a.toml": {Data: []byte(good)}, "b.toml": {Data: []byte(good)}}
	_, err := described.Load(twice, "d", keytest.Catalog(t))
	if err == nil || !strings.Contains(err.Error(), "d/b.toml:1:1: doubled-animal:") {
		t.Errorf("an animal twice: %v", err)
	}
	_, err = described.Load(fstest.MapFS{}, "d", keytest.Catalog(t))
	if err == nil || !strings.Contains(err.Error(), "holds no described animals") {
		t.Errorf("an empty folder: %v", err)
	}
}

// Whatever the text, it is read or refused, and what is read names only what the
// catalog has.
func FuzzLoad(f *testing.F) {
	f.Add(good)
	f.Add("[animal]\na1 = 1\n")
	catalog := keytest.Catalog(f)
	f.Fuzz(func(t *testing.T, text string) {
		all, err := described.Load(fstest.MapFS{"a.toml": {Data: []byte(text)}}, "d", catalog)
		if err != nil {
			return
		}
		for _, a := range all {
			for _, s := range a.Shows {
				if problem, _ := catalog.Vocabulary().Unknown(s.Trait, s.States...); problem != "" {
					t.Error(problem)
				}
			}
		}
	})
}

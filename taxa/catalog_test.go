package taxa_test

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"rillkey/taxa"
	"rillkey/taxa/plain"
)

const traits = `[trait.tails]
question = "How many tails?"
look = "eye"
misread = 0.1
source = "memory"
[trait.tails.state.none]
label = "no tails"
[trait.tails.state.2]
label = "two tails"
[trait.tails.state.3]
label = "three tails"
mistaken_for = ["2"]
lost_as = ["2"]
[trait.claws]
question = "How many claws on each leg?"
look = "lens"
misread = 0.15
source = "memory"
[trait.claws.state.1]
label = "one claw"
[trait.claws.state.2]
label = "two claws"
`

const animals = `[taxon.insecta]
rank = "class"
scientific = "Insecta"
source = "memory"
[taxon.ephemeroptera]
rank = "order"
scientific = "Ephemeroptera"
parent = "insecta"
common = ["mayfly"]
class = "sensitive"
class_source = "memory"
source = "memory"
handling = "Gentle."
[taxon.ephemeroptera.traits]
tails = ["2", "3"]
claws = "1"
[taxon.isonychiidae]
rank = "family"
scientific = "Isonychiidae"
synonyms = ["Oligoneuriidae"]
parent = "ephemeroptera"
common = ["brush-legged mayfly"]
length_mm = [8, 18]
source = "memory"
[taxon.isonychiidae.traits]
tails = { 3 = 0.9, 2 = 0.1 }
claws = "?"
[taxon.isonychiidae.mistaken.plecoptera]
tell = "Count the claws."
[taxon.plecoptera]
rank = "order"
scientific = "Plecoptera"
parent = "insecta"
common = ["stonefly", "stonefly nymph"]
class = "sensitive"
class_source = "memory"
source = "memory"
[taxon.plecoptera.traits]
tails = "2"
claws = "2"
[taxon.corydalus]
rank = "genus"
scientific = "Corydalus"
parent = "insecta"
common = ["hellgrammite"]
class = "somewhat sensitive"
class_source = "memory"
source = "memory"
[taxon.corydalus.traits]
tails = "none"
`

func load(traits, animals string) (*taxa.Catalog, error) {
	return taxa.Load(fstest.MapFS{"traits.toml": {Data: []byte(traits)}, "animals.toml": {Data: []byte(animals)}}, "mine")
}

func good(t testing.TB) *taxa.Catalog {
	t.Helper()
	c, err := load(traits, animals)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestWhatATaxonInherits(t *testing.T) {
	c := good(t)
	iso := c.Taxon("isonychiidae")
	for _, row := range []struct{ what, got, want string }{
		{"own weights", fmt.Sprint(iso.States("tails")), "[{3 0.9} {2 0.1}]"},
		{"equal shares where none are given", fmt.Sprint(c.Taxon("ephemeroptera").States("tails")), "[{2 0.5} {3 0.5}]"},
		{"unknown in spite of the parent", fmt.Sprint(iso.States("claws")), "[]"},
		{"never stated", fmt.Sprint(c.Taxon("corydalus").States("claws")), "[]"},
		{"class of the order", string(iso.Class), "sensitive"},
		{"caution of the order", iso.Handling, "Gentle."},
		{"lineage", c.Lineage("isonychiidae"), "Insecta > Ephemeroptera > Isonychiidae"},
		{"cover of a family and its order", c.Cover([]string{"isonychiidae", "ephemeroptera"}).ID, "ephemeroptera"},
		{"cover of two orders", c.Cover([]string{"isonychiidae", "plecoptera"}).ID, "insecta"},
		{"class that two orders share", string(c.CommonClass([]string{"isonychiidae", "plecoptera"})), "sensitive"},
		{"no class where they differ", string(c.CommonClass([]string{"isonychiidae", "corydalus"})), ""},
	} {
		if row.got != row.want {
			t.Errorf("%s: %s, want %s", row.what, row.got, row.want)
		}
	}
	if iso.States("claws") != nil {
		t.Error("an unknown trait must have no states at all")
	}
	if c.Cover([]string{"nosuch"}) != nil || c.Cover(nil) != nil {
		t.Error("a cover of nothing")
	}
	apart := c.TellApart(c.Taxon("corydalus"), c.Taxon("plecoptera"))
	if len(apart) != 1 || apart[0].ID != "tails" {
		t.Errorf("what is unknown must not tell taxa apart: %v", apart)
	}
}

func TestEachFaultIsFoundAtItsPlace(t *testing.T) {
	for _, row := range []struct{ why, old, new, want string }{
		{"unknown parent", `parent = "ephemeroptera"`, `parent = "ephemeropteran"`,
			`mine/animals.toml:21:10: unknown-taxon: there is no taxon "ephemeropteran" (did you mean "ephemeroptera"?)`},
		{"own ancestor", "scientific = \"Insecta\"\n", "scientific = \"Insecta\"\nparent = \"isonychiidae\"\n",
			"mine/animals.toml:4:10: parent-cycle:"},
		{"unknown rank", `rank = "family"`, `rank = "tribe"`, "mine/animals.toml:18:8: unknown-rank:"},
		{"unknown class", `class = "somewhat sensitive"`, `class = "so-so"`, "mine/animals.toml:46:9: unknown-class:"},
		{"class without a source", "class_source = \"memory\"\nsource = \"memory\"\nhandling",
			"source = \"memory\"\nhandling", "mine/animals.toml:5:1: missing-field: \"class_source\""},
		{"no source", "scientific = \"Insecta\"\nsource = \"memory\"", "scientific = \"Insecta\"",
			"mine/animals.toml:1:1: missing-field: \"source\""},
		{"unknown trait", "claws = \"?\"", "claw = \"1\"", "mine/animals.toml:27:1: unknown-trait:"},
		{"a mark that is no trait", "length_mm = [8, 18]", "length_mm = [8, 18]\nmarks = [\"tail\"]",
			"mine/animals.toml:24:10: unknown-trait:"},
		{"unknown state", "tails = \"2\"\nclaws", "tails = \"4\"\nclaws", "mine/animals.toml:39:9: unknown-state:"},
		{"shares that do not sum to one", "2 = 0.1", "2 = 0.3", "mine/animals.toml:26:1: bad-share:"},
		{"length upside down", "[8, 18]", "[18, 8]", "mine/animals.toml:23:13: bad-length:"},
		{"length with one end", "[8, 18]", "[8]", "mine/animals.toml:23:13: bad-length:"},
		{"mistaken for a taxon that is not there", "mistaken.plecoptera", "mistaken.plecopter", "mine/animals.toml:28:1: unknown-taxon:"},
		{"unknown field", "synonyms", "synonym", "mine/animals.toml:20:1: unknown-field:"},
		{"doubled taxon", "[taxon.corydalus]", "[taxon.plecoptera]", "mine/animals.toml:41:1: syntax:"},
		{"terminal escape in a name", `"hellgrammite"`, `"hell\u001b[2Jgrammite"`, "mine/animals.toml:45:11: control-character:"},
	} {
		t.Run(row.why, func(t *testing.T) {
			changed := strings.Replace(animals, row.old, row.new, 1)
			if changed == animals {
				t.Fatalf("%q is not there", row.old)
			}
			_, err := load(traits, changed)
			if err == nil || !hasLine(err.Error(), row.want) {
				t.Errorf("got\n%v\nwant\n%s", err, row.want)
			}
		})
	}
	for _, row := range []struct{ why, old, new, want string }{
		{"unknown way of looking", `look = "lens"`, `look = "microscope"`, "mine/traits.toml:16:8: unknown-look:"},
		{"misread rate of a coin", "misread = 0.15", "misread = 0.6", "mine/traits.toml:17:11: out-of-range:"},
		{"told more often than others", "misread = 0.15", "told = 1.5\nmisread = 0.15", "mine/traits.toml:17:8: out-of-range:"},
		{"obvious and mostly untold", "misread = 0.15", "obvious = true\nuntold = 0.6\nmisread = 0.15",
			"mine/traits.toml:18:10: out-of-range:"},
		{"confused with a state that is not there", `mistaken_for = ["2"]`, `mistaken_for = ["2", "5"]`,
			"mine/traits.toml:12:22: unknown-state:"},
		{"one state only", "[trait.claws.state.2]\nlabel = \"two claws\"\n", "", "mine/traits.toml:14:1: few-states:"},
	} {
		changed := strings.Replace(traits, row.old, row.new, 1)
		if _, err := load(changed, animals); err == nil || !hasLine(err.Error(), row.want) {
			t.Errorf("%s: got\n%v\nwant\n%s", row.why, err, row.want)
		}
	}
}

func hasLine(text, prefix string) bool {
	for _, line := range strings.Split(text, "\n") {
		if strings.HasPrefix(line, prefix) {
			return true
		}
	}
	return false
}

func TestFolderThatIsNoCatalog(t *testing.T) {
	for _, row := range []struct {
		why  string
		fsys fs.FS
		want string
	}{
		{"empty", fstest.MapFS{}, "mine/traits.toml: no such file"},
		{"no taxa", fstest.MapFS{"traits.toml": {Data: []byte(traits)}}, "the folder of taxa holds no .toml file"},
		{"doubled over two files", fstest.MapFS{
			"traits.toml": {Data: []byte(traits)}, "a.toml": {Data: []byte(animals)},
			"b.toml": {Data: []byte("[taxon.insecta]\nrank=\"class\"\nscientific=\"I\"\nsource=\"memory\"\n")}},
			"mine/b.toml:1:1: doubled-id: the taxon \"insecta\" is already described at mine/a.toml:1:1"},
	} {
		if _, err := taxa.Load(row.fsys, "mine"); err == nil || !strings.HasPrefix(err.Error(), row.want) {
			t.Errorf("%s: %v, want %s", row.why, err, row.want)
		}
	}
}

func FuzzLoad(f *testing.F) {
	f.Add(traits, animals)
	f.Add(traits, strings.Replace(animals, "parent = \"insecta\"", "parent = \"isonychiidae\"", 1))
	f.Fuzz(func(t *testing.T, traits, animals string) {
		c, err := load(traits, animals)
		if err != nil {
			if plain.HasControl(strings.ReplaceAll(err.Error(), "\n", "")) {
				t.Fatalf("control character in %q", err.Error())
			}
			return
		}
		for _, x := range c.Taxa() {
			c.Lineage(x.ID)
			c.Find(x.Scientific)
		}
	})
}

// Taxa that stand above each other without end are told, and do not cost the
// square of their number.
func TestTaxaAboveEachOtherWithoutEndAreToldInTime(t *testing.T) {
	chain := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "[taxon.t%d]\nrank = \"group\"\nscientific = \"T%d\"\nsource = \"memory\"\n", i, i)
			if i > 0 {
				fmt.Fprintf(&b, "parent = \"t%d\"\n", i-1)
			}
		}
		return b.String()
	}
	load := func(n int) error {
		_, err := taxa.Load(fstest.MapFS{"traits.toml": {Data: []byte(traits)}, "animals.toml": {Data: []byte(chain(n))}}, "mine")
		return err
	}
	if err := load(61); err != nil {
		t.Errorf("60 taxa above one: %v", err)
	}
	begun := time.Now()
	if err := load(8_000); err == nil ||
		!strings.Contains(err.Error(), `mine/animals.toml:309:10: too-deep: more than 60 taxa stand above "t61"`) {
		t.Errorf("%.300v", err)
	}
	if took := time.Since(begun); took > 20*time.Second {
		t.Errorf("it took %v", took)
	}
}

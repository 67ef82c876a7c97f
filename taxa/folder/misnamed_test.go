package folder_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/taxa/folder"
)

// Files that would be read under another name are told with it; copies of what is there,
// visits, and files that are only kept there are not.
func TestMisnamedFilesAreToldWithTheirNames(t *testing.T) {
	for _, row := range []struct{ files, want string }{
		{"key.toml taxa/traits.toml taxa/taxa.toml schemes/a.toml notes.md brook.visit.toml", ""},
		{"KEY.TOML", "KEY.TOML key.toml"},
		{"key.toml.txt", "key.toml.txt key.toml"},
		{"key.toml key.toml.txt Key.toml", ""},
		{"words.toml.txt", "words.toml.txt words.toml"},
		{"de.toml", "de.toml words.toml"},
		{"de.toml words.toml", ""},
		{"traits.toml taxa.toml", "taxa.toml taxa/taxa.toml, traits.toml taxa/traits.toml"},
		{"taxa/traits.toml taxa/taxa.toml traits.toml", ""},
		{"Taxa/traits.toml", "Taxa taxa"},
		{"scheme/a.toml protocol/b.toml", "protocol protocols, scheme schemes"},
		{"scheme/a.toml schemes/b.toml", ""},
		{"scheme/readme.md", ""},
		{"taxa/traits.toml taxa/birds.toml.txt", "taxa/birds.toml.txt taxa/birds.toml"},
		{"taxa/traits.toml taxa/more/birds.toml", "taxa/more taxa"},
		{"taxa/traits.toml taxa/pictures/bird.svg", ""},
		{"taxa/birds.tml schemes/a.tom", "taxa/birds.tml taxa/birds.toml, schemes/a.tom schemes/a.toml"},
		{"taxa/birds.toml.bak taxa/birds.toml~", "taxa/birds.toml.bak taxa/birds.toml, taxa/birds.toml~ taxa/birds.toml"},
		{"taxa/birds.toml taxa/birds.toml.bak taxa/birds.toml.old key.toml key.toml.orig", ""},
		{"key(1).toml", "key(1).toml key.toml"},
		{"key(1).toml key.toml key(a).toml", ""},
		{"taxa/birds.md taxa/birds.txt taxa/birds.jpg", ""},
		{"taxa/birds(2).toml", ""},
	} {
		held := fstest.MapFS{folder.HeadFile: {Data: []byte("[region]\n")}}
		for name := range strings.FieldsSeq(row.files) {
			held[name] = &fstest.MapFile{}
		}
		f, err := folder.FromFS("brook", held)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, m := range f.Misnamed() {
			got = append(got, fmt.Sprint(m.Name, " ", m.Should))
		}
		if strings.Join(got, ", ") != row.want {
			t.Errorf("%s: %q, want %q", row.files, got, row.want)
		}
	}
	for _, name := range []string{"Region.toml", "region.toml.txt"} {
		_, err := folder.FromFS("brook", fstest.MapFS{name: {}})
		if err == nil || !strings.Contains(err.Error(), "which must be called region.toml") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

package taxa_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/taxa"
)

// An author's drawing is read with the taxon that names it; what is wrong with it
// is told at its place in its own file.
func TestATaxonMayHaveADrawingOfItsOwn(t *testing.T) {
	for _, row := range []struct{ figure, svg, want string }{
		{"own.svg", "<svg><path stroke=\"#000\" d=\"M0 0L9 9\"/></svg>", ""},
		{"none", "", ""},
		{"own.svg", "<svg>\n  <script>1</script></svg>", "mine/own.svg:2:11: bad-drawing: <script> is not drawn"},
		{"own.svg", "", "mine/own.svg:1:1: bad-drawing"},
		{"other.svg", "", "mine/animals.toml:5:10: bad-drawing: the drawing cannot be read"},
		{"../own.svg", "", "is no SVG file of this folder"},
		{"own.png", "", "is no SVG file of this folder"},
	} {
		text := strings.Replace(animals, "source = \"memory\"\n", "source = \"memory\"\nfigure = \""+row.figure+"\"\n", 1)
		c, err := taxa.Load(fstest.MapFS{
			"traits.toml": {Data: []byte(traits)}, "animals.toml": {Data: []byte(text)}, "own.svg": {Data: []byte(row.svg)},
		}, "mine")
		switch {
		case row.want == "" && err != nil:
			t.Error(err)
		case row.want == "" && (c.Taxon("insecta").Drawing == nil || (len(c.Taxon("insecta").Drawing.Strokes) == 0) != (row.figure == "none")):
			t.Errorf("%s was not read", row.figure)
		case row.want != "" && (err == nil || !strings.Contains(err.Error(), row.want)):
			t.Errorf("%s %s: %v, want %s", row.figure, row.svg, err, row.want)
		}
	}
}

package taxa_test

import (
	"bytes"
	"image"
	"image/png"
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
		case row.want == "" && (c.Taxon("insecta").Drawing == nil ||
			(len(c.Taxon("insecta").Drawing.Strokes) == 0) != (row.figure == "none")):
			t.Errorf("%s was not read", row.figure)
		case row.want != "" && (err == nil || !strings.Contains(err.Error(), row.want)):
			t.Errorf("%s %s: %v, want %s", row.figure, row.svg, err, row.want)
		}
	}
}

// A photograph is read with the taxon that names it; what is wrong is told where it
// is named.
func TestATaxonMayHaveAPhotograph(t *testing.T) {
	var picture bytes.Buffer
	if err := png.Encode(&picture, image.NewGray(image.Rect(0, 0, 60, 40))); err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct{ fields, file, want string }{
		{"photo = \"own.png\"\nphoto_by = \"Ada, CC BY 4.0\"", picture.String(), ""},
		{"photo = \"own.png\"", picture.String(), "mine/animals.toml:1:1: missing-field: \"photo_by\" is missing"},
		{"photo_by = \"Ada\"", "", "\"photo\" is missing"},
		{"photo = \"own.png\"\nphoto_by = \"Ada\"", "GIF89a",
			"mine/animals.toml:5:9: bad-photo: \"own.png\" cannot be shown: it is no JPEG or PNG"},
		{"photo = \"other.png\"\nphoto_by = \"Ada\"", "", "mine/animals.toml:5:9: bad-photo: the photograph cannot be read"},
		{"photo = \"../own.png\"\nphoto_by = \"Ada\"", "", "is no photograph of this folder"},
		{"photo = \"own.gif\"\nphoto_by = \"Ada\"", "", "is no photograph of this folder"},
	} {
		text := strings.Replace(animals, "source = \"memory\"\n", "source = \"memory\"\n"+row.fields+"\n", 1)
		c, err := taxa.Load(fstest.MapFS{
			"traits.toml": {Data: []byte(traits)}, "animals.toml": {Data: []byte(text)}, "own.png": {Data: []byte(row.file)},
		}, "mine")
		if row.want != "" {
			if err == nil || !strings.Contains(err.Error(), row.want) {
				t.Errorf("%s: %v, want %s", row.fields, err, row.want)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		p := c.Taxon("insecta").Photo
		small, err := p.Small()
		if _, kind, e := image.Decode(bytes.NewReader(small)); err != nil || e != nil || kind != "jpeg" || p.Credit != "Ada, CC BY 4.0" {
			t.Errorf("%v, %v, %s by %s", err, e, kind, p.Credit)
		}
	}
}

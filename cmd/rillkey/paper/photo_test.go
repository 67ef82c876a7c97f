package paper_test

import (
	"bytes"
	"image"
	"image/png"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/cmd/rillkey/paper"
	"rillkey/taxa"
)

const photographed = `[taxon.fly]
rank = "order"
scientific = "Fly"
photo = "fly.png"
photo_by = "Ada <b>Brook</b>, CC BY 4.0"
source = "invented"
traits = { legs = "6" }
`

const flyTraits = `[trait.legs]
question = "How many legs?"
look = "eye"
misread = 0.1
source = "invented"
state.6 = { label = "six" }
state.0 = { label = "none" }
[trait.outline]
question = "What outline?"
look = "eye"
misread = 0.1
source = "invented"
state.long = { label = "long" }
state.oval = { label = "oval" }
`

const flyCard = `[card.fly]
marks = { legs = "Six legs", outline = "Long" }
life = "a"
eats = ["hunter"]
food = "b"
tells = "c"
silent = "d"
try = "e"
source = "invented"
status = "memory"
`

// A photograph stands beside the drawing, as pixels alone, with who took it; a page
// without it is refused where its file does not hold what its head says.
func TestAPhotographStandsBesideTheDrawing(t *testing.T) {
	var picture bytes.Buffer
	if err := png.Encode(&picture, image.NewGray(image.Rect(0, 0, 60, 40))); err != nil {
		t.Fatal(err)
	}
	for whole, want := range map[bool]string{true: "", false: "mine/animals.toml:4:9: bad-photo"} {
		data := picture.Bytes()
		if !whole {
			data = data[:50]
		}
		c, err := taxa.Load(fstest.MapFS{"traits.toml": {Data: []byte(flyTraits)}, "animals.toml": {Data: []byte(photographed)},
			"cards.toml": {Data: []byte(flyCard)}, "fly.png": {Data: data}}, "mine")
		if err != nil {
			t.Fatal(err)
		}
		var out strings.Builder
		_, err = paper.Cards(c).WriteTo(&out)
		if want != "" {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%v, want %s", err, want)
			}
			continue
		}
		if page := out.String(); err != nil || strings.Count(page, `<img src="data:image/jpeg;base64,`) != 1 ||
			!strings.Contains(page, "Photograph: Ada &lt;b&gt;Brook&lt;/b&gt;, CC BY 4.0") {
			t.Errorf("%v\n%s", err, page)
		}
	}
}

package region_test

import (
	"bytes"
	"image"
	"image/png"
	"strings"
	"testing"
	"testing/fstest"

	"rillkey/cmd/rillkey/region"
	"rillkey/taxa/folder"
)

// A page for phones gets the files that a region is read from and its words, its
// photographs small and bare, and no file that is there to be read by people.
func TestAParcelHoldsWhatAPhoneNeeds(t *testing.T) {
	var picture bytes.Buffer
	if err := png.Encode(&picture, image.NewGray(image.Rect(0, 0, 960, 640))); err != nil {
		t.Fatal(err)
	}
	f, err := folder.FromFS("mine", fstest.MapFS{
		"region.toml": {Data: []byte("[region]\nid = \"mine\"\nlanguage = \"de\"\n")},
		"README.md":   {Data: []byte("for people")}, "taxa/fly.toml": {Data: []byte("# flies\n")}, "taxa/fly.png": {Data: picture.Bytes()},
		"taxa/broken.jpg": {Data: []byte("no picture")},
	})
	if err != nil {
		t.Fatal(err)
	}
	text, err := region.Opened(f).Parcel()
	if err != nil {
		t.Fatal(err)
	}
	got, words, err := region.Parcelled(text)
	if err != nil {
		t.Fatal(err)
	}
	if names := strings.Join(got.Names(), " "); names != "region.toml taxa/fly.png taxa/fly.toml" || got.Preface.ID != "mine" {
		t.Errorf("%q holds %s", got.Preface.ID, names)
	}
	if words == nil || words.Language != "de" || len(words.Say) == 0 {
		t.Error("the words are not there")
	}
	err = got.Each(func(name string, data []byte) error {
		if !strings.HasSuffix(name, "png") {
			return nil
		}
		if head, kind, err := image.DecodeConfig(bytes.NewReader(data)); err != nil || kind != "jpeg" || head.Width != 480 {
			t.Errorf("%s: %s of %d pixels, %v", name, kind, head.Width, err)
		}
		return nil
	})
	if err != nil {
		t.Error(err)
	}
}

func TestWhatIsNoParcelIsRefused(t *testing.T) {
	for _, text := range []string{"", "{", `{"Files":[]}`,
		`{"Files":[{"Name":"key.toml","Text":""}]}`, `{"Files":[{"Name":"../region.toml"}]}`} {
		if f, _, err := region.Parcelled([]byte(text)); err == nil {
			t.Errorf("%q was taken: %v", text, f.Names())
		}
	}
}

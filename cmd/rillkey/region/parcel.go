package region

import (
	"encoding/json"
	"testing/fstest"

	"rillkey/taxa/folder"
	"rillkey/taxa/wording"
)

// parcel is a region as a page for phones holds it, with what is said there.
type parcel struct {
	Files []file
	Words *wording.Translation
}

type file struct {
	Name    string
	Text    string `json:",omitempty"`
	Picture []byte `json:",omitempty"`
}

// Parcelled is the folder that [Folder.Parcel] made a text of, and its words.
func Parcelled(text []byte) (*OpenRegion, *wording.Translation, error) {
	var p parcel
	if err := json.Unmarshal(text, &p); err != nil {
		return nil, nil, err
	}
	held := fstest.MapFS{}
	for _, f := range p.Files {
		held[f.Name] = &fstest.MapFile{Data: append([]byte(f.Text), f.Picture...), Mode: 0o444}
	}
	f, err := folder.FromFS("region", held)
	if err != nil {
		return nil, nil, err
	}
	return Opened(f), p.Words, nil
}

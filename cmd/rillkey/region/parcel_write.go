//go:build !js

package region

import (
	"encoding/json"
	"path"

	"rillkey/taxa/folder"
	"rillkey/taxa/language"
	"rillkey/taxa/photo"
	"rillkey/taxa/wording"
)

// Setting says whether the region is of streams: it is not where only its own cautions hold.
func (p Preface) Setting() language.Setting {
	if p.OnlyCautions {
		return language.Elsewhere
	}
	return language.AtStreams
}

// Words are those of the folder, in its language.
func (f *OpenRegion) Words() (*wording.Translation, error) {
	c, err := language.OfRegion(f.Preface.Language, f.Preface.Setting(), f.FS, folder.WordsFile, f.Join(folder.WordsFile))
	if err != nil {
		return c, err
	}
	return c.Replacing(f.Preface.Instead), nil
}

// Parcel is the folder as a text for a page for phones: photographs as small JPEG
// pictures under their names, and nothing that is only there to be read.
func (f *OpenRegion) Parcel() ([]byte, error) {
	var p parcel
	err := f.Each(func(name string, data []byte) error {
		switch path.Ext(name) {
		case ".md", ".txt":
		case ".jpg", ".jpeg", ".png":
			if small, err := photo.Small(data); err == nil { // else no animal names it
				p.Files = append(p.Files, file{Name: name, Picture: small})
			}
		default:
			p.Files = append(p.Files, file{Name: name, Text: string(data)})
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	if p.Words, err = f.Words(); err != nil {
		return nil, err
	}
	return json.Marshal(p)
}

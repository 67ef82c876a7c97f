//go:build !js

package taxa

import (
	"io/fs"
	"path"
	"slices"
	"sync"

	"rillkey/taxa/authored"
	"rillkey/taxa/photo"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// open looks at the head of a file and says what is wrong with it; the rest is read
// when the picture is asked for.
func (p *Photo) open(files folder, name string) (message, hint string) {
	if !fs.ValidPath(name) || !slices.Contains([]string{".jpg", ".jpeg", ".png"}, path.Ext(name)) {
		return wording.Sprintf("%s is no photograph of this folder", plain.Quote(name)),
			wording.Text(`name a file as "mayfly.jpg" or "mayfly.png"`)
	}
	if info, err := fs.Stat(files.fsys, name); err == nil && info.Size() > photo.MostBytes {
		return wording.Sprintf("the photograph has %d MB; at most %d are read", info.Size()>>20, photo.MostBytes>>20),
			wording.Text("make it smaller")
	}
	read := func() ([]byte, error) {
		return authored.ReadUpTo(photo.MostBytes, files.fsys, name, path.Join(files.dir, name))
	}
	data, err := read()
	if err != nil {
		return wording.Sprintf("the photograph cannot be read: %v", err), wording.Text("put the file beside this one")
	}
	if err := photo.CheckHead(data); err != nil {
		return wording.Sprintf("%s cannot be shown: %v", plain.Quote(name), err),
			wording.Text("save it as a JPEG picture of up to 16 million pixels")
	}
	p.small = sync.OnceValues(func() ([]byte, error) {
		data, err := read()
		if err != nil {
			return nil, err
		}
		out, err := photo.Small(data)
		if err != nil {
			return nil, authored.Findings{
				{Pos: p.Pos, Rule: "bad-photo", Message: wording.Sprintf("%s cannot be shown: %v", plain.Quote(name), err),
					Hint: wording.Text("save it as a JPEG picture")}}
		}
		return out, nil
	})
	return "", ""
}

package taxa

import (
	"rillkey/taxa/authored"
)

// Photo is a photograph of a taxon.
type Photo struct {
	// Credit says who took it, and under which licence it is shown.
	Credit string
	// Pos is where its file is named.
	Pos authored.Pos

	small func() ([]byte, error)
}

// Small is the photograph as a small JPEG picture of nothing but pixels. It is made
// when it is asked for, which takes a tenth of a second.
func (p *Photo) Small() ([]byte, error) { return p.small() }

// readPhoto reads the fields photo and photo_by; nil without them, or where the file
// is refused.
func readPhoto(t *authored.Table, files folder) *Photo {
	if !t.Has("photo") && !t.Has("photo_by") {
		return nil
	}
	p := &Photo{Credit: t.NeedStr("photo_by"), Pos: t.Pos("photo")}
	name := t.NeedStr("photo")
	if name == "" {
		return nil
	}
	if message, hint := p.open(files, name); message != "" {
		t.FailAt(p.Pos, "bad-photo", message, hint)
		return nil
	}
	return p
}

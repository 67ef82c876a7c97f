package taxa

import (
	"errors"
	"io/fs"
	"path"

	"rillkey/taxa/authored"
	"rillkey/taxa/lineart"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Drawing is one of an author's own; without strokes, none is to be shown.
type Drawing struct{ Strokes []lineart.Stroke }

// noDrawing is what an author writes who wants none.
const noDrawing = "none"

// folder is where an author's files are, and how messages name it.
type folder struct {
	fsys fs.FS
	dir  string
}

// readDrawing reads the SVG file that a field names; nil without the field, or where
// the file is refused.
func readDrawing(t *authored.Table, key string, files folder) *Drawing {
	name := t.Str(key)
	if name == "" {
		return nil
	}
	return ReadDrawing(files.fsys, files.dir, name, func(at authored.Pos, message, hint string) {
		if at.Line == 0 {
			at = t.Pos(key)
		}
		t.FailAt(at, "bad-drawing", message, hint)
	})
}

// ReadDrawing reads the SVG file of a name, in a folder or beneath, that messages
// call dir; "none" asks for no drawing. What is wrong is told to fail, at its place
// in the file, or at none where it is wrong with the name; then it is nil.
func ReadDrawing(fsys fs.FS, dir, name string, fail func(at authored.Pos, message, hint string)) *Drawing {
	switch {
	case name == noDrawing:
		return &Drawing{}
	case !fs.ValidPath(name) || path.Ext(name) != ".svg":
		fail(authored.Pos{}, wording.Sprintf("%s is no SVG file of this folder", plain.Quote(name)),
			wording.Text(`name a file as "mayfly.svg", or "none"`))
		return nil
	}
	data, err := authored.ReadUpTo(lineart.MostBytes, fsys, name, path.Join(dir, name))
	if err != nil {
		fail(authored.Pos{}, wording.Sprintf("the drawing cannot be read: %v", err), wording.Text("put the file beside this one"))
		return nil
	}
	strokes, err := lineart.Parse(data)
	var fault *lineart.Fault
	if errors.As(err, &fault) {
		fail(authored.Pos{File: path.Join(dir, name), Line: fault.Line, Col: fault.Column}, fault.Message,
			wording.Text("save it as plain SVG of paths"))
		return nil
	}
	return &Drawing{strokes}
}

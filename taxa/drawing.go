package taxa

import (
	"errors"
	"fmt"
	"io/fs"
	"path"

	"rillkey/taxa/authored"
	"rillkey/taxa/lineart"
	"rillkey/taxa/plain"
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

// readDrawing reads the SVG file that a field names, in the folder of the file that
// names it or beneath; nil without the field, or where the file is refused.
func readDrawing(t authored.Section, key string, files folder) *Drawing {
	name := t.Str(key)
	switch {
	case name == "":
		return nil
	case name == noDrawing:
		return &Drawing{}
	case !fs.ValidPath(name) || path.Ext(name) != ".svg":
		t.Fail(key, "bad-figure", plain.Quote(name)+" is no SVG file of this folder", `name a file as "mayfly.svg", or "none"`)
		return nil
	}
	data, err := authored.ReadUpTo(lineart.MostBytes, files.fsys, name, path.Join(files.dir, name))
	if err != nil {
		t.Fail(key, "bad-figure", fmt.Sprintf("the drawing cannot be read: %v", err), "put the file beside this one")
		return nil
	}
	strokes, err := lineart.Parse(data)
	var fault *lineart.Fault
	if errors.As(err, &fault) {
		at := authored.Pos{File: path.Join(files.dir, name), Line: fault.Line, Col: fault.Column}
		t.FailAt(at, "bad-figure", fault.Message, "save it as plain SVG of paths")
		return nil
	}
	return &Drawing{strokes}
}

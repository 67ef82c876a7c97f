//go:build !js

package region

import (
	"embed"
	"io/fs"
	"strings"

	"rillkey/taxa/plain"
)

// starter is a small region that is sound, to be put into words of one's own. ID
// stands for its id.
//
//go:embed starter
var starter embed.FS

// NewFile is a file of a region that is about to be written.
type NewFile struct {
	Name string // from the region's folder, with slashes
	Data []byte
}

// Starter is a small region with the id, which is sound, to be put into words of one's own.
func Starter(id string) (out []NewFile, err error) {
	err = fs.WalkDir(starter, "starter", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := starter.ReadFile(name)
		out = append(out, NewFile{strings.TrimPrefix(name, "starter/"),
			[]byte(strings.ReplaceAll(string(data), `"ID"`, plain.Quote(id)))})
		return err
	})
	return out, err
}

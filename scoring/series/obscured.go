package series

import (
	"bytes"
	"io"
	"os"

	"rillkey/scoring/visit"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
)

// ObscuredSites are the sites that any of the files obscures, folded as [Fold]
// does. Files that cannot be read obscure nothing.
func ObscuredSites(files []string) map[string]bool {
	out := map[string]bool{}
	for _, file := range files {
		if !mentions(file, "obscured") {
			continue
		}
		if v, err := visit.Read(file); err == nil && v.Obscured() {
			out[plain.Fold(v.Header.Site)] = true
		}
	}
	return out
}

// mentions tells whether a file has a word in it, which is found a hundred times
// as fast as the file is read.
func mentions(file, word string) bool {
	f, err := authored.OpenFile(file, os.O_RDONLY)
	if err != nil {
		return false
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, visit.MaxFile))
	return err == nil && bytes.Contains(data, []byte(word))
}

package folder

import (
	"slices"
	"strings"

	"rillkey/taxa/wording"
)

// Edition is what names and grades rest on, as a visit's file keeps it: lines of a
// part and its mark, such as "version 3" and "key 0c4d88dae2a1". The words are the
// same in all languages, since files pass between groups.
type Edition []string

// The part of an edition that is a number counted up by hand, not a fingerprint.
const versionPart = "version"

// editionParts are what has a fingerprint of its own.
var editionParts = []struct {
	name  string
	words string // in a sentence
	files []string
}{
	{"key", wording.Mark("the key"), []string{KeyFile}},
	{"taxa", wording.Mark("the animals"), []string{Taxa}},
	{"rules", wording.Mark("the schemes and protocols"), []string{Schemes, Protocols}},
	{"region", wording.Mark("what the region says"), []string{HeadFile}},
}

// Edition is that of the region's files, with its version where it has one.
func (f *Folder) Edition(version string) (out Edition, err error) {
	if version != "" {
		out = append(out, versionPart+" "+version)
	}
	for _, p := range editionParts {
		mark, err := f.Fingerprint(p.files...)
		if err != nil {
			return nil, err
		}
		out = append(out, p.name+" "+mark)
	}
	return out, nil
}

// Key is the fingerprint of the key; empty where the edition does not say.
func (e Edition) Key() string { return e.marks()["key"] }

// Version is the region's version, empty where it is not said.
func (e Edition) Version() string { return e.marks()[versionPart] }

// Differs are the parts, in words for a sentence, that another edition has otherwise.
// What e does not say is no difference.
func (e Edition) Differs(other Edition) (parts []string) {
	was, is := e.marks(), other.marks()
	for _, p := range editionParts {
		if was[p.name] != "" && was[p.name] != is[p.name] {
			parts = append(parts, wording.Text(p.words))
		}
	}
	return parts
}

// Is reports whether two editions are the same to the letter.
func (e Edition) Is(other Edition) bool { return slices.Equal(e, other) }

func (e Edition) marks() map[string]string {
	out := map[string]string{}
	for _, line := range e {
		name, mark, _ := strings.Cut(line, " ")
		out[name] = mark
	}
	return out
}

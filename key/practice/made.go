package practice

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"

	"rillkey/key/learned"
)

// Made is a file that was made of a record.
type Made struct {
	Path string // whole
	Sum  string // SHA-256 of its text, in small hexadecimal digits
}

// NewMade is what is noted of a file of that path and text.
func NewMade(path string, text []byte) Made {
	sum := sha256.Sum256(text)
	return Made{Path: path, Sum: hex.EncodeToString(sum[:])}
}

// MadeFile notes a file that is made of the record, in the place of what was noted of its
// path before.
func (r *PersonRecord) MadeFile(m Made) {
	r.Made = append(slices.DeleteFunc(r.Made, func(old Made) bool { return old.Path == m.Path }), m)
	if len(r.Made) > mostMade {
		r.Made = r.Made[1:]
	}
}

// MadeState is what became of a file that was made of a record.
type MadeState int

// The states. Only what is as it was made may be deleted with the record: a record may
// come from a stranger and name any file.
const (
	NotRates    MadeState = iota // it holds no rates, so it is somebody else's
	ChangedMade                  // rates, but not those that were made
	AsMade
)

// State is what became of the file, which holds the text now.
func (m Made) State(text []byte) MadeState {
	switch {
	case !learned.IsCounts(text):
		return NotRates
	case NewMade(m.Path, text) != m:
		return ChangedMade
	}
	return AsMade
}

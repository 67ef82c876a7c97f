package visit

import (
	"io"
	"time"
)

// Appendable tells why no event can be added to the file at path, as far as that
// shows without adding one; nil if it can. Nothing is changed.
func Appendable(path string) error {
	f, unlock, err := openFile(path)
	if err != nil {
		return err
	}
	unlock()
	return f.Close()
}

// Reopen withdraws every finish that stands of the visit, as it was read from its file, so
// that samples and animals can be added to it again, and returns the amendments.
func Reopen(v *Visit, at time.Time, who, reason string, random io.Reader) ([]Saved, error) {
	var out []Saved
	for _, id := range v.Tally().Finishes {
		saved, err := Append(v.File, at, who, Amendment{Entry: id, Reason: reason, Withdrawn: true}, random)
		if err != nil {
			return out, err
		}
		out = append(out, saved)
	}
	return out, nil
}

package publish

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"

	"rillkey/scoring/series"
)

// piece is a part of a long file that rests on something of its own. Where the file on the disk
// has a piece that rests on the same it is taken from there.
type piece struct {
	Rests string
	Make  func() ([]byte, error)
}

// pieceIn is a piece of a file that was made.
type pieceIn struct {
	Rests string `json:"rests"`
	Size  int    `json:"size"`
}

// together makes a file of its pieces.
func (l *siteLedger) together(f siteFile) (data []byte, in []pieceIn, err error) {
	there := l.piecesOf(f.Path)
	made, errs := make([][]byte, len(f.Pieces)), make([]error, len(f.Pieces))
	series.AtOnce(workers(), len(f.Pieces), func(i int) {
		var ok bool
		if made[i], ok = there[f.Pieces[i].Rests]; !ok {
			made[i], errs[i] = f.Pieces[i].Make()
		}
	})
	if err := errors.Join(errs...); err != nil {
		return nil, nil, err
	}
	size := 0
	for _, m := range made {
		size += len(m)
	}
	data = make([]byte, 0, size)
	for i, m := range made {
		data, in = append(data, m...), append(in, pieceIn{f.Pieces[i].Rests, len(m)})
	}
	return data, in, nil
}

// piecesOf are the pieces of a file that is as the program made it, by what they rest on.
func (l *siteLedger) piecesOf(file string) map[string][]byte {
	e := l.is[file]
	if len(e.Pieces) == 0 {
		return nil
	}
	data, err := ordinary(l.path(file))
	if sum := sha256.Sum256(data); err != nil || hex.EncodeToString(sum[:]) != e.Sum {
		return nil
	}
	out := make(map[string][]byte, len(e.Pieces))
	for _, p := range e.Pieces {
		if p.Size < 0 || p.Size > len(data) {
			return nil
		}
		if p.Rests != "" {
			out[p.Rests] = data[:p.Size:p.Size]
		}
		data = data[p.Size:]
	}
	return out
}

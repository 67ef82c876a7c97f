package condition

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"path/filepath"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// mostPhoto is how large a photograph may be, in bytes: more is no photograph.
const mostPhoto = 1 << 30

// FileEntry is what a parameter of files notes of the photograph in a file: its name without
// folders, and the SHA-256 of its contents (FIPS 180-4) as 64 hexadecimal digits, "a.jpg
// sha256:…". It is an error if the file cannot be read to its end or is larger than 1 GiB.
func FileEntry(name string, r io.Reader) (string, error) { return fileEntry(name, r, mostPhoto) }

func fileEntry(name string, r io.Reader, most int64) (string, error) {
	h := sha256.New()
	n, err := io.Copy(h, io.LimitReader(r, most+1))
	if err != nil {
		return "", wording.Errorf("%s cannot be read to its end", plain.Quote(name))
	}
	if n > most {
		return "", wording.Errorf("%s is larger than a photograph is", plain.Quote(name))
	}
	return filepath.Base(name) + " sha256:" + hex.EncodeToString(h.Sum(nil)), nil
}

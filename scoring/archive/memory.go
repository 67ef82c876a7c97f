package archive

import (
	"bytes"
	"crypto/sha256"
	"encoding/gob"
)

// Encode writes a memory for [Decode]. made names the program and the rules
// that the entries were made with.
func (m Memory) Encode(made string) ([]byte, error) {
	var b bytes.Buffer
	b.Write(make([]byte, sha256.Size))
	if err := gob.NewEncoder(&b).Encode(m); err != nil {
		return nil, err
	}
	data := b.Bytes()
	seal := sealOf(made, data[sha256.Size:])
	copy(data, seal[:])
	return data, nil
}

// Decode reads a memory. One that is damaged, or was made by another program or
// with other rules, is empty.
func Decode(data []byte, made string) Memory {
	if len(data) < sha256.Size || sealOf(made, data[sha256.Size:]) != [sha256.Size]byte(data[:sha256.Size]) {
		return Memory{}
	}
	var m Memory
	if gob.NewDecoder(bytes.NewReader(data[sha256.Size:])).Decode(&m) != nil {
		return Memory{}
	}
	return m
}

func sealOf(made string, body []byte) [sha256.Size]byte {
	h := sha256.New()
	h.Write([]byte(made + "\x00"))
	h.Write(body)
	return [sha256.Size]byte(h.Sum(nil))
}

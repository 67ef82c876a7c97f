package publish

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"rillkey/scoring/series"
	"rillkey/scoring/wholefile"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// memoryHead is the first line of a memory: whose it is, and what made it. What another
// program or other rules made is forgotten.
type memoryHead struct {
	Is    string `json:"is"`
	Maker string `json:"maker"`
}

const memoryIs = "what rillkey publish remembers of visits; it may be deleted, and is not for the public"

// mostMemory is how many bytes of a memory are read; what is behind is learned again.
const mostMemory = 1 << 30

// privately is the mode of a file that holds exact places.
const privately = 0o600

// scratch is the folder for what is put aside while a site is made: that of the memory,
// which is not for the public either, or that of temporary files.
func (o Options) scratch() string {
	if o.Memory == "" {
		return os.TempDir()
	}
	return filepath.Dir(o.Memory)
}

// recall is what was remembered, by the names of visits; what cannot be read is
// forgotten, since all of it can be learned again.
func recall(o Options) map[string]*known {
	out := map[string]*known{}
	f, err := authored.OpenFile(o.Memory, os.O_RDONLY)
	if err != nil {
		return out
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostMemory))
	first, rest, _ := bytes.Cut(data, []byte("\n"))
	var head memoryHead
	if err != nil || json.Unmarshal(first, &head) != nil || head != (memoryHead{memoryIs, o.Maker}) {
		return out
	}
	lines := bytes.SplitAfter(rest, []byte("\n"))
	all := make([]known, len(lines))
	series.AtOnce(workers(), (len(lines)+batch-1)/batch, func(part int) {
		for i := part * batch; i < min(len(lines), (part+1)*batch); i++ {
			if json.Unmarshal(lines[i], &all[i]) != nil {
				all[i] = known{}
			}
		}
	})
	for i := range all {
		if all[i].Name != "" {
			out[all[i].Name] = &all[i]
		}
	}
	return out
}

// ours tells that a file is a memory, or not there.
func ours(file string) bool {
	if wholefile.LeftEmpty(file) {
		return true
	}
	f, err := authored.OpenFile(file, os.O_RDONLY)
	if err != nil {
		return errors.Is(err, os.ErrNotExist)
	}
	defer f.Close()
	var head memoryHead
	return json.NewDecoder(io.LimitReader(f, 4<<10)).Decode(&head) == nil && head.Is == memoryIs
}

// remember writes the memory, if there is to be one.
func remember(o Options, all []*known) error {
	if o.Memory == "" {
		return nil
	}
	if !ours(o.Memory) {
		return wording.Errorf("%s is no memory of this program and is left alone; name another with --memory", plain.Printable(o.Memory))
	}
	err := wholefile.Replace(o.Memory, privately, func(w io.Writer) error {
		buf := bufio.NewWriterSize(w, 1<<20)
		enc := json.NewEncoder(buf)
		if err := enc.Encode(memoryHead{memoryIs, o.Maker}); err != nil {
			return err
		}
		for _, k := range all {
			if err := enc.Encode(k); err != nil {
				return err
			}
		}
		return buf.Flush()
	})
	if err != nil {
		return wording.Errorf("%s cannot be written: %w", plain.Printable(o.Memory), err)
	}
	return nil
}

// Maker is a fingerprint of a program and of the data that it uses, told by their marks: what
// another made is made anew.
func Maker(program []byte, marks []string) string {
	sum := sha256.New()
	sum.Write(program)
	fmt.Fprintf(sum, "%q", marks)
	return hex.EncodeToString(sum.Sum(nil))
}

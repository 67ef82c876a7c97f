package wholefile

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"sync"
	"time"

	"rillkey/taxa/pattern"
)

// What is not yet whole is called this, with a number in it. Programs that are
// kept in a box of their own may not see hidden files.
const (
	hidden  = ".rillkey-%d.tmp"
	visible = "rillkey-%d.tmp"
)

var scratchName = pattern.New(`^\.?rillkey-[0-9]+(-[0-9]+)?\.tmp$`)

// stale is how old what a crash left must be before it is removed.
const stale = 24 * time.Hour

// scratch is a file or folder that is not whole yet.
type scratch struct{ path string }

// all is the scratch of this program, and the folders that were swept. Whoever
// ends the program keeps it locked.
var all = struct {
	sync.Mutex
	scratch map[string]bool
	swept   map[string]bool
}{scratch: map[string]bool{}, swept: map[string]bool{}}

// newScratch makes a file or a folder in dir under a name that nobody has.
func newScratch(dir, pattern string, create func(name string) error) (*scratch, error) {
	all.Lock()
	defer all.Unlock()
	for range 100 {
		name := filepath.Join(dir, fmt.Sprintf(pattern, rand.Uint32()))
		err := create(name)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		all.scratch[name] = true
		sweep(dir, name)
		return &scratch{name}, nil
	}
	return nil, fs.ErrExist
}

// finish gives it its name, or removes it.
func (s *scratch) finish(path string, name func(from, to string) error) error {
	defer s.remove()
	all.Lock()
	defer all.Unlock()
	if err := name(s.path, path); err != nil {
		return err
	}
	return SyncFolder(filepath.Dir(path))
}

// remove takes away what is left of it.
func (s *scratch) remove() {
	all.Lock()
	defer all.Unlock()
	_ = os.RemoveAll(s.path)
	delete(all.scratch, s.path)
}

// removeName takes the name off a file that is open, where that can be done.
func (s *scratch) removeName() {
	all.Lock()
	defer all.Unlock()
	if os.Remove(s.path) == nil {
		delete(all.scratch, s.path)
	}
}

// Abandon removes everything that is not whole yet. It is for a program that is
// about to end: whatever else wants to begin or finish a file waits for ever.
func Abandon() {
	all.Lock()
	for path := range all.scratch {
		_ = os.RemoveAll(path)
	}
}

// Leftovers are the files in a folder that were being written when a program ended, or
// are just now.
func Leftovers(dir string) (out []string) {
	entries, _ := os.ReadDir(dir) // a folder that cannot be read shows none
	for _, e := range entries {
		if e.Type().IsRegular() && scratchName().MatchString(e.Name()) {
			out = append(out, filepath.Join(dir, e.Name()))
		}
	}
	return out
}

// sweep removes from a folder, once, what earlier programs left there when they
// were killed. How late it is the scratch just made tells.
func sweep(dir, made string) {
	if all.swept[dir] {
		return
	}
	all.swept[dir] = true
	now, err := os.Lstat(made)
	entries, err2 := os.ReadDir(dir)
	if err != nil || err2 != nil {
		return
	}
	for _, e := range entries {
		if !scratchName().MatchString(e.Name()) {
			continue
		}
		if info, err := e.Info(); err == nil && now.ModTime().Sub(info.ModTime()) > stale {
			removeLeft(dir, entries, info)
			_ = os.RemoveAll(filepath.Join(dir, e.Name()))
		}
	}
}

// Scratch opens a file for its own user alone in the folder dir, which is gone
// once it is closed or the program ends. Where the system takes the name off an open
// file it has none from the beginning, so that nothing is left of a program that was
// killed; elsewhere that is swept away when it is a day old.
func Scratch(dir string) (*ScratchFile, error) {
	var f *os.File
	temp, err := newScratch(dir, hidden, func(name string) (err error) {
		f, err = os.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
		return err
	})
	if err != nil {
		return nil, err
	}
	temp.removeName()
	return &ScratchFile{f, temp}, nil
}

// ScratchFile is a file that Scratch opened.
type ScratchFile struct {
	*os.File
	temp *scratch
}

// Close closes the file and removes it.
func (f *ScratchFile) Close() error {
	err := f.File.Close()
	all.Lock()
	named := all.scratch[f.temp.path] // else another may have that name by now
	all.Unlock()
	if named {
		f.temp.remove()
	}
	return err
}

// ScratchFolder makes a folder for its own user alone in the folder dir. It is
// there until remove is called or the program ends. Its name is not hidden.
func ScratchFolder(dir string) (path string, remove func(), err error) {
	temp, err := newScratch(dir, visible, func(name string) error { return os.Mkdir(name, 0o700) })
	if err != nil {
		return "", nil, err
	}
	return temp.path, temp.remove, nil
}

// LeaveFolder makes a folder as [ScratchFolder] does that outlives the program,
// for another program that was given it. It is swept away when it is a day old.
func LeaveFolder(dir string) (string, error) {
	path, _, err := ScratchFolder(dir)
	if err == nil {
		all.Lock()
		defer all.Unlock()
		delete(all.scratch, path)
	}
	return path, err
}

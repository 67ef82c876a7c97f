// Package wholefile writes files and folders that appear under their name whole
// and on the disk, or not at all.
//
// What is written goes under a name of its own beside its place first, is synced,
// gets its name in one step and its folder synced. Nothing that is there is ever
// replaced, but by [Replace]. Until then it is scratch: [Abandon] removes it when
// a signal ends the program, and what a crash left is swept away by the first
// file that is written into the folder a day later.
package wholefile

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
)

// SharedMode is the mode of a file that is for everybody whom the umask lets.
const SharedMode fs.FileMode = 0o666

// ModeOf is the mode for what is made from files: nobody may read it who may not
// read all of them. Files that are not there are passed over.
func ModeOf(paths ...string) fs.FileMode {
	mode := SharedMode
	for _, path := range paths {
		if info, err := os.Stat(path); err == nil {
			mode &= info.Mode().Perm() | 0o600
		}
	}
	return mode
}

// New writes a file that is not there yet. Its mode is the one given without the
// bits of the umask. The error is [fs.ErrExist] where the path is taken, whatever
// by and however late; what a killed program [Unfinished] there is taken over.
func New(path string, mode fs.FileMode, fill func(io.Writer) error) error {
	if NameTaken(path) {
		return fs.ErrExist
	}
	temp, err := fillScratch(filepath.Dir(path), mode, fill)
	if err != nil {
		return err
	}
	return temp.finish(path, nameNew)
}

// NameTaken reports whether there is anything at path that [New] does not write over.
func NameTaken(path string) bool {
	_, err := os.Lstat(path)
	return err == nil && !LeftEmpty(path)
}

// Replace writes a file over the one that is there, if any, whose mode it keeps.
// At every moment the old or the new one is there, whole.
func Replace(path string, mode fs.FileMode, fill func(io.Writer) error) error {
	info, err := os.Stat(path)
	if err != nil {
		return New(path, mode, fill)
	}
	temp, err := fillScratch(filepath.Dir(path), info.Mode().Perm()&mode, fill)
	if err != nil {
		return err
	}
	if err := os.Chmod(temp.path, info.Mode().Perm()); err != nil {
		temp.remove()
		return err
	}
	return temp.finish(path, renameOver)
}

// NewFolder fills a folder that is not there yet with files, which may lie in folders
// of their own, one deep. Modes and errors are
// as with [New]; the folder can be searched by whoever may read the files.
func NewFolder(path string, mode fs.FileMode, fill func(create func(name string) (io.WriteCloser, error)) error) error {
	if _, err := os.Lstat(path); err == nil {
		return fs.ErrExist
	}
	temp, err := newScratch(filepath.Dir(path), hidden, func(name string) error { return os.Mkdir(name, mode|mode>>2&0o111) })
	if err != nil {
		return err
	}
	within := map[string]bool{}
	err = fill(func(name string) (io.WriteCloser, error) {
		all.Lock() // nothing is put into a folder that is being removed
		defer all.Unlock()
		if sub := filepath.Join(temp.path, filepath.Dir(name)); sub != temp.path && !within[sub] {
			within[sub] = true
			if err := os.Mkdir(sub, mode|mode>>2&0o111); err != nil {
				return nil, err
			}
		}
		f, err := os.OpenFile(filepath.Join(temp.path, name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		return synced{f}, err
	})
	for sub := range within {
		err = errors.Join(err, SyncFolder(sub))
	}
	if err = errors.Join(err, SyncFolder(temp.path)); err != nil {
		temp.remove()
		return err
	}
	return temp.finish(path, nameNew)
}

// NewFiles has a folder beside their place filled with files that are whole and
// synced, then gives them their names in dir: all of them, or none. The error is
// [fs.ErrExist] where one is taken.
func NewFiles(dir string, fill func(scratch string) error) error {
	temp, err := newScratch(dir, hidden, func(name string) error { return os.Mkdir(name, 0o700) })
	if err != nil {
		return err
	}
	defer temp.remove()
	if err := fill(temp.path); err != nil {
		return err
	}
	entries, err := os.ReadDir(temp.path)
	if err != nil {
		return err
	}
	all.Lock()
	defer all.Unlock()
	for i, e := range entries {
		if err := nameNew(filepath.Join(temp.path, e.Name()), filepath.Join(dir, e.Name())); err != nil {
			for _, done := range entries[:i] {
				err = errors.Join(err, os.Remove(filepath.Join(dir, done.Name())))
			}
			return err
		}
	}
	return SyncFolder(dir)
}

// Move gives a file that is whole another name in its folder, if that is free. The
// error is [fs.ErrExist] where it is not.
func Move(from, to string) error {
	err := nameAtOnce(from, to)
	if err != nil && !errors.Is(err, fs.ErrExist) {
		err = nameOver(from, to, os.O_WRONLY|os.O_CREATE|os.O_EXCL)
	}
	if err != nil {
		return err
	}
	if err := os.Remove(from); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return SyncFolder(filepath.Dir(to))
}

// synced syncs before it closes.
type synced struct{ *os.File }

func (s synced) Close() error { return errors.Join(s.Sync(), s.File.Close()) }

// fillScratch writes and syncs a scratch file in the folder dir.
func fillScratch(dir string, mode fs.FileMode, fill func(io.Writer) error) (*scratch, error) {
	var f *os.File
	temp, err := newScratch(dir, hidden, func(name string) (err error) {
		f, err = os.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_EXCL, mode)
		return err
	})
	if err != nil {
		return nil, err
	}
	err = fill(f)
	if err = errors.Join(err, synced{f}.Close()); err != nil {
		temp.remove()
		return nil, err
	}
	return temp, nil
}

// naming are the two ways of the system to give a name that must be free.
var naming = struct{ rename, link func(from, to string) error }{renameNew, os.Link}

// nameNew gives what is finished its name without ever replacing anything: at once, or,
// on a card that cannot, by an empty file under that name, which nobody else can then
// create. It is for scratch alone, and all is locked.
func nameNew(temp, path string) error {
	if LeftEmpty(path) {
		return nameOver(temp, path, os.O_WRONLY)
	}
	err := nameAtOnce(temp, path)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	if info, err := os.Stat(temp); err != nil || info.IsDir() {
		return errors.Join(err, os.Rename(temp, path)) // no folder that holds anything is replaced
	}
	return nameClaimed(temp, path)
}

// nameAtOnce names a file by the system's own call or by a hard link. An error other
// than [fs.ErrExist] says that this card knows neither.
func nameAtOnce(temp, path string) error {
	err := naming.rename(temp, path)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	return naming.link(temp, path)
}

// nameOver gives a file the name of an empty one, which is opened in the way given and
// locked meanwhile: of several that want one name, one gets it. Where nothing can be
// locked, only an empty file of its own will do.
func nameOver(temp, path string, how int) error {
	f, err := os.OpenFile(path, how, 0o600)
	if err != nil {
		return err
	}
	defer f.Close()
	err = lockAlone(f)
	if errors.Is(err, fs.ErrExist) || err != nil && how&os.O_EXCL == 0 {
		return fs.ErrExist
	}
	mine, err := f.Stat()
	there, err2 := os.Lstat(path)
	if err := errors.Join(err, err2); err != nil {
		return err
	}
	if !os.SameFile(mine, there) || there.Size() > 0 {
		return fs.ErrExist
	}
	if letGo { // what is open cannot be replaced there
		f.Close()
	}
	if err := renameOver(temp, path); err != nil {
		if how&os.O_EXCL != 0 {
			err = errors.Join(err, os.Remove(path))
		}
		return err
	}
	return nil
}

// SyncFolder makes a new name in a folder last. Some file systems refuse to sync
// a folder, and Windows keeps names safe by itself; the file is synced all the
// same.
func SyncFolder(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return nil
	}
	defer d.Close()
	if err := d.Sync(); err != nil && runtime.GOOS != "windows" && !errors.Is(err, syscall.EINVAL) &&
		!errors.Is(err, errors.ErrUnsupported) {
		return err
	}
	return nil
}

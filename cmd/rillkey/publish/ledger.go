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
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"

	"rillkey/scoring/series"
	"rillkey/scoring/wholefile"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// ledgerName is the file of a site that says what else in its folder the program made.
const ledgerName = ".rillkey-site"

// entry is a file that the program made: what it rests on, and what is in it.
type entry struct {
	File  string `json:"file"` // from the folder of the site, with slashes
	Rests string `json:"rests"`
	Sum   string `json:"sum"`
	Size  int64  `json:"size"`
	Meant bool   `json:"meant,omitempty"` // it was to be written, and may have been

	Pieces []pieceIn `json:"pieces,omitempty"` // of which it is made, one after the other
}

// mostBytes is how many bytes a file of a site may hold to be read: a ledger of some two
// million files.
const mostBytes = 512 << 20

// siteLedger knows which files of a site the program made. An entry is on the disk before
// its file is, so that after a crash no file of the program's is taken for anybody
// else's: of a name all sums that were ever meant are known until the end.
type siteLedger struct {
	dir  string
	is   map[string]entry
	sums map[string][]string
	lock sync.Mutex
	log  *os.File
}

// siteFile is one file of the site.
type siteFile struct {
	Path  string // from the folder of the site, with slashes
	Rests string // fingerprint of all that goes into it
	Make  func() ([]byte, error)

	Pieces []piece // in the place of Make
}

func openLedger(dir string) (*siteLedger, error) {
	l := &siteLedger{dir: dir, is: map[string]entry{}, sums: map[string][]string{}}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, wording.Errorf("the folder %s cannot be made: %w", plain.Printable(dir), err)
	}
	data, err := l.read()
	if err != nil {
		return nil, err
	}
	for line := range bytes.Lines(data) {
		var e entry
		if json.Unmarshal(line, &e) == nil && filepath.IsLocal(filepath.FromSlash(e.File)) {
			// a torn last line meant a file that is not there yet
			l.sums[e.File] = append(l.sums[e.File], e.Sum)
			if e.Meant {
				e.Rests = "" // it never stands as it is
			}
			l.is[e.File] = e
		}
	}
	return l, nil
}

// read is the text of the ledger, empty where there is none. What a link leads to is
// somebody else's.
func (l *siteLedger) read() ([]byte, error) {
	path := l.path(ledgerName)
	data, err := ordinary(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, wording.Errorf("%s, the list of what the program made there, cannot be read: %w; publish into another folder",
			plain.Printable(path), err)
	}
	return data, nil
}

// staysInside tells that no folder on the way to a file is a link, which could lead out of
// the site.
func (l *siteLedger) staysInside(file string) bool {
	for dir := filepath.Dir(filepath.FromSlash(file)); dir != "."; dir = filepath.Dir(dir) {
		if info, err := os.Lstat(filepath.Join(l.dir, dir)); err == nil && !info.IsDir() {
			return false
		}
	}
	return true
}

func (l *siteLedger) path(file string) string { return filepath.Join(l.dir, filepath.FromSlash(file)) }

// batch is how many files are made before they are entered, with one sync, and written.
const batch = 128

// write makes the files that rest on something else than they did, and removes those
// that are no longer wanted, unless keep is set: then it is not sure that they are not.
func (l *siteLedger) write(files []siteFile, keep bool, done *SiteSummary) (err error) {
	done.Files = len(files)
	var stale []siteFile
	wanted := map[string]bool{}
	for _, f := range files {
		wanted[f.Path] = true
		if !l.stands(f) {
			stale = append(stale, f)
		}
	}
	var gone []string
	for file := range l.is {
		if !wanted[file] && !keep {
			gone = append(gone, file)
		}
	}
	if len(stale) == 0 && len(gone) == 0 {
		return nil
	}
	if err := l.begin(); err != nil {
		return err
	}
	defer func() { err = errors.Join(err, l.end()) }()
	for part := range slices.Chunk(stale, batch) {
		if err := l.put(part, done); err != nil {
			return err
		}
	}
	slices.Sort(gone)
	for _, file := range gone {
		l.remove(file, done)
	}
	slices.Sort(done.Left)
	return nil
}

// stands tells that a file is as it is to be.
func (l *siteLedger) stands(f siteFile) bool {
	e, ok := l.is[f.Path]
	if !ok || e.Rests != f.Rests {
		return false
	}
	info, err := os.Lstat(l.path(f.Path))
	return err == nil && info.Mode().IsRegular() && info.Size() == e.Size
}

// begin opens the ledger for entries. What a crash may have torn is left behind.
func (l *siteLedger) begin() (err error) {
	if info, err := os.Lstat(l.path(ledgerName)); err == nil && !info.Mode().IsRegular() {
		return fmt.Errorf("%s: %w", plain.Printable(l.path(ledgerName)), authored.ErrNotRegular)
	}
	l.log, err = os.OpenFile(l.path(ledgerName), os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o666)
	if err == nil {
		_, err = l.log.WriteString("\n")
	}
	return err
}

// put makes, enters and writes a few files.
func (l *siteLedger) put(files []siteFile, done *SiteSummary) error {
	made := make([][]byte, len(files))
	errs := make([]error, len(files))
	pieces := make([][]pieceIn, len(files))
	series.AtOnce(workers(), len(files), func(i int) {
		if files[i].Pieces != nil {
			made[i], pieces[i], errs[i] = l.together(files[i])
		} else {
			made[i], errs[i] = files[i].Make()
		}
	})
	if err := errors.Join(errs...); err != nil {
		return err
	}
	var lines bytes.Buffer
	enc := json.NewEncoder(&lines)
	entries := make([]entry, len(files))
	for i, f := range files {
		sum := sha256.Sum256(made[i])
		entries[i] = entry{f.Path, f.Rests, hex.EncodeToString(sum[:]), int64(len(made[i])), true, pieces[i]}
		if err := enc.Encode(entries[i]); err != nil {
			return err
		}
		entries[i].Meant = false
	}
	if _, err := l.log.Write(lines.Bytes()); err != nil {
		return err
	}
	if err := l.log.Sync(); err != nil {
		return err
	}
	series.AtOnce(workers(), len(files), func(i int) { errs[i] = l.file(entries[i], made[i], done) })
	return errors.Join(errs...)
}

// file writes one file, or leaves what somebody else made or changed.
func (l *siteLedger) file(e entry, data []byte, done *SiteSummary) error {
	if !l.staysInside(e.File) {
		l.leave(e.File, done)
		return nil
	}
	path := l.path(e.File)
	is, err := sumOf(path)
	mine := err == nil && l.made(e.File, is)
	switch {
	case err == nil && is == e.Sum:
		l.enter(e)
		return nil
	case errors.Is(err, fs.ErrNotExist):
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			return err
		}
		err = wholefile.New(path, wholefile.SharedMode, func(w io.Writer) error { _, err := w.Write(data); return err })
	case err != nil || !mine:
		l.leave(e.File, done)
		return nil
	default:
		err = wholefile.Replace(path, wholefile.SharedMode, func(w io.Writer) error { _, err := w.Write(data); return err })
	}
	if err != nil {
		return wording.Errorf("%s cannot be written: %w", plain.Printable(path), err)
	}
	l.enter(e)
	l.lock.Lock()
	defer l.lock.Unlock()
	done.Written++
	return nil
}

// sumOf is the checksum of an ordinary file; the error is [fs.ErrNotExist] where there
// is nothing.
func sumOf(path string) (string, error) {
	data, err := ordinary(path)
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:]), nil
}

// ordinary is what an ordinary file holds; a link is none, nor what a killed program
// left.
func ordinary(path string) ([]byte, error) {
	info, err := os.Lstat(path)
	switch {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, authored.ErrNotRegular
	case wholefile.LeftEmpty(path):
		return nil, fs.ErrNotExist
	case info.Size() > mostBytes:
		return nil, wording.Errorf("it holds more than %d MB", mostBytes>>20)
	}
	return os.ReadFile(path)
}

// made tells that the program ever made a file with this sum.
func (l *siteLedger) made(file, sum string) bool {
	l.lock.Lock()
	defer l.lock.Unlock()
	return slices.Contains(l.sums[file], sum)
}

func (l *siteLedger) enter(e entry) {
	l.lock.Lock()
	defer l.lock.Unlock()
	l.is[e.File] = e
	l.sums[e.File] = []string{e.Sum}
}

// leave forgets a file that is not, or no longer, the program's.
func (l *siteLedger) leave(file string, done *SiteSummary) {
	l.lock.Lock()
	defer l.lock.Unlock()
	done.Left = append(done.Left, file)
	if e, ok := l.is[file]; ok {
		e.Rests = "" // it is tried again, should the file be gone or as it was
		l.is[file] = e
	}
}

// remove takes away a file that is as the program made it, and its folder once that is
// empty.
func (l *siteLedger) remove(file string, done *SiteSummary) {
	path := l.path(file)
	is, err := sumOf(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil || !l.made(file, is) || !l.staysInside(file):
		done.Left = append(done.Left, file)
	case os.Remove(path) != nil:
		done.Left = append(done.Left, file)
		return
	default:
		done.Removed++
		if dir := filepath.Dir(path); dir != filepath.Clean(l.dir) {
			_ = os.Remove(dir) // one that holds anything stays
		}
	}
	delete(l.is, file)
}

// end writes the ledger anew, with one entry a file.
func (l *siteLedger) end() error {
	l.log.Close() // every entry is synced
	files := make([]string, 0, len(l.is))
	for file := range l.is {
		files = append(files, file)
	}
	slices.Sort(files)
	return wholefile.Replace(l.path(ledgerName), wholefile.SharedMode, func(w io.Writer) error {
		buf := bufio.NewWriter(w)
		enc := json.NewEncoder(buf)
		for _, file := range files {
			if err := enc.Encode(l.is[file]); err != nil {
				return err
			}
		}
		return buf.Flush()
	})
}

package visit

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"rillkey/scoring/visit/internal/replays"
	"rillkey/scoring/wholefile"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Saved is an event that is safely in the file.
type Saved struct {
	Event   Event
	Notices []Notice // how a torn end was repaired on the way
}

// Append adds one event to the file at path and returns it with the id drawn
// for it from random. It returns without an error only when the event is
// written and synced. The event is refused if it is unsound by itself or does
// not fit the visit: an unknown sample, a finished visit, an id that is not
// there. On every error the file holds the events that it held before.
//
// What was written is read back from the file before it counts as saved. A torn
// end is first copied to a new file beside the visit's, named after it with
// ".torn" added, then cut off; Saved says so even where the event itself then
// failed. Programs that append at the same time wait for each other.
func Append(path string, at time.Time, who string, body Body, random io.Reader) (Saved, error) {
	return disk{openFile, openBeside}.append(path, at, who, body, random)
}

// log is the part of an open file that appending uses.
type log interface {
	io.ReadWriteCloser
	io.ReaderAt
	Sync() error
	Truncate(size int64) error
	// Check tells whether the file still goes by its name and has this size.
	Check(size int64) error
}

// disk opens files; tests put failing ones in its place.
type disk struct {
	open        func(path string) (f log, unlock func(), err error)
	createAside func(path string) (aside, error) // a new file for what is set aside from the visit's file at path
}

func openFile(path string) (log, func(), error) {
	f, err := authored.OpenFile(path, os.O_RDWR|os.O_APPEND)
	if err != nil {
		return nil, nil, openError(path, err)
	}
	unlock, err := lock(f, true)
	if err != nil {
		f.Close()
		return nil, nil, fmt.Errorf("%s: %w", plain.Printable(path), err)
	}
	return appendFile{f, path}, unlock, nil
}

// aside is the part of an open file that setting aside uses.
type aside interface {
	io.WriteCloser
	Sync() error
	Name() string
}

// maxTorn bounds how many files of one visit may hold what was set aside.
const maxTorn = 1000

// openBeside makes a file that was not there, as private as the visit's: what
// is set aside never goes through a link, nor to the end of a foreign file.
func openBeside(path string) (aside, error) {
	mode := fs.FileMode(0o600)
	if info, err := os.Stat(path); err == nil {
		mode = info.Mode().Perm()
	}
	for i := range maxTorn {
		f, err := os.OpenFile(tornName(path, i), os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		switch {
		case err == nil:
			return f, nil
		case !errors.Is(err, fs.ErrExist):
			return nil, err
		}
	}
	return nil, wording.Errorf("there are %d files with what was set aside before; put some of them away", maxTorn)
}

// tornName is the name of the file, the first, second and so on, that holds what
// was set aside.
func tornName(path string, i int) string {
	if i == 0 {
		return path + ".torn"
	}
	return fmt.Sprintf("%s.torn-%d", path, i+1)
}

// appendFile can be cut on Windows too, where a file opened for appending
// cannot be cut through the same handle.
type appendFile struct {
	*os.File
	path string
}

func (a appendFile) Truncate(size int64) error {
	if a.File.Truncate(size) == nil {
		return nil
	}
	return os.Truncate(a.path, size)
}

// Check implements log.
func (a appendFile) Check(size int64) error {
	now, err := os.Stat(a.path)
	if err != nil {
		return errMoved
	}
	mine, err := a.Stat()
	switch {
	case err != nil:
		return err
	case !os.SameFile(now, mine):
		return errMoved
	case mine.Size() != size:
		return wording.Errorf("%w: rillkey visit show --visit %s", errEdited, plain.ShellWord(a.path))
	}
	return nil
}

var (
	errMoved = wording.NewError("the file was moved or replaced by another program meanwhile; look where it is now, " +
		"then enter the record again")
	errEdited = wording.NewError("another program changed the file meanwhile; close it there, then enter the record again if it is " +
		"missing in what this shows")

	errUnreadable = wording.NewError("it cannot be read back as it was written")
)

func (d disk) append(path string, at time.Time, who string, body Body, random io.Reader) (Saved, error) {
	e := Event{ID: "new", Time: at.Round(0), Who: who, Body: tidy(body)}
	if err := checkEvent(e); err != nil {
		return Saved{}, wording.Errorf("not saved: %w", err)
	}
	f, unlock, err := d.open(path)
	if err != nil {
		return Saved{}, err
	}
	defer f.Close()
	defer unlock()
	raw, err := readLimited(f)
	if err != nil {
		return Saved{}, wording.Errorf("%s: not saved, the file cannot be read: %w", plain.Printable(path), reason(err))
	}
	v, err := parseAsWritten(path, raw) // whether the event fits is judged with the corrections
	if err != nil {
		return Saved{}, err
	}
	e, block, err := v.ready(e, random)
	if err != nil {
		return Saved{}, wording.Errorf("%s: not saved: %w", plain.Printable(path), err)
	}
	saved := Saved{Event: e}
	if v.sound < len(raw) {
		line := bytes.Count(raw[:v.sound], []byte("\n")) + 1
		if saved.Notices, err = d.setAside(v, f, line, raw[v.sound:]); err != nil {
			return Saved{}, err
		}
		raw = raw[:v.sound]
	}
	if err := write(path, f, raw, block); err != nil {
		return Saved{Notices: saved.Notices}, err
	}
	saved.Event.Line = lineIn(raw, block)
	return saved, nil
}

// ready is an event as it goes into the visit, with its block; an error says why
// it cannot.
func (v *Visit) ready(e Event, random io.Reader) (Event, []byte, error) {
	e, err := v.prepare(e, random)
	block := v.block(e)
	if err == nil {
		err = v.fits(e, block)
	}
	return e, block, err
}

// tidy brings the body into the form in which it will be read back.
func tidy(body Body) Body {
	if d, ok := body.(Identification); ok {
		d.Also = append([]Chance(nil), d.Also...)
		sortChances(d.Also)
		return d
	}
	return body
}

// prepare checks the event against the visit and gives it an id of its own.
func (v *Visit) prepare(e Event, random io.Reader) (Event, error) {
	r := v.replay()
	replays.Admitted.Add(1)
	if err := r.admit(e); err != nil {
		return e, err
	}
	if d, ok := e.Body.(Identification); ok {
		d.Sample = r.sample(d.Sample).Label
		e.Body = d
	}
	id, err := drawUnused(v, random)
	if err != nil {
		return e, err
	}
	e.ID = id
	e.Follows = v.momentAfter(e.Time)
	return e, checkEvent(e)
}

// What is kept free below the limits, so that a full visit can still be
// corrected and finished.
const (
	spareEvents = 100
	spareBytes  = 1 << 20
)

// fits refuses, before anything is written, what the reader of the file would
// not take.
func (v *Visit) fits(e Event, block []byte) error {
	events, size := MaxEvents, MaxFile
	switch e.Body.(type) {
	case Sample, Identification, SecondLook, SheetRows:
		events, size = events-spareEvents, size-spareBytes
	}
	switch {
	case len(encodeEvent(e)) > MaxBlock:
		return wording.Errorf("the record is larger than %d kB; shorten its texts", MaxBlock>>10)
	case v.blocks >= events:
		return wording.Errorf("the visit holds %s entries, and no more fit; finish it and begin another one", number(float64(v.blocks)))
	case v.sound+len(block) >= size:
		return wording.Errorf("the file would grow over %d MB; finish the visit and begin another one", size>>20)
	}
	return readsBack(block, e)
}

// readsBack reads a block with the reader of files and wants the same event.
func readsBack(block []byte, e Event) error {
	chunks, _ := split(block, 2)
	var notes notices
	if len(chunks) == 1 {
		if again, ok := readEvent(chunks[0], &notes); ok && len(notes.list) == 0 && sameContent(e, again) {
			return nil
		}
	}
	return errUnreadable
}

func drawUnused(v *Visit, random io.Reader) (string, error) {
	used := map[string]bool{}
	for _, e := range v.Events {
		used[e.ID] = true
	}
	for range 100 {
		id, err := drawID(random)
		if err != nil || !used[id] {
			return id, err
		}
	}
	return "", wording.NewError("no unused id could be drawn; the source of randomness repeats itself")
}

const (
	idLength  = 8
	idLetters = "0123456789abcdefghjkmnpqrstvwxyz"
)

// drawID draws 40 random bits as eight letters and digits that are hard to
// confuse when read aloud: no i, l, o or u.
func drawID(random io.Reader) (string, error) {
	raw := make([]byte, idLength)
	if _, err := io.ReadFull(random, raw); err != nil {
		return "", wording.Errorf("no id could be drawn: %w", err)
	}
	for i, b := range raw {
		raw[i] = idLetters[b%32]
	}
	return string(raw), nil
}

// setAside copies a torn end, which begins at line, to a file beside the
// visit's, then cuts it off.
func (d disk) setAside(v *Visit, f log, line int, torn []byte) ([]Notice, error) {
	beside, err := d.keep(v.File, torn)
	if err != nil {
		return nil, wording.Errorf("%s: not saved: the torn end of the visit file cannot be set aside beside it: %w",
			plain.Printable(v.File), reason(err))
	}
	if err := f.Truncate(int64(v.sound)); err != nil {
		return nil, wording.Errorf("%s: not saved: the torn end cannot be cut off: %w", plain.Printable(v.File), reason(err))
	}
	text := wording.Sprintf("the last event had been cut off while it was written (%s); its %d bytes were moved to %s",
		tornWords(string(torn)), len(torn), plain.Printable(beside))
	return []Notice{{v.File, line, Repaired, text}}, nil
}

// keep puts data into a new file beside path, for good, and gives its name.
func (d disk) keep(path string, data []byte) (string, error) {
	f, err := d.createAside(path)
	if err != nil {
		return "", err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err == nil {
		err = wholefile.SyncFolder(filepath.Dir(f.Name()))
	}
	return f.Name(), err
}

// lineIn is the line of the file where the event of a block appended begins.
func lineIn(before, block []byte) int {
	head, _, _ := bytes.Cut(block, []byte("\n"+eventLine+"\n"))
	line := bytes.Count(before, []byte("\n")) + bytes.Count(head, []byte("\n")) + 2
	if len(before) > 0 && before[len(before)-1] != '\n' {
		line++
	}
	return line
}

// write appends blocks, which [readsBack] has seen, in one piece after the bytes
// already there and reads them back, or puts the file back as it was.
func write(path string, f log, before, block []byte) error {
	if len(before) > 0 && before[len(before)-1] != '\n' {
		block = append([]byte("\n"), block...)
	}
	return writeAt(path, f, len(before), block)
}

// writeAt is write after so many bytes, the last of which ends a line.
func writeAt(path string, f log, before int, block []byte) error {
	_, err := f.Write(block)
	if err == nil {
		err = f.Sync()
	}
	if err == nil {
		err = f.Check(int64(before + len(block)))
	}
	if err == nil {
		back := make([]byte, len(block))
		if _, err = f.ReadAt(back, int64(before)); err == nil && !bytes.Equal(back, block) {
			err = errUnreadable
		}
	}
	if err == nil {
		return nil
	}
	if errors.Is(err, errEdited) { // to cut it back could take what the other program wrote
		return wording.Errorf("%s: the record may not be saved: %w", plain.Printable(path), err)
	}
	err = wording.Errorf("%s: the record is NOT saved: %w", plain.Printable(path), reason(err))
	if undo := f.Truncate(int64(before)); undo != nil {
		return wording.Errorf("%w; the file could not be put back as it was either, so part of the record may show up when it is "+
			"read next", err)
	}
	return err
}

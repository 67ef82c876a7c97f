package visit

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"strings"

	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Visit is what a visit's file says. It is for one goroutine at a time. Events are
// only ever added to it: one that was there when it was asked for its [Tally] is
// not changed any more.
type Visit struct {
	File    string
	Header  Header
	Events  []Event  // in the order of the file, each id once
	Notices []Notice // what was found wrong, in the order of the file

	sound      int  // bytes before a torn end; the length of the file without one
	blocks     int  // how many there are beside the header, sound or not
	headByHand bool // the header was changed by hand
	headCopied bool // it is damaged and comes from a copy in the file

	elsewhere bool     // another visit to the site obscures the place
	asWritten *Header  // its header as the file has it, where Header is corrected; else nil
	replayed  replayed // its tally, as far as it was asked for
}

// Read reads the visit in the file at path. A damaged event costs only itself
// and is named in the Notices. The error says why nothing could be read: no
// such file, more than MaxFile bytes, not a visit file, or a damaged header.
func Read(path string) (*Visit, error) {
	data, err := readFile(path)
	if err != nil {
		return nil, err
	}
	return Parse(path, data)
}

func readFile(path string) ([]byte, error) {
	f, err := authored.OpenFile(path, os.O_RDONLY)
	if err != nil {
		return nil, openError(path, err)
	}
	defer f.Close()
	// The lock keeps a half-written event out of sight. Without it the event
	// would be named as torn, which is no reason not to read.
	if unlock, err := lock(f, false); err == nil {
		defer unlock()
	}
	data, err := readLimited(f)
	if err != nil {
		return nil, wording.Errorf("%s: the file cannot be read: %w", plain.Printable(path), reason(err))
	}
	return data, nil
}

// readLimited reads up to one byte more than a file may have.
func readLimited(f io.Reader) ([]byte, error) {
	size := int64(8 << 10)
	if f, ok := f.(*os.File); ok {
		if info, err := f.Stat(); err == nil {
			size = min(info.Size(), MaxFile)
		}
	}
	buf := bytes.NewBuffer(make([]byte, 0, size+bytes.MinRead))
	_, err := buf.ReadFrom(io.LimitReader(f, MaxFile+1))
	return buf.Bytes(), err
}

// Parse reads the text of a visit's file, as Read does; file is its name for
// messages.
func Parse(file string, data []byte) (*Visit, error) {
	v, err := parseAsWritten(file, data)
	if err == nil {
		v.correct()
	}
	return v, err
}

// parseAsWritten is [Parse] without what was corrected of the header since.
func parseAsWritten(file string, data []byte) (*Visit, error) {
	if len(data) > MaxFile {
		return nil, wording.Errorf("%s: the file is larger than %d MB, too large for a visit; check that it is the right file",
			plain.Printable(file), MaxFile>>20)
	}
	chunks, more := split(data, MaxEvents+1)
	notes := &notices{file: file}
	v := &Visit{File: file, sound: len(data)}
	if err := v.readHeader(data, chunks, notes); err != nil {
		return nil, err
	}
	if more {
		return nil, wording.Errorf("%s: the file holds more than %d events, too many for a visit; check that it is the "+
			"right file", plain.Printable(file), MaxEvents)
	}
	if len(chunks) > 0 && !chunks[0].isRow {
		chunks = chunks[1:] // the header, or what is left of it
	}
	v.blocks = len(chunks)
	known := make(map[string]int, len(chunks))
	v.Events = make([]Event, 0, len(chunks))
	for i, c := range chunks {
		c.mendSeal()
		if i == len(chunks)-1 && !c.sealed {
			notes.tell(c.line, Torn, "the last event was cut off while it was written and is not counted; %s", tornWords(string(c.text)))
			v.sound = c.start
			break
		}
		e, ok := readEvent(c, notes)
		if ok && isNew(v, e, known, notes) {
			known[e.ID] = len(v.Events)
			v.Events = append(v.Events, e)
		}
	}
	v.Notices = notes.all()
	return v, nil
}

func readEvent(c chunk, notes *notices) (Event, bool) {
	drop := func(about Trouble, format string, args ...any) (Event, bool) {
		notes.tell(c.line, about, format, args...)
		return Event{}, false
	}
	switch {
	case !c.isRow:
		return drop(Damaged, "these lines are no event; they are not counted")
	case !c.sealed:
		return drop(Damaged, "this event lacks its checksum line: it was cut, or added by hand; it is not counted")
	}
	e, unread, err := decodeEvent(c.text)
	e.Line = c.line
	if c.intact && (err != nil || len(unread) > 0) {
		e.raw = verbatim(c.text)
	}
	var unknown errKind
	switch {
	case err != nil && e.raw != nil && e.identified():
		notes.tell(c.line, Unknown, "this event is kept and not counted: %v", err)
	case errors.As(err, &unknown):
		return drop(Damaged, "this event was changed by hand and is not counted: %v", err)
	case err != nil:
		return drop(Damaged, "this event is damaged and not counted: %v", err)
	case !c.intact && len(unread) > 0:
		return drop(Damaged, "this event was changed by hand and is not counted: no such field: %s", plain.List(unread))
	case c.mended:
		notes.tell(c.line, Changed, "the checksum of this event is damaged; the event is whole and counted: %s", describe(e))
	case !c.intact:
		notes.tell(c.line, Changed, "this event was changed by hand and is counted as it stands: %s", describe(e))
		e.byHand = true
	}
	noteUnread(c.line, unread, notes)
	return e, true
}

func noteUnread(line int, unread []string, notes *notices) {
	if len(unread) > 0 {
		notes.tell(line, Unknown, "this program does not know the field %s; it is kept and not counted", plain.List(unread))
	}
}

func isNew(v *Visit, e Event, known map[string]int, notes *notices) bool {
	i, doubled := known[e.ID]
	if !doubled {
		return true
	}
	first := v.Events[i]
	if sameContent(first, e) {
		notes.tell(e.Line, Doubled, "this event repeats line %d (id %s); it is counted once", first.Line, e.ID)
	} else {
		notes.tell(e.Line, Doubled, "this event has the id of line %d (%s) but says something else; only the first is counted",
			first.Line, e.ID)
	}
	return false
}

// sameContent tells whether two events say the same, wherever they stand.
func sameContent(a, b Event) bool {
	return a.Time.Equal(b.Time) && string(encodeEvent(a)) == string(encodeEvent(b))
}

func openError(path string, err error) error {
	shown := plain.Printable(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return plain.WithCause(wording.Sprintf("%s: there is no such visit file; check the name, or begin a visit", shown), fs.ErrNotExist)
	case errors.Is(err, fs.ErrPermission):
		return plain.WithCause(wording.Sprintf("%s: you may not open this visit file", shown), fs.ErrPermission)
	}
	return wording.Errorf("%s: the visit file cannot be opened: %w", shown, reason(err))
}

// reason drops the path that the operating system's error repeats.
func reason(err error) error {
	var pe *fs.PathError
	var le *os.LinkError
	switch {
	case errors.As(err, &pe):
		return pe.Err
	case errors.As(err, &le):
		return le.Err
	}
	return err
}

// sampleKey is what makes two labels the same to a person.
func sampleKey(label string) string { return strings.ToLower(label) }

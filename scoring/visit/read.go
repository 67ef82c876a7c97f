package visit

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"unicode/utf8"

	"rillkey/taxa/authored"
)

// Visit is what a visit's file says.
type Visit struct {
	File    string
	Header  Header
	Events  []Event  // in the order of the file, each id once
	Notices []Notice // what was found wrong, in the order of the file

	sound int // bytes before a torn end; the length of the file without one
}

// Read reads the visit in the file at path. A damaged event costs only itself
// and is named in the Notices. The error says why nothing could be read: no
// such file, more than MaxFile bytes, not a visit file, or a damaged header.
func Read(path string) (*Visit, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, openError(path, err)
	}
	defer f.Close()
	// The lock keeps a half-written event out of sight. Without it the event
	// would be named as torn, which is no reason not to read.
	if unlock, err := lock(f, false); err == nil {
		defer unlock()
	}
	return readAll(path, f)
}

func readAll(path string, r io.Reader) (*Visit, error) {
	data, err := readLimited(r)
	if err != nil {
		return nil, fmt.Errorf("%s: the file cannot be read: %w", authored.Printable(path), reason(err))
	}
	return Parse(path, data)
}

// readLimited reads up to one byte more than a file may have. Most files fit
// into the first piece of memory.
func readLimited(r io.Reader) ([]byte, error) {
	buf := bytes.NewBuffer(make([]byte, 0, 32<<10))
	_, err := buf.ReadFrom(io.LimitReader(r, MaxFile+1))
	return buf.Bytes(), err
}

// Parse reads the text of a visit's file, as Read does; file is its name for
// messages.
func Parse(file string, data []byte) (*Visit, error) {
	if len(data) > MaxFile {
		return nil, fmt.Errorf("%s: the file is larger than %d MB, too large for a visit; check that it is the right file", authored.Printable(file), MaxFile>>20)
	}
	chunks, more := split(data, MaxEvents)
	header, notes, err := parseHead(file, data, chunks)
	if err != nil {
		return nil, err
	}
	if more {
		return nil, fmt.Errorf("%s: the file holds more than %d events, too many for a visit; check that it is the right file", authored.Printable(file), MaxEvents)
	}
	v := &Visit{File: file, Header: header, sound: len(data)}
	known := make(map[string]int, len(chunks))
	for i, c := range chunks[1:] {
		if i == len(chunks)-2 && !c.sealed {
			notes.add(c.line, Torn, "the last event was cut off while it was written and is not counted; %s", tornWords(string(c.text)))
			v.sound = c.start
			break
		}
		e, ok := readEvent(c, notes)
		if ok && v.isNew(e, known, notes) {
			known[e.ID] = len(v.Events)
			v.Events = append(v.Events, e)
		}
	}
	v.Notices = notes.all()
	return v, nil
}

func parseHead(file string, data []byte, chunks []chunk) (Header, *notices, error) {
	notes := &notices{file: file}
	shown := authored.Printable(file)
	bad := func(line int, format string, args ...any) (Header, *notices, error) {
		return Header{}, nil, fmt.Errorf("%s:%d: "+format, append([]any{shown, line}, args...)...)
	}
	start := data[:min(len(data), 512)]
	switch {
	case len(data) == 0:
		return bad(1, "the file is empty; it is not a visit file")
	case len(chunks) == 0:
		return bad(1, "the file has no [visit] header; it is not a visit file")
	case chunks[0].isHeader() && chunks[0].sealed:
		// A power cut can leave zeros after it.
	case bytes.IndexByte(start, 0) >= 0 || !chunks[0].isHeader() && !utf8.Valid(start):
		return bad(1, "the file holds binary data; it is not a visit file")
	case !chunks[0].isHeader():
		return bad(chunks[0].line, "the file does not begin with a [visit] header; it is not a visit file, or its beginning is lost")
	case !chunks[0].sealed:
		return bad(chunks[0].line, "the [visit] header is cut short; nothing can be read without it. Restore the file from a copy, or begin a new visit")
	}
	h, unread, err := decodeHeader(chunks[0].text)
	if err != nil {
		return bad(chunks[0].line, "the [visit] header is damaged: %w", err)
	}
	if !chunks[0].intact {
		notes.add(chunks[0].line, Changed, "the header was changed by hand; it is used as it stands")
	}
	noteUnread(chunks[0].line, unread, notes)
	return h, notes, nil
}

func (c chunk) isHeader() bool {
	return bytes.HasPrefix(bytes.TrimSpace(c.text), []byte(headerLine))
}

func readEvent(c chunk, notes *notices) (Event, bool) {
	drop := func(about Trouble, format string, args ...any) (Event, bool) {
		notes.add(c.line, about, format, args...)
		return Event{}, false
	}
	switch {
	case !c.isRow:
		return drop(Damaged, "these lines are no event; they are not counted")
	case !c.sealed:
		return drop(Damaged, "this event lacks its checksum line: it was cut, or added by hand; it is not counted")
	}
	e, unread, err := decodeEvent(c.text)
	var unknown errKind
	switch {
	case errors.As(err, &unknown):
		return drop(Unknown, "this event is not counted: %v", err)
	case err != nil:
		return drop(Damaged, "this event is damaged and not counted: %v", err)
	case !c.intact && len(unread) > 0:
		return drop(Damaged, "this event was changed by hand and is not counted: nothing reads a field %s", authored.List(unread))
	case !c.intact:
		notes.add(c.line, Changed, "this event was changed by hand and is counted as it stands: %s", describe(e))
		e.byHand = true
	}
	noteUnread(c.line, unread, notes)
	e.Line = c.line
	return e, true
}

func noteUnread(line int, unread []string, notes *notices) {
	if len(unread) > 0 {
		notes.add(line, Unknown, "nothing reads the field %s; it is left aside", authored.List(unread))
	}
}

func (v *Visit) isNew(e Event, known map[string]int, notes *notices) bool {
	i, doubled := known[e.ID]
	if !doubled {
		return true
	}
	first := v.Events[i]
	if sameContent(first, e) {
		notes.add(e.Line, Doubled, "this event repeats line %d (id %s); it is counted once", first.Line, e.ID)
	} else {
		notes.add(e.Line, Doubled, "this event has the id of line %d (%s) but says something else; only the first is counted", first.Line, e.ID)
	}
	return false
}

// sameContent tells whether two events say the same, wherever they stand.
func sameContent(a, b Event) bool {
	b.Line, b.byHand = a.Line, a.byHand
	return a.Time.Equal(b.Time) && string(encodeEvent(a)) == string(encodeEvent(b))
}

func openError(path string, err error) error {
	shown := authored.Printable(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return authored.Said(shown+": there is no such visit file; check the name, or begin a visit", fs.ErrNotExist)
	case errors.Is(err, fs.ErrPermission):
		return authored.Said(shown+": you may not open this visit file", fs.ErrPermission)
	}
	return fmt.Errorf("%s: the visit file cannot be opened: %w", shown, reason(err))
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

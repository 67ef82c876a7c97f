package visit

import (
	"bytes"
	"fmt"
	"strings"
	"time"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Part is one block of a visit's file as it is kept elsewhere, one by one: the header
// or an event.
type Part struct {
	ID    string    // of the event, or of the visit; empty where it cannot be told
	Time  time.Time // of the event; zero for the header, or where it cannot be told
	Text  string    // all its lines, the checksum last
	Check string    // its checksum, 16 digits
	Line  int       // of the file, from 1
	Fault string    // why it is unsound; empty where it is sound
}

// Parts are the blocks of one visit's file.
type Parts struct {
	Header  Header
	Head    Part
	Events  []Part // sound ones, in the order of the file, each id once
	Refused []Part // those that fail their checksum or a rule, each with its Fault
}

// ErrUnsealed means that the header of a file fails its checksum.
var ErrUnsealed = wording.NewError("the header was changed by hand")

// PartsOf parts the text of a visit's file; file is its name for messages. What a newer
// program wrote is sound if its checksum is. The error says why there is no visit:
// with ErrUnsealed the header can be read and fails its checksum.
func PartsOf(file string, data []byte) (Parts, error) {
	if len(data) > MaxFile {
		return Parts{}, wording.Errorf("%s: the file is larger than %d MB, too large for a visit", plain.Printable(file), MaxFile>>20)
	}
	chunks, more := split(data, MaxEvents+1)
	if more {
		return Parts{}, wording.Errorf("%s: the file holds more than %d events, too many for a visit", plain.Printable(file), MaxEvents)
	}
	v := &Visit{File: file}
	if err := v.readHeader(data, chunks, &notices{file: file}); err != nil {
		return Parts{}, err
	}
	p := Parts{Header: v.Header, Head: partOf(string(encodeHeader(v.Header)), v.Header.ID, time.Time{}, 1)}
	if v.headByHand {
		return p, fmt.Errorf("%s:1: %w", plain.Printable(file), ErrUnsealed)
	}
	known := make(map[string]string, len(chunks)) // checksums by id
	for i, c := range chunks {
		if i == 0 && !c.isRow {
			continue // the header, or what is left of it
		}
		c.mendSeal()
		p.add(c, known)
	}
	return p, nil
}

func partOf(text, id string, at time.Time, line int) Part {
	p := Part{ID: id, Time: at, Text: text, Line: line}
	if i := strings.LastIndex(text, sealStart); i >= 0 && len(text) >= i+len(sealStart)+16 {
		p.Check = text[i+len(sealStart):][:16]
	}
	return p
}

// add puts a block among the sound ones or the others.
func (p *Parts) add(c chunk, known map[string]string) {
	if c.isRow && c.intact && len(c.text) <= MaxBlock {
		text := string(c.text)
		if id, at, ok := vouched(text); ok && known[id] == "" {
			part := partOf(text, id, at, c.line)
			known[id] = part.Check
			p.Events = append(p.Events, part)
			return
		}
	}
	var notes notices
	e, ok := readEvent(c, &notes)
	part := partOf(lineEnds(c.text), e.ID, e.Time, c.line)
	was, doubled := known[e.ID]
	switch {
	case !ok || e.byHand:
		part.Fault = firstNote(notes, wording.Text("it cannot be read"))
	case len(c.text) > MaxBlock:
		part.Fault = wording.Sprintf("it is larger than %d kB", MaxBlock>>10)
	case doubled && was == part.Check:
		return
	case doubled:
		part.Fault = wording.Text("another event of the file has its id and says something else")
	}
	if part.Fault == "" {
		known[e.ID] = part.Check
		p.Events = append(p.Events, part)
		return
	}
	p.Refused = append(p.Refused, part)
}

// lineEnds is a block's text with plain line ends, which the checksum goes by.
func lineEnds(text []byte) string {
	text = bytes.TrimRight(text, "\r\n")
	if bytes.IndexByte(text, '\r') >= 0 {
		text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
	}
	return string(text) + "\n"
}

func firstNote(notes notices, otherwise string) string {
	if len(notes.list) == 0 {
		return otherwise
	}
	return notes.list[0].Text
}

// Copy is one header of a visit with the texts of events that came with it.
type Copy struct {
	Head   string
	Events []string
}

// Assemble is the visit that copies of it make together, as [Unite] unites files.
// Nobody need have checked them: a text that is not one whole and sound event is told in
// the Notices, where a notice's line is the number of the text, and not counted. The
// error says that there is no header that can be read, or that the copies are of
// different visits. name is what the visit is called in messages.
func Assemble(name string, copies []Copy) (*Visit, error) {
	visits := make([]*Visit, 0, len(copies))
	for _, c := range copies {
		v, err := c.visit(name)
		if err != nil {
			return nil, err
		}
		visits = append(visits, v)
	}
	m, _, err := Unite(visits, false)
	return m, err
}

func (c Copy) visit(name string) (*Visit, error) {
	chunks, _ := split([]byte(c.Head), 2)
	if len(chunks) != 1 || !chunks[0].isHeader() || !chunks[0].intact {
		return nil, wording.Errorf("%s: the header of this visit is not whole", plain.Printable(name))
	}
	h, err := decodeHeader(chunks[0].text)
	if err != nil {
		return nil, wording.Errorf("%s: the header of this visit is damaged: %w", plain.Printable(name), err)
	}
	v := &Visit{File: name, Header: h}
	notes := &notices{file: name}
	noteUnread(1, h.unreadKeys(), notes)
	known := make(map[string]int, len(c.Events))
	v.Events = make([]Event, 0, len(c.Events))
	together := c.together()
	for i, text := range c.Events {
		one := chunk{}
		if together != nil {
			one = together[i]
		} else if chunks, more := split([]byte(text), 1); !more &&
			len(chunks) == 1 && chunks[0].intact && len(chunks[0].text) == len(text) {
			one = chunks[0]
		} else {
			notes.tell(i+1, Damaged, "this event is not whole, or more than one; it is not counted")
			continue
		}
		one.line = i + 1
		if e, ok := readEvent(one, notes); ok && isNew(v, e, known, notes) {
			known[e.ID] = len(v.Events)
			v.Events = append(v.Events, e)
		}
	}
	v.Notices = notes.all()
	v.correct()
	return v, nil
}

// together are the events' blocks if each text is one whole event, as nearly always, found in one
// go; nil where one is not, so that it costs no other.
func (c Copy) together() []chunk {
	var all []byte
	for _, text := range c.Events {
		all = append(all, text...)
	}
	chunks, more := split(all, len(c.Events))
	if more || len(chunks) != len(c.Events) {
		return nil
	}
	at := 0
	for i, text := range c.Events {
		if k := chunks[i]; !k.isRow || !k.intact || k.start != at || len(k.text) != len(text) {
			return nil
		}
		at += len(text)
	}
	return chunks
}

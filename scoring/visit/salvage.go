package visit

import (
	"bytes"
	"errors"
	"io/fs"
	"slices"

	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// Salvaged is what could be brought back of a damaged file.
type Salvaged struct {
	Visit  *Visit   // sound; not on the disk yet
	Header string   // where the header comes from, where the file's own is lost; else ""
	Whole  int      // events that were whole, in the file or in a copy
	Back   []Notice // events brought back although they were damaged or cut off, and how
	Lost   []Notice // what could not be brought back
	// WasSound says that nothing was wrong with the file, and nothing set aside beside it.
	WasSound bool
}

// Salvage brings back what can be of the visit in the file at path: from the
// file, from what was set aside beside it (see [Append]) and from other copies
// of the visit. A header that is lost is taken from its copies in the file, from
// another file, or put together from what is left of it and from given; a place
// on the map is then obscured, because nobody knows whether it was. A single
// wrong bit is found by the checksum and put right. Animals of an entry that was
// cut off come back set aside for a second look. No file is changed.
func Salvage(path string, copies []string, given Header) (*Salvaged, error) {
	s := &salvage{index: map[string]int{}, result: &Salvaged{Visit: &Visit{File: path}}}
	data, err := readFile(path)
	if err != nil {
		return nil, err
	}
	s.take(path, data, true)
	for i := range maxTorn {
		torn, err := readFile(tornName(path, i))
		if errors.Is(err, fs.ErrNotExist) {
			break
		}
		if err == nil {
			s.take(tornName(path, i), torn, false)
		}
	}
	own := len(s.events)
	if err := s.header(data, copies, given); err != nil {
		return nil, err
	}
	for _, c := range copies {
		if err := s.copy(c, own); err != nil {
			return nil, err
		}
	}
	out := s.finish()
	if len(copies)+len(out.Back)+len(out.Lost) == 0 && out.Header == "" {
		v, err := Parse(path, data)
		out.WasSound = err == nil && len(v.Notices) == 0
	}
	return out, nil
}

// salvage is the work of Salvage on its way.
type salvage struct {
	result   *Salvaged
	events   []Event
	index    map[string]int // where an event is, by id
	lost     []lost
	searched int // squared bytes of the blocks searched for a wrong bit
}

// lost is a block that cannot be read, with the id that it seems to have.
type lost struct {
	Notice
	id string
}

// take takes over the blocks of one file; the first of a visit's file is its
// header.
func (s *salvage) take(file string, data []byte, isVisit bool) {
	chunks, _ := split(data, MaxEvents+1)
	if isVisit && len(chunks) > 0 && !chunks[0].isRow {
		chunks = chunks[1:]
	}
	for _, c := range chunks {
		s.block(file, c)
	}
}

func (s *salvage) block(file string, c chunk) {
	c.mendSeal()
	var notes notices
	e, ok := readEvent(c, &notes)
	if ok && c.intact {
		if s.add(e) {
			s.result.Whole++
		}
		return
	}
	say := func(format string, args ...any) Notice {
		return Notice{file, c.line, Repaired, wording.Sprintf(format, args...)}
	}
	back := func(e Event, how string) {
		if s.add(e) {
			s.result.Back = append(s.result.Back, say("%s [%s]: %s", describe(e), e.ID, how))
		}
	}
	right, found := s.mendBit(c.text)
	switch {
	case found && len(right) == 0:
		return // a copy of the header
	case found:
		var none notices
		if e, ok := readEvent(right[0], &none); ok {
			back(e, wording.Text("one bit of it was wrong and is put right"))
			return
		}
	case ok:
		back(e, wording.Text("it was changed by hand and is taken as it stands"))
		return
	case !c.sealed:
		if e, ok := cutOff(c.text); ok {
			back(e, wording.Text("it had been cut off while it was written, and was never reported as saved; see whether it was "+
				"entered again"))
			return
		}
	}
	id := ""
	if m := idLine().FindSubmatch(c.text); m != nil {
		id = string(m[1])
	}
	s.lost = append(s.lost, lost{say(wording.Mark("an entry that cannot be read; %s"), tornWords(string(c.text)+"\n")), id})
}

var idLine = pattern.New(`(?m)^id = "([0-9a-z-]+)"\r?$`)

// add keeps an event; of two with one id, one that nobody changed.
func (s *salvage) add(e Event) bool {
	i, there := s.index[e.ID]
	switch {
	case !there:
		s.index[e.ID] = len(s.events)
		s.events = append(s.events, e)
		return true
	case s.events[i].byHand && !e.byHand:
		s.events[i] = e
	}
	return false
}

// Bounds on the search for a wrong bit, which hashes a block once for each of
// its bits.
const (
	maxBlock  = 4 << 10     // bytes of one block
	maxSearch = 200_000_000 // squared bytes of all: some two thousand blocks of the usual size, within seconds
)

// mendBit looks for the one bit that, turned round, makes the checksum of a block
// right, or makes of it comments only; the checksum has 64 bits, so nothing is
// found by accident.
func (s *salvage) mendBit(text []byte) ([]chunk, bool) {
	text = bytes.TrimRight(text, "\n")
	if len(text) > maxBlock || s.searched > maxSearch {
		return nil, false
	}
	s.searched += len(text) * len(text)
	text = append(bytes.Clone(text), '\n')
	for i := range text {
		for bit := range 8 {
			text[i] ^= 1 << bit
			if chunks, _ := split(text, 2); len(chunks) == 0 || len(chunks) == 1 && chunks[0].intact {
				return chunks, true
			}
			text[i] ^= 1 << bit
		}
	}
	return nil, false
}

// cutOff makes an event of the lines of one that was cut off, without the last
// one, of which half may be missing: a sample as it is, animals as set aside,
// because the line that says so may be missing too.
func cutOff(text []byte) (Event, bool) {
	text = bytes.TrimRight(text, "\n")
	e, unread, err := decodeEvent(text[:bytes.LastIndexByte(text, '\n')+1])
	if err != nil || len(unread) > 0 {
		return e, false
	}
	switch b := e.Body.(type) {
	case Sample:
	case Identification:
		b.Undecided, b.Note = true, wording.Text("brought back from an entry that was cut off")
		e.Body = b
		e.ID = idOf(encodeEvent(e))
	default:
		return e, false
	}
	return e, true
}

// copy takes over what another copy of the visit has.
func (s *salvage) copy(path string, own int) error {
	data, err := readFile(path)
	if err != nil {
		return err
	}
	v, err := Parse(path, data)
	if err != nil || !SameVisit(s.result.Visit.Header, v.Header) {
		other := &salvage{index: map[string]int{}, result: &Salvaged{}}
		other.take(path, data, true)
		if !s.shares(other.events, own) {
			return wording.Errorf("%s: nothing is taken from it, for it has no entry of %s: %w", plain.Printable(path),
				plain.Printable(s.result.Visit.File), ErrOtherVisit)
		}
	}
	s.take(path, data, true)
	return nil
}

// shares tells whether one of the events is one of the damaged file.
func (s *salvage) shares(events []Event, own int) bool {
	return slices.ContainsFunc(events, func(e Event) bool { i, there := s.index[e.ID]; return there && i < own })
}

// header finds the header of the visit.
func (s *salvage) header(data []byte, copies []string, given Header) error {
	v, why := Parse(s.result.Visit.File, data)
	if why == nil {
		s.result.Visit.Header = v.Header
		if v.headCopied {
			s.result.Header = wording.Text("the header at the beginning is damaged; its copy in the file is used")
		}
		return nil
	}
	chunks, _ := split(data, 1)
	if len(chunks) > 0 {
		if right, found := s.mendBit(chunks[0].text); found && len(right) == 1 && right[0].isHeader() {
			if h, err := decodeHeader(right[0].text); err == nil {
				s.result.Visit.Header, s.result.Header = h, wording.Text("one bit of the header was wrong and is put right")
				return nil
			}
		}
	}
	for _, c := range copies {
		// A copy from before the first sample has no entry to know it by.
		if v, err := Read(c); err == nil && (s.shares(v.Events, len(s.events)) || len(s.events) == 0 || len(v.Events) == 0) {
			s.result.Visit.Header, s.result.Header = v.Header, wording.Sprintf("the header is that of %s", plain.Printable(c))
			return nil
		}
	}
	return s.pieces(data, given)
}

// pieces puts a header together from the lines of it that can be read, from what
// people say, and from the events.
func (s *salvage) pieces(data []byte, given Header) error {
	sorting.Stable(s.events, compareEvents)
	for i, e := range s.events {
		s.index[e.ID] = i
	}
	left := &fields{values: map[string]any{}}
	for line := range bytes.Lines(data) {
		if string(bytes.TrimSpace(line)) == eventLine {
			break
		}
		if f, err := parseBlock([]byte(headerLine+"\n"+string(line)), "visit"); err == nil {
			for key, value := range f.values {
				left.values[key] = value
			}
		}
	}
	h := headerOf(left)
	if len(s.events) > 0 {
		e := s.events[0]
		if !plain.IsID(h.ID) {
			h.ID = idOf([]byte(e.ID))
		}
		if !sound(func(c *check) { c.time(h.Begun) }) {
			h.Begun = e.Time
		}
		if !sound(func(c *check) { c.date(h.Date) }) {
			h.Date = e.Time.Format("2006-01-02")
		}
	}
	if given.Site != "" {
		h.Site = given.Site
	}
	if given.Date != "" {
		h.Date = given.Date
	}
	h = soundParts(h)
	if err := checkHeader(h); err != nil {
		return wording.Errorf("%s: the header is lost: %w. Name another copy of the visit, or say --site and --date",
			plain.Printable(s.result.Visit.File), err)
	}
	s.result.Header = wording.Text("the header is put together from what is left of it; look whether it is right")
	if h.Spot != nil && !h.Obscured {
		h.Obscured = true
		s.result.Header += wording.Text("; its place counts as obscured, because it is not known whether it was")
	}
	s.result.Visit.Header = h
	return nil
}

func sound(look func(*check)) bool {
	var c check
	look(&c)
	return c.err == nil
}

// soundParts leaves out the optional fields that are not sound.
func soundParts(h Header) Header {
	if !sound(func(c *check) { c.texts("people", h.People) }) {
		h.People = nil
	}
	if !sound(func(c *check) { c.optionalID("region", h.Region) }) {
		h.Region = ""
	}
	if !sound(func(c *check) { c.texts("edition", h.Edition) }) {
		h.Edition = nil
	}
	if !sound(func(c *check) { c.optionalID("protocol", h.Protocol) }) {
		h.Protocol = ""
	}
	if !sound(func(c *check) { c.spot(h.Spot) }) {
		h.Spot = nil
	}
	if !sound(func(c *check) { c.text("reference", h.Reference) }) {
		h.Reference = ""
	}
	h.Joined = slices.DeleteFunc(h.Joined, func(id string) bool { return !plain.IsID(id) })
	return h
}

func (s *salvage) finish() *Salvaged {
	sorting.Stable(s.events, compareEvents)
	s.result.Visit.Events = s.events
	for _, l := range s.lost {
		if _, there := s.index[l.id]; !there {
			s.result.Lost = append(s.result.Lost, l.Notice)
		}
	}
	return s.result
}

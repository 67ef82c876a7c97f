package visit

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"strconv"
	"strings"
	"sync"
	"time"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Shared is a visit's file that one program adds to for many people at once. All
// that is handed in while the disk is busy is written next, in one piece with one
// sync. The file stays the one truth: what other programs append to it is read
// before anything is added or told. It is safe for many goroutines.
type Shared struct {
	path string
	disk disk

	work sync.Mutex // held by whoever reads or writes the file
	seen stamp      // of the file as it was read or written last
	open bool       // the file, as seen, ends where the next entry can begin

	mu    sync.Mutex // guards what follows
	visit *Visit     // in the order of the file
	known map[string]int
	texts []string // of its events, as far as somebody asked for them: many ask for the same

	queue   sync.Mutex // guards what follows
	waiting []*handing
	writing bool
}

// stamp tells whether a file is as it was.
type stamp struct {
	info fs.FileInfo
	size int64
	time time.Time
}

func stampOf(path string) (stamp, error) {
	info, err := os.Stat(path)
	if err != nil {
		return stamp{}, openError(path, err)
	}
	return stamp{info, info.Size(), info.ModTime()}, nil
}

func (s stamp) same(o stamp) bool {
	return s.info != nil && s.size == o.size && s.time.Equal(o.time) && os.SameFile(s.info, o.info)
}

// handing are events that somebody waits for, and what came of each.
type handing struct {
	events  []Event
	refused []error
	failed  error
	done    chan struct{}
}

// Share opens the visit in the file at path for many people at once.
func Share(path string) (*Shared, error) { return disk{openFile, openBeside}.share(path) }

func (d disk) share(path string) (*Shared, error) {
	s := &Shared{path: path, disk: d}
	if err := Appendable(path); err != nil {
		return nil, err
	}
	s.work.Lock()
	defer s.work.Unlock()
	return s, s.refresh()
}

// Unite adds events that have ids to the file, each once, however often they are
// handed in, and returns when all of them are written, synced and read back. The
// errors say which of them are refused and why, nil for the others; the last one
// that nothing was saved.
func (s *Shared) Unite(events []Event) ([]error, error) {
	h := &handing{events: events, refused: make([]error, len(events)), done: make(chan struct{})}
	s.queue.Lock()
	s.waiting = append(s.waiting, h)
	if !s.writing {
		s.writing = true
		go s.writeAll()
	}
	s.queue.Unlock()
	<-h.done
	return h.refused, h.failed
}

// writeAll writes what is waiting until nothing is.
func (s *Shared) writeAll() {
	for {
		s.queue.Lock()
		group := s.waiting
		s.waiting = nil
		if s.writing = len(group) > 0; !s.writing {
			s.queue.Unlock()
			return
		}
		s.queue.Unlock()
		err := s.commit(group)
		for _, h := range group {
			h.failed = err
			close(h.done)
		}
	}
}

// commit writes one group.
func (s *Shared) commit(group []*handing) error {
	s.work.Lock()
	defer s.work.Unlock()
	f, unlock, err := s.disk.open(s.path)
	if err != nil {
		return err
	}
	defer f.Close()
	defer unlock()
	if err := s.upToDate(f); err != nil {
		return err
	}
	draft := s.draft() // what is written must be read by others only then
	blocks := s.sift(&draft, group)
	if len(blocks) == 0 {
		return nil
	}
	if err := writeAt(s.path, f, s.visit.sound, blocks); err != nil {
		s.seen = stamp{}
		return err
	}
	s.publish(&draft)
	s.seen, err = stampOf(s.path)
	return err
}

func (s *Shared) draft() Visit {
	s.mu.Lock()
	defer s.mu.Unlock()
	return *s.visit
}

// sift adds to the draft what is new and can be taken, and gives its blocks.
func (s *Shared) sift(draft *Visit, group []*handing) (blocks []byte) {
	before := len(draft.Events)
	fresh := map[string]int{}
	for _, h := range group {
		for i, e := range h.events {
			at, known := s.known[e.ID]
			if !known {
				at, known = fresh[e.ID]
			}
			if known {
				if !sameContent(draft.Events[at], e) {
					h.refused[i] = refusal(e, errTakenID)
				}
				continue
			}
			block := draft.block(e)
			if err := draft.takes(e, block); err != nil {
				h.refused[i] = refusal(e, err)
				continue
			}
			fresh[e.ID] = len(draft.Events)
			draft.Events = append(draft.Events, e)
			draft.blocks++
			draft.sound += len(block)
			blocks = append(blocks, block...)
		}
	}
	if len(draft.Events) == before {
		return nil
	}
	return blocks
}

// takes says why a file cannot take an event that was made elsewhere.
func (v *Visit) takes(e Event, block []byte) error {
	if err := checkEvent(e); err != nil {
		return err
	}
	if e.raw != nil { // of a newer program; it is kept as it is
		return nil
	}
	return v.fits(e, block)
}

// publish makes a draft the visit.
func (s *Shared) publish(draft *Visit) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for i := len(s.visit.Events); i < len(draft.Events); i++ {
		s.known[draft.Events[i].ID] = i
	}
	*s.visit = *draft
}

// upToDate reads the file anew where another program changed it, and puts a torn
// end aside. The file is locked.
func (s *Shared) upToDate(f log) error {
	now, err := stampOf(s.path)
	if err != nil || s.open && s.seen.same(now) {
		return err
	}
	raw, err := readLimited(f)
	if err != nil {
		return wording.Errorf("%s: not saved, the file cannot be read: %w", plain.Printable(s.path), reason(err))
	}
	v, err := Parse(s.path, raw)
	if err != nil {
		return err
	}
	if v.sound < len(raw) {
		line := bytes.Count(raw[:v.sound], []byte("\n")) + 1
		if _, err := s.disk.setAside(v, f, line, raw[v.sound:]); err != nil {
			return err
		}
	}
	if v.sound > 0 && raw[v.sound-1] != '\n' {
		if err := writeAt(s.path, f, v.sound, []byte("\n")); err != nil {
			return err
		}
		v.sound++
	}
	s.replace(v)
	s.seen, err = stampOf(s.path)
	s.open = err == nil
	return err
}

// refresh reads the file where it changed, without changing it.
func (s *Shared) refresh() error {
	now, err := stampOf(s.path)
	if err != nil || s.seen.same(now) {
		return err
	}
	v, err := Read(s.path)
	if err != nil {
		return err
	}
	s.replace(v)
	s.seen, s.open = now, false
	return nil
}

func (s *Shared) replace(v *Visit) {
	known := make(map[string]int, len(v.Events))
	for i, e := range v.Events {
		known[e.ID] = i
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.visit, s.known, s.texts = v, known, nil
}

// look reads the file where another program changed it and nobody writes now.
func (s *Shared) look() error {
	if !s.work.TryLock() {
		return nil
	}
	defer s.work.Unlock()
	return s.refresh()
}

// Now is the visit as it stands, for one goroutine to read or to go on from in
// memory.
func (s *Shared) Now() (*Visit, error) {
	if err := s.look(); err != nil {
		return nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.visit.Tally()
	own := *s.visit
	own.Events = own.Events[:len(own.Events):len(own.Events)]
	own.replayed.source = own.asReplayed()
	return &own, nil
}

// Header says which visit the file holds.
func (s *Shared) Header() Header {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.visit.Header
}

// Find is the event with an id, and whether there is one.
func (s *Shared) Find(id string) (Event, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	at, ok := s.known[id]
	if !ok {
		return Event{}, false
	}
	return s.visit.Events[at], true
}

// Lacks are those of some events that the file does not have.
func (s *Shared) Lacks(events []Event) (out []Event) {
	for _, e := range events {
		if _, there := s.Find(e.ID); !there {
			out = append(out, e)
		}
	}
	return out
}

// BlocksSince gives the text, as [Blocks] has it, of at most so many events behind a cursor, in
// the order of the file, the cursor behind them, and how many come after. An empty
// cursor, or one of a file that is there no more, is the beginning.
func (s *Shared) BlocksSince(cursor string, most int) (blocks string, next string, left int, err error) {
	if err := s.look(); err != nil {
		return "", cursor, 0, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	all := s.visit.Events
	number, id, _ := strings.Cut(cursor, "-")
	from, err := strconv.Atoi(number)
	if err != nil || from < 1 || from > len(all) || all[from-1].ID != id {
		from = 0
	}
	to := min(len(all), from+most)
	if to > 0 {
		next = fmt.Sprintf("%d-%s", to, all[to-1].ID)
	}
	s.texts = append(s.texts, make([]string, max(0, to-len(s.texts)))...)
	for i := from; i < to; i++ {
		if s.texts[i] == "" {
			s.texts[i] = string(encodeEvent(all[i]))
		}
	}
	return strings.Join(s.texts[from:to], ""), next, len(all) - to, nil
}

package visit

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand"
	"os"
	"strings"
	"testing"
	"time"
)

// platter is a disk that keeps for certain only what was synced. Of what was
// written after that, a power cut leaves any of its sectors, zeros for the
// others, and any length.
type platter struct {
	durable, now []byte
	aside        []byte
	at           int
	cut          int // operations until the power is gone; negative for never
	dead         bool
}

var errPower = errors.New("the power is gone")

// step lets one operation happen, or none any more.
func (p *platter) step() error {
	if p.cut == 0 {
		p.dead = true
	}
	p.cut--
	if p.dead {
		return errPower
	}
	return nil
}

func (p *platter) Read(b []byte) (int, error) {
	if p.at == len(p.now) {
		return 0, io.EOF
	}
	n := copy(b, p.now[p.at:])
	p.at += n
	return n, nil
}

func (p *platter) ReadAt(b []byte, at int64) (int, error) { return copy(b, p.now[at:]), nil }

func (p *platter) Write(b []byte) (int, error) {
	if p.dead {
		return 0, errPower
	}
	p.now = append(p.now, b...) // under way when the power goes
	return len(b), p.step()
}

func (p *platter) Sync() error {
	if err := p.step(); err != nil {
		return err
	}
	p.durable = bytes.Clone(p.now)
	return nil
}

func (p *platter) Truncate(n int64) error {
	if p.dead {
		return errPower
	}
	p.now = p.now[:n]
	return p.step()
}

func (p *platter) Check(int64) error { return nil }
func (p *platter) Close() error      { p.at = 0; return nil }

// asideOf is the file for what is set aside. What it keeps is taken for lost
// unless it was synced before the power went.
type asideOf struct {
	p       *platter
	pending []byte
}

func (a *asideOf) Write(b []byte) (int, error) {
	a.pending = append(a.pending, b...)
	return len(b), a.p.step()
}

func (a *asideOf) Sync() error {
	if err := a.p.step(); err != nil {
		return err
	}
	a.p.aside = append(a.p.aside, a.pending...)
	return nil
}

func (a *asideOf) Close() error { return nil }
func (a *asideOf) Name() string { return "v.toml.torn" }

func (p *platter) disk() disk {
	return disk{
		func(string) (log, func(), error) { p.at = 0; return p, func() {}, nil },
		func(string) (aside, error) { return &asideOf{p: p}, nil },
	}
}

// restart is what is found when the power is back.
func (p *platter) restart(random *rand.Rand) {
	const sector = 64 // smaller than any real one, so that more can go wrong
	size := min(len(p.durable), len(p.now))
	size += random.Intn(max(len(p.durable), len(p.now)) - size + 1)
	out := make([]byte, size)
	copy(out, p.durable)
	for from := 0; from < size; from += sector {
		to := min(from+sector, size)
		if random.Intn(2) == 0 && from < len(p.now) {
			copy(out[from:to], p.now[from:min(to, len(p.now))])
		}
	}
	// What was synced stays: an append never writes into it.
	copy(out, p.durable[:min(len(p.durable), len(p.now), size)])
	p.now, p.durable, p.dead, p.cut, p.at = out, bytes.Clone(out), false, -1, 0
}

// A power cut at any operation, with the writes since the last sync reordered or
// lost at will, loses nothing that was reported as saved and invents nothing.
func TestPowerCut(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	header := encodeHeader(Header{ID: "abc", Site: "Otter Run", Date: "2024-05-31", Begun: noon})
	for seed := range int64(400) {
		random := rand.New(rand.NewSource(seed))
		p := &platter{durable: bytes.Clone(header), now: bytes.Clone(header), cut: -1}
		saved := map[string]Event{}
		tried := map[string]bool{}
		d := p.disk()
		at := noon
		put := func(b Body) {
			at = at.Add(time.Minute)
			s, err := d.append("v.toml", at, "Ada", b, random)
			tried[fmt.Sprint(b)] = true
			if err == nil {
				saved[s.Event.ID] = s.Event
			} else if !errors.Is(err, errPower) && !strings.Contains(err.Error(), errPower.Error()) {
				t.Fatalf("seed %d: %v", seed, err)
			}
		}
		put(Sample{Label: "1", Habitat: "riffle"})
		for round := range 12 {
			if random.Intn(3) == 0 {
				p.cut = random.Intn(6)
			}
			put(Identification{Sample: "1", Taxon: "perlidae", Count: 1 + round, Note: strings.Repeat("x", random.Intn(200))})
			if p.dead {
				p.restart(random)
			}
			checkSaved(t, seed, p, saved, tried)
		}
	}
}

func checkSaved(t *testing.T, seed int64, p *platter, saved map[string]Event, tried map[string]bool) {
	t.Helper()
	v, err := Parse("v.toml", p.now)
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	found := map[string]bool{}
	for _, e := range v.Events {
		if found[e.ID] || !tried[fmt.Sprint(e.Body)] {
			t.Fatalf("seed %d: event %s twice, or never entered: %+v", seed, e.ID, e)
		}
		found[e.ID] = true
	}
	for id := range saved {
		if !found[id] {
			t.Fatalf("seed %d: %s was reported as saved and is lost\n%q", seed, id, p.now)
		}
	}
}

// interloper lets another program do something between reading and writing.
type interloper struct {
	log
	do func()
}

func (b interloper) Write(p []byte) (int, error) { b.do(); return b.log.Write(p) }

func TestFileMovedOrEditedWhileOpen(t *testing.T) {
	rename := func(t *testing.T, from, to string) {
		if err := os.Rename(from, to); err != nil {
			t.Error(err)
		}
	}
	tests := []struct {
		label string
		do    func(t *testing.T, path string)
		says  string
	}{
		{"moved", func(t *testing.T, path string) { rename(t, path, path+".elsewhere") }, "NOT saved: the file was moved"},
		{"replaced, as many editors save", func(t *testing.T, path string) {
			data, _ := os.ReadFile(path)
			put(t, path+".new", append(data, "# looked at\n"...))
			rename(t, path+".new", path)
		}, "NOT saved: the file was moved or replaced"},
		{"edited in place", func(t *testing.T, path string) {
			data, _ := os.ReadFile(path)
			put(t, path, append(data, "# looked at\n"...))
		}, "may not be saved: another program changed"},
		{"deleted", func(t *testing.T, path string) { os.Remove(path) }, "NOT saved: the file was moved"},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			path := begin(t)
			add(t, path).add(Sample{Label: "1", Habitat: "riffle"})
			d := disk{func(p string) (log, func(), error) {
				f, unlock, err := openFile(p)
				return interloper{f, func() { tt.do(t, path) }}, unlock, err
			}, openBeside}
			_, err := d.append(path, noon.Add(time.Hour), "Ada", record(0), someRandom())
			if err == nil || !strings.Contains(err.Error(), tt.says) || strings.Contains(err.Error(), "\n") {
				t.Errorf("got %v, want one line with %q", err, tt.says)
			}
			if moved, err := Read(path + ".elsewhere"); err == nil && len(moved.Events) != 1 {
				t.Error("what was reported as not saved is in the moved file")
			}
		})
	}
}

//go:build unix

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"net/http"
	"net/http/cookiejar"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"sync"
	"testing"
	"time"

	"rillkey/cmd/rillkey/phone"
	"rillkey/scoring/visit"
)

// crowd is how many phones there are at a table, what each enters, and how often the
// table is killed. RILLKEY_TABLE=1 asks for those of a large class.
type crowd struct{ phones, entries, kills int }

func crowdWanted() crowd {
	if os.Getenv("RILLKEY_TABLE") != "" {
		return crowd{40, 250, 20}
	}
	return crowd{6, 12, 2}
}

// held is a real table that can be killed.
type held struct {
	t    *testing.T
	args []string
	cmd  *exec.Cmd
	told tableTold
	peak string // its memory, as the system has it
}

func (h *held) begin() {
	h.cmd = exec.Command("rillkey", h.args...)
	h.cmd.Dir = h.t.TempDir() // without the source there is no page to build
	out, err := h.cmd.StdoutPipe()
	if err != nil {
		h.t.Fatal(err)
	}
	if err := h.cmd.Start(); err != nil {
		h.t.Fatal(err)
	}
	if err := json.NewDecoder(out).Decode(&h.told); err != nil {
		h.t.Fatal(err)
	}
}

var peakLine = regexp.MustCompile(`VmHWM:\s*(\d+ kB)`)

func (h *held) kill() {
	if status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", h.cmd.Process.Pid)); err == nil {
		if m := peakLine.FindSubmatch(status); m != nil {
			h.peak = string(m[1])
		}
	}
	_ = h.cmd.Process.Kill()
	_ = h.cmd.Wait()
}

// counter is a phone in a crowd: it enters, drops out, and asks again.
type counter struct {
	name    string
	url     string
	client  *http.Client
	random  *rand.Rand
	wrong   time.Duration // its clock
	pending []visit.Event
	cursor  string
	holds   map[string]string // blocks by id
	took    []time.Duration
}

func newCounter(url string, n int) *counter {
	jar, _ := cookiejar.New(nil)
	random := rand.New(rand.NewPCG(uint64(n), 5))
	return &counter{name: fmt.Sprint("p", n), url: url, random: random,
		wrong: time.Duration(random.IntN(9000)-4500) * time.Hour, holds: map[string]string{},
		client: &http.Client{Jar: jar, Timeout: 30 * time.Second}}
}

func (c *counter) post(path string, body, answer any) error {
	text, err := json.Marshal(body)
	if err != nil {
		return err
	}
	r, err := c.client.Post(c.url+path, "application/json", bytes.NewReader(text))
	if err != nil {
		return err
	}
	defer r.Body.Close()
	if r.StatusCode != http.StatusOK {
		return fmt.Errorf("%s: %s", path, r.Status)
	}
	return json.NewDecoder(r.Body).Decode(answer)
}

func (c *counter) joins(code string) error {
	var w phone.JoinAnswer
	return c.post("/join", map[string]string{"Name": c.name, "Code": code}, &w)
}

const idLetters = "0123456789abcdefghjkmnpqrstvwxyz"

func (c *counter) enters() {
	id := make([]byte, 8)
	for i := range id {
		id[i] = idLetters[c.random.IntN(32)]
	}
	c.pending = append(c.pending, visit.Event{ID: string(id), Time: time.Now().Add(c.wrong).Round(0), Who: c.name,
		Body: visit.Identification{Sample: "1", Taxon: "baetidae", Rank: "family", Count: 1, Note: "counted by name"}})
}

// hands hands over what is pending; what was not answered stays.
func (c *counter) hands() error {
	most := min(len(c.pending), phone.MostHanded)
	h := phone.Handing{Cursor: c.cursor, Blocks: string(visit.Blocks(c.pending[:most])), Doing: "counts"}
	var a phone.Receipt
	begun := time.Now()
	if err := c.post("/hand", h, &a); err != nil {
		return err
	}
	if most > 0 {
		c.took = append(c.took, time.Since(begun))
	}
	if c.random.IntN(10) == 0 {
		return fmt.Errorf("the answer was lost")
	}
	if len(a.Refused) > 0 {
		return fmt.Errorf("refused: %v", a.Refused)
	}
	c.pending = slices.DeleteFunc(c.pending, func(e visit.Event) bool { return slices.Contains(a.Kept, e.ID) })
	events, err := visit.ParseBlocks([]byte(a.Blocks), phone.MostHanded)
	for _, e := range events {
		c.holds[e.ID] = string(visit.Blocks([]visit.Event{e}))
	}
	c.cursor = a.Cursor
	return err
}

// counts enters all its entries, out of reach two times in three.
func (c *counter) counts(entries int) {
	for range entries {
		c.enters()
		if c.random.IntN(3) == 0 {
			_ = c.hands()
		}
		time.Sleep(time.Duration(c.random.IntN(4)) * time.Millisecond)
	}
}

// A crowd counts while the table is killed again and again: nothing is lost, nothing
// is there twice, and all copies are the file's.
func TestTheTableIsKilledInTheMiddleOfACount(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	want := crowdWanted()
	_, file := begun(t)
	runIn(t, "visit", "sample", "--visit", file, "--habitat", "riffle")
	h := &held{t: t, args: []string{"table", "--json", "--visit", file, "--port", freePort(t), "--at", "127.0.0.1"}}
	h.begin()
	t.Cleanup(func() { h.kill() })
	var all []*counter
	for n := range want.phones {
		all = append(all, newCounter(h.told.Addresses[0], n))
		if err := all[n].joins(h.told.Spoken); err != nil {
			t.Fatal(err)
		}
	}
	var counting sync.WaitGroup
	for _, c := range all {
		counting.Go(func() { c.counts(want.entries) })
	}
	random := rand.New(rand.NewPCG(1, 1))
	for range want.kills {
		time.Sleep(time.Duration(20+random.IntN(120)) * time.Millisecond)
		h.kill()
		h.begin()
	}
	counting.Wait()
	for _, c := range all {
		c.rejoins(t)
	}
	for _, c := range all {
		c.rejoins(t)
	}
	h.kill()
	same(t, file, all, want)
	t.Logf("%d phones, %d entries each, %d kills; memory of the table at most %s; %s", want.phones, want.entries, want.kills,
		h.peak, answers99(t, all))
}

// rejoins hands over until nothing is left.
func (c *counter) rejoins(t *testing.T) {
	t.Helper()
	var err error
	for range 300 {
		before := c.cursor
		if err = c.hands(); err == nil && len(c.pending) == 0 && c.cursor == before {
			return
		}
		time.Sleep(20 * time.Millisecond) // as a page waits for its next try
	}
	t.Fatalf("%s still has %d entries: %v", c.name, len(c.pending), err)
}

// same holds every copy against the file.
func same(t *testing.T, file string, all []*counter, want crowd) {
	t.Helper()
	v, err := visit.Read(file)
	if err != nil {
		t.Fatal(err)
	}
	if n := 1 + want.phones*want.entries; len(v.Events) != n || len(v.Notices) > 0 {
		t.Errorf("%d entries in the file, not %d; %v", len(v.Events), n, v.Notices)
	}
	for _, c := range all {
		if len(c.holds) != len(v.Events) {
			t.Errorf("%s holds %d entries, the file %d", c.name, len(c.holds), len(v.Events))
		}
		for _, e := range v.Events {
			if c.holds[e.ID] != string(visit.Blocks([]visit.Event{e})) {
				t.Errorf("%s holds another entry %s", c.name, e.ID)
			}
		}
	}
}

// answers99 says how long the table takes for a saved answer, beside one append and
// sync of a block on the same disk.
func answers99(t *testing.T, all []*counter) string {
	var took, alone []time.Duration
	for _, c := range all {
		took = append(took, c.took...)
	}
	f, err := os.Create(filepath.Join(t.TempDir(), "alone"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	block := bytes.Repeat([]byte("x"), 300)
	for range 200 {
		begun := time.Now()
		if _, err := f.Write(block); err != nil {
			t.Fatal(err)
		}
		if err := f.Sync(); err != nil {
			t.Fatal(err)
		}
		alone = append(alone, time.Since(begun))
	}
	at := func(d []time.Duration, share float64) time.Duration {
		slices.Sort(d)
		return d[min(len(d)-1, int(share*float64(len(d))))].Round(time.Microsecond)
	}
	return fmt.Sprintf("%d saved answers: median %v, 99 in 100 within %v; one append and sync: median %v, 99 in 100 within %v",
		len(took), at(took, 0.5), at(took, 0.99), at(alone, 0.5), at(alone, 0.99))
}

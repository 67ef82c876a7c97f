package visit

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// hand is somebody with a copy of the visit, whose clock may be wrong.
type hand struct {
	name   string
	visit  *Visit
	wrong  time.Duration
	random *rand.ChaCha8
	kept   map[string]bool // what the table said it has
	cursor string
}

func newHand(t *testing.T, s *Shared, n int) *hand {
	t.Helper()
	v, err := Parse("", Encoded(s.Header()))
	if err != nil {
		t.Fatal(err)
	}
	return &hand{name: fmt.Sprint("p", n), visit: v, random: rand.NewChaCha8([32]byte{byte(n), byte(n >> 8), 7}), kept: map[string]bool{}}
}

func (h *hand) notes(t *testing.T, minute int, body Body) Event {
	t.Helper()
	e, err := h.visit.Add(noon.Add(h.wrong+time.Duration(minute)*time.Minute), h.name, body, h.random)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// pending are the own entries that the table has not said it has.
func (h *hand) pending() (out []Event) {
	for _, e := range h.visit.Events {
		if e.Who == h.name && !h.kept[e.ID] {
			out = append(out, e)
		}
	}
	return out
}

// hands gives what is pending over; lost says that the answer never comes.
func (h *hand) hands(t *testing.T, s *Shared, lost bool) {
	t.Helper()
	mine, err := ParseBlocks(Blocks(h.pending()), 1000)
	if err != nil {
		t.Fatal(err)
	}
	refused, err := s.Unite(mine)
	if err := errors.Join(append(refused, err)...); err != nil {
		t.Fatal(err)
	}
	if lost {
		return
	}
	for _, e := range mine {
		h.kept[e.ID] = true
	}
	blocks, next, _, err := s.BlocksSince(h.cursor, 1000)
	if err != nil {
		t.Fatal(err)
	}
	news, err := ParseBlocks([]byte(blocks), 1000)
	if err != nil {
		t.Fatal(err)
	}
	h.visit.Unite(news)
	h.cursor = next
}

// shared is a visit with one sample, on a disk that need not wait.
func shared(t *testing.T) (*Shared, string) {
	t.Helper()
	path := begin(t)
	add(t, path).add(Sample{Label: "1", Habitat: "riffle"})
	s, err := unsynced.share(path)
	if err != nil {
		t.Fatal(err)
	}
	return s, path
}

func nymphs(n int) Identification { return Identification{Sample: "1", Taxon: "baetidae", Count: n} }

func TestWhatIsHandedInTwiceIsThereOnce(t *testing.T) {
	s, path := shared(t)
	h := newHand(t, s, 1)
	h.hands(t, s, false)
	h.notes(t, 1, nymphs(3))
	for range 3 {
		h.hands(t, s, true)
	}
	h.hands(t, s, false)
	if v := read(t, path); len(v.Events) != 2 || len(v.Notices) > 0 {
		t.Errorf("%d events, %v", len(v.Events), v.Notices)
	}
	next := h.notes(t, 2, nymphs(1))
	if lacks := s.Lacks(h.visit.Events); len(lacks) != 1 || lacks[0].ID != next.ID {
		t.Errorf("the file lacks %v", lacks)
	}
	h.hands(t, s, false)
	if lacks := s.Lacks(h.visit.Events); len(lacks) > 0 {
		t.Errorf("the file still lacks %v", lacks)
	}
	other := h.visit.Events[1]
	other.Body = nymphs(4)
	refused, err := s.Unite([]Event{other})
	if err != nil || !errors.Is(refused[0], errTakenID) {
		t.Errorf("another entry under the same id: %v, %v", refused, err)
	}
}

// Other programs append to the same file meanwhile, and each sees the other's.
func TestTheFileStaysTheOneTruth(t *testing.T) {
	s, path := shared(t)
	h := newHand(t, s, 1)
	h.hands(t, s, false)
	for i := range 4 {
		if _, err := Append(path, noon, "laptop", nymphs(1), someRandom()); i == 0 && err != nil {
			t.Fatal(err)
		}
		h.notes(t, i, nymphs(2))
		h.hands(t, s, false)
	}
	v := read(t, path)
	if len(v.Events) != len(h.visit.Events) || len(v.Notices) > 0 {
		t.Errorf("the file has %d entries, the hand %d; %v", len(v.Events), len(h.visit.Events), v.Notices)
	}
	v.Events = nil
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	h.notes(t, 9, nymphs(1))
	if _, err := s.Unite(h.pending()); err == nil {
		t.Error("saved in a file that is gone")
	}
}

// held is a disk that counts how often it is waited for; the first time it says so
// and answers when it is let go.
type held struct {
	log
	syncs *atomic.Int64
	said  chan<- struct{}
	let   <-chan struct{}
}

func (h held) Sync() error {
	if h.syncs.Add(1) == 1 {
		h.said <- struct{}{}
		<-h.let
	}
	return nil
}

// queued says how many hands wait while the file is being written.
func (s *Shared) queued() int {
	s.queue.Lock()
	defer s.queue.Unlock()
	return len(s.waiting)
}

func TestManyThatWaitShareOneSync(t *testing.T) {
	_, path := shared(t)
	var syncs atomic.Int64
	said, let := make(chan struct{}, 1), make(chan struct{})
	s, err := disk{func(path string) (log, func(), error) {
		f, unlock, err := openFile(path)
		return held{f, &syncs, said, let}, unlock, err
	}, openBeside}.share(path)
	if err != nil {
		t.Fatal(err)
	}
	const others = 20
	var hands [1 + others]*hand
	for n := range hands {
		hands[n] = newHand(t, s, n)
		hands[n].hands(t, s, false)
		hands[n].notes(t, 0, nymphs(1))
	}
	var all sync.WaitGroup
	for n, h := range hands {
		all.Go(func() { h.hands(t, s, false) })
		if n == 0 {
			<-said
		}
	}
	for s.queued() < others {
		time.Sleep(time.Millisecond)
	}
	close(let)
	all.Wait()
	if v := read(t, path); len(v.Events) != 1+1+others || len(v.Notices) > 0 {
		t.Errorf("%d events, %v", len(v.Events), v.Notices)
	}
	if n := syncs.Load(); n != 2 {
		t.Errorf("%d syncs for the first and %d that waited", n, others)
	}
}

// dying is a disk under a program that is killed after so many bytes.
func dying(left *int) disk {
	return disk{func(path string) (log, func(), error) {
		if *left <= 0 {
			return nil, nil, errKilled
		}
		f, unlock, err := openFile(path)
		return dead{hasty{f}, left}, unlock, err
	}, unsynced.createAside}
}

var errKilled = errors.New("killed")

type dead struct {
	log
	left *int
}

func (d dead) Write(p []byte) (int, error) {
	n, err := d.log.Write(p[:min(len(p), max(*d.left, 0))])
	if *d.left -= len(p); *d.left <= 0 {
		return n, errKilled
	}
	return n, err
}

func (d dead) Truncate(n int64) error {
	if *d.left <= 0 {
		return errKilled
	}
	return d.log.Truncate(n)
}

// The program is killed at any byte of what it writes and begun anew; whoever was
// not answered hands in again.
func TestNothingIsLostOrTwiceHoweverOftenTheTableIsKilled(t *testing.T) {
	_, path := shared(t)
	random := rand.New(rand.NewPCG(1, 2))
	left := 0
	s, err := Share(path)
	if err != nil {
		t.Fatal(err)
	}
	var hands []*hand
	for n := range 5 {
		hands = append(hands, newHand(t, s, n))
		hands[n].hands(t, s, false)
	}
	killed, want := 0, 1
	for i := range 60 {
		h := hands[random.IntN(len(hands))]
		h.notes(t, i, nymphs(1))
		want++
		if left <= 0 {
			left = random.IntN(1500)
			if s, err = dying(&left).share(path); err != nil {
				left, killed = 0, killed+1
				continue
			}
		}
		if _, err := s.Unite(h.pending()); err != nil {
			killed++
		}
	}
	if s, err = unsynced.share(path); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		for _, h := range hands {
			h.hands(t, s, false)
		}
	}
	v := read(t, path)
	for _, h := range hands {
		if string(Blocks(h.visit.Events)) != string(Blocks(v.inOrder().Events)) {
			t.Errorf("%s has %d entries, the file %d", h.name, len(h.visit.Events), len(v.Events))
		}
	}
	if len(v.Events) != want || killed < 10 {
		t.Errorf("%d entries of %d after %d kills", len(v.Events), want, killed)
	}
}

// In any schedule of partitions, lost answers, retries and wrong clocks all copies
// come to the same tally as the file, which is that of the entries in any other
// order. RILLKEY_TABLE=1 runs 1,000 of them.
func TestAllSchedulesComeToOneTally(t *testing.T) {
	schedules := 60
	if testing.Short() {
		schedules = 15
	}
	if os.Getenv("RILLKEY_TABLE") != "" {
		schedules = 1000
	}
	for n := range schedules {
		schedule(t, uint64(n), anyBody)
	}
}

// Several hands, or one person's on two devices, count one record on at once: what
// it comes to is the sum of all, whatever the schedule.
func TestWhatSeveralHandsCountOnAddsUp(t *testing.T) {
	schedules := 40
	if testing.Short() {
		schedules = 10
	}
	for n := range schedules {
		total := 0
		v := schedule(t, uint64(n), func(t Tally, random *rand.Rand) Body {
			more := 1 + random.IntN(5)
			total += more
			if len(t.Records) == 0 {
				return nymphs(more)
			}
			return Amendment{Entry: t.Records[random.IntN(len(t.Records))].ID, Reason: "counted on", Change: Change{More: &more}}
		})
		got := 0
		for _, r := range v.Tally().Records {
			got += r.Count
		}
		if got != total {
			t.Errorf("schedule %d: %d animals were counted, the file has %d", n, total, got)
		}
	}
}

func schedule(t *testing.T, seed uint64, body func(Tally, *rand.Rand) Body) *Visit {
	t.Helper()
	s, path := shared(t)
	random := rand.New(rand.NewPCG(seed, 3))
	var hands []*hand
	for n := range 4 {
		h := newHand(t, s, n+10*int(seed))
		h.wrong = time.Duration(random.IntN(3)-1) * time.Duration(random.IntN(40*365*24)) * time.Hour
		h.hands(t, s, false)
		hands = append(hands, h)
	}
	for i := range 24 {
		h := hands[random.IntN(len(hands))]
		h.notes(t, i, body(h.visit.Tally(), random))
		if random.IntN(3) == 0 { // else it is out of reach
			h.hands(t, s, random.IntN(3) == 0)
		}
	}
	for range 2 {
		for _, i := range random.Perm(len(hands)) {
			hands[i].hands(t, s, false)
		}
	}
	v := read(t, path)
	want := comesTo(v)
	for _, h := range hands {
		if got := comesTo(h.visit); got != want {
			t.Fatalf("schedule %d: %s has\n%s\nthe file has\n%s", seed, h.name, got, want)
		}
	}
	random.Shuffle(len(v.Events), func(i, j int) { v.Events[i], v.Events[j] = v.Events[j], v.Events[i] })
	v.replayed = replayed{}
	if got := comesTo(v); got != want {
		t.Fatalf("schedule %d: in another order\n%s\nnot\n%s", seed, got, want)
	}
	return v
}

// anyBody is a new record, or a correction of any that this hand knows of.
func anyBody(t Tally, random *rand.Rand) Body {
	if len(t.Records) == 0 || random.IntN(2) == 0 {
		return nymphs(1 + random.IntN(5))
	}
	r := t.Records[random.IntN(len(t.Records))]
	if random.IntN(4) == 0 {
		return Amendment{Entry: r.ID, Reason: "taken out", Withdrawn: true}
	}
	n := 1 + random.IntN(50)
	return Amendment{Entry: r.ID, Reason: "counted again", Change: Change{Count: &n}}
}

// comesTo is a tally without the lines of a file.
func comesTo(v *Visit) string {
	t := v.Tally()
	t.Notices = nil
	return fmt.Sprintf("%+v %+v %+v", t.Samples, t.Records, t.Withdrawn)
}

func TestWhatAStrangerHandsInIsWholeOrNotTaken(t *testing.T) {
	s, _ := shared(t)
	h := newHand(t, s, 1)
	h.hands(t, s, false)
	h.notes(t, 1, nymphs(3))
	h.notes(t, 2, nymphs(4))
	good := Blocks(h.pending())
	if all, err := ParseBlocks(good, 2); err != nil || len(all) != 2 {
		t.Fatalf("%d entries, %v", len(all), err)
	}
	for _, bad := range [][]byte{
		good[:len(good)-9], append(slices.Clone(good), "[[event]]\n"...), []byte("<script>"), good[1+len(good)/3:], Encoded(s.Header()),
	} {
		if all, err := ParseBlocks(bad, 2); err == nil {
			t.Errorf("%d entries were taken of\n%s", len(all), bad)
		}
	}
	if _, err := ParseBlocks(good, 1); err == nil {
		t.Error("more were taken than may come at once")
	}
}

func FuzzParseBlocks(f *testing.F) {
	f.Add([]byte("\n[[event]]\nid = \"k3v9m2qa\"\nkind = \"finish\"\ntime = 2026-05-16T10:00:00Z\ncheck = \"0000000000000000\"\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		all, err := ParseBlocks(data, 10)
		if err != nil {
			return
		}
		if again, err := ParseBlocks(Blocks(all), 10); err != nil || len(again) != len(all) {
			t.Fatalf("%d entries, then %d (%v)", len(all), len(again), err)
		}
	})
}

//go:build unix

package network

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"rillkey/scoring/export/exporttest"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

// county are many invented visits of 30 entries to a hundred visits a site, over ten years.
type county struct {
	visits    int
	templates [][]byte // the events of some
	parts     [][]visit.Part
}

const countyTaxa = "perlidae baetidae hydropsychidae gammaridae elmidae oligochaeta heptageniidae chironomidae tipulidae " +
	"simuliidae asellidae physidae hirudinea rhyacophilidae"

func newCounty(t testing.TB, visits int) *county {
	c := &county{visits: visits}
	names := strings.Fields(countyTaxa)
	for n := range 300 {
		random := rand.NewChaCha8([32]byte{byte(n), byte(n >> 8), 9})
		r := rand.New(random)
		at := noon
		v, err := visit.Begin(visit.Header{Site: "any", Date: "2026-05-16", Protocol: "riffle-three", Begun: at}, random)
		if err != nil {
			t.Fatal(err)
		}
		add := func(b visit.Body) {
			if at = at.Add(time.Minute); err == nil {
				_, err = v.Add(at, "Oona", b, random)
			}
		}
		for i := range 3 {
			add(visit.Sample{Label: fmt.Sprint(i + 1), Habitat: "riffle", Area: 0.37, Said: visit.Sorted})
		}
		for i := range 26 {
			d := visit.Identification{Sample: fmt.Sprint(1 + i%3), Taxon: names[r.IntN(len(names))], Rank: "family",
				Count: 1 + r.IntN(20), Cell: "B2", Confidence: 1, Path: []string{"1a", "2b", "14a", "15b"}}
			if r.IntN(4) == 0 {
				other := names[r.IntN(len(names))]
				if other != d.Taxon {
					d.Confidence, d.Also = 0.8, []visit.Chance{{Taxon: other, Probability: 0.2}}
				}
			}
			add(d)
		}
		add(visit.Finish{})
		if err != nil {
			t.Fatal(err)
		}
		p, err := visit.PartsOf("", v.Encode())
		if err != nil {
			t.Fatal(err)
		}
		c.templates, c.parts = append(c.templates, visit.Blocks(v.Events)), append(c.parts, p.Events)
	}
	return c
}

func (c *county) id(n int) string { return fmt.Sprintf("v%07d", n) }

func (c *county) site(n int) string {
	return fmt.Sprintf("Brook %d at the ford", n%max(1, c.visits/100))
}

// text is the file of visit n.
func (c *county) text(n int) []byte {
	day := time.Date(2016+n/max(1, c.visits/100)%10, 5, 1+n%28, 10, 0, 0, 0, time.UTC)
	head := visit.Encoded(visit.Header{ID: c.id(n), Site: c.site(n), Date: day.Format(time.DateOnly), People: []string{"Oona", "Teodor"},
		Region: "north-america", Protocol: "riffle-three", CautionsRead: true, Begun: day})
	return append(head, c.templates[n%len(c.templates)]...)
}

// names are the visits of one of several senders.
func (c *county) names(sender, of int) (out []string) {
	for n := sender; n < c.visits; n += of {
		out = append(out, strconv.Itoa(n))
	}
	return out
}

func (c *county) read(name string) ([]byte, error) {
	n, err := strconv.Atoi(name)
	return c.text(n), err
}

// atOnce does something from several senders at once, and gives how long it took.
func atOnce(t *testing.T, senders int, do func(i int) error) time.Duration {
	t.Helper()
	begun := time.Now()
	var all sync.WaitGroup
	for i := range senders {
		all.Go(func() {
			if err := do(i); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	return time.Since(begun)
}

// copyRows copies the rows that sending makes, with nothing checked, into a table like that
// of the events.
func copyRows(t *testing.T, s *served, c *county) time.Duration {
	t.Helper()
	s.query("create table copied (like rillkey.events including all)")
	return atOnce(t, 8, func(i int) error {
		db := s.open("tester")
		defer db.Close()
		var rows [][]any
		mine := c.names(i, 8)
		next := func() ([]any, error) {
			for len(rows) == 0 {
				if len(mine) == 0 {
					return nil, nil
				}
				n, err := strconv.Atoi(mine[0])
				if err != nil {
					return nil, err
				}
				mine = mine[1:]
				for _, e := range c.parts[n%len(c.parts)] {
					rows = append(rows, []any{c.id(n), "mill-brook", e.ID, e.Time, e.Check, e.Text})
				}
			}
			row := rows[0]
			rows = rows[1:]
			return row, nil
		}
		_, err := db.conn.CopyFrom(context.Background(), pgx.Identifier{"copied"},
			[]string{"visit", "group_name", "event", "at", "mark", "body"}, pgx.CopyFromFunc(next))
		return err
	})
}

// spent is how much processor time something takes, of this process and of the server, so
// that other work on the machine does not count.
func spent(t *testing.T, s *served, do func()) (own, server time.Duration) {
	t.Helper()
	times := func() time.Duration {
		var u syscall.Rusage
		if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
			t.Fatal(err)
		}
		return time.Duration(u.Utime.Nano() + u.Stime.Nano())
	}
	own, server = times(), s.Spent()
	do()
	time.Sleep(100 * time.Millisecond) // until the server's processes have ended
	return times() - own, s.Spent() - server
}

func peakMemory() (mb float64) {
	f, err := os.Open("/proc/self/status")
	if err != nil {
		return 0
	}
	defer f.Close()
	for lines := bufio.NewScanner(f); lines.Scan(); {
		if rest, ok := strings.CutPrefix(lines.Text(), "VmHWM:"); ok {
			kb, _ := strconv.ParseFloat(strings.Fields(rest)[0], 64)
			mb = kb / 1024
		}
	}
	return mb
}

// TestBars measures what the network promises, with RILLKEY_NETWORK visits and syncs on; it
// takes minutes and a quiet machine.
func TestBars(t *testing.T) {
	n, _ := strconv.Atoi(os.Getenv("RILLKEY_NETWORK"))
	if n == 0 {
		t.Skip("it takes minutes; RILLKEY_NETWORK=3000 says how many visits")
	}
	t.Setenv("RILLKEY_CI", "1")
	s := startNetwork(t, exporttest.StartServer(t, "fsync=on", "shared_buffers=512MB", "max_wal_size=4GB"), 0)
	c := newCounty(t, n)
	rows := 30 * n
	rate := func(took time.Duration) float64 { return float64(rows) / took.Seconds() }
	send := func() time.Duration {
		return atOnce(t, 8, func(i int) error {
			db := s.open("mill-brook")
			defer db.Close()
			_, err := db.Send(context.Background(), c.names(i, 8), c.read, nil)
			return err
		})
	}
	measured := func(what string, do func() time.Duration) {
		var took time.Duration
		own, server := spent(t, s, func() { took = do() })
		t.Logf("%s by 8: %.0f rows/s; of processor time a row takes %.1f us here and %.1f us at the server", what, rate(took),
			own.Seconds()/float64(rows)*1e6, server.Seconds()/float64(rows)*1e6)
	}
	usual := debug.SetGCPercent(400) // as the command has it
	measured("sent", send)
	if os.Getenv("RILLKEY_COPY") != "" {
		measured("COPY", func() time.Duration { return copyRows(t, s, c) })
		s.query("drop table copied")
	}
	measured("sent again", send)
	debug.SetGCPercent(usual)
	if got := s.query("select count(*) from rillkey.events"); got != fmt.Sprintln(rows) {
		t.Errorf("there are %s rows, not %d", got, rows)
	}
	s.query("vacuum analyze")
	b := book(t)
	folder := min(n, 3000)
	var took time.Duration
	debug.SetGCPercent(40) // as the command has it
	own, _ := spent(t, s, func() { took = folderTakes(t, c, b, folder) })
	t.Logf("grading a folder of %d: %.0f visits/s, %.2f ms of processor time each", folder, float64(folder)/took.Seconds(),
		own.Seconds()/float64(folder)*1e3)
	ann := s.open("ann")
	defer ann.Close()
	debug.SetGCPercent(200) // as the command has it
	debug.FreeOSMemory()
	_ = os.WriteFile("/proc/self/clear_refs", []byte("5"), 0o200) // so that only what comes now counts
	own, server := spent(t, s, func() {
		begun := time.Now()
		if _, err := ann.Regrade(t.Context(), b, nil); err != nil {
			t.Fatal(err)
		}
		took = time.Since(begun)
	})
	t.Logf("regrading: %.0f visits/s, %.2f ms of processor time each here and %.2f at the server; the process had %.0f MB at most",
		float64(n)/took.Seconds(), own.Seconds()/float64(n)*1e3, server.Seconds()/float64(n)*1e3, peakMemory())
	debug.SetGCPercent(usual)
	s.query("vacuum analyze")
	t.Logf("list by site and year: 95th percentile %v", listTakes(t, s, c, b))
	oneVisitTakes(t, s, c, b)
}

// folderTakes is how long a folder of as many visits takes to grade.
func folderTakes(t *testing.T, c *county, b Book, n int) time.Duration {
	dir := t.TempDir()
	for i := range n {
		if err := os.WriteFile(filepath.Join(dir, c.id(i)+visit.Suffix), c.text(i), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	begun := time.Now()
	files, err := series.FindFiles(dir)
	if err != nil {
		t.Fatal(err)
	}
	table := series.GradeVisits(b.Rules, series.FileSource{Dir: dir, Files: files},
		series.Options{Today: noon, Workers: runtime.GOMAXPROCS(0)})
	if len(table.Rows) != n {
		t.Errorf("%d rows", len(table.Rows))
	}
	return time.Since(begun)
}

func listTakes(t *testing.T, s *served, c *county, b Book) time.Duration {
	db := s.open("ann")
	defer db.Close()
	var took []time.Duration
	for i := range 200 {
		year := fmt.Sprint(2016 + i%10)
		q := series.Query{Site: strings.ToLower(c.site(7 * i)), FirstDay: year, LastDay: year}
		begun := time.Now()
		all, _, err := db.Listed(t.Context(), b, q)
		if err != nil {
			t.Fatal(err)
		}
		if i > 0 {
			took = append(took, time.Since(begun))
		}
		if len(all) == 0 {
			t.Errorf("nothing at %s in %s", q.Site, year)
		}
	}
	slices.Sort(took)
	return took[len(took)*95/100]
}

// oneVisitTakes is how long one new visit takes from its file to the grades of its site.
func oneVisitTakes(t *testing.T, s *served, c *county, b Book) {
	group, ann := s.open("mill-brook"), s.open("ann")
	defer group.Close()
	defer ann.Close()
	begun := time.Now()
	if _, err := group.Send(t.Context(), []string{fmt.Sprint(c.visits + 5)}, c.read, nil); err != nil {
		t.Fatal(err)
	}
	n, err := ann.Regrade(t.Context(), b, nil)
	if err != nil || n != 1 {
		t.Errorf("%d graded: %v", n, err)
	}
	graded := time.Since(begun)
	all, _, err := ann.Listed(t.Context(), b, series.Query{Site: c.site(c.visits + 5)})
	if err != nil || len(all) < 1 {
		t.Errorf("%d listed: %v", len(all), err)
	}
	t.Logf("one new visit: graded after %v, the list of its site after %v", graded, time.Since(begun))
}

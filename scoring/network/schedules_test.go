//go:build unix

package network

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"net"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"rillkey/scoring/export/exporttest"
	"rillkey/scoring/visit"
)

// cutting is a connection that is cut after so many bytes.
type cutting struct {
	net.Conn
	left *atomic.Int64
}

var errCut = errors.New("the network is cut")

func (c cutting) Write(p []byte) (int, error) {
	if c.left.Add(-int64(len(p))) < 0 {
		_, _ = c.Conn.Write(p[:len(p)/2])
		c.Conn.Close()
		return 0, errCut
	}
	return c.Conn.Write(p)
}

// schedule is one way in which eight laptops send what they have of some visits.
type schedule struct {
	*served
	random *rand.Rand
	visits []*visit.Visit
	copies [8]map[string]*visit.Visit
}

func newSchedule(s *served, seed uint64) *schedule {
	c := &schedule{served: s, random: rand.New(rand.NewPCG(seed, 5))}
	for i := range 4 + c.random.IntN(6) {
		v := invented(s.t, int(seed)*100+i)
		c.visits = append(c.visits, v)
		for n, some := range laptops(v, c.random, 8) {
			if c.copies[n] == nil {
				c.copies[n] = map[string]*visit.Visit{}
			}
			c.copies[n][fmt.Sprint(i)] = some
		}
	}
	return c
}

// send is one laptop that sends until all is there: it is stopped or cut off on the way, and
// begins anew.
func (c *schedule) send(n int, seed uint64) error {
	random := rand.New(rand.NewPCG(seed, uint64(n)))
	begun := time.Now()
	for try := 0; ; try++ {
		err := c.once(n, random, try)
		if err == nil || time.Since(begun) > time.Minute {
			return err
		}
		time.Sleep(time.Duration(random.IntN(20+10*try)) * time.Millisecond)
	}
}

func (c *schedule) once(n int, random *rand.Rand, try int) error {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	conf := c.conf("mill-brook")
	if try < 3 && random.IntN(2) == 0 { // the network is cut
		left := &atomic.Int64{}
		left.Store(int64(1000 + random.IntN(60_000)))
		dial := conf.DialFunc
		conf.DialFunc = func(ctx context.Context, network, addr string) (net.Conn, error) {
			conn, err := dial(ctx, network, addr)
			return cutting{conn, left}, err
		}
	}
	if try < 3 && random.IntN(2) == 0 { // the sender is stopped
		stopped := time.AfterFunc(time.Duration(random.IntN(30))*time.Millisecond, cancel)
		defer stopped.Stop()
	}
	db, err := Open(ctx, conf, quiet)
	if err != nil {
		return err
	}
	defer db.Close()
	db.Retries, db.Pause = random.IntN(3), time.Millisecond
	files, read := texts(c.copies[n])
	random.Shuffle(len(files), func(i, j int) { files[i], files[j] = files[j], files[i] })
	for _, file := range files { // a transaction for each, so that there are many to be cut
		if _, err := db.Send(ctx, []string{file}, read, nil); err != nil {
			return err
		}
	}
	return nil
}

// run runs the schedule, the server being killed on the way if asked, and holds what is there
// against the union.
func (c *schedule) run(seed uint64, killServer bool) {
	t := c.t
	var all sync.WaitGroup
	for n := range c.copies {
		all.Go(func() {
			if err := c.send(n, seed); err != nil {
				t.Errorf("schedule %d, sender %d: %v", seed, n, err)
			}
		})
	}
	if killServer {
		time.Sleep(time.Duration(5+c.random.IntN(40)) * time.Millisecond)
		c.Kill()
		c.Start()
	}
	all.Wait()
	got := c.all("mill-brook")
	for i, v := range c.visits {
		var copies []*visit.Visit
		for n := range c.copies {
			copies = append(copies, c.copies[n][fmt.Sprint(i)])
		}
		merged, _, err := visit.Unite(copies, false)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got["mill-brook/"+v.Header.ID], merged.Encode()) {
			t.Errorf("schedule %d: visit %d is not the union", seed, i)
		}
	}
}

// Eight laptops send at once, are stopped and cut off, and the server is killed: what is there
// in the end is what merging all files gives, to the byte, and nothing is there twice.
func eightSendersWithKillsAndCuts(s *served) {
	t := s.t
	many, kill := 6, 3
	if n, err := strconv.Atoi(os.Getenv("RILLKEY_NETWORK_SCHEDULES")); err == nil {
		many, kill = n, 4
	}
	killed := 0
	for seed := range many {
		kills := seed%kill == kill-1
		if kills {
			killed++
		}
		newSchedule(s, uint64(seed)+1).run(uint64(seed)+1, kills)
		if seed%20 == 19 { // what was compared need not be read again
			s.query("truncate rillkey.events, rillkey.headers, rillkey.arrivals, rillkey.ungraded")
		}
	}
	t.Logf("%d schedules, %d with a killed server", many, killed)
}

// A full disk at the server is told in plain words; what was sent before is there, and the rest
// goes when there is room.
func aFullDiskAtTheServer(s *served) {
	t := s.t
	if os.Geteuid() != 0 {
		t.Skip("a small disk can be made by the administrator alone")
	}
	small := s.Dir() + "/small"
	if err := os.Mkdir(small, 0o700); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size=2m,mode=0777", "none", small).CombinedOutput(); err != nil {
		t.Skipf("no small disk can be mounted here: %s", out)
	}
	t.Cleanup(func() { _ = exec.Command("umount", "--lazy", small).Run() })
	if out, err := exec.Command("chown", "--reference="+s.Dir(), small).CombinedOutput(); err != nil {
		t.Fatalf("%s", out)
	}
	s.Run("psql", "-d", s.name, "-c", "create tablespace small location '"+small+"'")
	s.query("alter table rillkey.events set tablespace small")
	db := s.open("mill-brook")
	defer db.Close()
	db.Retries = 0
	c := newCounty(t, 300)
	r, err := db.Send(t.Context(), c.names(0, 1), c.read, nil)
	if err == nil || !strings.Contains(err.Error(), "disk of the database server is full") {
		t.Fatalf("%d were sent, %v", r.Visits, err)
	}
	if got := s.query("select count(*) from rillkey.events"); got != fmt.Sprintln(r.New) {
		t.Errorf("%d are told to be there, and there are %s", r.New, got)
	}
	s.query("alter table rillkey.events set tablespace pg_default; checkpoint")
	s.query("drop tablespace small")
	again, err := db.Send(t.Context(), c.names(0, 1), c.read, nil)
	if err != nil || again.New != 30*300-r.New {
		t.Errorf("then %d are new, %v", again.New, err)
	}
}

// The five lines of DEVELOPERS.md that back a network up and restore it.
func backUpAndRestore(s *served) {
	t := s.t
	db := s.open("mill-brook")
	sends(t, db, map[string]*visit.Visit{"a": invented(t, 1), "b": invented(t, 2)})
	db.Close()
	before := s.all("ann")
	text, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, lines, found := strings.Cut(string(text), "<!-- back-up -->\n\n")
	lines, _, _ = strings.Cut(lines, "\n\n")
	if n := strings.Count(strings.TrimSpace(lines), "\n") + 1; !found || n != 5 {
		t.Fatalf("DEVELOPERS.md has %d lines for a back-up", n)
	}
	for _, line := range strings.Split(strings.TrimSpace(lines), "\n") {
		line = strings.ReplaceAll(strings.TrimSpace(line), "streams", s.name)
		s.Run("sh", "-c", "export PGDATABASE=postgres; "+line)
	}
	after := s.all("ann")
	if len(after) != 2 || fmt.Sprint(after) != fmt.Sprint(before) {
		t.Errorf("%d visits came back", len(after))
	}
	if got := s.tries("rob", "select * from rillkey.events"); got != 0 {
		t.Error("who may what did not come back")
	}
}

// Events parted by the visit over two servers: sixteen parts, eight of them foreign tables of the
// second.
func sixteenPartsOverTwoServers(s *served) {
	t := s.t
	second := exporttest.StartServer(t, "fsync=off")
	second.Query("create schema rillkey")
	columns := "visit text not null, group_name text not null default session_user, event text not null, at timestamptz not " +
		"null, mark text not null, body text not null"
	s.query(`alter table rillkey.events rename to events_before;
create extension postgres_fdw;
create server second foreign data wrapper postgres_fdw options (host '` + second.Dir() + `', dbname 'postgres');
create user mapping for public server second options (user 'tester', password_required 'false');
create table rillkey.events (` + columns + `) partition by hash (visit)`)
	for i := range 16 {
		part := fmt.Sprintf("rillkey.events_%d", i)
		of := fmt.Sprintf("partition of rillkey.events for values with (modulus 16, remainder %d)", i)
		if i < 8 {
			s.query(fmt.Sprintf("create table %s %s; alter table %[1]s add primary key (visit, group_name, event)", part, of))
			continue
		}
		second.Query(fmt.Sprintf("create table %s (%s, primary key (visit, group_name, event))", part, columns))
		s.query(fmt.Sprintf("create foreign table %s %s server second options (schema_name 'rillkey', table_name "+
			"'events_%d')", part, of, i))
	}
	s.query(`grant select, insert on rillkey.events to rillkey_group; grant select on rillkey.events to rillkey_coordinator;
alter table rillkey.events enable row level security;
create policy own_read on rillkey.events for select to rillkey_group using (group_name = session_user);
create policy own_add on rillkey.events for insert to rillkey_group with check (group_name = session_user);
create policy all_read on rillkey.events for select to rillkey_coordinator using (true)`)
	whatIsSentIsTheUnion(s)
	here, there := 0, 0
	for i := range 16 {
		query, on, n := fmt.Sprintf("select count(*) from rillkey.events_%d", i), s.query, &here
		if i >= 8 {
			on, n = second.Query, &there
		}
		rows, err := strconv.Atoi(strings.TrimSpace(on(query)))
		if err != nil {
			t.Fatal(err)
		}
		*n += rows
	}
	if here == 0 || there == 0 {
		t.Errorf("one server has %d events, the other %d", here, there)
	}
	ann := s.open("ann")
	defer ann.Close()
	if n, err := ann.Regrade(t.Context(), book(t), nil); err != nil || n != 12 {
		t.Errorf("%d graded, %v", n, err)
	}
}

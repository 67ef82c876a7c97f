//go:build unix

package network

import (
	"bytes"
	"context"
	"fmt"
	"log/slog"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"rillkey/scoring/export/exporttest"
	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

var quiet = slog.New(slog.DiscardHandler)

// served is a database with a network and who is in it.
type served struct {
	*exporttest.Server
	t    *testing.T
	name string // of the database
}

// needsServer skips a test that starts a server, unless it is wanted.
func needsServer(t *testing.T) {
	t.Helper()
	if os.Getenv("RILLKEY_CI") != "1" {
		t.Skip("it starts a database server, which RILLKEY_CI=1 asks for")
	}
}

// On one server, each test has a database of its own; those that kill or stop it come last.
func TestOnAServer(t *testing.T) {
	needsServer(t)
	server := exporttest.StartServer(t, "fsync="+syncing())
	for _, test := range []struct {
		name string
		run  func(*served)
	}{
		{"what is sent is the union", whatIsSentIsTheUnion},
		{"in parts too", inPartsToo},
		{"visits that were joined are one", visitsThatWereJoinedAreOne},
		{"what is unsound is kept apart", whatIsUnsoundIsKeptApart},
		{"foreign rows are not counted", foreignRowsAreNotCounted},
		{"hostile texts are kept apart", hostileTextsAreKeptApart},
		{"schemas of other programs", schemasOfOtherPrograms},
		{"begun at once", begunAtOnce},
		{"only what is touched is graded again", onlyWhatIsTouchedIsGradedAgain},
		{"readers see no person and no obscured place", readersSeeNoPersonAndNoObscuredPlace},
		{"the same numbers", theSameNumbers},
		{"nobody gets at what is not theirs", nobodyGetsAtWhatIsNotTheirs},
		{"clocks that are wrong", clocksThatAreWrong},
		{"back-up and restore", backUpAndRestore},
		{"sixteen parts over two servers", sixteenPartsOverTwoServers},
		{"a full disk at the server", aFullDiskAtTheServer},
		{"eight senders with kills and cuts", eightSendersWithKillsAndCuts},
		{"a server that is gone", aServerThatIsGone},
	} {
		t.Run(test.name, func(t *testing.T) { test.run(startNetwork(t, server, 0)) })
	}
}

// syncing tells whether the server writes through to its disk: not for a few schedules, since a
// process that is killed loses nothing that the system has, but where they are measured.
func syncing() string {
	if os.Getenv("RILLKEY_NETWORK_SCHEDULES") != "" {
		return "on"
	}
	return "off"
}

// startNetwork begins a network in a new database, in which mill-brook and tan-yard are
// groups, ann coordinates and rob reads.
func startNetwork(t *testing.T, server *exporttest.Server, parts int) *served {
	t.Helper()
	s := &served{server, t, fmt.Sprintf("n%d", databases.Add(1))}
	server.Query("create database " + s.name)
	if _, err := Migrate(t.Context(), s.conf("tester"), quiet, parts); err != nil {
		t.Fatal(err)
	}
	s.admitAll()
	return s
}

var databases atomic.Int32

// query runs a script as the owner.
func (s *served) query(script string) string {
	s.t.Helper()
	return s.Query(`\c ` + s.name + "\n" + script)
}

func (s *served) admitAll() {
	s.t.Helper()
	owner := s.open("tester")
	defer owner.Close()
	for name, as := range map[string]Role{"mill-brook": roleGroup, "tan-yard": roleGroup, "ann": roleCoordinator, "rob": roleReader} {
		if err := owner.Admit(s.t.Context(), name, as); err != nil {
			s.t.Fatal(err)
		}
	}
}

func (s *served) conf(user string) *pgx.ConnConfig {
	s.t.Helper()
	conf, err := pgx.ParseConfig(s.URL(user))
	if err != nil {
		s.t.Fatal(err)
	}
	conf.Database = s.name
	return conf
}

func (s *served) open(user string) *DB {
	s.t.Helper()
	db, err := Open(context.Background(), s.conf(user), quiet)
	if err != nil {
		s.t.Fatal(err)
	}
	return db
}

var noon = time.Date(2026, 5, 16, 12, 0, 0, 0, time.UTC)

// invented is a small visit, always the same for the same number.
func invented(t testing.TB, n int) *visit.Visit {
	t.Helper()
	random := rand.NewChaCha8([32]byte{byte(n), byte(n >> 8), byte(n >> 16), 3})
	at := noon.AddDate(0, 0, -n%3000)
	v, err := visit.Begin(visit.Header{Site: fmt.Sprintf("Brook %d", n%7), Date: at.Format(time.DateOnly),
		People:   []string{"Oona", "Teodor"},
		Protocol: "riffle-three", Region: "north-america", CautionsRead: true, Begun: at}, random)
	if err != nil {
		t.Fatal(err)
	}
	add := func(minute int, b visit.Body) visit.Event {
		e, err := v.Add(at.Add(time.Duration(minute)*time.Minute), "Oona", b, random)
		if err != nil {
			t.Fatal(err)
		}
		return e
	}
	for i := range 3 {
		add(i, visit.Sample{Label: fmt.Sprint(i + 1), Habitat: "riffle", Area: 0.37, Said: visit.Sorted})
	}
	var last visit.Event
	for i, taxon := range []string{"perlidae", "baetidae", "hydropsychidae", "gammaridae", "elmidae", "oligochaeta"} {
		last = add(10+i, visit.Identification{
			Sample: fmt.Sprint(1 + i%3), Taxon: taxon, Rank: "family", Count: 1 + (n+i)%9, Confidence: 0.9, Path: []string{"1a", "2b"}})
	}
	count := 3
	add(30, visit.Amendment{Entry: last.ID, Reason: "counted again", Change: visit.Change{Count: &count}})
	return v
}

// laptops are copies of a visit that each lack some of its events.
func laptops(v *visit.Visit, random *rand.Rand, n int) (out []*visit.Visit) {
	for range n {
		var some []visit.Event
		for _, e := range v.Events {
			if random.IntN(3) > 0 {
				some = append(some, e)
			}
		}
		out = append(out, v.Recast(v.Written(), some))
	}
	return out
}

// texts gives the text of visits by names.
func texts(visits map[string]*visit.Visit) (files []string, read func(string) ([]byte, error)) {
	for name := range visits {
		files = append(files, name)
	}
	slices.Sort(files)
	return files, func(name string) ([]byte, error) { return visits[name].Encode(), nil }
}

// all are the texts of the visits that somebody may read, by their names.
func (s *served) all(user string) map[string][]byte {
	s.t.Helper()
	db := s.open(user)
	defer db.Close()
	keys, err := db.Keys(s.t.Context())
	if err != nil {
		s.t.Fatal(err)
	}
	out := map[string][]byte{}
	err = db.Source(s.t.Context(), keys).Each(func(i series.Item) bool {
		v, err := i.Read()
		if err != nil {
			s.t.Fatal(err)
		}
		out[i.Name] = v.Encode()
		return true
	})
	if err != nil {
		s.t.Fatal(err)
	}
	return out
}

func sends(t *testing.T, db *DB, visits map[string]*visit.Visit) SendResult {
	t.Helper()
	files, read := texts(visits)
	r, err := db.Send(t.Context(), files, read, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// What laptops send, in any order and twice, is what merging their files gives, to the byte.
func whatIsSentIsTheUnion(s *served) {
	t := s.t
	db := s.open("mill-brook")
	defer db.Close()
	random := rand.New(rand.NewPCG(1, 2))
	want := map[string][]byte{}
	for n := range 12 {
		v := invented(t, n)
		copies := laptops(v, random, 3)
		merged, _, err := visit.Unite(copies, false)
		if err != nil {
			t.Fatal(err)
		}
		want["mill-brook/"+v.Header.ID] = merged.Encode()
		for _, i := range []int{2, 0, 1, 0} {
			sends(t, db, map[string]*visit.Visit{"v": copies[i]})
		}
	}
	got := s.all("mill-brook")
	if len(got) != len(want) {
		t.Errorf("%d visits, not %d", len(got), len(want))
	}
	for name, text := range want {
		if !bytes.Equal(got[name], text) {
			t.Errorf("%s is\n%s\nnot\n%s", name, got[name], text)
		}
	}
	if got := s.all("tan-yard"); len(got) != 0 {
		t.Errorf("another group reads %d visits", len(got))
	}
	if got := s.all("ann"); len(got) != len(want) {
		t.Errorf("the coordinator reads %d visits", len(got))
	}
}

// So it is in tables that are parted by the visit.
func inPartsToo(s *served) {
	parted := startNetwork(s.t, s.Server, 16)
	whatIsSentIsTheUnion(parted)
	if got := parted.query("select count(*) from pg_inherits where inhparent = 'rillkey.events'::regclass"); got != "16\n" {
		s.t.Errorf("the events are in %s parts", got)
	}
}

// A visit that was joined of two that were begun apart is one visit again, whichever of its
// files came first.
func visitsThatWereJoinedAreOne(s *served) {
	t := s.t
	db := s.open("mill-brook")
	defer db.Close()
	a, b := invented(t, 1), invented(t, 2)
	joined, _, err := visit.Unite([]*visit.Visit{a, b}, true)
	if err != nil {
		t.Fatal(err)
	}
	sends(t, db, map[string]*visit.Visit{"a": a, "b": b})
	if got := s.all("mill-brook"); len(got) != 2 {
		t.Fatalf("%d visits before they are joined", len(got))
	}
	sends(t, db, map[string]*visit.Visit{"joined": joined})
	got := s.all("mill-brook")
	for _, text := range got {
		if len(got) != 1 || !bytes.Equal(text, joined.Encode()) {
			t.Errorf("%d visits, one is\n%s\nnot\n%s", len(got), text, joined.Encode())
		}
	}
}

// What fails its checksum or a rule is kept apart with the reason, and told; the rest is
// sent.
func whatIsUnsoundIsKeptApart(s *served) {
	t := s.t
	db := s.open("mill-brook")
	defer db.Close()
	v := invented(t, 5)
	sound := string(v.Encode())
	cases := []struct{ name, text, want string }{
		{"by hand", strings.Replace(sound, `taxon = "perlidae"`, `taxon = "sialidae"`, 1), "changed by hand"},
		{"torn", sound[:len(sound)-40], "lacks its checksum"},
		{"header by hand", strings.Replace(sound, `site = "Brook 5"`, `site = "Brook 6"`, 1), "header was changed by hand"},
		{"hostile", strings.Replace(sound, `reason = "counted again"`, "reason = \"\x1b[2J\x00\"", 1), ""},
	}
	for _, c := range cases {
		r, err := db.Send(t.Context(), []string{c.name}, func(string) ([]byte, error) { return []byte(c.text), nil }, nil)
		if err != nil || len(r.Refused) != 1 || !strings.Contains(r.Refused[0].Reason, c.want) {
			t.Errorf("%s: %+v, %v", c.name, r, err)
		}
	}
	other, err := visit.ParseBlocks(visit.Blocks(v.Events[3:4]), 1)
	if err != nil {
		t.Fatal(err)
	}
	d := other[0].Body.(visit.Identification)
	d.Count++
	other[0].Body = d
	r := sends(t, db, map[string]*visit.Visit{"twice": v.Recast(v.Written(), other)})
	if len(r.Refused) != 1 || !strings.Contains(r.Refused[0].Reason, "says something else") {
		t.Errorf("%+v", r)
	}
	if got := s.query("select count(*), count(distinct reason) from rillkey.refused"); got != "5,5\n" {
		t.Errorf("the network keeps apart %s", got)
	}
	got := s.all("mill-brook")
	if len(got) != 1 || !bytes.Equal(got["mill-brook/"+v.Header.ID], []byte(sound)) {
		t.Errorf("%s", got)
	}
}

// A row that a group wrote past this program is told and not counted, and costs no other.
func foreignRowsAreNotCounted(s *served) {
	t := s.t
	db := s.open("mill-brook")
	defer db.Close()
	v := invented(t, 6)
	sends(t, db, map[string]*visit.Visit{"v": v})
	whole := string(visit.Blocks(v.Events[:2]))
	for i, body := range []string{"", "[visit]\n", "x = 1\n", whole, whole[1:], strings.Repeat("[[event]]\n", 3000),
		"[[event]]\ncheck = \"0123456789abcdef\"\n"} {
		if _, err := db.conn.Exec(t.Context(),
			`insert into rillkey.events (visit, event, at, mark, body) values ($1, $2, now(), '0123456789abcdef', $3)`,
			v.Header.ID, fmt.Sprintf("hostile%d", i), body); err != nil {
			t.Fatal(err)
		}
	}
	if got := s.all("mill-brook")["mill-brook/"+v.Header.ID]; !bytes.Equal(got, v.Encode()) {
		t.Errorf("it reads\n%s", got)
	}
}

// Another version of the schema is said in plain words, and nothing is done.
func schemasOfOtherPrograms(s *served) {
	t := s.t
	for change, want := range map[string]string{
		"insert into rillkey.migrations (number, name) values (999, 'later')": "newer",
		"delete from rillkey.migrations where number > 1":                     "older",
		"drop schema rillkey cascade":                                         "no network of groups yet",
	} {
		s.query("delete from rillkey.migrations where number = 999; insert into rillkey.migrations (number, name) values (2, " +
			"'') on conflict do nothing")
		s.query(change)
		_, err := Open(t.Context(), s.conf("mill-brook"), quiet)
		if err == nil || !strings.Contains(err.Error(), want) && !strings.Contains(err.Error(), "may not do that") {
			t.Errorf("%s: %v", change, err)
		}
		if want == "newer" {
			if _, err := Migrate(t.Context(), s.conf("tester"), quiet, 0); err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("begin: %v", err)
			}
		}
		if want == "no network of groups yet" {
			break
		}
	}
}

// Several who begin a network at once wait for each other, and it is begun once.
func begunAtOnce(s *served) {
	t := s.t
	s.query("drop schema rillkey cascade")
	failed := make(chan error)
	for range 6 {
		go func() { _, err := Migrate(t.Context(), s.conf("tester"), quiet, 0); failed <- err }()
	}
	for range 6 {
		if err := <-failed; err != nil {
			t.Error(err)
		}
	}
	if got := s.query("select count(*), max(number) from rillkey.migrations"); got != fmt.Sprintf("%d,%[1]d\n", SchemaVersion()) {
		t.Errorf("the steps are %s", got)
	}
}

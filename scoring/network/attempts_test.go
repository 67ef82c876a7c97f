//go:build unix

package network

import (
	"fmt"
	"strings"

	"rillkey/scoring/series"
	"rillkey/scoring/visit"
)

// attempts are what somebody may try in a session of their own to read or write what is not
// theirs: "mill-brook" tries for "tan-yard", "rob" reads, "ann" coordinates, "stranger" is let
// into the database and into nothing. A query that gives no row has not succeeded, nor has one
// that fails.
var attempts = map[string][]string{
	"mill-brook": {
		`select * from rillkey.events where group_name = 'tan-yard'`,
		`select * from rillkey.headers where group_name = 'tan-yard'`,
		`select * from rillkey.arrivals where group_name = 'tan-yard'`,
		`select * from rillkey.refused where group_name = 'tan-yard'`,
		`select * from rillkey.obscured where group_name = 'tan-yard'`,
		`select * from rillkey.grades where group_name = 'tan-yard'`,
		`select * from rillkey.sites where group_name = 'tan-yard'`,
		`select * from rillkey.ungraded where group_name = 'tan-yard'`,
		`select * from rillkey.open_grades`,
		`select * from (select max(body) as b from rillkey.events where group_name <> 'mill-brook') x where b is not null`,
		`select 1 where exists (select 1 from rillkey.events where group_name <> session_user)`,
		`select body from rillkey.events e where strpos(body, 'Teodor-of-tan-yard') > 0`,
		`select 1 from rillkey.events where group_name = 'tan-yard' and 1 / (length(body) - length(body)) = 0`,
		`set row_security = off; select * from rillkey.events where group_name = 'tan-yard'`,
		`set role "tan-yard"; select * from rillkey.events`,
		`set role rillkey_coordinator; select * from rillkey.events`,
		`set role rillkey_group; select * from rillkey.events where group_name = 'tan-yard'`,
		`set role tester; select * from rillkey.events`,
		`set session authorization "tan-yard"; select * from rillkey.events`,
		`insert into rillkey.events (visit, group_name, event, at, mark, body)
			values ('v', 'tan-yard', 'e', now(), '0123456789abcdef', 'x') returning 1`,
		`insert into rillkey.headers (visit, group_name, mark, body) values ('v', 'tan-yard', '0123456789abcdef', 'x') returning 1`,
		`insert into rillkey.arrivals (visit, group_name, events) values ('v', 'tan-yard', 1) returning 1`,
		`insert into rillkey.refused (visit, group_name, mark, file, line, reason, body)
			values ('v', 'tan-yard', 'm', 'f', 1, 'r', 'b') returning 1`,
		`insert into rillkey.obscured (visit, group_name, site) values ('v', 'tan-yard', 's') returning 1`,
		`insert into rillkey.grades select * from rillkey.grades returning 1`,
		`insert into rillkey.ungraded (visit, group_name, arrival) values ('v', 'tan-yard', gen_random_uuid()) returning 1`,
		`insert into rillkey.sites (site, group_name) values ('s', 'mill-brook') returning 1`,
		`insert into rillkey.books (book) values ('b') returning 1`,
		`insert into rillkey.migrations (number, name) values (99, 'n') returning 1`,
		`insert into rillkey.events select visit, 'mill-brook', event, at, mark, body from rillkey.events
			where group_name = 'tan-yard' returning 1`,
		`insert into rillkey.events select visit, 'tan-yard', 'new', at, mark, body from rillkey.events on conflict do nothing returning 1`,
		`update rillkey.events set body = 'x' returning 1`,
		`update rillkey.events set group_name = 'mill-brook' where group_name = 'tan-yard' returning 1`,
		`update rillkey.headers set body = 'x' returning 1`,
		`update rillkey.grades set rating = 'excellent' returning 1`,
		`delete from rillkey.events returning 1`,
		`delete from rillkey.ungraded returning 1`,
		`delete from rillkey.headers where group_name = 'tan-yard' returning 1`,
		`truncate rillkey.events; select 1`,
		`drop table rillkey.events; select 1`,
		`alter table rillkey.events disable row level security; select 1`,
		`drop policy own_read on rillkey.events; select 1`,
		`create policy all_mine on rillkey.events for select using (true); select 1`,
		`grant rillkey_coordinator to "mill-brook"; select 1`,
		`alter role "mill-brook" superuser; select 1`,
		`alter role "mill-brook" bypassrls; select 1`,
		`create view rillkey.mine as select * from rillkey.events; select 1`,
		`create table rillkey.mine (x integer); select 1`,
		`create function rillkey.f() returns integer language sql security definer as 'select 1'; select 1`,
		`copy rillkey.events to program 'cat'; select 1`,
		`select * from pg_stats where schemaname = 'rillkey' and tablename = 'events' and attname = 'body'`,
		`select pg_read_file('pg_hba.conf')`,
		`lock table rillkey.events in access exclusive mode; select 1`,
	},
	"rob": {
		`select * from rillkey.events`,
		`select * from rillkey.headers`,
		`select * from rillkey.grades`,
		`select * from rillkey.refused`,
		`select * from rillkey.arrivals`,
		`select * from rillkey.obscured`,
		`select * from rillkey.sites`,
		`select people from rillkey.open_grades`,
		`select reference from rillkey.open_grades`,
		`select * from rillkey.open_grades g where g::text like '%Teodor-of-tan-yard%'`,
		`select * from rillkey.open_grades g where g::text like '%Otter%'`,
		`select * from rillkey.open_grades where latitude not in (51.2)`,
		`update rillkey.open_grades set rating = 'excellent' returning 1`,
		`insert into rillkey.events (visit, event, at, mark, body) values ('v', 'e', now(), '0123456789abcdef', 'x') returning 1`,
		`set role rillkey_group; select * from rillkey.events`,
		`select view_definition from information_schema.views where table_name = 'open_grades' and view_definition is not null`,
	},
	"ann": {
		`insert into rillkey.events (visit, event, at, mark, body) values ('v', 'e', now(), '0123456789abcdef', 'x') returning 1`,
		`update rillkey.events set body = 'x' returning 1`,
		`delete from rillkey.events returning 1`,
		`delete from rillkey.grades returning 1`,
		`delete from rillkey.refused returning 1`,
		`truncate rillkey.grades; select 1`,
	},
	"stranger": {
		`select * from rillkey.events`,
		`select * from rillkey.open_grades`,
		`select * from rillkey.migrations`,
		`insert into rillkey.events (visit, event, at, mark, body) values ('v', 'e', now(), '0123456789abcdef', 'x') returning 1`,
	},
}

// Nobody reads or writes what is not theirs, whatever they try; and what was there is there
// afterwards, to the byte.
func nobodyGetsAtWhatIsNotTheirs(s *served) {
	t := s.t
	for _, name := range []string{"mill-brook", "tan-yard"} {
		db := s.open(name)
		v := invented(t, len(name))
		h := v.Written()
		h.Site, h.People, h.Obscured = "Otter Pool", []string{"Teodor-of-" + name}, true
		h.Spot = &visit.Spot{Latitude: 51.23456, Longitude: -2.34567}
		sends(t, db, map[string]*visit.Visit{"v": v.Recast(h, v.Events)})
		if _, err := db.conn.Exec(t.Context(),
			`insert into rillkey.refused (visit, mark, file, line, reason, body) values ('v', 'm', 'f', 1, 'r', 'b')`); err != nil {
			t.Fatal(err)
		}
		db.Close()
	}
	ann := s.open("ann")
	if _, err := ann.Regrade(t.Context(), book(t), nil); err != nil {
		t.Fatal(err)
	}
	ann.Close()
	if len(s.asked("rob", book(t), series.Query{})) != 2 || len(s.all("mill-brook")) != 1 {
		t.Fatal("those who may see something see nothing")
	}
	s.query(`do $$ begin if not exists (select 1 from pg_roles where rolname = 'stranger') then create role stranger login; end if; end $$`)
	s.query("vacuum analyze")
	before := fmt.Sprint(s.all("ann"), s.query("select * from rillkey.grades order by 1, 2"))
	tried := 0
	for who, all := range attempts {
		for _, attempt := range all {
			tried++
			if rows := s.tries(who, attempt); rows > 0 {
				t.Errorf("%s gets %d rows by %s", who, rows, attempt)
			}
		}
	}
	if after := fmt.Sprint(s.all("ann"), s.query("select * from rillkey.grades order by 1, 2")); after != before {
		t.Error("something that was there is another now")
	}
	if tried < 60 {
		t.Errorf("only %d attempts", tried)
	}
	t.Logf("%d attempts", tried)
}

// tries runs an attempt in a session of somebody, and gives how many rows its last statement
// gives; 0 where it fails.
func (s *served) tries(who, attempt string) (rows int) {
	s.t.Helper()
	conf := s.conf(who)
	db := &DB{conf: conf, log: quiet}
	if err := db.connect(s.t.Context()); err != nil {
		s.t.Fatal(err)
	}
	defer db.Close()
	statements := strings.Split(attempt, "; ")
	for _, one := range statements[:len(statements)-1] {
		if _, err := db.conn.Exec(s.t.Context(), one); err != nil {
			return 0
		}
	}
	tag, err := db.conn.Exec(s.t.Context(), statements[len(statements)-1])
	if err != nil {
		return 0
	}
	return int(tag.RowsAffected())
}

-- Visits as groups sent them: nothing here is ever changed or deleted by a group.
-- Every key begins with the visit, so that each table can be parted by its hash.
create table rillkey.headers (
	visit      text not null check (length(visit) between 1 and 64),
	group_name text not null default session_user,
	mark       text not null check (length(mark) = 16), -- the checksum that stands in body
	body       text not null check (octet_length(body) <= 65536),
	primary key (visit, group_name, mark)
) /*hash*/;

create table rillkey.events (
	visit      text not null check (length(visit) between 1 and 64),
	group_name text not null default session_user,
	event      text not null check (length(event) between 1 and 64),
	at         timestamptz not null, -- what the clock showed where it was recorded
	mark       text not null check (length(mark) = 16),
	body       text not null check (octet_length(body) <= 65536),
	primary key (visit, group_name, event)
) /*hash*/;

-- Each time something new of a visit came.
create table rillkey.arrivals (
	visit      text not null check (length(visit) between 1 and 64),
	group_name text not null default session_user,
	arrival    uuid not null default gen_random_uuid(),
	arrived    timestamptz not null default now(),
	events     integer not null,
	primary key (visit, group_name, arrival)
) /*hash*/;
create index arrivals_arrived on rillkey.arrivals (arrived);

-- What came of visits since they were graded last; whoever grades them takes it out.
create table rillkey.ungraded (
	visit      text not null check (length(visit) between 1 and 64),
	group_name text not null default session_user,
	arrival    uuid not null,
	primary key (visit, group_name, arrival)
) /*hash*/;

-- What failed its checksum or a rule, with the reason.
create table rillkey.refused (
	visit      text not null check (length(visit) between 1 and 64),
	group_name text not null default session_user,
	mark       text not null, -- a checksum of text and reason, so that each is kept once
	file       text not null,
	line       integer not null,
	reason     text not null,
	body       text not null check (octet_length(body) <= 131072),
	arrived    timestamptz not null default now(),
	primary key (visit, group_name, mark)
) /*hash*/;

-- Names of sites, folded, whose place a visit obscures.
create table rillkey.obscured (
	visit      text not null check (length(visit) between 1 and 64),
	group_name text not null default session_user,
	site       text not null,
	primary key (visit, group_name, site)
) /*hash*/;
create index obscured_site on rillkey.obscured (site);

-- What a visit came to by one edition of rules and region: made from events, and made
-- anew where something came or the edition is another. Lists are texts: names by lines,
-- ids by blanks. summary has neither site nor person.
create table rillkey.grades (
	visit      text not null,
	group_name text not null,
	edition    text not null,    -- fingerprint of the protocol's rules, animals, keys, regions
	arrivals   integer not null, -- how many the grade has seen
	graded     timestamptz not null default now(),
	day        text not null,
	site       text not null,
	site_names text not null,    -- folded, all of them
	region     text not null,
	protocol   text not null,
	state      text not null,
	obscured   boolean not null,
	latitude   double precision,
	longitude  double precision,
	samples    integer not null,
	animals    integer not null,
	undecided  integer not null, -- records set aside and not named since
	looks      integer not null, -- second looks
	contrary   integer not null, -- those that say another name and are not settled
	misfits    integer not null, -- entries that do not fit the visit
	taxa       text not null,
	invaders   text not null,
	people     text not null,
	value      double precision,
	rating     text not null,
	summary    text not null,
	primary key (visit, group_name, edition)
) /*hash*/;
create index grades_site_day on rillkey.grades (site, day);

-- Each way to write the name of a site, which lists search.
create table rillkey.sites (
	site       text not null,
	group_name text not null,
	primary key (site, group_name)
);

-- Rules, animals, keys and regions by which all visits were graded once; what came since
-- is ungraded.
create table rillkey.books (
	book   text primary key,
	graded timestamptz not null default now()
);

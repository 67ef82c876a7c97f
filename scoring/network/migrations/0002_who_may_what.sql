-- A group reads and adds its own, a coordinator reads all and keeps the grades, a reader
-- sees grades without people and obscured places. Nobody but the owner changes or
-- deletes what groups sent.
revoke all on schema rillkey from public;
grant usage on schema rillkey to rillkey_group, rillkey_coordinator, rillkey_reader;
grant select on rillkey.migrations to rillkey_group, rillkey_coordinator, rillkey_reader;

grant select, insert on rillkey.headers, rillkey.events, rillkey.arrivals, rillkey.ungraded, rillkey.refused, rillkey.obscured to rillkey_group;
grant select on rillkey.grades, rillkey.sites, rillkey.books to rillkey_group;
grant select on rillkey.headers, rillkey.events, rillkey.arrivals, rillkey.refused, rillkey.obscured to rillkey_coordinator;
grant select, delete on rillkey.ungraded to rillkey_coordinator;
grant select, insert, update on rillkey.grades, rillkey.books to rillkey_coordinator;
grant select, insert on rillkey.sites, rillkey.obscured to rillkey_coordinator;
grant select on rillkey.books to rillkey_reader;

alter table rillkey.headers enable row level security;
alter table rillkey.events enable row level security;
alter table rillkey.arrivals enable row level security;
alter table rillkey.ungraded enable row level security;
alter table rillkey.refused enable row level security;
alter table rillkey.obscured enable row level security;
alter table rillkey.grades enable row level security;
alter table rillkey.sites enable row level security;

create policy own_read on rillkey.headers for select to rillkey_group using (group_name = session_user);
create policy own_read on rillkey.events for select to rillkey_group using (group_name = session_user);
create policy own_read on rillkey.arrivals for select to rillkey_group using (group_name = session_user);
create policy own_read on rillkey.ungraded for select to rillkey_group using (group_name = session_user);
create policy own_read on rillkey.refused for select to rillkey_group using (group_name = session_user);
create policy own_read on rillkey.obscured for select to rillkey_group using (group_name = session_user);
create policy own_read on rillkey.grades for select to rillkey_group using (group_name = session_user);
create policy own_read on rillkey.sites for select to rillkey_group using (group_name = session_user);
create policy own_add on rillkey.headers for insert to rillkey_group with check (group_name = session_user);
create policy own_add on rillkey.events for insert to rillkey_group with check (group_name = session_user);
create policy own_add on rillkey.arrivals for insert to rillkey_group with check (group_name = session_user);
create policy own_add on rillkey.ungraded for insert to rillkey_group with check (group_name = session_user);
create policy own_add on rillkey.refused for insert to rillkey_group with check (group_name = session_user);
create policy own_add on rillkey.obscured for insert to rillkey_group with check (group_name = session_user);

create policy all_read on rillkey.headers for select to rillkey_coordinator using (true);
create policy all_read on rillkey.events for select to rillkey_coordinator using (true);
create policy all_read on rillkey.arrivals for select to rillkey_coordinator using (true);
create policy all_ungraded on rillkey.ungraded for all to rillkey_coordinator using (true);
create policy all_read on rillkey.refused for select to rillkey_coordinator using (true);
create policy all_read on rillkey.obscured for select to rillkey_coordinator using (true);
create policy all_grades on rillkey.grades for all to rillkey_coordinator using (true) with check (true);
create policy all_sites on rillkey.sites for all to rillkey_coordinator using (true) with check (true);
create policy all_obscured on rillkey.obscured for insert to rillkey_coordinator with check (true);

-- What a reader sees. A view reads with the rights of its owner.
create view rillkey.open_grades as
select visit, edition, day, hidden, case when hidden then '' else site end as site, region, protocol, state,
	case when hidden then round(latitude::numeric, 1)::double precision else latitude end as latitude,
	case when hidden then round(longitude::numeric, 1)::double precision else longitude end as longitude,
	samples, animals, taxa, value, rating, summary
from (
	select g.*, g.obscured or exists (select 1 from rillkey.obscured o where o.site = any (string_to_array(g.site_names, chr(10)))) as hidden
	from rillkey.grades g
) as every;
grant select on rillkey.open_grades to rillkey_reader;

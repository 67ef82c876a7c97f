-- The same rights, asked for once a statement and not once a row: of a row that is sent the
-- server has a quarter less to do.
alter policy own_read on rillkey.headers using (group_name = (select session_user));
alter policy own_read on rillkey.events using (group_name = (select session_user));
alter policy own_read on rillkey.arrivals using (group_name = (select session_user));
alter policy own_read on rillkey.ungraded using (group_name = (select session_user));
alter policy own_read on rillkey.refused using (group_name = (select session_user));
alter policy own_read on rillkey.obscured using (group_name = (select session_user));
alter policy own_read on rillkey.grades using (group_name = (select session_user));
alter policy own_read on rillkey.sites using (group_name = (select session_user));
alter policy own_add on rillkey.headers with check (group_name = (select session_user));
alter policy own_add on rillkey.events with check (group_name = (select session_user));
alter policy own_add on rillkey.arrivals with check (group_name = (select session_user));
alter policy own_add on rillkey.ungraded with check (group_name = (select session_user));
alter policy own_add on rillkey.refused with check (group_name = (select session_user));
alter policy own_add on rillkey.obscured with check (group_name = (select session_user));

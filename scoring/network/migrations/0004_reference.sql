-- The site that a group compares a visit with, by its name. Readers do not see it: it may
-- be an obscured one.
alter table rillkey.grades add column reference text not null default '';

CREATE TABLE IF NOT EXISTS taxon (
  taxon      TEXT PRIMARY KEY,
  scientific TEXT NOT NULL,
  common     TEXT,
  rank       TEXT NOT NULL,
  parent     TEXT,
  class      TEXT -- tolerance class; NULL where no single class holds
);
CREATE TABLE IF NOT EXISTS index_kind ( -- what an index counts
  scheme     TEXT NOT NULL,
  kind       TEXT NOT NULL,
  label      TEXT NOT NULL,
  class      TEXT NOT NULL, -- its group in the scheme
  hundredths INTEGER, -- what it is worth, times 100; NULL where that depends on the count
  PRIMARY KEY (scheme, kind)
);
CREATE TABLE IF NOT EXISTS visit (
  visit         TEXT PRIMARY KEY,
  site          TEXT NOT NULL,
  date          DATE NOT NULL,
  protocol      TEXT,
  combine       TEXT, -- pooled: all samples together; best: each by itself, and the best one counts; NULL where the protocol is not known
  people        TEXT,
  begun         TIMESTAMP WITH TIME ZONE NOT NULL,
  latitude      DOUBLE PRECISION, -- WGS 84 decimal degrees
  longitude     DOUBLE PRECISION,
  uncertainty_m DOUBLE PRECISION,
  obscured      BOOLEAN NOT NULL,
  finished      BOOLEAN NOT NULL,
  complete      BOOLEAN NOT NULL -- all samples that the protocol asks for were taken, and are sorted or empty
);
CREATE TABLE IF NOT EXISTS visit_condition ( -- what was noted of stream and day, corrected as it was later
  visit      TEXT NOT NULL REFERENCES visit (visit),
  field      TEXT NOT NULL, -- such as water_temperature_c; the unit of its number is part of it
  value      TEXT NOT NULL,
  number     DOUBLE PRECISION, -- NULL where the value is no number
  unit       TEXT,
  instrument TEXT,
  PRIMARY KEY (visit, field)
);
CREATE TABLE IF NOT EXISTS sample (
  visit    TEXT NOT NULL REFERENCES visit (visit),
  sample   TEXT NOT NULL,
  habitat  TEXT NOT NULL,
  area_m2  DOUBLE PRECISION,
  effort   TEXT,
  state    TEXT NOT NULL, -- how far it is sorted: not yet sorted, being sorted, sorted or empty
  fraction DOUBLE PRECISION, -- share that is sorted; NULL where nobody said
  PRIMARY KEY (visit, sample)
);
CREATE TABLE IF NOT EXISTS record (
  visit        TEXT NOT NULL REFERENCES visit (visit),
  record       TEXT NOT NULL,
  sample       TEXT NOT NULL,
  taxon        TEXT, -- NULL where undecided
  animals      INTEGER NOT NULL,
  undecided    BOOLEAN NOT NULL,
  confidence   DOUBLE PRECISION,
  length_mm    DOUBLE PRECISION,
  second_looks INTEGER NOT NULL,
  who          TEXT,
  note         TEXT,
  PRIMARY KEY (visit, record)
);
CREATE TABLE IF NOT EXISTS record_kind ( -- what the animals of a record count as, in the indices of its visit's protocol and of the views; none where an index leaves them out
  visit   TEXT NOT NULL,
  record  TEXT NOT NULL,
  scheme  TEXT NOT NULL,
  kind    TEXT NOT NULL,
  animals INTEGER NOT NULL, -- as the index counts them: it may multiply up a sample that was sorted in part
  PRIMARY KEY (visit, record, scheme),
  FOREIGN KEY (visit, record) REFERENCES record (visit, record),
  FOREIGN KEY (scheme, kind) REFERENCES index_kind (scheme, kind)
);
CREATE INDEX IF NOT EXISTS record_taxon ON record (taxon);
CREATE TABLE IF NOT EXISTS visit_index ( -- the grades as rillkey gave them; a withheld rating may stand beside a value
  visit    TEXT NOT NULL REFERENCES visit (visit),
  scheme   TEXT NOT NULL,
  value    DOUBLE PRECISION,
  rating   TEXT,
  withheld BOOLEAN NOT NULL,
  reason   TEXT,
  PRIMARY KEY (visit, scheme)
);

-- Example 1: the presence index of every visit, worked out from what its records
-- count as: of all samples together, or of the best one where the protocol says
-- so. NULL where the effort was not complete, or where rillkey gave no value, as
-- for animals that nobody could name.
DROP VIEW IF EXISTS presence_index;
CREATE VIEW presence_index AS
SELECT v.visit, v.site, v.date,
       CASE WHEN v.complete AND NOT EXISTS (
         SELECT 1 FROM visit_index i WHERE i.visit = v.visit AND i.scheme = 'presence' AND i.value IS NULL
       ) THEN COALESCE(MAX(part.hundredths), 0) / 100.0 END AS value
FROM visit v
LEFT JOIN (
  SELECT found.visit, found.part, SUM(found.hundredths) AS hundredths
  FROM (
    SELECT DISTINCT w.visit, CASE WHEN w.combine = 'best' THEN r.sample ELSE '' END AS part, k.kind, k.hundredths
    FROM record r
    JOIN visit w ON w.visit = r.visit
    JOIN record_kind c ON c.visit = r.visit AND c.record = r.record AND c.scheme = 'presence'
    JOIN index_kind k ON k.scheme = c.scheme AND k.kind = c.kind
  ) found
  GROUP BY found.visit, found.part
) part ON part.visit = v.visit
GROUP BY v.visit, v.site, v.date, v.complete;

-- Example 2: the Family Biotic Index of every visit, the mean tolerance of its
-- animals, rounded half up to two decimals; low is clean, so the best sample is
-- the lowest. NULL where the effort was not complete or no animal counts.
DROP VIEW IF EXISTS family_biotic_index;
CREATE VIEW family_biotic_index AS
SELECT v.visit, v.site, v.date, SUM(part.animals) AS animals,
       CASE WHEN v.complete THEN
         MIN((2 * part.weighed + part.animals) / (2 * part.animals)) / 100.0
       END AS value
FROM visit v
JOIN (
  SELECT w.visit, CASE WHEN w.combine = 'best' THEN r.sample ELSE '' END AS part, SUM(c.animals) AS animals, SUM(c.animals * k.hundredths) AS weighed
  FROM record r
  JOIN visit w ON w.visit = r.visit
  JOIN record_kind c ON c.visit = r.visit AND c.record = r.record AND c.scheme = 'fbi'
  JOIN index_kind k ON k.scheme = c.scheme AND k.kind = c.kind
  GROUP BY w.visit, CASE WHEN w.combine = 'best' THEN r.sample ELSE '' END
) part ON part.visit = v.visit
GROUP BY v.visit, v.site, v.date, v.complete;

-- Example 3: at how many visits to each site each taxon was found, and when
-- last.
DROP VIEW IF EXISTS site_taxon;
CREATE VIEW site_taxon AS
SELECT v.site, t.taxon, t.common, t.class, COUNT(DISTINCT v.visit) AS visits,
       SUM(r.animals) AS animals, MAX(v.date) AS last_seen
FROM record r
JOIN visit v ON v.visit = r.visit
JOIN taxon t ON t.taxon = r.taxon
WHERE NOT r.undecided
GROUP BY v.site, t.taxon, t.common, t.class;

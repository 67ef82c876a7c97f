-- Example 1: the presence index of every visit, all samples together, worked
-- out from the records. NULL where the effort was not complete.
DROP VIEW IF EXISTS presence_index;
CREATE VIEW presence_index AS
SELECT v.visit, v.site, v.date,
       CASE WHEN v.complete THEN COALESCE(SUM(found.hundredths), 0) / 100.0 END AS value
FROM visit v
LEFT JOIN (
  SELECT DISTINCT r.visit, k.kind, k.hundredths
  FROM record r
  JOIN taxon_kind t ON t.taxon = r.taxon AND t.scheme = 'presence'
  JOIN index_kind k ON k.scheme = t.scheme AND k.kind = t.kind
  WHERE NOT r.undecided
) found ON found.visit = v.visit
GROUP BY v.visit, v.site, v.date, v.complete;

-- Example 2: the Family Biotic Index of every visit, the mean tolerance of its
-- animals, rounded half up to two decimals. NULL where the effort was not
-- complete or no animal counts.
DROP VIEW IF EXISTS family_biotic_index;
CREATE VIEW family_biotic_index AS
SELECT v.visit, v.site, v.date, SUM(r.animals) AS animals,
       CASE WHEN v.complete THEN
         ((2 * SUM(r.animals * k.hundredths) + SUM(r.animals)) / (2 * SUM(r.animals))) / 100.0
       END AS value
FROM visit v
JOIN record r ON r.visit = v.visit AND NOT r.undecided
JOIN taxon_kind t ON t.taxon = r.taxon AND t.scheme = 'fbi'
JOIN index_kind k ON k.scheme = t.scheme AND k.kind = t.kind
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

package visit

import (
	"strings"

	"rillkey/taxa/wording"
)

// NamedForCertain is the change of a record to a taxon, at its rank, that counts for
// certain from then on, whatever the first name was given with: somebody who saw the
// animals settled it.
func NamedForCertain(taxon, rank string) Change {
	sure := 1.0
	return Change{Taxon: &taxon, Rank: &rank, Confidence: &sure}
}

// Determined is the amendment of a record by what an expert called its specimen on a day
// ("2006-01-02"), which counts for certain; kept is where the specimen is, empty where
// nobody said.
func Determined(record, taxon, rank, expert, day, kept string) Amendment {
	change := NamedForCertain(taxon, rank)
	change.Expert, change.ExpertOn = &expert, &day
	if kept = strings.TrimSpace(kept); kept != "" {
		change.Kept = &kept
	}
	return Amendment{Entry: record, Reason: wording.Text("determined by an expert"), Change: change}
}

package show

import (
	"fmt"
	"strings"

	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// mostUnnamed are the animals without a name whose place is told.
const mostUnnamed = 6

// GoingHome is what is left to do before a group leaves a stream: the animals, the
// gear, what has no name, who has a vial, what nobody noted. Common practice of those
// who lead groups. In a region that is no stream, whose cautions are its own alone, it
// is what has no name and the people. The flags that name the visit go with the commands.
func GoingHome(t visit.Tally, r *taxa.Region, flags string) []string {
	atStream := r == nil || !r.OnlyCautions
	var unnamed, kept []string
	animals := 0
	for _, r := range t.Records {
		animals += r.Count
		where := wording.Sprintf("sample %s", plain.Printable(r.Sample))
		if r.Cell != "" {
			where += wording.Sprintf(", cell %s", plain.Printable(r.Cell))
		}
		if r.Undecided || r.Taxon == "" {
			unnamed = append(unnamed, wording.Sprintf("%d in %s [%s]", r.Count, where, r.ID))
		}
		if r.Kept != "" {
			kept = append(kept, fmt.Sprintf("%s [%s]", plain.Printable(r.Kept), r.ID))
		}
	}
	var out []string
	if atStream && animals > 0 {
		out = append(out, wording.Sprintf(
			"Put the animals back where they came from, alive; %s recorded. Foreign ones only as the law of the place says.",
			plain.CountOf(animals, "is", "are")))
	}
	if atStream {
		out = append(out,
			wording.Text("Look over boots, nets and trays, clean off mud and plants, and let them dry before another stream."))
	}
	if n := len(unnamed); n > 0 {
		more := ""
		if n > mostUnnamed {
			more = wording.Sprintf("; and %d more", n-mostUnnamed)
		}
		out = append(out, wording.Sprintf(
			"Still without a name: %s%s. Look again now, or keep them in a vial with its label, where your permit allows it.",
			strings.Join(unnamed[:min(n, mostUnnamed)], "; "), more))
	}
	if len(kept) > 0 {
		out = append(out, wording.Sprintf("Specimens are kept: %s.", strings.Join(kept, "; ")))
	} else if atStream {
		out = append(out, wording.Sprintf("Does a vial go home? Write on its slip who has it. The name that comes back is "+
			"noted by: rillkey recheck expert%s", flags))
	}
	if atStream && len(t.Conditions()) == 0 {
		out = append(out, wording.Sprintf("Nothing is noted of weather and water. To note it: rillkey visit conditions%s", flags))
	}
	return append(out, wording.Text("Count the people, and thank them."))
}

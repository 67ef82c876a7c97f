package sheet

import (
	"slices"
	"strings"

	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// counted is the note on animals that were counted by name, without questions.
var counted = wording.Mark("counted by name")

// OfRow is the record of n animals of a row of the sheet: its taxon, what is above
// all of it with what they may be, or animals set aside where a name would be too
// broad to count.
func OfRow(catalog *taxa.Catalog, row scoring.SheetRow, sample string, n int) visit.Identification {
	switch {
	case row.Taxon != "":
		return OfTaxon(catalog.Taxon(row.Taxon), sample, n)
	case row.Wider != "":
		body := OfTaxon(catalog.Taxon(row.Wider), sample, n)
		body.Possible = row.MayBe
		return body
	}
	return visit.Identification{Sample: sample, Count: n, Undecided: true, Possible: row.Kind.Taxa, Note: wording.Text(counted)}
}

// OfTaxon is the record of n animals that were counted by name.
func OfTaxon(t *taxa.Taxon, sample string, n int) visit.Identification {
	return visit.Identification{Sample: sample, Taxon: t.ID, Rank: t.Rank, Count: n, Note: wording.Text(counted)}
}

// More is what animals counted one after the other come to: the first make a
// record, further ones of the same kind and sample are added to it. Only a record of
// who counts is added to, which own tells by its id, and none that was looked at
// twice.
func More(t visit.Tally, body visit.Identification, own func(id string) bool) visit.Body {
	for _, r := range t.Records {
		if !is(r.Note, counted) || r.Taxon != body.Taxon || r.Undecided != body.Undecided || r.Sample != body.Sample ||
			len(r.Looks) > 0 || !own(r.ID) {
			continue
		}
		if body.Undecided && !slices.Equal(r.Possible, body.Possible) {
			continue
		}
		return visit.Amendment{Entry: r.ID, Reason: wording.Text("counted on"), Change: visit.Change{More: &body.Count}}
	}
	return body
}

// MoreBy is [More] for what one person counts, whose records are those in their name, however
// it is written; without a name those in nobody's.
func MoreBy(t visit.Tally, body visit.Identification, who string) visit.Body {
	return More(t, body, func(id string) bool {
		r, ok := t.Record(id)
		return ok && inNameOf(r.Who, who)
	})
}

func inNameOf(written, who string) bool {
	return strings.EqualFold(strings.TrimSpace(written), strings.TrimSpace(who))
}

// takenBack is the reason of an amendment that takes something back.
var takenBack = wording.Mark("taken back")

// UndoLast is what takes back the last identification, or change of a count, that a
// hand made and did not take back; false where there is none. mine tells the entries
// of that hand.
func UndoLast(v *visit.Visit, t visit.Tally, mine func(visit.Event) bool) (visit.Body, bool) {
	undone := 0 // entries further up that were taken back already
	for _, e := range slices.Backward(v.Events) {
		if !mine(e) {
			continue
		}
		a, amends := e.Body.(visit.Amendment)
		_, counts := e.Body.(visit.Identification)
		switch {
		case amends && is(a.Reason, takenBack):
			undone++
			continue
		case !counts && (!amends || a.Change.Count == nil && a.Change.More == nil):
			continue
		case undone > 0:
			undone--
			continue
		}
		if body, ok := undo(v, t, e.ID); ok {
			return body, true
		}
	}
	return nil, false
}

// UndoLastOf is [UndoLast] for all entries in one person's name, in whatever case; the
// empty name is that of nobody in particular.
func UndoLastOf(v *visit.Visit, who string) (visit.Body, bool) {
	return UndoLast(v, v.Tally(), func(e visit.Event) bool { return inNameOf(e.Who, who) })
}

// LastHand is who counted the last animals that can be taken back, if they gave a name.
func LastHand(v *visit.Visit) string {
	asked := map[string]bool{"": true}
	for _, e := range slices.Backward(v.Events) {
		who := strings.TrimSpace(e.Who)
		if asked[who] {
			continue
		}
		asked[who] = true
		if _, ok := UndoLastOf(v, who); ok {
			return who
		}
	}
	return ""
}

// undo is what takes back an identification, or a change of a count; false where the
// event is neither, or its record is out already. What was counted by name is taken
// off the count, so that what others counted on stays.
func undo(v *visit.Visit, t visit.Tally, event string) (visit.Body, bool) {
	counts := map[string]int{} // by identification, before the event
	for _, e := range v.Events {
		switch b := e.Body.(type) {
		case visit.Identification:
			if e.ID == event {
				r, stands := t.Record(e.ID)
				if is(b.Note, counted) {
					return takeBack(e.ID, min(b.Count, r.Count)), stands
				}
				return visit.Amendment{Entry: e.ID, Reason: wording.Text(takenBack), Withdrawn: true}, stands
			}
			counts[e.ID] = b.Count
		case visit.Amendment:
			if e.ID == event {
				return undoChange(b, counts, t)
			}
			if b.Change.Count != nil {
				counts[b.Entry] = *b.Change.Count
			}
			if b.Change.More != nil {
				counts[b.Entry] += *b.Change.More
			}
		}
	}
	return nil, false
}

func undoChange(b visit.Amendment, counts map[string]int, t visit.Tally) (visit.Body, bool) {
	_, stands := t.Record(b.Entry)
	if b.Change.More != nil {
		return takeBack(b.Entry, *b.Change.More), stands
	}
	was, known := counts[b.Entry]
	back := visit.Amendment{Entry: b.Entry, Reason: wording.Text(takenBack), Change: visit.Change{Count: &was}}
	return back, known && stands && b.Change.Count != nil
}

func takeBack(record string, n int) visit.Amendment {
	n = -n
	return visit.Amendment{Entry: record, Reason: wording.Text(takenBack), Change: visit.Change{More: &n}}
}

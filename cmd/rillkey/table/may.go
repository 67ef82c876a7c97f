package table

import (
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

var errLeader = wording.NewError("only the leader does that")

// may says why somebody may not enter an event: everybody enters in their own name
// and corrects what they entered, the leader does the rest. find knows the visit
// and what came along.
func (g guest) may(e visit.Event, find func(id string) (visit.Event, bool)) error {
	switch {
	case g.Leader:
		return nil
	case e.Who != g.Name:
		return wording.Errorf("it is in the name of %q, and this phone joined as %q", e.Who, g.Name)
	}
	switch b := e.Body.(type) {
	case visit.Sample, visit.Identification, visit.SheetRows, visit.Conditions:
		return nil
	case visit.SecondLook:
		if first, ok := find(b.Entry); ok && visit.SamePerson(first.Who, g.Name) {
			return wording.Errorf("%s named these animals the first time; a second look needs another pair of eyes", g.Name)
		}
		return nil
	case visit.Amendment:
		return g.mayAmend(b, find)
	}
	return errLeader
}

func (g guest) mayAmend(b visit.Amendment, find func(id string) (visit.Event, bool)) error {
	of, ok := find(b.Entry)
	if !ok {
		return wording.Errorf("there is no entry %q to correct", b.Entry)
	}
	if _, sample := of.Body.(visit.Sample); sample && !b.Withdrawn && b.Change.OnlySorting() {
		return nil // whoever sorted a sample says so
	}
	if _, finish := of.Body.(visit.Finish); finish || !visit.SamePerson(of.Who, g.Name) {
		return errLeader
	}
	return nil
}

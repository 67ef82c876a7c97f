// Package versions tells two versions of a key apart as people would: by what their
// couplets say and ask, not by their numbers.
//
// Begin with [Version], [KeyDifference] and [MergedKey].
package versions

import (
	"slices"

	"rillkey/couplets"
)

// KeyDifference is what a version of a key has that another lacks.
type KeyDifference struct {
	Added   []CoupletPlace `json:"added"`
	Removed []CoupletPlace `json:"removed"`
	// Reworded couplets tell the same apart in other words; of Asked the leads stand
	// for something else than before.
	Reworded []CoupletChange `json:"reworded"`
	Asked    []CoupletChange `json:"asked"`
	// Moved couplets are reached from other leads than before; of Led a lead goes
	// elsewhere.
	Moved []CoupletChange `json:"moved"`
	Led   []CoupletChange `json:"led"`
	// Renumbered counts couplets that have another number, whatever else changed.
	Renumbered int `json:"renumbered"`

	New      []string   `json:"new"`  // end points
	Gone     []string   `json:"gone"` // end points
	OtherWay []Rerouted `json:"other_way"`
}

// CoupletPlace is a couplet by its number and what it asks.
type CoupletPlace struct {
	Couplet string `json:"couplet"`
	Ask     string `json:"ask"`
}

// CoupletChange is one thing that differs between the same couplet of two versions.
type CoupletChange struct {
	CoupletPlace        // in the new version
	Was          string `json:"was"`            // its number in the old one
	Lead         string `json:"lead,omitempty"` // the lead in the new one, such as "4b"; empty for the couplet itself
	Old          string `json:"old"`
	New          string `json:"new"`
}

// Rerouted is end points that one change leads another way.
type Rerouted struct {
	Taxa []string `json:"taxa"`
	// NowAsked and NoLongerAsked are couplets of the new and of the old version.
	NowAsked      []CoupletPlace `json:"now_asked"`
	NoLongerAsked []CoupletPlace `json:"no_longer_asked"`
	// Turns are couplets of both at which they take another lead: the old and the new.
	Turns []CoupletChange `json:"turns"`
}

// Empty reports whether nothing but numbers differs.
func (d *KeyDifference) Empty() bool {
	return len(d.Added)+len(d.Removed)+len(d.Reworded)+len(d.Asked)+len(d.Moved)+len(d.Led)+len(d.New)+len(d.Gone)+len(d.OtherWay) == 0
}

// Compare tells two versions of a key apart. Current gives the id of today for one of
// an earlier edition of the catalog, and any other id as it is.
func Compare(old, now *couplets.File, current func(string) string) *KeyDifference {
	c := &comparison{old: follow(old, current), now: follow(now, current), pairing: pair(old, now), KeyDifference: &KeyDifference{}}
	for i := range old.Couplets {
		if c.newOf[i] < 0 {
			c.Removed = append(c.Removed, placeOf(&old.Couplets[i]))
		}
	}
	for j := range now.Couplets {
		if c.oldOf[j] < 0 {
			c.Added = append(c.Added, placeOf(&now.Couplets[j]))
			continue
		}
		c.couplet(c.oldOf[j], j)
	}
	c.animals()
	return c.KeyDifference
}

type comparison struct {
	old, now *routes
	pairing
	*KeyDifference
}

func placeOf(c *couplets.Couplet) CoupletPlace { return CoupletPlace{c.ID, c.Ask} }

// couplet finds what differs in one couplet.
func (c *comparison) couplet(i, j int) {
	old, now := &c.old.file.Couplets[i], &c.now.file.Couplets[j]
	if old.ID != now.ID {
		c.Renumbered++
	}
	change := func(lead, was, is string) CoupletChange { return CoupletChange{placeOf(now), old.ID, lead, was, is} }
	note := func(list *[]CoupletChange, lead, was, is string) {
		if was != is {
			*list = append(*list, change(lead, was, is))
		}
	}
	note(&c.Reworded, "", old.Ask, now.Ask)
	note(&c.Reworded, "", old.Wait, now.Wait)
	for k := range now.Leads {
		l := &now.Leads[k]
		was := c.leadOf(old, now, l)
		if was == nil {
			note(&c.Asked, now.ID+l.Letter, "", stands(l))
			continue
		}
		note(&c.Reworded, now.ID+l.Letter, was.Text, l.Text)
		note(&c.Asked, now.ID+l.Letter, stands(was), stands(l))
		if before, after := c.goal(was, c.old), c.goal(l, c.now); before != after {
			note(&c.Led, now.ID+l.Letter, goalWords(was), goalWords(l))
		}
	}
	for k := range old.Leads {
		if l := &old.Leads[k]; c.leadOf(now, old, l) == nil {
			note(&c.Asked, "", old.ID+l.Letter+": "+stands(l), "")
		}
	}
	c.moved(i, j)
}

// leadOf is the lead of a couplet that is the same as one of the other version's: the
// one that stands for the same, else the one of the same letter.
func (c *comparison) leadOf(in, from *couplets.Couplet, l *couplets.Lead) *couplets.Lead {
	for k := range in.Leads {
		if stands(&in.Leads[k]) == stands(l) {
			return &in.Leads[k]
		}
	}
	for k := range in.Leads {
		other := &in.Leads[k]
		if other.Letter == l.Letter && !slices.ContainsFunc(from.Leads, func(o couplets.Lead) bool { return stands(&o) == stands(other) }) {
			return other
		}
	}
	return nil
}

package versions

import (
	"slices"
	"strings"

	"rillkey/couplets"
	"rillkey/taxa/wording"
)

// routes is a version of a key with the ways through it.
type routes struct {
	file     *couplets.File
	current  func(string) string
	index    map[string]int
	incoming map[int][]step           // the leads that go to a couplet
	leads    map[string]map[int][]int // by end point: the leads, by couplet, that lead to it
	order    []string                 // end points, in the order of the file
}

// step is a lead by the place of its couplet and its own.
type step struct{ couplet, lead int }

// follow finds all ways through a key, which may lead nowhere or in a circle.
func follow(f *couplets.File, current func(string) string) *routes {
	r := &routes{file: f, current: current, index: map[string]int{}, incoming: map[int][]step{}, leads: map[string]map[int][]int{}}
	for i := range f.Couplets {
		r.index[f.Couplets[i].ID] = i
	}
	ends := map[string][]step{}
	for i := range f.Couplets {
		for k := range f.Couplets[i].Leads {
			l := &f.Couplets[i].Leads[k]
			if next, ok := r.index[l.Next]; ok {
				r.incoming[next] = append(r.incoming[next], step{i, k})
			}
			for _, id := range l.Taxa {
				id = current(id)
				if ends[id] == nil {
					r.order = append(r.order, id)
				}
				ends[id] = append(ends[id], step{i, k})
			}
		}
	}
	for id, at := range ends {
		r.leads[id] = r.leadsUp(at)
	}
	return r
}

// leadsUp are all leads on any way to some leads, these included.
func (r *routes) leadsUp(at []step) map[int][]int {
	out := map[int][]int{}
	for todo := slices.Clone(at); len(todo) > 0; {
		s := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if out[s.couplet] == nil {
			todo = append(todo, r.incoming[s.couplet]...)
		}
		if !slices.Contains(out[s.couplet], s.lead) {
			out[s.couplet] = append(out[s.couplet], s.lead)
		}
	}
	for _, leads := range out {
		slices.Sort(leads)
	}
	return out
}

// goal is where a lead goes, in terms of the new version; what the other lacks is
// named by its own number.
func (c *comparison) goal(l *couplets.Lead, in *routes) string {
	if l.Next == "" {
		ids := make([]string, len(l.Taxa))
		for i, id := range l.Taxa {
			ids[i] = in.current(id)
		}
		slices.Sort(ids)
		return strings.Join(ids, ", ")
	}
	i, ok := in.index[l.Next]
	switch {
	case !ok:
		return "nowhere"
	case in == c.now:
		return wording.Sprintf("couplet %s", l.Next)
	case c.newOf[i] >= 0:
		return wording.Sprintf("couplet %s", c.now.file.Couplets[c.newOf[i]].ID)
	}
	return wording.Sprintf("old couplet %s", l.Next)
}

// goalWords is where a lead goes, by the numbers of its own version.
func goalWords(l *couplets.Lead) string {
	if l.Next != "" {
		return wording.Sprintf("couplet %s", l.Next)
	}
	return strings.Join(l.Taxa, ", ")
}

// moved notes a couplet that other leads go to than before.
func (c *comparison) moved(i, j int) {
	var was, is, before, after []string
	for _, s := range c.old.incoming[i] {
		old := &c.old.file.Couplets[s.couplet]
		was = append(was, old.ID+old.Leads[s.lead].Letter)
		if n := c.newOf[s.couplet]; n >= 0 {
			if l := c.leadOf(&c.now.file.Couplets[n], old, &old.Leads[s.lead]); l != nil {
				before = append(before, c.now.file.Couplets[n].ID+l.Letter)
				continue
			}
		}
		before = append(before, "old "+was[len(was)-1])
	}
	for _, s := range c.now.incoming[j] {
		now := &c.now.file.Couplets[s.couplet]
		is = append(is, now.ID+now.Leads[s.lead].Letter)
	}
	after = slices.Clone(is)
	slices.Sort(before)
	slices.Sort(after)
	if !slices.Equal(before, after) {
		old, now := &c.old.file.Couplets[i], &c.now.file.Couplets[j]
		c.Moved = append(c.Moved, CoupletChange{placeOf(now), old.ID, "", reached(was), reached(is)})
	}
}

func reached(from []string) string {
	if len(from) == 0 {
		return "the start"
	}
	return strings.Join(from, ", ")
}

// animals finds the end points that are new, gone, or led another way.
func (c *comparison) animals() {
	for _, id := range c.old.order {
		if c.now.leads[id] == nil {
			c.Gone = append(c.Gone, id)
		}
	}
	ways := map[string]int{}
	for _, id := range c.now.order {
		if c.old.leads[id] == nil {
			c.New = append(c.New, id)
			continue
		}
		w, mark := c.way(id)
		if mark == "" {
			continue
		}
		at, there := ways[mark]
		if !there {
			at = len(c.OtherWay)
			ways[mark] = at
			c.OtherWay = append(c.OtherWay, w)
		}
		c.OtherWay[at].Taxa = append(c.OtherWay[at].Taxa, id)
	}
}

// way is how an end point is led otherwise than before, with a text that is the same
// for all that are led alike; empty for those led as before.
func (c *comparison) way(id string) (Rerouted, string) {
	var w Rerouted
	var mark strings.Builder
	old, now := c.old.leads[id], c.now.leads[id]
	for i := range c.old.file.Couplets {
		if old[i] != nil && (c.newOf[i] < 0 || now[c.newOf[i]] == nil) {
			w.NoLongerAsked = append(w.NoLongerAsked, placeOf(&c.old.file.Couplets[i]))
			mark.WriteString("-" + c.old.file.Couplets[i].ID)
		}
	}
	for j := range c.now.file.Couplets {
		at := &c.now.file.Couplets[j]
		i := c.oldOf[j]
		switch {
		case now[j] == nil:
		case i < 0 || old[i] == nil:
			w.NowAsked = append(w.NowAsked, placeOf(at))
			mark.WriteString("+" + at.ID)
		default:
			was, is := letters(&c.old.file.Couplets[i], old[i]), letters(at, now[j])
			if c.inNew(i, j, old[i]) != is {
				w.Turns = append(w.Turns, CoupletChange{placeOf(at), c.old.file.Couplets[i].ID, "", was, is})
				mark.WriteString("/" + at.ID + was + is)
			}
		}
	}
	return w, mark.String()
}

// letters are some leads of a couplet, such as "4a, 4b".
func letters(c *couplets.Couplet, leads []int) string {
	out := make([]string, len(leads))
	for i, k := range leads {
		out[i] = c.ID + c.Leads[k].Letter
	}
	return strings.Join(out, ", ")
}

// inNew are some leads of an old couplet as the new one has them.
func (c *comparison) inNew(i, j int, leads []int) string {
	old, now := &c.old.file.Couplets[i], &c.now.file.Couplets[j]
	var out []string
	for _, k := range leads {
		if l := c.leadOf(now, old, &old.Leads[k]); l != nil {
			out = append(out, now.ID+l.Letter)
		}
	}
	slices.Sort(out)
	return strings.Join(out, ", ")
}

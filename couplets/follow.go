package couplets

import "slices"

// Trail is a way through a checked key as its author follows it: by letters of leads,
// numbers of couplets and back, with nothing to answer and nothing ruled out.
type Trail struct {
	sound   *Sound
	visited []string // ids of couplets, the present one last
}

// Follow begins a trail at the couplet with the id, which the key must have.
func (s *Sound) Follow(id string) *Trail { return &Trail{sound: s, visited: []string{id}} }

// Here is the id of the couplet that the trail has come to.
func (t *Trail) Here() string { return t.visited[len(t.visited)-1] }

// Step goes where typed says: "<" is back, as far as where the trail began, an id goes
// to that couplet, a letter takes that lead of the present one. Where the lead ends in
// taxa their ids are given and the trail stays; known is false, and it stays, where
// typed is none of these.
func (t *Trail) Step(typed string) (taxa []string, known bool) {
	if typed == "<" {
		if len(t.visited) > 1 {
			t.visited = t.visited[:len(t.visited)-1]
		}
		return nil, true
	}
	to := typed
	if t.sound.Couplet(typed) == nil {
		leads := t.sound.Couplet(t.Here()).Leads
		i := slices.IndexFunc(leads, func(l Lead) bool { return l.Letter == typed })
		if i < 0 {
			return nil, false
		}
		if to = leads[i].Next; to == "" {
			return leads[i].Taxa, true
		}
	}
	t.visited = append(t.visited, to)
	return nil, true
}

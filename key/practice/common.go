package practice

import "rillkey/key"

// Common mixes, half and half, how common the end points are in a key with how many
// animals of each were found, by their ids of today or before; nil where none of these
// is an end point. It is the share of each end point, by id.
func Common(k *key.Key, animals map[string]int) map[string]float64 {
	found, total := map[string]int{}, 0
	for id, n := range animals {
		if id = k.Catalog().Current(id); k.EndsIn(id) {
			found[id] += n
			total += n
		}
	}
	if total == 0 {
		return nil
	}
	out := map[string]float64{}
	for i, t := range k.Ends() {
		out[t.ID] = k.Prior()[i]/2 + float64(found[t.ID])/float64(total)/2
	}
	return out
}

package practice

import (
	"maps"
	"slices"

	"rillkey/key"
)

// Common mixes, half and half, how common the end points are in a key with how many
// animals of each were found, by their ids of today or before; nil where none of these
// is an end point or holds any. Animals that were named no closer than as a group are
// parted among its end points as common as these are in the key. It is the share of each
// end point, by id.
func Common(k *key.Key, animals map[string]int) map[string]float64 {
	found, total := make([]float64, len(k.Ends())), 0.0
	for _, id := range slices.Sorted(maps.Keys(animals)) {
		held := holding(k, k.Catalog().Current(id))
		for end, share := range held {
			found[end] += share * float64(animals[id])
		}
		if len(held) > 0 {
			total += float64(animals[id])
		}
	}
	if total == 0 {
		return nil
	}
	out := map[string]float64{}
	for i, t := range k.Ends() {
		out[t.ID] = k.Prior()[i]/2 + found[i]/total/2
	}
	return out
}

// holding are the end points that a taxon holds, each with its share of them; itself
// alone where it is one.
func holding(k *key.Key, id string) map[int]float64 {
	out, total := map[int]float64{}, 0.0
	for i, t := range k.Ends() {
		if t.ID == id {
			return map[int]float64{i: 1}
		}
		if k.Catalog().IsUnder(t.ID, id) {
			out[i] = k.Prior()[i]
			total += k.Prior()[i]
		}
	}
	for i := range out {
		out[i] /= total
	}
	return out
}

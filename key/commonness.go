package key

// Commonness is how common each kind is that an inquiry takes an animal for, the
// key's end points and what it leaves out, by taxon: what the probabilities that a
// record keeps were made from. What no catalog holds is not among them.
func (k *Key) Commonness() map[string]float64 {
	kinds, prior := k.withStrangers(k.Prior())
	out := make(map[string]float64, len(kinds))
	for i, t := range kinds {
		if t != nil {
			out[t.ID] = prior[i]
		}
	}
	return out
}

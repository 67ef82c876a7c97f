package figure

import "strconv"

// Individual stands beside the states that an animal shows, and says by a number below
// [Individuals] which of those in the same states it is: a clam has lines of growth of its
// own, a heap of stones its own stones. It is no trait: no id has an asterisk. Without it
// a figure is the usual one of its states.
const Individual = "*individual"

// Individuals is how many individuals of the same states are drawn otherwise, where their
// kind has lines that vary.
const Individuals = 6

// individual is the number of an individual, 0 for the usual one.
func (k *sketch) individual() int {
	n, err := strconv.Atoi(k.is[Individual])
	if err != nil || n < 0 || n >= Individuals {
		return 0
	}
	return n
}

// varied is a measure of an individual: the usual one times up to 1 more or less share,
// another for another number of the part.
func (k *sketch) varied(usual, share float64, part int) float64 {
	n := k.individual()
	if n == 0 {
		return usual
	}
	steps := [...]float64{-1, 0.5, -0.4, 1, 0.1, -0.7, 0.8}
	return usual * (1 + share*steps[(n*3+part*5)%len(steps)])
}

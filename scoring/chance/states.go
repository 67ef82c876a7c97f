package chance

// mostDense is the number of bits up to which chances stand in a plain slice.
const mostDense = 14

// states are chances by state, in an order that does not change from run to run.
type states interface {
	add(state uint64, p float64)
	each(func(state uint64, p float64))
	fresh() states
	size() int // states that can be, or more
	cost() int // work of one step
}

func newStates(bits, dense int) states {
	if bits <= dense {
		return make(denseStates, 1<<bits)
	}
	return sparseStates{newMassFunction[number]()}
}

type denseStates []float64

func (d denseStates) add(state uint64, p float64) { d[state] += p }
func (d denseStates) fresh() states               { return make(denseStates, len(d)) }
func (d denseStates) size() int                   { return len(d) }
func (d denseStates) cost() int                   { return 1 }

func (d denseStates) each(f func(uint64, float64)) {
	for state, p := range d {
		if p > 0 {
			f(uint64(state), p)
		}
	}
}

type sparseStates struct{ *massFunction[number] }

// fresh has room for twice as many states, as one record mostly makes of them.
func (s sparseStates) fresh() states { return sparseStates{roomFor[number](2 * len(s.keys))} }

func (s sparseStates) add(state uint64, p float64) { s.massFunction.add(number(state), p) }
func (s sparseStates) size() int                   { return len(s.keys) }
func (s sparseStates) cost() int                   { return sparse }

func (s sparseStates) each(f func(uint64, float64)) {
	for i, state := range s.keys {
		f(uint64(state), s.p[i])
	}
}

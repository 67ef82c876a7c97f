package draft

import (
	"math/bits"
	"slices"
)

// MaxLeads is the most leads of a drafted couplet.
const MaxLeads = 4

// Of a trait with more states than maxAllWays still possible, not every way to part
// them is tried; of one with more than maxSingled, only ways in two.
const (
	maxAllWays = 6
	maxSingled = exactTaxa
)

// sides are the states on each side of a question, as bits; those behind the last
// side are 0.
type sides [MaxLeads]uint64

func (s *sides) len() int {
	n := len(s)
	for s[n-1] == 0 {
		n--
	}
	return n
}

// all is the states on any side.
func (s *sides) all() uint64 { return s[0] | s[1] | s[2] | s[3] }

// others are the states on other sides than a state is on.
func (s *sides) others(state int) uint64 {
	others := uint64(0)
	for _, side := range s {
		if side>>state&1 == 0 {
			others |= side
		}
	}
	return others
}

// maxKept is the most states of a trait whose ways are kept once they are worked out.
const maxKept = 9

// ways are the ways to part some states into at most so many sides, in two before
// those in more.
type ways struct {
	leads        int
	small, large [1 << maxKept][]sides // by the states that are possible
}

// partings are the ways to part the states that are possible of a trait of so many.
func (w *ways) partings(states int, possible uint64) []sides {
	if possible&(possible-1) == 0 {
		return nil
	}
	if states > maxKept {
		return spread(singled(bits.OnesCount64(possible), w.leads), possible)
	}
	kept, parted := &w.small[possible], partitions
	if states > maxAllWays {
		kept, parted = &w.large[possible], singled
	}
	if *kept == nil {
		*kept = spread(parted(bits.OnesCount64(possible), w.leads), possible)
	}
	return *kept
}

// partitions are all ways to part n states into at most so many sides.
func partitions(n, leads int) []sides {
	var out []sides
	var put func(state int, s sides)
	put = func(state int, s sides) {
		if state == n {
			if s[1] != 0 {
				out = append(out, lastBehind(s, n))
			}
			return
		}
		for k := range leads {
			with := s
			with[k] |= 1 << state
			put(state+1, with)
			if s[k] == 0 {
				return // the further empty sides are the same
			}
		}
	}
	put(0, sides{})
	slices.SortStableFunc(out, func(x, y sides) int { return x.len() - y.len() })
	return out
}

// lastBehind puts the side of the last state behind the other, of two.
func lastBehind(s sides, n int) sides {
	if s[2] == 0 && s[0]>>(n-1)&1 == 1 {
		s[0], s[1] = s[1], s[0]
	}
	return s
}

// singled are the ways to part n states that people can read as one phrase each: the
// first so many and the others, and one, two or three states each by itself and the
// others.
func singled(n, leads int) []sides {
	all := ^uint64(0) >> (64 - n)
	var out []sides
	for s := range n {
		out = append(out, sides{1 << s, all &^ (1 << s)})
		if s > 0 && s < n-2 {
			out = append(out, sides{1<<(s+1) - 1, all &^ (1<<(s+1) - 1)})
		}
	}
	if n > maxSingled {
		return out
	}
	for most := 3; most <= leads; most++ {
		for alone := uint64(1); alone < 1<<n; alone++ {
			if bits.OnesCount64(alone) != most-1 || alone == all {
				continue
			}
			var s sides
			k := 0
			for rest := alone; rest != 0; rest &= rest - 1 {
				s[k] = rest & -rest
				k++
			}
			s[k] = all &^ alone
			if last := s[k]; last&(last-1) == 0 && last < s[k-1] {
				continue // the last of states that are all alone is the others
			}
			out = append(out, s)
		}
	}
	return out
}

// spread puts ways to part the first states on those that are possible.
func spread(of []sides, possible uint64) []sides {
	var place [maxStates]uint64
	n := 0
	for ; possible != 0; possible &= possible - 1 {
		place[n] = possible & -possible
		n++
	}
	for i := range of {
		for k, side := range of[i] {
			of[i][k] = 0
			for ; side != 0; side &= side - 1 {
				of[i][k] |= place[bits.TrailingZeros64(side)]
			}
		}
	}
	return of
}

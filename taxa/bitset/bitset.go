// Package bitset holds sets of small whole numbers as bits, most often of the end
// points of a key: the engine asks again and again what two sets share.
package bitset

import "math/bits"

// Set is a set of small whole numbers, 0 to the size it was made for, less one.
// Sets that are combined must be of one size.
type Set []uint64

// New is an empty set for the numbers 0 to size-1.
func New(size int) Set { return make(Set, (size+63)/64) }

// Full is the set of all numbers 0 to size-1.
func Full(size int) Set {
	s := New(size)
	for i := range size {
		s.Add(i)
	}
	return s
}

// Add puts i into s.
func (s Set) Add(i int) { s[i/64] |= 1 << (i % 64) }

// Has reports whether i is in s.
func (s Set) Has(i int) bool { return s[i/64]&(1<<(i%64)) != 0 }

// Clone is a copy of s.
func (s Set) Clone() Set { return append(Set(nil), s...) }

// And keeps in s only what is in o too.
func (s Set) And(o Set) {
	for i := range s {
		s[i] &= o[i]
	}
}

// AndNot takes all of o out of s. A set that is shorter has none of what is beyond
// its end.
func (s Set) AndNot(o Set) {
	for i := range s[:min(len(s), len(o))] {
		s[i] &^= o[i]
	}
}

// Or adds all of o to s.
func (s Set) Or(o Set) {
	for i := range s {
		s[i] |= o[i]
	}
}

// Meets reports whether s and o share anything.
func (s Set) Meets(o Set) bool {
	for i := range s {
		if s[i]&o[i] != 0 {
			return true
		}
	}
	return false
}

// Subset reports whether o holds all of s.
func (s Set) Subset(o Set) bool {
	for i := range s {
		if s[i]&^o[i] != 0 {
			return false
		}
	}
	return true
}

// Len is how many numbers are in s.
func (s Set) Len() int {
	n := 0
	for _, w := range s {
		n += bits.OnesCount64(w)
	}
	return n
}

// Each calls f with every number in s, smallest first.
func (s Set) Each(f func(i int)) {
	for k, w := range s {
		for ; w != 0; w &= w - 1 {
			f(k*64 + bits.TrailingZeros64(w))
		}
	}
}

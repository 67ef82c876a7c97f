// Package sorting puts lists in order.
package sorting

import "slices"

// Stable puts a list in the order of compare, which says of two things what [cmp.Compare]
// says of numbers; what compares equal stays as it stood. The places are sorted, not the
// things: the functions of package slices that sort are compiled for each type of thing anew,
// which with sixty types made the page for phones 4 in 100 larger.
func Stable[T any](list []T, compare func(a, b T) int) {
	if len(list) < 2 {
		return
	}
	was := slices.Clone(list)
	for to, from := range places(len(list), func(i, j int) int { return compare(was[i], was[j]) }) {
		list[to] = was[from]
	}
}

// places are the numbers below n in the order of compare.
func places(n int, compare func(i, j int) int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	slices.SortFunc(out, func(i, j int) int {
		if c := compare(i, j); c != 0 {
			return c
		}
		return i - j
	})
	return out
}

package visit

import "rillkey/taxa/wording"

// Sorting is how far a sample has been sorted: a net that was emptied into a tray
// says nothing before somebody has gone through it.
type Sorting string

// The states. People say NotSorted, Sorted or Empty; BeingSorted is what animals
// without such a word come to.
const (
	NotSorted   Sorting = "not yet sorted"
	BeingSorted Sorting = "being sorted"
	Sorted      Sorting = "sorted" // all of it, or the Fraction
	Empty       Sorting = "empty"  // sorted, and nothing lived in it
)

// Words are what people read of a state, in the language in use.
func (s Sorting) Words() string {
	switch s {
	case NotSorted:
		return wording.Text("not yet sorted")
	case BeingSorted:
		return wording.Text("being sorted")
	case Sorted:
		return wording.Text("sorted")
	case Empty:
		return wording.Text("empty")
	}
	return string(s)
}

// said are the states that people can say, as the file has them.
var said = []Sorting{NotSorted, Sorted, Empty}

// Done reports whether nothing is left to sort.
func (s Sorting) Done() bool { return s == Sorted || s == Empty }

// state is how far a sample is, by what was said of it, how many animals it holds,
// and whether the visit is finished. A sample without animals is not sorted until
// somebody says otherwise; one with animals is, once the visit is finished and
// nobody said otherwise. One that was said to be empty and holds animals is as open
// as before.
func (s Sample) state(animals int, finished bool) Sorting {
	switch {
	case s.Said == Sorted, s.Said == Empty && animals == 0:
		return s.Said
	case animals == 0:
		return NotSorted
	case s.Said == "" && finished:
		return Sorted
	}
	return BeingSorted
}

// SortedAs is the change that says of a sample how far it is sorted, and which share of
// it, 0 where nothing is said of that; false where the file says so already. All of it is
// worth an entry only where a part was said before.
func (t Taken) SortedAs(state Sorting, fraction float64) (change Change, news bool) {
	change.Said = &state
	if fraction > 0 && fraction != t.Fraction && (fraction < 1 || t.Fraction > 0) {
		change.Fraction = &fraction
	}
	return change, t.Said != state || change.Fraction != nil
}

package main

import (
	"strconv"

	"rillkey/cmd/rillkey/show"
	"rillkey/taxa"
)

// unclear is a typed name that does not say by itself what it means.
type unclear struct {
	name  string
	count int
	meant []*taxa.Taxon
	then  func(*taxa.Taxon) error // once it is said
	row   int                     // whose turn is then over, -1 for none
}

// mean finds out which taxon a name means, and goes on with it: at once where the
// name is plain or, while nothing stands in its place, a little misspelt; else
// once somebody has said so.
func (e *entering) mean(name string, count int, free func(*taxa.Taxon) bool, then func(*taxa.Taxon) error) error {
	f := e.catalog.Find(name)
	doubtful := f.Doubtful(free)
	switch {
	case len(doubtful) == 0 && f.Taxon == nil:
		return misused("no creature here has a name like %q", name)
	case len(doubtful) == 0:
		if !f.Exact {
			e.plainly("%q is taken for %s.", name, show.BothNames(f.Taxon))
		}
		return then(f.Taxon)
	}
	e.unclear = &unclear{name: name, count: count, then: then, row: -1}
	for _, m := range doubtful[:min(mostMeant, len(doubtful))] {
		e.unclear.meant = append(e.unclear.meant, m.Taxon)
	}
	return nil
}

func (e *entering) promptName() {
	e.plainly("%q is not plain. Which is meant? Its number, or Enter alone for none of them:", e.unclear.name)
	for i, t := range e.unclear.meant {
		e.plainly("%d  %s", i+1, show.BothNames(t))
	}
}

// takeMeant takes what an unclear name means: a number of the list, or a better
// name.
func (e *entering) takeMeant(at int, line string) (next int, _ error) {
	u := e.unclear
	e.unclear = nil
	n, err := strconv.Atoi(line)
	switch {
	case line == "", line == "0", line == "<":
		return at, misused("nobody said what %q is", u.name)
	case err == nil && (n < 1 || n > len(u.meant)):
		e.unclear = u
		return at, misused("there is no number %d; the numbers are 1 to %d", n, len(u.meant))
	case err == nil:
		err = u.then(u.meant[n-1])
	default:
		err = e.mean(line, u.count, func(*taxa.Taxon) bool { return false }, u.then)
	}
	switch {
	case err != nil:
		return at, err
	case e.unclear != nil:
		e.unclear.row = u.row
		return at, nil
	case u.row >= 0:
		e.pending = 0
		return e.pass(u.row)
	}
	return at, nil
}

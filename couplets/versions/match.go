package versions

import (
	"fmt"
	"slices"
	"strings"

	"rillkey/couplets"
)

// pairing is which couplet of one version is which of the other, by their places; -1
// for none.
type pairing struct{ newOf, oldOf []int }

// pair finds what belongs together whatever its number: couplets that say and ask
// the same, then those that ask the same in other words, then those that have both
// their number and a trait in common.
func pair(old, now *couplets.File) pairing {
	p := pairing{slices.Repeat([]int{-1}, len(old.Couplets)), slices.Repeat([]int{-1}, len(now.Couplets))}
	p.pairBy(old, now, func(c *couplets.Couplet) string { return words(c) + "\x00" + asks(c) + "\x00" + c.ID })
	p.pairBy(old, now, func(c *couplets.Couplet) string { return words(c) + "\x00" + asks(c) })
	p.pairBy(old, now, func(c *couplets.Couplet) string { return asks(c) + "\x00" + c.ID })
	p.pairBy(old, now, func(c *couplets.Couplet) string { return asks(c) + "\x00" + ends(c) })
	p.pairBy(old, now, asks)
	p.pairBy(old, now, func(c *couplets.Couplet) string {
		return strings.Join(slices.Sorted(slices.Values(c.Traits())), " ") + "\x00" + c.ID
	})
	return p
}

// pairBy pairs what is left and has one mark, in the order of the files.
func (p pairing) pairBy(old, now *couplets.File, mark func(*couplets.Couplet) string) {
	left := map[string][]int{}
	for i := range old.Couplets {
		if p.newOf[i] < 0 {
			m := mark(&old.Couplets[i])
			left[m] = append(left[m], i)
		}
	}
	for j := range now.Couplets {
		if p.oldOf[j] >= 0 {
			continue
		}
		m := mark(&now.Couplets[j])
		if of := left[m]; len(of) > 0 {
			p.oldOf[j], p.newOf[of[0]] = of[0], j
			left[m] = of[1:]
		}
	}
}

// words is all that people read of a couplet.
func words(c *couplets.Couplet) string {
	all := []string{c.Ask, c.Wait}
	for i := range c.Leads {
		all = append(all, c.Leads[i].Text)
	}
	return fmt.Sprintf("%q", all)
}

// asks is what a couplet tells apart, whatever its words and the order of its leads.
func asks(c *couplets.Couplet) string {
	var all []string
	for i := range c.Leads {
		all = append(all, stands(&c.Leads[i]))
	}
	slices.Sort(all)
	return strings.Join(all, "|")
}

// stands is what a lead stands for: "tails 2, 3; gills no".
func stands(l *couplets.Lead) string {
	var all []string
	for _, cond := range l.Conditions {
		states := slices.Sorted(slices.Values(cond.States))
		all = append(all, cond.Trait+" "+strings.Join(states, ", "))
	}
	slices.Sort(all)
	return strings.Join(all, "; ")
}

// ends are the taxa that a couplet ends in.
func ends(c *couplets.Couplet) string {
	var all []string
	for i := range c.Leads {
		all = append(all, c.Leads[i].Taxa...)
	}
	slices.Sort(all)
	return strings.Join(all, " ")
}

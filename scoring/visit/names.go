package visit

import (
	"slices"
	"strings"
)

// names leads from the ways a name was written to the one that holds.
type names map[string]string

// firstOf follows a name, through several answers where there were several.
func (n names) firstOf(key string) string {
	for range len(n) {
		to, ok := n[key]
		if !ok || to == key {
			break
		}
		key = to
	}
	return key
}

func (n names) known(key string) bool { _, ok := n[key]; return ok }

// named are the answers about one kind of name; key makes spellings equal that
// nobody need be asked about.
func (v *Visit) named(what string, key func(string) string) names {
	n := names{}
	for _, e := range v.Events {
		if s, ok := e.Body.(SameName); ok && s.What == what && !s.Differ {
			n[key(s.Name)] = key(s.Spelling)
		}
	}
	return n
}

func (v *Visit) sampleNames() names { return v.named(NameSample, sampleKey) }

// SamePerson reports whether two names mean one person, whatever their case and the
// blanks round them. Who is not named is nobody, not even the same as another such.
func SamePerson(a, b string) bool {
	a = strings.TrimSpace(a)
	return a != "" && strings.EqualFold(a, strings.TrimSpace(b))
}

// Person is the way to write a person's name that holds on this visit.
func (v *Visit) Person(name string) string {
	return v.named(NamePerson, func(s string) string { return s }).firstOf(name)
}

// People are the names of those who took part or did something, in the order of
// the file, each in the way to write it that holds.
func (v *Visit) People() []string {
	written := v.named(NamePerson, func(s string) string { return s })
	var out []string
	add := func(name string) {
		if name = written.firstOf(strings.TrimSpace(name)); name != "" && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	for _, p := range v.Header.People {
		add(p)
	}
	for _, e := range v.Events {
		add(e.Who)
	}
	return out
}

// settled maps each amendment that gives way to the changes it gives way to. A
// later settlement undoes an earlier one of the same pair.
func (v *Visit) settled() map[string][]Change {
	over := map[[2]string]bool{}
	var order [][2]string
	for _, e := range v.Events {
		s, ok := e.Body.(Settlement)
		if !ok {
			continue
		}
		for _, id := range s.Overruled {
			delete(over, [2]string{s.Holds, id})
			over[[2]string{id, s.Holds}] = true
			order = append(order, [2]string{id, s.Holds})
		}
	}
	if len(over) == 0 {
		return nil
	}
	changes := map[string]Amendment{}
	for _, e := range v.Events {
		if a, ok := e.Body.(Amendment); ok {
			changes[e.ID] = a
		}
	}
	out := map[string][]Change{}
	for _, pair := range order {
		loser, holder := changes[pair[0]], changes[pair[1]]
		if !over[pair] || loser.Entry != holder.Entry {
			continue
		}
		ch := holder.Change
		if holder.Withdrawn || loser.Withdrawn {
			ch = loser.Change // nothing of it is left
		}
		out[pair[0]] = append(out[pair[0]], ch)
	}
	return out
}

// giveWay is what is left of an amendment after the settlements.
func (r *replay) giveWay(id string, a Amendment) Amendment {
	for _, ch := range r.yields[id] {
		a.Withdrawn = false
		a.Change = a.Change.minus(ch)
	}
	return a
}

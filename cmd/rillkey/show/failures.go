//go:build !js

package show

import (
	"io"
	"slices"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/astray"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Failures are the couplets of a key at which people lost animals.
type Failures struct {
	Key      string    `json:"key"`
	Basis    *Learned  `json:"from"`
	OnPaper  int       `json:"on_paper"` // records of those that have a first name and no answers
	Couplets []Failing `json:"couplets"`
}

// Failing is one couplet of them.
type Failing struct {
	Couplet string   `json:"couplet"`
	Ask     string   `json:"ask"`
	Came    int      `json:"came"`   // animals that belonged there
	Unsure  int      `json:"unsure"` // of which nobody could tell
	Lost    int      `json:"lost"`
	Ways    []Misled `json:"ways"`
}

// Misled is animals of one kind that went one way in the place of another.
type Misled struct {
	Taxon   string   `json:"taxon"`
	Name    string   `json:"name"`
	Animals int      `json:"animals"`
	Taken   string   `json:"taken"`
	Words   string   `json:"words"` // of the lead that was taken
	Right   []string `json:"right"`
	Mend    string   `json:"mend"`
}

// NewFailures puts what was counted into words.
func NewFailures(k *key.Key, found []astray.CoupletFate, from *Learned) *Failures {
	f := &Failures{Key: k.Title(), Basis: from, Couplets: []Failing{}}
	for _, c := range found {
		at := k.Sound().Couplet(c.ID)
		one := Failing{Couplet: c.ID, Ask: at.Ask, Came: c.Came, Unsure: c.Unsure, Lost: c.Lost, Ways: []Misled{}}
		for _, w := range c.Ways {
			taken := leadOf(at, w.Taken)
			t := k.Catalog().Taxon(w.Taxon)
			one.Ways = append(one.Ways, Misled{
				w.Taxon, t.Name(), w.Animals, w.Taken, taken.Text, w.Right, mendOf(k, at, taken, t, w.Right)})
		}
		f.Couplets = append(f.Couplets, one)
	}
	return f
}

// leadOf is a lead of a couplet by its full name, such as "4b".
func leadOf(c *couplets.Couplet, name string) *couplets.Lead {
	i := slices.IndexFunc(c.Leads, func(l couplets.Lead) bool { return c.ID+l.Letter == name })
	return &c.Leads[i]
}

// mendOf says what to look at: a confusion that the traits know of, a trait that the
// catalog gives the animal otherwise, or the words.
func mendOf(k *key.Key, c *couplets.Couplet, taken *couplets.Lead, t *taxa.Taxon, right []string) string {
	for _, cond := range taken.Conditions {
		trait, shown := k.Catalog().Vocabulary().Trait(cond.Trait), t.States(cond.Trait)
		if shown == nil {
			return wording.Sprintf("the catalog does not say which %s it shows: if it is as these people saw it, key it out "+
				"under %s too", plain.Quote(cond.Trait), c.ID+taken.Letter)
		}
		if slices.ContainsFunc(shown, func(w taxa.Weight) bool { return slices.Contains(cond.States, w.State) }) {
			continue // it is another trait that was misread
		}
		for _, w := range shown {
			state := &trait.States[trait.State(w.State)]
			for _, read := range cond.States {
				label := trait.States[trait.State(read)].Label
				switch {
				case slices.Contains(state.LostAs, read):
					return wording.Sprintf("%s looks like %s once the part has broken off: key it out under %s%s too, or "+
						"say so in %s", plain.Quote(state.Label), plain.Quote(label), c.ID, taken.Letter, plain.And(right))
				case slices.Contains(state.MistakenFor, read):
					return wording.Sprintf("%s is often taken for %s: say in %s what tells them apart%s",
						plain.Quote(state.Label), plain.Quote(label), plain.And(right), how(trait))
				}
			}
		}
		return wording.Sprintf("%s is not known to be mistaken so: reword %s and %s, or note it in the trait as mistaken_for",
			plain.Quote(cond.Trait), plain.And(right), c.ID+taken.Letter)
	}
	return wording.Text("reword its leads")
}

// how is how a trait is looked at, as a further hint.
func how(t *taxa.Trait) string {
	if t.How == "" {
		return ""
	}
	return " (" + t.How + ")"
}

// Text writes the couplets, the worst first.
func (f *Failures) Text(w io.Writer, width int) error {
	p := newPage(w, width)
	p.text(0, 2, "%s: %s whose right name is known, in %s.", f.Key, plain.Count(f.Basis.Animals, "record"),
		plain.Count(f.Basis.Visits, "visit"))
	for _, s := range f.Basis.LeftOut {
		p.text(0, 2, "Left out: %s", s)
	}
	if f.OnPaper > 0 {
		p.text(0, 2, "By name alone, as from a sheet that was typed in: %d. Such a record went the way of its first name as far as "+
			"only one lead goes there.", f.OnPaper)
	}
	if len(f.Couplets) == 0 {
		p.text(0, 2, "No couplet lost any of them.")
	}
	for _, c := range f.Couplets {
		p.line("")
		unsure := ""
		if c.Unsure > 0 {
			unsure = wording.Sprintf("; of %d nobody could tell", c.Unsure)
		}
		p.text(0, 2, "Couplet %s, %s: lost %d of %d (%s)%s", c.Couplet, c.Ask, c.Lost, c.Came,
			plain.Percent(float64(c.Lost)/float64(c.Came)), unsure)
		for _, way := range c.Ways {
			p.text(2, 4, "%d x %s: %s was taken in the place of %s: %s", way.Animals, way.Name, way.Taken,
				plain.And(way.Right), plain.Quote(way.Words))
			p.text(4, 4, "To mend: %s.", way.Mend)
		}
	}
	if len(f.Couplets) > 0 && f.Basis.Drawn < f.Basis.Animals {
		p.line("")
		p.text(0, 2, "%d of %d records were drawn by chance for their second look; the others were chosen, most often because "+
			"they were doubtful, so all shares are too high for animals at large.", f.Basis.Drawn, f.Basis.Animals)
	}
	return p.err
}

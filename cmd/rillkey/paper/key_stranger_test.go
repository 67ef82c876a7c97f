package paper

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"rillkey/cmd/rillkey/demo"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

// A stranger with nothing but the printed page names every animal of the demo as
// the program does. Where the people of the demo could not make something out,
// the page lets the stranger stop at the name that the program gave, or gives
// no name either. What is misread at the first look is read rightly here.
func TestAStrangerNamesTheDemoAnimalsOnPaper(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	sound, catalog := keytest.Sound(t, couplets.DefaultName)
	m, err := key.Compile(sound, catalog).Model(key.FileRates(catalog.Vocabulary()))
	if err != nil {
		t.Fatal(err)
	}
	visits, err := demo.InventedVisits()
	if err != nil {
		t.Fatal(err)
	}
	s := stranger{steps: map[string]printedStep{}, sound: sound, start: sound.Start}
	for _, step := range steps(t, keyOnPaper(t, couplets.DefaultName)) {
		s.steps[step.number] = step
	}
	named := 0
	for _, v := range visits {
		for _, f := range v.Finds {
			q, _, err := f.Name(m)
			if err != nil {
				t.Fatal(err)
			}
			want, v := "", q.Verdict()
			if v.Level == key.ToSet {
				var names []string
				for _, id := range v.Set {
					names = append(names, catalog.Taxon(id).Name())
				}
				want = strings.Join(names, " or ")
				named++
			} else if v.Taxon != "" {
				want = catalog.Taxon(v.Taxon).Name()
				named++
			}
			if got, way := s.name(catalog.Taxon(f.Taxon), f.Unsure); got != want && !slices.Contains(strings.Split(got, " or "), want) {
				// the program asks on within a set
				t.Errorf("%s: on paper %q by %v, by the program %q by %v", f.Taxon, got, way, want, q.Path())
			}
		}
	}
	if named < 20 {
		t.Errorf("only %d animals have a name", named)
	}
}

// stranger reads the page. A test cannot read prose: what a lead's words mean
// is looked up by the words.
type stranger struct {
	steps map[string]printedStep
	sound *couplets.Sound
	start string
}

// name follows the printed numbers to a printed name, or to the name to stop at
// where the animal shows none of a couplet's leads.
func (s stranger) name(animal *taxa.Taxon, unsure []string) (name string, way []string) {
	for number := s.start; len(way) <= len(s.steps); {
		step := s.steps[number]
		i := slices.IndexFunc(step.leads, func(l printedLead) bool { return s.fits(animal, unsure, l) })
		if i < 0 {
			if len(step.stops) > 0 {
				name = step.stops[0]
			}
			return name, append(way, number+"?")
		}
		lead := step.leads[i]
		way = append(way, lead.label)
		if lead.to == "" {
			return strings.Join(lead.names, " or "), way
		}
		number = lead.to
	}
	return fmt.Sprintf("no end after %d leads", len(way)), way
}

func (s stranger) fits(animal *taxa.Taxon, unsure []string, l printedLead) bool {
	for _, c := range s.sound.Couplets {
		for _, lead := range c.Leads {
			if oneLine(lead.Text) != l.words || c.ID+lead.Letter != l.label {
				continue
			}
			return !slices.ContainsFunc(lead.Conditions, func(c couplets.Condition) bool {
				return slices.Contains(unsure, c.Trait) ||
					!slices.ContainsFunc(animal.States(c.Trait), func(w taxa.Weight) bool { return slices.Contains(c.States, w.State) })
			})
		}
	}
	return false
}

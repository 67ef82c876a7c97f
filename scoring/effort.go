package scoring

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// areaRounding is the share by which a sample may fall short of the area: the
// figures people write down are rounded.
const areaRounding = 0.01

// Effort compares the samples taken with those the protocol asks for.
type Effort struct {
	Taken    int              `json:"taken"`    // samples taken
	Required int              `json:"required"` // samples the protocol asks for
	Sorted   int              `json:"sorted"`   // of those required, samples taken that are sorted or empty
	Complete bool             `json:"complete"` // all that are required were taken, and are sorted or empty
	Missing  []MissingSamples `json:"missing"`
	Unsorted []Unsorted       `json:"unsorted"`          // of those required, samples taken that are not sorted
	Remarks  []string         `json:"remarks,omitempty"` // samples that are too small, or whose area nobody wrote down
	// what more samples would likely find, where the effort is incomplete and two samples at least were taken
	Forecast *RichnessForecast `json:"outlook,omitempty"`
}

// Unsorted is a sample of which animals may still be in the tray.
type Unsorted struct {
	Sample string        `json:"sample"`
	State  visit.Sorting `json:"state"` // visit.NotSorted or visit.BeingSorted
}

// MissingSamples is a number of samples that were not taken.
type MissingSamples struct {
	Habitat string  `json:"habitat"` // scheme.AnyHabitat where it does not matter
	Samples int     `json:"samples"`
	Area    float64 `json:"area_m2,omitempty"` // square metres of each
}

// String says what is missing, as "2 riffle samples of 0.37 square metres".
func (m MissingSamples) String() string {
	words := plain.Count(m.Samples, "sample")
	switch habitat := scheme.HabitatWords(m.Habitat); {
	case m.Habitat == scheme.AnyHabitat:
	case m.Samples == 1:
		words = wording.Sprintf("%d %s sample", m.Samples, habitat)
	default:
		words = wording.Sprintf("%d %s samples", m.Samples, habitat)
	}
	if m.Area > 0 {
		words += " " + wording.Sprintf("of %v square metres", told(m.Area))
	}
	return words
}

// told is an area as people are told it, in square metres to the last square centimetre:
// what somebody measured in feet has more digits than they measured.
func told(m2 float64) float64 { return math.Round(m2*1e4) / 1e4 }

// effortOf gives each sample to the first need it serves, those that are sorted
// before the others; a need for whatever habitat takes what the others leave.
func effortOf(p *scheme.Protocol, taken []visit.Taken) Effort {
	e := Effort{Taken: len(taken), Missing: []MissingSamples{}, Unsorted: []Unsorted{}}
	samples := slices.Clone(taken)
	sorting.Stable(samples, func(a, b visit.Taken) int { return cmp.Compare(rank(a.State), rank(b.State)) })
	used := make([]bool, len(samples))
	for _, anywhere := range []bool{false, true} {
		for _, n := range p.Needs {
			if (n.Habitat == scheme.AnyHabitat) == anywhere {
				e.fill(n, samples, used)
			}
		}
	}
	for i, s := range samples {
		if !used[i] && !s.State.Done() {
			e.Remarks = append(e.Remarks, wording.Sprintf("sample %s is %s; the grade does not wait for it", s.Label, s.State.Words()))
		}
	}
	sorting.Stable(e.Unsorted, func(a, b Unsorted) int { return cmp.Compare(order(taken, a.Sample), order(taken, b.Sample)) })
	e.Complete = len(e.Missing) == 0 && len(e.Unsorted) == 0
	return e
}

// rank puts samples first that need no more work.
func rank(s visit.Sorting) int {
	if s.Done() {
		return 0
	}
	return 1
}

// order is the place of a sample among those taken.
func order(taken []visit.Taken, label string) int {
	return slices.IndexFunc(taken, func(s visit.Taken) bool { return s.Label == label })
}

// unsortedWords says which samples are not sorted, as "sample 1 is being sorted,
// samples 2 and 3 are not yet sorted"; empty where there are none.
func (e Effort) unsortedWords() string {
	var parts []string
	for _, state := range []visit.Sorting{visit.BeingSorted, visit.NotSorted} {
		var labels []string
		for _, u := range e.Unsorted {
			if u.State == state {
				labels = append(labels, u.Sample)
			}
		}
		switch n := len(labels); n {
		case 0:
		case 1:
			parts = append(parts, wording.Sprintf("sample %s is %s", labels[0], state.Words()))
		default:
			parts = append(parts, wording.Sprintf("samples %s and %s are %s", strings.Join(labels[:n-1], ", "), labels[n-1], state.Words()))
		}
	}
	return strings.Join(parts, ", ")
}

// Lack says what is missing for the effort to be complete: samples that were not
// taken, and samples that are not sorted; empty where nothing is.
func (e Effort) Lack() string {
	var parts []string
	if len(e.Missing) > 0 {
		missing := make([]string, len(e.Missing))
		for i, m := range e.Missing {
			missing[i] = m.String()
		}
		parts = append(parts, wording.Sprintf("too few samples: %d taken of %d required; missing: %s", e.Taken, e.Required,
			strings.Join(missing, ", ")))
	}
	if words := e.unsortedWords(); words != "" {
		parts = append(parts, wording.Sprintf("animals may still be in the tray: %s", words))
	}
	return strings.Join(parts, "; ")
}

func (e *Effort) fill(n scheme.Need, samples []visit.Taken, used []bool) {
	e.Required += n.Samples
	left := n.Samples
	for i, s := range samples {
		if left == 0 {
			break
		}
		if used[i] || n.Habitat != scheme.AnyHabitat && n.Habitat != s.Habitat {
			continue
		}
		switch {
		case n.Area > 0 && s.Area == 0:
			e.Remarks = append(e.Remarks,
				wording.Sprintf("sample %s counts although nobody wrote down its area; the protocol asks for %v "+
					"square metres", s.Label, told(n.Area)))
		case s.Area < n.Area*(1-areaRounding):
			e.Remarks = append(e.Remarks,
				wording.Sprintf("sample %s does not count towards the effort: it covers %v square metres of the %v that the "+
					"protocol asks for", s.Label, told(s.Area), told(n.Area)))
			continue
		}
		used[i] = true
		left--
		if s.State.Done() {
			e.Sorted++
		} else {
			e.Unsorted = append(e.Unsorted, Unsorted{s.Label, s.State})
		}
	}
	if left > 0 {
		e.Missing = append(e.Missing, MissingSamples{n.Habitat, left, n.Area})
	}
}

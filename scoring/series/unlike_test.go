package series_test

import (
	"strings"
	"testing"

	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
)

// noting is a visit that noted some conditions.
func noting(t *testing.T, v *visit.Visit, set ...string) *visit.Visit {
	t.Helper()
	values := condition.Values{}
	for i := 0; i < len(set); i += 2 {
		value, err := condition.Find(set[i]).Parse(set[i+1])
		if err != nil {
			t.Fatal(err)
		}
		values[set[i]] = value
	}
	v.Events = append(v.Events, visit.Event{ID: "noted", Time: today, Who: "Ada", Body: visit.Conditions{Values: values}})
	return v
}

// inPart is a visit of whose samples a quarter was sorted.
func inPart(v *visit.Visit) *visit.Visit {
	for i, e := range v.Events {
		if s, ok := e.Body.(visit.Sample); ok {
			s.Fraction = 0.25
			v.Events[i].Body = s
		}
	}
	return v
}

// A visit is set against the one before at equal effort or not at all, and with what
// else differed.
func TestWhatElseDiffered(t *testing.T) {
	more := func(v *visit.Visit) *visit.Visit {
		v.Events = append(v.Events, visit.Event{
			ID: "z", Time: today, Who: "Ada", Body: visit.Sample{Label: "4", Habitat: "riffle", Area: 0.37, Said: visit.Empty}})
		return v
	}
	first := noting(t, made("a", "Otter Run", "2024-05-03", good...), "level", "low", "water-temperature", "12")
	for _, row := range []struct {
		why    string
		second *visit.Visit
		by     float64
		unlike string
		words  string // of a visit that is not compared
	}{
		{"the same in all", noting(t, made("b", "Otter Run", "2025-05-20", fair...), "level", "low", "water-temperature", "9"), -4, "", ""},
		{"nothing noted", made("b", "Otter Run", "2025-05-20", fair...), -4, "", ""},
		{"high and cold", noting(t, made("b", "Otter Run", "2025-05-20", fair...), "level", "high", "water-temperature", "4"), -4,
			"water level high, not low; water temperature 4 °C, not 12 °C", ""},
		{"autumn", made("b", "Otter Run", "2025-10-02", fair...), -4, "another time of year", ""},
		{"four samples", more(made("b", "Otter Run", "2025-05-20", fair...)), 0, "",
			"not compared with the visit before, which took 3 samples, not 4"},
		{"sorted in part", inPart(made("b", "Otter Run", "2025-05-20", fair...)), 0, "",
			"not compared with the visit before, since only a part was sorted here"},
	} {
		d := grade(t, first, row.second).Rows[1].Change
		if d == nil || (d.Difference == nil) != (row.words != "") || d.Difference != nil && *d.Difference != row.by ||
			strings.Join(d.OtherConditions, "; ") != row.unlike || d.Words != row.words {
			t.Errorf("%s: %+v", row.why, d)
		}
	}
	d := grade(t, inPart(made("a", "Otter Run", "2024-05-03", good...)), made("b", "Otter Run", "2025-05-20", fair...)).Rows[1].Change
	if d.Difference != nil || d.Words != "not compared with the visit before, of which only a part was sorted" {
		t.Errorf("%+v", d)
	}
}

// A change that is shown, and what is missing beside earlier visits, are told with the
// water; so are pairs.
func TestOtherWaterIsToldWithWhatChanged(t *testing.T) {
	var all []*visit.Visit
	for i, v := range yearly("Otter Run", good, fair, good, fair, good, fair, poor) {
		level := "low"
		if i%3 == 1 || i == 6 {
			level = "high"
		}
		all = append(all, noting(t, v, "level", level))
	}
	const told = "The water was not as it mostly was before (water level high, not low), which moves animals too."
	table := grade(t, all...)
	if words := table.Places[0].ChangedBy("2020-05-09"); !strings.HasSuffix(words, told) {
		t.Error(words)
	}
	if u := table.Places[0].Usual; u == nil || strings.Join(u.OtherConditions, "; ") != "water level high, not low" {
		t.Errorf("%+v", u)
	}
	if words := grade(t, all[:6]...).Places[0].Words; strings.Contains(words, "The water was not") {
		t.Error(words)
	}
	if words := grade(t, append(all[:6:6],
		noting(t, made("z", "Otter Run", "2020-05-09", fair...), "level", "high"))...).Places[0].Words; !strings.HasSuffix(words, told) {
		t.Error(words)
	}
	up := noting(t, made("u", "Upper Ford", "2024-05-03", good...), "level", "normal")
	down := noting(t, made("d", "Below the Works", "2024-05-09", poor...), "level", "high")
	if p := compareReference(t, "Upper Ford", up, down).Places[0]; p.Reference.UnlikePairs != 1 ||
		!strings.Contains(p.Words, "The water was not alike in 1 of them (water level high, not normal), which moves animals too.") {
		t.Error(p.Words)
	}
}

package scoring

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
)

// tray builds a visit in memory, without a file.
type tray struct{ v visit.Visit }

func newTray(protocol string) *tray {
	return &tray{visit.Visit{Header: visit.Header{ID: "v1", Site: "Otter Run", Date: "2024-05-31", Protocol: protocol}}}
}

func (y *tray) event(b visit.Body) *tray {
	y.v.Events = append(y.v.Events, visit.Event{ID: "e" + strconv.Itoa(len(y.v.Events)+1), Body: b})
	return y
}

// sample takes a sample that is sorted.
func (y *tray) sample(label, habitat string, area float64) *tray {
	return y.event(visit.Sample{Label: label, Habitat: habitat, Area: area, Said: visit.Sorted})
}

// riffles takes three complete riffle samples named 1, 2 and 3.
func (y *tray) riffles() *tray {
	return y.sample("1", "riffle", 0.37).sample("2", "riffle", 0.37).sample("3", "riffle", 0.37)
}

func (y *tray) animals(sample, taxon string, n int) *tray {
	return y.event(visit.Identification{Sample: sample, Taxon: taxon, Count: n, Confidence: 0.9})
}

func (y *tray) grade(t *testing.T) *Grade {
	t.Helper()
	return y.gradeWith(t, GradeOptions{})
}

func (y *tray) gradeWith(t *testing.T, o GradeOptions) *Grade {
	t.Helper()
	g, err := rules(t).Grade(rules(t).Account(&y.v), o)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func TestTwoOfSevenSamplesGiveNoGrade(t *testing.T) { // common practice
	y := newTray("seven-samples").sample("1", "riffle", 0).sample("2", "leaf-pack", 0)
	y.animals("1", "perlidae-unknown-to-us", 1).animals("1", "plecoptera", 12).animals("2", "baetidae", 3).animals("2",
		"tipulidae", 2).animals("1", "hirudinea", 1)
	g := y.grade(t)
	if e := g.Effort; e.Taken != 2 || e.Required != 7 || e.Complete ||
		!reflect.DeepEqual(e.Missing, []MissingSamples{{scheme.AnyHabitat, 5, 0}}) {
		t.Errorf("effort %+v", e)
	}
	if !g.Withheld() || len(g.Indices) != 2 {
		t.Fatalf("indices %+v", g.Indices)
	}
	for _, i := range g.Indices {
		if i.Value != nil || i.Rating != "" || len(i.Terms) != 0 || !i.Withheld ||
			i.Reason != "too few samples: 2 taken of 7 required; missing: 5 samples" {
			t.Errorf("index %+v", i)
		}
	}
	want := []GroupFound{
		{"sensitive", "sensitive", 15, []KindFound{{"mayfly", "mayfly", 3}, {"stonefly", "stonefly", 12}}},
		{"somewhat-sensitive", "somewhat sensitive", 2, []KindFound{{"crane-fly", "crane fly", 2}}},
		{"tolerant", "tolerant", 1, []KindFound{{"leech", "leech", 1}}},
	}
	if !reflect.DeepEqual(g.Found, want) {
		t.Errorf("found %+v", g.Found)
	}
	if !slices.Contains(g.Remarks, Variety) {
		t.Errorf("remarks %q", g.Remarks)
	}
}

func TestVarietyIsPraisedOnlyWhereThereIsSome(t *testing.T) {
	tests := []struct {
		label string
		taxa  []string
		want  bool
	}{
		{"nothing found", nil, false},
		{"worms and nothing else", []string{"oligochaeta"}, false},
		{"sensitive animals alone", []string{"perlidae", "baetidae"}, false},
		{"worms beside crayfish", []string{"oligochaeta", "cambaridae"}, false},
		{"stoneflies beside worms", []string{"perlidae", "oligochaeta"}, true},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			y := newTray("riffle-three").sample("1", "riffle", 0.37)
			for _, taxon := range tt.taxa {
				y.animals("1", taxon, 200)
			}
			if got := slices.Contains(y.grade(t).Remarks, Variety); got != tt.want {
				t.Errorf("praised: %t", got)
			}
		})
	}
}

func TestCompleteVisitIsGradedWithItsTerms(t *testing.T) {
	y := newTray("riffle-three").riffles()
	y.animals("1", "baetidae", 6).animals("2", "heptageniidae", 6).animals("3", "plecoptera", 2).animals("1", "chironomidae-red", 240)
	g := y.grade(t)
	if g.Withheld() || !g.Effort.Complete || len(g.Effort.Missing) != 0 {
		t.Fatalf("grade %+v", g)
	}
	// Mayfly, stonefly, midge: 3 + 3 + 1; with 12, 2 and 240 animals the
	// letters C, R, D: 5.6 + 5.0 + 1.0.
	for i, want := range []float64{7, 11.6} {
		if got := g.Indices[i]; *got.Value != want || got.Rating != []string{"poor", scheme.Unrated}[i] || len(got.Terms) != 3 {
			t.Errorf("%+v, want %v", got, want)
		}
	}
	if got := g.Indices[1].Terms[0]; got != (scheme.Term{
		Kind: "mayfly", Label: "mayfly", Group: "sensitive", GroupLabel: "sensitive", Count: 12, Code: "C", Weight: 5.6,
		Part: 5.6, Status: "memory",
	}) {
		t.Errorf("term %+v", got)
	}
	if got := g.Found[2]; len(g.Found) != 3 || len(got.Kinds) != 1 {
		t.Errorf("found %+v", g.Found)
	}
	if slices.Contains(g.Remarks, Variety) || g.Caution == "" {
		t.Errorf("remarks %q, caution %q", g.Remarks, g.Caution)
	}
}

func TestBestSampleCounts(t *testing.T) { // Virginia Save Our Streams: the best-rated of three
	y := newTray("riffle-best").riffles()
	y.animals("1", "plecoptera", 2).animals("2", "plecoptera", 9).animals("2", "tipulidae", 1).animals("3", "hirudinea", 5)
	i := y.grade(t).Indices[0]
	if *i.Value != 5 || i.Sample != "2" || len(i.Terms) != 2 {
		t.Errorf("best sample is 2 with 3 + 2, got %+v", i)
	}
	pooled := newTray("riffle-three")
	pooled.v.Events = y.v.Events
	if i := pooled.grade(t).Indices[0]; *i.Value != 6 || i.Sample != "" {
		t.Errorf("together 3 + 2 + 1, got %+v", i)
	}
}

func TestEffort(t *testing.T) {
	p := &scheme.Protocol{Needs: []scheme.Need{{Habitat: scheme.AnyHabitat, Samples: 1}, {Habitat: "riffle", Samples: 2, Area: 0.37}}}
	sample := func(habitat string, area float64) visit.Taken {
		return visit.Taken{Sample: visit.Sample{Label: habitat, Habitat: habitat, Area: area}, State: visit.Sorted}
	}
	tests := []struct {
		label   string
		samples []visit.Taken
		missing []MissingSamples
		remarks int
	}{
		{"nothing taken", nil, []MissingSamples{{"riffle", 2, 0.37}, {scheme.AnyHabitat, 1, 0}}, 0},
		{"a riffle fills a riffle's place first", []visit.Taken{sample("riffle", 0.37), sample("riffle", 0.37)},
			[]MissingSamples{{scheme.AnyHabitat, 1, 0}}, 0},
		{"the third riffle is whatever habitat",
			[]visit.Taken{sample("riffle", 0.37), sample("riffle", 0.37), sample("riffle", 0.37)}, []MissingSamples{}, 0},
		{"a pool is no riffle", []visit.Taken{sample("pool", 1), sample("pool", 1), sample("riffle", 1)},
			[]MissingSamples{{"riffle", 1, 0.37}}, 0},
		{"too small does not count", []visit.Taken{sample("riffle", 0.3), sample("riffle", 0.4), sample("pool", 1)},
			[]MissingSamples{{"riffle", 1, 0.37}}, 1},
		{"within the rounding of what people write",
			[]visit.Taken{sample("riffle", 0.367), sample("riffle", 0.37), sample("pool", 0)}, []MissingSamples{}, 0},
		{"an area nobody wrote down counts and is named",
			[]visit.Taken{sample("riffle", 0), sample("riffle", 0.37), sample("pool", 1)}, []MissingSamples{}, 1},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			e := effortOf(p, tt.samples)
			if e.Taken != len(tt.samples) || e.Required != 3 || !reflect.DeepEqual(e.Missing, tt.missing) ||
				len(e.Remarks) != tt.remarks || e.Complete != (len(tt.missing) == 0) {
				t.Errorf("%+v", e)
			}
		})
	}
	if s := (MissingSamples{"riffle", 2, 0.37}).String(); s != "2 riffle samples of 0.37 square metres" {
		t.Error(s)
	}
	// What was measured in feet is told without the digits of the arithmetic; files of
	// other programs hold them.
	if e := effortOf(p, []visit.Taken{sample("riffle", 0.27870912000000003)}); len(e.Remarks) != 1 ||
		!strings.Contains(e.Remarks[0], "it covers 0.2787 square metres of the 0.37") {
		t.Errorf("%q", e.Remarks)
	}
}

func TestLeftOut(t *testing.T) {
	tests := []struct {
		label, scheme string
		record        visit.Identification
		why           scheme.Why
		note          string
	}{
		{"an undecided record has no kind, whatever its best guess", "presence",
			visit.Identification{Taxon: "plecoptera", Undecided: true}, scheme.WhySetAside, "second look"},
		{"a beetle may be a riffle beetle or a water penny", "presence", visit.Identification{Taxon: "coleoptera"},
			scheme.WhyAmbiguous, "riffle beetle"},
		{"a dobsonfly family may be a hellgrammite or a fishfly", "presence", visit.Identification{Taxon: "corydalidae"},
			scheme.WhyAmbiguous, "hellgrammite"},
		{"a fly may be many kinds", "presence", visit.Identification{Taxon: "diptera"}, scheme.WhyAmbiguous, "crane fly or watersnipe fly"},
		{"a dragonfly or damselfly is somewhat sensitive either way", "presence", visit.Identification{Taxon: "odonata"},
			scheme.WhyAmbiguous, "all of these are somewhat sensitive"},
		{"a decapod may be a shrimp", "presence", visit.Identification{Taxon: "decapoda"}, scheme.WhyAmbiguous,
			"or something this index has no kind for"},
		{"a caddisfly is open where net-spinners stand apart", "presence-virginia",
			visit.Identification{Taxon: "trichoptera"}, scheme.WhyAmbiguous, "net-spinning"},
		{"a riffle beetle is open where larva and adult stand apart", "weighted", visit.Identification{Taxon: "elmidae"},
			scheme.WhyAmbiguous, "beetle larva"},
		{"a fish or salamander", "presence", visit.Identification{Taxon: "backbone"}, scheme.WhyNotScored, "never scored"},
		{"a limpet is not on the sheet", "presence", visit.Identification{Taxon: "limpet"}, scheme.WhyNotScored, "limpet is never scored"},
		{"a water mite is not on the list", "weighted", visit.Identification{Taxon: "hydrachnidia"}, scheme.WhyNotListed, "no kind"},
		{"an id nobody knows", "presence", visit.Identification{Taxon: "jackalope"}, scheme.WhyUnknownTaxon, `"jackalope"`},
	}
	r := rules(t)
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			tt.record.Count = 4
			got := r.grader(tt.scheme).sort(r.grader(tt.scheme).rows(r, []visit.Record{{ID: "e1", Identification: tt.record}}))
			left := got.left
			if len(got.found) != 0 || len(left) != 1 || left[0].Why != tt.why || left[0].Record != "e1" ||
				!strings.Contains(left[0].Note, tt.note) {
				t.Errorf("counted %+v, left out %+v", got.found, left)
			}
			if anyDoubtful(left) != (tt.why != scheme.WhyNotScored && tt.why != scheme.WhyNotListed) {
				t.Error("only a closer name can bring a record in")
			}
			if remarks := leftRemarks(left); len(remarks) != 1 || !strings.HasPrefix(remarks[0], "Left out: 4 animals in 1 record, ") {
				t.Errorf("remarks %q", remarks)
			}
		})
	}
}

func TestAnEmptyNet(t *testing.T) {
	tests := []struct {
		label  string
		fill   func(*tray)
		reason string // empty when graded
	}{
		{"at full effort it is worth 0", func(y *tray) {}, ""},
		{"a fish alone is an empty net too", func(y *tray) { y.animals("1", "backbone", 1).event(visit.Finish{}) }, ""},
		{"animals nobody could place are no empty net", func(y *tray) { y.animals("1", "diptera", 1).event(visit.Finish{}) },
			"no animal could be placed"},
	}
	for _, tt := range tests {
		t.Run(tt.label, func(t *testing.T) {
			y := newTray("riffle-three").riffles()
			tt.fill(y)
			i := y.grade(t).Indices[0]
			if tt.reason != "" {
				if !i.Withheld || i.Value != nil || !strings.Contains(i.Reason, tt.reason) {
					t.Errorf("%+v", i)
				}
				return
			}
			if *i.Value != 0 || i.Rating != "" || !strings.Contains(i.Reason, "too few animals for a word: 0") ||
				!strings.Contains(strings.Join(i.Remarks, " "), "make sure that the nets were whole") {
				t.Errorf("%+v", i)
			}
		})
	}
}

func TestAMeanOfNothingIsWithheld(t *testing.T) {
	y := newTray("riffle-families").sample("1", "riffle", 0).event(visit.Finish{})
	g := y.grade(t)
	if i := g.Indices[0]; !i.Withheld || i.Value != nil || i.Rating != "" ||
		!strings.Contains(i.Reason, "it is a mean or share, which nothing has") {
		t.Errorf("an empty net would read as excellent: %+v", i)
	}
	if i := g.Indices[1]; i.Withheld || *i.Value != 0 {
		t.Errorf("a sum of nothing is 0: %+v", i)
	}
	worms := newTray("riffle-families").sample("1", "riffle", 0).animals("1", "oligochaeta", 40).event(visit.Finish{})
	if i := worms.grade(t).Indices[0]; !i.Withheld {
		t.Errorf("worms alone have no value in an index of arthropods: %+v", i)
	}
}

func TestAMeanShowsItsWorking(t *testing.T) {
	y := newTray("riffle-families").sample("1", "riffle", 0)
	y.animals("1", "perlidae", 30).animals("1", "hydropsychidae", 200).animals("1", "simuliidae", 15).animals("1",
		"oligochaeta", 12).animals("1", "hirudinea", 1)
	i := y.grade(t).Indices[0]
	// 30 x 1 + 200 x 4 + 15 x 6 = 920; 920 / 245 = 3.755…
	if *i.Value != 3.76 || i.Rating != "very good" || i.Working != "920 / 245 = 3.76" ||
		i.RatingStatus != "confirmed, weak source" || i.RatingSource == "" || !strings.Contains(i.Note, "too polluted in clean streams") {
		t.Errorf("%+v", i)
	}
	sum := 0.0
	for _, term := range i.Terms {
		sum += term.Part
		if term.Part != float64(term.Count)*term.Weight {
			t.Errorf("%+v", term)
		}
	}
	if sum != 920 {
		t.Errorf("the parts add up to %v", sum)
	}
	said := strings.Join(i.Remarks, "\n")
	for _, want := range []string{"13 animals in 2 records, of kinds that this index does not count: aquatic worm (12), leech (1)"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is missing from\n%s", want, said)
		}
	}
}

func TestThreeIndicesOfOneEuropeanSample(t *testing.T) {
	y := newTray("all-habitats-three-minutes").sample("1", "all-habitats", 0)
	for taxon, n := range map[string]int{
		"heptageniidae": 40, "rhyacophilidae": 10, "gammaridae": 90, "hydropsychidae": 30, "simuliidae": 20, "oligochaeta": 20} {
		y.animals("1", taxon, n)
	}
	var got []string
	for _, i := range y.grade(t).Indices {
		got = append(got, fmt.Sprintf("%s %v %s %s", i.ID, *i.Value, i.Rating, i.Working))
		if len(i.Terms) != 6 {
			t.Errorf("%+v", i.Terms)
		}
	}
	if found := y.grade(t).Found; len(found) != 5 || found[0].Label != "score 10" {
		t.Errorf("only scores that were found are listed, 10, 7, 6, 5 and 1: %+v", found)
	}
	want := []string{"aspt 5.67  34 / 6 = 5.67", "bmwp 34 not rated ", "bmwp-families 6 not rated "}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestUnknownProtocol(t *testing.T) {
	for _, id := range []string{"", "nine-samples"} {
		if _, err := rules(t).Grade(rules(t).Account(&newTray(id).v), GradeOptions{}); err == nil ||
			!strings.Contains(err.Error(), `"riffle-three"`) {
			t.Errorf("protocol %q: %v", id, err)
		}
	}
}

func TestAmendedAndWithdrawnRecordsCount(t *testing.T) {
	y := newTray("riffle-three").riffles().animals("1", "plecoptera", 1).animals("2", "tipulidae", 1)
	to := "ephemeroptera"
	y.event(visit.Amendment{Entry: "e4", Reason: "gills", Change: visit.Change{Taxon: &to}})
	y.event(visit.Amendment{Entry: "e5", Reason: "a twig", Withdrawn: true})
	i := y.grade(t).Indices[0]
	if len(i.Terms) != 1 || i.Terms[0].Kind != "mayfly" || *i.Value != 3 {
		t.Errorf("%+v", i)
	}
}

// TestJSONNames pins the names that scripts rely on.
func TestJSONNames(t *testing.T) {
	raw, err := json.Marshal(newTray("seven-samples").grade(t))
	if err != nil {
		t.Fatal(err)
	}
	var doc map[string]any
	if err := json.Unmarshal(raw, &doc); err != nil {
		t.Fatal(err)
	}
	index := doc["indices"].([]any)[0].(map[string]any)
	for where, want := range map[string][]string{
		"grade":  {"visit", "effort", "indices"},
		"effort": {"taken", "required", "complete", "missing"},
		"index":  {"id", "value", "rating", "withheld", "reason", "source"},
	} {
		table := map[string]map[string]any{"grade": doc, "effort": doc["effort"].(map[string]any), "index": index}[where]
		for _, key := range want {
			if _, ok := table[key]; !ok {
				t.Errorf("%s lacks %q: %s", where, key, raw)
			}
		}
	}
	if index["value"] != nil || index["terms"] == nil || index["left_out"] == nil {
		t.Errorf("a withheld value is null and lists are lists: %v", index)
	}
}

func TestKickArea(t *testing.T) { // common practice: two feet by two feet is four square feet
	const foot, squareFoot = 0.3048, 0.09290304 // metres, square metres; exact by definition
	if got := KickArea(2*foot, 2*foot); math.Abs(got-4*squareFoot) > 1e-12 {
		t.Errorf("%v square metres, want %v", got, 4*squareFoot)
	}
}

// A visit of a day to come is remarked on, if the present day is known.
func TestADayToComeIsRemarkedOn(t *testing.T) {
	y := newTray("riffle-three").riffles()
	for today, want := range map[string]bool{"": false, "2000-01-01": true, y.v.Header.Date: false, "2100-01-01": false} {
		w := GradeOptions{}
		if today != "" {
			w.Today, _ = time.Parse(time.DateOnly, today)
		}
		said := strings.Contains(strings.Join(y.gradeWith(t, w).Remarks, " "), "which is after today")
		if said != want {
			t.Errorf("graded on %q: %v", today, said)
		}
	}
}

package scoring

import (
	"math"
	"strings"
	"testing"

	"rillkey/scoring/chance"
	"rillkey/scoring/visit"
)

func unsure(sample, taxon string, n int, rival string, p float64) visit.Identification {
	return visit.Identification{Sample: sample, Taxon: taxon, Count: n, Cell: "A1", Also: []visit.Chance{{Taxon: rival, Probability: p}}}
}

// 3 x 5 = 15 for certain, fair. A scud, worth 2, makes 17, good: one that may be
// no scud but a fish hangs the rating on itself. A second mayfly that may be a
// stonefly changes nothing, since both are there already.
func TestRecheckPutsWhatMattersFirst(t *testing.T) {
	y := newTray("riffle-three").riffles()
	for _, sure := range []string{"ephemeroptera", "plecoptera", "trichoptera", "psephenidae", "elmidae"} {
		y.event(visit.Identification{Sample: "1", Taxon: sure, Count: 2, Confidence: 1})
	}
	y.event(unsure("2", "ephemeroptera", 40, "plecoptera", 0.5))
	y.event(unsure("2", "amphipoda", 1, "fish", 0.5))
	got, err := rules(t).Recheck(rules(t).Account(&y.v), 1)
	if err != nil || got.Scheme != "presence" || len(got.Records) != 2 {
		t.Fatal(err, got)
	}
	if first := got.Records[0]; first.Taxon != "amphipoda" || math.Abs(first.Gain-1) > 1e-12 ||
		math.Abs(got.Uncertainty-1) > 1e-12 || first.Cell != "A1" || first.Rivals[0].Taxon != "fish" {
		t.Errorf("settling it takes away the whole bit: %+v", got)
	}
	last := got.Records[1]
	if last.Gain > 1e-12 || last.Moves > 1e-12 || last.Sure != 0.5 {
		t.Errorf("%+v", last)
	}
	if last.Tell == nil || last.Tell.Question == "" || len(last.Tell.Shows) != 2 || len(last.Tell.Shows[0].States) == 0 {
		t.Errorf("mayflies and stoneflies are told apart: %+v", last.Tell)
	}
}

// The expected gain is the mutual information of record and rating; here it is
// computed by brute force from the joint distribution.
func TestGainIsMutualInformation(t *testing.T) {
	r := rules(t)
	s := r.grader("presence")
	y := newTray("riffle-three").riffles()
	y.animals("1", "plecoptera", 2).animals("1", "elmidae", 1).animals("1", "tipulidae", 1)
	y.event(unsure("1", "ephemeroptera", 1, "zygoptera", 0.25)).event(unsure("2", "zygoptera", 1, "chironomidae", 0.5)).event(
		unsure("2", "psephenidae", 3, "isopoda", 0.375)).event(unsure("2", "athericidae", 3, "tipulidae", 0.375))
	for i := range y.v.Events {
		if d, ok := y.v.Events[i].Body.(visit.Identification); ok && len(d.Also) == 0 {
			d.Confidence = 1
			y.v.Events[i].Body = d
		}
	}
	tally := y.v.Tally()
	from := s.evidence(r.Account(&y.v))
	distributions := from.distributions(from.rows)
	got, _ := r.Recheck(r.Account(&y.v), 1)
	if len(got.Records) != 4 {
		t.Fatalf("%+v", got)
	}
	some := false
	for _, one := range got.Records {
		for i, rec := range tally.Records {
			if rec.ID != one.Record {
				continue
			}
			want := entropyOf(s, distributions)
			for _, o := range distributions[i].Outcomes {
				then := append([]chance.KindDistribution(nil), distributions...)
				then[i] = distributions[i].Settled(o.Kind)
				want -= o.Chance * entropyOf(s, then)
			}
			some = some || want > 0.01
			if math.Abs(one.Gain-math.Max(want, 0)) > 1e-9 {
				t.Errorf("%s: %v bits, want %v", rec.Taxon, one.Gain, want)
			}
		}
	}
	if !some {
		t.Error("no record mattered")
	}
}

func entropyOf(s grader, distributions []chance.KindDistribution) (bits float64) {
	words := map[string]float64{}
	everyOutcome(len(s.Kinds), distributions, func(counts []int64, p float64) { words[s.Band(plainValue(s, counts).Steps()).Rating] += p })
	for _, p := range words {
		bits -= p * math.Log2(p)
	}
	return bits
}

func TestRecheckNamesWhatIsTooBroadAndSetAside(t *testing.T) {
	y := newTray("riffle-families").sample("1", "riffle", 0.37)
	y.event(visit.Identification{Sample: "1", Taxon: "baetidae", Count: 5, Confidence: 1})
	y.event(visit.Identification{Sample: "1", Taxon: "plecoptera", Count: 5, Confidence: 1})
	y.event(visit.Identification{Sample: "1", Count: 1, Undecided: true})
	got, err := rules(t).Recheck(rules(t).Account(&y.v), 1)
	if err != nil || len(got.Records) != 2 || got.Records[0].Name != "set aside" || got.Records[1].Taxon != "plecoptera" ||
		got.Records[1].Moves <= 0 {
		t.Errorf("%v %+v", err, got)
	}
	best := newTray("riffle-best").riffles().event(unsure("1", "ephemeroptera", 1, "midge", 0.5)).event(
		unsure("2", "plecoptera", 1, "chironomidae", 0.25))
	if got, err := rules(t).Recheck(rules(t).Account(&best.v), 1); err != nil || len(got.Records) != 2 {
		t.Errorf("%v %+v", err, got)
	}
}

// Where no word is said of a visit there is none to become more certain; and animals of one
// broad name may be of several kinds, which together can change it.
func TestRecheckKnowsWhetherThereIsAWord(t *testing.T) {
	y := alike("riffle-three", 50, "baetidae", "perlidae", "tipulidae", "chironomidae")
	y.event(visit.Identification{Sample: "1", Taxon: "coleoptera", Count: 6, Confidence: 1})
	got, err := rules(t).Recheck(rules(t).Account(&y.v), 1)
	// 3 + 3 + 2 + 1 = 9, poor; a riffle beetle, a water penny and another make it 3 + 3 + 2 more, good.
	if err != nil || got.Wordless || len(got.Records) != 1 || !got.Records[0].MayChange {
		t.Errorf("%v %+v", err, got)
	}
	y = newTray("riffle-three").sample("1", "riffle", 0.37).event(unsure("1", "baetidae", 5, "perlidae", 0.5))
	if got, err = rules(t).Recheck(rules(t).Account(&y.v), 1); err != nil || !got.Wordless || len(got.Records) != 1 {
		t.Errorf("%v %+v", err, got)
	}
}

func TestAgreementOfAVisit(t *testing.T) {
	y := newTray("riffle-three").riffles()
	y.animals("1", "perlidae", 6).animals("1", "baetidae", 4).animals("2", "tipulidae", 3).animals("2", "elmidae", 1) // e4 to e7
	none := rules(t).Agreement(rules(t).Account(&y.v))
	if none.Records != 0 || none.Disagreement != nil || len(none.Remarks) != 1 {
		t.Errorf("%+v", none)
	}
	y.event(visit.SecondLook{Entry: "e4", Taxon: "perlidae", Count: 5}).event(
		visit.SecondLook{Entry: "e5", Taxon: "caenidae"}).event(visit.SecondLook{Entry: "e6", Taxon: "tipulidae", Count: 3})
	to := "caenidae"
	y.event(visit.Amendment{Entry: "e5", Reason: "settled", Change: visit.Change{Taxon: &to}})
	got := rules(t).Agreement(rules(t).Account(&y.v))
	// 5 of 6 perlids and 3 crane flies agree: 8 of the larger total, 6 + 4 + 3.
	// Recounted were 6 + 3 as 5 + 3: |9 - 8| / 17.
	if got.Records != 3 || math.Abs(*got.Disagreement-100*(1-8.0/13)) > 1e-9 || math.Abs(*got.Enumeration-100.0/17) > 1e-9 {
		t.Errorf("%+v %v %v", got, *got.Disagreement, *got.Enumeration)
	}
	if d := got.Differing; len(d) != 1 || d[0].First != "baetidae" || d[0].Second != "caenidae" ||
		d[0].Counts != "caenidae" || !d[0].Settled {
		t.Errorf("both names stay, the settled one counts: %+v", d)
	}
	if !strings.Contains(strings.Join(got.Remarks, " "), "not to reject") {
		t.Errorf("%q", got.Remarks)
	}
}

// The next record to look at twice is the first of the list that nobody looked at again; with
// none left there, the least sure of all others.
func TestTheNextRecordToLookAtTwice(t *testing.T) {
	record := func(id string, confidence float64, looks int) visit.Record {
		return visit.Record{ID: id, Identification: visit.Identification{Confidence: confidence}, Looks: make([]visit.LookedAgain, looks)}
	}
	listed := func(ids ...string) *Recheck {
		list := &Recheck{}
		for _, id := range ids {
			list.Records = append(list.Records, RecheckRecord{Record: id})
		}
		return list
	}
	for _, row := range []struct {
		why     string
		list    *Recheck
		records []visit.Record
		next    string
	}{
		{"the first of the list, not the least sure", listed("b", "a"),
			[]visit.Record{record("a", 0.5, 0), record("b", 0.8, 0)}, "b"},
		{"the list's first was looked at", listed("b", "a"), []visit.Record{record("a", 0.5, 0), record("b", 0.8, 1)}, "a"},
		{"nothing doubtful is left", listed("a"),
			[]visit.Record{record("a", 0.5, 2), record("b", 0.9, 0), record("c", 0.8, 0)}, "c"},
		{"as sure as each other: the earlier", listed(), []visit.Record{record("a", 0.9, 0), record("b", 0.9, 0)}, "a"},
		{"one that is gone", listed("z"), []visit.Record{record("a", 0.9, 0)}, "a"},
		{"all were looked at", listed("a"), []visit.Record{record("a", 0.5, 1)}, ""},
		{"no record", listed(), nil, ""},
	} {
		next, ok := row.list.Next(visit.Tally{Records: row.records})
		if next.ID != row.next || ok != (row.next != "") {
			t.Errorf("%s: %q, %v, not %q", row.why, next.ID, ok, row.next)
		}
	}
}

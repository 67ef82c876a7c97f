package trial

import (
	"context"
	"flag"
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/harm"
	"rillkey/key/keytest"
	"rillkey/taxa"
)

var long = flag.Bool("long", false, "run the trial with many specimens")

func entropy(p float64) float64 {
	if p <= 0 || p >= 1 {
		return 0
	}
	return -p*math.Log2(p) - (1-p)*math.Log2(1-p)
}

// few is how many specimens a test draws; -long draws many.
func few() int {
	if *long {
		return 5_000
	}
	return 140
}

func run(t testing.TB, s Setup) *Results {
	t.Helper()
	s.Workers, s.Seed = 2, 1
	if s.Options.Required == 0 {
		s.Options = key.DefaultOptions()
	}
	if s.Specimens == 0 {
		s.Specimens = few()
	}
	r, err := Run(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// targets are what identification must reach where people misread this share: what
// it reached at commit 46fb3d2, less half a point, but for the animals named where one
// reading in five is misread: since then there are more kinds, and what the key leaves
// out stays in the belief (0.676 of 500). Named is the share of all animals that is
// rightly named to an end point; the questions are those of the author's order and of
// the shortest. Since strangers are believed in more is asked where much is misread than
// these allow, which -long shows and fewer specimens do not: 8.0 of the shortest at one
// reading in ten, 11.0 and 11.7 at one in five, where these had to give way by 0.1.
var targets = []struct {
	rate, class, family, named float64
	questions                  map[Method]float64
}{
	{0, 1, 1, 0.98, map[Method]float64{ConfirmingMethod: 6.7, ShortestMethod: 4.7}},
	{0.05, 0.993, 0.982, 0.942, map[Method]float64{ConfirmingMethod: 8.5, ShortestMethod: 6.2}},
	{0.10, 0.991, 0.976, 0.886, map[Method]float64{ConfirmingMethod: 9.6, ShortestMethod: 7.3}},
	{0.20, 0.988, 0.972, 0.671, map[Method]float64{ConfirmingMethod: 11.2, ShortestMethod: 9.6}},
}

// evenly is a trial of people who misread every trait at one rate, which the
// belief was told; every end point turns up equally often.
func evenly(k *key.Key, rate float64, method Method) Setup {
	rates := key.EvenRates(k.Catalog().Vocabulary(), rate)
	return Setup{Key: k, People: rates, Model: rates, Method: method, Flat: true}
}

// evenRuns keeps what trials of people who misread evenly came to, for several
// tests.
var evenRuns = map[string]*Results{}

// ran is what the trial of people at an even rate comes to.
func ran(t testing.TB, rate float64, method Method) *Results {
	t.Helper()
	name := fmt.Sprint(rate, method, few())
	if evenRuns[name] == nil {
		evenRuns[name] = run(t, evenly(keytest.Key(t), rate, method))
	}
	return evenRuns[name]
}

// Shares may fall below what they must reach by three standard errors of the
// number of specimens drawn, and questions rise above it by 0.3 and three standard
// errors; with -long the errors are next to nothing.
func TestTargets(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	for _, row := range targets {
		for _, method := range []Method{ConfirmingMethod, ShortestMethod} {
			r := ran(t, row.rate, method)
			for what, c := range map[string]struct {
				Accuracy
				least float64
			}{"class": {r.Class, row.class}, "family": {r.Family, row.family},
				"of all": {Accuracy{r.Specimens, r.Family.Right}, row.named}} {
				if c.Share() < c.least-3*c.Error() {
					t.Errorf("rate %v, %s: %s right in %.3f ± %.3f, must be %v", row.rate, method, what, c.Share(), c.Error(), c.least)
				}
			}
			if most := row.questions[method] + 0.3 + 3*questionsError(r); r.MeanQuestions > most {
				t.Errorf("rate %v, %s: %.2f questions, at most %.2f", row.rate, method, r.MeanQuestions, most)
			}
			if c := r.OneHarmful; row.rate > 0 && c.Share() < 0.8-3*c.Error() {
				t.Errorf("rate %v, %s: the misread answer is named first in %.3f of %d, must be 0.8", row.rate, method, c.Share(), c.Given)
			}
		}
	}
}

// questionsError is the standard error of the mean number of questions, taken to be
// spread as in a normal curve, of which 95 in 100 lie below 1.64 deviations.
func questionsError(r *Results) float64 {
	return (float64(r.P95Questions) - r.MeanQuestions) / 1.64 / math.Sqrt(float64(r.Specimens))
}

// noise is how far from the claimed shares the right ones would lie by chance
// alone if every claim were true: about what a calibration error of 0 comes to
// with so few walks.
func noise(r *Results) float64 {
	sum := 0.0
	for _, b := range r.Calibration {
		sum += math.Sqrt(float64(b.Walks) * b.Claimed * (1 - b.Claimed))
	}
	return sum / float64(r.Specimens)
}

func TestCalibration(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	k := keytest.Key(t)
	v := k.Catalog().Vocabulary()
	for _, row := range []struct {
		why    string
		factor float64
		most   float64
	}{{"people as the model has them", 1, 0.03}, {"twice as careless", 2, 0.06}, {"half as careless", 0.5, 0.06}} {
		for _, method := range []Method{ConfirmingMethod, ShortestMethod} {
			r := ran(t, 0.10, method)
			if row.factor != 1 {
				rates := key.EvenRates(v, 0.10)
				r = run(t, Setup{Key: k, People: rates.Times(row.factor), Model: rates, Method: method, Flat: true})
			}
			if r.ECE > row.most+2*noise(r) {
				t.Errorf("%s, %s: calibration error %.3f, at most %v + %.3f", row.why, method, r.ECE, row.most, 2*noise(r))
			}
		}
	}
}

// Where people cannot see everything fewer animals get a name, but no more get a
// wrong one.
func TestUnsurePeopleAndPeopleWithoutALens(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	k := keytest.Key(t)
	full := ran(t, 0.1, ConfirmingMethod)
	noLens, unsure := evenly(k, 0.1, ConfirmingMethod), evenly(k, 0.1, ConfirmingMethod)
	noLens.Options = key.DefaultOptions()
	noLens.Options.NoLens = true
	unsure.Unsure = 0.3
	for why, s := range map[string]Setup{"no lens": noLens, "three of ten traits not seen": unsure} {
		r := run(t, s)
		if r.Family.Given >= full.Family.Given {
			t.Errorf("%s: %d named to the end, %d by people who see all", why, r.Family.Given, full.Family.Given)
		}
		if c := r.Family; c.Share() < 0.92-3*c.Error() {
			t.Errorf("%s: right in %.3f ± %.3f", why, c.Share(), c.Error())
		}
	}
}

func TestTrialsCanBeReplayed(t *testing.T) {
	k := keytest.Key(t)
	for _, method := range Methods {
		s := evenly(k, 0.1, method)
		s.Options, s.Specimens, s.Workers, s.Seed = key.DefaultOptions(), keytest.Times(25, 5), 1, 7
		one, err := Run(context.Background(), s)
		if err != nil {
			t.Fatal(err)
		}
		s.Workers = 5
		five, _ := Run(context.Background(), s)
		if !reflect.DeepEqual(one, five) {
			t.Errorf("%s: five workers find something else than one", method)
		}
		s.Seed = 8
		other, _ := Run(context.Background(), s)
		if reflect.DeepEqual(one, other) {
			t.Errorf("%s: another seed changes nothing", method)
		}
	}
}

// People who misread nothing and a printed key without errors: every name right.
func TestThePlainKeyIsRightWhenPeopleAre(t *testing.T) {
	k := keytest.Key(t)
	r := run(t, evenly(k, 0, PlainMethod))
	if r.Family.Right != r.Specimens || r.Class.Right != r.Class.Given || r.Class.Given+unclassed(k) < r.Specimens || len(r.Losses) > 0 {
		t.Errorf("%+v", r)
	}
}

// unclassed bounds from above how many animals have no class to be right about.
func unclassed(k *key.Key) int {
	for _, e := range k.Ends() {
		if e.Class == "" {
			return few()
		}
	}
	return 0
}

// Of people who misread nothing every walk ends rightly, also where several kinds
// share an end.
func TestASharedEndIsRightForAllOfItsKinds(t *testing.T) {
	catalog := keytest.Key(t).Catalog()
	sound, err := couplets.LoadText([]byte(`[key]
id = "shared"
title = "Shared"
source = "invented"
[couplet.1]
ask = "Legs"
a = { text = "Six", traits = { legs = "6" }, taxon = ["perlidae", "perlodidae"] }
b = { text = "None", traits = { legs = "0" }, taxon = "chironomidae" }
`), "k", catalog)
	if err != nil {
		t.Fatal(err)
	}
	k := key.Compile(sound, catalog)
	for _, method := range []Method{PlainMethod, ConfirmingMethod} {
		r := run(t, Setup{Key: k, People: key.Rates{}, Model: key.FileRates(catalog.Vocabulary()), Options: key.DefaultOptions(),
			Method: method, Flat: true})
		if r.Family.Given != r.Specimens || r.Family.Right != r.Specimens || len(r.Confused) > 0 {
			t.Errorf("%s: %+v, confused %v", method, r.Family, r.Confused)
		}
	}
}

func TestWrongSetups(t *testing.T) {
	k := keytest.Key(t)
	good := evenly(k, 0.1, ConfirmingMethod)
	good.Options, good.Specimens, good.Workers = key.DefaultOptions(), 10, 1
	for _, row := range []struct {
		why   string
		spoil func(*Setup)
	}{
		{"no specimens", func(s *Setup) { s.Specimens = 0 }},
		{"no workers", func(s *Setup) { s.Workers = 0 }},
		{"no such method", func(s *Setup) { s.Method = "guess" }},
		{"options out of range", func(s *Setup) { s.Options.Required = 2 }},
	} {
		s := good
		row.spoil(&s)
		if _, err := Run(context.Background(), s); err == nil {
			t.Errorf("%s: no error", row.why)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Run(ctx, good); err == nil {
		t.Error("a trial that was called off has a result")
	}
}

// Nothing but hardship is changed by hardship: without it the animals and people
// are those of the table, and each part of it alone makes names no better.
func TestHardshipDoesNotHelp(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	k := keytest.Key(t)
	setup := func(h Hardship) Setup {
		rates := key.FileRates(k.Catalog().Vocabulary())
		return Setup{Key: k, People: rates, Model: rates, Method: ShortestMethod, Hardship: h, Specimens: max(80, few()/5)}
	}
	before := run(t, setup(Hardship{}))
	for why, h := range map[string]Hardship{
		"careless": {Careless: 1}, "expecting": {Expecting: 1}, "damaged": {Damaged: 1}, "young": {Young: 1},
		"wrong cells": {Cells: 0.2}, "unsure": {Unsure: 0.4},
	} {
		after := run(t, setup(h))
		if after.Family.Right >= before.Family.Right || after.Specimens != before.Specimens {
			t.Errorf("%s: %d of %d named rightly, without it %d", why, after.Family.Right, after.Specimens, before.Family.Right)
		}
	}
	after := run(t, setup(Hardship{Strangers: 0.3}))
	s := after.Strangers
	if s.Animals+after.Specimens != before.Specimens || s.Animals == 0 || s.WrongEnd+s.WrongGroup+s.RightGroup > s.Animals {
		t.Errorf("%d strangers and %d others of %d: %+v", s.Animals, after.Specimens, before.Specimens, s)
	}
}

// A part that is lost takes all its traits along, and a young animal has no flaps.
func TestPartsAreLostTogether(t *testing.T) {
	k := keytest.Key(t)
	s := evenly(k, 0, ShortestMethod)
	d := newDraws(&s)
	stonefly := func() animal {
		is := map[string]string{"tails": "2", "tail-length": "long", "tail-hair": "bare", "tail-middle": "none"}
		return animal{kind: k.Catalog().Taxon("perlidae"), is: is}
	}
	a := stonefly()
	d.wound(&a, generator(1, 1, ofHardship))
	if tails, there := a.is["tails"]; there && tails != "none" || a.is["tail-length"] == "long" || a.is["tail-hair"] == "bare" {
		t.Errorf("after the tails are gone: %v", a.is)
	}
	a = stonefly()
	a.is["wings"], a.is["pads"] = "pads", "spread"
	d.unripe(&a, generator(1, 1, ofHardship))
	if a.is["wings"] != "none" || a.is["pads"] != "none" {
		t.Errorf("young: %v", a.is)
	}
	parts := slices.Concat(harm.LostParts, harm.HalfGrown)
	for _, another := range harm.TakenForAnother {
		parts = append(parts, another.Seen, harm.Loss{another.Trait: another.State})
	}
	for _, p := range parts {
		for trait, left := range p {
			states := slices.DeleteFunc([]string{left}, func(s string) bool { return s == "" })
			if problem, _ := d.vocabulary.Unknown(trait, states...); problem != "" {
				t.Error(problem)
			}
		}
	}
}

func TestPeopleByName(t *testing.T) {
	for _, p := range allPeople {
		if h, factor, err := p.Hardship(); err != nil || factor <= 0 || h.Strangers == 0 {
			t.Errorf("%s: %+v, %v, %v", p, h, factor, err)
		}
	}
	if _, _, err := People("lazy").Hardship(); err == nil {
		t.Error("there are no lazy people")
	}
}

// Where an end point holds another one, as the crane flies hold Dicranota, its name is
// true of that too, and no wrong one.
func TestANameThatHoldsTheAnimalIsNotWrong(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	k := keytest.Key(t)
	rates := key.FileRates(k.Catalog().Vocabulary())
	s := Setup{Key: k, People: rates, Model: rates, Options: key.DefaultOptions(), EachKind: true, Hardship: Hardship{Unsure: 0.3}}
	d, m := newDraws(&s), keytest.Model(t)
	dicranota := slices.IndexFunc(d.ends, func(end *taxa.Taxon) bool { return end.ID == "dicranota" })
	for i := range d.sums {
		d.sums[i] = 0
		if i >= dicranota {
			d.sums[i] = 1
		}
	}
	met := 0
	for i := range 60 {
		o := inquire(m, s.Options, d.animal(generator(1, i, ofTheTable), generator(1, i, ofHardship)))
		if o.named != "tipulidae" {
			continue
		}
		if met++; o.end || o.right {
			t.Errorf("animal %d: a Dicranota named a crane fly counts as named to an end point (%v), rightly (%v)", i, o.end, o.right)
		}
	}
	if met == 0 {
		t.Error("no Dicranota was named a crane fly")
	}
}

// Of hard people's names nine in ten are right. It is to become 0.95, with a
// calibration error of at most 0.03.
func TestHardPeople(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	k := keytest.Key(t)
	rates := key.FileRates(k.Catalog().Vocabulary())
	h, factor, err := hardPeople.Hardship()
	if err != nil {
		t.Fatal(err)
	}
	for _, method := range []Method{ConfirmingMethod, ShortestMethod} {
		r := run(t, Setup{Key: k, People: rates.Times(factor), Model: rates, Hardship: h, Method: method})
		if c := r.Family; c.Share() < 0.90-3*c.Error() {
			t.Errorf("%s: right in %.3f ± %.3f", method, c.Share(), c.Error())
		}
	}
}

func TestWhoIsWrongMoreOftenThanRightReadsNothing(t *testing.T) {
	for p, want := range map[float64]bool{-0.01: false, 0: true, 0.5: true, 0.51: false, math.NaN(): false} {
		if IsMisreadRate(p) != want {
			t.Errorf("%v: %v", p, !want)
		}
	}
}

package trial

import (
	"context"
	"fmt"
	"slices"

	"rillkey/key"
	"rillkey/key/trial/described"
	"rillkey/taxa/wording"
)

// DescribedAnimals is a trial of described animals, each read out by somebody who knows its
// words and nothing else: first the two most striking things, then the questions,
// then the length; "can't tell" for all that the words do not say.
type DescribedAnimals struct {
	Animals []described.Animal
	Models  []*key.Model // one for each region; the first also for animals of both
	Options key.Options
	Workers int // at least 1
	// Spoken has the two things said in the words of the account, and takes them as
	// the screens understand them: what is noted unasked stays, right or wrong.
	Spoken bool
	// Progress, if set, is told how many are done. It is called from several
	// goroutines at once.
	Progress func(done int)
}

// Run tries every animal that lives in the region of one of the models. It fails
// when the setup is wrong or the context ends.
func (w DescribedAnimals) Run(ctx context.Context) ([]Told, error) {
	if len(w.Models) == 0 || w.Workers < 1 {
		return nil, wording.Errorf("a trial of described animals needs a key and a worker")
	}
	animals := slices.DeleteFunc(slices.Clone(w.Animals), func(a described.Animal) bool { return w.model(&a) == nil })
	out, errs := make([]Told, len(animals)), make([]error, len(animals))
	each(ctx, w.Workers, len(animals), func(i int) { out[i], errs[i] = w.one(&animals[i]) }, func(done int) {
		if w.Progress != nil {
			w.Progress(done)
		}
	})
	for _, err := range append(errs, ctx.Err()) {
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// model is the one for the animal's region, or nil.
func (w DescribedAnimals) model(a *described.Animal) *key.Model {
	for _, m := range w.Models {
		if a.Region == described.Both || a.Region == m.Key().ID() {
			return m
		}
	}
	return nil
}

func (w DescribedAnimals) one(a *described.Animal) (Told, error) {
	m := w.model(a)
	r, err := read(a, m, w.Options, w.Spoken)
	if err != nil {
		return Told{}, fmt.Errorf("%s: %w", a.ID, err)
	}
	v := r.q.Verdict()
	t := Told{
		ID: a.ID, Kind: a.Kind, Odd: a.Odd(), Key: m.Key().ID(), Taxa: append([]string{}, a.Taxa...), Named: []string{},
		Class: v.Class, Leaning: v.Leaning, Questions: v.Questions, Lists: r.lists, CantTells: r.cantTells, Accused: r.accused,
		True: m.Key().Catalog().CommonClass(a.Taxa), Path: v.Path,
		Likeliest: v.Likeliest, Probability: v.LikeliestProbability,
	}
	if v.Level == key.ToSet {
		t.Named = v.Set
	} else if v.Named() {
		t.Named = []string{v.Taxon}
	}
	t.judge(m.Key(), allowed(m.Key(), a))
	return t, nil
}

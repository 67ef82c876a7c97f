package main

import (
	"context"
	"errors"
	"path/filepath"
	"runtime"
	"slices"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/key"
	"rillkey/key/trial"
	"rillkey/key/trial/described"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// runDescribed tries described animals, each by the key of its region; with a key
// of one's own those alone that live in its region.
func runDescribed(a *app, files []string, f trialFlags) error {
	if slices.Contains(f.methods, string(trial.PlainMethod)) || len(f.methods) > 1 {
		return misused("--described takes one --method, %s or %s", trial.ConfirmingMethod, trial.ShortestMethod)
	}
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	animals, err := described.Load(authored.DirFS(f.described), filepath.ToSlash(f.described), catalog)
	if err != nil {
		return err
	}
	options, err := f.inquiry.options()
	if err != nil {
		return err
	}
	if f.methods[0] == string(trial.ShortestMethod) {
		options.Order = key.Shortest
	}
	words := trial.DescribedAnimals{Animals: animals, Options: options, Workers: runtime.GOMAXPROCS(0), Spoken: f.spoken}
	var keys []string
	if words.Models, keys, err = a.describedModels(files, animals, f); err != nil {
		return err
	}
	ctx, stop := a.leaving.untilSignal()
	defer stop()
	watched := a.progress("animals", len(animals))
	words.Progress = watched.Step
	all, err := words.Run(ctx)
	watched.Done()
	if errors.Is(err, context.Canceled) {
		return fault{statusCannotSay, wording.NewError("left; the trial was not finished")}
	}
	if err != nil {
		return err
	}
	if len(all) == 0 {
		return wording.Errorf("none of the animals in %s lives in the region of %s", plain.Quote(f.described), keys[0])
	}
	result := show.NewDescribedAnimals(all, keys, string(options.Order), catalog)
	return a.give(result, func() error { return result.Text(a.stdout, a.width) })
}

// describedModels are the key that was named, or those built in for the regions of
// the animals, the usual one first, ready to be asked.
func (a *app) describedModels(files []string, animals []described.Animal, f trialFlags) ([]*key.Model, []string, error) {
	names := []string{a.keyFile}
	if len(files) > 0 {
		names = files
	} else if a.keyFile == "" && a.taxaDir == "" {
		names = append(names, couplets.EmbeddedNames()...)
	}
	var out []*key.Model
	var ids []string
	for i, name := range names {
		k, err := a.keyOf([]string{name})
		if err != nil {
			return nil, nil, err
		}
		if i > 0 && k.ID() == ids[0] {
			continue
		}
		if i > 0 && !slices.ContainsFunc(animals, func(one described.Animal) bool { return one.Region == k.ID() }) {
			continue
		}
		m, err := a.model(k, f.inquiry.rates)
		if err != nil {
			return nil, nil, err
		}
		out, ids = append(out, m), append(ids, k.ID())
	}
	return out, ids, nil
}

package main

import (
	"errors"
	"fmt"
	"strings"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/question"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/visit"
)

// target is where the animals of a sitting go. It is found before anything is
// asked about them.
type target struct {
	path    string // of the visit's file; empty where nothing is saved
	instead string // then why
}

// errStays means that a finished visit was not opened again.
var errStays = fault{statusCannotSay, errors.New("the visit stays finished; nothing was added")}

// target finds where animals go. What stands in the way is mended on the spot
// where people are asked anyway: a visit that is finished, several that are not,
// a missing sample.
func (a *app) target(f identifyFlags, asks bool) (target, error) {
	if f.noSave {
		return target{instead: "only looking"}, nil
	}
	t, err := a.visitMeant(asks)
	if err != nil || t.path == "" {
		return t, err
	}
	v, err := a.opened(t.path, asks)
	switch {
	case errors.Is(err, errStays):
		return target{instead: "the visit is finished"}, nil
	case err != nil:
		return t, err
	case len(v.Tally().Samples) > 0:
		return t, nil
	case !asks:
		return t, noSample(t.path)
	}
	_, err = a.firstSample(v)
	return t, err
}

// firstSample asks for the sample that animals are missing, and gives the visit
// as it is then.
func (a *app) firstSample(v *visit.Visit) (*visit.Visit, error) {
	a.plainly("%s has no sample yet, and animals are counted by sample. First the sample, then the animals.", v.Header.Site)
	if err := a.addSample(v, sampleFlags{}, func(string) bool { return false }); err != nil {
		return nil, err
	}
	return visit.Read(v.File)
}

func noSample(path string) error {
	return misused("%s has no sample yet; add one with 'rillkey visit sample' first", path)
}

// visitMeant is the visit of --visit, else the unfinished one of the present
// folder, else a finished one that may be opened again.
func (a *app) visitMeant(asks bool) (target, error) {
	if a.visitFile != "" {
		return target{path: a.visitFile}, nil
	}
	open, all, err := a.visitsHere()
	switch {
	case err != nil:
		return target{}, err
	case len(open) == 1:
		return target{path: open[0]}, nil
	case len(open) > 1 && asks:
		a.visitFile, err = a.which(open)
		return target{path: a.visitFile}, err
	case len(open) > 1:
		_, err := a.visitPath(false)
		return target{}, err
	case len(all) == 1 && asks:
		a.visitFile = all[0]
		return target{path: all[0]}, nil
	case len(all) > 0:
		return target{instead: "every visit in this folder is finished"}, nil
	}
	return target{instead: "there is no visit in this folder"}, nil
}

// which asks for one of several unfinished visits.
func (a *app) which(files []string) (string, error) {
	var options []ask.Option
	for _, file := range files {
		v, err := visit.Read(file)
		if err != nil {
			return "", err
		}
		options = append(options, ask.Option{Value: file, Label: fmt.Sprintf("%s, %s (%s)", v.Header.Site, v.Header.Date, file)})
	}
	answers, err := a.ask(ask.Field{
		Key: "visit", Title: "Which visit does it belong to?", Help: "Several visits in this folder are not finished.", Options: options,
	})
	return answers["visit"], err
}

// visitToAddTo is the visit that a command adds samples or animals to.
func (a *app) visitToAddTo(asks bool) (*visit.Visit, error) {
	t, err := a.visitMeant(asks)
	if err == nil && t.path == "" {
		_, err = a.visitPath(false)
	}
	if err != nil {
		return nil, err
	}
	return a.opened(t.path, asks)
}

// opened is the visit in a file that can be added to. A finished one is opened
// again where the person wants it.
func (a *app) opened(path string, asks bool) (*visit.Visit, error) {
	v, err := visit.Read(path)
	if err == nil {
		err = visit.Appendable(path)
	}
	switch {
	case err != nil:
		return nil, err
	case !v.Tally().Finished:
		return v, nil
	case !asks:
		return nil, fmt.Errorf("%s: the visit is finished; 'rillkey visit reopen --visit %s' opens it again", path, show.ShellWord(path))
	}
	answers, err := a.ask(ask.Field{
		Key: "reopen", Title: "This visit is finished. Open it again?", Confirm: true,
		Help: fmt.Sprintf("%s, %s. Nothing can be added to a finished visit.", v.Header.Site, v.Header.Date),
	})
	if err != nil {
		return nil, err
	}
	if !answers.Yes("reopen") {
		return nil, errStays
	}
	if err := a.reopenFile(path, "", "opened again to add to it"); err != nil {
		return nil, err
	}
	return visit.Read(path)
}

// destination says on every question where the animal goes.
func (a *app) destination(t target, sample string) (question.Destination, error) {
	if t.path == "" {
		return question.Destination{Rest: "Nothing is saved: " + t.instead}, nil
	}
	v, err := visit.Read(t.path)
	if err != nil {
		return question.Destination{}, err
	}
	tally := v.Tally()
	animals := 0
	for _, r := range tally.Records {
		animals += r.Count
	}
	rest := fmt.Sprintf(", sample %s, %s", a.sampleNext(tally, sample), show.Animals(animals))
	return question.Destination{Name: v.Header.Site, Rest: rest}, nil
}

// sampleNext is the sample that the next animal is taken to come from: the one
// named, else that of the animal before, else the latest.
func (a *app) sampleNext(t visit.Tally, named string) string {
	for _, label := range []string{named, a.record.sample} {
		if s, ok := t.Sample(label); ok {
			return s.Label
		}
	}
	if len(t.Samples) == 0 {
		return strings.TrimSpace(named)
	}
	return t.Samples[len(t.Samples)-1].Label
}

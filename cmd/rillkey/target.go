package main

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/question"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// target is where the animals of a sitting go. It is found before anything is
// asked about them.
type target struct {
	path    string // of the visit's file; empty where nothing is saved
	instead string // then why
}

// errStays means that a finished visit was not opened again.
var errStays = fault{statusCannotSay, wording.NewError("the visit stays finished; nothing was added")}

// target finds where animals go. What stands in the way is mended on the spot
// where people are asked anyway: a visit that is finished, several that are not,
// a missing sample.
func (vf *visitFolder) target(f identifyFlags, asks bool) (target, error) {
	if f.noSave {
		return target{instead: wording.Text("only looking")}, nil
	}
	t, err := vf.visitMeant(asks)
	if err != nil || t.path == "" {
		return t, err
	}
	v, err := vf.openToAdd(t.path, asks)
	switch {
	case errors.Is(err, errStays):
		return target{instead: wording.Text("the visit is finished")}, nil
	case err != nil:
		return t, err
	case len(v.Tally().Samples) > 0:
		return t, nil
	case !asks:
		return t, vf.noSample(t.path)
	}
	_, err = vf.firstSample(v)
	return t, err
}

// firstSample asks for the sample that animals are missing, and gives the visit
// as it is then.
func (vf *visitFolder) firstSample(v *visit.Visit) (*visit.Visit, error) {
	vf.plainly("%s has no sample yet, and animals are counted by sample. First the sample, then the animals.", v.Header.Site)
	if err := vf.addSample(v, sampleFlags{}, func(string) bool { return false }); err != nil {
		return nil, err
	}
	return visit.Read(v.File)
}

func (vf *visitFolder) noSample(path string) error {
	return misused("%s has no sample yet; one is added first by: rillkey visit sample%s", path, vf.sameVisit())
}

// visitMeant is the visit of --visit, else the unfinished one of the present
// folder, else a finished one that may be opened again.
func (vf *visitFolder) visitMeant(asks bool) (target, error) {
	if vf.visitFile != "" {
		return target{path: vf.visitFile}, nil
	}
	open, all, err := vf.visitsHere()
	switch {
	case err != nil:
		return target{}, err
	case len(open) == 1:
		vf.found = open[0]
		return target{path: open[0]}, nil
	case len(open) > 1 && asks:
		vf.visitFile, err = vf.which(open)
		return target{path: vf.visitFile}, err
	case len(open) > 1:
		_, err := vf.visitPath(false)
		return target{}, err
	case len(all) == 1 && asks:
		vf.visitFile = all[0]
		return target{path: all[0]}, nil
	case len(all) > 0:
		return target{instead: wording.Text("every visit in this folder is finished")}, nil
	}
	return target{instead: wording.Text("there is no visit in this folder")}, nil
}

// which asks for one of several unfinished visits.
func (vf *visitFolder) which(files []string) (string, error) {
	var options []ask.Option
	for _, file := range files {
		v, err := vf.lookAt(file)
		if err != nil {
			return "", err
		}
		options = append(options, ask.Option{Value: file, Label: fmt.Sprintf("%s, %s (%s)", v.Header.Site, v.Header.Date, file)})
	}
	answers, err := vf.ask(ask.Field{
		Key: "visit", Title: wording.Text("Which visit does it belong to?"),
		Help: wording.Text("Several visits in this folder are not finished."), Options: options,
	})
	return answers["visit"], err
}

// visitToAddTo is the visit that a command adds samples or animals to.
func (vf *visitFolder) visitToAddTo(asks bool) (*visit.Visit, error) {
	t, err := vf.visitMeant(asks)
	if err == nil && t.path == "" {
		_, err = vf.visitPath(false)
	}
	if err != nil {
		return nil, err
	}
	return vf.openToAdd(t.path, asks)
}

// visitToCorrect is the visit meant, see visitPath, whose file can be added to; it is
// said before anything is asked where it cannot.
func (vf *visitFolder) visitToCorrect(finishedToo bool) (path string, v *visit.Visit, err error) {
	if path, err = vf.visitPath(finishedToo); err != nil {
		return "", nil, err
	}
	if v, err = vf.take(path); err == nil {
		err = visit.Appendable(path)
	}
	return path, v, err
}

// openToAdd is the visit in a file that can be added to. A finished one is opened
// again where the person wants it.
func (vf *visitFolder) openToAdd(path string, asks bool) (*visit.Visit, error) {
	v, err := vf.take(path)
	if err == nil {
		err = visit.Appendable(path)
	}
	switch {
	case err != nil:
		return nil, err
	case !v.Finished():
		vf.warnOfDamage(v, path)
		return v, nil
	case !asks:
		return nil, wording.Errorf("%s: the visit is finished; it is opened again by: rillkey visit reopen --visit %s",
			path, plain.ShellWord(path))
	}
	answers, err := vf.ask(ask.Field{
		Key: "reopen", Title: wording.Text("This visit is finished. Open it again?"), Confirm: true,
		Help: wording.Sprintf("%s, %s. Nothing can be added to a finished visit.", v.Header.Site, v.Header.Date),
	})
	if err != nil {
		return nil, err
	}
	if !answers.Yes("reopen") {
		return nil, errStays
	}
	if err := vf.reopenFile(v, "", wording.Text("opened again to add to it")); err != nil {
		return nil, err
	}
	return visit.Read(path)
}

// destination says on every question where the animal goes.
func (vf *visitFolder) destination(t target, sample string) (question.Destination, error) {
	if t.path == "" {
		return question.Destination{Rest: wording.Sprintf("Nothing is saved: %s", t.instead)}, nil
	}
	v, err := visit.Read(t.path)
	if err != nil {
		return question.Destination{}, err
	}
	tally := v.Tally()
	rest := wording.Sprintf(", sample %s, %s", vf.sampleNext(tally, sample), plain.Count(tally.AllAnimals(), "animal"))
	return question.Destination{Name: v.Header.Site, Rest: rest}, nil
}

// sampleNext is the sample that the next animal is taken to come from: the one
// named, else that of the animal before, else the latest.
func (vf *visitFolder) sampleNext(t visit.Tally, named string) string {
	return cmp.Or(t.SampleMeant(named, vf.record.sample), strings.TrimSpace(named))
}

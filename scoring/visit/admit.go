package visit

import (
	"slices"
	"strings"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// admit judges whether an event fits what the visit already holds. The event
// by itself is sound.
func (r *replay) admit(e Event) error {
	switch b := e.Body.(type) {
	case Sample:
		return r.admitSample(b)
	case Identification:
		return r.admitIdentification(b)
	case Amendment:
		why := r.misfit(b)
		if why == "" {
			why = r.notEmpty(b)
		}
		if why != "" {
			return wording.Errorf("nothing is amended: %s", why)
		}
	case SecondLook:
		if r.records[b.Entry] == nil || r.gone(b.Entry) {
			return wording.Errorf("there is no identification %q to look at again", b.Entry)
		}
	case SheetRows:
		if err := r.open(); err != nil {
			return err
		}
		return r.admitLabel(b.Sample)
	case Finish:
		return r.open()
	case Conditions:
		return r.admitConditions(b)
	}
	return nil
}

func (r *replay) admitSample(s Sample) error {
	if err := r.open(); err != nil {
		return err
	}
	if t := r.sample(s.Label); t != nil {
		return wording.Errorf("there is a sample %q already; choose another label%s", t.Label, r.used())
	}
	return nil
}

func (r *replay) admitIdentification(d Identification) error {
	if err := r.open(); err != nil {
		return err
	}
	return r.admitLabel(d.Sample)
}

// admitLabel asks for a sample that was taken and not withdrawn.
func (r *replay) admitLabel(label string) error {
	t := r.sample(label)
	switch {
	case t == nil:
		return wording.Errorf("there is no sample %q; record the sample first%s", label, r.used())
	case r.withdrawn[t.ID]:
		return wording.Errorf("sample %q was withdrawn; record a sample under another label", t.Label)
	}
	return nil
}

func (r *replay) open() error {
	if slices.ContainsFunc(r.finishes, func(id string) bool { return !r.withdrawn[id] }) {
		if !strings.HasSuffix(r.notes.file, ".toml") { // a page holds it, which opens it by a button
			return wording.NewError("the visit is finished")
		}
		return wording.Errorf("the visit is finished; it is opened again by: rillkey visit reopen --visit %s",
			plain.ShellWord(r.notes.file))
	}
	return nil
}

func (r *replay) gone(id string) bool {
	if rec := r.records[id]; rec != nil {
		if s := r.sample(rec.Sample); s != nil && r.withdrawn[s.ID] {
			return true
		}
	}
	return r.withdrawn[id]
}

func (r *replay) used() string {
	if len(r.sampleList) == 0 {
		return ""
	}
	s := wording.Text(" (samples so far:")
	for i, t := range r.sampleList {
		if i == 12 {
			return s + " …)"
		}
		s += " " + t.Label
	}
	return s + ")"
}

// misfit says why an amendment cannot be applied, or "".
func (r *replay) misfit(a Amendment) string {
	t, rec := r.byID[a.Entry], r.records[a.Entry]
	finish := slices.Contains(r.finishes, a.Entry)
	if noted := r.notedIn(a.Entry); noted != nil || a.Change.Conditions != nil {
		return r.misfitNoted(a, noted)
	}
	switch {
	case r.rowsIn(a.Entry) != nil:
		return r.misfitRows(a)
	case r.visit[a.Entry] && a.Change.touchesVisit():
		return ""
	case a.Change.touchesVisit():
		return wording.Sprintf("%q is not this visit; site, day, people, protocol, place and reference belong to the visit", a.Entry)
	case t == nil && rec == nil && !finish:
		return wording.Sprintf("there is no sample, identification or finish with the id %q", a.Entry)
	case r.gone(a.Entry):
		return wording.Sprintf("%q was withdrawn before", a.Entry)
	case finish && !a.Withdrawn:
		return wording.Text("a finish can only be withdrawn")
	case t != nil && a.Change.touchesRecord():
		return wording.Sprintf("%q is a sample; only its habitat, area, effort, the fraction sorted and how far it is sorted can change",
			a.Entry)
	case rec != nil && a.Change.touchesSample():
		return wording.Sprintf("%q is an identification, which has no habitat, area, effort, fraction or sorting", a.Entry)
	case rec != nil && !a.Withdrawn:
		return r.misfitRecord(*rec, a.Change)
	}
	return ""
}

// notEmpty says that a sample which an amendment calls empty holds animals, or "".
func (r *replay) notEmpty(a Amendment) string {
	t := r.byID[a.Entry]
	if t == nil || a.Change.Said == nil || *a.Change.Said != Empty {
		return ""
	}
	for _, rec := range r.recordList {
		if s := r.sample(rec.Sample); s != nil && s.ID == t.ID && !r.withdrawn[rec.ID] {
			return wording.Sprintf("sample %q holds animals, so it is not empty; take them out with an amendment if they are none", t.Label)
		}
	}
	return ""
}

// misfitRecord judges the record as it would stand after the change.
func (r *replay) misfitRecord(rec Record, ch Change) string {
	ch.applyToRecord(&rec.Identification)
	if ch.More != nil && rec.Count <= 0 {
		rec.Count = 1 // who takes back what others took back too is no misfit: it is out
	}
	var c check
	c.identification(rec.Identification)
	if c.err == nil && ch.Sample != nil {
		c.err = r.admitLabel(rec.Sample)
	}
	if c.err != nil {
		return c.err.Error()
	}
	return ""
}

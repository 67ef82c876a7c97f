package phone

import (
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/figure"
	"rillkey/cmd/rillkey/lesson"
	"rillkey/key/practice"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// practising is the screen of a sitting of practice.
const practising = "practise"

// beginPractice begins a sitting of ten minutes under the name of the form, or that of
// the record that this browser keeps.
func beginPractice(p *Phone, _ string, f FormValues) error {
	if p.unscripted {
		return errors.New(wording.Text("practice is kept by the phone's own browser, which this page does without"))
	}
	name := strings.TrimSpace(f["learner"])
	if p.practised != nil {
		name = p.practised.Person
	}
	if err := practice.CheckName(name); err != nil {
		return err
	}
	m, err := p.kit.Model()
	if err != nil {
		return err
	}
	course, err := p.kit.Course()
	if err != nil {
		return err
	}
	var seed [8]byte
	if _, err := p.random.Read(seed[:]); err != nil {
		return wording.Errorf("no random number could be had: %w", err)
	}
	if p.practised == nil {
		p.practised = &practice.PersonRecord{Person: name}
	}
	p.lesson = lesson.New(lesson.Options{Model: m, Course: course, Record: p.practised, Atlas: p.kit.Atlas, Clock: p.now,
		Random: rand.New(rand.NewPCG(binary.LittleEndian.Uint64(seed[:]), 0)), Source: practice.DrawingSource, Buttons: true,
		Length: lesson.Sitting})
	p.screen = practising
	return nil
}

// sign acts on a button of the sitting.
func sign(p *Phone, sign string, _ FormValues) error {
	return p.practise(func(l *lesson.Lesson) { l.Do(sign) })
}

// sightName takes a name that was typed for the animal.
func sightName(p *Phone, _ string, f FormValues) error {
	name := strings.TrimSpace(f["sight"])
	if name == "" {
		return errors.New(wording.Text("type its name first, or walk with the key"))
	}
	return p.practise(func(l *lesson.Lesson) { l.Name(name) })
}

func (p *Phone) practise(act func(*lesson.Lesson)) error {
	if p.lesson == nil {
		p.screen = p.door()
		return errors.New(wording.Text("nobody practises just now"))
	}
	if act(p.lesson); p.lesson.Ended() {
		n, right := p.lesson.Met()
		p.lesson, p.screen = nil, p.door()
		p.said = wording.Sprintf("%s practised, %d named rightly.", plain.Capital(plain.Count(n, "animal")), right)
	}
	return nil
}

// unlearn deletes what was practised on this phone; the first press only asks.
func unlearn(p *Phone, arg string, _ FormValues) error {
	if p.practised == nil {
		return errors.New(wording.Text("nothing is kept of anybody's practice"))
	}
	if arg != "yes" {
		p.forgetting = true
		return nil
	}
	p.practised, p.lesson, p.forgetting, p.screen = nil, nil, false, p.door()
	p.said = wording.Text("All that was practised on this phone is deleted. A file that was saved of it is for you to delete.")
	return nil
}

// Practice is what was practised on this phone, as a person's file; empty where
// nothing was, or where it was deleted.
func (p *Phone) Practice() string {
	if p.practised == nil || len(p.practised.Meetings) == 0 {
		return ""
	}
	return string(p.practised.TOML())
}

// PracticeFileName is how the file of what was practised is called.
func (p *Phone) PracticeFileName() string {
	if p.practised == nil {
		return "practice.toml"
	}
	return practice.FileStem(p.practised.Person) + ".practice.toml"
}

// TakePractice takes in a person's file that this browser keeps. What another window
// added comes to what is here; one of another person, or that cannot be read, is refused.
func (p *Phone) TakePractice(text string) error {
	r, err := practice.ParseRecord(wording.Text("the practice that this browser keeps"), []byte(text))
	if err != nil {
		return err
	}
	if p.practised == nil {
		p.practised = r
		return nil
	}
	if p.practised.Person != r.Person {
		return wording.Errorf("another window of this browser practises as %q", r.Person)
	}
	for _, m := range r.Meetings {
		same := func(o practice.Meeting) bool { return o.Time.Unix() == m.Time.Unix() && o.Kind == m.Kind }
		if !slices.ContainsFunc(p.practised.Meetings, same) {
			p.practised.Meetings = append(p.practised.Meetings, m)
		}
	}
	sorting.Stable(p.practised.Meetings, func(a, b practice.Meeting) int { return cmp.Compare(a.Time.Unix(), b.Time.Unix()) })
	return nil
}

// door is the page with the way to practice: the first one, and while there is a visit
// the one that hands it over.
func (p *Phone) door() string {
	if p.visit != nil {
		return handing
	}
	return beginning
}

// practiceDoor is the way to practice.
func practiceDoor(p *Phone, m *writer, title string) {
	m.open("section")
	m.el("h2", title)
	switch {
	case p.practised != nil && p.forgetting:
		m.el("p", wording.Sprintf("Delete all that %s practised on this phone?", p.practised.Person))
		m.button("unlearn:yes", wording.Text("Yes, delete it"), "row")
		m.button("go:"+p.door(), wording.Text("No, keep it"), "row")
	case p.practised != nil:
		m.el("p", wording.Sprintf("%s has met %s. It is kept on this phone alone.", p.practised.Person,
			plain.Count(len(p.practised.Meetings), "animal")))
		m.button("practise", wording.Text("Practise ten minutes"), "row")
		if p.Practice() != "" {
			m.el("p", wording.Text("A trainer reads it, if you give it away as a file, with 'rillkey practice group'."))
			m.el("button", wording.Text("Save what was practised as a file"), "type", "button", "class", "row", "data-act", "give-practice",
				"data-needs", "files")
		}
		m.button("unlearn", wording.Text("Delete what was practised"), "row")
	default:
		m.el("p", wording.Text("Animals are shown one by one; say what they are, or walk with the key. It is kept on this phone alone."))
		m.field("learner", wording.Text("Who practises? A first name, or a made-up one."), "", "text")
		m.button("practise", wording.Text("Practise ten minutes"), "row")
	}
	m.close("section")
}

func practicePage(p *Phone, m *writer) {
	at := p.lesson.Now()
	m.el("p", at.Where, "class", "where")
	m.el("h1", at.Title)
	m.say(p)
	if at.Said != "" {
		m.el("p", at.Said, "class", "said", "role", "status")
	}
	paragraphs(m, at.Before)
	for i, one := range at.Drawings() {
		m.open("figure")
		m.open("span", "class", "figure large", "data-figure", fmt.Sprintf("practice:%d", i))
		m.close("span")
		m.el("figcaption", one.Caption)
		m.close("figure")
	}
	m.open("section", "class", "leads")
	for _, o := range at.Options {
		m.button("sign:"+o.Letter, o.Words, "row")
	}
	if at.Go != "" {
		m.button("sign:", capital(at.Go), "main")
	}
	m.close("section")
	if at.Named {
		m.open("section")
		m.field("sight", wording.Text("Its name, if you know it on sight"), "", "text")
		m.button("sight", wording.Text("That is its name"), "row")
		m.close("section")
	}
	m.open("section")
	for _, k := range at.Keys {
		m.button("sign:"+k.Sign, capital(k.Short), "row")
	}
	m.close("section")
	paragraphs(m, at.After)
}

// practiceFigure is a drawing of the page at hand, by its place.
func practiceFigure(p *Phone, id string, size figure.Size) string {
	var i int
	if _, err := fmt.Sscan(id, &i); err != nil || p.lesson == nil {
		return ""
	}
	at := p.lesson.Now()
	if all := at.Drawings(); i >= 0 && i < len(all) {
		return all[i].Figure.SVG(size)
	}
	return ""
}

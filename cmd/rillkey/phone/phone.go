// Package phone is the page on which people name and count animals with a thumb:
// its screens as values, and as HTML. A press of a button is an act with the
// fields of the form around it; the act changes the visit in memory, and the page
// is drawn anew. Who holds the phone (a browser with this program inside, or a
// server for those without) keeps the visit and hands the acts in.
//
// Begin with [Phone], [Kit] and [FormValues].
//
// The page takes no time and no chance of its own: both are arguments. What it says
// is written by package markup, since html/template makes the program that a phone
// must load a quarter larger (measured: 3.1 MB packed instead of 2.5).
package phone

import (
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"rillkey/cmd/rillkey/lesson"
	"rillkey/cmd/rillkey/question"
	"rillkey/key/practice"
	"rillkey/scoring/sheet"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// Phone is one person's page. It is for one goroutine at a time.
type Phone struct {
	kit    *Kit
	now    func() time.Time
	random io.Reader

	visit  *visit.Visit // nil before one was begun or taken in
	tally  visit.Tally
	seen   map[string]bool // ids of the events that were made here
	who    string
	sample string // the sample that is counted

	joined     *Joined // the table that it counts for; nil without one
	unscripted bool    // whoever shows the page runs no script
	hosted     bool    // a table gave the page: who opens it joins first

	screen    string
	talk      *question.Talk // while an animal is named
	pressed   []press        // what was pressed while it is named, to come to the same again
	finishing bool           // it was asked how far samples are sorted before the visit is finished
	left      *leftTalk      // the animal that was left last; nil once another is named
	looking   string         // id of the record that is looked at a second time
	amending  string         // id of the record, or of the field of the condition, that is corrected
	find      string         // what is looked for among the names
	order     []string       // ids of the tiles to count by, as they stand on the page

	lesson     *lesson.Lesson         // while somebody practises
	practised  *practice.PersonRecord // of who practises on this phone; nil for nobody
	forgetting bool                   // it was asked whether to delete that

	said  string
	wrong bool // what was said is a refusal
	turn  int  // how many buttons were pressed

	draws     bool       // what drawings need is worked out
	rehearsal *rehearsal // nil before it begins
}

// The screens.
const (
	beginning  = "begin"
	counting   = "count"
	naming     = "name"
	named      = "named"
	tallying   = "tally"
	grading    = "grade"
	handing    = "hand"
	sampling   = "sample"
	boarding   = "board"
	entry      = "entry"
	correcting = "condition"
)

// New is a page without a visit.
func New(kit *Kit, now func() time.Time, random io.Reader) *Phone {
	return &Phone{kit: kit, now: now, random: random, screen: beginning, seen: map[string]bool{}}
}

// FormValues are what a form holds when one of its buttons is pressed, by name.
type FormValues map[string]string

// act is what a button does; arg is what stands behind the act's name.
type act func(p *Phone, arg string, f FormValues) error

var acts = sync.OnceValue(func() map[string]act {
	return map[string]act{
		"begin":     begin,
		"practise":  beginPractice,
		"sign":      sign,
		"sight":     sightName,
		"unlearn":   unlearn,
		"go":        goTo,
		"more":      more,
		"undo":      undo,
		"out":       takeOut,
		"find":      lookFor,
		"name":      startNaming,
		"answer":    answer,
		"hear":      hear,
		"confirm":   confirm,
		"measure":   measure,
		"again":     lookAgain,
		"keep":      keep,
		"drop":      drop,
		"closer":    goCloser,
		"on":        goOn,
		"back":      comeBack,
		"pick":      pickSample,
		"sample":    takeSample,
		"sorted":    sorted,
		"finish":    finish,
		"reopen":    reopen,
		"who":       setWho,
		"look":      startLook,
		"entry":     openEntry,
		"change":    changeEntry,
		"condition": openCondition,
		"noted":     changeCondition,
		"slip":      takeSlip,
	}
})

// first are the acts before there is a visit.
var first = map[string]bool{"begin": true, "practise": true, "sign": true, "sight": true, "unlearn": true}

// Do does what a button stands for: "go:tally", "more:row-3:5". What went wrong is
// said on the page; the visit is then as it was.
func (p *Phone) Do(do string, f FormValues) {
	name, arg, _ := strings.Cut(do, ":")
	p.said, p.wrong, p.finishing = "", false, false
	p.forgetting = p.forgetting && name == "unlearn"
	a := acts()[name]
	late := f["turn"] != "" && f["turn"] != strconv.Itoa(p.turn)
	p.turn++
	if name != "more" && name != "undo" {
		p.order, p.find = nil, ""
	}
	switch {
	case a == nil:
		p.refuse(wording.Errorf("this page has no button %q", name))
	case p.visit == nil && !first[name]:
		p.screen = beginning
	case late && (name == "answer" || name == "confirm"): // a thumb that came down twice, or a page of before
		p.refuse(wording.NewError("that answer belonged to the page before; this is what is asked now"))
	default:
		if err := a(p, arg, f); err != nil {
			p.refuse(err)
			return
		}
		remember(p, name, press{do, f})
	}
}

// press is a button that was pressed, with what the form held.
type press struct {
	Do     string     `json:"do"`
	Fields FormValues `json:"fields,omitempty"`
}

// whileNaming are the acts that a name comes of, with the field that each reads.
var whileNaming = sync.OnceValue(func() map[string]string {
	return map[string]string{"name": "", "look": "", "answer": "", "hear": "words", "confirm": "", "measure": "length", "again": "",
		"closer": "", "on": ""}
})

// remember keeps a press that what is named hangs on.
func remember(p *Phone, name string, one press) {
	field, names := whileNaming()[name]
	switch {
	case p.talk == nil || !names:
		return
	case name == "name" || name == "look":
		p.pressed = nil
	}
	if text := one.Fields[field]; text != "" {
		one.Fields = FormValues{field: text}
	} else {
		one.Fields = nil
	}
	p.pressed = append(p.pressed, one)
}

// Refuse says on the page why something is not done.
func (p *Phone) Refuse(why string) { p.said, p.wrong = why, true }

func (p *Phone) refuse(err error) { p.said, p.wrong = err.Error(), true }

// note adds an event that was made here to the visit.
func (p *Phone) note(body visit.Body) error {
	e, err := p.visit.Add(p.now(), p.who, body, p.random)
	if err != nil {
		return err
	}
	p.queue([]visit.Event{e})
	p.seen[e.ID] = true
	p.tally = p.visit.Tally()
	return nil
}

// errFinished is why nothing is added. What phones out of reach counted before they
// heard of the finish is taken all the same.
var errFinished = wording.NewError("the visit is finished and nothing more is added; the leader can open it again under Tally")

// closed says why no sample can be added, if that is so.
func closed(p *Phone) error {
	if p.tally.Finished {
		return errFinished
	}
	return nil
}

// uncounted says why no animal can be, if that is so.
func uncounted(p *Phone) error {
	if len(p.tally.Samples) == 0 {
		return wording.NewError("no sample is noted yet; note the first one under Samples")
	}
	return closed(p)
}

// own reports whether an event was made here.
func (p *Phone) own(id string) bool { return p.seen[id] }

func goTo(p *Phone, screen string, _ FormValues) error {
	if slices.Contains([]string{counting, tallying, grading, handing, sampling, boarding}, screen) {
		p.screen = screen
	}
	return nil
}

func setWho(p *Phone, _ string, f FormValues) error {
	if p.joined != nil {
		return wording.NewError("at a table everybody has the name they joined with")
	}
	p.who = strings.TrimSpace(f["who"])
	if p.said = wording.Text("Nobody's name is noted from here on."); p.who != "" {
		p.said = wording.Sprintf("From here on by %s.", p.who)
	}
	return nil
}

func undo(p *Phone, _ string, _ FormValues) error {
	body, ok := sheet.UndoLast(p.visit, p.tally, func(e visit.Event) bool { return p.seen[e.ID] })
	if !ok {
		p.said = wording.Text("There is nothing more to take back that was counted on this phone.")
		return nil
	}
	p.said = wording.Text("Taken back.")
	return p.note(body)
}

func takeOut(p *Phone, record string, _ FormValues) error {
	if _, err := amendable(p, record); err != nil {
		return err
	}
	p.screen, p.said = tallying, wording.Text("Taken out. It can be seen in the visit's file.")
	return p.note(visit.Amendment{Entry: record, Reason: wording.Text("taken out on a phone"), Withdrawn: true})
}

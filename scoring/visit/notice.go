package visit

import (
	"strings"

	"rillkey/taxa/pattern"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Trouble is what a Notice is about.
type Trouble string

// What may be wrong in a file that can still be read.
const (
	Torn     Trouble = "torn"     // the last event was cut off; not counted
	Repaired Trouble = "repaired" // a torn end was moved to a file beside it
	Damaged  Trouble = "damaged"  // not counted
	Changed  Trouble = "changed"  // by hand; counted
	Doubled  Trouble = "doubled"  // counted once
	Unknown  Trouble = "unknown"  // a kind or field this program does not know
	Misfit   Trouble = "misfit"   // refers to what is not there; not counted
	Further  Trouble = "further"  // stands for notices left out
)

// Lost is how many entries of the file were damaged or cut off, so that they are not counted
// and are not in what is made of it.
func (v *Visit) Lost() (n int) {
	for _, notice := range v.Notices {
		if notice.Trouble == Damaged || notice.Trouble == Torn {
			n++
		}
	}
	return n
}

// maxNotices bounds the list for a file full of rubbish.
const maxNotices = 200

// Notice is one thing a person should know about a file that was read: one
// plain sentence with its place. It holds no control characters.
type Notice struct {
	File    string
	Line    int // from 1
	Trouble Trouble
	Text    string
}

// String writes the place and the sentence, as "file:line: sentence".
func (n Notice) String() string {
	return wording.Sprintf("%s:%d: %s", plain.Printable(n.File), n.Line, n.Text)
}

type notices struct {
	file string
	list []Notice
	more int
}

func (n *notices) tell(line int, about Trouble, format string, args ...any) {
	if len(n.list) == maxNotices {
		n.more++
		return
	}
	n.list = append(n.list, Notice{n.file, line, about, wording.Sprintf(format, args...)})
}

func (n *notices) all() []Notice {
	if n.more == 0 {
		return n.list
	}
	text := wording.Sprintf("%d further remarks on this file are left out", n.more)
	return append(n.list, Notice{n.file, 1, Further, text})
}

// describe names an event the way a person would point at it.
func describe(e Event) string {
	switch b := e.Body.(type) {
	case Sample:
		return wording.Sprintf("sample %q", b.Label)
	case Identification:
		name := b.Taxon
		if b.Undecided || name == "" {
			name = wording.Text("undecided animals")
		}
		return wording.Sprintf("%d × %s in sample %q", b.Count, name, b.Sample)
	case Amendment:
		return wording.Sprintf("amendment of %s", b.Entry)
	case SecondLook:
		return wording.Sprintf("second look at %s", b.Entry)
	case Settlement:
		return wording.Sprintf("settlement for %s", b.Holds)
	case SheetRows:
		return wording.Sprintf("rows of the sheet of sample %q", b.Sample)
	case Conditions:
		return wording.Text("what was noted of stream and day")
	case SameName:
		return meansWords(b.What)
	}
	return e.Kind()
}

// meansWords tells of a [SameName] without the name, which may be kept back.
func meansWords(what string) string {
	switch what {
	case NamePerson:
		return wording.Text("what the name of a person means")
	case NameSite:
		return wording.Text("what the name of a site means")
	}
	return wording.Text("what the name of a sample means")
}

var plainLine = pattern.New(`^(kind|label|sample|taxon|count|of) = (\S.*)$`)

// tornWords tells what can be told of a cut-off event: only whole lines count,
// since half of "102" reads as 10.
func tornWords(text string) string {
	lines := strings.Split(text, "\n")
	var known []string
	for _, line := range lines[:len(lines)-1] {
		if m := plainLine().FindStringSubmatch(line); m != nil && len(line) < 100 {
			known = append(known, m[1]+" "+plain.Printable(m[2]))
		}
	}
	if len(known) == 0 {
		return wording.Text("what it was cannot be told")
	}
	return wording.Sprintf("it began as %s", strings.Join(known, ", "))
}

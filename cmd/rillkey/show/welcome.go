package show

import (
	"io"

	"rillkey/taxa/wording"
)

// FirstSteps says what a newcomer can do, most wanted first.
func FirstSteps(w io.Writer, width int) error {
	p := newPage(w, width)
	p.text(0, 0, "rillkey names a stream animal by questions that a beginner can answer, counts it, and grades the "+
		"stream by its animals, or says plainly why there is no grade yet.")
	p.line("")
	for _, row := range []struct{ command, what string }{
		{wording.Text("rillkey identify"),
			wording.Text("You have an animal in front of you: answer a few questions and learn what it is.")},
		{wording.Text("rillkey visit begin"),
			wording.Text("You are at the stream with a group: begin a visit, so that every animal named is counted.")},
		{wording.Text("rillkey grade"),
			wording.Text("You have counted: see what the animals say about the stream, or what is still missing.")},
		{wording.Text("rillkey taxa stonefly"), wording.Text("You know a name: see what it is, however you spell it.")},
		{wording.Text("rillkey demo"), wording.Text(
			"You want to see it all first: an invented visit, from the first question to the grade, without typing.")},
	} {
		p.text(2, 4, "%s", row.command)
		p.text(6, 6, "%s", row.what)
	}
	p.line("")
	p.text(0, 0, "Every command explains itself with --help. Nothing needs a network.")
	return p.err
}

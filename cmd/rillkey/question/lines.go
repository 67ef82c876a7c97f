//go:build !js

package question

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"rillkey/cmd/rillkey/terminal"
	"rillkey/key"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// patience is how many lines in a row may fail to answer a question: nobody
// errs so often, but a program that feeds the input may never stop.
const patience = 100

// Lines asks the rest of an inquiry line by line: the words of the screen, one
// answer to a line, nothing that moves a cursor. width is where lines are
// folded; 0 leaves that to whatever shows them. An answer may be written as in a
// path: "4a" for "a", "tails=2" or "tails=2+3" for states. Where the animal goes is
// said once, before the first question, and in the help.
//
// In this mode s and q act at once, since a line is sent off with Enter. The
// end of the input before the questions have ended is an error that wraps
// io.ErrUnexpectedEOF.
func Lines(q *key.Inquiry, to Destination, drawings Drawings, in *bufio.Reader, out io.Writer, width int) (Ending, error) {
	return newLiner(q, to, drawings, in, out, width).run()
}

// LinesAgain is [Lines] after the questions have ended, and begins with which
// answer to look at again.
func LinesAgain(q *key.Inquiry, to Destination, drawings Drawings, in *bufio.Reader, out io.Writer, width int) (Ending, error) {
	l := newLiner(q, to, drawings, in, out, width)
	l.reopen()
	return l.run()
}

func newLiner(q *key.Inquiry, to Destination, drawings Drawings, in *bufio.Reader, out io.Writer, width int) *liner {
	return &liner{sitting: sit(q, to, drawings), input: in, output: bufio.NewWriter(out), width: width, ink: terminal.Bare()}
}

func (l *liner) run() (Ending, error) {
	if !l.done {
		l.show(l.going())
	}
	l.offer()
	for tries := 0; !l.done; tries++ {
		if tries > patience {
			return Left, wording.Errorf("%d lines in a row were no answer to %s", patience, l.place())
		}
		before := strings.Join(l.q.Path(), " ")
		if err := l.turn(); err != nil {
			return Left, err
		}
		if strings.Join(l.q.Path(), " ") != before {
			tries = -1
		}
	}
	return l.outcome, l.output.Flush()
}

type liner struct {
	*sitting
	input  *bufio.Reader
	output *bufio.Writer
	width  int
	ink    terminal.Styles
	asked  bool // the question has been shown since the person last moved on
}

// turn shows the question unless it still stands above, and takes one line.
func (l *liner) turn() error {
	if !l.asked {
		l.show(l.blocks())
		l.asked = true
	}
	l.show([]block{{remark, "", l.prompt()}})
	if err := l.output.Flush(); err != nil {
		return err
	}
	line, err := terminal.ReadLine(l.input)
	switch {
	case terminal.Again(err):
		l.said = plain.OneLine(err.Error()) + "."
	case errors.Is(err, io.ErrUnexpectedEOF) && l.sizing && l.now.question == nil: // it may be left open
		l.take("")
	case err != nil:
		return wording.Errorf("no answer could be read to %s; nothing of this animal was saved: %w", l.place(), err)
	default:
		l.take(line)
	}
	l.say()
	return nil
}

func (l *liner) take(line string) {
	line = keyMeant(strings.ToLower(line))
	if words, ok := strings.CutPrefix(line, say+" "); ok && len([]rune(words)) > 1 && l.stage == asking {
		line = words // the key and what it is for, in one line
	}
	switch line {
	case howTo:
		l.said = ""
		// The prompt leaves this one out: it would be read aloud at every question.
		l.show(l.help(l.answersWith(answerKey{enlarge, "", wording.Text("what the drawings of the screen show, in words."), ""}), false))
		return
	case enlarge:
		l.said = ""
		l.show(l.described())
		return
	}
	if sized := l.sizing; l.words(line) {
		if !sized { // what is asked comes next, as on the screen
			l.offer()
		}
		return
	}
	if l.stage == asking || l.stage == anew {
		id := l.question().ID()
		if states, ok := strings.CutPrefix(line, id+"="); ok && l.question().Trait != nil {
			l.asked = !l.pick(strings.ReplaceAll(states, "+", ","))
			return
		}
		if short, ok := strings.CutPrefix(line, id); ok && l.isChoice(short) { // "18 mm" begins with couplet 1
			line = short
		}
	}
	if several := lettersIn(l.choices(), line); several != nil {
		l.takeSeveral(several)
		return
	}
	letter, yesNo := yesOrNo(l.choices(), line)
	if letter != "" {
		line = letter
	}
	unknown := ""
	if l.stage == asking && len([]rune(line)) > 1 && !yesNo {
		if l.hear(line) {
			l.asked = false
			return
		}
		unknown = l.said
	}
	if l.asked = !l.answer(line); l.asked && unknown != "" {
		l.said = unknown + " " + l.said
	}
	l.offer()
}

// words acts on a line while something is said in words, or on the number of a mark,
// and reports whether it did.
func (l *liner) words(line string) bool {
	if l.passes(line) && l.now.question == nil {
		l.asked = false
		return true
	}
	mark := strings.Index(numbers[:len(l.marks)], line)
	choice := slices.IndexFunc(l.choices(), func(c choice) bool { return c.letter == line })
	switch {
	case line != "" && len(line) == 1 && mark >= 0 && (l.stage == asking || l.stage == striking):
		l.pickMark(mark)
	case l.stage == hearing && line == "":
		l.takeHeard()
	case l.stage == hearing && choice >= 0:
		l.toggle(choice)
	case l.stage == hearing && lettersIn(l.choices(), line) != nil:
		said := ""
		for _, i := range lettersIn(l.choices(), line) {
			l.toggle(i)
			said = strings.TrimSpace(said + " " + l.said)
		}
		l.said = said
	case takesBack(l.sitting) && isBack(line):
		l.back()
	case l.ticking && line == say:
		sayBeside(l.sitting)
	case l.ticking && line == key.Unsure: // of the rest
		l.takeHeard()
	case l.stage == hearing && (isBack(line) || line == key.Unsure),
		l.stage == striking && !l.sizing && line == key.Unsure, l.stage == striking && (line == "" || isBack(line)):
		l.heard, l.later = nil, nil
		l.settle()
	case l.ticking && len(line) == 1 && line != leave && line != stop:
		l.said = l.refusal(line)
	case (l.stage == hearing || l.stage == striking) && line != leave && line != stop:
		l.hear(line)
	default:
		return false
	}
	l.asked = false
	return true
}

// isChoice reports whether these are letters of the present choices, or can't tell.
func (l *liner) isChoice(letters string) bool {
	return letters == key.Unsure || lettersIn(l.choices(), letters) != nil ||
		slices.ContainsFunc(l.choices(), func(c choice) bool { return c.letter == letters })
}

// takeSeveral acts on several letters on one line: states of a trait may all be noted, of
// leads only one is.
func (l *liner) takeSeveral(choices []int) {
	all := l.choices()
	if (l.stage != asking && l.stage != anew) || l.question().Trait == nil {
		l.said = wording.Sprintf("One letter at a time: that is no answer yet. Choose %s, or ? for can't tell, or h for help.", listed(all))
		return
	}
	picks := make([]string, len(choices))
	for i, c := range choices {
		picks[i] = all[c].pick
	}
	l.asked = !l.pick(strings.Join(picks, ","))
	l.offer()
}

// lettersIn are the places of the choices whose letters a line holds and nothing else,
// "a, c", "a and c" or "ac"; nil where it is not of two letters at least.
func lettersIn(choices []choice, line string) (out []int) {
	if upwards(line) && !slices.Contains(shortWords, line) {
		line = strings.Join(strings.Split(line, ""), " ")
	}
	for _, field := range strings.FieldsFunc(line, func(r rune) bool { return strings.ContainsRune(" ,+/&", r) }) {
		i := slices.IndexFunc(choices, func(c choice) bool { return c.letter == field })
		switch {
		case field == "and" || field == "or":
		case i < 0:
			return nil
		case !slices.Contains(out, i):
			out = append(out, i)
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// shortWords are words whose letters stand in the order of the alphabet as well.
var shortWords = []string{"no", "or", "my", "be", "in", "it", "an", "as", "at", "go", "hi", "for", "not", "any", "bit", "dot", "fin"}

// upwards reports whether a line is some letters in the order of the alphabet and nothing else, as
// nobody types words.
func upwards(line string) bool {
	for i := range len(line) {
		if line[i] < 'a' || line[i] > 'z' || i > 0 && line[i] <= line[i-1] {
			return false
		}
	}
	return len(line) > 1
}

// offer names the marks that can be said at the question that follows.
func (l *liner) offer() {
	if l.done {
		return
	}
	marks := l.offers()
	if marks == nil {
		return
	}
	l.marks = marks
	l.show(append([]block{{remark, "", wording.Text(
		"At any question you can say what strikes you instead, by its number or in your own words:")}},
		leads(markChoices(l.sitting))...))
	fmt.Fprintln(l.output)
}

func (l *liner) say() {
	if l.said != "" {
		l.show([]block{{remark, "", l.said}})
	}
	if !l.asked {
		fmt.Fprintln(l.output)
	}
	l.said = ""
}

// described says in words what the drawings show: dots are only noise to a
// screen reader.
func (l *liner) described() []block {
	figures := l.figuresNow()
	if len(figures) == 0 {
		return []block{{remark, "", wording.Text("There is nothing to draw here.")}}
	}
	var blocks []block
	for i, c := range l.choices() {
		blocks = append(blocks, block{lead, c.letter + ":", plain.OneLine(figures[i].Alt)})
	}
	return blocks
}

// prompt names the answers there are.
func (l *liner) prompt() string {
	text := wording.Text("Answer")
	switch l.stage {
	case striking:
		switch {
		case l.sizing:
			return wording.Text("Answer its length in mm, or a thing as long, or nothing to be asked on, q leave.")
		case len(l.marks) == 0:
			return wording.Text("Answer in your own words, or nothing to be asked, q leave.")
		}
		return wording.Text("Answer a number, or your own words, or nothing to be asked, q leave.")
	case hearing:
		if l.ticking {
			return wording.Sprintf("Answer %s for each that you see, then an empty line; an empty line alone for none of these.",
				listed(l.choices()))
		}
		return wording.Sprintf("Send an empty line to note those with an x, %s to take one in or leave it out, < to take all "+
			"back.", listed(l.choices()))
	}
	for i, k := range l.answers() {
		switch {
		case i == 0 && len(l.choices()) > 0:
			text += " " + k.mark
		case i == 0:
			text += " " + k.mark + " " + k.short
		default:
			text += ", " + k.mark + " " + k.short
		}
	}
	return text + "."
}

func (l *liner) place() string {
	switch l.stage {
	case choosing:
		return wording.Text("which answer to look at again")
	case striking, hearing:
		if l.ticking {
			return wording.Text("what of these you see")
		}
		if l.sizing {
			return wording.Text("how long it is")
		}
		return wording.Text("what strikes you")
	case unsettled:
		return wording.Text("what to do with an animal that is not settled")
	case anew:
		return wording.Sprintf("\"%s\", asked once more", plain.OneLine(headline(l.question())))
	}
	return wording.Sprintf("question %d%s, \"%s\"", l.q.Questions()+1, label(l.question()), plain.OneLine(headline(l.question())))
}

func (l *liner) show(blocks []block) {
	for _, line := range set(blocks, l.width, noGaps, l.ink) {
		fmt.Fprintln(l.output, line)
	}
}

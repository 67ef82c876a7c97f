package question

import (
	"bufio"
	"errors"
	"io"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
	"unicode"

	"github.com/charmbracelet/x/ansi"

	"rillkey/key"
	"rillkey/key/keytest"
	"rillkey/taxa/plain"
)

func TestAnswersLineByLine(t *testing.T) {
	k := small(t)
	for _, row := range []struct {
		why, lines, path string
		outcome          Ending
		says             string
	}{
		{"leads by their letter", "a\nb\n", "1a 2b", Named, "a: Three tails"},
		{"leads as they stand in a path", "1a\n2A\n3c\n", "1a 2a 3c", Named, "Noted: three tails."},
		{"blanks do no harm", "  b \r\n", "1b", Named, "Question 1 (couplet 1): Legs"},
		{"can't tell", "1a\n2?\ns\n", "1a 2? stop", Named, "Can't tell: nothing is ruled out."},
		{"back", "a\n<\nb\n", "1b", Named, "Back, this is taken away: six legs."},
		{"help, and the question still open", "h\nb\n", "1b", Named, "How many legs? Count one side and double it. Your eyes are enough."},
		{"a wrong answer, and the question still open", "d\nb\n", "1b", Named, "There is no d here: it is a or b."},
		{"a word", "beetle\nb\n", "1b", Named, "That is no answer here."},
		{"two leads at once", "a, b\nb\n", "1b", Named, "One letter at a time: that is no answer yet. Choose a or b"},
		{"an empty line", "\nb\n", "1b", Named, "That is no answer here."},
		{"the lead of another couplet", "2a\nb\n", "1b", Named, "That is no answer here."},
		{"a long line", strings.Repeat("a", 5000) + "\nb\n", "1b", Named, "That line is too long to be an answer."},
		{"an arrow key", "\x1b[A\nb\n", "1b", Named, "That line holds keys or bytes that are not text."},
		{"stop acts at once", "a\na\ns\n", "1a 2a stop", Named, "If you stop here (s): it is named mayfly (Ephemeroptera)."},
		{"leave acts at once", "a\nq\n", "1a", Left, "q leave"},
		{"an answer given anew, the others kept", "a\na\nr\nb\na\nc\n", "1a/a 2a 3c", Named, "Looked at again, and it stands: six legs."},
		{"and what it was before is said", "a\na\nr\na\nb\n", "1a 2a/b", Named, "Answered anew: two tails; before: three tails."},
		{"back from the list of answers", "a\nr\n<\nb\n", "1a 2b", Named, "Which answer do you want to look at again?"},
		{"back from an answer asked again", "a\nr\na\n<\n<\nb\n", "1a 2b", Named, "Once more (couplet 1): Legs"},
		{"nothing to look at again yet", "r\nb\n", "1b", Named, "That is no answer here."},
	} {
		t.Run(row.why, func(t *testing.T) {
			q := begin(t, k)
			outcome, out, err := typed(q, row.lines, 0)
			if err != nil || outcome != row.outcome || path(q) != row.path {
				t.Errorf("%v, %v, path %q", outcome, err, path(q))
			}
			if !strings.Contains(strings.ReplaceAll(out, "’", "'"), sentenceCase(row.says)) {
				t.Errorf("%q is not in\n%s", row.says, out)
			}
		})
	}
}

// After six times can't tell the animal may be set aside, and after an answer
// that is not said any more. The screen says it as well.
func TestWhoCannotTellIsOfferedToSetItAside(t *testing.T) {
	const offer = "times in a row. You can set this animal aside"
	q := begin(t, keytest.Key(t))
	q.LeaveLength() // else it is asked for before
	for i := range 4 {
		m := shown(q, 80, 60)
		if says := strings.Contains(squeeze(m.View()), squeeze(offer)); says != (i >= 3) {
			t.Fatalf("on the screen after %d: %v\n%s", i, says, m.View())
		}
		if err := q.CantTell(); err != nil {
			t.Fatal(err)
		}
	}
	_, out, _ := typed(q, "s\n", 0)
	if !strings.Contains(strings.ReplaceAll(out, "’", "'"), "Can't tell, 4 "+offer+" for a second look: press s.") {
		t.Errorf("line by line:\n%s", out)
	}
	q = begin(t, keytest.Key(t))
	q.LeaveLength()
	_, out, _ = typed(q, "?\n?\n\n?\na\ns\n", 0)
	if n := strings.Count(out, offer); n != 1 {
		t.Errorf("it is said %d times, want once:\n%s", n, out)
	}
	// What has a name already, such as that of its group, is not set aside by stopping.
	q = begin(t, keytest.Key(t))
	q.LeaveLength()
	for _, said := range []string{"case=carried", "case-stuff=plant"} {
		if err := q.Say(said); err != nil {
			t.Fatal(err)
		}
	}
	_, out, _ = typed(q, "?\n?\n\n?\n?\ns\n", 0)
	out = squeeze(out)
	ends := squeeze("times in a row. You can stop here: press s. Then it is named")
	if !strings.Contains(out, ends) || strings.Contains(out, squeeze(offer)) {
		t.Errorf("of an animal with a name:\n%s", out)
	}
}

// A single trait is answered by a letter, by the name of a state or of several,
// as in a path.
func TestSingleTraitsLineByLine(t *testing.T) {
	k := small(t)
	for _, row := range []struct{ why, line, path string }{
		{"by its letter", "c", "tails=3"},
		{"as in a path", "tails=3", "tails=3"},
		{"several states", "tails=2+3", "tails=2+3"},
		{"several states, parted by a comma", "tails=2,3", "tails=2+3"},
		{"can't tell", "?", "tails?"},
		{"can't tell, as in a path", "tails?", "tails?"},
		{"no such state", "tails=4\nb", "tails=2"},
		{"no such letter", "d\nb", "tails=2"},
		{"the name of a state alone is no answer: it could be a letter", "two\nb", "tails=2"},
	} {
		q, err := model(t, k).Check("stonefly", key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		// The couplet lacks a state, so that the trait by itself is still open.
		if err := q.Say("2?"); err != nil {
			t.Fatal(err)
		}
		for now := q.Question(); now != nil && now.ID() != "tails"; now = q.Question() {
			if err := q.CantTell(); err != nil {
				t.Fatal(err)
			}
		}
		before := path(q)
		_, out, err := typed(q, row.line+"\nq\n", 0)
		if err != nil || path(q) != before+" "+row.path || !strings.Contains(out, "c: three tails") {
			t.Errorf("%s: path %q, %v\n%s", row.why, path(q), err, out)
		}
	}
}

func sentenceCase(s string) string { return strings.Replace(s, "That line", "that line", 1) }

// The reader is used for nothing but the lines that answer: what follows is
// left for the next question.
func TestLinesLeavesTheRestOfTheInput(t *testing.T) {
	in := bufio.NewReader(strings.NewReader("b\n12\nnext\n"))
	if _, err := Lines(begin(t, small(t)), Destination{}, nil, in, io.Discard, 0); err != nil {
		t.Fatal(err)
	}
	if rest, _ := io.ReadAll(in); string(rest) != "next\n" {
		t.Errorf("%q is left", rest)
	}
}

// Input cut at any byte gives an error that says where, and never another
// result; the inquiry stands where the whole lines brought it.
func TestInputCutAnywhere(t *testing.T) {
	k := small(t)
	const all = "x\n1a\nh\n2b\n"
	for n := range len(all) {
		q := begin(t, k)
		outcome, out, err := typed(q, all[:n], 40)
		if !errors.Is(err, io.ErrUnexpectedEOF) || outcome != Left {
			t.Fatalf("cut at %d: %v, %v", n, outcome, err)
		}
		if want := "question " + string(rune('1'+q.Questions())) + " (couplet "; !strings.Contains(err.Error(), want) ||
			!strings.Contains(err.Error(), "nothing of this animal was saved") {
			t.Errorf("cut at %d: %v does not say %q", n, err, want)
		}
		if q.Question() == nil || out == "" {
			t.Errorf("cut at %d: the questions ended at %s", n, path(q))
		}
	}
	q := begin(t, k)
	if outcome, _, err := typed(q, all, 40); outcome != Named || err != nil || path(q) != "1a 2b" {
		t.Errorf("%v, %v, %s", outcome, err, path(q))
	}
}

// The end of the input says which question it cut off, also where an answer was
// to be given anew.
func TestInputCutWhileLookingAgain(t *testing.T) {
	for lines, want := range map[string]string{"a\nr\n": "which answer to look at again", "a\nr\na\n": `"Legs", asked once more`} {
		_, _, err := typed(begin(t, small(t)), lines, 0)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", lines, err)
		}
	}
}

func TestAnInputThatNeverAnswersComesToAnEnd(t *testing.T) {
	_, out, err := typed(begin(t, small(t)), strings.Repeat("y\n", 10000), 0)
	if err == nil || !strings.Contains(err.Error(), "100 lines in a row were no answer to question 1") || len(out) > 100_000 {
		t.Errorf("%v, %d bytes", err, len(out))
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestAnOutputThatIsGoneIsAnError(t *testing.T) {
	_, err := Lines(begin(t, small(t)), Destination{}, nil, bufio.NewReader(strings.NewReader("b\n")), broken{}, 0)
	if !errors.Is(err, io.ErrClosedPipe) {
		t.Error(err)
	}
}

// The same answers give the same inquiry on the screen and line by line, whatever
// they are, in either order, and with what is asked at the end.
func TestScreenAndLinesAreTwins(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	for name, k := range map[string]*key.Key{"small": small(t), "embedded": keytest.Key(t)} {
		for _, order := range []key.Order{key.AuthorsOrder, key.Shortest} {
			t.Run(name+" "+string(order), func(t *testing.T) {
				o := key.DefaultOptions()
				o.Order = order
				m, r := model(t, k), rand.New(rand.NewPCG(11, 4))
				for range 25 {
					checkTwins(t, m, o, randomAnswers(r))
				}
			})
		}
	}
}

func randomAnswers(r *rand.Rand) []string {
	pool := []string{"a", "b", "a", "b", "a", "b", "c", "f", "?", "?", "<", "r", "h", "v", "x", "S", "q"}
	answers := make([]string, r.IntN(40))
	for i := range answers {
		n := len(pool)
		if r.IntN(4) > 0 {
			n -= 2 // stop and leave now and then, or no inquiry gets far
		}
		answers[i] = pool[r.IntN(n)]
	}
	return answers
}

func checkTwins(t *testing.T, m *key.Model, o key.Options, answers []string) {
	t.Helper()
	byKey, _ := m.Inquire(o)
	byLine, err := m.Inquire(o)
	if err != nil {
		t.Fatal(err)
	}
	s, sent := shown(byKey, 80, 24), []string(nil)
	for _, a := range answers {
		if s.done {
			break
		}
		if s.sizing && strings.ContainsFunc(a, unicode.IsLetter) {
			continue // letters are typed there, and begin words
		}
		sent = append(sent, a)
		// The screen asks again for these, and the help has to be closed.
		if strings.Contains("hvSq", a) {
			a += " " + a
		}
		press(s, a)
		if s.stage == striking && !s.sizing { // the lines offer the same marks without asking
			press(s, "enter")
		}
	}
	if s.sizing && s.now.question == nil { // the end of what is typed leaves it open, too
		press(s, "enter")
	}
	outcome, out, err := typed(byLine, strings.Join(sent, "\n")+"\n", 80)
	if s.done != (err == nil) || s.outcome != outcome {
		t.Fatalf("%v: the screen is done: %v, %v; the lines: %v, %v", sent, s.done, s.outcome, outcome, err)
	}
	a, b := byKey.Verdict(), byLine.Verdict()
	if path(byKey) != path(byLine) || !reflect.DeepEqual(a, b) {
		t.Fatalf("%v: %s against %s", sent, path(byKey), path(byLine))
	}
	if !s.done {
		checkSameWords(t, s, out)
	}
}

// checkSameWords holds that every word about the open question stands in both.
func checkSameWords(t *testing.T, m *screen, out string) {
	t.Helper()
	seen := readAll(t, m, 80, 24)
	for _, b := range m.blocks() {
		if !strings.Contains(squeeze(out), squeeze(b.text)) || !strings.Contains(seen, squeeze(b.text)) {
			t.Fatalf("%q is not in both:\n%s\n%s", b.text, m.View(), out)
		}
	}
}

func FuzzLines(f *testing.F) {
	k := small(f)
	f.Add("a\nb\n", 80)
	f.Add("1a\n2?\ns\n", 0)
	f.Add("h\n<\n\x1b[A\n\xff\n", 40)
	f.Add("a", 1)
	f.Add("a\na\nr\na\nb\nr\nr\n<\n", 20)
	f.Add("six legs, two tails\n\nw\nthree tails\na\n\n<\n1\n", 40)
	f.Fuzz(func(t *testing.T, text string, width int) {
		if width > 300 {
			return
		}
		q := inquire(t, k, key.DefaultOptions())
		outcome, out, err := typed(q, text, width)
		if outcome == Named && q.Question() != nil || err != nil && outcome != Left {
			t.Fatalf("%v, %v, asks %v", outcome, err, q.Question())
		}
		for _, l := range strings.Split(out, "\n") {
			if plain.HasControl(l) || width > 0 && ansi.StringWidth(l) > width {
				t.Fatalf("%q at %d", l, width)
			}
		}
		if err != nil && plain.HasControl(err.Error()) {
			t.Fatalf("%q", err)
		}
	})
}

// What was typed where the length is asked for is gone with that: it is nothing that
// strikes somebody.
func TestNothingTypedForALengthIsLeft(t *testing.T) {
	m := model(t, keytest.Key(t))
	var s *screen
	for ways := range 64 { // a for a one, b for a nought, behind one that nobody could tell
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		s = shown(q, 80, 24)
		press(s, "?")
		for n := 0; n < 9 && !s.sizing; n++ {
			press(s, map[bool]string{true: "a", false: "b"}[ways>>n&1 == 0])
		}
		if s.sizing {
			break
		}
	}
	if !s.sizing {
		t.Fatal("no length was asked for")
	}
	press(s, "r x w esc esc w")
	if s.stage != striking || s.typed != "" {
		t.Errorf("stage %d; %q is typed", s.stage, s.typed)
	}
}

// Where a length or words are typed, < is back as everywhere, and no first sign of them.
func TestBackIsBackWhereWordsAreTyped(t *testing.T) {
	q, err := model(t, keytest.Key(t)).Inquire(key.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	s := shown(q, 80, 24)
	press(s, "w")
	if s.stage != striking {
		t.Fatalf("w leads to stage %d", s.stage)
	}
	if press(s, "<"); s.stage != asking || s.typed != "" {
		t.Errorf("after < the stage is %d, and %q is typed", s.stage, s.typed)
	}
}

// Where the length is asked for in the place of a question, back takes back the last answer,
// on the screen and line by line, and the length is asked for again after it.
func TestBackFromTheLength(t *testing.T) {
	q := begin(t, small(t))
	s := shown(q, 80, 24)
	press(s, "a b")
	if !s.sizing {
		t.Fatalf("%s: the length is not asked for", path(q))
	}
	for _, k := range []string{"<", "esc", "left"} {
		if press(s, k); path(q) != "1a" || s.stage != asking {
			t.Errorf("%s: after %s, stage %d", path(q), k, s.stage)
		}
		if press(s, "b"); !s.sizing {
			t.Errorf("after %s and an answer the length is not asked for again", k)
		}
	}
	lines := begin(t, small(t))
	_, out, err := typed(lines, "a\nb\n<\nb\n7\n", 80)
	if err != nil || path(lines) != "1a 2b length=7" || !strings.Contains(out, "this is taken away: two tails") {
		t.Errorf("%s: %v in\n%s", path(lines), err, out)
	}
}

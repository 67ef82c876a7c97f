package question

import (
	"bufio"
	"errors"
	"io"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"rillkey/key"
	"rillkey/taxa/authored"
)

func TestAnswersLineByLine(t *testing.T) {
	k := small(t)
	for _, row := range []struct {
		why, lines, path string
		outcome          Outcome
		says             string
	}{
		{"leads by their letter", "a\nb\n", "1a 2b", Named, "a: Three tails"},
		{"leads as they stand in a path", "1a\n2A\n3?\n", "1a 2a 3?", Named, "Noted: 2a."},
		{"blanks do no harm", "  b \r\n", "1b", Named, "Question 1 (couplet 1): Legs"},
		{"can't tell", "?\n?\n?\n", "1? 2? 3?", Named, "Can't tell: nothing is ruled out."},
		{"back", "a\n<\nb\n", "1b", Named, "Back: your answer 1a is taken away."},
		{"help, and the question still open", "h\nb\n", "1b", Named, "How many legs? Count one side and double it. Your eyes are enough."},
		{"a wrong answer, and the question still open", "d\nb\n", "1b", Named, "There is no d here: it is a or b."},
		{"a word", "beetle\nb\n", "1b", Named, "That is no answer here."},
		{"an empty line", "\nb\n", "1b", Named, "That is no answer here."},
		{"the lead of another couplet", "2a\nb\n", "1b", Named, "That is no answer here."},
		{"a long line", strings.Repeat("a", 5000) + "\nb\n", "1b", Named, "That line is too long to be an answer."},
		{"an arrow key", "\x1b[A\nb\n", "1b", Named, "That line holds keys or bytes that are not text."},
		{"stop acts at once", "a\na\ns\n", "1a 2a", Named, "If you stop here (s): it is named mayfly (Ephemeroptera)."},
		{"leave acts at once", "a\nq\n", "1a", Left, "q leave"},
	} {
		t.Run(row.why, func(t *testing.T) {
			w := k.Walk()
			outcome, out, err := typed(w, row.lines, 0)
			if err != nil || outcome != row.outcome || path(w) != row.path {
				t.Errorf("%v, %v, path %q", outcome, err, path(w))
			}
			if !strings.Contains(strings.ReplaceAll(out, "’", "'"), sentenceCase(row.says)) {
				t.Errorf("%q is not in\n%s", row.says, out)
			}
		})
	}
}

func sentenceCase(s string) string { return strings.Replace(s, "That line", "that line", 1) }

// The reader is used for nothing but the lines that answer: what follows is
// left for the next question.
func TestLinesLeavesTheRestOfTheInput(t *testing.T) {
	in := bufio.NewReader(strings.NewReader("b\n12\n"))
	if _, err := Lines(small(t).Walk(), in, io.Discard, 0); err != nil {
		t.Fatal(err)
	}
	if rest, _ := io.ReadAll(in); string(rest) != "12\n" {
		t.Errorf("%q is left", rest)
	}
}

// Input cut at any byte gives an error that says where, and never another
// result; the walk stands where the whole lines brought it.
func TestInputCutAnywhere(t *testing.T) {
	k := small(t)
	const all = "x\n1a\n?\nh\n<\n2a\nc\n"
	for n := range len(all) {
		w := k.Walk()
		outcome, out, err := typed(w, all[:n], 40)
		if !errors.Is(err, io.ErrUnexpectedEOF) || outcome != Left {
			t.Fatalf("cut at %d: %v, %v", n, outcome, err)
		}
		if want := "question " + string(rune('1'+w.Questions())) + " (couplet "; !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "nothing of this animal was saved") {
			t.Errorf("cut at %d: %v does not say %q", n, err, want)
		}
		if w.Ended() || out == "" {
			t.Errorf("cut at %d: the walk ended at %s", n, path(w))
		}
	}
	w := k.Walk()
	if outcome, _, err := typed(w, all, 40); outcome != Named || err != nil || path(w) != "1a 2a 3c" {
		t.Errorf("%v, %v, %s", outcome, err, path(w))
	}
}

func TestAnInputThatNeverAnswersComesToAnEnd(t *testing.T) {
	_, out, err := typed(small(t).Walk(), strings.Repeat("y\n", 10000), 0)
	if err == nil || !strings.Contains(err.Error(), "100 lines in a row were no answer to question 1") || len(out) > 100_000 {
		t.Errorf("%v, %d bytes", err, len(out))
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestAnOutputThatIsGoneIsAnError(t *testing.T) {
	_, err := Lines(small(t).Walk(), bufio.NewReader(strings.NewReader("b\n")), broken{}, 0)
	if !errors.Is(err, io.ErrClosedPipe) {
		t.Error(err)
	}
}

// The same answers give the same walk on the screen and line by line, whatever
// they are.
func TestScreenAndLinesAreTwins(t *testing.T) {
	for name, k := range map[string]*key.Key{"small": small(t), "embedded": embedded(t)} {
		t.Run(name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(11, 4))
			for range 300 {
				checkTwins(t, k, randomAnswers(r))
			}
		})
	}
}

func randomAnswers(r *rand.Rand) []string {
	pool := []string{"a", "b", "a", "b", "a", "b", "c", "f", "?", "?", "<", "h", "x", "S", "q"}
	answers := make([]string, r.IntN(40))
	for i := range answers {
		n := len(pool)
		if r.IntN(4) > 0 {
			n -= 2 // stop and leave now and then, or no walk gets far
		}
		answers[i] = pool[r.IntN(n)]
	}
	return answers
}

func checkTwins(t *testing.T, k *key.Key, answers []string) {
	t.Helper()
	byKey, byLine := k.Walk(), k.Walk()
	m := shown(byKey, 80, 24)
	for _, a := range answers {
		if m.done {
			break
		}
		// The screen asks again for these, and the help has to be closed.
		if strings.Contains("hSq", a) {
			a += " " + a
		}
		press(m, a)
	}
	outcome, out, err := typed(byLine, strings.Join(answers, "\n")+"\n", 80)
	if m.done != (err == nil) || m.outcome != outcome {
		t.Fatalf("%v: the screen is done: %v, %v; the lines: %v, %v", answers, m.done, m.outcome, outcome, err)
	}
	a, b := byKey.Result(), byLine.Result()
	if path(byKey) != path(byLine) || a.Taxon != b.Taxon || !slices.Equal(a.Possible, b.Possible) || a.Questions != b.Questions {
		t.Fatalf("%v: %s against %s", answers, path(byKey), path(byLine))
	}
	if !m.done {
		checkSameWords(t, m, out)
	}
}

// checkSameWords holds that every word about the open question stands in both.
func checkSameWords(t *testing.T, m *screen, out string) {
	t.Helper()
	for _, b := range ask(m.walk) {
		if !strings.Contains(squeeze(out), squeeze(b.text)) || !strings.Contains(squeeze(m.View()), squeeze(b.text)) {
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
	f.Fuzz(func(t *testing.T, text string, width int) {
		if width > 300 {
			return
		}
		w := k.Walk()
		outcome, out, err := typed(w, text, width)
		if (outcome == Named) != w.Ended() || err != nil && outcome != Left {
			t.Fatalf("%v, %v, ended %v", outcome, err, w.Ended())
		}
		for _, l := range strings.Split(out, "\n") {
			if authored.HasControl(l) || width > 0 && ansi.StringWidth(l) > width {
				t.Fatalf("%q at %d", l, width)
			}
		}
		if err != nil && authored.HasControl(err.Error()) {
			t.Fatalf("%q", err)
		}
	})
}

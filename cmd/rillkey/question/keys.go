package question

import (
	"slices"

	"rillkey/taxa/wording"
)

// answerKey is a key, what it does in a word or two, and in a sentence.
type answerKey struct{ mark, short, long, extra string }

// answers are the keys that are taken at present.
func (s *sitting) answers() []answerKey {
	var out []answerKey
	if choices := s.choices(); len(choices) > 0 {
		out = append(out, answerKey{listed(choices), wording.Text("choose"), s.choosing(), ""})
	}
	if s.stage == asking || s.stage == anew {
		out = append(out, answerKey{"?", wording.Text("can't tell"),
			wording.Text("can't tell. That is a good answer, also where none fits or two do: it rules nothing out, and the " +
				"questions go on another way."), ""})
	}
	if b := s.backKey(); b != "" {
		out = append(out, answerKey{"<", wording.Text("back"), b, wording.Text(" Esc, Backspace and the left arrow do the same.")})
	}
	if s.stage == asking || s.stage == anew {
		out = append(out, answerKey{"h", wording.Text("how to look"), wording.Text("how to look, and what you can answer."), ""})
	} else {
		out = append(out, answerKey{"h", wording.Text("help"), wording.Text("what you can answer."), ""})
	}
	if s.stage == asking && s.now.supposed == nil {
		out = append(out, answerKey{say, wording.Text("say what you see"),
			wording.Text("say what strikes you, in your own words or by number."), ""})
	}
	if s.stage != choosing && len(s.doubtful()) > 0 {
		out = append(out, answerKey{"r", wording.Text("look again"),
			wording.Text("look again at an answer: pick the one that you doubt and give it " +
				"anew. The others are kept."), ""})
	}
	short := wording.Text("stop here")
	if !s.now.stopped() {
		short = wording.Text("set aside")
	}
	return append(out,
		answerKey{"s", short, wording.Sprintf("stop here: %s", s.now.stopping()), ""},
		answerKey{"q", wording.Text("leave"), wording.Text("leave without a name. Nothing of this animal is kept; what was saved stays " +
			"saved."), wording.Text(" Ctrl-C does the same at once.")})
}

// answersWith are the answers and, where there are drawings, the key for them.
func (s *sitting) answersWith(drawings answerKey) []answerKey {
	all := s.answers()
	if len(s.figuresNow()) == 0 {
		return all
	}
	at := slices.IndexFunc(all, func(k answerKey) bool { return k.mark == howTo })
	return slices.Insert(all, at, drawings)
}

func (s *sitting) choosing() string {
	if s.ticking {
		return wording.Text("all that you see, one after the other; Enter notes them.")
	}
	if s.stage == choosing {
		return wording.Text("the answer that you want to give anew.")
	}
	return wording.Text("the words that fit your animal. Read them all before you choose.")
}

// backKey is what going back does, or empty where there is nothing to go back
// to.
func (s *sitting) backKey() string {
	switch {
	case s.stage == choosing || s.stage == anew:
		return wording.Text("back; the answer stays as it is.")
	case len(s.q.Given()) > s.saidFirst:
		return wording.Text("back to the question before; your answer to it is taken away.")
	}
	return ""
}

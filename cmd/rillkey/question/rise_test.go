package question

import (
	"math/rand/v2"
	"strings"
	"testing"

	"rillkey/key"
	"rillkey/key/keytest"
)

// "Still possible" went from 7 kinds to 8 after an answer, and nothing was said of it.
func TestWhereMoreKindsArePossibleItIsSaid(t *testing.T) {
	m := keytest.Model(t)
	r := rand.New(rand.NewPCG(1, 2))
	rises := 0
	for range 25 {
		q, err := m.Inquire(key.DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		talk := QuestionsAlone(q, nil, false)
		for n := 0; !talk.Ended() && n < 12 && len(talk.Now().Options) > 0; n++ {
			before := len(talk.s.now.likely)
			options := talk.Now().Options
			talk.Answer(options[r.IntN(len(options))].Answer)
			if talk.Ended() || talk.s.stage != asking || len(talk.s.now.likely) <= before {
				continue
			}
			rises++
			said := ""
			for _, text := range talk.Now().After {
				said += text.Words + "\n"
			}
			if !strings.Contains(said, "Possible now") || strings.Contains(said, "Still possible") ||
				!strings.Contains(said, "Before your last answer it was "+kinds(before)) {
				t.Errorf("%d kinds, then %d:\n%s", before, len(talk.s.now.likely), said)
			}
		}
	}
	if rises == 0 {
		t.Error("no answer left more possible")
	}
}

package desk

import (
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"rillkey/scoring/network"
)

// asked is a network that notes what it is asked, and is gone at one of the questions.
type asked struct {
	questions []string
	gone      string
	since     time.Time
	most      int
}

var errGone = errors.New("gone")

func (a *asked) note(question string) error {
	a.questions = append(a.questions, question)
	if question == a.gone {
		return errGone
	}
	return nil
}

func (a *asked) Health(context.Context, func() time.Time) (network.Health, error) {
	return network.Health{Schema: 7}, a.note("health")
}

func (a *asked) News(_ context.Context, since time.Time) ([]network.Came, error) {
	a.since = since
	return []network.Came{{Group: "mill-brook"}}, a.note("news")
}

func (a *asked) Waiting(_ context.Context, _ network.Book, most int, _ time.Time, alarms bool) (network.Waiting, error) {
	a.most = most
	if !alarms {
		return network.Waiting{}, errors.New("no alarms were asked for")
	}
	return network.Waiting{Kept: 3}, a.note("waiting")
}

func (a *asked) Agree(context.Context, network.Book) ([]network.GroupAgreement, error) {
	return []network.GroupAgreement{{Pairs: 2}}, a.note("agreement")
}

// Whether the network answers is asked first, and nothing more of one that is gone.
func TestSightOf(t *testing.T) {
	at := time.Date(2026, 5, 16, 9, 0, 0, 0, time.UTC)
	order := []string{"health", "news", "waiting", "agreement"}
	for i, gone := range order {
		db := &asked{gone: gone}
		_, err := SightOf(t.Context(), db, network.Book{}, at, time.Now)
		if !errors.Is(err, errGone) || !slices.Equal(db.questions, order[:i+1]) {
			t.Errorf("gone at %s: asked %q; %v", gone, db.questions, err)
		}
	}
	db := &asked{}
	s, err := SightOf(t.Context(), db, network.Book{}, at, time.Now)
	if err != nil || s.Taken != at || s.Health.Schema != 7 || len(s.News) != 1 || s.Waiting.Kept != 3 || len(s.Agreement) != 1 {
		t.Errorf("%+v, %v", s, err)
	}
	if week := at.AddDate(0, 0, -7); s.FirstDay != week || db.since != week || db.most != 200 {
		t.Errorf("news since %v, %d rows", db.since, db.most)
	}
}

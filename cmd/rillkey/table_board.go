package main

import (
	"context"
	"io"
	"strings"
	"time"

	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/terminal"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// boardEvery is how often a screen shows the board anew, and turnEvery after how many of
// these it turns to the next page of one that it has no room for.
const (
	boardEvery = 3 * time.Second
	turnEvery  = 3
)

// watchBoard prints how a visit stands that was read just now; on a screen it reads and
// prints it again and again.
func watchBoard(a *app, v *visit.Visit) error {
	if !a.onScreen() {
		b, err := boardOf(a, v)
		switch {
		case err != nil:
			return err
		case a.json:
			return show.JSON(a.stdout, b)
		}
		return b.Text(a.stdout, a.width)
	}
	ctx, stop := a.leaving.untilSignal()
	defer stop()
	for round := 0; ; round++ {
		b, err := boardOf(a, v)
		if err != nil {
			return err
		}
		if err := turnTo(a, b, round/turnEvery); err != nil {
			return err
		}
		if !waited(ctx, boardEvery) {
			return nil
		}
		if v, err = visit.Read(v.File); err != nil {
			return err
		}
	}
}

// waited waits, and reports whether nobody ended it meanwhile.
func waited(ctx context.Context, long time.Duration) bool {
	select {
	case <-ctx.Done():
		return false
	case <-time.After(long):
		return true
	}
}

func boardOf(a *app, v *visit.Visit) (*show.Board, error) {
	catalog, rules, err := a.catalogAndRules()
	if err != nil {
		return nil, err
	}
	return show.NewBoard(rules, catalog, v, a.now()), nil
}

// turnTo shows a page of the board on a cleared screen, with which of how many it is
// where there are several.
func turnTo(a *app, b *show.Board, turn int) error {
	var text strings.Builder
	if err := b.Text(&text, a.width); err != nil {
		return err
	}
	pages := terminal.Paginate(strings.TrimRight(text.String(), "\n"), a.height)
	at := turn % len(pages)
	shown := pages[at]
	if len(pages) > 1 {
		shown += "\n" + wording.Sprintf("Page %d of %d", at+1, len(pages))
	}
	_, err := io.WriteString(a.stdout, "\x1b[2J\x1b[H"+shown)
	return err
}

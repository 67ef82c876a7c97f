package table

import (
	"encoding/json"
	"net/http"
	"unicode/utf8"

	"rillkey/cmd/rillkey/phone"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

// hand takes what a phone's table has not acknowledged yet, and gives what the
// phone lacks. Nothing is called kept before it is on the disk.
func (t *SortingTable) hand(w http.ResponseWriter, r *http.Request, g guest) {
	var h phone.Handing
	if err := json.NewDecoder(http.MaxBytesReader(w, r.Body, mostBody)).Decode(&h); err != nil {
		t.refuse(w, http.StatusBadRequest, wording.Errorf("what was handed in cannot be read"))
		return
	}
	events, err := visit.ParseBlocks([]byte(h.Blocks), phone.MostHanded)
	if err != nil {
		t.refuse(w, http.StatusBadRequest, err)
		return
	}
	t.hears(g.Name, presence{t.Now(), brief(h.Doing), max(0, h.Waiting)})
	a, err := t.take(g, events)
	if err != nil {
		t.refuse(w, http.StatusInsufficientStorage, err)
		return
	}
	news, cursor, left, err := t.Visit.BlocksSince(h.Cursor, phone.MostHanded)
	if err != nil {
		t.refuse(w, http.StatusInsufficientStorage, err)
		return
	}
	a.Blocks, a.Cursor, a.Left = news, cursor, left
	w.Header().Set("Content-Type", "application/json")
	_ = json.NewEncoder(w).Encode(a) // whoever is gone asks again
}

// take enters what somebody may enter.
func (t *SortingTable) take(g guest, events []visit.Event) (phone.Receipt, error) {
	a := phone.Receipt{Refused: map[string]string{}}
	along := make(map[string]visit.Event, len(events))
	for _, e := range events {
		along[e.ID] = e
	}
	find := func(id string) (visit.Event, bool) {
		if e, ok := t.Visit.Find(id); ok {
			return e, true
		}
		e, ok := along[id]
		return e, ok
	}
	var let []visit.Event
	for _, e := range events {
		if err := g.may(e, find); err != nil {
			a.Refused[e.ID] = wording.Reason(err).Error()
			continue
		}
		let = append(let, e)
	}
	if len(let) == 0 {
		return a, nil
	}
	refused, err := t.Visit.Unite(let)
	if err != nil {
		return a, err
	}
	for i, e := range let {
		if refused[i] != nil {
			a.Refused[e.ID] = refused[i].Error()
		} else {
			a.Kept = append(a.Kept, e.ID)
		}
	}
	return a, nil
}

func brief(s string) string {
	const most = 60
	if utf8.RuneCountInString(s) > most {
		return string([]rune(s)[:most])
	}
	return s
}

package sheet_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"rillkey/scoring/sheet"
	"rillkey/scoring/visit"
)

// device is one of several on which the same person counts.
type device struct {
	visit   *visit.Visit
	made    map[string]bool
	stands  []int // what was counted here and not taken back
	random  *rand.ChaCha8
	minutes int
}

func (d *device) notes(t *testing.T, body visit.Body) {
	t.Helper()
	d.minutes++
	e, err := d.visit.Add(noon.Add(time.Duration(d.minutes)*time.Minute), "Ada", body, d.random)
	if err != nil {
		t.Fatal(err)
	}
	d.made[e.ID] = true
}

// press counts some animals of one kind, or takes back the last.
func (d *device) press(t *testing.T, random *rand.Rand) {
	t.Helper()
	if random.IntN(3) > 0 {
		n := 1 + random.IntN(5)
		body := visit.Identification{Sample: "A", Taxon: "baetidae", Count: n, Note: "counted by name"}
		d.notes(t, sheet.More(d.visit.Tally(), body, func(string) bool { return true }))
		d.stands = append(d.stands, n)
		return
	}
	body, ok := sheet.UndoLast(d.visit, d.visit.Tally(), func(e visit.Event) bool { return d.made[e.ID] })
	if ok != (len(d.stands) > 0) {
		t.Fatalf("%d are to be taken back, and it says %v", len(d.stands), ok)
	}
	if ok {
		d.notes(t, body)
		d.stands = d.stands[:len(d.stands)-1]
	}
}

// One person counts on two devices, takes back, and the devices meet now and then:
// no press is lost and none counts twice.
func TestOnePersonOnTwoDevices(t *testing.T) {
	seeds := uint64(60)
	if testing.Short() {
		seeds = 15
	}
	for seed := range seeds {
		random := rand.New(rand.NewPCG(seed, 5))
		v, err := visit.Begin(visit.Header{Site: "Mill Brook", Date: "2026-05-16", CautionsRead: true, Begun: noon},
			rand.NewChaCha8([32]byte{1}))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := v.Add(noon, "Ada", visit.Sample{Label: "A", Habitat: "riffle"}, rand.NewChaCha8([32]byte{2})); err != nil {
			t.Fatal(err)
		}
		var devices []*device
		for n := range 2 {
			own, err := visit.Parse("", v.Encode())
			if err != nil {
				t.Fatal(err)
			}
			devices = append(devices, &device{
				visit: own, made: map[string]bool{}, random: rand.NewChaCha8([32]byte{byte(seed), byte(n), 3})})
		}
		for range 30 {
			devices[random.IntN(2)].press(t, random)
			if random.IntN(6) == 0 {
				meet(devices)
			}
		}
		meet(devices)
		want := 0
		for _, d := range devices {
			for _, n := range d.stands {
				want += n
			}
		}
		for _, d := range devices {
			got := 0
			for _, r := range d.visit.Tally().Records {
				got += r.Count
			}
			if got != want {
				t.Errorf("schedule %d: %d animals stand, the tally has %d", seed, want, got)
			}
		}
	}
}

func meet(devices []*device) {
	devices[0].visit.Unite(devices[1].visit.Events)
	devices[1].visit.Unite(devices[0].visit.Events)
}

// Who gave no name is told whose animals were counted last, if those can be taken back.
func TestLastHand(t *testing.T) {
	v := &visit.Visit{Header: visit.Header{ID: "v"}}
	put := func(who string, body visit.Body) {
		v = &visit.Visit{Header: v.Header, Events: append(v.Events, visit.Event{ID: fmt.Sprint("e", len(v.Events)), Who: who, Body: body,
			Time: noon.Add(time.Duration(len(v.Events)) * time.Minute)})}
	}
	says := func(hand string) {
		t.Helper()
		if got := sheet.LastHand(v); got != hand {
			t.Errorf("%q, want %q", got, hand)
		}
	}
	put("", visit.Sample{Label: "A", Habitat: "riffle"})
	says("")
	put("Ada ", visit.Identification{Sample: "A", Taxon: "baetidae", Count: 2, Note: "counted by name"})
	put("Bo", visit.Identification{Sample: "A", Taxon: "elmidae", Count: 1, Note: "counted by name"})
	says("Bo")
	back, ok := sheet.UndoLastOf(v, "bo")
	if !ok {
		t.Fatal("nothing is taken back")
	}
	put("Bo", back)
	says("Ada")
}

// What one person counts is added to the record in their name, however it is written, and to
// no other's.
func TestMoreBy(t *testing.T) {
	record := func(id, who string) visit.Record {
		return visit.Record{ID: id, Who: who,
			Identification: visit.Identification{Sample: "1", Taxon: "baetidae", Count: 2, Note: "counted by name"}}
	}
	tally := visit.Tally{Records: []visit.Record{record("a", "Ada"), record("b", ""), record("c", "Bo")}}
	body := visit.Identification{Sample: "1", Taxon: "baetidae", Count: 3, Note: "counted by name"}
	for who, of := range map[string]string{"Ada": "a", " ada ": "a", "": "b", "BO": "c", "Cy": ""} {
		a, added := sheet.MoreBy(tally, body, who).(visit.Amendment)
		if added != (of != "") || a.Entry != of || added && *a.Change.More != 3 {
			t.Errorf("%q: %+v", who, a)
		}
	}
}

package visit

import (
	"os"
	"reflect"
	"strings"
	"testing"

	"rillkey/scoring/visit/internal/replays"
)

// Site, day, people, protocol and place are corrected by entries; the header stays
// in the file as it was written, and all that reads the visit has it corrected.
func TestTheHeaderIsCorrected(t *testing.T) {
	path := begin(t)
	a := add(t, path)
	a.add(Sample{Label: "1", Habitat: "riffle"})
	before := read(t, path).Header
	spot := &Spot{Latitude: 44.5, Longitude: -72.25}
	amend := func(ch Change) { a.add(Amendment{Entry: before.ID, Reason: "wrong", Change: ch}) }
	amend(Change{Site: ptr("Mill, upper"), Date: ptr("2024-06-01")})
	amend(Change{People: &[]string{"Oona", "Bo"}, Spot: spot})
	a.add(Finish{})
	amend(Change{Site: ptr("Mill, lower"), Protocol: ptr("riffle-best")})
	a.add(Amendment{Entry: read(t, path).Tally().Finishes[0], Reason: "more", Withdrawn: true})
	a.add(Sample{Label: "2", Habitat: "riffle"}) // with a copy of the header as it is written
	v := read(t, path)
	want := before
	want.Site, want.Date, want.People, want.Spot, want.Protocol = "Mill, lower", "2024-06-01", []string{"Oona", "Bo"}, spot, "riffle-best"
	if !reflect.DeepEqual(v.Header, want) || !reflect.DeepEqual(v.Written(), before) || len(v.Notices) > 0 {
		t.Errorf("it is %+v, written as %+v, %v", v.Header, v.Written(), v.Notices)
	}
	data, _ := os.ReadFile(path)
	if string(v.Encode()) != string(data) {
		t.Errorf("written again it is\n%s", v.Encode())
	}
	one := merged(t, v, read(t, path))
	sameFile(t, "merged with itself", one, v)
	if one.Header.Site != "Mill, lower" || v.Recast(v.Written(), v.Events[:1]).Header.Site != before.Site {
		t.Errorf("merged it is %s", one.Header.Site)
	}
	for why, b := range map[string]Amendment{
		"does not exist":           {Entry: before.ID, Reason: "r", Change: Change{Date: ptr("2024-02-30")}},
		"site is missing":          {Entry: before.ID, Reason: "r", Change: Change{Site: ptr(" ")}},
		"latitude must be":         {Entry: before.ID, Reason: "r", Change: Change{Spot: &Spot{Latitude: 91}}},
		"control character":        {Entry: before.ID, Reason: "r", Change: Change{Site: ptr("a\x1bb")}},
		"is not an id":             {Entry: before.ID, Reason: "r", Change: Change{Protocol: ptr("No Such")}},
		"amend one of them at a t": {Entry: before.ID, Reason: "r", Change: Change{Site: ptr("x"), Count: ptr(2)}},
		"is not this visit":        {Entry: v.Events[len(v.Events)-1].ID, Reason: "r", Change: Change{Site: ptr("x")}},
	} {
		if _, err := Append(path, noon, "", b, a.random); err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("%v; want %q", err, why)
		}
	}
}

// Corrections of one header made apart are a clash only where they contradict.
func TestHeadersCorrectedApart(t *testing.T) {
	for clash, site := range map[bool]string{false: "Mill, upper", true: "Mill, lower"} {
		path := begin(t)
		random := add(t, path).random
		data, _ := os.ReadFile(path)
		sides := []*Visit{}
		for i, name := range []string{"Mill, upper", site} {
			file := path + string(rune('a'+i))
			put(t, file, data)
			if _, err := Append(file, noon.AddDate(0, 0, i+1), "",
				Amendment{Entry: read(t, path).Header.ID, Reason: "r", Change: Change{Site: &name}}, random); err != nil {
				t.Fatal(err)
			}
			sides = append(sides, read(t, file))
		}
		m, clashes, err := Unite(sides, false)
		if err != nil || (len(clashes) > 0) != clash || m.Header.Site != site {
			t.Errorf("%s: %d clashes, %v, %s", site, len(clashes), err, m.Header.Site)
		}
	}
}

// A visit that names another reference keeps its tally, and the visit it came from.
func TestWithReference(t *testing.T) {
	v := &Visit{Header: Header{ID: "v", Site: "Below the Works", Reference: "withheld"}}
	v.Events = append(v.Events, Event{ID: "s", Body: Sample{Label: "1", Habitat: "riffle"}})
	v.Tally()
	before := replays.Tallied.Load()
	out := WithReference(v, "Upper Ford")
	if out.Header.ComparesWith() != "Upper Ford" || out.Written().Reference != "Upper Ford" || v.Header.Reference != "withheld" {
		t.Errorf("%+v, %+v", out.Header, v.Header)
	}
	if len(out.Tally().Samples) != 1 || replays.Tallied.Load() != before {
		t.Error("it was replayed again")
	}
}

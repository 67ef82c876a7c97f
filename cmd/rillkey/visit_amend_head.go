package main

import (
	"cmp"
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"rillkey/cmd/rillkey/ask"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// headFlags are new values of what stands at the head of a visit.
type headFlags struct {
	site, date, people, protocol, position, uncertainty, reference string
	asked                                                          bool // the person chose one of them in a form
}

func (f *headFlags) register(flags *pflag.FlagSet) {
	flags.StringVar(&f.site, "site", "", "the `NAME` of the place instead")
	flags.StringVar(&f.date, "date", "", "the `DAY` instead, as 2026-05-16")
	flags.StringVar(&f.people, "people", "", "who took part instead, `NAMES` with commas")
	flags.StringVar(&f.protocol, "protocol", "", "`ID` of the protocol followed instead")
	flags.StringVar(&f.reference, "reference", "", "the `SITE` that it is compared with instead; none for none")
	flags.StringVar(&f.position, "at", "", "where it is instead, `LATITUDE,LONGITUDE`")
	flags.StringVar(&f.uncertainty, "within", "", "how far off that may be, `METRES`")
}

// any reports whether one of the flags was used.
func (f *headFlags) any(flags *pflag.FlagSet) bool {
	for _, name := range []string{"site", "date", "people", "protocol", "at", "within", "reference"} {
		if flags.Changed(name) {
			return true
		}
	}
	return false
}

// ofHead begins the answer that means a value of the head, where others are codes.
const ofHead = "head "

// headOptions are the values of the head that can be corrected.
func headOptions(v *visit.Visit) []ask.Option {
	h := v.Header
	place := wording.Text("not noted")
	if h.Spot != nil {
		place = spotText(h.Spot)
	}
	return []ask.Option{
		{Value: ofHead + "site", Label: wording.Sprintf("site: %s", h.Site)},
		{Value: ofHead + "date", Label: wording.Sprintf("day: %s", h.Date)},
		{Value: ofHead + "people", Label: wording.Sprintf("people: %s",
			cmp.Or(strings.Join(h.People, ", "), wording.Text("nobody noted")))},
		{Value: ofHead + "protocol", Label: wording.Sprintf("protocol: %s", h.Protocol)},
		{Value: ofHead + "reference", Label: wording.Sprintf("compared with: %s", cmp.Or(h.Reference, wording.Text("no other site")))},
		{Value: ofHead + "at", Label: wording.Sprintf("place on the map: %s", place)},
	}
}

func spotText(s *visit.Spot) string {
	return fmt.Sprintf("%s,%s", plain.FormatFloat(s.Latitude), plain.FormatFloat(s.Longitude))
}

// askHead asks what is right in place of a value of the head.
func askHead(a *app, f *amendFlags, v *visit.Visit, name string) error {
	answers, err := a.ask(ask.Field{Key: "new", Title: wording.Text("What is right?"), Check: checkOfHead(a, name), GoesBack: true},
		ask.Field{Key: "reason", Title: wording.Text("Why?"), Help: wording.Text("A few words, for those who read it later.")},
		ask.Field{Key: "who", Title: wording.Text("Who corrects it?"), Optional: true, Offers: v.People()})
	if err != nil {
		return err
	}
	to := map[string]*string{"site": &f.head.site, "date": &f.head.date, "people": &f.head.people,
		"protocol": &f.head.protocol, "at": &f.head.position, "reference": &f.head.reference}
	*to[name] = answers["new"]
	f.head.asked, f.reason, f.who = true, answers["reason"], answers["who"]
	return nil
}

func checkOfHead(a *app, name string) func(string) error {
	switch name {
	case "date":
		return realDate
	case "at":
		return isPlace
	case "protocol":
		return a.knownProtocol
	}
	return nil
}

// knownProtocol asks for the id of a protocol that there is.
func (a *app) knownProtocol(id string) error {
	_, rules, err := a.catalogAndRules()
	if err == nil {
		_, err = rules.Protocol(id)
	}
	return err
}

// amendHead corrects what stands at the head of a visit.
func amendHead(a *app, f amendFlags, v *visit.Visit, flags *pflag.FlagSet) error {
	if f.entry != "" || f.withdraw || len(f.set) > 0 {
		return misused("site, day, people, protocol, place and reference belong to the whole visit; " +
			"correct them by themselves, without --of")
	}
	change, err := f.head.change(a)
	if err != nil {
		return err
	}
	saved, err := a.save(v.File, f.who, visit.Amendment{Entry: v.Header.ID, Reason: f.reason, Change: change})
	if err != nil {
		return err
	}
	if a.json {
		return a.savedJSON(v, saved)
	}
	a.plainly("Saved: the head of the visit is corrected (%s). The file keeps its name.", saved.Event.ID)
	return nil
}

func (f *headFlags) change(a *app) (ch visit.Change, err error) {
	if f.date != "" {
		if err := realDate(f.date); err != nil {
			return ch, misused("--date: %w", err)
		}
		ch.Date = &f.date
	}
	if f.protocol != "" {
		if err := a.knownProtocol(f.protocol); err != nil {
			return ch, misused("--protocol: %w", err)
		}
		ch.Protocol = &f.protocol
	}
	if f.site != "" {
		ch.Site = &f.site
	}
	if f.reference != "" {
		name := f.reference
		if name == "none" {
			name = ""
		}
		ch.Reference = &name
	}
	if people := plain.SplitNames(f.people); len(people) > 0 {
		ch.People = &people
	}
	ch.Spot, err = spotAt(f.position, f.uncertainty)
	return ch, err
}

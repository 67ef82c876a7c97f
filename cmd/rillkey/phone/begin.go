package phone

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// begin begins a visit with its first sample, so that the next press counts.
func begin(p *Phone, _ string, f FormValues) error {
	if p.visit != nil {
		return wording.NewError("a visit is begun already; count for it, or put it away under Give")
	}
	if f["read"] == "" {
		return wording.NewError("no visit is begun yet: read the cautions to everybody, then tick the box")
	}
	site := strings.TrimSpace(f["site"])
	if site == "" {
		return wording.NewError("no visit is begun yet: give the place a name that your group will know again")
	}
	followed := followedHere(p)
	if len(followed) > 0 && !slices.ContainsFunc(followed, func(pr *scheme.Protocol) bool { return pr.ID == f["protocol"] }) {
		return wording.NewError("no visit is begun yet: choose one of the protocols")
	}
	date := f["date"]
	if date == "" {
		date = p.now().Format(time.DateOnly)
	}
	header := visit.Header{Site: site, Date: date, People: listed(f["people"]), Edition: p.kit.Edition,
		Protocol: f["protocol"], CautionsRead: true,
		Begun: p.now()}
	if r := regionOf(p); r != nil {
		header.Region = r.ID
	}
	v, err := visit.Begin(header, p.random)
	if err != nil {
		return err
	}
	p.visit, p.tally = v, v.Tally()
	if people := v.Header.People; len(people) > 0 {
		p.who = people[0]
	}
	p.sample, p.screen = "1", counting
	if err := p.note(visit.Sample{Label: "1", Habitat: f["habitat"]}); err != nil {
		return err
	}
	p.said = wording.Text("Begun, with sample 1. Now count.")
	return nil
}

func listed(names string) (out []string) {
	for _, n := range strings.Split(names, ",") {
		if n = strings.TrimSpace(n); n != "" {
			out = append(out, n)
		}
	}
	return out
}

// habitatTitles are what is said of the habitats that are the program's own.
func habitatTitles() map[string]string {
	return map[string]string{
		"riffle":      wording.Mark("riffle: shallow, fast, stony"),
		"pool":        wording.Mark("pool: slow and deeper"),
		"leaf-pack":   wording.Mark("leaves caught in the current"),
		"root-mat":    wording.Mark("roots and plants at the bank"),
		"sand-or-mud": wording.Mark("sand or mud"),
		"wood":        wording.Mark("wood under water"),
		"all":         wording.Mark("all of them in one sample"),
	}
}

// habitatChoices are the habitats offered where the protocols are followed, with words.
func habitatChoices(p *Phone, protocols ...*scheme.Protocol) (out [][2]string) {
	r := regionOf(p)
	for _, h := range scheme.OfferedHabitats(r == nil || !r.OnlyCautions, protocols...) {
		out = append(out, [2]string{h, cmp.Or(habitatTitles()[h], h)})
	}
	return out
}

// protocolsOf is the protocol of the visit, as far as it is known.
func protocolsOf(p *Phone) []*scheme.Protocol {
	rules, err := p.kit.Rules()
	if err != nil || p.visit == nil {
		return nil
	}
	if pr, err := rules.Protocol(p.visit.Header.Protocol); err == nil {
		return []*scheme.Protocol{pr}
	}
	return nil
}

func beginPage(p *Phone, m *writer) {
	m.el("h1", wording.Text("Begin a visit"))
	m.say(p)
	m.open("section", "class", "cautions", "tabindex", "0", "aria-label", show.CautionTitle())
	m.el("h2", show.CautionTitle())
	m.open("ol")
	for _, c := range show.Cautions(regionOf(p)) {
		m.el("li", c)
	}
	m.close("ol")
	m.close("section")
	m.open("section")
	m.check("read", wording.Text("These were read to everybody."))
	m.field("site", wording.Text("Which place? The stream and the spot."), "", "text")
	m.field("people", wording.Text("Who takes part? Yourself first, commas between."), "", "text")
	m.field("date", wording.Text("Which day?"), p.now().Format(time.DateOnly), "date")
	var protocols [][2]string
	all := followedHere(p)
	for _, pr := range all {
		protocols = append(protocols, [2]string{pr.ID, pr.Title})
	}
	m.choose("protocol", wording.Text("By which protocol? It says how many samples a grade needs."), "", protocols)
	habitats := habitatChoices(p, all...)
	m.choose("habitat", wording.Text("Where is the first sample from?"), habitats[0][0], habitats)
	m.button("begin", wording.Text("Begin and count"), "main")
	m.close("section")
	takeRow(m, wording.Text("Or count for a visit that is begun"),
		wording.Text("Its file, from the leader's laptop or phone. All who count with it unite their files in the end."))
	if !p.unscripted {
		practiceDoor(p, m, wording.Text("Or practise first"))
	}
}

// followedHere are the protocols that are followed in the region of the page.
func followedHere(p *Phone) []*scheme.Protocol {
	rules, err := p.kit.Rules()
	if err != nil {
		return nil
	}
	catalog, err := p.kit.Catalog()
	if err != nil {
		return nil
	}
	return rules.Followed(catalog)
}

// regionOf is that of the kit, nil without one.
func regionOf(p *Phone) *taxa.Region {
	catalog, err := p.kit.Catalog()
	if err != nil {
		return nil
	}
	return catalog.Region()
}

func takeSample(p *Phone, _ string, f FormValues) error {
	if err := closed(p); err != nil {
		return err
	}
	label := strings.TrimSpace(f["label"])
	if label == "" {
		label = freeLabel(p)
	}
	if err := p.note(visit.Sample{Label: label, Habitat: f["habitat"]}); err != nil {
		return err
	}
	p.sample, p.screen, p.said = label, counting, wording.Sprintf("Sample %s is noted. Now count it.", label)
	return nil
}

func freeLabel(p *Phone) string {
	for n := len(p.tally.Samples) + 1; ; n++ {
		label := fmt.Sprint(n)
		if _, taken := p.tally.Sample(label); !taken {
			return label
		}
	}
}

func pickSample(p *Phone, label string, _ FormValues) error {
	if _, ok := p.tally.Sample(label); !ok {
		return wording.Errorf("there is no sample %s", label)
	}
	p.sample, p.screen = label, counting
	return nil
}

// sorted says how far the sample that is counted is sorted.
func sorted(p *Phone, how string, _ FormValues) error {
	t, ok := p.tally.Sample(p.sample)
	if !ok {
		return wording.NewError("there is no sample to speak of")
	}
	state := map[string]visit.Sorting{"all": visit.Sorted, "none": visit.Empty, "not": visit.NotSorted}[how]
	if state == "" {
		return wording.NewError("a sample is sorted, empty or not yet sorted")
	}
	p.said = wording.Sprintf("Sample %s: %s.", t.Label, string(state))
	return p.note(visit.Amendment{Entry: t.ID, Reason: wording.Text("sorted"), Change: visit.Change{Said: &state}})
}

func samplePage(p *Phone, m *writer) {
	m.el("h1", wording.Text("Samples"))
	m.say(p)
	m.open("section")
	m.el("h2", wording.Text("Which one is counted?"))
	for _, t := range p.tally.Samples {
		words := wording.Sprintf("Sample %s, %s: %s", t.Label, scheme.HabitatWords(t.Habitat), t.State.Words())
		if t.Label == p.sample {
			words += wording.Text(" (this one)")
		}
		m.button("pick:"+t.Label, words, "row")
	}
	m.close("section")
	m.open("section")
	m.el("h2", wording.Sprintf("Is sample %s sorted?", p.sample))
	m.button("sorted:all", wording.Text("Yes, all of it"), "row")
	m.button("sorted:none", wording.Text("Yes, and nothing lives in it"), "row")
	m.button("sorted:not", wording.Text("Not yet"), "row")
	m.close("section")
	m.open("section")
	m.el("h2", wording.Text("Another sample"))
	m.field("label", wording.Text("What is it called? Else the next number."), freeLabel(p), "text")
	habitats := habitatChoices(p, protocolsOf(p)...)
	m.choose("habitat", wording.Text("Where is it from?"), habitats[0][0], habitats)
	m.button("sample", wording.Text("Note this sample"), "main")
	m.close("section")
}

package phone

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/sheet"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/sorting"
	"rillkey/taxa/wording"
)

// tile is a kind that can be counted without questions.
type tile struct {
	id    string // "row-3", or "taxon-" and the id
	name  string
	drawn string // taxon that is drawn
	count int    // in the sample that is counted
	last  int    // place of its last event, to put what is counted first
	body  visit.Identification
}

// tilesOf are the kinds on the sheet of the visit's protocol and whatever else was
// named on it; those of the sample first, the latest at the top.
func tilesOf(p *Phone) ([]tile, error) {
	catalog, err := p.kit.Catalog()
	if err != nil {
		return nil, err
	}
	rows, err := p.kit.rows(p.visit.Header.Protocol)
	if err != nil {
		return nil, err
	}
	var out []tile
	for i, row := range rows {
		out = append(out, rowTile(catalog, i, row))
	}
	for i, r := range p.tally.Records {
		at := slices.IndexFunc(out, func(t tile) bool { return same(t.body, r.Identification) })
		if at < 0 {
			if r.Undecided {
				continue
			}
			t := catalog.Taxon(r.Taxon)
			if t == nil {
				continue
			}
			out = append(out, taxonTile(t))
			at = len(out) - 1
		}
		if r.Sample == p.sample {
			out[at].count += r.Count
			if p.own(r.ID) { // what others count must not move buttons under a thumb
				out[at].last = i + 1
			}
		}
	}
	inOrder(p, out)
	return out, nil
}

// inOrder sorts tiles, those counted here last to the top when somebody turns to the
// page. From then on each stays where it is under the thumb: new ones of this phone
// come first, those of others last.
func inOrder(p *Phone, all []tile) {
	sorting.Stable(all, func(a, b tile) int { return b.last - a.last })
	at := func(t tile) int {
		i := slices.Index(p.order, t.id)
		switch {
		case i < 0 && t.last > 0:
			return -1
		case i < 0:
			return len(p.order)
		}
		return i
	}
	if p.order != nil {
		sorting.Stable(all, func(a, b tile) int { return at(a) - at(b) })
	}
	order := make([]string, len(all))
	for i, t := range all {
		order[i] = t.id
	}
	p.order = order
}

func same(a, b visit.Identification) bool {
	return a.Taxon == b.Taxon && a.Undecided == b.Undecided && (a.Taxon != "" || slices.Equal(a.Possible, b.Possible))
}

func rowTile(catalog *taxa.Catalog, i int, row scoring.SheetRow) tile {
	drawn := row.Taxon
	if drawn == "" {
		drawn = row.Wider
	}
	if drawn == "" && len(row.Kind.Taxa) > 0 {
		drawn = row.Kind.Taxa[0]
	}
	return tile{id: fmt.Sprintf("row-%d", i), name: row.Kind.Label, drawn: drawn, body: sheet.OfRow(catalog, row, "", 1)}
}

func taxonTile(t *taxa.Taxon) tile {
	return tile{id: "taxon-" + t.ID, name: show.BothNames(t), drawn: t.ID, body: sheet.OfTaxon(t, "", 1)}
}

// tileOf finds a kind by the id that its button has.
func tileOf(p *Phone, id string) (tile, error) {
	if name, ok := strings.CutPrefix(id, "taxon-"); ok {
		catalog, err := p.kit.Catalog()
		if err != nil {
			return tile{}, err
		}
		if t := catalog.Taxon(name); t != nil {
			return taxonTile(t), nil
		}
	}
	all, err := tilesOf(p)
	if err != nil {
		return tile{}, err
	}
	for _, t := range all {
		if t.id == id {
			return t, nil
		}
	}
	return tile{}, wording.NewError("there is no such kind to count")
}

// more counts so many animals of a kind: "row-3:5".
func more(p *Phone, arg string, _ FormValues) error {
	id, number, _ := strings.Cut(arg, ":")
	n, err := strconv.Atoi(number)
	if err != nil || n < 1 || n > visit.MaxCount {
		return wording.NewError("a count is a whole number from 1")
	}
	if err := uncounted(p); err != nil {
		return err
	}
	t, err := tileOf(p, id)
	if err != nil {
		return err
	}
	body := t.body
	body.Sample, body.Count = p.sample, n
	concerns := concernsOf(p, body.Taxon)
	if err := p.note(sheet.More(p.tally, body, func(id string) bool { return counts(p, id) })); err != nil {
		return err
	}
	p.find, p.screen = "", counting
	p.said = wording.Sprintf("%d more: %s.", n, t.name)
	if body.Undecided {
		p.said = wording.Sprintf("%d more set aside: %s. They count once somebody names them closer.", n, t.name)
	}
	p.said += concerns
	return nil
}

// concernsOf is what to do on finding a taxon that is foreign or protected, where the
// visit has not named it yet.
func concernsOf(p *Phone, taxon string) (text string) {
	catalog, err := p.kit.Catalog()
	if err != nil {
		return ""
	}
	for _, c := range show.FirstConcerns(catalog.Taxon(taxon), p.tally.Records) {
		text += " " + c.Label + ": " + c.Text
	}
	return text
}

// counts reports whether a record is of the person who counts here.
func counts(p *Phone, record string) bool {
	r, ok := p.tally.Record(record)
	return ok && strings.EqualFold(strings.TrimSpace(r.Who), strings.TrimSpace(p.who))
}

func lookFor(p *Phone, _ string, f FormValues) error {
	p.find, p.screen = strings.TrimSpace(f["find"]), counting
	return nil
}

// tilesFound are the kinds that go by what was typed.
func tilesFound(p *Phone) (out []tile) {
	catalog, err := p.kit.Catalog()
	if err != nil || p.find == "" {
		return nil
	}
	finding := catalog.Find(p.find)
	all := finding.Called()
	if finding.Taxon != nil && !finding.Exact { // written a little wrong
		all = append(all, finding.Taxon)
	}
	for _, m := range finding.Similar {
		all = append(all, m.Taxon)
	}
	const most = 6
	for _, t := range all {
		if len(out) < most && !slices.ContainsFunc(out, func(o tile) bool { return o.drawn == t.ID }) {
			out = append(out, taxonTile(t))
		}
	}
	return out
}

func countPage(p *Phone, m *writer) {
	m.el("h1", wording.Text("Count"))
	m.say(p)
	m.open("section", "class", "first")
	m.button("name", wording.Text("Name an animal"), "main")
	m.button("undo", wording.Text("Take back the last"), "main second")
	m.close("section")
	if p.left != nil {
		m.open("section")
		m.button("back", wording.Text("Go on with the animal that was left"), "row")
		m.close("section")
	}
	m.open("section")
	m.open("div", "class", "beside")
	m.field("find", wording.Text("Find a kind by its name"), p.find, "search")
	m.button("find", wording.Text("Find"), "row")
	m.close("div")
	found := tilesFound(p)
	if p.find != "" && len(found) == 0 {
		m.el("p", wording.Text("No kind goes by that name. Try another, or name the animal by its marks."))
	}
	for _, t := range found {
		tileRow(p, m, t)
	}
	m.close("section")
	all, err := tilesOf(p)
	if err != nil {
		m.el("p", err.Error())
	}
	m.open("section")
	title := wording.Sprintf("Known at sight, in sample %s", p.sample)
	if len(p.tally.Samples) == 0 {
		title = wording.Text("Known at sight: note the first sample under Samples")
	}
	m.el("h2", title)
	for _, t := range all {
		tileRow(p, m, t)
	}
	m.close("section")
}

func tileRow(p *Phone, m *writer, t tile) {
	m.open("div", "class", "tile")
	if t.drawn != "" {
		m.open("span", "class", "figure", "data-figure", "taxon:"+t.drawn)
		m.close("span")
	}
	m.open("span", "class", "kind")
	m.Text(plain.Capital(t.name))
	if t.count > 0 {
		m.el("b", fmt.Sprintf(" %d", t.count))
	}
	m.close("span")
	for _, n := range []int{1, 5} {
		m.el("button", fmt.Sprintf("+%d", n), "type", "submit", "name", "do", "value", fmt.Sprintf("more:%s:%d", t.id, n), "class", "plus",
			"aria-label", wording.Sprintf("%d more %s", n, t.name))
	}
	m.close("div")
}

//go:build !js

package show

import (
	"io"
	"strings"

	"rillkey/couplets/versions"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// ComparedJSON is what differs between two versions of a key.
type ComparedJSON struct {
	Old string `json:"old"`
	New string `json:"new"`
	*versions.KeyDifference
}

// Text writes what differs, one line each.
func (c ComparedJSON) Text(w io.Writer, width int, catalog *taxa.Catalog) error {
	p := newPage(w, width)
	d := c.KeyDifference
	if d.Empty() {
		p.text(0, 2, "%s and %s say and ask the same.", c.Old, c.New)
	}
	changes := func(list []versions.CoupletChange, say func(versions.CoupletChange) string) {
		for _, at := range list {
			p.text(0, 2, "%s", say(at))
		}
	}
	for _, at := range d.Added {
		p.text(0, 2, "Added: couplet %s", placed(at))
	}
	for _, at := range d.Removed {
		p.text(0, 2, "Gone: couplet %s", placed(at))
	}
	changes(d.Reworded, func(at versions.CoupletChange) string {
		if at.Lead != "" {
			return wording.Sprintf("Reworded: lead %s%s said %s, now %s", at.Lead, formerly(at), plain.Quote(at.Old), plain.Quote(at.New))
		}
		return wording.Sprintf("Reworded: couplet %s%s said %s, now %s", at.Couplet, formerly(at), plain.Quote(at.Old), plain.Quote(at.New))
	})
	changes(d.Asked, func(at versions.CoupletChange) string {
		switch {
		case at.Old == "":
			return wording.Sprintf("Asks more: lead %s is new, for %s", at.Lead, at.New)
		case at.New == "":
			return wording.Sprintf("Asks less: couplet %s no longer has the lead %s", placed(at.CoupletPlace), at.Old)
		}
		return wording.Sprintf("Asks otherwise: lead %s%s stood for %s, now for %s", at.Lead, formerly(at), at.Old, at.New)
	})
	changes(d.Led, func(at versions.CoupletChange) string {
		return wording.Sprintf("Leads elsewhere: lead %s%s went to %s, now to %s", at.Lead, formerly(at), at.Old, at.New)
	})
	changes(d.Moved, func(at versions.CoupletChange) string {
		return wording.Sprintf("Moved: couplet %s%s was reached from %s, now from %s",
			placed(at.CoupletPlace), formerly(at), at.Old, at.New)
	})
	if d.Renumbered > 0 {
		p.text(0, 2, "Another number: %s", plain.Count(d.Renumbered, "couplet"))
	}
	c.animals(p, catalog)
	return p.err
}

func placed(at versions.CoupletPlace) string { return at.Couplet + " (" + at.Ask + ")" }

// formerly names the number that a couplet had, if it was another.
func formerly(at versions.CoupletChange) string {
	if at.Was == at.Couplet {
		return ""
	}
	return wording.Sprintf(" (was couplet %s)", at.Was)
}

func (c ComparedJSON) animals(p *page, catalog *taxa.Catalog) {
	list := func(what string, ids []string) {
		if len(ids) > 0 {
			p.text(0, 2, "%s: %s", what, names(catalog, ids))
		}
	}
	list(wording.Text("New animals"), c.KeyDifference.New)
	list(wording.Text("Animals gone"), c.Gone)
	for _, way := range c.OtherWay {
		var how []string
		for _, t := range way.Turns {
			how = append(how, wording.Sprintf("at couplet %s%s they take %s in the place of %s", t.Couplet, formerly(t), t.New, t.Old))
		}
		if len(way.NowAsked) > 0 {
			how = append(how, wording.Sprintf("now asked %s", places(way.NowAsked)))
		}
		if len(way.NoLongerAsked) > 0 {
			how = append(how, wording.Sprintf("no longer asked %s", places(way.NoLongerAsked)))
		}
		p.text(0, 2, "Another way: %s: %s", names(catalog, way.Taxa), strings.Join(how, "; "))
	}
}

func places(all []versions.CoupletPlace) string {
	out := make([]string, len(all))
	for i, at := range all {
		out[i] = placed(at)
	}
	return plain.And(out)
}

// names are taxa by their names, those that the catalog lacks by their ids.
func names(catalog *taxa.Catalog, ids []string) string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = id
		if t := catalog.Taxon(id); t != nil {
			out[i] = t.Name()
		}
	}
	return strings.Join(out, ", ")
}

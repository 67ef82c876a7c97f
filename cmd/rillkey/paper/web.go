package paper

import _ "embed"

//go:embed web.css
var webStyle string

// Web is what a page of a site on the web has beside its contents.
type Web struct {
	Site string    // the site's title; empty where the page's own is that
	Way  []WebLink // from the site's first page down to this one
	Foot []WebLink // to what the whole site has
	Feed string    // where its feed is, from here; empty for none
}

// WebLink is words that lead somewhere; without an address they are words alone. Address is an
// address from the page that holds it.
type WebLink struct{ Words, Address string }

// Web makes the page one of a site on the web: for bright and dark screens, with the
// way to it above and what else there is below.
func (p *Page) Web(w Web) {
	p.web = &w
	p.Style(webStyle)
}

// Links is a list of links; without any it is nothing.
func (p *Page) Links(class string, links []WebLink) {
	if len(links) > 0 {
		p.put("links", struct {
			Class string
			Links []WebLink
		}{class, links})
	}
}

// LinkTable is a [Page.Table] whose cells may be links.
func (p *Page) LinkTable(class, caption string, head []string, rows [][]WebLink) {
	p.put("linktable", struct {
		Class, Caption string
		Head           []string
		Rows           [][]WebLink
	}{class, caption, head, rows})
}

// Picture is a drawing in a file of its own, so many pixels wide and high, which
// is fetched when somebody comes to it.
func (p *Page) Picture(file, alt, caption string, width, height int) {
	p.put("picture", struct {
		File, Alt, Caption string
		Width, Height      int
	}{file, alt, caption, width, height})
}

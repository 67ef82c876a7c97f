// Package paper makes pages to print: each one self-contained HTML file without
// script, font or network, black on white, that fits A4 and Letter sheets and
// a phone.
//
// A [Page] is built from headings, paragraphs and figures. All text that it is
// given is escaped; only what [Page.Raw] is given goes in as it is.
package paper

import (
	_ "embed"
	"html"
	"io"
	"strconv"
	"strings"
)

//go:embed page.css
var style string

// Page is an HTML page that is being written. Its language is English.
type Page struct {
	title string
	extra string // style of one kind of page
	body  strings.Builder
	links []link
	open  []string
}

type link struct{ id, words string }

// New is a page with a title, which is its one first heading too.
func New(title string) *Page { return &Page{title: title} }

// Style adds style that one kind of page needs. It must be written for the
// program: text from a file has no place in it.
func (p *Page) Style(css string) { p.extra += css }

// Section begins a part of the page under a second heading; the page lists its
// sections at the top, as links. End ends it.
func (p *Page) Section(words string) {
	id := "part-" + strconv.Itoa(len(p.links)+1)
	p.links = append(p.links, link{id, words})
	p.Begin("section", "")
	p.body.WriteString(`<h2 id="` + id + `">` + html.EscapeString(words) + "</h2>\n")
}

// Heading is a third heading.
func (p *Page) Heading(words string) {
	p.body.WriteString("<h3>" + html.EscapeString(words) + "</h3>\n")
}

// Text is a paragraph of a class, which may be empty.
func (p *Page) Text(class, words string) {
	p.body.WriteString("<p" + attribute(class) + ">" + html.EscapeString(words) + "</p>\n")
}

// List is a list of points; without any it is nothing.
func (p *Page) List(class string, points []string) {
	if len(points) == 0 {
		return
	}
	p.body.WriteString("<ul" + attribute(class) + ">\n")
	for _, words := range points {
		p.body.WriteString("<li>" + html.EscapeString(words) + "</li>\n")
	}
	p.body.WriteString("</ul>\n")
}

// Table is a table under a caption. Its head names the columns; the first cell
// of a row names the row. A row longer than the head is cut. On a narrow
// screen the table scrolls by itself, not the page.
func (p *Page) Table(class, caption string, head []string, rows [][]string) {
	var b strings.Builder
	b.WriteString(`<div class="table" role="region" tabindex="0" aria-label="` + html.EscapeString(caption) + `"><table` + attribute(class) + "><caption>" + html.EscapeString(caption) + "</caption>\n<thead><tr>")
	for _, h := range head {
		b.WriteString(`<th scope="col">` + html.EscapeString(h) + "</th>")
	}
	b.WriteString("</tr></thead>\n<tbody>\n")
	for _, row := range rows {
		b.WriteString("<tr>")
		for i, cell := range row[:min(len(row), len(head))] {
			if i == 0 {
				b.WriteString(`<th scope="row">` + html.EscapeString(cell) + "</th>")
				continue
			}
			b.WriteString("<td>" + html.EscapeString(cell) + "</td>")
		}
		b.WriteString("</tr>\n")
	}
	b.WriteString("</tbody></table></div>\n")
	p.body.WriteString(b.String())
}

// Begin opens an element of a class; End closes it.
func (p *Page) Begin(element, class string) {
	p.open = append(p.open, element)
	p.body.WriteString("<" + element + attribute(class) + ">\n")
}

// End closes what was begun last.
func (p *Page) End() {
	if n := len(p.open); n > 0 {
		p.body.WriteString("</" + p.open[n-1] + ">\n")
		p.open = p.open[:n-1]
	}
}

// Figure is a drawing, as one svg element that the program made, with words
// beneath.
func (p *Page) Figure(svg, caption string) {
	p.body.WriteString("<figure>" + svg + "<figcaption>" + html.EscapeString(caption) + "</figcaption></figure>\n")
}

// Raw puts HTML in as it is. Text from a file or a person must be escaped first.
func (p *Page) Raw(markup string) { p.body.WriteString(markup) }

func attribute(class string) string {
	if class == "" {
		return ""
	}
	return ` class="` + html.EscapeString(class) + `"`
}

// WriteTo writes the page, closing what is open.
func (p *Page) WriteTo(w io.Writer) (int64, error) {
	for len(p.open) > 0 {
		p.End()
	}
	title := html.EscapeString(p.title)
	head := "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n" +
		"<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n" +
		"<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:\">\n" +
		"<title>" + title + "</title>\n<style>\n" + style + p.extra + "</style>\n</head>\n<body>\n<main>\n<h1>" + title + "</h1>\n"
	n, err := io.WriteString(w, head+p.contents()+p.body.String()+"</main>\n</body>\n</html>\n")
	return int64(n), err
}

func (p *Page) contents() string {
	if len(p.links) < 2 {
		return ""
	}
	var b strings.Builder
	b.WriteString("<nav aria-label=\"Parts of this page\"><ul>\n")
	for _, l := range p.links {
		b.WriteString(`<li><a href="#` + l.id + `">` + html.EscapeString(l.words) + "</a></li>\n")
	}
	b.WriteString("</ul></nav>\n")
	return b.String()
}

// Package paper makes pages to print: each one self-contained HTML file without
// script, font or network, black on white, that fits A4 and Letter sheets and
// a phone.
//
// Begin with [Page], [VisitReport] and [Labels].
//
// A [Page] is built from headings, paragraphs and figures. Its markup is in the
// templates beside this file, which escape all text that they are given; only
// drawings, which the program made, go in as they are.
package paper

import (
	"embed"
	"html/template"
	"io"
	"io/fs"
	"strconv"
	"strings"
	"sync"

	"rillkey/taxa/wording"
)

//go:embed page.css
var style string

//go:embed *.html
var sources embed.FS

var english = sync.OnceValue(func() *template.Template { return readTemplates() })

// inLanguage are the templates in the language that is spoken, and which that is.
var inLanguage struct {
	sync.Mutex
	language  *wording.Translation
	templates *template.Template
}

func templates() *template.Template {
	c := wording.InUse()
	if c == nil {
		return english()
	}
	inLanguage.Lock()
	defer inLanguage.Unlock()
	if inLanguage.language != c {
		inLanguage.language, inLanguage.templates = c, readTemplates()
	}
	return inLanguage.templates
}

func readTemplates() *template.Template {
	all := template.New("").Funcs(functions())
	names, _ := fs.Glob(sources, "*.html") // the pattern is sound
	for _, name := range names {
		source, err := fs.ReadFile(sources, name)
		if err != nil {
			panic(err) // it is inside the program
		}
		template.Must(all.New(name).Parse(wording.Markup(string(source))))
	}
	return all
}

// Page is an HTML page that is being written.
type Page struct {
	title string
	extra string // style of one kind of page
	body  strings.Builder
	parts []section
	open  []string
	web   *Web
	foot  string // of each sheet that is printed; may be empty
	err   error  // the first template that failed
}

// section is one as the list at the top names it.
type section struct{ ID, Words string }

// New is a page with a title, which is its one first heading too.
func New(title string) *Page { return &Page{title: title} }

// Style adds style that one kind of page needs. It must be written for the
// program: text from a file has no place in it.
func (p *Page) Style(css string) { p.extra += css }

// Foot is what stands at the foot of each sheet that is printed, in browsers that print
// what a style says of margins; on a screen it is at the end of the page.
func (p *Page) Foot(words string) { p.foot = words }

// put writes the template of this name.
func (p *Page) put(name string, data any) {
	if err := templates().ExecuteTemplate(&p.body, name, data); err != nil {
		p.fail(err)
	}
}

// Section begins a part of the page under a second heading; the page lists its
// sections at the top, as links. End ends it.
func (p *Page) Section(words string) {
	s := section{"part-" + strconv.Itoa(len(p.parts)+1), words}
	p.parts = append(p.parts, s)
	p.Begin("section", "")
	p.put("section", s)
}

// Heading is a third heading.
func (p *Page) Heading(words string) { p.put("heading", words) }

// Text is a paragraph of a class, which may be empty.
func (p *Page) Text(class, words string) {
	p.put("text", struct{ Class, Words string }{class, words})
}

// List is a list of points; without any it is nothing.
func (p *Page) List(class string, points []string) {
	if len(points) > 0 {
		p.put("list", struct {
			Class  string
			Points []string
		}{class, points})
	}
}

// fail remembers the first thing that went wrong.
func (p *Page) fail(err error) {
	if p.err == nil {
		p.err = err
	}
}

// table is a table under a caption. Its head names the columns; the first cell
// of a row names the row. A row longer than the head is cut. On a narrow
// screen the table scrolls by itself, not the page.
func (p *Page) table(class, caption string, head []string, rows [][]string) {
	cut := make([][]string, len(rows))
	for i, row := range rows {
		cut[i] = row[:min(len(row), len(head))]
	}
	p.put("table", struct {
		Class, Caption string
		Head           []string
		Rows           [][]string
	}{class, caption, head, cut})
}

// Begin opens an element, which is the program's own word, of a class; End
// closes it.
func (p *Page) Begin(element, class string) {
	p.open = append(p.open, element)
	p.body.WriteString("<" + element)
	p.put("class", class)
	p.body.WriteString(">\n")
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
	p.put("figure", struct {
		SVG     template.HTML
		Caption string
	}{template.HTML(svg), caption})
}

// WriteTo writes the page, closing what is open.
func (p *Page) WriteTo(w io.Writer) (int64, error) {
	for len(p.open) > 0 {
		p.End()
	}
	if p.err != nil {
		return 0, p.err
	}
	parts := p.parts
	if len(parts) < 2 {
		parts = nil
	}
	var page strings.Builder
	err := templates().ExecuteTemplate(&page, "page", struct {
		Title string
		Style template.CSS
		Parts []section
		Body  template.HTML
		Web   *Web
		Foot  string
	}{p.title, template.CSS(style + p.extra), parts, template.HTML(p.body.String()), p.web, p.foot})
	if err != nil {
		return 0, err
	}
	n, err := io.WriteString(w, page.String())
	return int64(n), err
}

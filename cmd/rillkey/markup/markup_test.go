package markup

import (
	"strings"
	"testing"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"rillkey/taxa/plain"
)

// A browser's reader finds whatever is handed in as the one text of its element and as
// the value of its one attribute, and nothing else.
func FuzzWriter(f *testing.F) {
	for _, s := range []string{"", "mayfly", `"><script>alert(1)</script><b x='`, "&amp;&lt;", "\x00\x1b[2J\r\n\t\u202e", "川\xff",
		"<!--", "-->", "]]>", "</p>", "</title><p>", "a=b` c"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var w Writer
		w.Open("div", "title", s)
		w.Element("span", s, "class", s)
		w.Empty("path", "d", s)
		w.Close("div")
		top, err := html.ParseFragment(strings.NewReader(w.String()), &html.Node{Type: html.ElementNode, Data: "main", DataAtom: atom.Main})
		if err != nil || len(top) != 1 {
			t.Fatalf("%q: %d nodes, %v", w.String(), len(top), err)
		}
		want := plain.Printable(s)
		span := top[0].FirstChild
		path := span.NextSibling
		for _, n := range []*html.Node{top[0], span, path} {
			if n == nil || len(n.Attr) != 1 || n.Attr[0].Val != want {
				t.Fatalf("%q is %+v", s, n)
			}
		}
		if span.Data != "span" || path.Data != "path" || path.NextSibling != nil || path.FirstChild != nil {
			t.Fatalf("%q: %s", s, w.String())
		}
		text := span.FirstChild
		if s == "" && text == nil {
			return
		}
		if text == nil || text.Type != html.TextNode || text.Data != want || text.NextSibling != nil {
			t.Fatalf("%q is %+v", s, text)
		}
	})
}

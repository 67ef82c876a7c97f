package paper

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
)

// node is an element of a page as a browser has it, or with a name of "" a text.
type node struct {
	name, text string
	attributes map[string]string
	children   []*node
}

// parsed is a page as a tree. It fails if an element is not closed or an entity
// is unknown.
func parsed(t *testing.T, page string) *node {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(page))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	root := &node{name: "page"}
	stack := []*node{root}
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("the page is not well formed: %v", err)
		}
		top := stack[len(stack)-1]
		switch token := token.(type) {
		case xml.StartElement:
			n := &node{name: token.Name.Local, attributes: map[string]string{}}
			for _, a := range token.Attr {
				n.attributes[a.Name.Local] = a.Value
			}
			top.children = append(top.children, n)
			stack = append(stack, n)
		case xml.EndElement:
			stack = stack[:len(stack)-1]
		case xml.CharData:
			top.children = append(top.children, &node{text: string(token)})
		}
	}
	if len(stack) != 1 {
		t.Fatalf("%d elements are not closed", len(stack)-1)
	}
	return root
}

// all are the elements beneath n that want holds of, in the order of the page.
func (n *node) all(want func(*node) bool) []*node {
	var out []*node
	for _, c := range n.children {
		if c.name != "" && want(c) {
			out = append(out, c)
		}
		out = append(out, c.all(want)...)
	}
	return out
}

// classed are the elements of a class.
func (n *node) classed(class string) []*node {
	return n.all(func(c *node) bool {
		for _, word := range strings.Fields(c.attributes["class"]) {
			if word == class {
				return true
			}
		}
		return false
	})
}

func (n *node) named(name string) []*node {
	return n.all(func(c *node) bool { return c.name == name })
}

// read is what stands on the paper: the text without drawings and style.
func (n *node) read() string {
	var b strings.Builder
	var walk func(*node)
	walk = func(n *node) {
		b.WriteString(n.text)
		for _, c := range n.children {
			if c.name != "svg" && c.name != "style" {
				walk(c)
			}
		}
	}
	walk(n)
	return strings.Join(strings.Fields(b.String()), " ")
}

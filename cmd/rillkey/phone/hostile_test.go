package phone

import (
	"maps"
	"math/rand/v2"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// marks are the elements and attributes that pages have.
var marks = func() map[string]bool {
	out := map[string]bool{}
	for _, name := range strings.Fields("html head body main header nav section div p span b a h1 h2 h3 ul ol li dl dt dd details " +
		"summary figure figcaption form label input select option button svg title desc path text em small code " +
		"class role name value type href id for open selected checked autocomplete maxlength method action aria-label aria-live " +
		"data-figure data-act data-needs accept inputmode min max step readonly required disabled tabindex placeholder rel " +
		"xmlns width height viewBox fill stroke stroke-linecap stroke-linejoin stroke-width stroke-dasharray d x y " +
		"font-family font-size text-anchor") {
		out[name] = true
	}
	return out
}()

// A browser's reader finds no element and no attribute on any page but the page's own,
// and the name of the stream, whatever it is, whole in one text.
func TestWhateverWasTypedIsOneText(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	const site = `q"><script>alert(1)</script><b onclick='alert(2)'>&amp;</b><!-- </section> z`
	typed := FormValues{"site": site, "people": site, "who": site, "words": site, "find": site, "cell": site, "note": site,
		"learner": site, "sight": site, "label": site, "count": "2", "length": "7", "read": "yes", "habitat": "riffle",
		"protocol": "riffle-three", "is": site, "expert": site, "kept": site, "on": "2026-06-20", "taxon": "mayfly"}
	random := rand.New(rand.NewPCG(3, 5))
	seen, named := map[string]bool{}, 0
	for seed := range byte(3) {
		p := phoneOf(seed)
		if seed == 2 {
			p.Do("practise", typed)
		} else {
			p.Do("begin", typed)
		}
		for range 150 {
			do, f := anyPress(p, random), maps.Clone(typed)
			p.Do(do, f)
			for _, page := range []string{p.HTML(), p.Plain("/plain")} {
				named += whole(t, do, page, site)
			}
			seen[p.screen] = true
		}
	}
	if named < 300 || len(seen) < 8 {
		t.Errorf("the stream stands in %d texts, of %d screens", named, len(seen))
	}
}

// whole counts the texts of a page that hold all of what was typed; none holds a part
// of its tags alone.
func whole(t *testing.T, after, page, typed string) (n int) {
	t.Helper()
	root, err := html.Parse(strings.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	for node := range root.Descendants() {
		texts := []string{node.Data}
		switch node.Type {
		case html.ElementNode:
			if !marks[node.Data] {
				t.Fatalf("after %q the page has an element %s", after, node.Data)
			}
			texts = nil
			for _, a := range node.Attr {
				if !marks[a.Key] {
					t.Fatalf("after %q the page has an attribute %s of %s", after, a.Key, node.Data)
				}
				texts = append(texts, a.Val)
			}
		case html.CommentNode:
			t.Fatalf("after %q the page has a comment", after)
		}
		for _, text := range texts {
			if strings.Contains(text, typed) {
				n++
			}
			if strings.Contains(text, "alert(1)") && !strings.Contains(text, "<script>alert(1)") {
				t.Fatalf("after %q: a part alone: %s", after, text)
			}
		}
	}
	return n
}

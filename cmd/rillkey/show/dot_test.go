//go:build unix

package show_test

import (
	"bytes"
	"fmt"
	"html"
	"io/fs"
	"os/exec"
	"strings"
	"testing"

	"rillkey/cmd/rillkey/show"
	"rillkey/couplets"
	"rillkey/scoring/export/exporttest"
)

// Graphviz reads every built-in key as the graph that it is: a box for each
// couplet and each end point, an arrow for each lead, on a sheet that is no
// ribbon. "dot -Tplain" gives a line for each in a layout of its own
// (https://graphviz.org/docs/outputs/plain/).
func TestGraphvizReadsTheKeysAsGraphs(t *testing.T) {
	program := exporttest.FindProgram(t, "dot")
	cat := catalog(t)
	names, err := fs.Glob(couplets.Embedded(), "*.toml")
	if err != nil || len(names) < 2 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			s, err := couplets.Load(couplets.Embedded(), name, name, cat)
			if err != nil {
				t.Fatal(err)
			}
			leads := 0
			for i := range s.Couplets {
				for _, l := range s.Couplets[i].Leads { // one to each taxon that it ends in
					leads += max(1, len(l.Taxa))
				}
			}
			var text bytes.Buffer
			if err := show.Layout(&text, 80, "dot", s, cat); err != nil {
				t.Fatal(err)
			}
			cmd := exec.Command(program, "-Tplain")
			cmd.Stdin = &text
			plain := "\n" + exporttest.Run(t, cmd)
			if nodes, edges := strings.Count(plain, "\nnode "),
				strings.Count(plain, "\nedge "); nodes != len(s.Couplets)+len(s.Ends) || edges != leads {
				t.Errorf("%d nodes and %d edges for %d couplets, %d end points and %d leads", nodes, edges, len(s.Couplets),
					len(s.Ends), leads)
			}
			sheet(t, plain)
		})
	}
}

// sheet wants a drawing that can be printed on one sheet: at most twice as long
// as wide or wide as long.
func sheet(t *testing.T, plain string) {
	t.Helper()
	var scale, wide, high float64
	if _, err := fmt.Sscanf(strings.TrimSpace(plain), "graph %f %f %f", &scale, &wide, &high); err != nil {
		t.Fatal(err)
	}
	if wide > 2*high || high > 2*wide {
		t.Errorf("%.0f by %.0f inches", wide, high)
	}
}

// A text with what DOT reads as its own stays one label.
func TestWhatDOTReadsAsItsOwnIsQuoted(t *testing.T) {
	program := exporttest.FindProgram(t, "dot")
	text := "[key]\nid = \"k\"\ntitle = \"A \\\\N \\\"title\\\"\"\nsource = \"invented\"\n[couplet.1]\nask = \"\\\"Legs\\\"\"\n" +
		"a = { text = \"Ten \\\"legs\\\" { | } <b> \\\\G\\\\\", traits = { legs = \"10\" }, taxon = \"cambaridae\" }\n" +
		"b = { text = \"No legs; -> none \\\"\", traits = { legs = \"0\" }, taxon = \"turbellaria\" }\n"
	s, err := couplets.LoadText([]byte(text), "k", catalog(t))
	if err != nil {
		t.Fatal(err)
	}
	var graph bytes.Buffer
	if err := show.Layout(&graph, 80, "dot", s, catalog(t)); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program, "-Tsvg")
	cmd.Stdin = &graph
	svg := html.UnescapeString(exporttest.Run(t, cmd))
	for _, want := range []string{`a: Ten "legs" { | } <b> \G\`, `b: No legs; -> none "`, `1  "Legs"`, `A \N "title"`} {
		if !strings.Contains(strings.ReplaceAll(svg, "\u00a0", " "), want) {
			t.Errorf("%q is not in the drawing", want)
		}
	}
}

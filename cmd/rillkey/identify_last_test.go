package main

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/terminal"
	"rillkey/key"
	"rillkey/key/keytest"
)

// What a person waits for is on the screen when the prompt below it is: for every
// end point the name, its class and how sure it is are within the last lines.
// The prompt for the length takes eight of them on 40 columns.
func TestTheNameIsLastAtEverySize(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	t.Parallel()
	m := keytest.Model(t)
	var ends []string
	for _, path := range pathsOverEveryLead(m.Key()) {
		if end := path[len(path)-1]; !slices.Contains(ends, end) {
			ends = append(ends, end)
		}
	}
	const prompt = 8
	for i, end := range ends {
		if i%keytest.Times(1, 4) > 0 {
			continue
		}
		q := truthfully(t, m, key.DefaultOptions(), end, nil)
		v := show.NewIdentified(q, 0)
		for _, size := range [][2]int{{80, 24}, {40, 20}} {
			var out bytes.Buffer
			if err := v.Text(&out, size[0]); err != nil {
				t.Fatal(err)
			}
			lines := strings.Split(strings.TrimSpace(out.String()), "\n")
			words := strings.Join(strings.Fields(strings.Join(lines[max(0, len(lines)-size[1]+prompt):], " ")), " ")
			for _, want := range strings.Split(v.Brief(), ", ") {
				switch {
				case v.Level == key.ToClass:
					want = strings.TrimPrefix(want, "No name: ")
				case v.Undecided():
					want = "second look"
				}
				if !strings.Contains(strings.ToLower(words), strings.ToLower(want)) {
					t.Errorf("%s at %v: %q is not in the last lines:\n%s", end, size, want, strings.Join(lines, "\n"))
				}
			}
			if lines := len(terminal.Wrap(v.Brief(), size[0])); lines > 4 {
				t.Errorf("%s: %q takes %d lines above each prompt", end, v.Brief(), lines)
			}
		}
	}
	for answers, want := range map[string]string{"1b": "Set aside for a second look", "tails=3,outline=tapered": "kind"} {
		q, err := m.Inquire(key.DefaultOptions())
		if err == nil {
			err = say(q, answers, nil, 0)
		}
		var out bytes.Buffer
		if err != nil || show.NewIdentified(q, 0).Text(&out, 40) != nil {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimSpace(out.String()), "\n")
		words := strings.Join(lines[max(0, len(lines)-20+prompt):], "\n")
		if !strings.Contains(words, want) || !strings.Contains(words, "Tolerance:") {
			t.Errorf("%s: %q is not in the last lines:\n%s", answers, want, out.String())
		}
	}
	if len(ends) < 80 {
		t.Errorf("only %d end points", len(ends))
	}
}

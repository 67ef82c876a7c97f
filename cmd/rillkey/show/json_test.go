package show

import (
	"strings"
	"testing"
)

type lists struct {
	Names []string `json:"names"`
}

type embedded struct {
	Words []string `json:"words"`
}

// A list or a table that holds nothing is empty wherever it stands; what may be left
// out is left out, and what is not known stays null.
func TestListsAreNeverNull(t *testing.T) {
	value := 3
	doc := struct {
		embedded
		List    []lists          `json:"list"`
		Within  []lists          `json:"within"`
		Pointer *lists           `json:"pointer"`
		Unknown *int             `json:"unknown"`
		Known   *int             `json:"known"`
		Any     any              `json:"any"`
		Table   map[string]lists `json:"table"`
		None    map[string]int   `json:"none"`
		Left    []string         `json:"left,omitempty"`
		hidden  []string
	}{
		Within: []lists{{}}, Pointer: &lists{}, Known: &value, Any: lists{}, Table: map[string]lists{"a": {}}, hidden: []string{"x"},
	}
	var b strings.Builder
	if err := JSON(&b, &doc); err != nil {
		t.Fatal(err)
	}
	const want = `{"words":[],"list":[],"within":[{"names":[]}],"pointer":{"names":[]},"unknown":null,"known":3,` +
		`"any":{"names":[]},"table":{"a":{"names":[]}},"none":{}}`
	if got := strings.Join(strings.Fields(b.String()), ""); got != want {
		t.Errorf("%s\nnot %s", got, want)
	}
	if doc.List != nil || doc.Pointer.Names != nil || doc.hidden[0] != "x" {
		t.Error("the value itself was changed")
	}
}

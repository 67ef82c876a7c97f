package show

import (
	"cmp"
	"io"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Draw is what chance draws for second looks, in its order, without names.
type Draw struct {
	Visit   string        `json:"visit"`
	Keyed   int           `json:"keyed"` // records that could be drawn
	Records []DrawnRecord `json:"records"`
}

// DrawnRecord is one record drawn.
type DrawnRecord struct {
	Record string `json:"record"`
	Sample string `json:"sample"`
	Cell   string `json:"cell,omitempty"`
	Looks  int    `json:"looks"` // second looks so far
}

// Text writes the records drawn, one to a line. The flags that name the visit go with
// the command that looks.
func (d Draw) Text(w io.Writer, width int, flags string) error {
	p := newPage(w, width)
	if len(d.Records) == 0 {
		p.text(0, 2, "No record was keyed, so none can be drawn.")
		return p.err
	}
	p.text(0, 2, "Chance draws %d of %s. Look at them in this order and leave none out.", len(d.Records),
		plain.Count(d.Keyed, "keyed record"))
	for i, r := range d.Records {
		state := ""
		if r.Looks > 0 {
			state = wording.Text("; looked at")
		}
		p.text(2, 4, "%s", wording.Sprintf("%d. %s: sample %s, cell %s%s", i+1, r.Record, r.Sample,
			cmp.Or(r.Cell, wording.Text("not noted")), state))
	}
	p.text(0, 0, "The next is looked at by: rillkey recheck look --drawn%s", flags)
	return p.err
}

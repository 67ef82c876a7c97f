package export

import (
	"bytes"
	"encoding/csv"
	"slices"
	"testing"
)

// One row a visit, with the values that the other forms have.
func TestRowsHaveGradeAndConditions(t *testing.T) {
	visits := scenes(t)
	var b bytes.Buffer
	if err := Rows(&b, all(visits), knowledge(t), open); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(rows) != len(visits)+1 {
		t.Fatal(err, len(rows))
	}
	cell := func(n int, name string) string { return rows[n+1][slices.Index(rows[0], name)] }
	if sorted := slices.Sorted(slices.Values(rows[0])); len(slices.Compact(sorted)) != len(rows[0]) {
		t.Errorf("a column stands twice: %q", rows[0])
	}
	for n, v := range visits {
		grade := knowledge(t).grade(knowledge(t).Rules.Account(v))
		value := ""
		if grade != nil {
			value = valueCell(grade.Indices[0])
		}
		if cell(n, "value") != value || cell(n, "date") != v.Header.Date || grade != nil && cell(n, "rating") != grade.Indices[0].Rating {
			t.Errorf("%s: %q", v.Header.ID, rows[n+1])
		}
	}
	for name, want := range map[string]string{
		"water_temperature_c": "9", "bed_percent": "cobble 62.5; sand 37.5", "air_temperature_c": "0", "plants": "", "trained": "Mägs",
		"nitrate_mg_l_no3": "3", "began_at": "09:30", "smell_foam_colour": `'-"none", it's \ clear`} {
		if got := cell(4, name); got != want {
			t.Errorf("%s is %q, not %q", name, got, want)
		}
	}
}

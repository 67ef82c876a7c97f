package condition

// Keeping has what was measured with stay as it was noted, where a correction names nothing
// else.
func (vs Values) Keeping(noted Values) {
	for id, value := range vs {
		if value.With == "" && !value.None {
			value.With = noted[id].With
			vs[id] = value
		}
	}
}

// OpenSection are fields that are asked for together, in their order.
type OpenSection struct {
	Title  string
	Fields []*Field
}

// Open are the sections of those fields that are not noted yet.
func (vs Values) Open() (open []OpenSection) {
	at := map[string]int{}
	for _, f := range SpokenFields() {
		if _, there := vs[f.ID]; there {
			continue
		}
		i, begun := at[f.Section]
		if !begun {
			i = len(open)
			at[f.Section], open = i, append(open, OpenSection{Title: f.Section})
		}
		open[i].Fields = append(open[i].Fields, f)
	}
	return open
}

package condition

// Keeping has what was measured with stay as it was noted, where a correction names nothing
// else.
func (vs Values) Keeping(noted Values) {
	for id, value := range vs {
		if value.Instrument == "" && !value.None {
			value.Instrument = noted[id].Instrument
			vs[id] = value
		}
	}
}

// OpenSection are parameters that are asked for together, in their order.
type OpenSection struct {
	Title      string
	Parameters []*Parameter
}

// Open are the sections of those parameters that are not noted yet.
func (vs Values) Open() (open []OpenSection) {
	at := map[string]int{}
	for _, f := range SpokenParameters() {
		if _, there := vs[f.ID]; there {
			continue
		}
		i, begun := at[f.Section]
		if !begun {
			i = len(open)
			at[f.Section], open = i, append(open, OpenSection{Title: f.Section})
		}
		open[i].Parameters = append(open[i].Parameters, f)
	}
	return open
}

package practice

import "slices"

// Rejoin takes in what another program has written of the person meanwhile: r, of which
// the first saved meetings were in the file once, becomes the record of the file with
// r's further meetings and the tests that these are of. A number that both gave to a test
// of their own stays with the file's.
func (r *PersonRecord) Rejoin(file *PersonRecord, saved int) {
	own := slices.Clone(r.Meetings[min(saved, len(r.Meetings)):])
	tests, number := slices.Clone(file.Tests), map[int]int{}
	for _, t := range r.Tests {
		same := func(o Test) bool {
			return o.Kind == t.Kind && o.Began.Unix() == t.Began.Unix() && o.Animals == t.Animals
		}
		of := func(m Meeting) bool { return m.Test != "" && m.Number == t.Number }
		switch i := slices.IndexFunc(tests, same); {
		case i >= 0:
			number[t.Number] = tests[i].Number
		case slices.ContainsFunc(own, of):
			next := PersonRecord{Tests: tests}
			added := next.BeginTest(t.Kind, t.Animals, t.Began)
			if !slices.ContainsFunc(tests, func(o Test) bool { return o.Number == t.Number }) {
				added.Number = t.Number
			}
			number[t.Number] = added.Number
			tests = append(tests, added)
		}
	}
	for i := range own {
		if own[i].Test != "" {
			own[i].Number = number[own[i].Number]
		}
	}
	made := r.Made
	r.Meetings, r.Tests, r.Made = append(slices.Clone(file.Meetings), own...), tests, slices.Clone(file.Made)
	for _, m := range made {
		r.MadeFile(m)
	}
}

// Number is the number of a test in the record, which may have changed since it was
// begun; see [Record.Rejoin].
func (r *PersonRecord) Number(t Test) int {
	for _, o := range slices.Backward(r.Tests) {
		if o.Kind == t.Kind && o.Began.Unix() == t.Began.Unix() {
			return o.Number
		}
	}
	return t.Number
}

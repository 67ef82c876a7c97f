package condition

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"

	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// Values are what was noted, by the id of the parameter. A nil map holds nothing; it is
// never changed once it is in an event.
type Values map[string]Value

// Each gives what was noted in the order of the sheet, with the parameters as [SpokenParameters] has
// them.
func (vs Values) Each(give func(*Parameter, Value)) {
	if len(vs) == 0 {
		return
	}
	for _, f := range SpokenParameters() {
		if v, ok := vs[f.ID]; ok {
			give(f, v)
		}
	}
}

// Updated is a copy in which other's values stand in place of those that were there;
// what other takes back is gone.
func (vs Values) Updated(other Values) Values {
	out := maps.Clone(vs)
	if out == nil {
		out = Values{}
	}
	for id, v := range other {
		if v.None {
			delete(out, id)
		} else {
			out[id] = v
		}
	}
	return out
}

// Excluding is a copy without the parameters of other.
func (vs Values) Excluding(other Values) Values {
	out := maps.Clone(vs)
	for id := range other {
		delete(out, id)
	}
	return out
}

// Rename is a copy in which every person goes by another name.
func Rename(vs Values, rename func(string) string) Values {
	out := maps.Clone(vs)
	vs.Each(func(f *Parameter, v Value) {
		if f.Form == PersonsForm {
			names := make([]string, len(v.List))
			for i, name := range v.List {
				names[i] = rename(name)
			}
			v.List = names
			if v.None {
				v.List = nil
			}
			out[f.ID] = v
		}
	})
	return out
}

// Equal tells whether two values are one.
func Equal(a, b Value) bool {
	return a.Number == b.Number && a.Text == b.Text && a.Instrument == b.Instrument && a.None == b.None && slices.Equal(a.List, b.List) &&
		slices.Equal(a.Parts, b.Parts)
}

// Contradicts tells whether both have a parameter with different values.
func (vs Values) Contradicts(other Values) bool {
	for id, v := range vs {
		if o, ok := other[id]; ok && !Equal(v, o) {
			return true
		}
	}
	return false
}

// Check says what is wrong with the values, in a sentence, or nil. Only a
// correction takes values back.
func (vs Values) Check(correction bool) error {
	for id := range vs {
		if Find(id) == nil {
			return UnknownParameter(id)
		}
	}
	var err error
	vs.Each(func(f *Parameter, v Value) {
		if err == nil {
			err = f.Check(v)
		}
		if err == nil && v.None && !correction {
			err = wording.Errorf("%s: nothing is said", f.Title)
		}
	})
	return err
}

// MarshalJSON writes an object with the names that files and tables use, in the
// order of the sheet; an empty text is what is taken back.
func (vs Values) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	put := func(column string, v any) {
		if b.Len() > 1 {
			b.WriteByte(',')
		}
		enc := json.NewEncoder(&b)
		enc.SetEscapeHTML(false)
		fmt.Fprintf(&b, "%q:", column)
		_ = enc.Encode(v) // texts, numbers and maps of them cannot fail
		b.Truncate(b.Len() - 1)
	}
	vs.Each(func(f *Parameter, v Value) {
		put(f.Column, f.Plain(v))
		if v.Instrument != "" {
			put(f.WithColumn(), v.Instrument)
		}
	})
	b.WriteByte('}')
	return b.Bytes(), nil
}

// Plain is a value without its instrument as a number, a text, a list of texts or a
// map of numbers.
func (f *Parameter) Plain(v Value) any {
	switch {
	case v.None:
		return ""
	case f.Form == NumberForm:
		return v.Number
	case f.Form == PartsForm:
		out := map[string]float64{}
		for _, p := range v.Parts {
			out[p.Word] = p.Percent
		}
		return out
	case v.List != nil:
		return v.List
	}
	return v.Text
}

// UnmarshalJSON reads what MarshalJSON writes, and nothing else.
func (vs *Values) UnmarshalJSON(data []byte) error {
	var columns map[string]json.RawMessage
	if err := json.Unmarshal(data, &columns); err != nil {
		return err
	}
	out := Values{}
	for _, f := range Parameters() {
		if raw, ok := columns[f.Column]; ok {
			v, err := f.fromJSON(raw, columns[f.WithColumn()])
			if err != nil {
				return fmt.Errorf("%s: %w", f.Column, err)
			}
			out[f.ID] = v
			delete(columns, f.Column)
			delete(columns, f.WithColumn())
		}
	}
	for _, column := range slices.Sorted(maps.Keys(columns)) {
		return wording.Errorf("there is no condition %s, or nothing that it belongs to", plain.Quote(column))
	}
	*vs = out
	return nil
}

func (f *Parameter) fromJSON(raw, with json.RawMessage) (v Value, err error) {
	if string(raw) == `""` {
		if with != nil {
			return v, wording.NewError("an instrument without a value")
		}
		return Value{None: true}, nil
	}
	if with != nil {
		err = json.Unmarshal(with, &v.Instrument)
		if err == nil && !f.Instrumented {
			err = wording.NewError("it takes no instrument")
		}
	}
	switch f.Form {
	case NumberForm:
		err = errors.Join(err, json.Unmarshal(raw, &v.Number))
	case PartsForm:
		var parts map[string]float64
		err = errors.Join(err, json.Unmarshal(raw, &parts))
		v.Parts = f.PartsOf(parts)
	case ChoicesForm, PersonsForm, FilesForm:
		err = errors.Join(err, json.Unmarshal(raw, &v.List))
	default:
		err = errors.Join(err, json.Unmarshal(raw, &v.Text))
	}
	return v, err
}

// PartsOf are parts in the order of the parameter's categories; unknown words come last,
// in the order of their letters.
func (f *Parameter) PartsOf(parts map[string]float64) (out []CategoryShare) {
	rest := maps.Clone(parts)
	for _, o := range f.Categories {
		if p, ok := parts[o.Word]; ok {
			out = append(out, CategoryShare{o.Word, p})
			delete(rest, o.Word)
		}
	}
	for _, word := range slices.Sorted(maps.Keys(rest)) {
		out = append(out, CategoryShare{word, rest[word]})
	}
	return out
}

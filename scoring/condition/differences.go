package condition

import (
	"cmp"
	"encoding/json"
	"math"
	"rillkey/taxa/wording"
	"slices"
	"strings"
)

// Compared are those of the values by which two visits are held against each other,
// in the order of the sheet: what conditions.toml says to be alike or not. They are
// kept small, since a table holds those of many visits.
type Compared []compared

type compared struct {
	field  *Parameter
	number float64
	text   string
}

// Compared are the values that visits are compared by.
func (vs Values) Compared() (out Compared) {
	vs.Each(func(f *Parameter, v Value) {
		if f.alike == nil || v.None {
			return
		}
		c := compared{field: f, number: v.Number}
		for _, o := range f.Categories {
			if o.Word == v.Text { // the table's word, so that the text of a file need not be kept
				c.text = o.Word
			}
		}
		out = append(out, c)
	})
	return out
}

// Differences say in words in what the water or the weather of two visits differed by
// more than is usual, so that a comparison of their animals can say so: "water level
// high, not low". What only one of them noted is not compared.
func (now Compared) Differences(before Compared) (out []string) {
	for _, c := range now {
		i := slices.IndexFunc(before, func(o compared) bool { return o.field.ID == c.field.ID })
		if i < 0 {
			continue
		}
		o := before[i]
		if c.field.Form == NumberForm && math.Abs(c.number-o.number) <= *c.field.alike || c.field.Form != NumberForm && c.text == o.text {
			continue
		}
		title := c.field.Title
		if slices.ContainsFunc(Parameters(), func(f *Parameter) bool { return f.Title == title }) { // in English
			title = strings.ToLower(title[:1]) + title[1:]
		}
		out = append(out, wording.Sprintf("%s %s, not %s", title, c.words(), o.words()))
	}
	return out
}

func (c compared) words() string { return c.field.Words(Value{Number: c.number, Text: c.text}) }

// Ordinary is what was usual in several visits: of each parameter that any of them noted
// the median, or the word noted most often, of equals the first of the table.
func Ordinary(visits []Compared) (out Compared) {
	for _, f := range Parameters() {
		var numbers []float64
		times := map[string]int{}
		for _, v := range visits {
			for _, c := range v {
				if c.field == f {
					numbers = append(numbers, c.number)
					times[c.text]++
				}
			}
		}
		if len(numbers) == 0 {
			continue
		}
		slices.Sort(numbers)
		c := compared{field: f, number: (numbers[(len(numbers)-1)/2] + numbers[len(numbers)/2]) / 2}
		if len(f.Categories) > 0 {
			c.text = slices.MaxFunc(f.Categories, func(a, b Category) int { return cmp.Compare(times[a.Word], times[b.Word]) }).Word
		}
		out = append(out, c)
	}
	return out
}

// kept is how a value stands in a text that is kept.
type kept struct {
	Field  string  `json:"field"`
	Number float64 `json:"number,omitempty"`
	Text   string  `json:"text,omitempty"`
}

// MarshalJSON implements [json.Marshaler].
func (now Compared) MarshalJSON() ([]byte, error) {
	out := make([]kept, len(now))
	for i, c := range now {
		out[i] = kept{c.field.ID, c.number, c.text}
	}
	return json.Marshal(out)
}

// UnmarshalJSON implements [json.Unmarshaler]; parameters that this program does not know are
// left out.
func (now *Compared) UnmarshalJSON(text []byte) error {
	var in []kept
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	*now = nil
	for _, k := range in {
		if i := slices.IndexFunc(Parameters(), func(f *Parameter) bool { return f.ID == k.Field }); i >= 0 {
			*now = append(*now, compared{Parameters()[i], k.Number, k.Text})
		}
	}
	return nil
}

package paper

import (
	"strings"

	"rillkey/scoring/condition"
	"rillkey/taxa/wording"
)

// noted are the conditions that the sheet's visit holds already.
func (f *fieldSheet) noted() condition.Values {
	if f.Visit == nil {
		return nil
	}
	return f.Visit.Tally().Conditions()
}

// columnsOfBoxes is how many columns a row of boxes has.
const columnsOfBoxes = 12

// conditionBoxes are the place and all conditions, in the order in which 'visit
// conditions' asks. What does not fill a row is given to its last box.
func conditionBoxes(place string, noted condition.Values) []box {
	boxes := []box{{Label: wording.Text("Latitude, longitude, within how far"), value: place, Wide: 4}}
	for _, f := range condition.SpokenParameters() {
		b := box{Label: f.Label(), Wide: boxWidth(f)}
		if v, ok := noted[f.ID]; ok {
			b.value = f.Full(v)
		} else {
			b.Rings, b.Parts = words(f), f.Form == condition.PartsForm
		}
		boxes = append(boxes, b)
	}
	used := 0
	for i := range boxes {
		if used+boxes[i].Wide > columnsOfBoxes {
			boxes[i-1].Wide += columnsOfBoxes - used
			used = 0
		}
		used += boxes[i].Wide
	}
	boxes[len(boxes)-1].Wide += columnsOfBoxes - used
	return boxes
}

// boxWidth is how many columns a field needs to be written in.
func boxWidth(f *condition.Parameter) int {
	switch f.Form {
	case condition.NumberForm:
		if f.Instrumented {
			return 3
		}
		return 2
	case condition.TimeForm:
		return 2
	case condition.PartsForm:
		return 7
	case condition.ChoiceForm, condition.ChoicesForm:
		letters := len(strings.Join(words(f), "    "))
		return min(max(2, (letters+9)/10), columnsOfBoxes)
	}
	return 3
}

func words(f *condition.Parameter) (out []string) {
	for _, o := range f.Categories {
		out = append(out, o.Label())
	}
	return out
}

package main

import (
	"rillkey/cmd/rillkey/ask"
	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// conditions are the new values of --set; without --of the entry that they correct
// is the one that holds them. The flags that name the visit go with the command that
// notes what is not noted yet.
func (f *amendFlags) conditions(v *visit.Visit, flags string) (*condition.Values, error) {
	values, err := setConditions(f.set)
	if err != nil {
		return nil, err
	}
	values.Keeping(v.Tally().Conditions())
	if f.entry != "" {
		return &values, nil
	}
	for _, field := range condition.SpokenParameters() {
		if _, given := values[field.ID]; !given {
			continue
		}
		at := v.Tally().NotedIn(field.ID)
		switch {
		case at == "":
			return nil, misused("%s is not noted yet, so there is nothing to correct; it is noted by: rillkey visit conditions "+
				"--set %s%s", field.Title, plain.ShellWord(field.ID+"="+typedFor(f.set, nil, field)), flags)
		case f.entry != "" && f.entry != at:
			return nil, misused("these values stand in two entries, %s and %s; correct one entry at a time", f.entry, at)
		}
		f.entry = at
	}
	return &values, nil
}

// ofCondition begins the answer that means a condition, where others are codes.
const ofCondition = "condition "

// notedOptions are the conditions that can be corrected.
func notedOptions(v *visit.Visit) (out []ask.Option) {
	v.Tally().Conditions().Each(func(f *condition.Parameter, value condition.Value) {
		out = append(out, ask.Option{Value: ofCondition + f.ID, Label: f.Title + ": " + f.Full(value)})
	})
	return out
}

// askCondition asks what is right in place of a condition.
func askCondition(a *app, f *amendFlags, v *visit.Visit, field *condition.Parameter) error {
	right := conditionField(field)
	right.Key, right.Title = "new", wording.Sprintf("%s: what is right?", field.Title)
	right.Default, right.Optional, right.GoesBack = "", true, true
	if len(right.Options) == 0 {
		right.Help += wording.Text(" Empty: it is taken back.")
	}
	answers, err := a.ask(right,
		ask.Field{Key: "reason", Title: wording.Text("Why?"), Help: wording.Text("A few words, for those who read it later.")},
		ask.Field{Key: "who", Title: wording.Text("Who corrects it?"), Optional: true, Offers: v.People()})
	if err != nil {
		return err
	}
	value := answers["new"]
	if value == "" || value == unsaid {
		value = "-"
	}
	f.set, f.reason, f.who = []string{field.ID + "=" + value}, answers["reason"], answers["who"]
	return nil
}

package main

import (
	"errors"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring/condition"
	"rillkey/scoring/visit"
	"rillkey/taxa/authored"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

// conditionFlags are what was noted, as "name=value".
type conditionFlags struct {
	set, photos []string
	who         string
}

func conditionsCommand(a *app) *cobra.Command {
	var f conditionFlags
	cmd := &cobra.Command{
		Use:   "conditions",
		Short: "Note weather, water, bed, banks and how the work was done",
		Long:  conditionsHelp,
		Example: `  rillkey visit conditions
  rillkey visit conditions --set water-temperature=9.5 --set "ph=7.2 with paper strips"
  rillkey visit conditions --set "bed=cobble 60, gravel 30, sand 10" --photo bank.jpg`,
		Args: noArgs,
		RunE: func(*cobra.Command, []string) error { return noteConditions(a, f) },
	}
	flags := cmd.Flags()
	flags.StringArrayVar(&f.set, "set", nil, "what was noted, `NAME=VALUE`; may be repeated")
	flags.StringArrayVar(&f.photos, "photo", nil, "a photograph, `FILE`: its name and checksum are kept; may be repeated")
	flags.StringVar(&f.who, "who", "", "`NAME` of the person who noted it")
	return cmd
}

// conditionsHelp says what is noted and how.
const conditionsHelp = `Notes what the stream and the day were like. Nothing of it is needed for a grade, and
no grade is read well without it. Without --set all of it is asked in the order of the
field sheet, part by part, and each part is saved when it is answered. What is noted
already is not asked again; 'rillkey visit amend --set' corrects it.

A number may have its unit, and an instrument or kit behind "with".`

func noteConditions(a *app, f conditionFlags) error {
	path, v, err := a.visitToCorrect(true)
	if err != nil {
		return err
	}
	a.follow(v)
	values, err := f.values()
	switch {
	case err != nil:
		return err
	case len(values) > 0:
		if err = notedAlready(v, values, f, a.sameVisit()); err != nil {
			return err
		}
		err = a.saveConditions(v.File, f.who, values)
	case a.json:
		return misused("with --json nothing is asked; give --set, such as --set water-temperature=9.5")
	default:
		err = askConditions(a, v, f.who)
	}
	if err != nil || !a.json {
		return err
	}
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	if v, err = visit.Read(path); err != nil {
		return err
	}
	return show.JSON(a.stdout, show.NewTally(catalog, v))
}

// values are what the flags say.
func (f conditionFlags) values() (condition.Values, error) {
	out, err := setConditions(f.set)
	if err != nil || len(f.photos) == 0 {
		return out, err
	}
	field := condition.Find("photographs")
	if _, there := out[field.ID]; there {
		return nil, misused("give photographs with --photo or with --set, not with both")
	}
	value, err := readCondition(field, strings.Join(f.photos, ","))
	if err != nil {
		return nil, misused("--photo: %w", err)
	}
	out[field.ID] = value
	return out, nil
}

// setConditions reads "name=value", each once.
func setConditions(set []string) (condition.Values, error) {
	out := condition.Values{}
	for _, s := range set {
		name, typed, ok := strings.Cut(s, "=")
		if !ok {
			return nil, misused("--set %s: write a name and a value, such as water-temperature=9.5", plain.Quote(s))
		}
		field := condition.Find(name)
		if field == nil {
			return nil, misused("--set: %w", condition.UnknownParameter(strings.TrimSpace(name)))
		}
		if _, there := out[field.ID]; there {
			return nil, misused("--set %s is given twice", field.ID)
		}
		value, err := readCondition(field, typed)
		if err != nil {
			return nil, misused("--set: %w", err)
		}
		out[field.ID] = value
	}
	return out, nil
}

// readCondition reads what people typed; files are looked up for their checksums.
func readCondition(f *condition.Parameter, typed string) (condition.Value, error) {
	if f.Form != condition.FilesForm || strings.TrimSpace(typed) == "-" {
		return f.Parse(typed)
	}
	var entries []string
	for _, name := range plain.SplitList(typed) {
		entry, err := photoEntry(name)
		if err != nil {
			return condition.Value{}, err
		}
		entries = append(entries, entry)
	}
	return f.Parse(strings.Join(entries, ","))
}

func photoEntry(name string) (string, error) {
	f, err := authored.OpenFile(name, os.O_RDONLY)
	if err != nil {
		return "", wording.Errorf("%s cannot be read; give the name of the file from here", plain.Quote(name))
	}
	defer f.Close()
	return condition.FileEntry(name, f)
}

// notedAlready says of the first value that is noted already how it is corrected. The
// flags that name the visit go with the command.
func notedAlready(v *visit.Visit, values condition.Values, typed conditionFlags, flags string) error {
	noted := v.Tally().Conditions()
	for _, f := range condition.SpokenParameters() {
		old, there := noted[f.ID]
		if _, given := values[f.ID]; there && given {
			return wording.Errorf("%s is noted already: %s; it is corrected by: rillkey visit amend --set %s%s", f.Title, f.Full(old),
				plain.ShellWord(f.ID+"="+typedFor(typed.set, typed.photos, f)), flags)
		}
	}
	return nil
}

// typedFor is what somebody typed for a condition in "name=value", else for photographs.
func typedFor(set, photos []string, f *condition.Parameter) string {
	for _, s := range set {
		name, typed, _ := strings.Cut(s, "=")
		if found := condition.Find(name); found != nil && found.ID == f.ID {
			return strings.TrimSpace(typed)
		}
	}
	return strings.Join(photos, ",")
}

// saveConditions saves what was noted and says so.
func (vf *visitFolder) saveConditions(path, who string, values condition.Values) error {
	saved, err := vf.save(path, who, visit.Conditions{Values: values})
	if err != nil {
		return err
	}
	vf.plainly("Saved: %s noted [%s].", plain.Count(len(values), "condition"), saved.Event.ID)
	return nil
}

// askConditions asks part by part for what is not noted yet. A part that is answered
// is saved before the next is asked.
func askConditions(a *app, v *visit.Visit, who string) error {
	noted := v.Tally().Conditions()
	open := noted.Open()
	if len(open) == 0 {
		first := condition.SpokenParameters()[0]
		a.plainly("All conditions are noted. To correct one, such as %s: rillkey visit amend --set %s%s", first.Title,
			plain.ShellWord(first.ID+"="+first.Typed(noted[first.ID])), a.sameVisit())
		return nil
	}
	saved := false
	for i, section := range open {
		values, err := askSection(a, wording.Sprintf("%s, part %d of %d. All of it may stay empty.", section.Title, i+1,
			len(open)), section.Parameters)
		if errors.Is(err, ask.ErrLeft) && saved {
			return fault{statusCannotSay, plain.WithCause(wording.Text("left; this part is not saved, what was answered before it is"),
				ask.ErrLeft)}
		}
		if err != nil {
			return err
		}
		if len(values) == 0 {
			continue
		}
		if err := a.saveConditions(v.File, who, values); err != nil {
			return err
		}
		saved = true
	}
	return nil
}

func askSection(a *app, about string, fields []*condition.Parameter) (condition.Values, error) {
	var asked []ask.Field
	for _, f := range fields {
		asked = append(asked, conditionField(f))
	}
	answers, err := a.askAbout(about, asked...)
	if err != nil {
		return nil, err
	}
	out := condition.Values{}
	for _, f := range fields {
		if typed := answers[f.ID]; typed != "" && typed != unsaid {
			if out[f.ID], err = readCondition(f, typed); err != nil {
				return nil, misused("%w", err)
			}
		}
	}
	return out, nil
}

// unsaid is the answer of a choice that nobody makes.
const unsaid = "nothing"

// conditionField is what a form asks for one field.
func conditionField(f *condition.Parameter) ask.Field {
	out := ask.Field{Key: f.ID, Title: f.Label(), Help: f.Help, Optional: true, Check: checkedBy(func(s string) (condition.Value, error) {
		return readCondition(f, s)
	})}
	var words []string
	for _, o := range f.Categories {
		label := o.Label()
		if o.What != "" {
			label += ": " + o.What
		}
		if f.Form == condition.ChoiceForm {
			out.Options = append(out.Options, ask.Option{Value: o.Word, Label: label})
		}
		words = append(words, label)
	}
	switch f.Form {
	case condition.ChoiceForm:
		out.Options = append(out.Options, ask.Option{Value: unsaid, Label: wording.Text("not noted")})
		out.Default, out.Check = unsaid, nil
	case condition.ChoicesForm:
		out.Help = wording.Sprintf("With commas: %s.", strings.Join(words, "; "))
	case condition.PartsForm:
		out.Help = wording.Sprintf("As %s 60, %s 40, to make 100. %s.", f.Categories[0].Label(), f.Categories[1].Label(),
			plain.Capital(strings.Join(words, "; ")))
	case condition.TimeForm:
		out.Help = wording.Text("As 09:30.")
	case condition.PersonsForm:
		out.Help = wording.Text("Names with commas between them.")
	}
	if f.Instrumented {
		out.Help = strings.TrimSpace(wording.Sprintf("%s Instrument or kit behind \"with\".", out.Help))
	}
	return out
}

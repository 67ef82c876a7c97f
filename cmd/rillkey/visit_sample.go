package main

import (
	"cmp"
	"strconv"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/units"
	"rillkey/scoring"
	"rillkey/scoring/scheme"
	"rillkey/scoring/visit"
	"rillkey/taxa/wording"
)

type sampleFlags struct {
	label, habitat, area, net, bed, fraction, effort, who string
}

// habitatTitles are what is said of the habitats that are the program's own.
func habitatTitles() map[string]string {
	return map[string]string{
		"riffle":      wording.Mark("riffle: shallow, fast, stony"),
		"pool":        wording.Mark("pool: slow and deeper"),
		"leaf-pack":   wording.Mark("leaf pack: leaves caught in the current"),
		"root-mat":    wording.Mark("root mat: roots and plants at the bank"),
		"sand-or-mud": wording.Mark("sand or mud"),
		"wood":        wording.Mark("wood: logs and branches under water"),
		"all":         wording.Mark("all habitats in one sample"),
	}
}

func habitatOptions(habitats []string) []ask.Option {
	out := make([]ask.Option, len(habitats))
	for i, h := range habitats {
		out[i] = ask.Option{Value: h, Label: cmp.Or(habitatTitles()[h], h)}
	}
	return out
}

// habitats are those that a visit's samples may be of, by its protocol and its region
// as far as they are known.
func (l *library) habitats(v *visit.Visit) []ask.Option {
	catalog, err := l.catalog()
	if err != nil {
		return habitatOptions(scheme.OfferedHabitats(true))
	}
	streams := catalog.Region() == nil || !catalog.Region().OnlyCautions
	var followed []*scheme.Protocol // none where the visit names none, or one that is not known
	if rules, err := l.rules(catalog); err == nil {
		if p, err := rules.Protocol(v.Header.Protocol); err == nil {
			followed = append(followed, p)
		}
	}
	return habitatOptions(scheme.OfferedHabitats(streams, followed...))
}

func sampleCommand(a *app) *cobra.Command {
	var f sampleFlags
	cmd := &cobra.Command{
		Use:   "sample",
		Short: "Add a sample: habitat, area, effort",
		Long: `Adds one sample to the visit. The area is that of the stream bed: give it, or
give the width of the net and the length of bed that was kicked in front of it.`,
		Example: `  rillkey visit sample
  rillkey visit sample --habitat riffle --net 2ft --bed 2ft`,
		Args: noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return takeSample(a, f, func(name string) bool { return cmd.Flags().Changed(name) })
		},
	}
	flags := cmd.Flags()
	flags.StringVar(&f.label, "label", "", "what to call it, `LABEL` (else the next number)")
	flags.StringVar(&f.habitat, "habitat", "", "where it was taken, `HABITAT`: riffle, pool, leaf-pack, …, or one that the protocol needs")
	flags.StringVar(&f.area, "area", "", "`AREA` of stream bed, as 0.37 m2, 4 sq ft or 2 ft x 2 ft")
	flags.StringVar(&f.net, "net", "", "`WIDTH` of the net, as 2 ft or 60 cm")
	flags.StringVar(&f.bed, "bed", "", "`LENGTH` of bed kicked in front of the net")
	flags.StringVar(&f.fraction, "fraction", "", "the `SHARE` of it that was sorted, as 1/4 (else all of it)")
	flags.StringVar(&f.effort, "effort", "", "how it was taken, `TEXT`")
	flags.StringVar(&f.who, "who", "", "`NAME` of the person who took it")
	cmd.MarkFlagsMutuallyExclusive("area", "net")
	cmd.MarkFlagsRequiredTogether("net", "bed")
	return cmd
}

func takeSample(a *app, f sampleFlags, given func(string) bool) error {
	a.followAtHand()
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	asks := !a.json
	for _, name := range sampleFlagNames {
		asks = asks && !given(name)
	}
	v, err := a.visitToAddTo(asks)
	if err != nil {
		return err
	}
	if err := a.addSample(v, f, given); err != nil {
		return err
	}
	if a.json {
		if v, err = visit.Read(v.File); err != nil {
			return err
		}
		return show.JSON(a.stdout, show.NewTally(catalog, v))
	}
	return nil
}

// sampleFlagNames are the flags that say something of a sample.
var sampleFlagNames = []string{"label", "habitat", "area", "net", "bed", "fraction", "effort", "who"}

// addSample asks what the flags leave open and saves a sample.
func (vf *visitFolder) addSample(v *visit.Visit, f sampleFlags, given func(string) bool) error {
	if err := kickArea(&f); err != nil {
		return err
	}
	if err := vf.fill(sampleSettings(&f, v, vf.habitats(v), given)); err != nil {
		return err
	}
	body := visit.Sample{Label: f.label, Habitat: scheme.HabitatNamed(f.habitat), Effort: f.effort}
	err := cmp.Or(
		readOptional("area", f.area, units.SquareMetres, &body.Area),
		readOptional("fraction", f.fraction, units.Fraction, &body.Fraction),
	)
	if err != nil {
		return err
	}
	if _, err := vf.save(v.File, f.who, body); err != nil {
		return err
	}
	vf.plainly("Saved: sample %s%s.", f.label, areaWords(body.Area))
	return nil
}

func areaWords(m2 float64) string {
	if m2 == 0 {
		return ""
	}
	return ", " + show.Area(m2)
}

// kickArea turns the net's width and the bed's length into an area.
func kickArea(f *sampleFlags) error {
	if f.net == "" {
		return nil
	}
	var width, length float64
	if err := cmp.Or(readFlag("net", f.net, units.Metres, &width), readFlag("bed", f.bed, units.Metres, &length)); err != nil {
		return err
	}
	f.area = strconv.FormatFloat(scoring.KickArea(width, length), 'f', 4, 64)
	return nil
}

func sampleSettings(f *sampleFlags, v *visit.Visit, habitats []ask.Option, given func(string) bool) []setting {
	return []setting{
		{ask.Field{Key: "label", Title: wording.Text("What is this sample called?"), Default: v.Tally().NextLabel()}, &f.label,
			given("label")},
		{ask.Field{Key: "habitat", Title: wording.Text("Where was it taken?"), Options: habitats}, &f.habitat, given("habitat")},
		{ask.Field{
			Key: "area", Title: wording.Text("How much stream bed does it cover?"), Optional: true, Check: checkedBy(units.SquareMetres),
			Help: wording.Text(
				"As 4 sq ft or 0.37 m2, or as the width of the net by the length of bed kicked: 2 ft x 2 ft. May stay empty."),
		}, &f.area, given("area") || given("net")},
		{ask.Field{
			Key: "fraction", Title: wording.Text("How much of it do you sort?"), Default: "1", Check: checkedBy(units.Fraction),
			Help: wording.Text("A share, as 1/4, where the catch is too large to sort whole."),
		}, &f.fraction, given("fraction")},
		{ask.Field{
			Key: "effort", Title: wording.Text("How was it taken?"),
			Help: wording.Text("For example: one minute of kicking. May stay empty."), Optional: true,
		}, &f.effort, given("effort")},
		{ask.Field{Key: "who", Title: wording.Text("Who took it?"), Optional: true, Offers: v.People()}, &f.who, given("who")},
	}
}

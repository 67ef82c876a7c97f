package show

import (
	"fmt"
	"io"
	"slices"
	"strconv"

	"rillkey/taxa"
	"rillkey/taxa/wording"
)

// cautions are read before a visit. They are common practice of stream work;
// local rules and the people in charge come first.
var cautions = []string{
	wording.Mark("Stay out of high, fast or rising water, and away from weirs. If you cannot see the bottom, do not wade; " +
		"waders that fill pull you under."),
	wording.Mark("Leave the water at the first thunder, and wait half an hour after the last."),
	wording.Mark("Stones are slippery, trap feet, and hide glass and hooks: wear shoes that grip, go slowly, face upstream."),
	wording.Mark("Never go alone. Somebody ashore knows when you are due back. Children go with an adult who watches only them."),
	wording.Mark("Cold water numbs hands and minds: have dry clothes, something warm, and a first-aid kit. Shade and water " +
		"to drink in the sun."),
	wording.Mark("Keep away for two days after heavy rain, below drain pipes, from blue-green scum (dogs too), from odd smell, " +
		"foam or colour."),
	wording.Mark("Cover cuts. Wash your hands before you eat or touch your face. If you fall ill within three weeks, tell " +
		"the doctor about the water."),
	wording.Mark("Look for ticks in the evening. Learn the plants of the bank that sting or burn. Keep clear of farm animals and roads."),
	wording.Mark("Ask the landowner first, and get the permits your area wants. Put native mussels, fish and newts back " +
		"first: some are protected. Crayfish: ask first."),
	wording.Mark("Crayfish pinch; hellgrammites, water bugs and some beetles bite. Use a spoon or a brush."),
	wording.Mark("The animals go back alive, where they came from, before they get warm; foreign ones only as the law says: " +
		"ask before."),
	wording.Mark("Before you leave CHECK boots, nets and trays, CLEAN off mud and plants, and let them DRY through, two " +
		"days more. Go from the cleaner stream to the dirtier."),
	wording.Mark("Rules of your area, and the people licensed to apply them, come before anything said here."),
}

// Cautions are those of all work at streams and, before the last, those of this region,
// which may be nil; the region's alone where that says so.
func Cautions(r *taxa.Region) []string {
	general := slices.Clone(cautions)
	for i, c := range general {
		general[i] = wording.Text(c)
	}
	last := len(general) - 1
	switch {
	case r == nil:
		return general
	case r.OnlyCautions:
		return slices.Concat(r.Cautions, general[last:])
	}
	return slices.Concat(general[:last], r.Cautions, general[last:])
}

// CautionTitle stands above the cautions.
func CautionTitle() string { return wording.Text("Before anyone steps into the water:") }

// NumberedCautions are the cautions of a region with their numbers before them.
func NumberedCautions(r *taxa.Region) []string {
	out := Cautions(r)
	for i, c := range out {
		out[i] = fmt.Sprintf("%d. %s", i+1, c)
	}
	return out
}

// CautionList writes the cautions of a region as a numbered list.
func CautionList(w io.Writer, width int, r *taxa.Region) error {
	p := newPage(w, width)
	p.text(0, 2, "%s", CautionTitle())
	for i, c := range NumberedCautions(r) {
		p.text(2-len(strconv.Itoa(i+1)), 4, "%s", c)
	}
	return p.err
}

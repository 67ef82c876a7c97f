package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/ask"
	"rillkey/cmd/rillkey/show"
	"rillkey/cmd/rillkey/terminal"
	"rillkey/scoring/sheet"
	"rillkey/scoring/visit"
	"rillkey/taxa"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

func enterCommand(a *app) *cobra.Command {
	var sample, who string
	cmd := &cobra.Command{
		Use:   "enter",
		Short: "Type in a filled field sheet, row by row",
		Long: `Goes through a sheet of 'rillkey print sheet' as it is printed: down the rows of
the first sample, then those of the next, and at last the column "look again".
Every count, and that there is none, is saved as soon as you press Enter: you can
leave at any row and go on later with the first that was not gone through. Other animals are typed by name; one that is not plain is asked
about. Names mean what they mean in the visit's region, or that of --region.

Type the samples in first, with 'rillkey visit sample'.`,
		Example: "  rillkey visit enter\n  rillkey visit enter --sample 2 --who Oona",
		Args:    noArgs,
		RunE:    func(*cobra.Command, []string) error { return enterSheet(a, sample, who) },
	}
	cmd.Flags().StringVar(&sample, "sample", "", "type in the column of this `SAMPLE` only (else of all, in turn)")
	cmd.Flags().StringVar(&who, "who", "", "`NAME` of the person who sorted, as on the sheet")
	return cmd
}

// entering is one sheet on its way into the file.
type entering struct {
	*app
	*sheet.Sheet
	path, who string
	catalog   *taxa.Catalog
	pending   int      // the count of a row that waits for a closer name, or 0
	unclear   *unclear // a name that waits for what it means, or nil
	asked     int      // the turn asked for before, -1 at first
}

func enterSheet(a *app, sample, who string) error {
	v, err := a.visitToAddTo(!a.json)
	if err != nil {
		return err
	}
	a.follow(v)
	catalog, rules, err := a.catalogAndRules()
	if err != nil {
		return err
	}
	if len(v.Tally().Samples) == 0 && a.screen && !a.json {
		if v, err = a.firstSample(v); err != nil {
			return err
		}
	}
	path := v.File
	e := &entering{app: a, path: path, who: who, catalog: catalog, asked: -1}
	protocol, err := rules.Protocol(v.Header.Protocol)
	if err != nil {
		return err
	}
	samples, err := samplesMeant(a, v, sample)
	if err != nil {
		return err
	}
	e.Sheet = sheet.New(catalog, rules, protocol, samples, v)
	if err := e.run(); err != nil {
		return err
	}
	if a.json {
		if v, err = visit.Read(path); err != nil {
			return err
		}
		return show.JSON(a.stdout, show.NewTally(catalog, v))
	}
	return nil
}

// samplesMeant are the labels of all samples, or of the one asked for.
func samplesMeant(a *app, v *visit.Visit, label string) ([]string, error) {
	samples := v.Tally().Samples
	var labels []string
	for _, s := range samples {
		labels = append(labels, s.Label)
	}
	switch {
	case len(samples) == 0:
		return nil, a.noSample(v.File)
	case label == "":
		return labels, nil
	}
	s, ok := v.Tally().Sample(label)
	if !ok {
		return nil, misused("there is no sample %q; there are %s", label, strings.Join(labels, ", "))
	}
	return []string{s.Label}, nil
}

var enterHelp = []string{
	wording.Mark("Type the count of each row, and Enter; Enter alone goes on. Also:"),
	wording.Mark("  NAME COUNT  another animal, or a row out of turn: stonefly 3"),
	wording.Mark("  ROW COUNT   the same by the row's number: 7 3"),
	wording.Mark("  <  the row before       >  the other rows of this column are empty"),
	wording.Mark("  ?  all rows             .  done for now"),
	wording.Mark("A count on a row that has one replaces it; 0 or none takes it out."),
}

// help prints the help, its lines folded where they are too long.
func (e *entering) help() {
	for _, english := range enterHelp {
		line := wording.Text(english)
		if e.width == 0 || utf8.RuneCountInString(line) <= e.width {
			fmt.Fprintln(e.talk(), line)
			continue
		}
		e.plainly("%s", line)
	}
}

// run asks place by place.
func (e *entering) run() error {
	word := wording.Text("Sample")
	if len(e.Samples) > 1 {
		word = wording.Text("Samples")
	}
	e.plainly("%s %s of %s.", word, strings.Join(e.Samples, ", "), e.path)
	e.help()
	at := e.First()
	if at > 0 {
		e.plainly("%s gone through already; going on with %s.", plain.CountOf(e.RowsGone(), "row is", "rows are"), e.place(at))
	}
	lines, stop := e.typedLines()
	defer stop()
	refused, left := 0, error(nil)
	for {
		e.prompt(at)
		line, err := terminal.ReadLine(lines)
		if errors.Is(err, ask.ErrLeft) {
			left = cannotSay // as with a full stop, but for the status
			break
		}
		if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF) {
			break
		}
		next, err := e.take(at, strings.TrimSpace(line), err)
		if errors.Is(err, errDone) {
			break
		}
		if err != nil {
			var f fault
			if !errors.As(err, &f) || f.status != statusMisused {
				return err
			}
			if refused++; refused > 100 {
				return misused("100 lines in a row could not be used; the last because %w", err)
			}
			e.plainly("Not saved: %s.", wording.Reason(err).Error())
			continue
		}
		refused = 0
		at = min(max(0, next), e.Places()-1)
	}
	switch {
	case e.unclear != nil:
		e.plainly("Not saved: %d %s; nobody said which is meant.", e.unclear.count, e.unclear.name)
	case e.pending > 0:
		e.plainly("Not saved: %d %s; nobody said which.", e.pending, e.Rows[e.Place(at).Row].Kind.Label)
	}
	e.sum()
	return left
}

var errDone = errors.New("done")

// sum says at the end what the file holds, as a check against the paper.
func (e *entering) sum() {
	for column, label := range e.Samples {
		left := ""
		if n := e.Open(column); n > 0 {
			left = wording.Sprintf(", %d are still to do", n)
		}
		animals := plain.Count(e.Animals(column), "animal")
		e.plainly("%d of %d rows of sample %s have a count%s; it holds %s in all.", e.Filled(column), len(e.Rows), label, left, animals)
	}
	e.plainly("All of it is saved.")
	for column := range e.Samples {
		stillUnsorted(e.app, []visit.Taken{e.Sample(column)})
	}
}

// place names the place of a turn.
func (e *entering) place(at int) string {
	if e.LookAgain(at) {
		return wording.Text(`the column "look again"`)
	}
	p := e.Place(at)
	where := wording.Sprintf("row %d", p.Row+1)
	if p.Row == len(e.Rows) {
		where = wording.Text("what is written below the rows")
	}
	if len(e.Samples) > 1 {
		where += wording.Sprintf(" of sample %s", e.Samples[p.Column])
	}
	return where
}

func (e *entering) prompt(at int) {
	p := e.Place(at)
	again := at == e.asked
	e.asked = at
	switch {
	case e.unclear != nil:
		e.promptName()
	case e.pending > 0:
		e.plainly("%d %s: which? Type the name written beside it; Enter alone if there is none:", e.pending, e.Rows[p.Row].Kind.Label)
	case e.LookAgain(at) && again:
		e.plainly(`More in "look again":`)
	case e.LookAgain(at):
		e.plainly(`Column "look again": %s, such as %s. Enter alone when there is no more:`, e.againForm(), e.againExample())
	case p.Row == len(e.Rows) && again:
		e.plainly("More written in below:")
	case p.Row == len(e.Rows):
		of := ""
		if len(e.Samples) > 1 {
			of = wording.Sprintf(" of sample %s", e.Samples[p.Column])
		}
		e.plainly("End of the rows%s. Animals written in below, as NAME COUNT; Enter alone when there is no more:", of)
	default:
		e.row(p)
	}
}

func (e *entering) row(p sheet.Position) {
	row := e.Rows[p.Row]
	has, sample := "", ""
	if n := e.Count(p); n > 0 {
		has = wording.Sprintf(" [has %d]", n)
	}
	if len(e.Samples) > 1 {
		sample = wording.Sprintf("Sample %s, ", e.Samples[p.Column])
	}
	e.plainly("%s%d of %d: %s, %s%s", sample, row.Number, len(e.Rows), row.Kind.Label, row.Group.Label, has)
}

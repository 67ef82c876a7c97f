package main

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"rillkey/cmd/rillkey/ask/terminal"
	"rillkey/cmd/rillkey/show"
	"rillkey/scoring"
	"rillkey/scoring/visit"
	"rillkey/taxa"
)

func (a *app) enterCommand() *cobra.Command {
	var sample, who string
	cmd := &cobra.Command{
		Use:   "enter",
		Short: "Type in a filled field sheet, row by row",
		Long: `Goes through the rows of the field sheet in order and takes the count of each.
Every count is saved as soon as you press Enter: you can leave at any row and go on
later from there. Other animals are typed by name, misspelt or not.`,
		Example: "  rillkey visit enter\n  rillkey visit enter --sample 2 --who Oona",
		Args:    noArgs,
		RunE:    func(*cobra.Command, []string) error { return a.enter(sample, who) },
	}
	cmd.Flags().StringVar(&sample, "sample", "", "the `SAMPLE` that the sheet is of (else the only one)")
	cmd.Flags().StringVar(&who, "who", "", "`NAME` of the person who sorted, as on the sheet")
	return cmd
}

// entering is one sheet on its way into the file.
type entering struct {
	*app
	path, who string
	sample    string
	catalog   *taxa.Catalog
	rules     *scoring.Rules
	protocol  *scoring.Protocol
	rows      []scoring.SheetRow
	byRow     []visit.Record // the first record on each row; no ID where there is none
	tally     visit.Tally
}

func (a *app) enter(sample, who string) error {
	catalog, err := a.catalog()
	if err != nil {
		return err
	}
	rules, err := a.rules(catalog)
	if err != nil {
		return err
	}
	path, err := a.visitPath(false)
	if err != nil {
		return err
	}
	e := &entering{app: a, path: path, who: who, catalog: catalog, rules: rules}
	v, err := visit.Read(path)
	if err != nil {
		return err
	}
	if e.protocol, err = rules.Protocol(v.Header.Protocol); err != nil {
		return err
	}
	e.rows = rules.SheetRows(e.protocol)
	if e.sample, err = sampleMeant(v, sample); err != nil {
		return err
	}
	if err := e.read(); err != nil {
		return err
	}
	if err := e.sheet(); err != nil {
		return err
	}
	if a.json {
		if v, err = visit.Read(path); err != nil {
			return err
		}
		return show.JSON(a.out, show.NewTally(catalog, v))
	}
	return nil
}

func sampleMeant(v *visit.Visit, label string) (string, error) {
	samples := v.Tally().Samples
	var labels []string
	for _, s := range samples {
		labels = append(labels, s.Label)
	}
	switch {
	case len(samples) == 0:
		return "", misused("%s has no sample yet; add one with 'rillkey visit sample' first", v.File)
	case label == "" && len(samples) == 1:
		return labels[0], nil
	case label == "":
		return "", misused("which sample is the sheet of? Say --sample and one of %s", strings.Join(labels, ", "))
	}
	s, ok := v.Tally().Sample(label)
	if !ok {
		return "", misused("there is no sample %q; there are %s", label, strings.Join(labels, ", "))
	}
	return s.Label, nil
}

// read sorts what the file holds of this sample into the rows.
func (e *entering) read() error {
	v, err := visit.Read(e.path)
	if err != nil {
		return err
	}
	e.tally = v.Tally()
	e.byRow = make([]visit.Record, len(e.rows))
	for _, r := range e.tally.Records {
		if i := e.rowOf(r.Taxon); r.Sample == e.sample && !r.Undecided && i >= 0 && e.byRow[i].ID == "" {
			e.byRow[i] = r
		}
	}
	return nil
}

func (e *entering) rowOf(taxon string) int {
	kind, ok := e.rules.KindOf(e.rules.Scheme(e.protocol.Schemes[0]), taxon)
	if !ok {
		return -1
	}
	for i, row := range e.rows {
		if row.Kind.ID == kind.ID {
			return i
		}
	}
	return -1
}

// onRow is how many animals the file holds on a row.
func (e *entering) onRow(i int) (n int) {
	for _, r := range e.tally.Records {
		if r.Sample == e.sample && !r.Undecided && e.rowOf(r.Taxon) == i {
			n += r.Count
		}
	}
	return n
}

const enterHelp = `Type the count of each row, and Enter; Enter alone goes on. Also:
  NAME COUNT  another animal, or a row out of turn: stonefly 3
  ROW COUNT   the same by the row's number: 7 3
  <           the row before      ?  all rows      .  done for now
A count on a row that has one replaces it; 0 takes it out.`

// sheet asks row by row, from the one after the last that has a count.
func (e *entering) sheet() error {
	e.plainly("Sample %s of %s.", e.sample, e.path)
	fmt.Fprintln(e.talk(), enterHelp)
	at := 0
	for i := range e.rows {
		if e.onRow(i) > 0 {
			at = i + 1
		}
	}
	if at > 0 {
		e.plainly("%d rows have a count already; going on after row %d.", e.filled(), at)
	}
	refused := 0
	for {
		if at < len(e.rows) {
			e.prompt(at)
		} else {
			fmt.Fprintln(e.talk(), "End of the sheet. More animals as NAME COUNT, or . when done:")
		}
		line, err := terminal.ReadLine(e.lines)
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
			e.plainly("Not saved: %s.", err.Error())
			continue
		}
		refused = 0
		at = min(max(0, next), len(e.rows))
	}
	e.plainly("%d of %d rows of sample %s have a count. All of it is saved.", e.filled(), len(e.rows), e.sample)
	return nil
}

var errDone = errors.New("done")

func (e *entering) filled() (n int) {
	for i := range e.rows {
		if e.onRow(i) > 0 {
			n++
		}
	}
	return n
}

func (e *entering) prompt(i int) {
	row := e.rows[i]
	has := ""
	if n := e.onRow(i); n > 0 {
		has = fmt.Sprintf(" [has %d]", n)
	}
	e.plainly("%d of %d: %s, %s%s", row.Number, len(e.rows), row.Kind.Label, row.Group.Label, has)
}

// take does what a typed line asks for and says which row comes next.
func (e *entering) take(at int, line string, err error) (next int, _ error) {
	words := strings.Fields(line)
	switch {
	case err != nil:
		return at, fault{statusMisused, err}
	case line == ".":
		return at, errDone
	case line == "<":
		return at - 1, nil
	case line == "?":
		for i := range e.rows {
			e.prompt(i)
		}
		return at, nil
	case line == "":
		if at >= len(e.rows) {
			return at, errDone
		}
		return at + 1, nil
	case len(words) == 1 && isNumber(line):
		if at >= len(e.rows) {
			return at, misused("the sheet is at its end; type a name and a count, such as stonefly 3")
		}
		return at + 1, e.count(at, line)
	case len(words) == 1:
		return at, misused("%q has no count; type a name and a count, such as stonefly 3", line)
	}
	count := words[len(words)-1]
	name := strings.Join(words[:len(words)-1], " ")
	if isNumber(name) {
		n, _ := strconv.Atoi(name)
		if n < 1 || n > len(e.rows) {
			return at, misused("there is no row %s; the rows are 1 to %d", name, len(e.rows))
		}
		return at, e.count(n-1, count)
	}
	return at, e.byName(name, count)
}

func isNumber(s string) bool { _, err := strconv.Atoi(s); return err == nil }

// count enters or corrects the count of a row.
func (e *entering) count(i int, text string) error {
	row, has := e.rows[i], e.byRow[i]
	if has.ID == "" {
		if text == "0" {
			return nil
		}
		if row.Taxon == "" {
			return misused("%q alone is too broad to be counted; type the name on the sheet and the count, such as water strider 3", row.Kind.Label)
		}
		return e.save(row.Taxon, text)
	}
	if e.onRow(i) != has.Count {
		return misused("row %d has several records; correct the one you mean with 'rillkey visit amend'", row.Number)
	}
	return e.correct(has, text)
}

func (e *entering) correct(has visit.Record, text string) error {
	body := visit.Amendment{Of: has.ID, Reason: "corrected while the sheet was typed in"}
	if text == "0" {
		body.Withdrawn = true
	} else {
		n, err := wholeCount(text)
		if err != nil {
			return misused("%w", err)
		}
		if n == has.Count {
			return nil
		}
		body.Change.Count = &n
	}
	if _, err := e.app.save(e.path, e.who, body); err != nil {
		return err
	}
	e.plainly("Saved: %s is now %s, not %d.", nameOf(e.catalog, has), text, has.Count)
	return e.read()
}

// byName enters an animal by any of its names.
func (e *entering) byName(name, count string) error {
	found := e.catalog.Find(name, 3)
	switch {
	case len(found) == 0:
		return misused("no creature here has a name like %q", name)
	case !found[0].Exact:
		e.plainly("%q is taken for %s.", name, show.Named(found[0].Taxon))
	}
	t := found[0].Taxon
	for _, r := range e.tally.Records {
		if r.Sample == e.sample && r.Taxon == t.ID && !r.Undecided {
			return e.correct(r, count)
		}
	}
	if count == "0" {
		return nil
	}
	return e.save(t.ID, count)
}

func (e *entering) save(taxon, text string) error {
	n, err := wholeCount(text)
	if err != nil {
		return misused("%w", err)
	}
	t := e.catalog.Taxon(taxon)
	body := visit.Identification{Sample: e.sample, Taxon: t.ID, Rank: t.Rank, Count: n, Note: "typed in from paper"}
	if _, err := e.app.save(e.path, e.who, body); err != nil {
		return err
	}
	e.plainly("Saved: %d x %s.", n, show.Named(t))
	return e.read()
}

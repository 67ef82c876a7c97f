package couplets

import (
	"embed"
	"io/fs"
	"iter"
	"path"
	"slices"
	"strings"

	"rillkey/taxa"
	"rillkey/taxa/authored"
	"rillkey/taxa/authored/merge"
	"rillkey/taxa/plain"
	"rillkey/taxa/wording"
)

//go:embed *.toml
var embedded embed.FS

// Embedded are the keys inside the program.
func Embedded() fs.FS { return embedded }

// DefaultName is the embedded key used when no other is named.
const DefaultName = "north-america.toml"

// EmbeddedNames are the names of the embedded keys, without their ending, sorted.
func EmbeddedNames() []string {
	files, err := fs.Glob(embedded, "*.toml")
	if err != nil {
		return nil // the pattern is sound
	}
	for i, f := range files {
		files[i] = strings.TrimSuffix(f, ".toml")
	}
	return files
}

// EmbeddedFile is the file of the embedded key with the name, that of [DefaultName] where
// the name is empty. Such keys are named without an ending, a file of one's own with it.
func EmbeddedFile(name string) (file string, ok bool) {
	if name == "" {
		return DefaultName, true
	}
	return name + ".toml", slices.Contains(EmbeddedNames(), name)
}

// Letters are the letters a couplet's leads may have, in order.
const Letters = "abcdef"

// MaxCouplets is the most couplets that a key may hold. The largest printed keys
// hold some thousands; what checking needs beyond that grows with the square.
const MaxCouplets = 20000

// Condition is one trait and the states of it that a lead accepts.
type Condition struct {
	Trait  string
	States []string
	Pos    authored.Pos // of the states
}

// Lead is one of a couplet's alternatives. It holds when all its conditions do,
// and goes to another couplet or to an end point; one of Next and Taxa is empty.
type Lead struct {
	Letter     string // "a", "b", …
	Text       string
	Conditions []Condition
	Next       string
	// Taxa are what the lead ends in: one taxon, or several that the key cannot
	// tell apart.
	Taxa []string
	// Drawing is an author's own, in the place of the made one; nil for that.
	Drawing *taxa.Drawing

	figure    string // the name of its file
	figurePos authored.Pos

	Pos     authored.Pos // of the lead's table
	TextPos authored.Pos
	TaxaPos []authored.Pos
	// TargetPos is where the id or list stands that the lead goes to, TargetKeyPos the word
	// "to" or "taxon" before it.
	TargetPos, TargetKeyPos authored.Pos

	// Where its traits, or its goal, could not be read as they were meant: one more
	// than the place of what is wrong in the report.
	vague, astray int
}

// Couplet is one step of a key.
type Couplet struct {
	ID    string
	Ask   string // what all leads speak of, in a few words
	Wait  string // what patience shows here, or empty
	Stop  string // the taxon that holds everything below, or empty
	Leads []Lead

	Pos, AskPos, WaitPos, StopPos authored.Pos // of the table, and of the values

	short int // as vague of a lead: it has too few leads
}

// Traits are those that the leads speak of, in the order in which they are written.
func (c *Couplet) Traits() (ids []string) {
	for _, l := range c.Leads {
		for _, cond := range l.Conditions {
			if !slices.Contains(ids, cond.Trait) {
				ids = append(ids, cond.Trait)
			}
		}
	}
	return ids
}

// File is a key as read: every field has the right kind, nothing more is known.
type File struct {
	ID, Title, Region, Source string
	Start                     string // id of the first couplet
	Couplets                  []Couplet
	// Commonness is how often each end point turns up beside the others, in any
	// unit; empty where the file does not say.
	Commonness map[string]float64
	LensSets   []LensSet
	// Glossary is what hard words in the texts mean, by the word in lower case.
	Glossary map[string]string

	StartPos authored.Pos // of the first couplet's id, or of the [key] table
	// Leftovers are where remarks begin that merging or drafting again left.
	Leftovers []authored.Pos

	weightsAt []taxa.Resident
}

// Leads are all leads of the key with their couplets, in the order of the file.
func (f *File) Leads() iter.Seq2[*Couplet, *Lead] {
	return func(yield func(*Couplet, *Lead) bool) {
		for i := range f.Couplets {
			for j := range f.Couplets[i].Leads {
				if !yield(&f.Couplets[i], &f.Couplets[i].Leads[j]) {
					return
				}
			}
		}
	}
}

// LensSet is taxa that only a hand lens tells apart, and the taxon that people
// without one stop at.
type LensSet struct {
	Taxa     []string
	NakedEye string
	Why      string

	Pos     authored.Pos
	TaxaPos []authored.Pos

	nakedEyePos authored.Pos
}

// Read reads a key. Its messages call the file shown. All findings go to
// report; the file is nil when it could not be read as TOML at all, and the
// error is set when it could not be read.
func Read(fsys fs.FS, name, shown string, report *authored.Report) (*File, error) {
	top, err := authored.ReadTable(fsys, name, shown, report)
	if err != nil || top == nil {
		return nil, err
	}
	f := readTable(top)
	for _, line := range merge.Unread(top.Text()) {
		f.Leftovers = append(f.Leftovers, authored.Pos{File: shown, Line: line, Col: 1})
	}
	f.readDrawings(fsys, path.Dir(shown), report)
	return f, nil
}

// readDrawings reads the drawings that leads name, in the folder of the key.
func (f *File) readDrawings(fsys fs.FS, dir string, report *authored.Report) {
	for _, l := range f.Leads() {
		if l.figure == "" {
			continue
		}
		l.Drawing = taxa.ReadDrawing(fsys, dir, l.figure, func(at authored.Pos, message, hint string) {
			if at.Line == 0 {
				at = l.figurePos
			}
			report.Add(at, "bad-drawing", message, hint)
		})
	}
}

// readTable reads a key from the top table of its file.
func readTable(top *authored.Table) *File {
	f := &File{StartPos: top.Here()}
	readHead(top, f)
	astray := misspeltTables(top)
	all := top.Subs("couplet")
	ids := top.Sub("couplet")
	f.Couplets = make([]Couplet, 0, min(len(all), MaxCouplets))
	for i, named := range all {
		if i == MaxCouplets {
			top.FailAt(named.Here(), "too-many-couplets", wording.Sprintf("a key holds at most %d couplets", MaxCouplets),
				wording.Text("the rest of this file is not read; split the key into two files"))
			break
		}
		if !isLead(named, ids) {
			f.Couplets = append(f.Couplets, readCouplet(named, astray))
		}
	}
	readCommonness(top, f)
	readLensSets(top, f)
	readGlossary(top, f)
	if f.Start == "" && len(f.Couplets) > 0 {
		f.Start = f.Couplets[0].ID
	}
	if len(f.Couplets) == 0 {
		top.FailAt(top.Here(), "no-couplets", wording.Text("the file holds no couplet"),
			wording.Text("a key starts with [couplet.1.a] and [couplet.1.b]"))
	}
	top.Done()
	return f
}

// misspeltTables finds what was meant for a couplet or a lead and stands under another
// name, and gives the number of the first such finding, from 1; 0 where there is none.
// What a couplet lacks follows from it most likely.
func misspeltTables(top *authored.Table) (first int) {
	fail := func(at authored.Pos, rule, message, hint string) {
		top.FailAt(at, rule, message, hint)
		if first == 0 {
			first = top.Found()
		}
	}
	for _, key := range top.Keys() {
		fold := plain.Fold(key)
		if key == "couplet" || !top.IsTable(key) || !strings.HasPrefix(fold, "couplet") && plain.Distance(fold, "couplet") > 2 {
			continue
		}
		top.Sub(key)
		fail(top.KeyPos(key), "unknown-field", wording.Sprintf("there is no field %s here", plain.Quote(key)),
			wording.Text("did you mean couplet? Write it as [couplet.4], and its leads as [couplet.4.a]"))
	}
	if !top.IsTable("couplet") {
		return first
	}
	ids := top.Sub("couplet")
	for _, named := range top.Subs("couplet") {
		if isLead(named, ids) {
			n := len(named.ID) - 1
			fail(named.Here(), "lead-letter", wording.Sprintf("[couplet.%s] is a lead, and no dot stands before its letter", named.ID),
				wording.Sprintf("write it as [couplet.%s.%s]", named.ID[:n], named.ID[n:]))
		}
	}
	return first
}

// isLead reports whether a table among the couplets is a lead of one, as in [couplet.2b].
func isLead(named authored.Section, couplets *authored.Table) bool {
	n := len(named.ID) - 1
	return n > 0 && strings.Contains(Letters, named.ID[n:]) && couplets.Has(named.ID[:n]) && named.Has("text") && !named.Has("ask")
}

func readHead(top *authored.Table, f *File) {
	if !top.Has("key") {
		top.FailAt(top.Here(), "missing-field", wording.Text("the line [key] is missing"),
			wording.Text("begin the file with a line [key], and write id, title and source below it"))
		for _, field := range []string{"id", "title", "source", "region", "start"} {
			top.Str(field) // stands there without its line: told above
		}
	}
	head := top.Sub("key")
	if head == nil {
		return
	}
	f.ID, f.Title, f.Region = head.NeedStr("id"), head.NeedStr("title"), head.Str("region")
	f.Source, f.Start = head.NeedStr("source"), head.Str("start")
	if f.ID != "" && !plain.IsID(f.ID) {
		head.Fail("id", "bad-id", wording.Sprintf("%s cannot be an id", plain.Quote(f.ID)),
			wording.Text("use lower-case letters, digits and hyphens, at most 64"))
	}
	f.StartPos = head.Pos("start")
	head.Done()
}

func readCommonness(top *authored.Table, f *File) {
	table := top.Sub("commonness")
	if table == nil {
		return
	}
	table.NeedStr("source")
	f.Commonness = map[string]float64{}
	if weights := table.Sub("weight"); weights != nil {
		for _, id := range weights.Keys() {
			w, ok := weights.Num(id)
			if ok && (w <= 0 || w > 1e6) {
				weights.Fail(id, "bad-weight", wording.Text("a weight must be above 0 and at most 1000000"),
					wording.Text("leave out an animal whose commonness is not known"))
			}
			f.Commonness[id] = w
			f.weightsAt = append(f.weightsAt, taxa.Resident{Taxon: id, Pos: weights.KeyPos(id)})
		}
	}
	table.Done()
}

func readGlossary(top *authored.Table, f *File) {
	table := top.Sub("glossary")
	if table == nil {
		return
	}
	f.Glossary = map[string]string{}
	for _, word := range table.Keys() {
		f.Glossary[strings.ToLower(word)] = table.NeedStr(word)
	}
}

func readLensSets(top *authored.Table, f *File) {
	for _, row := range top.Subs("lens") {
		set := LensSet{Taxa: row.Strs("taxa"), NakedEye: row.NeedStr("without"), Why: row.NeedStr("why"), Pos: row.Here(),
			nakedEyePos: row.Pos("without")}
		for i := range set.Taxa {
			set.TaxaPos = append(set.TaxaPos, row.Elem("taxa", i))
		}
		if len(set.Taxa) < 2 {
			row.FailAt(row.Here(), "few-taxa", wording.Text("a set of taxa that only a lens tells apart needs at least two of them"),
				wording.Text("add a second taxon, or delete the set"))
		}
		f.LensSets = append(f.LensSets, set)
		row.Done()
	}
}

// readCouplet reads a couplet; what it lacks follows from the finding of number astray,
// from 1, where there is one.
func readCouplet(n authored.Section, astray int) Couplet {
	c := Couplet{ID: n.ID, Ask: n.NeedStr("ask"), Wait: n.Str("wait"), Stop: n.Str("stop"),
		Pos: n.Here(), AskPos: n.Pos("ask"), WaitPos: n.Pos("wait"), StopPos: n.Pos("stop")}
	c.Leads = make([]Lead, 0, 2)
	for _, key := range n.Keys() {
		if len(key) == 1 && strings.Contains(Letters, key) && n.IsTable(key) {
			c.Leads = append(c.Leads, readLead(key, n.Sub(key)))
		}
	}
	cause := n.Found()
	n.Done()
	if astray > 0 {
		cause = astray - 1
	}
	if len(c.Leads) < 2 {
		c.short = cause + 1
		n.FollowsAt(cause, c.Pos, "one-lead", wording.Sprintf("couplet %s has %d of at least two leads", plain.Quote(c.ID), len(c.Leads)),
			missingLeads(&c))
	}
	for i, l := range c.Leads {
		if l.Letter != Letters[i:i+1] {
			n.FailAt(l.Pos, "lead-letter",
				wording.Sprintf("lead %s%s stands where %s%c belongs", c.ID, l.Letter, c.ID, Letters[i]),
				wording.Text("leads go a, b, c … without a gap"))
			break
		}
	}
	return c
}

// missingLeads says which leads a couplet of fewer than two lacks.
func missingLeads(c *Couplet) string {
	if len(c.Leads) == 0 {
		return wording.Sprintf("add [couplet.%s.a] and [couplet.%s.b]", c.ID, c.ID)
	}
	other := "b"
	if c.Leads[0].Letter != "a" {
		other = "a"
	}
	return wording.Sprintf("add [couplet.%s.%s], or leave the couplet out", c.ID, other)
}

func readLead(letter string, t *authored.Table) Lead {
	l := Lead{Letter: letter, Text: t.NeedStr("text"), Pos: t.Here(), TextPos: t.Pos("text"), figure: t.Str("figure"),
		figurePos: t.Pos("figure")}
	found := t.Found()
	t.Need("traits")
	if traits := t.Sub("traits"); traits != nil {
		keys := traits.Keys()
		l.Conditions = make([]Condition, 0, len(keys))
		for _, trait := range keys {
			l.Conditions = append(l.Conditions, Condition{Trait: trait, States: traits.Strs(trait), Pos: traits.Pos(trait)})
		}
		if len(l.Conditions) == 0 {
			t.Fail("traits", "no-traits", wording.Text("the lead stands for no trait"),
				wording.Text("say which, for example { tails = \"3\" }"))
		}
	}
	if t.Found() > found {
		l.vague = found + 1
	}
	readGoal(t, &l)
	return l
}

// readGoal reads where a lead goes, last of its fields.
func readGoal(t *authored.Table, l *Lead) {
	found := t.Found()
	switch hasTo, hasTaxon := t.Has("to"), t.Has("taxon"); {
	case hasTo && hasTaxon: // nobody knows which is meant
		t.Str("to")
		t.Strs("taxon")
		t.Fail("taxon", "two-ends", wording.Text("the lead goes both to a couplet and to a taxon"),
			wording.Text("keep one of \"to\" and \"taxon\""))
	case !hasTo && !hasTaxon:
		t.Str("to")
		t.Strs("taxon")
		t.Done() // one of them may be misspelt
		t.FollowsAt(found, l.Pos, "dead-end", wording.Text("the lead goes nowhere"),
			wording.Text("add to = \"…\" for a couplet or taxon = \"…\""))
		l.astray = found + 1
		return
	case hasTo:
		l.Next = t.NeedStr("to")
		l.TargetPos, l.TargetKeyPos = t.Pos("to"), t.KeyPos("to")
	default:
		readEnd(t, l)
		l.TargetPos, l.TargetKeyPos = t.Pos("taxon"), t.KeyPos("taxon")
	}
	if t.Found() > found {
		l.astray = found + 1
	}
	t.Done()
}

// readEnd reads the taxon or the set of taxa that a lead ends in.
func readEnd(t *authored.Table, l *Lead) {
	ids := t.Strs("taxon")
	for i, id := range ids {
		at := t.Elem("taxon", i)
		switch {
		case id == "":
			t.FailAt(at, "empty", wording.Text("\"taxon\" is empty"), wording.Text("name the taxon that the lead ends in"))
		case slices.Contains(l.Taxa, id):
			t.FailAt(at, "doubled-taxon", wording.Sprintf("the lead names %s twice", plain.Quote(id)), wording.Text("name each taxon once"))
		default:
			l.Taxa, l.TaxaPos = append(l.Taxa, id), append(l.TaxaPos, at)
		}
	}
	if ids != nil && len(ids) == 0 {
		t.Fail("taxon", "empty", wording.Text("\"taxon\" is an empty list"),
			wording.Text("name the taxon that the lead ends in, or several that this key cannot tell apart"))
	}
}

// WeightsAt are the end points that the file gives a weight, and where. The caller must
// not change it.
func (f *File) WeightsAt() []taxa.Resident { return f.weightsAt }

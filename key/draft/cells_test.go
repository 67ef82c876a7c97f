package draft_test

import (
	"fmt"
	"strings"
	"testing"

	"rillkey/key/draft"
	"rillkey/taxa/authored"
)

// What a spreadsheet or a tired hand puts into a cell is told at its line, before
// anything is drafted; want is empty where the cell is read as it stands.
func TestCellsAreQuestioned(t *testing.T) {
	for _, row := range []struct{ why, cell, want string }{
		{"a state", "2", ""},
		{"several states", "2/3", ""},
		{"several states as no spreadsheet changes them", "2|3", ""},
		{"three numbers as states", "2/3/10", ""},
		{"nothing known", "?", ""},
		{"nothing known, a stroke", "-", ""},
		{"nothing known, an empty cell", "", ""},
		{"a date that was 2/3", "02/03/26", "date: \"02/03/26\" is a date"},
		{"a date of four figures", "2/3/2026", "date: "},
		{"a date as standards write it", "2026-03-02", "date: "},
		{"a date by its month", "2-Mar", "date: "},
		{"a date by its month, turned", "Mar-26", "date: "},
		{"a German date", "02. Mrz", "date: "},
		{"a French date", "3-févr", "date: "},
		{"a date with full stops", "2.3.2026", "date: "},
		{"a word that begins as a month does", "marked", ""},
		{"a number and such a word", "2 marks", ""},
		{"a whole name of a month", "2 March 2026", "date: "},
		{"not applicable", "n/a", "not-applicable: \"n/a\" does not say"},
		{"not available, as spreadsheets say it", "#N/A", "not-applicable: "},
		{"an error of a formula", "#REF!", "sheet-error: "},
		{"a doubt beside a state", "2 ?", "doubtful-cell: "},
		{"a doubt after a state", "2?", "doubtful-cell: "},
		{"a range of which one end stands alone", "2-3", "joined-states: \"2-3\" may be several states: \"2\" stands in the column"},
		{"a range in words", "2 to 3", "joined-states: "},
		{"one or the other", "2 or 3", "joined-states: "},
		{"a comma between states", "0, 2", "joined-states: "},
		{"a semicolon between states", "3; 4", "joined-states: "},
		{"more than a state", ">2", "unlike-state: \">2\" would be taken for \"2\""},
		{"about a state", "~ 2", "unlike-state: "},
		{"a state and more", "2+", "unlike-state: "},
		{"less than none", "-2", "unlike-state: \"-2\" would be taken for \"2\""},
		{"a formula", "=1+1", "sheet-error: \"=1+1\" is a formula"},
		{"not a number", "NaN", "not-applicable: "},
		{"what a note says", "see note", "not-applicable: "},
		{"mostly one state", "usually 2", "joined-states: \"usually 2\" may be several states"},
		{"one state and rarely another", "2 (rarely 3)", "joined-states: "},
		{"how often, of what stands nowhere alone", "often swims", ""},
		{"more than what stands nowhere alone", ">8", ""},
		{"a state in brackets", "(2)", ""},
		{"a range of nothing that stands alone", "20-30", ""},
		{"words with a comma", "dark, with a stripe", ""},
	} {
		t.Run(row.why, func(t *testing.T) {
			text := fmt.Sprintf("animal,tails,legs\na,2,6\nb,3,6\nc,\"%s\",0\nd,2,6\n", row.cell)
			var report authored.Report
			s := draft.ReadSheet("t.csv", []byte(text), &report)
			found := report.Findings()
			if row.want == "" {
				if s == nil {
					t.Errorf("refused: %v", found)
				}
				return
			}
			if len(found) != 1 || !strings.HasPrefix(found[0].Error(), "t.csv:4:3: "+row.want) || found[0].Hint == "" {
				t.Errorf("got %v, want t.csv:4:3: %s", found, row.want)
			}
		})
	}
}

// All that is wrong is told at once, not one kind after another.
func TestAllCellsAreQuestionedAtOnce(t *testing.T) {
	var report authored.Report
	draft.ReadSheet("t.csv", []byte("animal,tails,legs\na,2,6\nb,n/a,6\nc,2-3,0\nd,2,2026-05-01\n"), &report)
	var rules []string
	for _, f := range report.Findings() {
		rules = append(rules, fmt.Sprintf("%d %s", f.Pos.Line, f.Rule))
	}
	if got := strings.Join(rules, ", "); got != "3 not-applicable, 4 joined-states, 5 date" {
		t.Error(got)
	}
}

func TestWhatIsReadIsRemarkedUponAtItsLine(t *testing.T) {
	s := sheetOf(t, "animal,case,legs\na,no case,6\nb,no csae,6\nc,no case,unknown\nd,sand,6\ne,no case,10\nf,no case,0\n")
	want := []string{
		"t.csv:4:11: unknown-word: \"unknown\" is read as unknown",
		"t.csv:3:3: met-once: \"no csae\" stands only here in the column \"case\" (did you mean \"no case\"?)",
		"t.csv:5:3: met-once: \"sand\" stands only here in the column \"case\"",
		"t.csv:6:11: met-once: \"10\" stands only here in the column \"legs\"",
		"t.csv:7:11: met-once: \"0\" stands only here in the column \"legs\"",
	}
	if s := sheetOf(t, "legs,shell\n6,no\n0,yes\n"); len(s.Remarks) != 1 ||
		!strings.HasPrefix(s.Remarks[0].Error(), `t.csv:1:1: numbered-rows: the first column is taken for the names`) {
		t.Errorf("numbers in the place of names: %v", s.Remarks)
	}
	if len(s.Remarks) != len(want) {
		t.Fatalf("%d remarks: %v", len(s.Remarks), s.Remarks)
	}
	for i, w := range want {
		if !strings.HasPrefix(s.Remarks[i].Error(), w) {
			t.Errorf("got %v, want %s", s.Remarks[i], w)
		}
	}
	var many strings.Builder
	many.WriteString("animal,c,d\n")
	for i := range 50 {
		fmt.Fprintf(&many, "a%d,x%dy,%d\n", i, i*i*i, i%2)
	}
	many.WriteString("again,x0y,1\n")
	if s := sheetOf(t, many.String()); len(s.Remarks) != 21 || s.Remarks[20].Rule != "and-more" ||
		!strings.HasPrefix(s.Remarks[20].Message, "29 more") {
		t.Errorf("%d remarks, the last %v", len(s.Remarks), s.Remarks[len(s.Remarks)-1])
	}
}

// What spreadsheet programs leave around a table is no part of it.
func TestWhatSpreadsheetsLeaveAroundATableIsPassedOver(t *testing.T) {
	for _, row := range []struct{ why, text string }{
		{"blank rows", "animal,tails,legs\na,2,6\n,,\nb,3,0\n,,\n , , \n"},
		{"a blank column at the end", "animal,tails,legs,\na,2,6,\nb,3,0,\n"},
		{"a line that names the separator", "sep=;\nanimal;tails;legs\na;2;6\nb;3;0\n"},
		{"a title above the table", "My stream,,\nanimal,tails,legs\na,2,6\nb,3,0\n"},
		{"a title with a comma above semicolons", "My stream, and others\nanimal;tails;legs\na;2;6\nb;3;0\n"},
		{"a blank row above the names", ",,\nanimal,tails,legs\na,2,6\nb,3,0\n"},
	} {
		t.Run(row.why, func(t *testing.T) {
			if s := sheetOf(t, row.text); len(s.IDs) != 2 || len(s.Traits) != 2 {
				t.Errorf("%v %v", s.IDs, s.Traits)
			}
		})
	}
	for _, row := range []struct{ why, text, want string }{
		{"one column", "My stream\nmayfly\nstonefly\n", "t.csv:1:1: few-columns: the sheet has one column"},
		{"several numbers by a word", "animal,tails,legs\na,2 or 3,6\nb,1,0\n", "t.csv:2:3: joined-states: \"2 or 3\" is several numbers"},
		{"a span around a number", "animal,tails,legs\na,2-4,6\nb,3,0\n",
			"t.csv:2:3: joined-states: \"2-4\" may be several states: \"3\" stands in the column"},
		{"merged cells", "animal,tails,legs\na,2,6\n,3,0\n", "t.csv:3:1: doubled-taxon: the row has no name in its first cell"},
		{"a damaged workbook", "PK\x03\x04\x14\x00", "t.csv: not-a-sheet: the workbook is damaged"},
		{"no text at all", "animal,\x00\x01\x02", "t.csv:1:1: encoding: the file is no text"},
		{"a rank that is none", "animal,rank,tails\na,famly,2\nb,family,3\n", "t.csv:2:3: bad-cell: \"famly\" is no rank"},
		{"a class that is none", "animal,class,tails\na,insects,2\nb,?,3\n", "t.csv:2:3: bad-cell: \"insects\" is no class"},
		{"a length that is none", "animal,length (mm),tails\na,long,2\nb,20-4,3\n", "t.csv:2:3: bad-cell: \"long\" is no length"},
	} {
		var report authored.Report
		if s := draft.ReadSheet("t.csv", []byte(row.text), &report); s != nil ||
			!strings.HasPrefix(report.Findings()[0].Error(), row.want) {
			t.Errorf("%s: %v", row.why, report.Findings())
		}
	}
}

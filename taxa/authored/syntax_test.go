package authored_test

import (
	"strings"
	"testing"

	"rillkey/taxa/authored"
)

// Each row is one slip of writing below a sound table: it is told where it was
// made, in words that say what to do, and not in those of a grammar.
func TestSlipsOfWritingAreToldPlainly(t *testing.T) {
	const above = "# A key.\n[key]\nid = \"here\"\n[couplet.1.a]\ntext = \"Six\"\n"
	for _, row := range []struct{ why, text, want string }{
		{"marks of a merge", "<<<<<<< HEAD\nto = \"2\"\n", "6:1: syntax: a mark that a program for versions leaves"},
		{"a couplet twice", "[couplet.1.a]\nto = \"2\"\n", "6:1: syntax: \"couplet.1.a\" stands in this file twice, first in line 4"},
		{"a field twice", "to = \"2\"\n  text = \"x\"\n", "7:3: syntax: \"couplet.1.a.text\" stands in this file twice, first in line 5"},
		{"a missing mark at the end", "to = \"2\nx = 1\n", "6:6: syntax: the text that begins here has no quotation mark at its end"},
		{"a missing mark at the end of the file", "to = \"2", "6:6: syntax: the text that begins here has no quotation mark at its end"},
		{"a missing end of three marks", "to = \"\"\"2\nx = 1\n",
			"6:6: syntax: the text that begins here has no quotation mark at its end"},
		{"curly marks", "to = “2”\n", "6:6: syntax: a curly quotation mark"},
		{"a colon", "to: \"2\"\n", "6:3: syntax: a colon stands where = belongs"},
		{"no equals sign", "to \"2\"\n", "6:4: syntax: = is missing after the name"},
		{"a decimal comma", "weight = 4,5\n", "6:11: syntax: a comma stands in this number"},
		{"two signs", "to == \"2\"\n", "6:5: syntax: = stands twice"},
		{"a remark of another language", "// how common\n", "6:1: syntax: a remark begins with #, not with //"},
		{"a letter with a mark in a name", "Größe = \"2\"\n", "6:3: syntax: names are written in the letters a to z"},
		{"a blank that does not break", "to\u00a0= \"2\"\n", "6:3: syntax: a blank of another kind stands here (U+00A0)"},
		{"an apostrophe in a text", "note = 'It's here'\n", "6:12: syntax: the text has ended at the mark ' before this"},
		{"a sentence", "Six legs here\n", "6:5: syntax: = is missing after the name"},
		{"a word alone", "hello\nto = \"2\"\n", "6:6: syntax: = is missing after the name"},
		{"no value", "to =\nx = 1\n", "6:5: syntax: the value after = is missing"},
		{"a word without marks", "to = two\n", "6:6: syntax: this is no value"},
		{"marks within a text", "to = \"the \"second\" one\"\n", "6:12: syntax: something stands after the end of the value"},
		{"a backslash", "to = \"a \\legs\"\n", "6:9: syntax: a backslash within a text means something else"},
		{"a letter of another encoding", "to = \"na\xefve\"\n", "6:9: syntax: a letter here is not saved as UTF-8"},
		{"a control character", "to = \"a\x07\"\n", "6:8: syntax: an invisible control character stands here (0x07)"},
		{"line ends of very old programs", "to = \"a\"\rx = 1\n", "6:9: syntax: the line ends in a way"},
		{"a list without its end", "to = [\"a\", \"b\"\nx = 1\n", "6:6: syntax: the list that begins here has no ]"},
		{"a list in braces without its end", "to = { a = [\"a\", \"b\" }\n", "6:12: syntax: the list that begins here has no ]"},
		{"a missing comma", "to = [\"a\" \"b\"]\n", "6:11: syntax: a comma is missing"},
		{"braces without their end", "to = { a = 1\nx = 1\n", "6:6: syntax: "},
		{"a header without its end", "[couplet.2.a\nto = \"3\"\n", "6:1: syntax: the name of the table that begins here has no ]"},
		{"a header with an empty part", "[couplet..a]\nto = \"3\"\n", "6:1: syntax: a part of the table's name is missing"},
		{"a number with a zero before it", "to = 03\n", "6:6: syntax: this number cannot be read"},
	} {
		t.Run(row.why, func(t *testing.T) {
			var report authored.Report
			if authored.Parse("f", []byte(above+row.text), &report) != nil {
				t.Fatal("accepted")
			}
			f := report.Findings()[0]
			if !strings.HasPrefix(f.Error(), "f:"+row.want) || f.Hint == "" {
				t.Errorf("got %v, want f:%s", f, row.want)
			}
		})
	}
	for _, whole := range []struct{ why, text, want string }{
		{"UTF-16", "\xff\xfe[\x00k\x00", "f:1:1: syntax: the file is not saved as UTF-8 but as UTF-16"},
		{"a workbook", "PK\x03\x04\x14\x00", "f:1:1: syntax: this is a zipped file"},
	} {
		var report authored.Report
		authored.Parse("f", []byte(whole.text), &report)
		if f := report.Findings(); len(f) != 1 || !strings.HasPrefix(f[0].Error(), whole.want) {
			t.Errorf("%s: %v", whole.why, f)
		}
	}
}

package authored

import "testing"

// What authors write is read without the decoder, which takes thirty times the
// memory; what is rare, and what may be wrong, is left to it.
func TestWhatIsLeftToTheDecoder(t *testing.T) {
	for _, row := range []struct {
		why, text string
		left      bool
	}{
		{"a couplet", "# One.\n[couplet.1]\nask = \"Legs\"\n[couplet.1.a] # six\ntext = \"Six \\\"legs\\\"\\n\"\ntraits = { legs = [\"6\"], case = 'none' }\nto = \"2\"\n", false},
		{"lines that end as on Windows", "[a]\r\nb = '''\r\nc'''\r\n", false},
		{"dotted keys", "state.no.label = \"no\"\nstate.yes.label = \"yes\"\n", false},
		{"numbers, lists over several lines", "a = [4, 12.5,\n -1, # last\n]\n", false},
		{"single values that are rare", "a = 1979-05-27\nb = \"\\u00e9\"\nc = [0x1F, \"\"\"x\\\n y\"\"\"]\n", false},
		{"a byte order mark", "\ufeffa = 1\n", false},
		{"an array of tables", "[[a]]\n", true},
		{"a key with an escape", "\"\\u0041\" = 1\n", true},
		{"a table in a list", "a = [{b = 1}]\n", true},
		{"a dotted key in braces", "a = {b.c = 1}\n", true},
		{"a dotted key through a table with a header", "[a.b]\n[a]\nb.c = 1\n", true},
		{"a doubled key", "a = 1\na = 2\n", true},
		{"a control character", "a = \"\x1b\"\n", true},
		{"bytes that are not UTF-8", "a = \"\xff\"\n", true},
	} {
		t.Run(row.why, func(t *testing.T) {
			if newTree("f", row.text, &Report{}).scan(false).sure == row.left {
				t.Errorf("left to the decoder: %v", !row.left)
			}
		})
	}
}

package paper

import (
	"slices"
	"testing"
)

// A sheet of 85 families ran over its front by a few lines, which stood alone on a side.
func TestNoSideOfASheetIsNearlyEmpty(t *testing.T) {
	for _, row := range []struct {
		dual  bool
		lines int
		want  []int
	}{
		{false, 31, []int{0, 31}},
		{true, 58, []int{0, 58}},
		{true, 67, []int{8, 59}},
		{true, 70, []int{10, 60}},
		{true, 72, []int{12, 60}},
		{true, 88, []int{0, 44, 44}},
		{true, 121, []int{0, 42, 40, 39}},
	} {
		f := &fieldSheet{dual: row.dual}
		if got := f.parts(row.lines); !slices.Equal(got, row.want) {
			t.Errorf("%d lines: %v, want %v", row.lines, got, row.want)
		}
	}
}

package network

import (
	"testing"
	"time"
)

// A clock is wrong where it lies further from the network's than entries may be dated ahead.
func TestClockOff(t *testing.T) {
	noon := time.Date(2026, 5, 16, 12, 0, 0, 0, time.UTC)
	for _, row := range []struct {
		why   string
		begun time.Time
		began time.Time
		want  time.Duration
	}{
		{"ahead", noon.Add(11 * time.Minute), noon, 11 * time.Minute},
		{"behind", noon.Add(-time.Hour), noon, -time.Hour},
		{"as far as may be", noon.Add(aheadBy), noon, 0},
		{"nothing was sent", noon, time.Time{}, 0},
	} {
		if got := (SendResult{Began: row.began}).ClockOff(row.begun); got != row.want {
			t.Errorf("%s: %v, want %v", row.why, got, row.want)
		}
	}
}

package practice_test

import (
	"testing"

	"rillkey/key/practice/learnertest"
)

func BenchmarkError(b *testing.B) {
	s := newSchool(b)
	p := s.pupil(learnertest.Habits[1], 1, 1)
	b.ResetTimer()
	for b.Loop() {
		p.tomorrow()
	}
}

func BenchmarkNext(b *testing.B) {
	s := newSchool(b)
	p := s.pupil(learnertest.Habits[1], 1, 1)
	for b.Loop() {
		p.meet(taught(p))
	}
}

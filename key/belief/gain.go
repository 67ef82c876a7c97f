package belief

import "math"

// faint is the probability below which a kind is left out of account when a
// question about a trait partly seen is weighed: it moves no gain by a
// thousandth of a bit.
const faint = 1e-7

// Gain is the information, in bits, that a question is expected to give about
// the kind. What its answers do not take in counts as no answer.
func (b *Belief) Gain(q int) float64 {
	if b.sure(q) {
		return 0
	}
	rows, entropy, covers := b.weigh(q)
	first, expected := dots(b.p32, rows[0], entropy)
	known, rest := surprise(float64(first)), 1-float64(first)
	for a := 1; a < len(rows); a++ {
		if covers && a == len(rows)-1 {
			known += surprise(rest)
			break
		}
		pa := float64(dot(b.p32, rows[a]))
		known += surprise(pa)
		rest -= pa
	}
	return max(0, known-float64(expected)) / math.Ln2
}

// GainOn is the information, in bits, that a question is expected to give about
// whether the kind is one of those in.
func (b *Belief) GainOn(q int, in []bool) float64 {
	if b.sure(q) {
		return 0
	}
	rows, _, _ := b.weigh(q)
	inside := 0.0
	for i, p := range b.p32 {
		b.part[i] = 0
		if in[i] {
			b.part[i] = p
			inside += float64(p)
		}
	}
	gain := 0.0
	for _, row := range rows {
		pa, both := float64(dot(b.p32, row)), float64(dot(b.part, row))
		gain += surprise(pa) - shared(both, inside) - shared(pa-both, 1-inside)
	}
	return max(0, gain) / math.Ln2
}

// shared is −x·ln(x/of), which is 0 at 0.
func shared(x, of float64) float64 {
	if x <= 0 || of <= 0 {
		return 0
	}
	return -x * math.Log(x/of)
}

// sure reports whether what was seen leaves a question only one answer.
func (b *Belief) sure(q int) bool {
	for _, parts := range b.table.questions[q].answers {
		open := false
		for _, p := range parts {
			open = open || b.seen[p.Trait] == 0 || b.seen[p.Trait]&^p.States != 0
		}
		if !open {
			return true
		}
	}
	return false
}

// weigh gives the rows of a question as things stand: those of the table while
// none of its traits was seen, else what the answers still say, given what was
// read of them already.
func (b *Belief) weigh(q int) (rows [][]float32, entropy []float32, covers bool) {
	question := &b.table.questions[q]
	fresh := true
	for _, t := range question.traits {
		fresh = fresh && b.seen[t] == 0
	}
	if fresh {
		return question.rows, question.entropy, question.covers
	}
	rows = b.rows[:len(question.answers)]
	for i, p := range b.p {
		b.ent[i] = 0
		if p < faint {
			for a := range rows {
				rows[a][i] = 0
			}
			continue
		}
		b.narrow(question, i, rows)
	}
	return rows, b.ent, false
}

// narrow fills in what kind i says to a question of which part is known.
func (b *Belief) narrow(q *question, i int, rows [][]float32) {
	known := 1.0
	for _, t := range q.traits {
		if b.seen[t] != 0 {
			known *= b.table.Likelihood(t, b.seen[t], i)
		}
	}
	h := 0.0
	for a, parts := range q.answers {
		l := 1 / known
		for _, t := range q.traits {
			states := b.seen[t]
			for _, part := range parts {
				if part.Trait == t && states != 0 {
					states &= part.States
				} else if part.Trait == t {
					states = part.States
				}
			}
			if states != 0 || b.seen[t] != 0 {
				l *= b.table.Likelihood(t, states, i)
			}
		}
		rows[a][i] = float32(l)
		h += surprise(l)
	}
	b.ent[i] = float32(h)
}

// dot is the scalar product; eight sums side by side keep the processor busy.
func dot(a, b []float32) float32 {
	b = b[:len(a)]
	var s0, s1, s2, s3, s4, s5, s6, s7 float32
	for len(a) >= 8 && len(b) >= 8 {
		s0 += a[0] * b[0]
		s1 += a[1] * b[1]
		s2 += a[2] * b[2]
		s3 += a[3] * b[3]
		s4 += a[4] * b[4]
		s5 += a[5] * b[5]
		s6 += a[6] * b[6]
		s7 += a[7] * b[7]
		a, b = a[8:], b[8:]
	}
	for i, x := range a {
		s0 += x * b[i]
	}
	return (s0 + s1) + (s2 + s3) + (s4 + s5) + (s6 + s7)
}

// dots is the scalar product of p with a and with b, in one pass.
func dots(p, a, b []float32) (with, and float32) {
	a, b = a[:len(p)], b[:len(p)]
	var s0, s1, s2, s3, t0, t1, t2, t3 float32
	for len(p) >= 4 && len(a) >= 4 && len(b) >= 4 {
		s0 += p[0] * a[0]
		t0 += p[0] * b[0]
		s1 += p[1] * a[1]
		t1 += p[1] * b[1]
		s2 += p[2] * a[2]
		t2 += p[2] * b[2]
		s3 += p[3] * a[3]
		t3 += p[3] * b[3]
		p, a, b = p[4:], a[4:], b[4:]
	}
	for i, x := range p {
		s0 += x * a[i]
		t0 += x * b[i]
	}
	return (s0 + s1) + (s2 + s3), (t0 + t1) + (t2 + t3)
}

package belief

import "math"

// faint is the probability below which a kind is left out of account when a
// question about a trait partly seen is weighed: it moves no gain by a
// thousandth of a bit.
const faint = 1e-7

// Gain is the information, in bits, that a question is expected to give about
// the kind. What its answers do not take in counts as no answer.
func (b *Belief) Gain(q int) float64 {
	rows, entropy, covers := b.weigh(q)
	known, rest := 0.0, 1.0
	for a := range rows {
		if covers && a == len(rows)-1 {
			known += surprise(rest)
			break
		}
		pa := float64(dot(b.p32, rows[a]))
		known += surprise(pa)
		rest -= pa
	}
	return max(0, known-float64(dot(b.p32, entropy))) / math.Ln2
}

// GainOn is the information, in bits, that a question is expected to give about
// whether the kind is one of those in.
func (b *Belief) GainOn(q int, in []bool) float64 {
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

// dot is the scalar product; four sums side by side keep the processor busy.
func dot(a, b []float32) float32 {
	b = b[:len(a)]
	var s0, s1, s2, s3 float32
	i := 0
	for ; i+4 <= len(a); i += 4 {
		x, y := a[i:i+4:i+4], b[i:i+4:i+4]
		s0 += x[0] * y[0]
		s1 += x[1] * y[1]
		s2 += x[2] * y[2]
		s3 += x[3] * y[3]
	}
	for ; i < len(a); i++ {
		s0 += a[i] * b[i]
	}
	return s0 + s1 + s2 + s3
}

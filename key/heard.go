package key

// mistakenWords is how often words of a person's own, found and shown to them as
// they were understood, are noted though they mean something else: of what is noted
// of accounts of animals in words 3 in 100 contradict them (measured), and as many
// again are taken to be overlooked (memory).
const mistakenWords = 0.06

// Hear is [Inquiry.Observe] of what a person said in words of their own: it may have
// been misunderstood, and was misread less often than what people are asked for.
func (q *Inquiry) Hear(trait string, states ...string) error {
	if err := q.Observe(trait, states...); err != nil {
		return err
	}
	q.given[len(q.given)-1].heard = true
	q.believe()
	return nil
}

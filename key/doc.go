// Package key is the engine: a compiled key, one walk through it for one creature,
// and the belief that runs beside the walk.
//
// Begin with [Model], [Inquiry] and [Verdict].
//
// The plain walk is the printed key: couplet by couplet, with back, and "can't
// tell", which follows all leads of a couplet. A walk keeps two things apart:
// where in the key it stands (the couplets still to be asked, the end points
// reached) and which end points the answers leave standing, by the traits that
// the chosen leads stand for. Outside a "can't tell" the second never says more
// than the first, because a sound key has no lead that contradicts a taxon
// beneath it; after one, it spares the questions whose answer is already known.
//
// # Confidence of a plain walk
//
// The confidence of a plain walk is the chance that none of its answers was
// misread: the product, over the distinct traits that were answered, of one
// less the trait's misread rate, taken as independent. It says nothing about
// animals that the key does not hold.
//
// # Belief
//
// An [Inquiry] drives a walk and, beside it, a probability for every end point.
// A [Model] holds what that takes:
//
//   - Prior: how common the end points are where the key says so, and of those it
//     leaves out the median of the others; all alike where it says nothing.
//   - Strangers: what the catalog knows and the key leaves out is a tenth as common
//     as the usual kind of the key each, and half as common as all of the key at
//     most together. One in two hundred is something that no catalog holds, which
//     may show anything. All three figures are from memory.
//   - Truth: an animal of a kind has each state of a trait with the share that the
//     catalog gives; given the kind, traits are independent of one another. Where
//     a trait is unknown for a kind it is taken to be as it is, on the average, in
//     all others, so that an answer by itself leaves that kind's probability
//     where it was.
//   - Reading: a part easily lost has been lost in 5 % of animals. What is there
//     is misread at the trait's rate: as a state it is mistaken for, all alike;
//     where none is named as any other; a quarter of the misreads go astray to
//     any other state in either case. One answer in a hundred is a slip, and may
//     be anything. The last three figures are from memory; no published rate per
//     specimen is known. Traits go wrong independently of one another.
//   - Evidence: what is known of a trait is one set of states that it was read
//     as. The likelihood of a kind is the sum, over the states it can truly have,
//     of the share of the state and the chance that it is read as one of the set.
//     A trait met twice, in two couplets or a couplet and an observation, is one
//     observation: the sets are intersected. If nothing is left, one of the two
//     readings was wrong and nobody knows which: their union is taken, which
//     comes to the same as giving both the same weight. A lead that combines
//     traits is a set for each of them, given at once.
//   - Looking again: an answer that stood is read twice, half of the second looks
//     being those of the same eyes (memory); one that was given anew was read both
//     ways, and what else is known says which holds.
//   - Length: one-sided, see [Inquiry.ObserveLength]. A length above the range
//     speaks against a kind with the tail of a log-normal curve, one below hardly
//     (the young are shorter) unless it grows no more, as beetles with wings, and 3 %
//     of measurements are worth nothing.
//   - "Can't tell" is no evidence.
//
// The next question, where it is not the author's, is the one that is expected to
// give most information about the kind for its effort, times the chance that the
// person can tell ([Inquiry.Question]). That chance is 1 until somebody could not
// tell something; then it goes by how easily a trait is seen and by what was told
// so far, and where little is to be hoped for the questions end. Jedynak, Frazier and
// Sznitman (2012, Twenty questions with noise: Bayes optimal policies for entropy
// loss, Journal of Applied Probability) show that for noisy answers and entropy
// as the loss the greedy choice is as good as any; their proof is for a line cut
// in two, not for traits of animals, where greedy is a good rule and no more.
// Weighing a test's information by its cost is the way of Gower and Payne (1975,
// A comparison of different criteria for selecting binary tests in diagnostic
// keys, Biometrika).
//
// What the belief does not know: parts that go missing together, such as a broken tail that changes three traits; a person
// who is more careless than the rates say. A belief told too low a rate is surer
// than it should be; package learned lets a group put in its own.
//
// The verdict is the lowest taxon that holds the required probability, strangers
// counted with the groups above them; or the tolerance class alone; or that the
// key does not hold it; or nothing: then the animal is set aside.
package key

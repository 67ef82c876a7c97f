// Package draft makes keys out of a table of taxa and traits, of couplets with two
// leads to four: the best one where the table is small, a good one where it is not.
//
// Begin with [TraitTable], [Draft] and [Node].
//
// # What is minimised
//
// An animal of taxon t that is asked a question costs the effort of looking, that of
// reading each lead beyond two, and the chance that the answer is misread so that it
// leaves its path times what a wrong name costs ([Terms]). The cost of a key is the mean of the sum over the questions
// of an animal's path, taxa weighted by how common they are. A taxon that varies
// is keyed out on several sides of a question, with the share of its animals that
// go each way.
//
// # How
//
// Every question parts the states of one trait, in two, three or four. Traits of up
// to six states are tried in every way, larger ones as one, two or three states by
// themselves and the rest, and as the first so many against the others, in the order
// of the vocabulary: what people can read as one phrase each. A lead more is worth its
// reading where it saves asking the trait again (see [bench.saves]).
//
// Up to fourteen taxa the optimum is found: by dynamic programming over the
// sets of taxa still possible where none varies; else by branch and bound over
// those sets and what the way there has left of the varied cells, with a floor
// for the cost of every set (see [panel.floors]). Above, each question is the one
// that costs least for the information it gives (in bits, of the weights); where
// the set is not too large, the best few are tried by drafting the rest in that
// way, and the cheapest is kept; and sets of few taxa are finished exactly.
//
// What branch and bound brings was measured on 30 tables, the ends of two built-in keys,
// parts of these, and random ones: with the heuristic in its place keys cost 0.008 % more
// (0.125 % at most), but take 1.8 times the processor time; with half as many tries they
// take 0.56 of it and cost 0.14 % more (3.3 % at most).
package draft

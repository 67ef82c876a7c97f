// Package chance follows uncertain counts through a formula: it knows numbers only,
// no schemes, records or animals' names. A [Formula] gives a value for counts by kind;
// a [KindDistribution] is a number of animals that are all of one kind, nobody knows
// for certain which. [Formula.Distribution] is the chance of every value they may
// come to, exact where that can be followed and else simulated; [Formula.Settler]
// finds what it would be once one of them is known; [Bootstrap] draws again from
// what was drawn.
//
// Begin with [Formula], [Distribution] and [KindDistribution].
//
// Every function is deterministic: a simulation is a function of its seed, and no
// sum depends on the order of a map.
package chance

// Package key is the engine: a compiled key, and one walk through it for one
// creature.
//
// The plain walk is the printed key: couplet by couplet, with back, and "can't
// tell", which follows all leads of a couplet. A walk keeps two things apart:
// where in the key it stands (the couplets still to be asked, the end points
// reached) and which end points the answers leave standing, by the traits that
// the chosen leads stand for. Outside a "can't tell" the second never says more
// than the first, because a sound key has no lead that contradicts a taxon
// beneath it; after one, it spares the questions whose answer is already known.
//
// # Confidence
//
// The confidence of a plain walk is the chance that none of its answers was
// misread: the product, over the distinct traits that were answered, of one
// less the trait's misread rate, taken as independent. It says nothing about
// animals that the key does not hold.
package key

"""How long scikit-learn takes to fit a decision tree to the table that rillkey's
drafting is measured on, and how long its mean path is.

    apt-get install python3-sklearn
    OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1 /usr/bin/python3 testdata/bench/tree.py 10000 300
    go test ./key/draft -run '^$' -bench 'Draft/10000' -benchtime 1x

Both sides make the same table: trait j of taxon i is bit 63 of splitmix64 of
i*traits + j (the generator of Steele, Lea and Flood, 2014), and both print how
many of its cells are 1. Every taxon is a class of its own; the tree is fitted by
entropy, unbounded, in one thread. Its nodes keep a count for every class, so
10,000 taxa need about 2 GB.
"""

import sys
import time

import numpy
from sklearn.tree import DecisionTreeClassifier


def table(taxa, traits):
    z = numpy.arange(1, taxa * traits + 1, dtype=numpy.uint64)
    with numpy.errstate(over="ignore"):
        z *= numpy.uint64(0x9E3779B97F4A7C15)
        z = (z ^ (z >> numpy.uint64(30))) * numpy.uint64(0xBF58476D1CE4E5B9)
        z = (z ^ (z >> numpy.uint64(27))) * numpy.uint64(0x94D049BB133111EB)
        z ^= z >> numpy.uint64(31)
    return (z >> numpy.uint64(63)).astype(numpy.float32).reshape(taxa, traits)


def main():
    taxa, traits = int(sys.argv[1]), int(sys.argv[2])
    x = table(taxa, traits)
    tree = DecisionTreeClassifier(criterion="entropy", random_state=0)
    begun = time.perf_counter()
    tree.fit(x, numpy.arange(taxa))
    took = time.perf_counter() - begun
    depth = numpy.zeros(tree.tree_.node_count)
    left, right = tree.tree_.children_left, tree.tree_.children_right
    for node in range(tree.tree_.node_count):  # children come after their parents
        for child in (left[node], right[node]):
            if child >= 0:
                depth[child] = depth[node] + 1
    leaves = left < 0
    print(f"{taxa} taxa x {traits} traits, {int(x.sum())} ones")
    print(f"fit {took:.2f} s, {leaves.sum()} leaves, mean path {depth[leaves].mean():.4f}")


main()

"""Fits models/levels.json from what `BeatChecks levels OUT.csv FOLDER...` wrote: a multinomial logistic regression (the levels of one piece are the classes).
Usage: levels.py OUT.csv ... prints the weights, and how many pieces of each folder are right when fitted on the others.
Three weights are held: how usual a tempo is counts in full, as a prior does; what the rows of beats themselves say of a level a fifth of itself, since it is
right 19 times in 20 on made music, and on records two times in three; and a level faster than theirs two less, since they seldom err to the slower side
(our judgement)."""
import sys

import numpy as np

NAMES = ["usual tempo", "rows", "faster than the rows", "strokes", "strokes squared", "chords", "chords squared", "no stroke on the beat",
         "stroke halfway", "low halfway", "low quarters", "middle halfway", "middle quarters", "high halfway", "high quarters", "turns of two",
         "low turns", "middle turns", "harmony after one", "harmony after two", "harmony after four", "harmony after eight"]
HELD = {"usual tempo": 1.0, "rows": 0.2, "faster than the rows": -2.0}
PENALTY, FOLDS = 3.0, 6
# Voices and drums add strokes and chords are misheard: each piece is seen so many times, with counts off by so many octaves.
SEEN, OFF = 4, 0.4
NEAR = 0.17  # a level within so many octaves of the truth is right


def pieces(paths):
    rows = {}
    for path in paths:
        for line in open(path):
            folder, name, *values = line.rstrip().split(",")
            rows.setdefault((folder, name), []).append([float(v) for v in values])
    for (folder, _), levels in rows.items():
        levels = np.array(levels)
        off = np.abs(np.log2(levels[:, 0]))
        if len(levels) > 1 and off.min() < NEAR:
            yield folder, levels[:, 3:], int(off.argmin())


def seen(features, rng):
    out = features.copy()
    for name in ("strokes", "chords"):
        k = NAMES.index(name)
        out[:, k] += rng.normal(OFF / 2 if name == "strokes" else 0, OFF)
        out[:, k + 1] = out[:, k] ** 2
    return out


def fit(some):
    rng = np.random.default_rng(1)
    rows = [(seen(f, rng), right) for _, f, right in some for _ in range(SEEN)]
    scale = np.concatenate([f for f, _ in rows]).std(0) + 1e-9
    free = np.array([n not in HELD for n in NAMES])
    weights = np.array([HELD.get(n, 0.0) for n in NAMES]) * scale
    for _ in range(50):
        growth, curve = -PENALTY * weights * free, PENALTY * np.eye(len(NAMES))
        for features, right in rows:
            scaled = features / scale
            chance = softmax(scaled @ weights)
            growth += (scaled[right] - chance @ scaled) * free / SEEN
            mean = chance @ scaled
            curve += ((scaled * chance[:, None]).T @ scaled - np.outer(mean, mean)) / SEEN
        weights[free] += np.linalg.solve(curve[np.ix_(free, free)], growth[free])
    return weights / scale


def softmax(logs):
    chance = np.exp(logs - logs.max())
    return chance / chance.sum()


def main(paths):
    every = list(pieces(paths))
    order, right = np.random.default_rng(1).permutation(len(every)), {}
    for fold in range(FOLDS):
        held = set(order[fold::FOLDS])
        weights = fit([every[i] for i in order if i not in held])
        for i in held:
            folder, features, truth = every[i]
            right.setdefault(folder, []).append(int((features @ weights).argmax() == truth))
    for folder, hits in sorted(right.items()):
        print(f"{folder}: {sum(hits)} of {len(hits)}", file=sys.stderr)
    print("{" + ", ".join(f'"{n}": {w:.3f}' for n, w in zip(NAMES, fit(every))) + "}")


if __name__ == "__main__":
    main(sys.argv[1:])

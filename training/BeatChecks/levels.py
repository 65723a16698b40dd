"""Fits models/levels.json from what `BeatChecks levels OUT.csv FOLDER...` wrote of pieces whose tempo is known: how many chords a beat usually has at a tempo
(a straight line), and, by a multinomial logistic regression over half a piece's tempo, it and twice it, what unusual chords and low sound between beats count
beside how usual a tempo is, which counts once and in full. Pieces count so that their tempi are spread as people's are.
Usage: levels.py BEATS.json OUT.csv ... prints the numbers, and on standard error how many pieces are right by them, fitted on the others, and by habit alone.
"rows" and "faster" are not fitted: rows of beats are right 19 times in 20 on made music, so they are held to what errs on records (a third at twice what people
tap, one in thirty at half)."""
import json
import sys

import numpy as np

LOW, PER_OCTAVE = 32.0, 20  # of the places of "tempo habits"

HELD = dict(rows=0.2, faster=-2.0)
PENALTY, FOLDS = 3.0, 6
NEAR = 0.1  # octaves
WIDTH = 0.2  # of the bell about each piece's tempo, in octaves
USUAL = 110.0


def pieces(paths):
    """For each piece tempi, chords and low quarters of its levels, the true one first."""
    rows = {}
    for path in paths:
        for line in open(path):
            folder, name, *values = line.rstrip().split(",")
            rows.setdefault((folder, name), []).append([float(v) for v in values])
    for levels in rows.values():
        levels = np.array(sorted(levels, key=lambda level: abs(np.log2(level[0]))))
        off = np.log2(levels[:, 0])
        levels = levels[np.abs(off - np.round(off)) < NEAR]
        if len(levels) > 1 and abs(np.log2(levels[0, 0])) < NEAR:
            yield levels[:, 1:]


def shares(some, habit):
    """What each piece counts: by how much more usual its tempo is among people than among the pieces."""
    places = np.log2([levels[0, 0] for levels in some])
    here = np.array([np.exp(-0.5 * ((places - p) / WIDTH) ** 2).mean() for p in places])
    count = np.exp([habit(2 ** p) for p in places]) / here
    return np.clip(count / count.mean(), 0.1, 4)


def line(some, count):
    """Chords a beat at the usual tempo, what an octave adds, and the spread."""
    x = np.array([[1, np.log2(levels[0, 0] / USUAL)] for levels in some])
    y = np.array([levels[0, 1] for levels in some])
    fit = np.linalg.solve(x.T * count @ x, x.T * count @ y)
    return (*fit, np.sqrt((count * (y - x @ fit) ** 2).sum() / count.sum()))


def reasons(levels, usual):
    chords = (levels[:, 1] - usual[0] - usual[1] * np.log2(levels[:, 0] / USUAL)) / usual[2]
    return np.stack([chords ** 2, levels[:, 2]], 1)


def fit(some, count, habit):
    usual, weights = line(some, count), np.zeros(2)
    rows = [(reasons(levels, usual), habit(levels[:, 0])) for levels in some]
    for _ in range(50):
        growth, curve = -PENALTY * weights, PENALTY * np.eye(2)
        for (x, prior), share in zip(rows, count):
            chance = softmax(x @ weights + prior)
            growth += share * (x[0] - chance @ x)
            curve += share * ((x * chance[:, None]).T @ x - np.outer(chance @ x, chance @ x))
        weights = weights + np.linalg.solve(curve, growth)
    return usual, weights


def softmax(logs):
    chance = np.exp(logs - logs.max())
    return chance / chance.sum()


def main(beats, *paths):
    densities = np.array(json.load(open(beats))["tempo habits"]["log density"])
    habit = lambda tempo: np.interp((np.log2(tempo) - np.log2(LOW)) * PER_OCTAVE, np.arange(len(densities)), densities)
    some = list(pieces(paths))
    count, order = shares(some, habit), np.random.default_rng(1).permutation(len(some))
    right = alone = 0
    for fold in range(FOLDS):
        others = np.setdiff1d(order, order[fold::FOLDS])
        usual, weights = fit([some[i] for i in others], count[others], habit)
        for levels in (some[i] for i in order[fold::FOLDS]):
            right += (reasons(levels, usual) @ weights + habit(levels[:, 0])).argmax() == 0
            alone += habit(levels[:, 0]).argmax() == 0
    print(f"{right} of {len(some)} right, {alone} by habit alone", file=sys.stderr)
    usual, weights = fit(some, count, habit)
    print(json.dumps(dict(weights=dict(HELD, unusualChords=round(weights[0], 3), lowQuarters=round(weights[1], 3)),
                          chords=dict(zip(("at 110", "an octave", "spread"), np.round(usual, 3).tolist()))), indent=2))


if __name__ == "__main__":
    main(*sys.argv[1:])

"""Fits how sure beats, tempi and meters are (BeatSureness): logistic regressions of being right on what BeatChecks wrote. Usage: sureness.py OUT.csv ...
Every piece counts the same, however many beats it has. Prints what stands under "sureness" in models/beats.json, and how often the sure are right."""
import csv
import sys

import numpy as np
from scipy.optimize import minimize

SMALL = 1e-2


def fit(x, y, share):
    """The bias and the weights, of reasons as they are."""
    mean, scale = x.mean(0), x.std(0) + 1e-9

    def loss(v):
        odds = v[0] + (x - mean) / scale @ v[1:]
        return (share * np.logaddexp(0, np.where(y > 0, -odds, odds))).sum() + SMALL * (v[1:] ** 2).sum()

    v = minimize(loss, np.zeros(x.shape[1] + 1)).x
    return v[0] - (v[1:] / scale) @ mean, v[1:] / scale


def main(*paths):
    rows = [row for path in paths for row in csv.reader(open(path))]
    for kind in ("beat", "tempo", "meter"):
        some = [r for r in rows if r[0] == kind]
        x, y = np.array([r[3:] for r in some], float), np.array([r[2] for r in some], float)
        names, where, count = np.unique([r[1] for r in some], return_inverse=True, return_counts=True)
        bias, weights = fit(x, y, 1 / count[where] / len(names))
        p = 1 / (1 + np.exp(-bias - x @ weights))
        print(kind, "bias", round(bias, 3), "weights", np.round(weights, 3).tolist())
        print("   ", " ".join(f"{a:.1f}+ {y[(p >= a) & (p < b)].mean():.2f} of {((p >= a) & (p < b)).sum()}"
                              for a, b in ((0, .3), (.3, .5), (.5, .7), (.7, .9), (.9, 1.01)) if ((p >= a) & (p < b)).any()))


if __name__ == "__main__":
    main(*sys.argv[1:])

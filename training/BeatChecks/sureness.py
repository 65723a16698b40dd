"""Fits how sure a beat is (BeatSureness): a logistic regression on what BeatChecks wrote. Usage: sureness.py FIT.csv,... [JUDGE.csv ...]
Every piece counts the same, however many beats it has, and every file of pieces the same. Prints the bias and the weights."""
import csv
import sys

import numpy as np
from scipy.optimize import minimize

SMALL = 1e-2


def read(path):
    """Reasons, right or wrong, and each beat's share of its file."""
    with open(path) as file:
        rows = list(csv.reader(file))
    names, where, beats = np.unique([r[0] for r in rows], return_inverse=True, return_counts=True)
    return np.array([r[2:] for r in rows], float), np.array([r[1] for r in rows], float), 1 / beats[where] / len(names)


def main(fit, *judged):
    x, y, share = (np.concatenate(c) for c in zip(*(read(p) for p in fit.split(","))))
    mean, scale = x.mean(0), x.std(0)

    def loss(v):
        odds = v[0] + (x - mean) / scale @ v[1:]
        p = 1 / (1 + np.exp(-odds))
        off = share * (p - y)
        return (share * np.logaddexp(0, np.where(y > 0, -odds, odds))).sum() + SMALL * (v[1:] ** 2).sum(), np.r_[off.sum(), ((x - mean) / scale).T @ off + 2 * SMALL * v[1:]]

    v = minimize(loss, np.zeros(x.shape[1] + 1), jac=True).x
    weights = v[1:] / scale
    bias = v[0] - weights @ mean
    print("bias", round(bias, 3), "weights", np.round(weights, 3).tolist())
    for path in judged:
        x, y, _ = read(path)
        p = 1 / (1 + np.exp(-bias - x @ weights))
        print(path, " ".join(f"{a:.1f}+ {y[(p >= a) & (p < b)].mean():.2f} of {((p >= a) & (p < b)).sum()}" for a, b in ((0, .3), (.3, .5), (.5, .7), (.7, .9), (.9, 1.01)) if ((p >= a) & (p < b)).any()))


if __name__ == "__main__":
    main(*sys.argv[1:])

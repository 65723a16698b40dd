"""Fits which accents tell the beat from the moments between beats (OffBeatCheck): a logistic regression through nought on what BeatChecks
wrote of true beats, told to prefer them. Usage: halves.py FIT.csv,... [JUDGE.csv ...]"""
import csv
import sys

import numpy as np
from scipy.optimize import minimize

SMALL = 0.01


def read(path):
    with open(path) as file:
        return np.array([r[1:] for r in csv.reader(file)], float)


def main(fit, *judged):
    x = np.concatenate([read(p) for p in fit.split(",")])
    weights = minimize(lambda w: np.logaddexp(0, -x @ w).mean() + SMALL * (w ** 2).sum(), np.zeros(x.shape[1])).x
    print("weights", np.round(weights, 2).tolist(), "of", len(x), "stretches")
    for path in judged:
        lead = read(path) @ weights
        print(path, f"right in {(lead > 0).mean():.2f} of {len(lead)}, furthest wrong {min(lead.min(), 0):.1f}")


if __name__ == "__main__":
    main(*sys.argv[1:])

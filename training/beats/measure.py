"""Beats by plain peak picking, with no decoder, and their F-measure (70 ms)."""
import numpy as np


def peaks(activation, threshold=0.3, reach=5):
    out = []
    for f in range(len(activation)):
        a = activation[f]
        if a > threshold and a == activation[max(0, f - reach):f + reach + 1].max():
            out.append(f / 50)
    return np.array(out)


def f_measure(truth, found):
    if not len(truth) or not len(found):
        return 0.0
    hits = sum(np.abs(truth - t).min() <= 0.07 for t in found)
    return 2 * min(hits, len(truth)) / (len(truth) + len(found))


def score(pulse, place, meter, truth):
    """One clip: F of beats and of downbeats, the share of frames at the right place of the bar, whether the meter is right."""
    wanted, places, kind = truth
    known = places >= 0
    return (f_measure(peaks(wanted[:, 0], 0.7, 2), peaks(pulse[:, 0])), f_measure(peaks(wanted[:, 1], 0.7, 2), peaks(pulse[:, 1])),
            float((place[known] == places[known]).mean()) if known.any() else 0.0, float(meter == kind))

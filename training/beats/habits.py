"""How fast people say that music is: a density over tempo from tempo-habits.tsv (median beats of some 4,500 pieces, counted from the published
annotations of CPJKU/beat_this_annotations, MIT; Foscarin, Schlueter and Widmer, ISMIR 2024). Every set weighs as the root of its pieces, so that
none speaks for all; the drummers' grooves and the guitar takes are left out, the first being trained and the second judged on.
Usage: habits.py prints the table of models/beats.json: the log density at each place of a beat's length against an even spread, by the sets of songs alone (no
concert pieces, dances, jazz or percussion): 12 in a hundred of them are tapped at over 150 a minute, of all music 24."""
import os

import numpy as np

LEFT_OUT = ("groove_midi", "guitarset")
NOT_SONGS = ("asap", "ballroom", "candombe", "filosax", "hjdb", "jaah", "smc")
LOW, HIGH, PER_OCTAVE = 32.0, 294.0, 20
WIDTH = 0.10  # of the bell about each bin, in octaves; bins of ten beats a minute are a quarter of an octave at 60
PLACES = 64


def density(left_out=LEFT_OUT, path=os.path.join(os.path.dirname(os.path.abspath(__file__)), "tempo-habits.tsv")):
    """At PLACES tempi from 32 beats a minute, 20 to an octave: how likely, summing to 1, with a hundredth spread evenly."""
    places = np.log2(LOW) + np.arange(PLACES) / PER_OCTAVE
    total = np.zeros(PLACES)
    lines = [line.rstrip("\n").split("\t") for line in open(path) if not line.startswith("#")]
    bins = [k for k, name in enumerate(lines[0]) if name[0].isdigit() and "-" in name]
    for line in lines[1:]:
        if line[0] in left_out:
            continue
        here = np.zeros(PLACES)
        for k in bins:
            low, high = map(float, lines[0][k].split("-"))
            for tempo in np.linspace(low, high, 6)[:-1] + (high - low) / 10:
                bell = np.exp(-0.5 * ((places - np.log2(tempo)) / WIDTH) ** 2)
                here += float(line[k]) / 5 * bell / bell.sum()
        total += here / here.sum() * np.sqrt(float(line[1]))
    total /= total.sum()
    return 0.99 * total + 0.01 / PLACES


def likely(tempo, table=density()):
    """Against an even spread over the logarithm of the tempo."""
    place = np.clip((np.log2(tempo) - np.log2(LOW)) * PER_OCTAVE, 0, PLACES - 1)
    return float(np.interp(place, np.arange(PLACES), table)) * PLACES


if __name__ == "__main__":
    print([round(float(v), 3) for v in np.log(density(LEFT_OUT + NOT_SONGS) * PLACES)])

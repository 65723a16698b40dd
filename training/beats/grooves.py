"""Grooves by human drummers, with the timing and the strength of their hands, as one packed file. Usage: grooves.py FOLDER OUT.npz
FOLDER is the Groove MIDI Dataset (J. Gillick, A. Roberts, J. Engel, D. Eck, D. Bamman, "Learning to Groove with Inverse Sequence Transformations",
ICML 2019; CC BY 4.0). The drummers played to a click, so a place in the file is a place in beats at the tempo that they felt."""
import csv
import os
import sys

import numpy as np

METERS = {"4-4": (4, 1.0), "3-4": (3, 1.0), "6-8": (2, 1.5)}
KINDS = dict(rock="rock", punk="rock", country="rock", pop="rock", gospel="rock", middleeastern="rock", dance="sixteen", funk="sixteen", soul="sixteen", hiphop="sixteen",
             neworleans="sixteen", reggae="sixteen", latin="latin", afrocuban="latin", afrobeat="latin", highlife="latin", jazz="swing", blues="swing")
# Pads of the drummers' kit that the bank doesn't have.
PADS = {22: 42, 26: 46, 58: 43, 52: 49, 55: 57, 59: 51, 44: 44, 31: 38}
SHORTEST = 8  # bars


def number(data, at):
    value = 0
    while True:
        value = value << 7 | data[at] & 0x7F
        at += 1
        if data[at - 1] < 0x80:
            return value, at


def strokes(path):
    """(place in quarters, pad, velocity) of every stroke of a Standard MIDI File."""
    data, out = open(path, "rb").read(), []
    ticks, at = int.from_bytes(data[12:14], "big"), 14
    while at < len(data):
        size, at = int.from_bytes(data[at + 4:at + 8], "big"), at + 8
        end, now, status = at + size, 0, 0
        while at < end:
            step, at = number(data, at)
            now += step
            if data[at] >= 0x80:
                status, at = data[at], at + 1
            if status == 0xFF:
                size, after = number(data, at + 1)
                at = after + size
            elif status in (0xF0, 0xF7):
                size, after = number(data, at)
                at = after + size
            else:
                if status >> 4 == 9 and data[at + 1] > 0:
                    out.append((now / ticks, data[at], data[at + 1]))
                at += 1 if status >> 4 in (12, 13) else 2
    return sorted(out)


def main(folder, out):
    table, rows = [], []
    for line in csv.DictReader(open(os.path.join(folder, "info.csv"))):
        path, kind = os.path.join(folder, line["midi_filename"]), KINDS.get(line["style"].split("/")[0])
        if not os.path.exists(path) or line["time_signature"] not in METERS or kind is None:
            continue
        beats, unit = METERS[line["time_signature"]]
        row = np.array([(place / unit, PADS.get(pad, pad), velocity) for place, pad, velocity in strokes(path)], np.float32)
        bars = int(row[-1, 0] / beats) if len(row) else 0
        if bars >= SHORTEST:
            table.append((kind, float(line["bpm"]) / unit, beats, bars, sum(map(len, rows)), len(row), line["split"]))
            rows.append(row)
    names = ("kind", "tempo", "beats", "bars", "first", "count", "split")
    np.savez_compressed(out, rows=np.concatenate(rows), **{n: np.array([t[k] for t in table]) for k, n in enumerate(names)})
    print(len(table), "grooves", round(sum(60 / t[1] * t[2] * t[3] for t in table) / 60), "minutes")


class Grooves:
    """The grooves of one split: one that fits a tempo, as (place in beats, pad, velocity) over its bars."""

    def __init__(self, path, split="train"):
        data = np.load(path)
        self.rows = data["rows"]
        self.table = [(str(k), float(t), int(b), int(n), int(f), int(c)) for k, t, b, n, f, c, s in zip(*(data[x] for x in ("kind", "tempo", "beats", "bars", "first", "count", "split"))) if (str(s) == "train") == (split == "train")]

    def draw(self, rng, kinds, beats, tempo, within=0.14):
        fits = [g for g in self.table if g[0] in kinds and g[2] == beats and abs(np.log(tempo / g[1])) < within]
        if not fits:
            return None
        kind, felt, beats, bars, first, count = fits[int(rng.integers(len(fits)))]
        return self.rows[first:first + count], bars


def played(piece, layer, groove, beats):
    """Goes round a groove from one of its bars on; strokes lie where the drummer put them."""
    rng, (rows, bars) = piece.rng, groove
    first, length = int(rng.integers(bars)), min(bars, int(rng.choice([4, 8, 16, 64])))
    first = min(first, bars - length)
    drop = {int(p) for p in set(rows[:, 1]) if rng.random() < 0.04}
    for index, (start, count) in enumerate(piece.bars):
        at = (first + index % length) * beats
        for place, pad, velocity in rows[(rows[:, 0] >= at - 0.12) & (rows[:, 0] < at + min(count, beats) - 0.12)]:
            if int(pad) not in drop:
                piece.play(layer, start + place - at, 0.5, int(pad), (velocity / 105) ** 0.8)


if __name__ == "__main__":
    main(*sys.argv[1:])

"""Packs recordings with their notes for scoring on the machine that trains.

    python3 recordings.py FOLDER OUT.bank [--seconds 60] [--every 1] [--a4 440]

FOLDER holds NAME.wav beside NAME.jams (note_midi), as `harkbook eval` reads them. They choose nothing in training.
"""
import argparse
import glob
import json
import math
import os

import numpy as np
from scipy.io import wavfile
from scipy.signal import resample_poly

import bank


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("folder")
    parser.add_argument("out")
    parser.add_argument("--seconds", type=float, default=60, help="of each recording, from its start")
    parser.add_argument("--every", type=int, default=1, help="take every n-th recording")
    parser.add_argument("--a4", type=float, default=440.0, help="what the recordings are tuned to, in hertz")
    options = parser.parse_args()
    paths = sorted(glob.glob(os.path.join(options.folder, "*.jams")))[:: options.every]
    bank.pack([recording(path, options.seconds, options.a4) for path in paths], options.out)
    print(options.out, len(paths), "recordings", round(os.path.getsize(options.out) / 2**20, 1), "MiB")


def recording(jams, seconds, a4):
    rate, sound = wavfile.read(jams[:-5] + ".wav")
    sound = sound[: int(seconds * rate)] / (np.iinfo(sound.dtype).max if sound.dtype.kind == "i" else 1.0)
    mono = sound.mean(1) if sound.ndim > 1 else sound
    shared = math.gcd(bank.RATE, rate)
    heard = resample_poly(mono, bank.RATE // shared, rate // shared)
    notes = [[d["value"], d["time"], d["time"] + d["duration"]] for a in json.load(open(jams))["annotations"] if a["namespace"] == "note_midi" for d in listed(a["data"])]
    inside = sorted((n for n in notes if n[1] < len(heard) / bank.RATE), key=lambda n: n[1])
    return dict(name=os.path.basename(jams)[:-5], a4=a4, notes=inside), heard


def listed(data):
    """JAMS keeps observations as a list, or as a list a field."""
    return data if isinstance(data, list) else [dict(zip(data, values)) for values in zip(*data.values())]


if __name__ == "__main__":
    main()

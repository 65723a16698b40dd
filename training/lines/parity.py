"""Writes the fixture that ties the program's third input (place in the stereo picture) and the line network's outputs to these.

    python3 parity.py FOLDER CHECKPOINT
"""
import importlib.util
import os
import sys

import numpy as np
import torch

import linenet
from ear import QUIET

import features

spec = importlib.util.spec_from_file_location("note_parity", os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "notes", "parity.py"))
notes = importlib.util.module_from_spec(spec)
spec.loader.exec_module(notes)
HELD = 523.3  # hertz of a tone that holds, four harmonics of 0.2 / h, three tenths of it on the left


def sound():
    """Left and right: the notes of the note network's fixture in the middle, and a tone that holds, farther right."""
    t = np.arange(features.RATE) / features.RATE
    tone = sum(0.2 / h * np.sin(2 * np.pi * HELD * h * t) for h in range(1, 5))
    return notes.sound() + 0.3 * tone, notes.sound() + 0.7 * tone


def main(folder, checkpoint):
    left, right = sound()
    middle = (left + right) / 2
    gain = features.level(middle)
    kernels = np.conj(features.kernels(notes.A4)[0])
    made = features.reference(middle, notes.A4)
    place = np.zeros((1, *made.shape[1:]))
    for t in range(made.shape[1]):
        powers = []
        for side in (left, right):
            padded = np.pad(side * gain, features.SIZE // 2 + features.HOP)
            spectrum = np.fft.rfft(padded[features.HOP * (t + 1) : features.HOP * (t + 1) + features.SIZE])
            powers.append((np.abs(kernels @ spectrum) / features.SIZE) ** 2 + QUIET)
        place[0, t] = np.clip(10 * np.log10(powers[1] / powers[0]) / 40, -0.5, 0.5)
    with open(os.path.join(folder, "line-places.csv"), "w") as file:
        file.write("frame,bin,value\n")
        for frame in notes.FRAMES:
            for b in range(features.BINS):
                file.write(f"{frame},{b},{place[0, frame, b]:.7f}\n")
    model = linenet.Network()
    model.load_state_dict(torch.load(checkpoint, map_location="cpu")["average"])
    inputs = np.concatenate([made, place])[None]
    inputs = inputs[:, :, : inputs.shape[2] // 2 * 2]
    with torch.no_grad():
        kinds, onset, off = linenet.Shipped(model.eval())(torch.tensor(inputs, dtype=torch.float32))
    with open(os.path.join(folder, "line-outputs.csv"), "w") as file:
        file.write("output,frame,pitch,value\n")
        for name, values in [(f"kind {k}", kinds[0, k]) for k in range(5)] + [("onset", onset[0]), ("off", off[0])]:
            for frame in notes.FRAMES:
                if frame < values.shape[0]:
                    for pitch in range(values.shape[1]):
                        file.write(f"{name},{frame},{36 + pitch},{float(values[frame, pitch]):.6f}\n")


if __name__ == "__main__":
    main(*sys.argv[1:])

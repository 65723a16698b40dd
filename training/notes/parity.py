"""Writes the fixture that ties the program's features (and the network's outputs) to these.

    python3 parity.py FOLDER [CHECKPOINT]
"""
import os
import sys

import numpy as np
import torch

import features
import network as networks

A4 = 442.0
NOTES = ((0.10, 110.5, 0.5, 2.0), (0.30, 196.9, 0.3, 3.0), (0.55, 331.1, 0.2, 4.0))  # start s, hertz, amplitude, decay 1/s
FRAMES = (0, 1, 12, 27, 43, 50, 70, 86)


def sound():
    """One second: for each note, from its start s on, amplitude * sum over h = 1..6 of exp(-decay h u) sin(2 pi h f u) / h, u = t - s."""
    t = np.arange(features.RATE) / features.RATE
    out = np.zeros(len(t))
    for start, hertz, amplitude, decay in NOTES:
        u = np.maximum(t - start, 0)
        for h in range(1, 7):
            out += np.where(t >= start, amplitude * np.exp(-decay * h * u) * np.sin(2 * np.pi * h * hertz * u) / h, 0)
    return out


def main(folder, checkpoint=None):
    made = features.reference(sound(), A4)
    with open(os.path.join(folder, "note-features.csv"), "w") as file:
        file.write("channel,frame,bin,value\n")
        for channel in range(2):
            for frame in FRAMES:
                for b in range(features.BINS):
                    file.write(f"{channel},{frame},{b},{made[channel, frame, b]:.7f}\n")
    if checkpoint is None:
        return
    model = networks.Network()
    model.load_state_dict(torch.load(checkpoint, map_location="cpu")["average"])
    with torch.no_grad():
        outputs = networks.Shipped(model.eval())(torch.tensor(made[None], dtype=torch.float32))
    with open(os.path.join(folder, "note-outputs.csv"), "w") as file:
        file.write("output,frame,pitch,value\n")
        for name, values in zip(("onset", "frame", "offset"), outputs):
            for frame in FRAMES:
                for pitch in range(values.shape[2]):
                    file.write(f"{name},{frame},{36 + pitch},{float(values[0, frame, pitch]):.6f}\n")


if __name__ == "__main__":
    main(*sys.argv[1:])

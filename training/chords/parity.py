"""Writes what ties the program to the network: note evidence that a formula tells, its rows and outputs. Usage: parity.py CHORDS.pt FOLDER"""
import os
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "beats"))
import numpy as np
import torch

from model import ChordNetwork
from spans import BEAT, BETWEEN, DOWNBEAT, HOP, LOWEST, NONE, frames, rows

PITCHES, FRAMES = 61, 400


def evidence():
    """Sounding and onset [frames, pitches]."""
    f, p = np.arange(FRAMES)[:, None], np.arange(PITCHES)[None]
    sounding = np.clip(np.sin(0.05 * f * (1 + p % 5) + 1.3 * p), 0, 1) ** 2 * ((p * 7 + f // 60) % 5 == 0)
    return sounding, np.clip(np.sin(0.11 * f + 0.7 * p), 0, 1) ** 8 * ((p * 7 + f // 60) % 5 == 0)


def main(weights, folder):
    starts, places = np.array([0, 0.5, 1.02, 1.5, 1.75, 2.5, 3.02, 3.5, 4.0]), np.array([DOWNBEAT, BEAT, BEAT, BEAT, BETWEEN, DOWNBEAT, NONE, BEAT, BETWEEN])
    first, last = frames(starts, FRAMES * HOP, FRAMES)
    sounding, onset = (torch.from_numpy(x.astype(np.float32))[None] for x in evidence())
    tensor = lambda x: torch.from_numpy(np.asarray(x))[None]
    seen = rows(sounding, onset, tensor(first), tensor(last), tensor(np.diff(np.append(starts, FRAMES * HOP))), tensor(places))
    network = ChordNetwork()
    network.load_state_dict(torch.load(weights, map_location="cpu"))
    with torch.no_grad():
        out = torch.cat([v.flatten(2) for v in network.eval()(seen)], 2)
    for name, values in (("rows.csv", seen[0].numpy()), ("outputs.csv", out[0].numpy())):
        with open(os.path.join(folder, name), "w") as file:
            file.writelines(",".join(f"{v:.6f}" for v in row) + "\n" for row in values)


if __name__ == "__main__":
    main(*sys.argv[1:])

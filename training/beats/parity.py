"""Writes what ties the program to the network: bands and outputs of a sound that a formula tells. Usage: parity.py BEATS.pt FOLDER"""
import os
import sys

import numpy as np
import torch

from features import Features, RATE
from network import BeatNetwork, Exported


def sound():
    time = np.arange(6 * RATE) / RATE
    out = np.zeros(len(time))
    for k in range(12):
        since = np.maximum(0, time - 0.25 - 0.46 * k)
        hertz = 110 * 2 ** ((k * 5 % 12) / 12)
        tone = 0.5 * np.sin(2 * np.pi * hertz * since) + 0.2 * np.sin(2 * np.pi * 4 * hertz * since) + 0.1 * np.sin(2 * np.pi * 2500 * since) * np.exp(-since / 0.01)
        out += (time >= 0.25 + 0.46 * k) * np.exp(-since / 0.2) * tone
    return out.astype(np.float32)


def main(weights, folder):
    bands = Features()(torch.from_numpy(sound())[None])
    network = BeatNetwork()
    network.load_state_dict(torch.load(weights, map_location="cpu"))
    network.eval()
    with torch.no_grad():
        pulse = np.delete(Exported(network)(bands)[0].numpy(), 2, 1)
    for name, values, rows in (("bands.csv", bands[0].numpy(), (0, 3, 12, 13, 40, 77, 150, 222, 300)), ("outputs.csv", pulse, (0, 12, 36, 100, 151, 299))):
        with open(os.path.join(folder, name), "w") as file:
            file.writelines(f"{k}," + ",".join(f"{v:.6f}" for v in values[k]) + "\n" for k in rows)


if __name__ == "__main__":
    main(*sys.argv[1:])

"""
Widens a smaller beat network's weights so that they say just the same: new channels add nothing to the old ones until training lets them.
Usage: widen.py OLD.pt NEW.pt, where OLD is of 64 channels and before attention (the repository's history has it).
"""
import sys

import torch

from network import BeatNetwork, WIDTH


def widened(old):
    new = BeatNetwork().state_dict()
    width = len(old["leave.0.weight"])
    half, kept = width // 2, list(range(width))
    both = [*range(half), *range(WIDTH // 2, WIDTH // 2 + half)]
    outputs = {"near": list(range(half)), "far": list(range(half)), "norm": both, "mix": kept}
    inputs = {"near": kept, "far": kept, "mix": both}
    for name, value in old.items():
        part = next((p for p in outputs if f".{p}." in name), "")
        if name.startswith(("pulse", "meter", "tempo")):
            fill(new["heads." + name], value, list(range(len(value))), kept if value.dim() > 1 else None)
        elif name.startswith(("short", "long")) or not value.dim():
            new[name].copy_(value)
        elif part:
            fill(new[name], value, outputs[part], inputs[part] if value.dim() > 1 else None)
        else:
            new[name][:width] = value
    return new


def fill(to, value, rows, columns):
    """Old outputs hear old inputs only."""
    if columns is None:
        to[rows] = value
        return
    to[rows] = 0
    for source, row in zip(value, rows):
        to[row][columns] = source


if __name__ == "__main__":
    torch.manual_seed(3)
    torch.save(widened(torch.load(sys.argv[1], map_location="cpu")), sys.argv[2])

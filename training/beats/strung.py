"""A second bank: plucked strings by the formulas of the note network's training, soft and hard, damped, and strokes on strings that a hand holds.
Needs PyTorch, and a GPU to be quick. Usage: strung.py OUT.npz COUNT SEED"""
import os
import sys

import numpy as np
import torch

from bank import STEP

sys.path.append(os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "notes"))
from strings import Strings  # noqa: E402

LENGTH = int(1.6 * 22050)
PITCHES = range(38, 87, STEP)


def coded(rows):
    """8-bit mu-law of rows whose ends fade, and their peaks."""
    rows = rows.clone()
    rows[:, -400:] *= torch.linspace(1, 0, 400, device=rows.device)
    peak = rows.abs().amax(1, keepdim=True).clamp_min(1e-6)
    x = rows / peak
    return torch.round(x.sign() * torch.log1p(255 * x.abs()) / np.log(256) * 127).to(torch.int8).cpu().numpy(), peak[:, 0].cpu().numpy()


def main(out, count, seed):
    count = int(count)
    device = "cuda" if torch.cuda.is_available() else "cpu"
    strings = Strings(count, int(seed), device)
    names, table, sounds, peaks, length = [f"{n}{k}" for k in range(count) for n in ("pluck", "mute", "dead")], [], [], [], 0
    level = None
    for pitch in PITCHES:
        rows = strings.render(pitch)[:, :LENGTH]
        rms = rows[1::3, :4000].pow(2).mean(1).sqrt()
        level = rms if level is None else level
        some, tops = coded(rows * (0.1 / level.repeat_interleave(3)[:, None]))
        for r in range(len(some)):
            kind, k = r % 3, r // 3
            table.append((3 * k + (1 if kind == 2 else 0), pitch, 110 if kind == 1 else 60, length, LENGTH))
            sounds.append(some[r]), peaks.append(tops[r])
            length += LENGTH
    short = int(0.35 * 22050)
    rows = strings.dead()[:, :short]
    some, tops = coded(rows * (0.05 / rows[:, :2000].pow(2).mean(1, keepdim=True).sqrt().clamp_min(1e-5)))
    for r in range(len(some)):
        table.append((3 * (r // 2) + 2, 60 + 20 * (r % 2), 90, length, short))
        sounds.append(some[r]), peaks.append(tops[r])
        length += short
    np.savez(out, sound=np.concatenate(sounds), names=np.array(names), table=np.array(table, np.int64), peak=np.array(peaks, np.float32))
    print(len(table), "notes", round(os.path.getsize(out) / 1e6), "MB")


if __name__ == "__main__":
    main(*sys.argv[1:])

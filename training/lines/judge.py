"""Judges a line network on clips of instruments that it never heard: another font, other formulas."""
import os

import torch

import playing
from ear import EDGE, Ear, Instruments, Stage
from sung import Sung

STEPS = torch.arange(0.05, 1.0, 0.05)


class Judge:
    def __init__(self, folder, device, count, strings=24, held=8):
        self.sets = {}
        for name in ("font", "formulas", "speakers"):
            rows = Instruments(device)
            rows.add_strings(strings, 901)
            rows.add_font(os.path.join(folder, "held.bank"))
            rows.instruments = {k: v for k, v in rows.instruments.items() if k in (("guitar", "bass", "keys", "drum", "harmonic") if name == "font" else ("string", "bass", "keys", "drum"))}
            if name == "font":
                rows.add_font(os.path.join(folder, "lines-held.bank"))
            elif name == "formulas":
                rows.add_held(held, 977)
            else:
                rows.add_font(os.path.join(folder, "lines-held.bank"))
                Sung(os.path.join(folder, "spoken-held.npz"), 2, 977, device).add_to(rows)
                rows.instruments.pop("voice", None)
            rows.instruments.setdefault("organ", rows.instruments["keys"])
            rows.instruments.setdefault("horn", rows.instruments["keys"])
            rows.instruments.setdefault("bowed", rows.instruments.get("made bowed"))
            if "string" not in rows.instruments:
                rows.instruments["string"] = rows.instruments["guitar"]
            rows.finish()
            ear = Ear(rows.data, Stage(device, 55, rooms=24, sympathies=8), device)
            clips = []
            for k in range(0, count, 16):
                events, labels = playing.batch(rows.facts(), 16, 9_000_000 + k)
                clips.append([t.half() if t.dtype == torch.float32 else t for t in ear(events, labels, 16)])
            self.sets[name] = clips

    @torch.no_grad()
    def report(self, network):
        out = {}
        for name, clips in self.sets.items():
            counts, off, seen = torch.zeros(6, len(STEPS), 3), 0.0, 0
            confusion = torch.zeros(5, 5)
            for features, targets in clips:
                heard = network(features.float())[:, :, EDGE:-EDGE].cpu()
                wanted = targets.float()[:, :, EDGE:-EDGE].cpu()
                chance = torch.sigmoid(heard[:, :6])
                for c in range(6):
                    true = wanted[:, c] > 0.5
                    for k, step in enumerate(STEPS):
                        said = chance[:, c] > step
                        if c == 5:  # a peak within two frames of a true start
                            said &= chance[:, c] >= torch.nn.functional.max_pool2d(chance[:, 5:6], (7, 1), 1, (3, 0))[:, 0]
                            starts = true & (wanted[:, 5] >= torch.nn.functional.max_pool2d(wanted[:, 5:6], (7, 1), 1, (3, 0))[:, 0])
                            near = torch.nn.functional.max_pool2d(starts.float()[:, None], (9, 1), 1, (4, 0))[:, 0] > 0
                            found = torch.nn.functional.max_pool2d(said.float()[:, None], (9, 1), 1, (4, 0))[:, 0] > 0
                            counts[c, k] += torch.tensor([(starts & found).sum(), (said & ~near).sum(), (starts & ~found).sum()])
                        else:
                            counts[c, k] += torch.tensor([(said & true).sum(), (said & ~true).sum(), (~said & true).sum()])
                for a in range(5):
                    only = (wanted[:, a] > 0.5) & (wanted[:, :5].sum(1) == 1)
                    confusion[a] += chance[:, :5].permute(1, 0, 2, 3)[:, only].sum(1) if only.any() else 0
                told = wanted[:, 6] < 1
                off, seen = off + float((heard[:, 6] - wanted[:, 6]).abs()[told].sum()), seen + int(told.sum())
            f = 2 * counts[..., 0] / (2 * counts[..., 0] + counts[..., 1] + counts[..., 2]).clamp_min(1)
            best = f.argmax(1)
            labels = list(playing.NAMES) + ["onset"]
            out[name] = {n: dict(f=round(float(f[c, best[c]]), 3), at=round(float(STEPS[best[c]]), 2), half=round(float(f[c, 9]), 3)) for c, n in enumerate(labels)}
            out[name]["off, semitones"] = round(off / max(1, seen), 4)
            out[name]["heard as"] = {n: [round(float(x), 3) for x in confusion[c] / confusion[c].sum().clamp_min(1e-6)] for c, n in enumerate(playing.NAMES)}
        return out

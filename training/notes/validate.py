"""Scores a network on clips that it never trained on: a font held out, strings held out, both under other instruments; and a real excerpt."""
import json
import os
import random

import numpy as np
import torch

import clips
import features
import score
from effects import Effects
from rows import Rows
from supply import EDGE, Ear, FPS, FRAMES

SETS = {"font alone": dict(families=("guitar",), share=(1.0,), solo=1.0), "strings alone": dict(families=("string",), share=(1.0,), solo=1.0),
        "font mixed": dict(families=("guitar",), share=(1.0,), solo=0.0)}


class Validation:
    def __init__(self, folder, device, count=160, strings=16):
        self.device, self.folder = device, folder
        rows = Rows(device)
        rows.add_strings(strings, 990001)
        rows.add_singers(4, 990003)
        rows.add_font(os.path.join(folder, "held.bank"))
        facts = rows.finish().facts()
        ear = Ear(rows.data, Effects(device, 990007, rooms=24, sympathies=8), device)
        self.sets = {}
        for number, (name, options) in enumerate(SETS.items()):
            made, notes = [], []
            for part in range(0, count, 32):
                size = min(32, count - part)
                events, labels = clips.batch(facts, size, 880000 + 1000 * number + part, **options)
                made.append(ear(events, labels, size)[0].cpu())
                notes += [reference(labels[labels[:, 0] == c]) for c in range(size)]
            self.sets[name] = (torch.cat(made), notes)

    @torch.no_grad()
    def activations(self, network, inputs):
        network.eval()
        out = [torch.sigmoid(network(inputs[k : k + 32].to(self.device)).float()).cpu().numpy() for k in range(0, len(inputs), 32)]
        return np.concatenate(out)

    def run(self, network, thresholds=tuple(k / 20 for k in range(4, 17)), holds=(0.3, 0.4, 0.5, 0.6)):
        """The best thresholds over the guitars alone (and, told apart, over the mixes); every set's measures and the real excerpt's there."""
        acts = {name: self.activations(network, inputs) for name, (inputs, _) in self.sets.items()}
        tables = {t: {name: self.tally(acts[name], name, t, 0.4) for name in acts} for t in thresholds}
        best = max(thresholds, key=lambda t: sum(tables[t][n]["onset"] for n in SETS if "alone" in n))
        mixed = max(thresholds, key=lambda t: sum(tables[t][n]["onset"] for n in SETS if "mixed" in n))
        held = {h: {name: self.tally(acts[name], name, best, h) for name in acts} for h in holds}
        hold = max(holds, key=lambda h: sum(held[h][n]["offset"] + 0.5 * held[h][n]["frame"] for n in SETS))
        report = dict(threshold=best, threshold_mixed=mixed, hold=hold, sets=held[hold], by_threshold={str(t): {n: m["onset"] for n, m in tables[t].items()} for t in thresholds})
        report["real excerpt"] = self.real(network, best, hold)
        return report

    def tally(self, acts, name, threshold, hold):
        tally = score.Tally()
        low, high = (EDGE + 2) / FPS, (FRAMES - EDGE - 2) / FPS
        inside = lambda notes: [n for n in notes if low <= n[1] <= high]
        for act, notes in zip(acts, self.sets[name][1]):
            tally.add(inside(notes), inside(score.pick(act[0], act[1], threshold, hold)), FRAMES / FPS)
        return tally.measures()

    @torch.no_grad()
    def real(self, network, threshold, hold, save=None):
        path = os.path.join(self.folder, "real.npz")
        if not os.path.exists(path):
            return {}
        real = np.load(path)
        if not hasattr(self, "heard"):
            self.heard = features.reference(real["sound"] / 32768.0).astype(np.float32)
        frames = self.heard.shape[1]
        inputs = torch.from_numpy(np.pad(self.heard, ((0, 0), (0, frames % 2), (0, 0)), constant_values=-0.5))[None]
        act = torch.sigmoid(network.eval()(inputs.to(self.device)).float())[0, :, :frames].cpu().numpy()
        if save:
            np.savez_compressed(save, activations=act.astype(np.float16))
        tally = score.Tally()
        tally.add([tuple(n) for n in real["notes"]], score.pick(act[0], act[1], threshold, hold), frames * score.HOP)
        return tally.measures()


def reference(labels):
    """Labels of one clip as notes; a note's parts after a bend belong to it."""
    notes = []
    for _, k, start, end, first, _ in labels:
        if first:
            notes.append((36 + k, start, end))
        elif notes and notes[-1][2] == start:
            notes[-1] = (notes[-1][0], notes[-1][1], end)
    return notes


def show(report):
    lines = [f"threshold {report['threshold']} (mixes {report['threshold_mixed']}) hold {report['hold']}"]
    lines += [f"  {name}: {score.text(m)}" for name, m in report["sets"].items()]
    lines.append(f"  real excerpt (a lead only): {score.text(report['real excerpt'])}")
    return "\n".join(lines)

"""Scores networks on sound that they never trained on: clips of a font held out, of strings held out, of the font under other
instruments. Thresholds are chosen on these. Clips of recorded notes (samples.py) and recordings (recordings.py) only judge."""
import glob
import os

import numpy as np
import torch

import bank
import clips
import features
import score
from effects import Effects
from rows import Rows
from supply import EDGE, Ear, FPS, FRAMES

SETS = {"font alone": dict(families=("guitar",), share=(1.0,), solo=1.0), "strings alone": dict(families=("string",), share=(1.0,), solo=1.0),
        "font mixed": dict(families=("guitar",), share=(1.0,), solo=0.0)}
RECORDED = dict(families=("recorded",), share=(1.0,), solo=1.0)
THRESHOLDS, HOLDS = tuple(k / 20 for k in range(4, 17)), (0.3, 0.4, 0.5, 0.6)


class Validation:
    """Made sets; where FOLDER/recorded.bank is, the same of its notes, with effects and dry; a set for every FOLDER/scored/NAME.bank."""

    def __init__(self, folder, device, count=160, strings=16):
        self.device = device
        rows = Rows(device)
        rows.add_strings(strings, 990001)
        rows.add_singers(4, 990003)
        rows.add_font(os.path.join(folder, "held.bank"))
        recorded = os.path.join(folder, "recorded.bank")
        if os.path.exists(recorded):
            rows.add_font(recorded)
        facts = rows.finish().facts()
        effects = Effects(device, 990007, rooms=24, sympathies=8)
        ear = Ear(rows.data, effects, device)
        self.sets = {name: made(facts, ear, 880000 + 1000 * number, count, options) for number, (name, options) in enumerate(SETS.items())}
        if os.path.exists(recorded):
            dry = Ear(rows.data, effects.leaving_out(frozenset(("rooms", "colour", "wear")), 990009), device)
            self.sets["recorded notes"] = made(facts, ear, 883000, count, RECORDED)
            self.sets["recorded notes, dry"] = made(facts, dry, 883000, count, RECORDED)
        for path in sorted(glob.glob(os.path.join(folder, "scored", "*.bank"))):
            recordings = bank.unpack(path)
            self.sets[os.path.basename(path)[:-5]] = ([spectra(sound, facts["a4"], device) for facts, sound in recordings], [facts["notes"] for facts, _ in recordings])

    @torch.no_grad()
    def hear(self, network):
        """Each set's activations: a list of [3, frames, 61] a clip."""
        network.eval()
        answer = lambda batch: list(torch.sigmoid(network(batch.to(self.device)).float()).half().cpu().numpy())
        with torch.backends.cudnn.flags(benchmark=False):  # recordings have many lengths
            return {name: [a for batch in batches for a in answer(batch)] for name, (batches, _) in self.sets.items()}

    def notes(self):
        return {name: notes for name, (_, notes) in self.sets.items()}


def made(facts, ear, seed, count, options):
    """Batches of features, and each clip's notes."""
    batches, notes = [], []
    for part in range(0, count, 32):
        size = min(32, count - part)
        events, labels = clips.batch(facts, size, seed + part, **options)
        batches.append(ear(events, labels, size)[0].cpu())
        notes += [reference(labels[labels[:, 0] == c]) for c in range(size)]
    return batches, notes


def spectra(sound, a4, device):
    """Features [1, 2, frames (even), BINS] of a recording that is tuned to a4."""
    sound = torch.tensor(sound * features.level(sound), dtype=torch.float64, device=device)[None]
    heard = features.Features(a4).double().to(device)(sound).float().cpu()
    return torch.nn.functional.pad(heard, (0, 0, 0, heard.shape[2] % 2), value=-0.5)


def judge(heard, notes):
    """The best thresholds over the guitars alone (and, told apart, over the mixes), and every set's measures there."""
    tables = {t: {name: tally(heard[name], notes[name], t, 0.4, True) for name in SETS} for t in THRESHOLDS}
    best = max(THRESHOLDS, key=lambda t: sum(tables[t][n]["onset"] for n in SETS if "alone" in n))
    mixed = max(THRESHOLDS, key=lambda t: sum(tables[t][n]["onset"] for n in SETS if "mixed" in n))
    held = {h: {name: tally(heard[name], notes[name], best, h, True) for name in SETS} for h in HOLDS}
    hold = max(HOLDS, key=lambda h: sum(held[h][n]["offset"] + 0.5 * held[h][n]["frame"] for n in SETS))
    judged = {name: tally(heard[name], notes[name], best, hold, name.startswith("recorded notes")) for name in heard if name not in SETS}
    return dict(threshold=best, threshold_mixed=mixed, hold=hold, sets=dict(held[hold], **judged),
                by_threshold={str(t): {n: m["onset"] for n, m in tables[t].items()} for t in THRESHOLDS})


def tally(heard, notes, threshold, hold, clipped):
    """The measures over a set; of clips, what begins near either end does not count."""
    total = score.Tally()
    low, high = ((EDGE + 2) / FPS, (FRAMES - EDGE - 2) / FPS) if clipped else (0, float("inf"))
    inside = lambda found: [n for n in found if low <= n[1] <= high]
    for act, truth in zip(heard, notes):
        act = act.astype(np.float32)
        total.add(inside(truth), inside(score.pick(act[0], act[1], threshold, hold)), act.shape[1] / FPS)
    return total.measures()


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
    return "\n".join(lines + [f"  {name}: {score.text(m)}" for name, m in report["sets"].items()])

"""Trains the line network on sound made on the fly, on one GPU, from the note network's weights on:

    python3 train.py --folder BANKS --out OUT --begin ../notes/runs/2-average.pt --seconds 400

Stops itself after --seconds, judges, exports lines.onnx; writes a checkpoint every 90 seconds from which --resume goes on.
"""
import argparse
import copy
import json
import os
import sys
import time

import torch
from torch.nn import functional as F

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "notes"))
import linenet  # noqa: E402
import playing  # noqa: E402
import ship  # noqa: E402
from ear import EDGE, Ear, Instruments, Stage  # noqa: E402
from judge import Judge  # noqa: E402
from learner import Learner, compiled, quick  # noqa: E402
from sung import Sung  # noqa: E402
from supply import Supply  # noqa: E402

BORN = time.time()


def arguments():
    parser = argparse.ArgumentParser()
    parser.add_argument("--folder", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--begin", help="a note network's weights")
    parser.add_argument("--resume")
    parser.add_argument("--seconds", type=float, default=400)
    parser.add_argument("--rate", type=float, default=1.5e-3)
    parser.add_argument("--batch", type=int, default=96)
    parser.add_argument("--strings", type=int, default=200)
    parser.add_argument("--held", type=int, default=70, help="instruments from formulas of each kind")
    parser.add_argument("--sung", type=int, default=6, help="singers made of each speaker")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--workers", type=int, default=13)
    parser.add_argument("--count", type=int, default=160)
    return parser.parse_args()


class LineLearner(Learner):
    """Learns kinds, onsets and deviations."""

    def __init__(self, device, seed, rate, begin):
        torch.manual_seed(seed)
        network = linenet.Network()
        if begin:
            network.begin_with(torch.load(begin, map_location="cpu")["average"])
        super().__init__(device, seed, rate, network=network.to(device, memory_format=torch.channels_last), follow=0.998)

    def gradients(self, features, targets, forward):
        with torch.autocast(self.device.type, torch.bfloat16, enabled=self.device.type == "cuda"):
            heard = forward(features.contiguous(memory_format=torch.channels_last))
        parts = loss(heard.float()[:, :, EDGE:-EDGE], targets[:, :, EDGE:-EDGE])
        (parts * torch.tensor([0.5, 1.2, 1.2, 1.2, 1.2, 5.0, 0.02, 0.03], device=parts.device)).sum().backward()
        return parts.detach()


def loss(heard, targets):
    """
    Cross-entropies of five kinds and the onset, what is rare weighing more; the mean error of the deviation where a line sounds; and
    where one kind of line sounds, the cross-entropy of which.
    """
    weight = torch.cat([torch.ones_like(targets[:, :1]), 1 + 0.5 * targets[:, 1:5], 1 + targets[:, 5:6]], 1)
    crossed = (F.binary_cross_entropy_with_logits(heard[:, :6], targets[:, :6], reduction="none") * weight).mean((0, 2, 3))
    told = targets[:, 6] < 1
    off = ((heard[:, 6] - targets[:, 6]).abs() * told).sum() / told.sum().clamp_min(1)
    lone = targets[:, 1:5].sum(1) == 1
    which = F.cross_entropy(heard[:, 1:5].permute(0, 2, 3, 1)[lone], targets[:, 1:5].permute(0, 2, 3, 1)[lone])
    return torch.cat([crossed, off[None], which[None]])


def main():
    o = arguments()
    device = torch.device("cuda:0" if torch.cuda.is_available() else "cpu")
    quick(device)
    log_file = open(os.path.join(o.out, "log.txt"), "a")

    def log(*words):
        line = f"{time.time() - BORN:7.1f} " + " ".join(str(w) for w in words)
        print(line, flush=True)
        print(line, file=log_file, flush=True)

    learner = LineLearner(device, o.seed, o.rate, o.begin)
    if o.resume:
        learner.load(o.resume)
    log("device", device, "parameters", sum(p.numel() for p in learner.network.parameters()))
    rows = Instruments(device)
    rows.add_strings(o.strings, 20000 * o.seed + 1)
    rows.add_font(os.path.join(o.folder, "train.bank"))
    rows.instruments = {k: v for k, v in rows.instruments.items() if k not in ("lead", "voice", "sustained")}
    rows.add_font(os.path.join(o.folder, "lines.bank"))
    rows.add_held(o.held, 30000 * o.seed + 3)
    Sung(os.path.join(o.folder, "spoken.npz"), o.sung, 50000 * o.seed + 7, device).add_to(rows)
    rows.finish()
    log("rows", tuple(rows.data.shape), {k: len(v) for k, v in rows.instruments.items()})
    ear = Ear(rows.data, Stage(device, 40000 * o.seed), device)
    supply = Supply(rows.facts(), o.batch, o.workers, 10**7 * (o.seed + 2), {}, playing.batch)
    fast = compiled(learner.network.train(), device)
    losses, told, start, clips, saved = torch.zeros(8, device=device), time.time(), time.time(), 0, time.time()
    first = told_step = learner.step
    while (progress := (time.time() - start) / (o.seconds - (start - BORN))) < 1:
        events, labels = supply.take()
        features, targets = ear(events, labels, o.batch)
        losses += learner.gradients(features, targets, fast)
        learner.advance(progress)
        clips += o.batch
        if learner.taken % 20 == 0 and time.time() - told > 10:
            n = max(1, learner.step - told_step)
            log(f"step {learner.step} loss {[round(float(x) / n, 4) for x in losses]} rate {learner.optimiser.param_groups[0]['lr']:.1e}",
                f"clips/s {clips / (time.time() - start):.0f} waited {supply.waited:.0f}")
            losses.zero_()
            told, told_step = time.time(), learner.step
        if time.time() - saved > 90:
            saved = time.time()
            torch.save(dict(average=learner.average.state_dict(), step=learner.step), os.path.join(o.out, "checkpoint.pt"))
    supply.stop()
    log("steps", learner.step - first, "clips", clips, "hours", round(clips * 4.458 / 3600, 1))
    torch.save(dict(average=learner.average.state_dict(), step=learner.step), os.path.join(o.out, "checkpoint.pt"))
    ship.write(copy.deepcopy(learner.average), os.path.join(o.out, "lines.onnx"), dict(context=learner.average.context, steps=learner.step, license="MIT"))
    log("exported")
    report = Judge(o.folder, device, o.count).report(learner.average)
    json.dump(report, open(os.path.join(o.out, "report.json"), "w"), indent=1)
    for name, part in report.items():
        log(name, part)


if __name__ == "__main__":
    main()

"""Trains the note network on sound made on the fly. One process a GPU:

    torchrun --nproc-per-node 2 train.py --folder BANKS --out OUT --seconds 420 [--resume CHECKPOINT] [--rate 2e-3] [--without PART ...]

Stops itself after --seconds, validates, exports notes.onnx; writes a checkpoint every two minutes from which --resume goes on.
"""
import argparse
import copy
import json
import os
import time

import torch
import torch.distributed as dist

import export
import mix
import recipe
import validate
from clips import batch
from effects import Effects
from learner import Learner, compiled, quick
from rows import Rows
from supply import Ear, Supply

BORN = time.time()


def arguments():
    parser = argparse.ArgumentParser()
    parser.add_argument("--folder", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--seconds", type=float, default=420, help="of training, from the process's start, before validation")
    parser.add_argument("--resume")
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--warm", type=int, default=150)
    parser.add_argument("--batch", type=int, default=128)
    parser.add_argument("--strings", type=int, default=260)
    parser.add_argument("--singers", type=int, default=40)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--workers", type=int, default=13)
    parser.add_argument("--count", type=int, default=160, help="clips in each validation set")
    parser.add_argument("--channels", type=int, default=64)
    parser.add_argument("--without", nargs="*", default=[], choices=list(recipe.PARTS), help="parts of the recipe to leave out")
    return parser.parse_args()


class Trainer:
    def __init__(self, options):
        self.o = options
        self.rank, self.ranks = int(os.environ.get("RANK", 0)), int(os.environ.get("WORLD_SIZE", 1))
        cuda = torch.cuda.is_available()
        self.device = torch.device(f"cuda:{int(os.environ.get('LOCAL_RANK', 0))}" if cuda else "cpu")
        quick(self.device)
        if self.ranks > 1:
            dist.init_process_group("nccl" if cuda else "gloo")
        self.log_file = open(os.path.join(options.out, "log.txt"), "a") if self.rank == 0 else None
        self.learner = Learner(self.device, options.seed, options.rate, options.warm, options.channels)
        self.fast = compiled(self.learner.network.train(), self.device)
        self.progress = 0.0
        if options.resume:
            self.learner.load(options.resume)
            self.log("resumed from step", self.learner.step)

    def log(self, *words):
        if self.rank == 0:
            line = f"{time.time() - BORN:7.1f} " + " ".join(str(w) for w in words)
            print(line, flush=True)
            print(line, file=self.log_file, flush=True)

    def sound(self):
        o = self.o
        rows = Rows(self.device)
        seed = 10000 * (o.seed + 1) + 100 * self.rank
        rows.add_strings(o.strings, seed + 1)
        rows.add_singers(o.singers, seed + 3)
        rows.add_font(os.path.join(o.folder, "train.bank"))
        rows.finish()
        self.log("rows", tuple(rows.data.shape), {k: len(v) for k, v in rows.instruments.items()})
        if self.device.type == "cuda":
            self.log("mixing differs from its plain form by", mix.difference(rows.data, batch(rows.facts(), 2, 7)[0]))
        without = recipe.parts(o.without)
        self.ear = Ear(rows.data, Effects(self.device, seed + 5, without=without), self.device)
        self.supply = Supply(rows.facts(), o.batch, o.workers, 10**7 * (o.seed + 1) + 10**6 * 5 * self.rank, dict(without=without))

    def train(self):
        learner, losses, told, clips = self.learner, torch.zeros(3, device=self.device), time.time(), 0
        start = saved = time.time()
        told_step = first = learner.step
        progress, self.supply.waited = 0.0, 0.0
        while progress < 1:
            events, labels = self.supply.take()
            features, targets = self.ear(events, labels, self.o.batch)
            losses += learner.gradients(features, targets, self.fast)
            progress = self.share((time.time() - start) / (self.o.seconds - (start - BORN)))
            learner.advance(progress)
            if learner.taken in (30, 50):
                self.clock(events, labels, features, targets)
            clips += self.o.batch * self.ranks
            if time.time() - told > 8 and self.rank == 0:
                n = max(1, learner.step - told_step)
                self.log(f"step {learner.step} loss {[round(float(x) / n, 4) for x in losses]} rate {learner.optimiser.param_groups[0]['lr']:.2e}",
                         f"clips/s {clips / (time.time() - start):.0f} waited {self.supply.waited:.1f}")
                losses.zero_()
                told, told_step = time.time(), learner.step
            if time.time() - saved > 110:
                saved = time.time()
                self.save()
        self.log("steps", learner.step, "clips this run", clips, "hours of sound", round(clips * 4.458 / 3600, 1))

    def clock(self, events, labels, features, targets):
        """Logs what one step's parts take."""
        spent = []
        for part in (lambda: mix.mix(self.ear.data, torch.from_numpy(events).to(self.device), self.o.batch), lambda: self.ear.sound(events, self.o.batch),
                     lambda: self.ear(events, labels, self.o.batch), lambda: self.learner.gradients(features, targets, self.fast)):
            if self.device.type == "cuda":
                torch.cuda.synchronize()
            start = time.time()
            part()
            if self.device.type == "cuda":
                torch.cuda.synchronize()
            spent.append(round(1000 * (time.time() - start), 1))
        self.learner.optimiser.zero_grad(set_to_none=True)
        self.log("milliseconds of mixing, + effects, + features and targets; of learning:", spent)

    def share(self, progress):
        """Averages the gradients and the clock over the processes; the clock, looked at every eighth step."""
        gradients = [p.grad for p in self.learner.network.parameters()]
        flat = torch.cat([g.reshape(-1) for g in gradients] + [torch.tensor([progress], device=self.device)])
        if self.ranks > 1:
            dist.all_reduce(flat)
            flat /= self.ranks
            at = 0
            for g in gradients:
                g.copy_(flat[at : at + g.numel()].view_as(g))
                at += g.numel()
        if self.learner.step % 8 == 0:
            self.progress = float(flat[-1])
        return self.progress

    def save(self):
        if self.rank == 0:
            torch.save(self.learner.state(), os.path.join(self.o.out, "checkpoint.pt"))

    def finish(self):
        self.supply.stop()
        self.save()
        if self.rank:
            return
        average = self.learner.average
        validation = validate.Validation(self.o.folder, self.device, self.o.count)
        self.log("validation clips made")
        report = validate.judge(validation.hear(average), validation.notes())
        self.log(validate.show(report))
        json.dump(report, open(os.path.join(self.o.out, "report.json"), "w"), indent=1)
        facts = dict(context=average.context, threshold=report["threshold"], threshold_mixed=report["threshold_mixed"], hold=report["hold"], hop=256, rate=22050, lowest_pitch=36,
                     steps=self.learner.step, license="MIT")
        export.write(copy.deepcopy(average), os.path.join(self.o.out, "notes.onnx"), facts)
        self.log("exported")


if __name__ == "__main__":
    trainer = Trainer(arguments())
    trainer.log(f"device {trainer.device} processes {trainer.ranks} parameters {sum(p.numel() for p in trainer.learner.network.parameters())}")
    trainer.sound()
    trainer.train()
    trainer.finish()

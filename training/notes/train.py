"""Trains the note network on sound made on the fly. One process a GPU:

    torchrun --nproc-per-node 2 train.py --folder BANKS --out OUT --seconds 420 [--resume CHECKPOINT] [--rate 2e-3]

Stops itself after --seconds, validates, exports notes.onnx; writes a checkpoint every two minutes from which --resume goes on.
"""
import argparse
import copy
import json
import math
import os
import time

import torch
import torch.distributed as dist
from torch.nn import functional as F

import export
import mix
import network as networks
import validate
from clips import batch
from effects import Effects
from rows import Rows
from supply import EDGE, Ear, Supply

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
    parser.add_argument("--compile", type=int, default=1)
    return parser.parse_args()


class Trainer:
    def __init__(self, options):
        self.o = options
        self.rank, self.ranks = int(os.environ.get("RANK", 0)), int(os.environ.get("WORLD_SIZE", 1))
        cuda = torch.cuda.is_available()
        self.device = torch.device(f"cuda:{int(os.environ.get('LOCAL_RANK', 0))}" if cuda else "cpu")
        if cuda:
            torch.cuda.set_device(self.device)
            torch.backends.cuda.matmul.allow_tf32 = True
            torch.backends.cudnn.allow_tf32 = True
            torch.backends.cudnn.benchmark = True
        if self.ranks > 1:
            dist.init_process_group("nccl" if cuda else "gloo")
        self.log_file = open(os.path.join(options.out, "log.txt"), "a") if self.rank == 0 else None
        torch.manual_seed(options.seed)
        self.network = networks.Network(channels=options.channels).to(self.device, memory_format=torch.channels_last)
        self.average = copy.deepcopy(self.network).eval()
        self.fast = self.network
        if cuda and options.compile:
            from torch._dynamo import config

            config.suppress_errors = True
            self.fast = torch.compile(self.network)
        decay = [p for p in self.network.parameters() if p.dim() > 1]
        plain = [p for p in self.network.parameters() if p.dim() <= 1]
        self.optimiser = torch.optim.AdamW([dict(params=decay, weight_decay=0.01), dict(params=plain, weight_decay=0.0)], options.rate, betas=(0.9, 0.98))
        self.step, self.progress = 0, 0.0
        if options.resume:
            self.load(options.resume)

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
        self.ear = Ear(rows.data, Effects(self.device, seed + 5), self.device)
        self.supply = Supply(rows.facts(), o.batch, o.workers, 10**7 * (o.seed + 1) + 10**6 * 5 * self.rank, {})

    def train(self):
        losses, told, first, clips = torch.zeros(3, device=self.device), time.time(), self.step, 0
        start = saved = time.time()
        progress, self.supply.waited = 0.0, 0.0
        while progress < 1:
            self.set_rate(progress, self.step - first)
            events, labels = self.supply.take()
            features, targets = self.ear(events, labels, self.o.batch)
            losses += self.learn(features, targets)
            if self.step - first in (30, 50):
                self.clock(events, labels, features, targets)
            progress = self.share((time.time() - start) / (self.o.seconds - (start - BORN)))
            self.follow()
            self.step, clips = self.step + 1, clips + self.o.batch * self.ranks
            if time.time() - told > 8 and self.rank == 0:
                n = max(1, self.step - getattr(self, "told_step", first))
                self.log(f"step {self.step} loss {[round(float(x) / n, 4) for x in losses]} rate {self.optimiser.param_groups[0]['lr']:.2e}",
                         f"clips/s {clips / (time.time() - start):.0f} waited {self.supply.waited:.1f}")
                losses.zero_()
                told, self.told_step = time.time(), self.step
            if time.time() - saved > 110:
                saved = time.time()
                self.save()
        self.log("steps", self.step, "clips this run", clips, "hours of sound", round(clips * 4.458 / 3600, 1))

    def clock(self, events, labels, features, targets):
        """Logs what one step's parts take."""
        spent = []
        for part in (lambda: mix.mix(self.ear.data, torch.from_numpy(events).to(self.device), self.o.batch), lambda: self.ear.sound(events, self.o.batch),
                     lambda: self.ear(events, labels, self.o.batch), lambda: self.learn(features, targets)):
            if self.device.type == "cuda":
                torch.cuda.synchronize()
            start = time.time()
            part()
            if self.device.type == "cuda":
                torch.cuda.synchronize()
            spent.append(round(1000 * (time.time() - start), 1))
        self.log("milliseconds of mixing, + effects, + features and targets; of learning:", spent)

    def set_rate(self, progress, step):
        rate = self.o.rate * min(1.0, (step + 1) / self.o.warm) * (0.01 + 0.99 * 0.5 * (1 + math.cos(math.pi * min(1.0, progress))))
        for group in self.optimiser.param_groups:
            group["lr"] = rate

    def learn(self, features, targets):
        self.network.train()
        self.optimiser.zero_grad(set_to_none=True)
        with torch.autocast(self.device.type, torch.bfloat16, enabled=self.device.type == "cuda"):
            logits = self.fast(features.contiguous(memory_format=torch.channels_last))
        parts = loss(logits.float()[:, :, EDGE:-EDGE], targets[:, :, EDGE:-EDGE])
        (6 * parts[0] + parts[1] + 2 * parts[2]).backward()
        return parts.detach()

    def share(self, progress):
        """Averages the gradients (and the clock) over the processes, clips, steps."""
        gradients = [p.grad for p in self.network.parameters()]
        flat = torch.cat([g.reshape(-1) for g in gradients] + [torch.tensor([progress], device=self.device)])
        if self.ranks > 1:
            dist.all_reduce(flat)
            flat /= self.ranks
        norm = flat[:-1].norm()
        flat[:-1] *= (1.0 / norm.clamp_min(1e-6)).clamp_max(1.0)
        at = 0
        for g in gradients:
            g.copy_(flat[at : at + g.numel()].view_as(g))
            at += g.numel()
        self.optimiser.step()
        if self.step % 8 == 0:
            self.progress = float(flat[-1])
        return self.progress

    def follow(self):
        decay = min(0.9985, (1 + self.step) / (20 + self.step))
        with torch.no_grad():
            for mean, now in zip(self.average.state_dict().values(), self.network.state_dict().values()):
                if mean.dtype.is_floating_point:
                    mean.lerp_(now, 1 - decay)
                else:
                    mean.copy_(now)

    def save(self):
        if self.rank == 0:
            state = dict(network=self.network.state_dict(), average=self.average.state_dict(), optimiser=self.optimiser.state_dict(), step=self.step)
            torch.save(state, os.path.join(self.o.out, "checkpoint.pt"))

    def load(self, path):
        state = torch.load(path, map_location=self.device)
        self.network.load_state_dict(state["average"])
        self.average.load_state_dict(state["average"])
        self.step = state["step"]
        self.log("resumed from step", self.step)

    def finish(self):
        self.supply.stop()
        self.save()
        if self.rank:
            return
        validation = validate.Validation(self.o.folder, self.device, self.o.count)
        self.log("validation clips made")
        report = validation.run(self.average)
        self.log(validate.show(report))
        validation.real(self.average, report["threshold"], report["hold"], os.path.join(self.o.out, "real-activations.npz"))
        json.dump(report, open(os.path.join(self.o.out, "report.json"), "w"), indent=1)
        facts = dict(context=self.average.context, threshold=report["threshold"], threshold_mixed=report["threshold_mixed"], hold=report["hold"], hop=256, rate=22050, lowest_pitch=36,
                     steps=self.step, license="MIT")
        export.write(copy.deepcopy(self.average), os.path.join(self.o.out, "notes.onnx"), facts)
        self.log("exported")


def loss(logits, targets):
    """Cross-entropies of onset, frame, offset; what is rare weighs more."""
    weight = torch.stack([1 + targets[:, 0], torch.ones_like(targets[:, 1]), 1 + targets[:, 2]], 1)
    return (F.binary_cross_entropy_with_logits(logits, targets, reduction="none") * weight).mean((0, 2, 3))


if __name__ == "__main__":
    trainer = Trainer(arguments())
    trainer.log(f"device {trainer.device} processes {trainer.ranks} parameters {sum(p.numel() for p in trainer.network.parameters())}")
    trainer.sound()
    trainer.train()
    trainer.finish()

"""What each part of the recipe is worth: trains one network without each, all in one process on one GPU and on the same number of clips.

    python3 ablation.py --folder BANKS --out OUT --seconds 470

Every network takes a step in turn. Those whose playing is the same hear the same clips, each through its own effects, so that they
differ by the missing part alone; "again" is the whole recipe with other first weights and other clips, and shows how much is chance.
"""
import argparse
import json
import multiprocessing
import os
import time

import torch

import validate
from effects import Effects
from learner import Learner, compiled, quick
from network import Network
from recipe import PARTS, parts
from rows import Rows
from supply import Ear, Supply

BORN = time.time()
PLAYING = ("drift", "company", "formulas", "fonts", "ornaments")  # the parts that lie in the playing rather than in the effects


def variants():
    """Name -> (parts left out, seed)."""
    alone = {f"without {name}": (parts([name]), 1) for name in PARTS}
    return {"whole": (parts([]), 1), "again": (parts([]), 2), **alone, "without any effects": (parts(["rooms", "colour", "wear", "drift"]), 1)}


class Variant:
    def __init__(self, without, seed, options, data, effects):
        self.learner = Learner(effects.device, seed, options.rate, options.warm, follow=options.follow)
        self.ear = Ear(data, effects.leaving_out(without, 100 + seed), effects.device)
        self.stream = (frozenset(p for p in without if p in PLAYING), seed)
        self.losses = torch.zeros(3, device=effects.device)

    def step(self, batch, size, progress, shared, forward):
        """`shared` is the one compiled network: it borrows this variant's weights, and hands over its gradients."""
        for theirs, own in zip([*shared.parameters(), *shared.buffers()], [*self.learner.network.parameters(), *self.learner.network.buffers()]):
            theirs.data = own.data
        self.losses += self.learner.gradients(*self.ear(*batch, size), forward)
        for theirs, own in zip(shared.parameters(), self.learner.network.parameters()):
            own.grad, theirs.grad = theirs.grad, None
        self.learner.advance(progress)


class Ablation:
    def __init__(self, options):
        self.o = options
        self.device = torch.device("cuda:0" if torch.cuda.is_available() else "cpu")
        quick(self.device)
        self.file = open(os.path.join(options.out, "log.txt"), "a")
        self.validation = validate.Validation(options.folder, self.device, options.count)
        self.log("validation", {name: len(notes) for name, notes in self.validation.notes().items()})
        rows = Rows(self.device)
        rows.add_strings(options.strings, 20001)
        rows.add_singers(40, 20003)
        rows.add_font(os.path.join(options.folder, "train.bank"))
        facts = rows.finish().facts()
        effects = Effects(self.device, 20005)
        self.variants = {name: Variant(without, seed, options, rows.data, effects) for name, (without, seed) in variants().items()}
        streams = sorted({v.stream for v in self.variants.values()}, key=str)
        self.streams = {s: Supply(facts, options.batch, options.workers, 10**7 * s[1], dict(without=s[0])) for s in streams}
        self.shared = Network().to(self.device, memory_format=torch.channels_last).train()
        self.forward = compiled(self.shared, self.device)
        self.log("rows", tuple(rows.data.shape), "variants", len(self.variants), "streams of playing", len(streams))

    def log(self, *words):
        line = f"{time.time() - BORN:7.1f} " + " ".join(str(w) for w in words)
        print(line, flush=True)
        print(line, file=self.file, flush=True)

    def train(self):
        start = told = saved = time.time()
        progress, rounds, told_rounds = 0.0, 0, 0
        while progress < 1:
            batches = {stream: supply.take() for stream, supply in self.streams.items()}
            for variant in self.variants.values():
                variant.step(batches[variant.stream], self.o.batch, progress, self.shared, self.forward)
            rounds += 1
            if self.device.type == "cuda":
                torch.cuda.synchronize()
            if rounds == self.o.compile_rounds:
                start = time.time()  # what compiling took is no part of the schedule
            progress = max(0.0, (time.time() - start) / (self.o.seconds - (start - BORN))) if rounds >= self.o.compile_rounds else 0.0
            if time.time() - told > 15:
                onsets = [round(1000 * float(v.losses[0]) / (rounds - told_rounds), 2) for v in self.variants.values()]
                waited = sum(s.waited for s in self.streams.values())
                self.log(f"round {rounds} onset loss x 1000 {onsets} clips a network {rounds * self.o.batch} waited {waited:.1f}")
                told, told_rounds = time.time(), rounds
                for variant in self.variants.values():
                    variant.losses.zero_()
            if time.time() - saved > 120:
                saved = time.time()
                self.save()
        for supply in self.streams.values():
            supply.stop()
        self.log("rounds", rounds, "clips a network", rounds * self.o.batch, "hours of sound", round(rounds * self.o.batch * 4.458 / 3600, 1))
        self.save()

    def save(self):
        torch.save({name: {k: v.half() if v.dtype.is_floating_point else v for k, v in variant.learner.average.state_dict().items()}
                    for name, variant in self.variants.items()}, os.path.join(self.o.out, "averages.pt"))

    def finish(self):
        reports = judged(self.validation, {name: v.learner.average for name, v in self.variants.items()})
        json.dump(reports, open(os.path.join(self.o.out, "ablation.json"), "w"), indent=1)
        for name, report in reports.items():
            self.log(name, validate.show(report))


def judged(validation, networks):
    """Name -> report; heard one after the other, scored side by side."""
    global HEARD, NOTES
    HEARD, NOTES = {name: validation.hear(network) for name, network in networks.items()}, validation.notes()
    with multiprocessing.get_context("fork").Pool() as pool:
        return dict(zip(networks, pool.map(judge, networks, chunksize=1)))


def judge(name):
    torch.set_num_threads(1)
    return validate.judge(HEARD[name], NOTES)


def arguments():
    parser = argparse.ArgumentParser()
    parser.add_argument("--folder", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--seconds", type=float, default=470, help="of training, from the process's start, before scoring")
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--warm", type=int, default=60)
    parser.add_argument("--follow", type=float, default=0.99)
    parser.add_argument("--batch", type=int, default=64)
    parser.add_argument("--strings", type=int, default=260)
    parser.add_argument("--workers", type=int, default=2, help="for each stream of playing")
    parser.add_argument("--count", type=int, default=160, help="clips in each validation set")
    parser.add_argument("--compile-rounds", type=int, default=2)
    return parser.parse_args()


if __name__ == "__main__":
    ablation = Ablation(arguments())
    ablation.train()
    ablation.finish()

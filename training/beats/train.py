"""
Trains the beat network on music that it composes as it goes.
    train.py BANK[,BANK] OUT SECONDS [--grooves GROOVES.npz] [--workers 15] [--batch 96] [--slots 12000] [--gpus 1] [--gpu 0] [--resume W.pt] [--rate 1.5e-3] [--seed 20261125]
Workers compose on the CPU and fill slots of shared memory; the trainer copies them to the GPU and draws each several times, every time at another
speed and in another room. With several GPUs each has its own workers and draws, and gradients are averaged. Stops by the clock.
"""
import argparse
import math
import os
import subprocess
import sys
import time

os.environ.setdefault("OMP_NUM_THREADS", "1")
import numpy as np

HEARD = 24
WEIGHTS = dict(beat=2.0, downbeat=1.5, change=0.4, meter=0.08, tempo=0.06, place=0.15, phase=0.06)
POSITIVE = (3.0, 6.0, 6.0)


def options():
    parser = argparse.ArgumentParser()
    for name, kind in (("bank", str), ("out", str), ("seconds", float)):
        parser.add_argument(name, type=kind)
    for name, value in dict(workers=15, batch=96, slots=12000, gpus=1, gpu=0, rate=1.5e-3, seed=20261125).items():
        parser.add_argument("--" + name, type=type(value), default=value)
    parser.add_argument("--resume")
    parser.add_argument("--grooves")
    return parser.parse_args()


class Lesson:
    """Draws clips, hears them as the network does, and says what it should have said."""

    def __init__(self, torch, clips, device, seed):
        from features import Features
        from rooms import RATE, Rooms
        self.torch, self.clips, self.device, self.samples = torch, clips, device, RATE * HEARD
        self.features, self.rooms = Features().to(device), Rooms(device, seed)

    def draw(self, slots, changed):
        """Bands, and labels with kinds; changed: at another speed, from another moment on, in a room."""
        from compose import SECONDS
        from labels import labels
        from rooms import window, without_bands
        torch, batch = self.torch, len(slots)
        sound, beats, places, changes, kinds = (f[slots] for f in self.clips.fields)
        speed = torch.exp((torch.rand(batch, device=self.device) - 0.5) * 0.3) if changed else torch.ones(batch, device=self.device)
        start = torch.rand(batch, device=self.device) * (SECONDS - HEARD * speed).clamp(min=0) if changed else torch.zeros(batch, device=self.device)
        wave = window(sound, start, speed, self.samples) / 32768
        gain = None
        if changed:
            wave, gain = self.rooms(wave), torch.exp(torch.randn(batch, 1, device=self.device) * 0.3)
        bands = self.features(wave, gain)[:, :50 * HEARD]
        return without_bands(bands) if changed else bands, labels(beats, places, changes, start, speed, 50 * HEARD), kinds

    def hear(self, network, bands):
        if self.device == "cpu":
            return network(bands)
        with self.torch.autocast("cuda", self.torch.bfloat16):
            return {k: v.float() for k, v in network(bands).items()}

    def loss(self, out, wanted, kinds):
        """The sum that is made small, and its parts."""
        functional, torch = self.torch.nn.functional, self.torch
        pulse, tempo, place, phase = wanted
        axis = torch.arange(64, device=self.device)
        shares = torch.softmax(-0.5 * ((axis - tempo[..., None]) / 0.8) ** 2, 2)
        parts = dict(zip(("beat", "downbeat", "change"), functional.binary_cross_entropy_with_logits(
            out["pulse"], pulse, pos_weight=torch.tensor(POSITIVE, device=self.device), reduction="none").mean((0, 1))))
        parts["tempo"] = -(shares * torch.log_softmax(out["tempo"], 2)).sum(2).mean()
        meter = kinds[:, :1].long().expand(-1, pulse.shape[1])
        for name, real in (("meter", meter), ("place", place), ("phase", phase)):
            parts[name] = functional.cross_entropy(out[name].flatten(0, 1), real.flatten(), ignore_index=-1)
        return sum(WEIGHTS[k] * v for k, v in parts.items()), parts


def main():
    o = options()
    began, rank = time.time(), int(os.environ.get("RANK_OF_TRAINER", "0"))
    if rank == 0:
        for k in range(1, o.gpus):
            subprocess.Popen([sys.executable, *sys.argv], env={**os.environ, "RANK_OF_TRAINER": str(k)})
    from compose import SAMPLES
    from measure import validate
    from supply import Clips, Slots, Supply
    supply = Supply(Slots(o.slots, SAMPLES), o.workers, rank * o.workers, o.bank, o.seed, o.grooves)
    import torch
    from network import BeatNetwork, export
    torch.manual_seed(o.seed)
    device = f"cuda:{rank + o.gpu}" if torch.cuda.is_available() else "cpu"
    if o.gpus > 1:
        torch.distributed.init_process_group("nccl", init_method="tcp://127.0.0.1:29517", world_size=o.gpus, rank=rank)
    if device != "cpu":
        torch.cuda.set_device(device)
        torch.backends.cuda.matmul.allow_tf32 = torch.backends.cudnn.allow_tf32 = torch.backends.cudnn.benchmark = True
    log = open(os.path.join(o.out, "train.log"), "a") if rank == 0 else None

    def say(*words):
        if rank == 0:
            for to in (log, sys.stdout):
                print(f"{time.time() - began:6.1f}", *words, file=to, flush=True)

    def network_of(path):
        made = BeatNetwork().to(device)
        if path:
            made.load_state_dict(torch.load(path, map_location=device))
        return made.to(memory_format=torch.channels_last) if device != "cpu" else made

    network, average = network_of(o.resume), network_of(o.resume)
    average.load_state_dict(network.state_dict())
    lesson = Lesson(torch, Clips(torch, supply, device, min(256, o.slots // 10)), device, o.seed)
    optimiser = torch.optim.AdamW(network.parameters(), lr=o.rate, weight_decay=0.01)
    say(device, sum(p.numel() for p in network.parameters()), "parameters", *sys.argv[1:])
    have = lesson.clips.have
    while len(have) < min(8 * o.batch, o.slots // 4):
        time.sleep(0.1)
    say("first", len(have), "clips")
    torch.manual_seed(o.seed + 1 + rank)
    parameters = list(network.parameters())
    sizes = [p.numel() for p in parameters]
    pairs = [(a, b) for a, b in zip(average.state_dict().values(), network.state_dict().values()) if a.dtype.is_floating_point]
    averaged, current = [a for a, _ in pairs], [b for _, b in pairs]
    step, done, checked, training_from = 0, 0.0, time.time(), time.time() - began
    while done < 1:
        rate = o.rate * min(1, (step + 1) / 200) * (0.5 * (1 + math.cos(math.pi * min(1, done))) * 0.985 + 0.015)
        for group in optimiser.param_groups:
            group["lr"] = rate
        network.train()
        slots = torch.tensor(np.array(have)[np.random.default_rng([o.seed, rank, step]).integers(0, len(have), o.batch)], device=device)
        with torch.no_grad():
            bands, wanted, kinds = lesson.draw(slots, True)
        loss, parts = lesson.loss(lesson.hear(network, bands), wanted, kinds)
        optimiser.zero_grad()
        loss.backward()
        passed = (time.time() - began - training_from) / (o.seconds - training_from)
        flat = torch.cat([*(p.grad.flatten() for p in parameters), torch.tensor([passed], device=device)]) / o.gpus
        if o.gpus > 1:
            torch.distributed.all_reduce(flat)
        for p, g in zip(parameters, flat[:-1].split(sizes)):
            p.grad.copy_(g.view_as(p))
        torch.nn.utils.clip_grad_norm_(parameters, 1.0)
        optimiser.step()
        with torch.no_grad():
            keep = min(0.9993, 1 - 1 / (step + 2))
            torch._foreach_mul_(averaged, keep)
            torch._foreach_add_(averaged, current, alpha=1 - keep)
        step += 1
        if step % 5 == 0 or device == "cpu":
            done = float(flat[-1])
        if step % 100 == 0 or device == "cpu":
            say("step", step, "made", sum(supply.counter), "loss", round(float(loss.detach()), 4), *(f"{k} {float(v.detach()):.4f}" for k, v in parts.items()))
        if rank == 0 and time.time() - checked > 90:
            validate(torch, lesson, average, say)
            torch.save(average.state_dict(), os.path.join(o.out, "beats.pt"))
            checked = time.time()
    supply.stop.value = 1
    if rank == 0:
        say("steps", step, "clips made", sum(supply.counter), "drawn", step * o.batch * o.gpus)
        validate(torch, lesson, average, say)
        torch.save(average.state_dict(), os.path.join(o.out, "beats.pt"))
        export(average.state_dict(), os.path.join(o.out, "beats.onnx"))
        say("done")
    os._exit(0)


if __name__ == "__main__":
    main()

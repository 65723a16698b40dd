"""Worker processes that invent playing, and the steps that turn it into sound, features and targets on the GPU."""
import multiprocessing
import queue
import time

import torch

import clips
import features
from mix import mix

FPS = features.RATE / features.HOP
FRAMES = clips.SAMPLES // features.HOP
EDGE = 14  # frames at either end of a clip that do not count


class Supply:
    """Batches of (events, labels) from worker processes, each from its own seed: seed, seed + 1, ... in any order."""

    def __init__(self, facts, size, workers, seed, options, make=clips.batch):
        context = multiprocessing.get_context("fork")
        self.out = context.Queue(3 * workers)
        self.workers = [context.Process(target=run, args=(self.out, facts, size, seed + k, workers, options, make), daemon=True) for k in range(workers)]
        for worker in self.workers:
            worker.start()
        self.waited = 0.0

    def take(self):
        start = time.time()
        while True:
            try:
                item = self.out.get(timeout=20)
                break
            except queue.Empty:
                if not any(w.is_alive() for w in self.workers):
                    raise RuntimeError("all workers have ended")
        self.waited += time.time() - start
        return item

    def stop(self):
        for worker in self.workers:
            worker.terminate()


def run(out, facts, size, seed, stride, options, make):
    torch.set_num_threads(1)
    while True:
        out.put(make(facts, size, seed, **options))
        seed += stride


class Ear:
    """events, labels -> features [b, 2, FRAMES, 264], targets [b, 3, FRAMES, 61]"""

    def __init__(self, data, effects, device):
        self.data, self.effects, self.device = data, effects, device
        self.features = features.Features().to(device)

    @torch.no_grad()
    def sound(self, events, size):
        return self.effects(mix(self.data, torch.from_numpy(events).to(self.device), size))

    @torch.no_grad()
    def __call__(self, events, labels, size, gain=6.0):
        sound = features.level_batch(self.sound(events, size))
        sound = sound * 10 ** (self.effects.between(-gain, gain, size, 1) / 20)
        return self.features(sound)[:, :, :FRAMES], targets(torch.from_numpy(labels).to(self.device), size)


def targets(labels, size, reach=2.2):
    """Triangles of `reach` frames about onsets and offsets, ones while a note sounds."""
    out = torch.zeros(3, size * clips.PITCHES, FRAMES, device=labels.device)
    if len(labels):
        frame = torch.arange(FRAMES, device=labels.device)
        place = (labels[:, 0] * clips.PITCHES + labels[:, 1]).long()
        start, end = labels[:, 2:3] * FPS, labels[:, 3:4] * FPS
        made = ((1 - (frame - start).abs() / reach).clamp_min(0) * labels[:, 4:5],
                ((frame >= start) & (frame <= end)).float(),
                (1 - (frame - end).abs() / (2 * reach)).clamp_min(0) * labels[:, 5:6])
        for k, values in enumerate(made):
            out[k].index_reduce_(0, place, values, "amax")
    return out.view(3, size, clips.PITCHES, FRAMES).permute(1, 0, 3, 2)

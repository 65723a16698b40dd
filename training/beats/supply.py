"""Workers that compose and play clips on the CPU into slots of shared memory, and a thread that takes these to the GPU."""
import mmap
import multiprocessing as mp
import os
import threading
import time
import traceback

import numpy as np

BEATS, CHANGES = 144, 144
NONE = 1e6


class Slots:
    """Shared memory for so many clips: sound, times of beats and their places in the bar, times of changes, meter and style."""

    def __init__(self, count, samples):
        def room(shape, kind):
            size = int(np.prod(shape)) * np.dtype(kind).itemsize
            return np.frombuffer(mmap.mmap(-1, size), kind).reshape(shape)
        self.count = count
        self.sound = room((count, samples), np.int16)
        self.beats, self.places = room((count, BEATS), np.float32), room((count, BEATS), np.int8)
        self.changes = room((count, CHANGES), np.float32)
        self.kinds = room((count, 2), np.int16)

    def fields(self):
        return self.sound, self.beats, self.places, self.changes, self.kinds

    def fill(self, slot, sound, track, style):
        self.sound[slot] = np.round(sound * (32000 / np.abs(sound).max())).astype(np.int16)
        self.beats[slot], self.places[slot], self.changes[slot] = NONE, -1, NONE
        self.beats[slot, :len(track.beats)], self.places[slot, :len(track.places)] = track.beats, track.places
        self.changes[slot, :len(track.changes)] = track.changes
        self.kinds[slot] = (track.meter, style)


def work(number, workers, first, slots, counter, stop, bank, seed, grooves=None):
    """Fills every so many slots, again and again; counter says how many times."""
    os.nice(5)
    from compose import STYLES, Ear, compose
    from grooves import Grooves
    from mixer import Mixer
    names = [s["name"] for s in STYLES]
    Ear.grooves, Ear.plucked = Grooves(grooves) if grooves else None, "," in bank
    mixer, mine, made, tries = Mixer(bank), list(range(number, slots.count, workers)), 0, 0
    while not stop.value:
        rng = np.random.default_rng([seed, first + number, tries])
        tries += 1
        try:
            track = compose(rng)
            sound = mixer.mix(track.notes)
            if not 6 <= len(track.beats) <= BEATS or len(track.changes) > CHANGES or np.abs(sound).max() < 1e-4:
                continue
            slots.fill(mine[made % len(mine)], sound, track, names.index(track.style))
        except Exception:
            traceback.print_exc()
            continue
        counter[number] += 1
        made += 1


class Supply:
    """The workers and what they have made; fresh() gives slots filled since it was last asked."""

    def __init__(self, slots, workers, first, bank, seed, grooves=None):
        self.slots, self.workers, self.seen = slots, workers, [0] * workers
        self.counter, self.stop = mp.Array("l", workers, lock=False), mp.Value("b", 0, lock=False)
        for k in range(workers):
            mp.Process(target=work, args=(k, workers, first, slots, self.counter, self.stop, bank, seed, grooves), daemon=True).start()

    def fresh(self, most):
        out = []
        for k in range(self.workers):
            while self.seen[k] < self.counter[k] and len(out) < most:
                out.append(k + self.workers * (self.seen[k] % len(range(k, self.slots.count, self.workers))))
                self.seen[k] += 1
        return out


class Clips:
    """The clips on the GPU, filled from the workers' slots by a thread of its own."""

    def __init__(self, torch, supply, device, held):
        self.torch, self.supply, self.device, self.held = torch, supply, device, held
        self.fields = [torch.zeros(f.shape, dtype=torch.from_numpy(f[:1]).dtype, device=device) for f in supply.slots.fields()]
        self.pinned = torch.zeros((16, *self.fields[0].shape[1:]), dtype=torch.int16, pin_memory=device != "cpu")
        self.filled, self.have = set(), []
        threading.Thread(target=self.run, daemon=True).start()

    def run(self):
        if self.device == "cpu":
            return self.gather()
        self.torch.cuda.set_device(self.device)
        with self.torch.cuda.stream(self.torch.cuda.Stream()):
            self.gather()

    def gather(self):
        while not self.supply.stop.value:
            fresh = [s for s in self.supply.fresh(16) if s >= self.held or s not in self.filled]
            if not fresh:
                time.sleep(0.02)
                continue
            places = self.torch.tensor(fresh, device=self.device)
            for field, host in zip(self.fields, self.supply.slots.fields()):
                rows = self.torch.from_numpy(host[fresh])
                if field is self.fields[0]:
                    self.pinned[:len(fresh)].copy_(rows)
                    rows = self.pinned[:len(fresh)]
                field[places] = rows.to(self.device)
            if self.device != "cpu":
                self.torch.cuda.current_stream().synchronize()
            self.have += [s for s in fresh if s not in self.filled and s >= self.held]
            self.filled.update(fresh)

"""Workers that compose and play clips on the CPU into slots of shared memory."""
import mmap
import multiprocessing as mp
import os
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


def work(number, workers, first, slots, counter, stop, bank, seed):
    """Fills every so many slots, again and again; counter says how many times."""
    os.nice(5)
    from compose import STYLES, compose
    from mixer import Mixer
    names = [s["name"] for s in STYLES]
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

    def __init__(self, slots, workers, first, bank, seed):
        self.slots, self.workers, self.seen = slots, workers, [0] * workers
        self.counter, self.stop = mp.Array("l", workers, lock=False), mp.Value("b", 0, lock=False)
        for k in range(workers):
            mp.Process(target=work, args=(k, workers, first, slots, self.counter, self.stop, bank, seed), daemon=True).start()

    def fresh(self, most):
        out = []
        for k in range(self.workers):
            while self.seen[k] < self.counter[k] and len(out) < most:
                out.append(k + self.workers * (self.seen[k] % len(range(k, self.slots.count, self.workers))))
                self.seen[k] += 1
        return out

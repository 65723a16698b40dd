"""The table of single notes that clips are mixed from, and what is known of each row."""
import numpy as np
import torch

import bank
from facts import FALLS, Facts
from strings import GRID, LENGTH, Singers, Strings


class Rows:
    """data [rows, LENGTH] in half precision; arrays that say each row's pitch, start of sound and times of falling by FALLS;
    instruments: family -> list of {layer: (pitches, rows)}."""

    def __init__(self, device):
        self.device = device
        self.parts, self.pitch, self.onset, self.falls = [], [], [], []
        self.instruments, self.count = {}, 0

    def add(self, sound, pitches):
        """Adds rows [n, LENGTH]; returns their numbers."""
        blocks = sound[:, : LENGTH // 512 * 512].reshape(len(sound), -1, 512).square().mean(2).sqrt()
        loudest = blocks.amax(1, keepdim=True).clamp_min(1e-9)
        self.parts.append((sound * (0.1 / loudest)).clamp(-60000, 60000).half())
        loud = (20 * torch.log10(blocks / loudest + 1e-9)).cpu().numpy()
        for row in loud:
            last = [np.nonzero(row > -fall)[0] for fall in FALLS]
            self.falls.append([(found[-1] + 1) * 512 if len(found) else 512 for found in last])
        fine = sound[:, :6144].unfold(1, 256, 64).square().mean(2).sqrt()
        early = (fine >= 0.3 * fine.amax(1, keepdim=True)).float().argmax(1).cpu().numpy()
        self.onset += [max(0, int(at) * 64 + 64) if at else 0 for at in early]
        self.pitch += [float(p) for p in pitches]
        numbers = np.arange(self.count, self.count + len(sound))
        self.count += len(sound)
        return numbers

    def instrument(self, family, layers):
        self.instruments.setdefault(family, []).append(layers)

    def add_strings(self, count, seed):
        strings = Strings(count, seed, self.device)
        table = np.stack([self.add(strings.render(p), [p] * (3 * count)) for p in GRID])
        dead = self.add(strings.dead(), [0] * (2 * count))
        for k in range(count):
            layers = {name: (np.array(GRID, float), table[:, 3 * k + v]) for v, name in enumerate(("soft", "hard", "muted"))}
            layers["dead"] = (np.array([0.0]), dead[2 * k : 2 * k + 1])
            layers["knock"] = (np.array([0.0]), dead[2 * k + 1 : 2 * k + 2])
            self.instrument("string", layers)

    def add_singers(self, count, seed):
        singers = Singers(count, seed, self.device)
        grid = range(43, 93, 3)
        table = np.stack([self.add(singers.render(p), [p] * count) for p in grid])
        for k in range(count):
            self.instrument("singer", {"hard": (np.array(list(grid), float), table[:, k])})

    def add_font(self, path):
        notes = bank.unpack(path)
        sound = torch.zeros(len(notes), LENGTH)
        for k, (_, samples) in enumerate(notes):
            n = min(LENGTH, len(samples))
            sound[k, :n] = torch.from_numpy(samples[:n])
            tail = min(n, 2000)
            sound[k, n - tail : n] *= torch.linspace(1, 0, tail)
        numbers = self.add(sound.to(self.device), [facts["pitch"] for facts, _ in notes])
        groups = {}
        for number, (facts, _) in zip(numbers, notes):
            layer = "soft" if facts["velocity"] < 70 and facts["source"] != "0:28" else "hard"
            key = (facts["family"], facts["source"])
            groups.setdefault(key, {}).setdefault(layer, []).append((facts["pitch"], number))
        for (family, _), layers in sorted(groups.items()):
            made = {}
            for layer, pairs in layers.items():
                pairs.sort()
                made[layer] = (np.array([p for p, _ in pairs], float), np.array([r for _, r in pairs]))
            self.instrument(family, made)

    def finish(self):
        self.data = torch.cat(self.parts)
        self.parts = []
        self.pitch = np.array(self.pitch)
        self.onset = np.array(self.onset, float)
        self.falls = np.array(self.falls, float)
        return self

    def facts(self):
        """What a player of the rows needs, without the sound."""
        return Facts(self.pitch, self.onset, self.falls, self.instruments)

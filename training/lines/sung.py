"""People's voices made to sing: rows of held syllables from the spectra that `speech.py` keeps.

A syllable's consonant goes at about its own pace; its vowel is held as long as a row lasts, wandering to and fro within what was spoken. The tone is
a sum of harmonics as strong as the envelope there, the rest noise of the envelope's shape, in the share that was not periodic. Throats are made
longer and shorter, voices breathier, rougher, brighter; the pitch trembles as little as a held note's does.
"""
import math
import os
import sys

import numpy as np
import torch

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "notes"))
from sounds import waver  # noqa: E402
from strings import LENGTH, RATE, log_uniform, uniform  # noqa: E402

TAKES = 4  # rows of the same voice at one pitch
STEP = 220.5  # samples of a frame of 10 ms
SIZE, SHIFT = 1024, 256


class Sung:
    """`count` voices of each speaker in the file, each with the syllables that they sing."""

    def __init__(self, path, count, seed, device):
        kept = np.load(path)
        self.device, self.count = device, count
        self.noise = torch.Generator(device=device).manual_seed(seed + 1)
        self.g = torch.Generator().manual_seed(seed)
        self.envelope = torch.from_numpy(kept["envelope"].astype(np.float32) / 3 - 85).to(device)
        self.tone = torch.from_numpy(kept["tone"].astype(np.float32) / 255).to(device)
        self.consonant, self.vowel = (torch.from_numpy(kept[k].astype(np.float32)) for k in ("consonant", "vowel"))
        self.speaker, self.centres = kept["speaker"], torch.from_numpy(kept["centres"]).float()
        self.low = [float(69 + 12 * np.log2(np.median(kept["hertz"][self.speaker == s]) / 440)) for s in range(len(kept["names"]))]

    def voices(self):
        """(syllables of the speaker, lowest pitch, how its throat differs) of every voice."""
        for speaker in range(len(self.low)):
            mine = torch.from_numpy(np.nonzero(self.speaker == speaker)[0])
            for _ in range(self.count):
                yield mine, int(round(max(38, min(58, self.low[speaker] + float(uniform(self.g, 1, -4, 3))))))

    def add_to(self, rows, reach=30, batch=120):
        for mine, low in self.voices():
            manner = self.manner()
            grid = torch.arange(low, low + reach).repeat_interleave(TAKES)
            numbers = []
            for part in grid.split(batch):
                chosen = mine[torch.randint(len(mine), (len(part),), generator=self.g)]
                sound, heard = self.render(chosen, part.float(), manner)
                got = rows.add(sound, part.tolist())
                for number, at in zip(got, heard.tolist()):
                    rows.onset[number] = at
                numbers.append(got)
            table = np.concatenate(numbers).reshape(-1, TAKES)
            rows.instrument("sung", {f"take{k}": (np.arange(low, low + reach, dtype=float), table[:, k]) for k in range(TAKES)})

    def manner(self):
        u, l = lambda a, b: float(uniform(self.g, 1, a, b)), lambda a, b: float(log_uniform(self.g, 1, a, b))
        rare = lambda chance, value: value if u(0, 1) < chance else 0.0
        return dict(size=l(0.86, 1.16), tilt=u(-5, 3), breath=rare(0.4, u(0.1, 0.7)), rough=rare(0.15, u(0.1, 0.6)), ring=rare(0.35, u(3, 12)), ringing=u(2400, 3500),
                    jitter=l(0.0006, 0.005), pace=l(0.7, 1.2), swell=u(0, 3))

    def render(self, chosen, pitch, manner):
        """Sound [n, LENGTH] of these syllables at these MIDI pitches, and the sample at which each vowel begins (where a sung note does: Sundberg
        and Bauer-Huppmann, "When does a sung tone start?", Journal of Voice 21, 2007)."""
        n, device = len(chosen), self.device
        consonant, vowel = self.consonant[chosen], self.vowel[chosen]
        pace = manner["pace"] * torch.exp(0.15 * torch.randn(n, generator=self.g))
        frames = torch.arange(int(LENGTH / STEP) + 2, dtype=torch.float32)
        begun = (consonant / pace)[:, None]
        turn = (0.1 + 0.8 * torch.rand(n, 1, generator=self.g)) * (frames[None] - begun).clamp_min(0) / 100 * 2 * math.pi
        held = consonant[:, None] + (vowel[:, None] - 1) * (0.5 - 0.5 * torch.cos(turn))
        at = torch.where(frames[None] < begun, frames[None] * pace[:, None], held).clamp(0, self.envelope.shape[1] - 1.001).to(device)
        shape = self.between(self.envelope[chosen.to(device)], at)
        level = shape.amax(2, keepdim=True)
        vowels = (frames[None] >= begun).to(device)[..., None]
        shape = torch.where(vowels, shape - 0.7 * (level - level.amax(1, keepdim=True)), shape) + manner["swell"] * self.waver(n, 1.0, len(frames))[..., None]
        tone = self.between(self.tone[chosen.to(device)][..., None], at)[..., 0] * (1 - manner["breath"] * 0.6)
        heard = ((consonant - 0.5).clamp_min(0) / pace * STEP).clamp(0, 12000)
        sound = self.harmonics(shape, tone, pitch, manner) + self.hiss(shape, tone, manner)
        return sound * (torch.arange(LENGTH, device=device) / 60).clamp_max(1), heard

    def between(self, table, at):
        """Rows of [n, frames, m] at fractional places [n, t]."""
        low = at.floor().long()
        share = (at - low)[..., None]
        pick = lambda i: table.gather(1, i[..., None].expand(-1, -1, table.shape[2]))
        return pick(low) * (1 - share) + pick(low + 1) * share

    def coloured(self, shape, hertz, manner):
        """Decibels of the envelope [n, frames, bands] at frequencies [n] or one, as this throat makes it: [n, frames]."""
        hertz = torch.as_tensor(hertz, dtype=torch.float32)
        mel = lambda f: 2595 * torch.log10(1 + f / 700)
        place = (mel(hertz / manner["size"]) / mel(self.centres[-1]) * (len(self.centres) - 1)).clamp(0, len(self.centres) - 1.001)
        low = place.floor().long().to(self.device)
        share = (place.to(self.device) - low)[:, None]
        pick = lambda i: shape.gather(2, i[:, None, None].expand(-1, shape.shape[1], 1))[..., 0]
        more = manner["tilt"] * torch.log2((hertz / 500).clamp_min(0.5)).clamp_max(3) + manner["ring"] * torch.exp(-(((hertz - manner["ringing"]) / 450) ** 2))
        more = more - 60 * (hertz > 7600 * manner["size"])
        return pick(low) * (1 - share) + pick(low + 1) * share + more.to(self.device)[:, None]

    def harmonics(self, shape, tone, pitch, manner):
        n, device = len(pitch), self.device
        f0 = 440 * 2 ** ((pitch - 69) / 12)
        drift = manner["jitter"] * self.stretch(self.waver(n, 9, 400)) + 0.25 * manner["jitter"] * self.stretch(self.waver(n, 40, 400))
        phase = (2 * math.pi * f0.to(device)[:, None] / RATE * torch.cumsum((1 + drift).double(), 1)).remainder(2 * math.pi).float()
        out = torch.zeros(n, LENGTH, device=device)
        for h in range(1, min(90, int(8000 / float(f0.min()))) + 1):
            strength = 10 ** (self.coloured(shape, h * f0, manner) / 20) * self.periodic(tone, h * f0)
            out += self.stretch(strength) * torch.sin(h * phase + 2 * math.pi * torch.rand(n, 1, generator=self.g).to(device))
        if manner["rough"]:
            out = out * (1 + manner["rough"] * torch.sin(0.5 * phase) * (self.stretch(self.waver(n, 2, 400)) > 0.3))
        return out * f0.sqrt().to(device)[:, None] * 0.1

    def periodic(self, tone, hertz):
        """How much of the strength at these frequencies is tone: less the higher."""
        return (tone - 0.12 * torch.log2((hertz / 1000).clamp_min(1)).to(self.device)[:, None]).clamp(0, 1)

    def hiss(self, shape, tone, manner):
        n, device = shape.shape[0], self.device
        noise = torch.randn(n, LENGTH, device=device, generator=self.noise)
        window = torch.hann_window(SIZE, device=device)
        spectrum = torch.stft(noise, SIZE, SHIFT, window=window, return_complex=True)
        bins = [torch.full((n,), k * RATE / SIZE) for k in range(0, SIZE // 2 + 1, 8)]
        gain = torch.stack([10 ** (self.coloured(shape, f, manner) / 20) * (1.05 - self.periodic(tone, f)).clamp_min(0) ** 0.5 for f in bins], 1)
        gain = torch.nn.functional.interpolate(gain[:, None], spectrum.shape[1:], mode="bilinear", align_corners=True)[:, 0]
        return torch.istft(spectrum * gain, SIZE, SHIFT, window=window, length=LENGTH) * 0.35

    def stretch(self, values):
        """[n, frames] over the whole row, sample by sample."""
        return torch.nn.functional.interpolate(values[:, None], LENGTH, mode="linear", align_corners=True)[:, 0]

    def waver(self, n, hertz, frames):
        return waver(n, hertz, frames, self.device, self.noise)

"""Sounds that hold, from formulas alone: free reeds, voices, blown pipes, bowed strings. One row a pitch; vibrato and slides come with the playing.

Each is a sum of harmonics of one wavering phase. What differs is what the textbooks say of them (Fletcher and Rossing, The Physics of
Musical Instruments): a reed's many strong partials and its cupped hands; a voice's formants, vowels and consonants; a pipe's few
partials, breath and chiff; a bow's saw-tooth through a body's fixed resonances. Where the pitch sways through fixed resonances, as in
a voice and a bowed string, each partial's strength sways in its own way; a reed's partials sway together.
"""
import math
import os
import sys

import torch

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "notes"))
from strings import LENGTH, RATE, log_uniform, uniform  # noqa: E402

REACH = {"reed": (46, 98), "voice": (38, 88), "blown": (55, 100), "bowed": (38, 98)}
KINDS = tuple(REACH)
VOWELS = torch.tensor([[730.0, 1090, 2440, 3400], [530, 1840, 2480, 3500], [270, 2290, 3010, 3600], [570, 840, 2410, 3300],
                       [300, 870, 2240, 3200], [640, 1190, 2390, 3300], [490, 1350, 1690, 3200]])  # Peterson and Barney 1952, men's means; the fourth: ours


def waver(count, hertz, steps, device, noise):
    """[count, steps]: smooth noise of about unit spread over a row's time."""
    points = torch.randn(count, 1, int(LENGTH / RATE * 2 * hertz) + 4, device=device, generator=noise)
    return torch.nn.functional.interpolate(points, steps, mode="linear")[:, 0]


class Held:
    """`count` instruments of one kind."""

    def __init__(self, kind, count, seed, device):
        self.kind, self.count, self.device = kind, count, device
        self.g = torch.Generator().manual_seed(seed)
        self.noise = torch.Generator(device=device).manual_seed(seed + 1)
        g = self.g
        u, l = lambda a, b: uniform(g, count, a, b), lambda a, b: log_uniform(g, count, a, b)
        some = lambda chance: (torch.rand(count, generator=g) < chance).float()
        self.slope = {"reed": u(0.3, 1.7), "voice": u(0.9, 3.2), "blown": u(1.6, 4.2), "bowed": u(0.5, 1.5)}[kind]
        self.uneven = {"reed": u(0.1, 0.8), "voice": u(0, 0.2), "blown": u(0.2, 0.8), "bowed": u(0.1, 0.6)}[kind]
        self.start = {"reed": l(0.004, 0.06), "voice": l(0.01, 0.08), "blown": l(0.006, 0.06), "bowed": l(0.012, 0.13)}[kind]
        self.breath = {"reed": l(0.0008, 0.04), "voice": l(0.002, 0.06), "blown": l(0.006, 0.2), "bowed": l(0.003, 0.06)}[kind]
        self.jitter = {"reed": l(0.0001, 0.0012), "voice": l(0.0008, 0.006), "blown": l(0.0003, 0.003), "bowed": l(0.0003, 0.003)}[kind]
        self.odd = 1 - some(0.25 if kind == "blown" else 0.05) * u(0.5, 0.95)
        self.resonances = l(500, 5000)[:, None] * torch.exp(uniform(g, (count, 3), -0.9, 0.9))
        self.width = log_uniform(g, (count, 3), 150, 1500)
        self.peak = uniform(g, (count, 3), 0, 2.5 if kind == "reed" else 1.0)
        self.modes = log_uniform(g, (count, 14), 250, 5000)
        self.size = u(0.82, 1.4)
        self.formants = torch.tensor([1.0, 0.6, 0.35, 0.2]) * torch.exp(0.5 * torch.randn(count, 4, generator=g))
        self.mouth = l(0.5, 2.2)  # how wide the formants are
        self.ring, self.ringing = some(0.35) * u(0.3, 3.0), u(2300, 3700)  # the upper formants of a trained voice lie together
        self.still = some(0.3)  # the mouth keeps its shape
        self.sharp = l(6, 28)[:, None]  # how narrow a body's modes are
        self.duty, self.pulse = some(0.5 if kind == "reed" else 0.0) * u(0.3, 1.0), u(0.2, 0.5)
        self.hand = some(0.45 if kind == "reed" else 0.0) * u(0.3, 1.5)
        self.cup, self.closed, self.wide = some(0.5 if kind == "reed" else 0.0) * l(0.5, 4.0), l(450, 1100), l(1.5, 3.5)  # what cupped hands resonate at, and how far it rises
        self.stir = some({"voice": 0.6, "bowed": 0.7}.get(kind, 0.0)) * u(0.1, 0.6)
        self.crowd = some({"voice": 0.2, "bowed": 0.15}.get(kind, 0.0)) * u(0.2, 0.6)  # several at once: partials that come and go
        self.swell = u(0, 0.3)  # how far the tone's brightness wanders
        self.bright = l(0.05, 1.0)
        self.shake = some(0.35 if kind == "reed" else 0.25 if kind == "blown" else 0.0) * u(0.1, 0.7)
        self.second = some(0.2 if kind in ("reed", "voice") else 0.1 if kind == "bowed" else 0.0) * u(0.3, 1.0)
        self.detune = l(1, 18)

    def render(self, pitch):
        """[count, LENGTH] at this MIDI pitch."""
        count, device = self.count, self.device
        f0 = 440 * 2 ** ((pitch - 69) / 12)
        g = torch.Generator().manual_seed(3000 + pitch)
        put = lambda values: values.to(device)[:, None]
        rand = lambda *shape: torch.rand(*shape, generator=g)
        time = torch.arange(LENGTH, device=device, dtype=torch.float32) / RATE
        start = put(self.start * torch.exp(0.5 * torch.randn(count, generator=g)))
        drift = self.waver(9) * put(self.jitter)
        phase = (2 * math.pi * f0 / RATE * torch.cumsum((1 + drift).double(), 1)).remainder(2 * math.pi).float()
        shake = self.shake_of(rand, put, time)
        moves = self.moves(rand, put, time)
        vowels = VOWELS[(rand(3, count) * len(VOWELS)).long()] * self.size[:, None] * torch.exp(0.06 * torch.randn(3, count, 4, generator=g))
        opened = self.opening(rand, put, time)
        hand, wander = put(self.hand) * (1 - opened), put(self.swell) * self.waver(1.2)
        cavity = put(self.closed) * put(self.wide) ** opened
        rate, late = put(4.3 + 2.4 * rand(count)), put(0.1 + 0.5 * rand(count))
        stir = put(self.stir) * ((time - late) / 0.15).sigmoid()
        out = torch.zeros(count, LENGTH, device=device)
        gain = torch.exp(self.uneven[:, None] * torch.randn(count, 64, generator=g))
        for n in range(1, min(60, int(0.46 * RATE / f0)) + 1):
            hertz = n * f0
            if self.kind == "voice":
                shapes = [put(self.formed(v, hertz) / n ** (self.slope - 0.6)) for v in vowels]
                strength = shapes[0] + (shapes[1] - shapes[0]) * moves[0] + (shapes[2] - shapes[1]) * moves[1]
            else:
                strength = put(gain[:, n] / n**self.slope * (self.odd if n % 2 == 0 else 1.0) * self.coloured(n, hertz))
            if self.cup.any():
                strength = strength * (1 + put(self.cup) / (1 + ((hertz - cavity) / (0.2 * cavity)) ** 2))
            strength = strength * n**-wander * torch.exp(-hand * max(0.0, math.log2(hertz / 600)))
            strength = strength * (1 + stir * torch.sin(2 * math.pi * (rate * time + put(rand(count)))))
            if self.crowd.any():
                strength = strength * torch.exp(put(self.crowd) * self.waver(5))
            rise = 1 - torch.exp(-time / (start * (1 + put(self.bright) * min(n - 1, 8) * 0.5)))
            wave = torch.sin(n * phase + put(2 * math.pi * rand(count)))
            if self.second.any():
                beat = 2 * math.pi * hertz * (2 ** (put(self.detune) / 1200) - 1)
                wave = wave + put(self.second) * torch.sin(n * phase + beat * time + put(2 * math.pi * rand(count)))
            out += wave * strength * rise * (1 - shake * min(1.0, 0.4 + 0.12 * n))
        return self.breathe(out, phase, time, start, rand, put)

    def formed(self, formants, hertz):
        width = (50 + 0.06 * formants) * self.mouth[:, None]
        ring = self.ring * torch.exp(-(((hertz - self.ringing) / 450) ** 2)) * 0.2
        return (self.formants / (1 + ((hertz - formants) / width) ** 2)).sum(1) + ring + 0.01

    def coloured(self, n, hertz):
        """What a body, a pipe or a reed's cover makes of a partial."""
        if self.kind == "bowed":
            return 0.25 + (1 / (1 + ((hertz / self.modes - 1) * self.sharp) ** 2)).sum(1)
        comb = 1 - self.duty * (1 - (math.pi * n * self.pulse).sin().abs())
        return comb * (1 + (self.peak / (1 + ((hertz - self.resonances) / self.width) ** 2)).sum(1))

    def moves(self, rand, put, time):
        """How far the mouth has come from the first vowel to the second and from there to the third: 0 to 1."""
        at, free = 0.05 + 0.5 * rand(self.count), put(1 - self.still)
        later = at + 0.1 + 0.8 * rand(self.count)
        return [free * ((time - put(t)) / put(0.015 + 0.2 * rand(self.count))).sigmoid() for t in (at, later)]

    def opening(self, rand, put, time):
        """Hands about a harmonica: opened once, slowly, or again and again; 0 to 1."""
        once = ((time - put(0.6 * rand(self.count))) / put(0.01 + 0.12 * rand(self.count))).sigmoid()
        again = 0.5 - 0.5 * torch.cos(2 * math.pi * put(2 + 5 * rand(self.count)) * time)
        return torch.where(put(rand(self.count)) < 0.6, once, again)

    def shake_of(self, rand, put, time):
        """Hands that open and close, or a breath that pulses: 0 to 1."""
        rate, late = put(3 + 5 * rand(self.count)), put(0.5 * rand(self.count))
        on = put((rand(self.count) < 0.6).float() * self.shake)
        return on * (0.5 - 0.5 * torch.cos(2 * math.pi * rate * (time - late).clamp_min(0)))

    def waver(self, hertz):
        return waver(self.count, hertz, LENGTH, self.device, self.noise)

    def breathe(self, out, phase, time, start, rand, put):
        count, device = self.count, self.device
        level = out.square().mean(1, keepdim=True).sqrt()
        hiss = torch.randn(count, LENGTH, device=device, generator=self.noise)
        if self.kind == "blown":  # breath is loudest about the pipe's own pitch
            hiss = 0.5 * hiss + 1.5 * self.waver(120) * torch.sin(phase)
        burst = put((rand(count) < {"reed": 0.15, "voice": 0.6, "blown": 0.6, "bowed": 0.3}[self.kind]).float() * rand(count))
        length = put(0.015 + 0.1 * rand(count) * (self.kind == "voice") + 0.02 * rand(count))
        lag = length * (self.kind == "voice")
        swell = torch.exp(-((time - 0.5 * length) / (0.5 * length)) ** 2) * burst * 0.5
        hiss = hiss * (put(self.breath) * (1 - torch.exp(-time / start)) + swell)
        if self.kind == "voice":  # the tone waits for the consonant, or hums through it
            hum = put((rand(count) < 0.5).float() * 0.25)
            out = out * (hum + (1 - hum) * ((time - lag) / 0.012).sigmoid())
        return out + hiss * level

"""Sound made from formulas alone: plucked strings with bodies, reeds and voices, dead strokes and knocks.

A plucked string is a sum of damped partials (Fletcher and Rossing, The Physics of Musical Instruments, chapters 2 and 9):
partial n of a stiff string lies at n f0 sqrt(1 + B n^2), its strength follows the plucking point, sin(n pi p), and a power of n,
its loss grows with frequency, and two polarisations slightly out of tune with different losses give the two-stage decay.
A body is a set of damped modes; the finger or pick adds a burst of noise.
"""
import math

import torch

RATE = 22050
LENGTH = 77000  # samples of a row
GRID = tuple(range(34, 95, 2))  # MIDI pitches rendered of each string instrument; notes between are resampled


def uniform(generator, shape, low, high):
    return low + (high - low) * torch.rand(shape, generator=generator)


def log_uniform(generator, shape, low, high):
    return torch.exp(uniform(generator, shape, math.log(low), math.log(high)))


class Strings:
    """Parameters of `count` string instruments; render(pitch) gives three rows of each: soft, hard, palm-muted."""

    def __init__(self, count, seed, device):
        g = torch.Generator().manual_seed(seed)
        self.count, self.device = count, device
        self.noise = torch.Generator(device=device).manual_seed(seed + 1)
        nylon = torch.rand(count, generator=g) < 0.35
        electric = (torch.rand(count, generator=g) < 0.25) & ~nylon
        self.stiff = log_uniform(g, count, 1e-5, 1.2e-4) * torch.where(nylon, 0.4, 1.0)
        self.point = uniform(g, count, 0.07, 0.38)
        self.slope = uniform(g, count, 0.6, 1.7) + torch.where(nylon, 0.3, 0.0)
        self.loss0 = log_uniform(g, count, 0.35, 1.6) * torch.where(nylon, 1.5, 1.0)
        self.loss1 = log_uniform(g, count, 0.15, 2.5) * torch.where(nylon, 1.6, 1.0)
        self.rise = uniform(g, count, 0.2, 0.7)  # how the loss grows with the string's pitch, octaves
        self.beat = log_uniform(g, count, 0.02, 0.9)
        self.second = uniform(g, count, 0.1, 0.7)
        self.ratio = uniform(g, count, 0.15, 0.8)
        self.pick = log_uniform(g, count, 0.004, 0.25)
        self.pick_time = log_uniform(g, count, 0.0015, 0.02)
        self.soft = log_uniform(g, count, 0.0003, 0.004)
        self.pickup = torch.where(electric, uniform(g, count, 0.06, 0.26), torch.zeros(count))
        self.uneven = uniform(g, count, 0.15, 0.75)  # spread of the partials' strengths, nepers
        self.lossy = uniform(g, count, 0.05, 0.6)  # and of their losses: a body takes more from some than from others
        self.bodies = self.make_bodies(g, electric)

    def make_bodies(self, g, electric):
        """Impulse responses [count, 4096]: the direct string, modes from 85 Hz up, a diffuse rest."""
        time = torch.arange(4096) / RATE
        out = torch.zeros(self.count, 4096)
        for k in range(self.count):
            modes = torch.cat([uniform(g, 1, 85, 125), uniform(g, 2, 160, 260), log_uniform(g, 16, 280, 3500)])
            strength = log_uniform(g, len(modes), 0.004, 0.06) * (modes / 200) ** 0.1
            loss = math.pi * modes / log_uniform(g, len(modes), 8, 45)
            waves = strength[:, None] * torch.exp(-loss[:, None] * time) * torch.sin(2 * math.pi * modes[:, None] * time)
            diffuse = torch.randn(4096, generator=g) * torch.exp(-time / float(log_uniform(g, 1, 0.002, 0.012))) * 0.01
            out[k] = (waves.sum(0) + diffuse * float(uniform(g, 1, 0, 1))) * (0.1 if electric[k] else 1)
            out[k, 0] += 1
        return out

    def render(self, pitch):
        """[count * 3, LENGTH] at this MIDI pitch."""
        three = lambda values: values.repeat_interleave(3).to(self.device)
        g = torch.Generator().manual_seed(1000 + pitch)
        rows = 3 * self.count
        variant = torch.arange(rows, device=self.device) % 3
        f0 = 440 * 2 ** ((pitch - 69) / 12)
        jitter = lambda spread: torch.exp(spread * torch.randn(rows, generator=g)).to(self.device)
        stiff = three(self.stiff) * 2 ** ((pitch - 52) / 12) * jitter(0.25)
        point = (three(self.point) * 2 ** ((pitch - 50) / 40) * jitter(0.2)).clamp(0.03, 0.48)
        slope = three(self.slope) + torch.where(variant == 0, 0.45, torch.where(variant == 1, -0.1, 0.2))
        loss0 = three(self.loss0) * 2 ** ((pitch - 45) / 12 * three(self.rise)) * jitter(0.3)
        loss1 = three(self.loss1) * jitter(0.3)
        muted = torch.where(variant == 2, jitter(0.4) * 7, torch.zeros(rows, device=self.device))
        beat, second, ratio = three(self.beat) * jitter(0.4), three(self.second), three(self.ratio)
        pickup, uneven, lossy = three(self.pickup), three(self.uneven), three(self.lossy)
        time = torch.arange(LENGTH, device=self.device, dtype=torch.float32) / RATE
        out = torch.zeros(rows, LENGTH, device=self.device)
        for n in range(1, min(90, int(0.46 * RATE / f0)) + 1):
            frequency = n * f0 * torch.sqrt(1 + stiff * n * n) / torch.sqrt(1 + stiff)
            comb = torch.where(pickup > 0, torch.sin(n * math.pi * pickup), torch.ones_like(pickup))
            strength = torch.sin(n * math.pi * point) * comb / n**slope * jitter(1.0) ** uneven * (frequency < 0.48 * RATE)
            loss = (loss0 + loss1 * (frequency / 1000) ** 1.3) * jitter(1.0) ** lossy + muted * (1 + 0.8 * (n - 1))
            offset = beat * min(n, 6) ** 0.5 * jitter(0.6)
            phase = (torch.rand(rows, generator=g) * 0.5).to(self.device)
            for part, detune, slower in ((1 - second, 0.0, 1.0), (second, 1.0, ratio)):
                fading = loss * slower
                span = min(LENGTH, int(float((9 / fading).max()) * RATE))
                turn = 2 * math.pi * (frequency + detune * offset)
                wave = torch.exp(-fading[:, None] * time[:span]) * torch.cos(turn[:, None] * time[:span] + phase[:, None])
                out[:, :span].addcmul_(wave, (strength * part)[:, None])
        return self.finish(out, variant, three)

    def finish(self, out, variant, three):
        """The soft start, the pick's noise, the body."""
        rows = len(out)
        span = 4096
        time = torch.arange(span, device=self.device) / RATE
        soft = three(self.soft)[:, None] * torch.where(variant == 0, 1.6, 1.0)[:, None]
        out[:, :span] *= 1 - torch.exp(-time / soft)
        peak = out.abs().amax(1, keepdim=True).clamp_min(1e-9)
        burst = torch.randn(rows, span, device=self.device, generator=self.noise)
        shape = (1 - torch.exp(-time / 0.0005)) * torch.exp(-time / three(self.pick_time)[:, None])
        varied = torch.exp(0.5 * torch.randn(rows, 1, device=self.device, generator=self.noise))
        level = three(self.pick)[:, None] * varied * torch.where(variant == 0, 0.5, 1.0)[:, None]
        out[:, :span] += burst * shape * level * peak
        return convolve(out, three_rows(self.bodies, self.device))

    def dead(self):
        """[count * 2, LENGTH] strokes over strings that a hand holds: a choked tone, much noise; and a knock on the body."""
        rows = 2 * self.count
        time = torch.arange(LENGTH, device=self.device) / RATE
        g = self.noise
        rand = lambda low, high: low + (high - low) * torch.rand(rows, 1, device=self.device, generator=g)
        knock = (torch.arange(rows, device=self.device) % 2 == 1)[:, None]
        out = torch.zeros(rows, LENGTH, device=self.device)
        for _ in range(8):
            hertz = torch.where(knock, rand(80, 420), rand(90, 1600))
            out += rand(0, 1) * torch.exp(-time * rand(22, 90)) * torch.sin(2 * math.pi * hertz * time)
        noise = torch.randn(rows, LENGTH, device=self.device, generator=g) * torch.exp(-time * rand(40, 260))
        out += noise * torch.where(knock, rand(0.0, 0.6), rand(0.3, 2.5))
        return convolve(out, self.bodies.repeat_interleave(2, 0).to(self.device))


def three_rows(values, device):
    return values.repeat_interleave(3, 0).to(device)


def convolve(sound, responses):
    size = 2 ** math.ceil(math.log2(sound.shape[1] + responses.shape[1]))
    out = torch.empty_like(sound)
    for at in range(0, len(sound), 256):
        spectrum = torch.fft.rfft(sound[at : at + 256], size) * torch.fft.rfft(responses[at : at + 256], size)
        out[at : at + 256] = torch.fft.irfft(spectrum, size)[:, : sound.shape[1]]
    return out


class Singers:
    """Reeds and voices: steady harmonics under formants, a soft start, breath noise. One row a pitch; vibrato comes with the playing."""

    def __init__(self, count, seed, device):
        g = torch.Generator().manual_seed(seed)
        self.count, self.device = count, device
        self.noise = torch.Generator(device=device).manual_seed(seed + 1)
        self.formants = torch.stack([uniform(g, count, 280, 900), uniform(g, count, 900, 2200), uniform(g, count, 2200, 3600)], 1)
        self.width = uniform(g, (count, 3), 60, 260)
        self.slope = uniform(g, count, 0.5, 2.2)
        self.floor = log_uniform(g, count, 0.02, 0.5)
        self.start = log_uniform(g, count, 0.008, 0.09)
        self.breath = log_uniform(g, count, 0.001, 0.08)
        self.odd = torch.where(torch.rand(count, generator=g) < 0.2, 0.2, 1.0)

    def render(self, pitch):
        f0 = 440 * 2 ** ((pitch - 69) / 12)
        time = torch.arange(LENGTH, device=self.device) / RATE
        g = torch.Generator().manual_seed(2000 + pitch)
        out = torch.zeros(self.count, LENGTH, device=self.device)
        wobble = (torch.rand(self.count, 1, generator=g) * 0.3).to(self.device)
        rate = (0.3 + 2 * torch.rand(self.count, 1, generator=g)).to(self.device)
        for n in range(1, min(60, int(0.46 * RATE / f0)) + 1):
            gains = (1 / (1 + ((n * f0 - self.formants) / self.width) ** 2)).sum(1) + self.floor
            strength = (gains / n**self.slope * (self.odd if n % 2 == 0 else 1)).to(self.device)
            phase = (torch.rand(self.count, generator=g) * 2 * math.pi).to(self.device)
            out.addcmul_(torch.sin(2 * math.pi * n * f0 * time + phase[:, None]), strength[:, None])
        out *= 1 + wobble * torch.sin(2 * math.pi * rate * time)
        level = out.square().mean(1, keepdim=True).sqrt()
        out += torch.randn(out.shape, device=self.device, generator=self.noise) * self.breath.to(self.device)[:, None] * level
        return out * (1 - torch.exp(-time / self.start.to(self.device)[:, None]))

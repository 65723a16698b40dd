"""What happens to a clip on its way to the listener, drawn anew each time: speed, room, equaliser, compression, drive, noise, missing bands."""
import math

import torch

RATE = 22050


def window(sound, start, speed, samples):
    """Samples of each clip from its start (in seconds) on, at its speed."""
    place = start.double()[:, None] * RATE + torch.arange(samples, device=sound.device, dtype=torch.float64)[None] * speed.double()[:, None]
    low = place.long().clamp(0, sound.shape[1] - 2)
    part = (place - low).float().clamp(0, 1)
    return sound.gather(1, low).float() * (1 - part) + sound.gather(1, low + 1).float() * part


class Rooms:
    def __init__(self, device, seed, count=256, length=12288):
        generator = torch.Generator().manual_seed(seed)
        time_axis = torch.arange(length) / RATE
        rooms = []
        for _ in range(count):
            u = torch.rand(4, generator=generator)
            decay = 0.08 + 1.1 * u[0] ** 2
            tail = torch.randn(length, generator=generator) * torch.exp(-6.9 * time_axis / decay)
            tail[: int(RATE * 0.002 * (1 + 8 * u[1]))] = 0
            tail = tail / (tail.pow(2).sum().sqrt() + 1e-9) * (u[2] * 0.9 if u[3] > 0.3 else 0)
            tail[0] = 1
            rooms.append(tail)
        self.rooms, self.device = torch.stack(rooms).to(device), device

    def rand(self, *shape):
        return torch.rand(*shape, device=self.device)

    def __call__(self, sound):
        batch, size = sound.shape
        spectrum = torch.fft.rfft(sound, size) * torch.fft.rfft(self.rooms[torch.randint(len(self.rooms), (batch,), device=self.device)], size)
        sound = torch.fft.irfft(spectrum * self.equaliser(batch, size), size)
        sound = sound / (sound.pow(2).mean(1, keepdim=True).sqrt() + 1e-9)
        sound = self.compressed(sound)
        drive = self.rand(batch, 1) * 1.5 + 0.3
        sound = torch.where(self.rand(batch, 1) < 0.3, torch.tanh(sound * drive) / drive, sound)
        noise = torch.randn_like(sound)
        noise = torch.where(self.rand(batch, 1) < 0.5, noise, torch.nn.functional.avg_pool1d(noise[:, None], 9, 1, 4)[:, 0] * 3)
        return sound + noise * 10 ** (-(self.rand(batch, 1) * 60 + 13) / 20)

    def equaliser(self, batch, size):
        """Twelve points of random gain and a tilt; one clip in six dull, one in eight thin, one in fourteen as a telephone has it."""
        hertz = torch.linspace(0, RATE / 2, size // 2 + 1, device=self.device)
        curve = torch.randn(batch, 12, device=self.device) * (self.rand(batch, 1) * 6) + torch.linspace(-1, 1, 12, device=self.device) * torch.randn(batch, 1, device=self.device) * 6
        place = (torch.log2(hertz + 20) - math.log2(20)) / math.log2(11045 / 20) * 11
        low = place.floor().clamp(0, 10).long()
        part = (place - low)[None]
        decibels = curve[:, low] * (1 - part) + curve[:, low + 1] * part
        above, below = 2000 * 4 ** self.rand(batch, 1), 60 * 5 ** self.rand(batch, 1)
        dull = (self.rand(batch, 1) < 1 / 6) * 24 * torch.log2(hertz[None] / above + 1e-6).clamp(min=0)
        thin = (self.rand(batch, 1) < 1 / 8) * 18 * torch.log2(below / (hertz[None] + 1)).clamp(min=0)
        edges = 24 * (torch.log2(300 / (hertz[None] + 1)).clamp(min=0) + torch.log2(hertz[None] / 3400 + 1e-6).clamp(min=0))
        return 10 ** ((decibels - dull - thin - (self.rand(batch, 1) < 1 / 14) * edges) / 20)

    def compressed(self, sound):
        """Loud moments made softer by a follower of 40 to 400 ms, as records are."""
        batch, size = sound.shape
        power = torch.nn.functional.avg_pool1d(sound[:, None].pow(2), 441, 441, ceil_mode=True)
        reach = 2 * int(torch.randint(1, 10, ())) + 1
        level = torch.nn.functional.avg_pool1d(torch.nn.functional.pad(power, (reach // 2, reach // 2), mode="replicate"), reach, 1).sqrt() + 0.05
        gain = level ** -(self.rand(batch, 1, 1) * 0.6 * (self.rand(batch, 1, 1) < 0.4))
        return sound * torch.nn.functional.interpolate(gain, size, mode="linear")[:, 0]


def without_bands(bands, first=44):
    """In one clip of three a stretch of each spectrum is silent."""
    batch, _, count = bands.shape
    at, keep = torch.arange(count, device=bands.device)[None], torch.ones(batch, count, device=bands.device)
    for low, high, most in ((0, first, 12), (first, count, 16)):
        start = low + torch.rand(batch, 1, device=bands.device) * (high - low)
        stop = start + torch.rand(batch, 1, device=bands.device) * most * (torch.rand(batch, 1, device=bands.device) < 1 / 3)
        keep = keep * ~((at >= start) & (at < stop) & (at >= low) & (at < high))
    return bands * keep[:, None]

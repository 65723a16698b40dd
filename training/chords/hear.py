"""Clips as the program hears them: in a room, by the note network, cut to spans."""
import math

import numpy as np

from spans import rows

SPANS = 128


class Rooms:
    """Rooms, equalisers, compression and noise; a clip in six stays as it is."""

    def __init__(self, torch, device, seed, count=256, length=8192):
        generator = torch.Generator().manual_seed(seed)
        time = torch.arange(length) / 22050
        made = []
        for _ in range(count):
            u = torch.rand(4, generator=generator)
            tail = torch.randn(length, generator=generator) * torch.exp(-6.9 * time / (0.08 + 0.9 * u[0] ** 2))
            tail[: int(22050 * 0.002 * (1 + 8 * u[1]))] = 0
            tail = tail / (tail.pow(2).sum().sqrt() + 1e-9) * (u[2] * 0.8 if u[3] > 0.3 else 0)
            tail[0] = 1
            made.append(tail)
        self.rooms, self.torch, self.device = torch.stack(made).to(device), torch, device

    def __call__(self, sound):
        torch, batch, size = self.torch, *sound.shape
        uniform = lambda: torch.rand(batch, 1, device=self.device)
        spectrum = torch.fft.rfft(sound) * torch.fft.rfft(self.rooms[torch.randint(len(self.rooms), (batch,), device=self.device)], size)
        octaves = (torch.log2(torch.linspace(0, 11025, size // 2 + 1, device=self.device) + 20) - math.log2(20)) / math.log2(11045 / 20) * 11
        low = octaves.floor().clamp(0, 10).long()
        curve = torch.randn(batch, 12, device=self.device) * uniform() * 5 + torch.linspace(-1, 1, 12, device=self.device) * torch.randn(batch, 1, device=self.device) * 5
        part = octaves - low
        wet = torch.fft.irfft(spectrum * 10 ** ((curve[:, low] * (1 - part) + curve[:, low + 1] * part) / 20), size)
        wet = wet / (wet.pow(2).mean(1, keepdim=True).sqrt() + 1e-9)
        drive = uniform() * 1.5 + 0.3
        wet = torch.where(uniform() < 0.25, torch.tanh(wet * drive) / drive, wet)
        wet = wet + torch.randn_like(wet) * 10 ** (-(uniform() * 55 + 22) / 20)
        return torch.where(uniform() < 1 / 6, sound, wet)


class Ears:
    """Hears clips with one of the note networks, by chance."""

    def __init__(self, torch, device, weights, network, features, seed):
        self.torch, self.device, self.level = torch, device, features.level_batch
        self.features, self.rooms, self.networks = features.Features().to(device), Rooms(torch, device, seed), []
        for path in weights:
            made = network.Network()
            state = torch.load(path, map_location="cpu")
            made.load_state_dict(state.get("average", state) if isinstance(state, dict) else state)
            self.networks.append(made.to(device).eval())
        if device != "cpu":
            torch.backends.cuda.matmul.allow_tf32 = torch.backends.cudnn.allow_tf32 = torch.backends.cudnn.benchmark = True
        self.rng = np.random.default_rng(seed)

    def hear(self, clips):
        """Rows [clips, SPANS, values], labels [clips, SPANS, 5] and the count of spans of each, on the device."""
        torch = self.torch
        table = lambda k, fill: torch.from_numpy(np.stack([np.pad(c[k], (0, SPANS - len(c[k])), constant_values=fill) for c in clips]))
        counts = torch.tensor([len(c[3]) for c in clips])
        first, last = table(3, 0), table(4, 1)
        beyond = torch.arange(SPANS)[None] >= counts[:, None]
        frames = len(clips[0][2]) // 256 + 1
        first[beyond], last[beyond] = frames - 1, frames
        told = torch.from_numpy(np.stack([np.pad(c[7], ((0, SPANS - len(c[7])), (0, 0))) for c in clips]))
        sound = torch.from_numpy(np.stack([c[2] for c in clips])).to(self.device).float() / 32768
        with torch.no_grad():
            onset, sounding = self.notes(sound)
            seen = rows(sounding, onset, first.to(self.device), last.to(self.device), table(5, 1.0).to(self.device), table(6, 0).to(self.device))
        return seen, told.to(self.device), counts.to(self.device)

    def notes(self, sound):
        torch = self.torch
        sound, network = self.level(self.rooms(sound)), self.networks[int(self.rng.integers(len(self.networks)))]
        onset, sounding = [], []
        for part in sound.split(16):
            seen = self.features(part)
            count = seen.shape[2]
            seen = torch.nn.functional.pad(seen, (0, 0, 0, 2 - count % 2), value=-0.5)
            with torch.autocast(self.device, torch.bfloat16, enabled=self.device != "cpu"):
                heard = network(seen)
            heard = heard.float().sigmoid()[:, :, :count]
            onset.append(heard[:, 0])
            sounding.append(heard[:, 1])
        return torch.cat(onset), torch.cat(sounding)

"""From the instruments to the ear: rooms, sympathetic strings, microphones, noise, tape, compression, clipping, lossy coding."""
import copy
import math

import torch

RATE = 22050
SIZE = 131072


class Effects:
    """`without` names parts of the recipe (recipe.py) that are left out: rooms, colour, wear, drift."""

    def __init__(self, device, seed, rooms=256, sympathies=64, without=frozenset()):
        self.device, self.without = device, without
        self.g = torch.Generator(device=device).manual_seed(seed)
        self.frequency = torch.fft.rfftfreq(SIZE, 1 / RATE).to(device)
        self.rooms = torch.stack([self.room() for _ in range(rooms)])
        self.sympathies = torch.stack([self.sympathy() for _ in range(sympathies)])

    def leaving_out(self, without, seed):
        """The same rooms with other parts left out, drawing on its own."""
        other = copy.copy(self)
        other.without, other.g = without, torch.Generator(device=self.device).manual_seed(seed)
        return other

    def rand(self, *shape):
        return torch.rand(*shape, device=self.device, generator=self.g)

    def between(self, low, high, *shape):
        return low + (high - low) * self.rand(*shape)

    def room(self):
        """The spectrum of a room's answer without the direct sound: a few early reflections and a tail that darkens."""
        n = 26000
        time = torch.arange(n, device=self.device) / RATE
        rt = float(torch.exp(self.between(math.log(0.12), math.log(1.3), 1)))
        answer = torch.zeros(n, device=self.device)
        for speed, cut in ((1.0, 900), (1.6, 2500), (2.6, 20000)):
            noise = torch.fft.rfft(torch.randn(n, device=self.device, generator=self.g))
            f = torch.fft.rfftfreq(n, 1 / RATE).to(self.device)
            band = 1 / (1 + (f / cut) ** 4)
            answer += torch.fft.irfft(noise * band, n) * torch.exp(-6.9 * speed * time / rt) * (cut > 0) * 0.5
        answer *= 1 - torch.exp(-time / 0.004)
        for _ in range(8):
            answer[int(self.between(30, 900, 1))] += float(self.between(-1, 1, 1)) * 6
        return torch.fft.rfft(answer / answer.norm(), SIZE)

    def sympathy(self):
        """The spectrum of six open strings that answer to whatever sounds."""
        n = 30000
        time = torch.arange(n, device=self.device) / RATE
        answer = torch.zeros(n, device=self.device)
        for pitch in (40, 45, 50, 55, 59, 64):
            f0 = 440 * 2 ** ((pitch + int(self.between(-3, 3, 1)) - 69) / 12)
            for k in range(1, 9):
                answer += torch.exp(-time * (1 + 0.5 * k)) * torch.cos(2 * math.pi * k * f0 * time + 6.28 * self.rand(1)) / k
        return torch.fft.rfft(answer / answer.norm() * 0.3, SIZE)

    def equaliser(self, clips, depth):
        """Smooth random gain curves [clips, bins] over log frequency: `depth` decibels a node."""
        depth = 0 if "colour" in self.without else depth
        nodes = self.rand(clips, 14).sub(0.5).mul(2 * depth) + self.between(-1, 1, clips, 1) * 1.2 * depth * torch.linspace(-1, 1, 14, device=self.device)
        place = (torch.log2((self.frequency + 20) / 40) / 8.3 * 13).clamp(0, 12.999)
        low = place.long()
        part = place - low
        return 10 ** ((nodes[:, low] * (1 - part) + nodes[:, low + 1] * part) / 20)

    def pick(self, part, clips, chance):
        """Ones for the clips that get something of this part, zeros for the others."""
        return (self.rand(clips, 1) < (0 if part in self.without else chance)).float()

    def __call__(self, buses):
        """buses [clips, 2, samples] -> sound [clips, samples]"""
        clips, _, samples = buses.shape
        guitar, other = buses[:, 0], buses[:, 1]
        driven = self.pick("wear", clips, 0.06)
        push = self.between(3, 40, clips, 1) * driven + 1e-3
        guitar = driven * torch.tanh(guitar * push) / push.sqrt() * 0.4 + (1 - driven) * guitar
        a, b = torch.fft.rfft(guitar, SIZE), torch.fft.rfft(other, SIZE)
        a = a * self.equaliser(clips, 5) * (1 + self.wet(clips, 0.75) + self.sympathetic(clips))
        b = b * self.equaliser(clips, 4) * (1 + self.wet(clips, 0.6))
        total = (a + b) * self.equaliser(clips, 3) * self.passband(clips)
        total = total if "wear" in self.without else total + self.noise(total, samples)
        sound = torch.fft.irfft(total * self.lowpass(clips), SIZE)[:, :samples]
        return self.finish(sound)

    def wet(self, clips, chance):
        which = (self.rand(clips) * len(self.rooms)).long()
        return self.rooms[which] * (10 ** (self.between(-32, 1, clips, 1) / 20) * self.pick("rooms", clips, chance))

    def sympathetic(self, clips):
        which = (self.rand(clips) * len(self.sympathies)).long()
        return self.sympathies[which] * (10 ** (self.between(-30, -10, clips, 1) / 20) * self.pick("rooms", clips, 0.4))

    def passband(self, clips):
        """Small loudspeakers and thin pickups: a low cut."""
        cut = torch.exp(self.between(math.log(30), math.log(160), clips, 1)) * self.pick("colour", clips, 0.4) + 1e-3
        power = (self.frequency / cut) ** 4
        return (power / (1 + power)).sqrt()

    def lowpass(self, clips):
        cut = self.between(3500, 10500, clips, 1) + 30000 * (1 - self.pick("colour", clips, 0.35))
        return 1 / (1 + (self.frequency / cut) ** 16)

    def noise(self, total, samples):
        clips = len(total)
        colour = self.between(0, 1.1, clips, 1)
        shape = ((self.frequency + 30) / 1000) ** (-colour)
        spectrum = torch.view_as_complex(torch.randn(*total.shape, 2, device=self.device, generator=self.g)) * shape
        level = total.abs().square().mean(1, keepdim=True).sqrt() / spectrum.abs().square().mean(1, keepdim=True).sqrt().clamp_min(1e-9)
        quiet = torch.where(self.rand(clips, 1) < 0.25, self.between(12, 35, clips, 1), self.between(35, 75, clips, 1))
        out = spectrum * level * 10 ** (-quiet / 20)
        hum = torch.where(self.rand(clips, 1) < 0.5, 50.0, 60.0)
        strong = 10 ** (self.between(-55, -28, clips, 1) / 20) * self.pick("wear", clips, 0.1) * total.abs().amax(1, keepdim=True)
        for k in (1, 2, 3, 5):
            place = (hum * k * SIZE / RATE).round().long()
            out.scatter_add_(1, place, (strong / k).to(out.dtype))
        return out

    def finish(self, sound):
        clips, samples = sound.shape
        sound = sound / sound.square().mean(1, keepdim=True).sqrt().clamp_min(1e-7) * 0.1
        sound = self.compress(sound)
        clipped = self.pick("wear", clips, 0.06)
        limit = self.between(0.12, 0.4, clips, 1)
        sound = clipped * limit * torch.tanh(sound / limit) + (1 - clipped) * sound
        sound = self.wow(sound)
        return self.coded(sound)

    def compress(self, sound):
        """A compressor on a third of the clips: 2:1 to 8:1 over a threshold, 12 ms windows."""
        clips, samples = sound.shape
        power = torch.nn.functional.avg_pool1d(sound.square()[:, None], 256, 128, 64, count_include_pad=False)
        power = torch.nn.functional.avg_pool1d(power, 3, 1, 1, count_include_pad=False)
        level = torch.nn.functional.interpolate(power, samples, mode="linear")[:, 0].clamp_min(1e-8)
        threshold = 10 ** (self.between(-32, -16, clips, 1) / 10)
        amount = (1 - 1 / self.between(1.5, 6, clips, 1)) * self.pick("wear", clips, 0.33)
        return sound * (level / threshold).clamp_min(1.0) ** (-0.5 * amount)

    def wow(self, sound):
        """A tape's slow waver on some clips, up to about 8 cents."""
        clips, samples = sound.shape
        some = self.pick("drift", clips, 0.1).nonzero()[:, 0]
        if not len(some):
            return sound
        t = torch.arange(samples, device=self.device)
        rate = 2 * math.pi * self.between(0.4, 4, len(some), 1) / RATE
        shift = self.between(0.0005, 0.004, len(some), 1) / rate * torch.sin(rate * t + 6.28 * self.rand(len(some), 1))
        at = (t + shift).clamp(0, samples - 2)
        low = at.long()
        part = at - low
        chosen = sound[some]
        out = sound.clone()
        out[some] = chosen.gather(1, low) * (1 - part) + chosen.gather(1, low + 1) * part
        return out

    def coded(self, sound):
        """Loses what lies well under its neighbours in time and frequency, as lossy coding at low rates does."""
        some = self.pick("wear", len(sound), 0.12).nonzero()[:, 0]
        if not len(some):
            return sound
        window = torch.hann_window(1024, device=self.device)
        spectrum = torch.stft(sound[some], 1024, 256, window=window, return_complex=True)
        power = spectrum.abs()
        around = torch.nn.functional.avg_pool2d(power[:, None], (9, 3), 1, (4, 1), count_include_pad=False)[:, 0]
        keep = (power > around * self.between(0.1, 0.8, len(some), 1, 1)).float()
        out = sound.clone()
        out[some] = torch.istft(spectrum * keep, 1024, 256, window=window, length=sound.shape[1])
        return out

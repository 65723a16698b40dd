"""From events to what the network hears and must say, on the GPU."""
import math
import os
import sys

import torch

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "notes"))
import features  # noqa: E402
import playing  # noqa: E402
from clips import SAMPLES  # noqa: E402
from effects import SIZE, Effects  # noqa: E402
from mix import mix  # noqa: E402
from rows import Rows  # noqa: E402
from sounds import KINDS, REACH, Held  # noqa: E402

FPS = features.RATE / features.HOP
FRAMES = SAMPLES // features.HOP
EDGE = 14
LOWEST, PITCHES = 36, 61
QUIET = 1e-7  # power under which a bin has no place in the stereo picture


class Instruments(Rows):
    """The rows of the note network's recipe, and those that hold their tone."""

    def add_held(self, count, seed):
        for n, kind in enumerate(KINDS):
            made = Held(kind, count, seed + 10 * n, self.device)
            low, high = REACH[kind]
            grid = range(low, high + 1, 3)
            rows = []
            for pitch in grid:
                sound = made.render(pitch)
                rows.append(self.add(sound, [pitch] * count))
            for k in range(count):
                self.instrument("made " + kind, {"hard": (torch.tensor(list(grid)).numpy().astype(float), torch.tensor([int(r[k]) for r in rows]).numpy())})


class Stage(Effects):
    """Levels, places, rooms: four buses to mono, left and right."""

    def stage(self, buses):
        """buses [clips, 4, samples] -> mono as it is recorded, left and right before the recorder's wear, which clips are stereo."""
        clips, _, samples = buses.shape
        squares = buses[..., : samples // 2048 * 2048].reshape(clips, 4, -1, 2048).square().mean(3)
        loud = squares > 0.01 * squares.amax(2, keepdim=True).clamp_min(1e-12)
        level = ((squares * loud).sum(2) / loud.sum(2).clamp_min(1)).sqrt()
        aim = 0.1 * 10 ** (torch.stack([self.between(0, 0, clips), self.between(-14, 3, clips), self.between(-13, 9, clips), self.between(-13, 7, clips)], 1) / 20)
        stereo = (self.rand(clips) < 0.5).float()
        left, right = 0.0, 0.0
        buses = torch.cat([buses[:, :2], self.driven(buses[:, 2:])], 1)
        for bus in range(4):
            gain = torch.where(level[:, bus] > 1e-6, aim[:, bus] / level[:, bus].clamp_min(1e-6), torch.zeros_like(level[:, bus]))
            spectrum = torch.fft.rfft(buses[:, bus] * gain[:, None], SIZE) * self.equaliser(clips, (5, 4, 7, 7)[bus])
            if bus == 0:
                spectrum = spectrum * (1 + self.sympathetic(clips))
            place = stereo * (self.rand(clips) < 0.65) * self.between(-1, 1, clips)
            wet = self.wet(clips, 0.7)
            apart = stereo * (self.rand(clips) < 0.7)
            other = self.wet(clips, 1.0)
            other = other * (wet.abs().mean(1, keepdim=True) / other.abs().mean(1, keepdim=True).clamp_min(1e-9))
            other = apart[:, None] * other + (1 - apart[:, None]) * wet
            turn = (math.pi / 4 * (1 + place))[:, None]
            left = left + spectrum * (math.sqrt(2) * torch.cos(turn) + wet)
            right = right + spectrum * (math.sqrt(2) * torch.sin(turn) + other)
        tone = self.equaliser(clips, 3) * self.passband(clips)
        left, right = left * tone, right * tone
        total = 0.5 * (left + right)
        total = (total + self.noise(total, samples)) * self.lowpass(clips)
        sides = [torch.fft.irfft(s + self.noise(s, samples) * 0.3, SIZE)[:, :samples] for s in (left, right)]
        raw = torch.fft.irfft(total, SIZE)[:, :samples]
        scale = 0.1 / raw.square().mean(1, keepdim=True).sqrt().clamp_min(1e-7)
        return self.finish(raw), sides[0] * scale, sides[1] * scale, stereo

    def driven(self, lines):
        """One line in six through an amplifier that is turned up: it flattens what is loud."""
        clips, count, _ = lines.shape
        drive = (self.rand(clips, count) < 1 / 6) * self.between(0, 20, clips, count)
        loud = lines.abs().amax(2).clamp_min(1e-6)
        push = (10 ** (drive / 20) / loud)[..., None]
        lean = 0.3 * self.rand(clips, count)[..., None]
        bent = (torch.tanh(lines * push + lean) - torch.tanh(lean)) * loud[..., None]
        return torch.where((drive > 0)[..., None], bent, lines)


class Ear:
    """events, labels -> input [b, 3, FRAMES, 264], targets [b, 7, FRAMES, 61]: five kinds, onset of a line, its deviation in semitones."""

    def __init__(self, data, stage, device):
        self.data, self.stage, self.device = data, stage, device
        self.features = features.Features().to(device)

    @torch.no_grad()
    def sound(self, events, size):
        buses = mix(self.data, torch.from_numpy(events).to(self.device), 2 * size).view(size, playing.BUSES, SAMPLES)
        return self.stage.stage(buses)

    @torch.no_grad()
    def __call__(self, events, labels, size, gain=6.0):
        mono, left, right, stereo = self.sound(events, size)
        louder = 10 ** (self.stage.between(-gain, gain, size, 1) / 20)
        levelled = features.level_batch(mono)
        factor = levelled.square().mean(1, keepdim=True).sqrt() / mono.square().mean(1, keepdim=True).sqrt().clamp_min(1e-9) * louder
        place = self.place(left * factor, right * factor) * stereo[:, None, None]
        heard = self.features(levelled * louder)[:, :, :FRAMES]
        return torch.cat([heard, place[:, None, :FRAMES]], 1), targets(torch.from_numpy(labels).to(self.device), size)

    def place(self, left, right):
        """Of each bin of the long spectrum, from -0.5 (left, or 20 dB louder there) to 0.5 (right)."""
        a, b = self.power(left), self.power(right)
        return (10 * torch.log10((b + QUIET) / (a + QUIET)) / 40).clamp(-0.5, 0.5)

    def power(self, sound):
        bins = features.BINS
        waves = torch.cat([self.features.waves[:, :bins], self.features.waves[:, 2 * bins : 3 * bins]], 1)
        frames = sound.shape[1] // features.HOP + 1
        padded = torch.nn.functional.pad(sound, (features.SIZE // 2, features.SIZE // 2 + features.HOP))
        product = padded.unfold(1, features.SIZE, features.HOP)[:, :frames] @ waves
        return product[..., :bins].square() + product[..., bins:].square()


def targets(labels, size, reach=2.2):
    out = torch.zeros(6, size * PITCHES, FRAMES, device=labels.device)
    off = torch.full((size * PITCHES, FRAMES), -1.0, device=labels.device)
    frame = torch.arange(FRAMES, device=labels.device)
    if len(labels):
        clip, kind, start, end = labels[:, 0].long(), labels[:, 1].long(), labels[:, 2:3], labels[:, 3:4]
        since = frame / FPS - start
        pitch = labels[:, 4:5].expand(-1, FRAMES)
        for at in (5, 8):
            pitch = pitch + labels[:, at + 2 : at + 3] * ((since - labels[:, at : at + 1]) / labels[:, at + 1 : at + 2].clamp_min(1e-3)).clamp(0, 1)
        pitch = pitch + labels[:, 11:12] * torch.sin(2 * math.pi * labels[:, 12:13] * (since - labels[:, 13:14]).clamp_min(0))
        near = pitch.round()
        row = (near - LOWEST).long()
        inside = (since >= 0) & (frame / FPS <= end) & (row >= 0) & (row < PITCHES)
        place = clip[:, None] * PITCHES + row.clamp(0, PITCHES - 1)
        for k in range(5):
            mine = inside & (kind[:, None] == k)
            out[k].view(-1).index_reduce_(0, (place * FRAMES + frame)[mine], torch.ones(int(mine.sum()), device=labels.device), "amax")
        line = inside & (kind[:, None] > 0)
        off.view(-1).index_reduce_(0, (place * FRAMES + frame)[line], (pitch - near)[line] + 0.5, "amax")
        begun = ((labels[:, 14:15] + labels[:, 2:3]) * FPS * (kind[:, None] > 0)).expand(-1, FRAMES)
        struck = (1 - (frame - begun).abs() / reach).clamp_min(0) * (kind[:, None] > 0)
        row = (labels[:, 15].round() - LOWEST).long()
        fits = (row >= 0) & (row < PITCHES)
        out[5].index_reduce_(0, (clip * PITCHES + row)[fits], struck[fits], "amax")
    both = torch.cat([out, torch.where(off < 0, torch.full_like(off, 9.0), off - 0.5)[None]])  # 9: nothing to tell
    return both.view(7, size, PITCHES, FRAMES).permute(1, 0, 3, 2)

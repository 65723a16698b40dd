"""The network's input: two log-frequency magnitude spectra in decibels, the same here and in the program."""
import numpy as np
import torch

RATE = 22050
HOP = 256
SIZE = 8192
BINS = 264
LOWEST = 34.0  # MIDI pitch of bin 0; three bins a semitone
KERNELS = ((36.0, 700, 8192), (11.0, 256, 1024))  # Q, shortest, longest
TARGET = 0.01  # mean square of the loud parts after levelling


def kernels(a4=440.0):
    """Complex spectra [2, BINS, SIZE/2+1] of the analysing kernels, zero outside each one's band."""
    out = np.zeros((2, BINS, SIZE // 2 + 1), complex)
    k = np.arange(SIZE // 2 + 1)
    for channel, (q, shortest, longest) in enumerate(KERNELS):
        for b in range(BINS):
            frequency = a4 * 2 ** ((LOWEST + b / 3 - 69) / 12)
            length = int(np.clip(2 * round(q * RATE / frequency / 2), shortest, longest))
            n = np.arange(length)
            window = 0.5 - 0.5 * np.cos(2 * np.pi * n / length)
            wave = window * np.exp(2j * np.pi * frequency * (n - length // 2) / RATE) / (window.sum() / 2)
            frame = np.zeros(SIZE, complex)
            frame[SIZE // 2 - length // 2 : SIZE // 2 - length // 2 + length] = wave
            near = np.abs(k * RATE / SIZE - frequency) <= 4 * RATE / length
            out[channel, b, near] = np.fft.fft(frame)[: SIZE // 2 + 1][near]
    return out


def level(sound):
    """The factor that brings the 90th percentile of block mean squares to TARGET."""
    blocks = len(sound) // 4096
    squares = (sound[: blocks * 4096].reshape(blocks, 4096) ** 2).mean(1) if blocks else np.array([(sound**2).mean()])
    loud = np.percentile(squares, 90)
    return np.sqrt(TARGET / loud) if loud > 0 else 1.0


def reference(sound, a4=440.0):
    """Features [2, frames, BINS] in double precision by the definition: slow, for checks and short files."""
    spectra = np.conj(kernels(a4))
    sound = np.asarray(sound, float) * level(np.asarray(sound, float))
    padded = np.pad(sound, SIZE // 2 + HOP)
    frames = len(sound) // HOP + 1
    out = np.zeros((2, frames, BINS))
    for t in range(frames):
        spectrum = np.fft.rfft(padded[HOP * t + HOP : HOP * t + HOP + SIZE])
        out[:, t] = np.abs(spectra @ spectrum) / SIZE
    return (np.maximum(20 * np.log10(out + 1e-12), -80) + 50) / 60


class Features(torch.nn.Module):
    """The same for a batch: one matrix product of every frame with the kernels as sound."""

    def __init__(self, a4=440.0):
        super().__init__()
        spectra = kernels(a4).reshape(2 * BINS, -1)
        full = np.zeros((2 * BINS, SIZE), complex)
        full[:, : SIZE // 2 + 1] = np.conj(spectra)
        waves = np.fft.fft(full, axis=1) / SIZE  # sum over k of conj(K) exp(-2 pi i k n / SIZE)
        both = np.concatenate([waves.real, waves.imag]).T
        self.register_buffer("waves", torch.tensor(both, dtype=torch.float32), persistent=False)

    def forward(self, sound):
        """sound [clips, samples], already levelled -> [clips, 2, frames, BINS]"""
        clips, samples = sound.shape
        frames = samples // HOP + 1
        padded = torch.nn.functional.pad(sound, (SIZE // 2, SIZE // 2 + HOP))
        table = padded.unfold(1, SIZE, HOP)[:, :frames]
        product = (table @ self.waves).view(clips, frames, 2, 2, BINS)
        power = product.square().sum(2)
        decibels = (10 * torch.log10(power + 1e-20)).clamp_min(-80)
        return ((decibels + 50) / 60).permute(0, 2, 1, 3)


def level_batch(sound):
    """Levels each clip of [clips, samples] as the program does."""
    clips, samples = sound.shape
    blocks = samples // 4096
    squares = sound[:, : blocks * 4096].reshape(clips, blocks, 4096).square().mean(2)
    loud = torch.quantile(squares.float(), 0.9, dim=1).clamp_min(1e-12)
    return sound * (TARGET / loud).sqrt()[:, None]

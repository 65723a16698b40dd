"""The network's input: two log-frequency spectra at 50 frames a second. src/Listening/Estimators/Beats/PulseBands.cs computes the same."""
import numpy as np
import torch

RATE, HOP = 22050, 441
SHORT = dict(window=1024, lowest=60.0, bands=44, per_octave=6)
LONG = dict(window=4096, lowest=55.0, bands=60, per_octave=12)
LEVEL, SCALE = 0.1, 1000.0


def filters(window, lowest, bands, per_octave):
    """Triangles over log2 frequency, at least 1.2 bins wide to each side, each summing to 1; shape (bins, bands)."""
    width = RATE / window
    hertz = np.arange(1, window // 2 + 1) * width
    out = np.zeros((window // 2 + 1, bands))
    for k in range(bands):
        centre = lowest * 2 ** (k / per_octave)
        reach = max(1 / per_octave, np.log2((centre + 1.2 * width) / centre))
        row = np.maximum(0, 1 - np.abs(np.log2(hertz / centre)) / reach)
        out[1:, k] = row / row.sum()
    return out.astype(np.float32)


class Features(torch.nn.Module):
    """(batch, samples) to (batch, frames, 104); the signal is first brought to a root mean square of 0.1."""

    def __init__(self):
        super().__init__()
        for name, spec in (("short", SHORT), ("long", LONG)):
            self.register_buffer(name + "_window", torch.hann_window(spec["window"], periodic=True))
            self.register_buffer(name + "_bank", torch.from_numpy(filters(**spec)))

    @torch.no_grad()
    def forward(self, sound, gain=None):
        level = sound.pow(2).mean(1, keepdim=True).sqrt()
        sound = sound * (LEVEL / (level + 1e-9))
        if gain is not None:
            sound = sound * gain
        parts = []
        for name, spec in (("short", SHORT), ("long", LONG)):
            w = spec["window"]
            spectrum = torch.stft(sound, w, HOP, w, getattr(self, name + "_window"), center=True, pad_mode="constant", return_complex=True).abs() * (4 / w)
            parts.append(torch.log10(1 + SCALE * (spectrum.transpose(1, 2) @ getattr(self, name + "_bank"))) / 2)
        return torch.cat(parts, 2)

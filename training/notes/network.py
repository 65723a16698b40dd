"""The note network: a stem on 264 bins, harmonics stacked on 61 pitches at half the frame rate, residual blocks dilated in time."""
import torch
from torch import nn
from torch.nn import functional as F

PITCHES = 61
FIRST = 2  # pitch 36 among the stem's 88 (from 34)
HARMONICS = (-24, -19, -12, 0, 12, 19, 24, 28, 31, 34, 36)  # semitones to 1/4 ... 8 times a pitch
INTERVALS = (-24, -19, -12, -7, -5, -4, 4, 5, 7, 12, 19, 24)


def shifted(x, shifts, first=0, count=None):
    """Copies of x [b, c, t, pitches] moved along pitch, one below the other in c; zeros from outside."""
    low, high = -min(shifts), max(shifts)
    count = count or x.shape[3]
    padded = F.pad(x, (max(0, low - first), max(0, first + count + high - x.shape[3])))
    base = first + max(0, low - first)
    return torch.cat([padded[..., base + s : base + s + count] for s in shifts], 1)


class Block(nn.Module):
    """Time and near pitches by a 3x3 convolution, then a mixing of channels, or of channels and musical intervals."""

    def __init__(self, channels, dilation, wide):
        super().__init__()
        self.near = nn.Conv2d(channels, channels, 3, padding=(dilation, 1), dilation=(dilation, 1), bias=False)
        self.near_norm = nn.BatchNorm2d(channels)
        self.wide = wide
        if wide:
            self.narrow = nn.Conv2d(channels, channels // 2, 1)
        self.mix = nn.Conv2d(channels // 2 * len(INTERVALS) + channels if wide else channels, channels, 1, bias=False)
        self.mix_norm = nn.BatchNorm2d(channels)
        nn.init.constant_(self.mix_norm.weight, 0.3)

    def forward(self, x):
        y = F.relu(self.near_norm(self.near(x)))
        if self.wide:
            y = torch.cat([y, shifted(F.relu(self.narrow(y)), INTERVALS)], 1)
        return F.relu(x + self.mix_norm(self.mix(y)))


class Network(nn.Module):
    def __init__(self, stem=32, channels=64, dilations=(1, 2, 4, 8, 1, 2, 4, 8), wide=(1, 4, 6)):
        super().__init__()
        self.stem1 = nn.Conv2d(2, stem, 5, padding=2, bias=False)
        self.stem1_norm = nn.BatchNorm2d(stem)
        self.stem2 = nn.Conv2d(stem, channels, (6, 5), stride=(2, 3), padding=(2, 2), bias=False)
        self.stem2_norm = nn.BatchNorm2d(channels)
        self.stack = nn.Conv2d(channels * len(HARMONICS), channels, 1, bias=False)
        self.stack_norm = nn.BatchNorm2d(channels)
        self.blocks = nn.ModuleList(Block(channels, d, k in wide) for k, d in enumerate(dilations))
        self.last = nn.Conv2d(channels, channels, (3, 1), padding=(1, 0))
        self.heads = nn.Conv2d(channels, 6, 1)
        nn.init.constant_(self.heads.bias, -3.0)
        self.context = 2 * (sum(dilations) + 1) + 6

    def forward(self, x):
        """x [b, 2, frames (even), 264] -> logits [b, 3 (onset, frame, offset), frames, 61]"""
        x = F.relu(self.stem1_norm(self.stem1(x + 0.5)))  # silence is 0, as the padding is
        x = F.relu(self.stem2_norm(self.stem2(x)))
        x = F.relu(self.stack_norm(self.stack(shifted(x, HARMONICS, FIRST, PITCHES))))
        for block in self.blocks:
            x = block(x)
        x = self.heads(F.relu(self.last(x)))
        b, _, half, pitches = x.shape
        return x.reshape(b, 3, 2, half, pitches).transpose(2, 3).reshape(b, 3, 2 * half, pitches)


class Shipped(nn.Module):
    """What is exported: any number of frames in, three probabilities out."""

    def __init__(self, network):
        super().__init__()
        self.network = network

    def forward(self, features):
        frames = features.shape[2]
        y = torch.sigmoid(self.network(F.pad(features, (0, 0, 0, 2), value=-0.5))[:, :, :frames])
        return y[:, 0], y[:, 1], y[:, 2]


def work(network, frames=256):
    """Multiply-adds a frame of 256 samples."""
    total = 0

    def count(module, inputs, output):
        nonlocal total
        kernel = module.weight[0].numel()
        total += kernel * output.numel()

    hooks = [m.register_forward_hook(count) for m in network.modules() if isinstance(m, nn.Conv2d)]
    network.eval()(torch.zeros(1, 2, frames, 264))
    for hook in hooks:
        hook.remove()
    return total / frames

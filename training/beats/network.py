"""The beat network: two small fronts over frequency, then a temporal convolutional network whose layers look ever further (Davies and
Böck 2019; Böck and Davies 2020: several tasks at once), run through twice so that the second pass can settle phase by the first's periodicity."""
import torch
from torch import nn

BANDS = (44, 60)
TEMPI = 64


def tempo_of_bin(k):
    return 32 * 2 ** (k / 20)


class Block(nn.Module):
    def __init__(self, width, dilation, drop):
        super().__init__()
        self.near = nn.Conv1d(width, width // 2, 5, padding=2 * dilation, dilation=dilation)
        self.far = nn.Conv1d(width, width // 2, 5, padding=4 * dilation, dilation=2 * dilation)
        self.norm = nn.BatchNorm1d(width)
        self.mix = nn.Conv1d(width, width, 1)
        self.drop = nn.Dropout(drop)

    def forward(self, x):
        y = torch.cat([self.near(x), self.far(x)], 1)
        return x + self.drop(self.mix(nn.functional.elu(self.norm(y))))


def conv(inputs, outputs, time, pitch, reach=1, pool=None):
    layers = [nn.Conv2d(inputs, outputs, (time, pitch), padding=(reach * (time // 2), pitch // 2), dilation=(reach, 1), bias=False)]
    return layers + ([pool] if pool else []) + [nn.BatchNorm2d(outputs), nn.ELU()]


class BeatNetwork(nn.Module):
    """(batch, frames, 104) to: logits of beat, downbeat and change of chord (batch, frames, 3); of meter (batch, frames, 5); of tempo (batch, frames, 64)."""

    def __init__(self, width=64, drop=0.1):
        super().__init__()
        self.short = nn.Sequential(*conv(1, 12, 3, 3, pool=nn.MaxPool2d((1, 2))), *conv(12, 20, 3, 3, pool=nn.MaxPool2d((1, 2))), *conv(20, 24, 3, 3))
        self.long = nn.Sequential(*conv(1, 12, 9, 3, pool=nn.MaxPool2d((1, 3))), *conv(12, 20, 5, 3, 3))
        self.enter = nn.Sequential(nn.Conv1d(24 * 11 + 20 * 20, width, 1), nn.BatchNorm1d(width), nn.ELU())
        self.blocks = nn.ModuleList(Block(width, 2 ** k, drop) for k in (*range(9), *range(8)))
        self.leave = nn.Sequential(nn.BatchNorm1d(width), nn.ELU())
        self.pulse, self.meter, self.tempo = nn.Conv1d(width, 3, 1), nn.Conv1d(width, 5, 1), nn.Conv1d(width, TEMPI, 1)

    def forward(self, x):
        short, long = self.short(x[:, None, :, :BANDS[0]]), self.long(x[:, None, :, BANDS[0]:])
        both = torch.cat([short.transpose(2, 3).flatten(1, 2), long.transpose(2, 3).flatten(1, 2)], 1)
        h = self.enter(both)
        for block in self.blocks:
            h = block(h)
        h = self.leave(h)
        return self.pulse(h).transpose(1, 2), self.meter(h).transpose(1, 2), self.tempo(h).transpose(1, 2)


class Exported(nn.Module):
    """What ships: probabilities instead of logits, in one row a frame: beat, downbeat, change, 5 meters, 64 tempi."""

    def __init__(self, network):
        super().__init__()
        self.network = network

    def forward(self, x):
        pulse, meter, tempo = self.network(x)
        return torch.cat([pulse.sigmoid(), meter.softmax(2), tempo.softmax(2)], 2)

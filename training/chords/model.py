"""The chord network: twelve roots in a ring, spans in a row. Every layer turns with the ring, so what is learned in one key holds in all."""
import torch
from torch import nn
from torch.nn import functional as F

from progressions import TOLD
from spans import ROWS, SCALARS


class Ring(nn.Module):
    """Each root hears all twelve, by their distance from it."""

    def __init__(self, inputs, outputs):
        super().__init__()
        self.conv = nn.Conv2d(inputs, outputs, (12, 1))

    def forward(self, x):
        return self.conv(torch.cat([x, x[:, :, :11]], 2))


class Block(nn.Module):
    def __init__(self, channels, dilation):
        super().__init__()
        self.ring, self.ring_norm = Ring(channels, channels), nn.BatchNorm2d(channels)
        self.time, self.time_norm = nn.Conv2d(channels, channels, (1, 3), padding=(0, dilation), dilation=(1, dilation)), nn.BatchNorm2d(channels)
        self.drop = nn.Dropout(0.05)
        nn.init.constant_(self.time_norm.weight, 0.3)

    def forward(self, x, mask):
        y = F.relu(self.ring_norm(self.ring(x))) * mask
        return F.relu(x + self.drop(self.time_norm(self.time(y)))) * mask


class ChordNetwork(nn.Module):
    def __init__(self, channels=64, dilations=(1, 2, 4, 8, 16, 1)):
        super().__init__()
        self.notes, self.scalars, self.norm = Ring(ROWS, channels), nn.Conv2d(SCALARS, channels, 1), nn.BatchNorm2d(channels)
        self.blocks = nn.ModuleList(Block(channels, d) for d in dilations)
        self.kind, self.bass, self.key = nn.Conv2d(channels, TOLD, 1), nn.Conv2d(channels, 12, 1), nn.Conv2d(channels, 2, 1)
        self.none, self.change = nn.Conv2d(channels, 1, 1), nn.Conv2d(channels, 1, 1)

    def forward(self, rows, mask=None):
        """rows [clips, spans, 137] -> log chances: chords [clips, spans, 1 + 12 x 17], bass over each root [.., 12, 12], keys [.., 24] (major from C up, then minor), and of a change at the span's start [.., 1]."""
        clips, spans = rows.shape[0], rows.shape[1]
        x = rows[..., :12 * ROWS].reshape(clips, spans, ROWS, 12).permute(0, 2, 3, 1)
        y = rows[..., 12 * ROWS:].permute(0, 2, 1)[:, :, None]
        mask = torch.ones_like(y[:, :1]) if mask is None else mask[:, None, None].to(x.dtype)
        x = F.relu(self.norm(self.notes(x) + self.scalars(y))) * mask
        for block in self.blocks:
            x = block(x, mask)
        none = self.none(x).mean(2)
        kind = self.kind(x).permute(0, 3, 2, 1).reshape(clips, spans, 12 * TOLD)
        chords = torch.cat([none.permute(0, 2, 1), kind], 2)
        bass = self.bass(x).permute(0, 3, 2, 1)
        key = self.key(x).permute(0, 3, 1, 2).reshape(clips, spans, 24)
        change = self.change(x).mean(2).permute(0, 2, 1)
        return torch.log_softmax(chords, 2), torch.log_softmax(bass, 3), torch.log_softmax(key, 2), F.logsigmoid(change)

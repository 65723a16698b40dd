"""The line network: the note network's body with a third input, one more block that looks further, and heads for kinds, onset and deviation."""
import os
import sys

import torch
from torch import nn
from torch.nn import functional as F

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "notes"))
from network import FIRST, HARMONICS, PITCHES, Block, shifted  # noqa: E402
from network import Network as NoteNetwork  # noqa: E402

OUTPUTS = 7  # struck, reed, voice, blown, bowed, onset of a line, its deviation from the semitone
DILATIONS = (1, 2, 4, 8, 1, 2, 4, 8, 16)


class Network(NoteNetwork):
    def __init__(self):
        super().__init__(dilations=DILATIONS, wide=(1, 4, 6))
        self.stem1 = nn.Conv2d(3, 32, 5, padding=2, bias=False)
        self.heads = nn.Conv2d(64, 2 * OUTPUTS, 1)
        with torch.no_grad():
            self.heads.weight.mul_(0.1)
            self.heads.bias[:] = torch.tensor([-4.0] * 2 * (OUTPUTS - 1) + [0.0, 0.0])
        nn.init.zeros_(self.blocks[-1].mix_norm.weight)
        self.register_buffer("silence", torch.tensor([0.5, 0.5, 0.0]).view(1, 3, 1, 1), persistent=False)

    def begin_with(self, state):
        """Starts from the weights of a note network, deaf to place at first."""
        mine = self.state_dict()
        for name, values in state.items():
            if name == "stem1.weight":
                values = torch.cat([values, torch.zeros_like(values[:, :1])], 1)
            if not name.startswith("heads."):
                mine[name] = values
        self.load_state_dict(mine)

    def forward(self, x):
        """x [b, 3, frames (even), 264] -> [b, 7, frames, 61]: six logits, then semitones"""
        x = F.relu(self.stem1_norm(self.stem1(x + self.silence)))
        x = F.relu(self.stem2_norm(self.stem2(x)))
        x = F.relu(self.stack_norm(self.stack(shifted(x, HARMONICS, FIRST, PITCHES))))
        for block in self.blocks:
            x = block(x)
        x = self.heads(F.relu(self.last(x)))
        b, _, half, pitches = x.shape
        return x.reshape(b, OUTPUTS, 2, half, pitches).transpose(2, 3).reshape(b, OUTPUTS, 2 * half, pitches)


class Shipped(nn.Module):
    """What is exported: an even number of frames in; chances of the kinds and of an onset, and deviations, out."""

    def __init__(self, network):
        super().__init__()
        self.network = network

    def forward(self, features):
        y = self.network(features)
        return torch.sigmoid(y[:, :5]), torch.sigmoid(y[:, 5]), y[:, 6].clamp(-0.5, 0.5)

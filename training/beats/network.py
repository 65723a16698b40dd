"""The beat network: two small fronts over frequency, then a temporal convolutional network whose layers look ever further (Davies and
Böck 2019; Böck and Davies 2020: several tasks at once), run through twice so that the second pass can settle phase by the first's periodicity.
After each pass every sixth of a second is compared with all others within 24 s: music repeats, and attention finds where (Vaswani et al. 2017;
as a help to beats Zhao, Xia and Wang 2022, from memory)."""
import torch
from torch import nn

BANDS = (44, 60)
TEMPI = 64
WIDTH = 96


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


class Recall(nn.Module):
    """Attention over means of eight frames, within REACH of them to each side; it starts as no change at all."""

    STEP, REACH, HEADS = 8, 149, 4

    def __init__(self, width, drop):
        super().__init__()
        self.norm = nn.LayerNorm(width)
        self.ask, self.key, self.value, self.out = (nn.Linear(width, width) for _ in range(4))
        self.distance = nn.Parameter(torch.zeros(self.HEADS, 2 * self.REACH + 1))
        self.drop = nn.Dropout(drop)
        nn.init.zeros_(self.out.weight)
        nn.init.zeros_(self.out.bias)

    def heads(self, x):
        return x.reshape(x.shape[0], -1, self.HEADS, x.shape[2] // self.HEADS).transpose(1, 2)

    def forward(self, x):
        frames = x.shape[2]
        y = self.norm(nn.functional.avg_pool1d(x, self.STEP, ceil_mode=True).transpose(1, 2))
        ask, key, value = self.heads(self.ask(y)), self.heads(self.key(y)), self.heads(self.value(y))
        at = torch.arange(y.shape[1], device=x.device)
        apart = at[None] - at[:, None]
        bias = self.distance[:, apart.clamp(-self.REACH, self.REACH) + self.REACH] - 1e4 * (apart.abs() > self.REACH).float()
        weights = (ask @ key.transpose(2, 3) * ask.shape[3] ** -0.5 + bias).softmax(3)
        y = self.out((weights @ value).transpose(1, 2).flatten(2)).transpose(1, 2)
        return x + self.drop(y)[..., None].expand(-1, -1, -1, self.STEP).flatten(2)[:, :, :frames]


def conv(inputs, outputs, time, pitch, reach=1, pool=None):
    layers = [nn.Conv2d(inputs, outputs, (time, pitch), padding=(reach * (time // 2), pitch // 2), dilation=(reach, 1), bias=False)]
    return layers + ([pool] if pool else []) + [nn.BatchNorm2d(outputs), nn.ELU()]


class BeatNetwork(nn.Module):
    """
    (batch, frames, 104) to logits, each (batch, frames, …): pulse (3: beat, downbeat, change of chord), meter (5), tempo (64), place in the bar (9: bars
    of two, three, four beats) and phase in the beat (12). Only training asks for the last two, which make the network count.
    """

    HEADS = dict(pulse=3, meter=5, tempo=TEMPI, place=9, phase=12)

    def __init__(self, width=WIDTH, drop=0.1):
        super().__init__()
        self.short = nn.Sequential(*conv(1, 12, 3, 3, pool=nn.MaxPool2d((1, 2))), *conv(12, 20, 3, 3, pool=nn.MaxPool2d((1, 2))), *conv(20, 24, 3, 3))
        self.long = nn.Sequential(*conv(1, 12, 9, 3, pool=nn.MaxPool2d((1, 3))), *conv(12, 20, 5, 3, 3))
        self.enter = nn.Sequential(nn.Conv1d(24 * 11 + 20 * 20, width, 1), nn.BatchNorm1d(width), nn.ELU())
        self.blocks = nn.ModuleList(Block(width, 2 ** k, drop) for k in (*range(9), *range(8)))
        self.recalls = nn.ModuleList(Recall(width, drop) for _ in range(2))
        self.leave = nn.Sequential(nn.BatchNorm1d(width), nn.ELU())
        self.heads = nn.ModuleDict({name: nn.Conv1d(width, count, 1) for name, count in self.HEADS.items()})

    def forward(self, x):
        short, long = self.short(x[:, None, :, :BANDS[0]]), self.long(x[:, None, :, BANDS[0]:])
        both = torch.cat([short.transpose(2, 3).flatten(1, 2), long.transpose(2, 3).flatten(1, 2)], 1)
        h = self.enter(both)
        for k, block in enumerate(self.blocks):
            h = block(h)
            if k == 8:
                h = self.recalls[0](h)
        h = self.leave(self.recalls[1](h))
        return {name: head(h).transpose(1, 2) for name, head in self.heads.items()}


class Exported(nn.Module):
    """What ships: probabilities instead of logits, in one row a frame: beat, downbeat, change, 5 meters, 64 tempi."""

    def __init__(self, network):
        super().__init__()
        self.network = network

    def forward(self, x):
        out = self.network(x)
        return torch.cat([out["pulse"].sigmoid(), out["meter"].softmax(2), out["tempo"].softmax(2)], 2)


def export(weights, path):
    network = BeatNetwork()
    network.load_state_dict({k: v.cpu().float() if v.dtype.is_floating_point else v.cpu() for k, v in weights.items()})
    network.eval()
    extra = {"dynamo": False} if int(torch.__version__.split(".")[0]) >= 2 else {}
    torch.onnx.export(Exported(network), torch.zeros(1, 500, 104), path, input_names=["bands"], output_names=["pulse"], dynamic_axes={"bands": {1: "frames"}, "pulse": {1: "frames"}}, opset_version=17 if extra else 15, **extra)

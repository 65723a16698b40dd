"""A network that learns: its loss, its optimiser, its rate, and the moving average of its weights, which is what ships."""
import copy
import math

import torch
from torch.nn import functional as F

import network as networks
from supply import EDGE


class Learner:
    def __init__(self, device, seed, rate, warm=150, channels=64, follow=0.9985, network=None):
        torch.manual_seed(seed)
        self.device, self.rate, self.warm, self.follow = device, rate, warm, follow
        self.network = network or networks.Network(channels=channels).to(device, memory_format=torch.channels_last)
        self.average = copy.deepcopy(self.network).eval()
        decay = [p for p in self.network.parameters() if p.dim() > 1]
        plain = [p for p in self.network.parameters() if p.dim() <= 1]
        self.optimiser = torch.optim.AdamW([dict(params=decay, weight_decay=0.01), dict(params=plain, weight_decay=0.0)], rate, betas=(0.9, 0.98))
        self.step = self.taken = 0  # since the first run; in this run

    def gradients(self, features, targets, forward):
        """Leaves the gradients in the parameters of the network that `forward` runs; the three losses."""
        with torch.autocast(self.device.type, torch.bfloat16, enabled=self.device.type == "cuda"):
            logits = forward(features.contiguous(memory_format=torch.channels_last))
        parts = loss(logits.float()[:, :, EDGE:-EDGE], targets[:, :, EDGE:-EDGE])
        (6 * parts[0] + parts[1] + 2 * parts[2]).backward()
        return parts.detach()

    def advance(self, progress):
        """One step along the gradients; `progress` from 0 to 1 sets the rate."""
        rate = self.rate * min(1.0, (self.taken + 1) / self.warm) * (0.01 + 0.99 * 0.5 * (1 + math.cos(math.pi * min(1.0, progress))))
        for group in self.optimiser.param_groups:
            group["lr"] = rate
        torch.nn.utils.clip_grad_norm_(self.network.parameters(), 1.0)
        self.optimiser.step()
        self.optimiser.zero_grad(set_to_none=True)
        self.average_in()
        self.step, self.taken = self.step + 1, self.taken + 1

    @torch.no_grad()
    def average_in(self):
        decay = min(self.follow, (1 + self.step) / (20 + self.step))
        for mean, now in zip(self.average.state_dict().values(), self.network.state_dict().values()):
            if mean.dtype.is_floating_point:
                mean.lerp_(now, 1 - decay)
            else:
                mean.copy_(now)

    def state(self):
        return dict(network=self.network.state_dict(), average=self.average.state_dict(), optimiser=self.optimiser.state_dict(), step=self.step)

    def load(self, path):
        """Goes on from a checkpoint's averaged weights."""
        state = torch.load(path, map_location=self.device)
        self.network.load_state_dict(state["average"])
        self.average.load_state_dict(state["average"])
        self.step = state["step"]


def loss(logits, targets):
    """Cross-entropies of onset, frame, offset; what is rare weighs more."""
    weight = torch.stack([1 + targets[:, 0], torch.ones_like(targets[:, 1]), 1 + targets[:, 2]], 1)
    return (F.binary_cross_entropy_with_logits(logits, targets, reduction="none") * weight).mean((0, 2, 3))


def compiled(network, device):
    """The network, compiled where there is a GPU."""
    if device.type != "cuda":
        return network
    from torch._dynamo import config

    config.suppress_errors = True
    return torch.compile(network)


def quick(device):
    """Lets a GPU round where training can bear it."""
    if device.type == "cuda":
        torch.cuda.set_device(device)
        torch.backends.cuda.matmul.allow_tf32 = True
        torch.backends.cudnn.allow_tf32 = True
        torch.backends.cudnn.benchmark = True

"""The chord network's lessons: spans that were heard, losses, averaged weights, validation."""
import math

import numpy as np

from model import ChordNetwork
from progressions import TOLD
from spans import ROWS, SCALARS

SPANS = 128


class Learner:
    def __init__(self, torch, device, slots, held, batch, rate, say):
        self.torch, self.device, self.held, self.batch, self.rate, self.say = torch, device, held, batch, rate, say
        self.rows = torch.zeros(slots, SPANS, 12 * ROWS + SCALARS, dtype=torch.float16, device=device)
        self.told = torch.zeros(slots, SPANS, 5, dtype=torch.float16, device=device)
        self.spans = torch.zeros(slots, dtype=torch.long, device=device)
        self.count, self.step = 0, 0
        self.network, self.average = ChordNetwork().to(device), ChordNetwork().to(device)
        self.average.load_state_dict(self.network.state_dict())
        self.optimiser = torch.optim.AdamW(self.network.parameters(), rate, weight_decay=0.02)

    def resume(self, path):
        for network in (self.network, self.average):
            network.load_state_dict(self.torch.load(path, map_location=self.device))

    def keep(self, rows, told, counts):
        """The first clips are held out, and stay; later ones take the place of the oldest when all slots are full."""
        slots = len(self.spans)
        for k in range(len(rows)):
            at = self.count if self.count < slots else self.held + (self.count - slots) % (slots - self.held)
            self.rows[at], self.told[at], self.spans[at] = rows[k].half(), told[k].half(), counts[k]
            self.count += 1

    def losses(self, network, slots, roughen):
        torch = self.torch
        rows, told = self.rows[slots].float(), self.told[slots].float()
        if roughen:
            notes = rows[..., :12 * ROWS] * (1 + 0.05 * torch.randn_like(rows[..., :12 * ROWS]))
            power = torch.exp(0.15 * torch.randn(len(rows), 1, 1, device=self.device))
            rows = torch.cat([notes.clamp_min(0) ** power, rows[..., 12 * ROWS:]], 2)
        mask = torch.arange(SPANS, device=self.device)[None] < self.spans[slots][:, None]
        with torch.autocast(self.device, torch.bfloat16, enabled=roughen and self.device != "cpu"):
            chords, bass, key, change = (v.float() for v in network(rows, mask))
        number, over, share = told[..., 0].long(), told[..., 1].long(), told[..., 2]
        weight = mask * torch.where(number == 0, torch.ones_like(share), share.clamp_min(0.3))
        each = lambda logs, truth: -logs.gather(2, truth[..., None])[..., 0]
        is_chord = mask & (number > 0)
        root = (number - 1).clamp_min(0) // TOLD
        over_root = bass.gather(2, root[..., None, None].expand(-1, -1, 1, 12))[:, :, 0]
        mean = lambda x, w: (x * w).sum() / (w.sum() + 1e-6)
        changes = told[..., 4]
        known = change[..., 0]
        return (mean(each(chords, number), weight), mean(each(over_root, over.clamp_min(0)), is_chord.float()), mean(each(key, told[..., 3].long()), mask.float()),
                mean(-(changes * known + (1 - changes) * torch.log1p(-known.exp().clamp_max(1 - 1e-6))), mask.float())), chords, bass, key, is_chord, number, over, mask, told

    def learn(self, done):
        torch = self.torch
        self.step += 1
        for group in self.optimiser.param_groups:
            group["lr"] = self.rate * min(1, self.step / 100) * (0.5 * (1 + math.cos(math.pi * min(1, done))) * 0.99 + 0.01)
        self.network.train()
        slots = torch.randint(self.held, min(self.count, len(self.spans)), (self.batch,), device=self.device)
        losses = self.losses(self.network, slots, True)[0]
        self.optimiser.zero_grad()
        (losses[0] + 0.5 * losses[1] + 0.25 * losses[2] + 0.2 * losses[3]).backward()
        torch.nn.utils.clip_grad_norm_(self.network.parameters(), 1.0)
        self.optimiser.step()
        keep = min(0.999, 1 - 1 / (self.step + 2))
        with torch.no_grad():
            for a, b in zip(self.average.state_dict().values(), self.network.state_dict().values()):
                if a.dtype.is_floating_point:
                    a.mul_(keep).add_(b, alpha=1 - keep)
                else:
                    a.copy_(b)
        return [v.detach() for v in losses]

    def validate(self):
        torch = self.torch
        self.average.eval()
        sums = np.zeros(7)
        with torch.no_grad():
            for slots in torch.arange(min(self.held, self.count), device=self.device).split(self.batch):
                losses, chords, bass, key, is_chord, number, over, mask, told = self.losses(self.average, slots, False)
                guess = chords.argmax(2)
                root, sure = (number - 1).clamp_min(0) // TOLD, mask & (told[..., 2] > 0.7)
                tops = bass.gather(2, root[..., None, None].expand(-1, -1, 1, 12))[:, :, 0].argmax(2)
                sums += np.array([float(v) for v in (sure.sum(), (sure & (guess == number)).sum(), (sure & is_chord).sum(), (sure & is_chord & (guess > 0) & ((guess - 1) // TOLD == root)).sum(),
                                  (sure & is_chord & (tops == over)).sum(), mask.sum(), (mask & (key.argmax(2) == told[..., 3].long())).sum())])
        self.say("held out:", int(sums[0]), "spans, exact", round(sums[1] / sums[0], 3), "root", round(sums[3] / sums[2], 3), "bass given root", round(sums[4] / sums[2], 3), "key", round(sums[6] / sums[5], 3),
                 "log losses", *(round(float(v), 3) for v in losses))

    def save(self, folder, spans=False, parts=2, clips=1200):
        torch = self.torch
        torch.save({k: v.cpu() for k, v in self.average.state_dict().items()}, folder / "chords.pt")
        if not spans:
            return
        for part in range(parts):
            slots = torch.arange(part * clips, min((part + 1) * clips, self.count, len(self.spans)), device=self.device)
            exists = torch.arange(SPANS, device=self.device)[None] < self.spans[slots][:, None]
            np.savez_compressed(folder / f"spans{part}.npz", rows=self.rows[slots][exists].cpu().numpy(), told=self.told[slots][exists].cpu().numpy(), count=self.spans[slots].cpu().numpy())

#!/usr/bin/env python3
"""Fits the chord network to spans.csv (see README.md) and writes it as ONNX.

    python3 train.py spans.csv OUT.onnx

One small network is asked twelve times, once a root, with every row of pitch classes turned to that root; the twelve answers
(kinds of chord on that root) and "no chord" share one softmax. A second output tells the bass over each root.
"""
import csv, sys
import numpy as np, torch
from torch import nn

GROUPS, SCALARS = 10, 5
KINDS = ['0 4 7', '0 3 7', '0 4 7 10', '0 3 7 10', '0 4 7 11', '0 5 7', '0 2 7', '0 7', '0 4 7 9', '0 3 7 9', '0 3 6', '0 3 6 10', '0 3 6 9', '0 4 8',
         '0 2 4 7', '0 2 4 7 10', '0 5 7 10']
LIKE = {'0 3 7 11': '0 3 7', '0 4 8 10': '0 4 8'}


class Net(nn.Module):
    def __init__(self, hidden=96, drop=.15):
        super().__init__()
        self.body = nn.Sequential(nn.Linear(12 * GROUPS + SCALARS, hidden), nn.GELU(), nn.Dropout(drop), nn.Linear(hidden, 64), nn.GELU(), nn.Dropout(drop))
        self.kind, self.none, self.bass = nn.Linear(64, len(KINDS)), nn.Linear(64, 1), nn.Linear(64, 12)

    def forward(self, turned):               # spans x 12 roots x values
        h = self.body(turned)
        joint = torch.cat([self.none(h).mean(1), self.kind(h).flatten(1)], 1)
        return torch.log_softmax(joint, 1), torch.log_softmax(self.bass(h), 2)


def turned(x):
    groups, scalars = x[:, :12 * GROUPS].reshape(-1, GROUPS, 12), x[:, 12 * GROUPS:]
    return torch.stack([torch.cat([torch.roll(groups, -r, 2).flatten(1), scalars], 1) for r in range(12)], 1)


def read(path):
    names, labels, basses, weights, rows = [], [], [], [], []
    for line in csv.reader(open(path)):
        if line[1] == 'N':
            label, bass = 0, -1
        else:
            root, under, kind = line[1].split('/')
            kind = LIKE.get(kind, kind)
            if kind not in KINDS:
                continue
            label, bass = 1 + int(root) * len(KINDS) + KINDS.index(kind), int(under)
        names.append(line[0]); labels.append(label); basses.append(bass); weights.append(float(line[2])); rows.append([float(v) for v in line[3:]])
    return np.array(names), torch.tensor(labels), torch.tensor(basses), torch.tensor(weights), torch.tensor(rows)


def main():
    torch.manual_seed(7)
    torch.set_num_threads(1)
    names, labels, basses, weights, x = read(sys.argv[1])
    held = np.array([hash_of(n) % 8 == 0 for n in names])
    train, test = torch.tensor(np.flatnonzero(~held)), torch.tensor(np.flatnonzero(held))
    weights = torch.where(labels == 0, torch.ones_like(weights), weights.clamp(min=.3))
    net = Net()
    epochs = int(sys.argv[3]) if len(sys.argv) > 3 else 18
    optimiser = torch.optim.AdamW(net.parameters(), 2e-3, weight_decay=3e-3)
    schedule = torch.optim.lr_scheduler.CosineAnnealingLR(optimiser, epochs)
    for epoch in range(epochs):
        net.train()
        for batch in train[torch.randperm(len(train))].split(256):
            value = x[batch]
            value = value * (1 + .05 * torch.randn_like(value))
            joint, bass = net(turned(value))
            loss = (nn.functional.nll_loss(joint, labels[batch], reduction='none', ) * weights[batch]).mean()
            sure = labels[batch] > 0
            roots = (labels[batch][sure] - 1) // len(KINDS)
            loss = loss + .5 * nn.functional.nll_loss(bass[sure, roots], basses[batch][sure])
            optimiser.zero_grad(); loss.backward(); optimiser.step()
        schedule.step()
        if epoch % 5 == 4 or epoch == epochs - 1:
            net.eval()
            with torch.no_grad():
                joint, bass = net(turned(x[test]))
                guess, truth = joint.argmax(1), labels[test]
                chord = truth > 0
                roots = ((guess - 1) // len(KINDS) == (truth - 1) // len(KINDS))[chord].float().mean()
                over = (bass[chord, (truth[chord] - 1) // len(KINDS)].argmax(1) == basses[test][chord]).float().mean()
                print(f'epoch {epoch + 1}: loss {loss:.3f}; held out: exact {(guess == truth).float().mean():.3f}, root {roots:.3f}, bass given root {over:.3f}, '
                      f'log loss {nn.functional.nll_loss(joint, truth):.3f}', flush=True)
    net.eval()
    torch.onnx.export(net, torch.zeros(3, 12, 12 * GROUPS + SCALARS), sys.argv[2], input_names=['turned'], output_names=['chords', 'bass'],
                      dynamic_axes={'turned': {0: 'spans'}, 'chords': {0: 'spans'}, 'bass': {0: 'spans'}}, opset_version=15)


def hash_of(name):
    return int(name[:3])


main()

"""Weights between those of two runs, in PyTorch and as what ships. Usage: between.py FIRST.pt SECOND.pt SHARE-OF-SECOND OUT.pt OUT.onnx"""
import sys

import torch

from network import export


def main(first, second, share, out, onnx):
    a, b, t = torch.load(first, map_location="cpu"), torch.load(second, map_location="cpu"), float(share)
    mean = {k: (1 - t) * a[k] + t * v if v.dtype.is_floating_point else v for k, v in b.items()}
    torch.save(mean, out)
    export(mean, onnx)


if __name__ == "__main__":
    main(*sys.argv[1:])

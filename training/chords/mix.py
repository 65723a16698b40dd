"""Means of two runs' weights: mix.py FIRST.pt SECOND.pt SHARE-OF-SECOND OUT.pt"""
import sys

import torch

first, second = (torch.load(path, map_location="cpu") for path in sys.argv[1:3])
share = float(sys.argv[3])
torch.save({k: v * (1 - share) + second[k] * share if v.dtype.is_floating_point else v for k, v in first.items()}, sys.argv[4])

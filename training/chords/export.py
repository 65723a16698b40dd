"""Writes trained weights as ONNX: export.py CHORDS.pt OUT.onnx"""
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "beats"))
import torch

from model import ChordNetwork
from spans import ROWS, SCALARS

network = ChordNetwork()
network.load_state_dict(torch.load(sys.argv[1], map_location="cpu"))
names = ["chords", "bass", "keys", "change"]
torch.onnx.export(network.eval(), torch.zeros(1, 40, 12 * ROWS + SCALARS), sys.argv[2], input_names=["rows"], output_names=names,
                  dynamic_axes={name: {1: "spans"} for name in ["rows", *names]}, opset_version=15)

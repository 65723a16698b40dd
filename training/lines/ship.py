"""Writes a trained line network as ONNX; of two trainings the weights that lie between them, as a checkpoint too.

    python3 ship.py CHECKPOINT.pt OUT.onnx
    python3 ship.py CHECKPOINT.pt OTHER.pt SHARE BETWEEN.pt OUT.onnx
"""
import os
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "notes"))
import export  # noqa: E402
from linenet import Shipped  # noqa: E402


def write(network, path, facts):
    export.write_model(Shipped(export.fold(network.float().cpu().eval())).eval(), path, facts, 3, ["kinds", "onset", "off"], {"kinds": 2, "onset": 1, "off": 1})


def between(state, other, share):
    """The weights `share` of the way from one training's average to another's."""
    mixed = {k: v.lerp(other["average"][k], share) if v.dtype.is_floating_point else other["average"][k] for k, v in state["average"].items()}
    return dict(average=mixed, step=other["step"])


if __name__ == "__main__":
    import torch

    from linenet import Network

    state = torch.load(sys.argv[1], map_location="cpu")
    if len(sys.argv) > 3:
        state = between(state, torch.load(sys.argv[2], map_location="cpu"), float(sys.argv[3]))
        torch.save(state, sys.argv[4])
    made = Network()
    made.load_state_dict(state["average"])
    write(made, sys.argv[-1], dict(context=made.context, steps=state["step"], license="MIT"))

"""Writes a trained line network as ONNX."""
import os
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "notes"))
import export  # noqa: E402
from linenet import Shipped  # noqa: E402


def write(network, path, facts):
    export.write_model(Shipped(export.fold(network.float().cpu().eval())).eval(), path, facts, 3, ["kinds", "onset", "off"], {"kinds": 2, "onset": 1, "off": 1})


if __name__ == "__main__":
    import torch

    from linenet import Network

    state = torch.load(sys.argv[1], map_location="cpu")
    made = Network()
    made.load_state_dict(state["average"])
    write(made, sys.argv[2], dict(context=made.context, steps=state["step"], license="MIT"))

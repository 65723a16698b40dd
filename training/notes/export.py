"""Writes a trained network as ONNX, batch norms folded, with what a reader needs as metadata."""
import warnings

import torch
from torch import nn

from network import Shipped


def fold(network):
    """Batch norms folded into the convolutions before them."""
    pairs = [("stem1", "stem1_norm"), ("stem2", "stem2_norm"), ("stack", "stack_norm")]
    for owner, conv, norm in [(network, c, n) for c, n in pairs] + [(b, c, c + "_norm") for b in network.blocks for c in ("near", "mix")]:
        fused = nn.utils.fusion.fuse_conv_bn_eval(getattr(owner, conv), getattr(owner, norm))
        setattr(owner, conv, fused)
        setattr(owner, norm, nn.Identity())
    return network


def write(network, path, facts):
    shipped = Shipped(fold(network.float().cpu().eval())).eval()
    names = ["onset", "frame", "offset"]
    options = dict(input_names=["features"], output_names=names, opset_version=17, do_constant_folding=True,
                   dynamic_axes={name: {2 if name == "features" else 1: "frames"} for name in ["features"] + names})
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            torch.onnx.export(shipped, torch.zeros(1, 2, 301, 264), path, dynamo=False, **options)
        except TypeError:
            torch.onnx.export(shipped, torch.zeros(1, 2, 301, 264), path, **options)
    try:
        import onnx
    except ImportError:
        return
    model = onnx.load(path)
    for key, value in facts.items():
        entry = model.metadata_props.add()
        entry.key, entry.value = key, str(value)
    onnx.checker.check_model(model)
    onnx.save(model, path)

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
    write_model(Shipped(fold(network.float().cpu().eval())).eval(), path, facts, 2, ["onset", "frame", "offset"], {"onset": 1, "frame": 1, "offset": 1})


def write_model(shipped, path, facts, channels, names, frame_axes):
    """Any module that takes [1, channels, frames, 264]; frame_axes: which axis of each output the frames are."""
    options = dict(input_names=["features"], output_names=names, opset_version=17, do_constant_folding=True,
                   dynamic_axes={"features": {2: "frames"}} | {name: {frame_axes[name]: "frames"} for name in names})
    example = torch.zeros(1, channels, 302, 264)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            torch.onnx.export(shipped, example, path, dynamo=False, **options)
        except TypeError:
            torch.onnx.export(shipped, example, path, **options)
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

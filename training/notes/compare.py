"""Scores weights side by side, and weights between two runs (Wortsman et al., "Model soups", ICML 2022).

    python3 compare.py --folder BANKS --out OUT.json NAME=WEIGHTS.pt ... NAME=A.pt,B.pt,SHARE ...

SHARE is how much of B goes in, from 0 to 1.
"""
import argparse
import json

import torch

import validate
from ablation import judged
from network import Network


def weights(text):
    paths = text.split(",")
    first = torch.load(paths[0], map_location="cpu")["average"]
    if len(paths) == 1:
        return first
    second, share = torch.load(paths[1], map_location="cpu")["average"], float(paths[2])
    return {k: v.lerp(second[k], share) if v.dtype.is_floating_point else v for k, v in first.items()}


def network(state, device):
    made = Network(channels=len(state["stack.weight"])).to(device).eval()
    made.load_state_dict(state)
    return made


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--folder", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--count", type=int, default=160, help="clips in each made set")
    parser.add_argument("weights", nargs="+")
    options = parser.parse_args()
    device = torch.device("cuda:0" if torch.cuda.is_available() else "cpu")
    validation = validate.Validation(options.folder, device, options.count)
    named = dict(text.split("=", 1) for text in options.weights)
    reports = judged(validation, {name: network(weights(text), device) for name, text in named.items()})
    json.dump(reports, open(options.out, "w"), indent=1)
    for name, report in reports.items():
        print(name, validate.show(report), flush=True)


if __name__ == "__main__":
    main()

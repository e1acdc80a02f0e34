"""Masts with a rope and with a thinner one of the same make in one gust, by OpenSees: the reference of
tests/published/thinner_rope.rs.

    python thinner_rope_opensees.py < masts.json > ../data/thinner_rope_opensees.json

`masts.json` is the list that the test prints with --nocapture: plain numbers of each mast, the gust at which the program
finds the thicker rope's mast used up, the direction. Model and loads are those of wind_capacity_opensees.py.
"""
import itertools
import json
import sys

import numpy as np
import openseespy.opensees as ops

import wind_capacity_opensees as wind
import guyed_masts_opensees as base


def build(mast):
    """Sets the mast of wind_capacity_opensees to this one; gives its guys."""
    wind.FOOT = mast["foot_above_ground_m"]
    wind.TUBES = [base.tube(t["bottom_m"], t["top_m"], t["outside_m"], t["wall_m"]) for t in mast["tubes"]]
    for tube, given in zip(wind.TUBES, mast["tubes"]):
        # By the project's own density and not this module's, so that nothing but the model differs.
        tube["weight_n_per_m"] = given["mass_kg"] * wind.GRAV / (given["top_m"] - given["bottom_m"])
    wind.YIELDS = [t["yield_pa"] for t in mast["tubes"]]
    wind.PLAY = (mast["tubes"][0]["outside_m"] - 2 * mast["tubes"][0]["wall_m"] - mast["tubes"][1]["outside_m"]) / 2
    wind.HOLE = mast["hole_m"]
    wind.TOPPER = mast["topper"]
    heights = sorted({guy["attach_height_m"] for guy in mast["guys"]})
    wind.SPANS = list(zip([0.0] + heights, heights))
    return [
        (g["attach_height_m"], g["tension_n"], np.array(g["anchor_m"]), g["stiffness_n"], g["weight_n_per_m"], g["diameter_m"])
        for g in mast["guys"]
    ]


def wind_to(mast):
    a = np.radians(mast["from_deg"])
    return -np.array([np.sin(a), np.cos(a), 0.0])


def main():
    done = []
    for mast in json.load(sys.stdin):
        args = build(mast), mast["from_deg"], mast["gust_m_per_s"]
        service = wind.state(*args, 1.0, (0,) * len(wind.SPANS))
        worst = dict(service)
        # The bows lie in the planes in which the design loads bend the spans.
        wind.state(*args, wind.FACTOR, (0,) * len(wind.SPANS))
        lines = list(wind.BENT)
        for signs in itertools.product((1, -1), repeat=len(wind.SPANS)):
            for name, value in wind.state(*args, wind.FACTOR, signs, lines=lines).items():
                worst[name] = max(worst[name], value)
        told = {name: mast[name] for name in ("seed", "share", "from_deg", "gust_m_per_s", "governs")}
        turned = [float(np.degrees(np.arccos(min(1.0, line @ wind_to(mast))))) for line in lines]
        print(told, "turned", turned, {name: round(float(value), 4) for name, value in worst.items()}, file=sys.stderr)
        done.append(dict(told, worst={name: float(value) for name, value in worst.items()}))
    json.dump(dict(openseespy="3.7.1", opensees=ops.version(), cases=done), sys.stdout, indent=1)


if __name__ == "__main__":
    main()

#!/usr/bin/env python3
"""Writes tests/published/data/ahrs_tilt.json: the attitude of static gravity vectors by the package ahrs.

ahrs (PyPI, MIT) is a general-purpose attitude library by other hands; version 0.4.0 with numpy 2.4.6, Python 3.11.

    pip install ahrs==0.4.0 numpy==2.4.6
    python3 tests/published/scripts/ahrs_tilt.py > tests/published/data/ahrs_tilt.json

The package's Tilt estimator turns each vector into a quaternion; everything written here is read from that
quaternion's rotation matrix R (sensor to level frame): the elevation of a sensor axis is the arcsine of its part
in the bottom row. The vectors come from a Halton sequence, so that they are the same on every run.
"""

import json

import numpy as np
from ahrs import Quaternion
from ahrs.filters import Tilt


def halton(index, base):
    value, share = 0.0, 1.0
    while index:
        share /= base
        value += share * (index % base)
        index //= base
    return value


vectors = []
for i in range(1, 41):
    # Anywhere on the sphere, and then as many on gentle slopes, where the yard's are.
    z = 2 * halton(i, 2) - 1 if i <= 20 else np.cos(np.radians(25 * halton(i, 2)))
    turn = 2 * np.pi * halton(i, 3)
    level = np.sqrt(1 - z * z)
    vectors.append([9.81 * level * np.cos(turn), 9.81 * level * np.sin(turn), 9.81 * z])
# A library that takes a resting sensor to feel the push upwards, as W3C's events do.
quaternions = Tilt(acc=np.array(vectors), representation="quaternion").Q

rows = []
for vector, q in zip(vectors, quaternions):
    R = Quaternion(q).to_DCM()
    x, y, z = np.degrees(np.arcsin(np.clip(R[2], -1, 1)))
    rows.append(
        {
            "acceleration": [round(float(a), 15) for a in vector],
            "short_edge_deg": float(x),
            "long_edge_deg": float(y),
            "screen_deg": float(z),
            "slope_deg": float(np.degrees(np.arccos(np.clip(abs(R[2, 2]), -1, 1)))),
            # The level direction that the top points to, from that of the x axis of the level frame, and that in
            # which the plane of the screen falls, both as atan2 of R's upper rows.
            "top_deg": float(np.degrees(np.arctan2(R[1, 1], R[0, 1]))),
            "fall_deg": float(np.degrees(np.arctan2(R[1, 2], R[0, 2]))) if R[2, 2] > 0 else None,
        }
    )
print(json.dumps({"made_by": "ahrs 0.4.0, numpy 2.4.6", "rows": rows}, indent=1))

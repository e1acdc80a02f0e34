"""Writes ../data/networks_scipy.json: plane networks solved by a general least-squares solver.

Each network is a set of points, one of them held, and readings with their sigmas: tapes along a plane of a given
gradient, true bearings, offsets from a line (along it and to its left), coordinates. The residuals over their
sigmas go to scipy.optimize.least_squares (Levenberg-Marquardt, MINPACK, derivatives by differences to 1e-15), the
covariance is the inverse of JᵀJ at the solution with J by central differences.

Nothing of this comes from Mastwright's engine. Run: pip install scipy numpy && python3 network_scipy.py
"""

import json
import math
import pathlib

import numpy
import scipy
from scipy.optimize import least_squares

rng = numpy.random.default_rng(20261125)


def tape(a, b, gradient):
    east, north = b[0] - a[0], b[1] - a[1]
    return math.sqrt(east**2 + north**2 + (gradient[0] * east + gradient[1] * north) ** 2)


def along_and_left(a, b, p, gradient):
    length = math.hypot(b[0] - a[0], b[1] - a[1])
    u = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    n = (-u[1], u[0])
    q = (p[0] - a[0], p[1] - a[1])
    on = lambda e: math.sqrt(1 + (gradient[0] * e[0] + gradient[1] * e[1]) ** 2)
    return (q[0] * u[0] + q[1] * u[1]) * on(u), (q[0] * n[0] + q[1] * n[1]) * on(n)


def computed(kind, ids, at, gradient):
    points = [at[i] for i in ids]
    if kind == "tape":
        return [tape(*points, gradient)]
    if kind == "level_tape":
        return [tape(*points, (0, 0))]
    if kind == "bearing":
        a, b = points
        return [math.degrees(math.atan2(b[0] - a[0], b[1] - a[1])) % 360]
    if kind == "along":
        return [along_and_left(*points, gradient)[0]]
    if kind == "left":
        return [along_and_left(*points, gradient)[1]]
    if kind == "coordinates":
        return list(points[0])
    raise ValueError(kind)


def network(name, truth, gradient, plan):
    """`plan` lists (kind, point numbers, sigma); readings are drawn about the truth."""
    readings = []
    for kind, ids, sigma in plan:
        values = [float(v + sigma * rng.standard_normal()) for v in computed(kind, ids, truth, gradient)]
        if kind == "bearing":
            values = [values[0] % 360]
        readings.append({"kind": kind, "points": list(ids), "values": values, "sigma": sigma})

    def weighted(x):
        at = [truth[0]] + [tuple(x[2 * i : 2 * i + 2]) for i in range(len(truth) - 1)]
        out = []
        for reading in readings:
            for got, want in zip(reading["values"], computed(reading["kind"], reading["points"], at, gradient)):
                off = got - want
                if reading["kind"] == "bearing":
                    off = (off + 180) % 360 - 180
                out.append(off / reading["sigma"])
        return numpy.array(out)

    start = numpy.array([c for point in truth[1:] for c in point])
    kwargs = dict(xtol=1e-15, ftol=1e-15, gtol=1e-15, x_scale="jac", jac="3-point")
    method = "lm" if len(weighted(start)) >= len(start) else "trf"
    found = least_squares(weighted, start, method=method, **kwargs)
    step = 1e-5
    columns = [(weighted(found.x + step * e) - weighted(found.x - step * e)) / (2 * step) for e in numpy.eye(len(start))]
    jacobian = numpy.array(columns).T
    covariance = numpy.linalg.inv(jacobian.T @ jacobian)
    return {
        "name": name,
        "gradient": list(gradient),
        "approximate": [[round(c + d, 1) for c, d in zip(p, (0.3, -0.2))] if i else list(p) for i, p in enumerate(truth)],
        "readings": readings,
        "points": [list(truth[0])] + found.x.reshape(-1, 2).tolist(),
        "covariance": covariance.tolist(),
        "chi_square": float(2 * found.cost),
    }


QUAD = [(0.0, 0.0), (24.0, 3.0), (27.0, 22.0), (4.0, 25.0)]
STEEP = (0.12, -0.25)
NETWORKS = [
    network("bearing and tape, minimal", QUAD[:2], (0.0, 0.0), [("bearing", (0, 1), 2.0), ("tape", (0, 1), 0.03)]),
    network(
        "two tapes on a slope, minimal",
        QUAD[:3],
        STEEP,
        [("bearing", (0, 1), 2.0), ("tape", (0, 1), 0.03), ("tape", (0, 2), 0.04), ("tape", (1, 2), 0.03)],
    ),
    network(
        "three tapes on a slope",
        QUAD,
        STEEP,
        [("coordinates", (1,), 0.25), ("coordinates", (2,), 0.25)]
        + [("tape", (i, 3), 0.03) for i in range(3)],
    ),
    network(
        "offset from a line on a slope",
        [(0.0, 0.0), (24.0, 3.0), (9.0, 8.0)],
        STEEP,
        [("bearing", (0, 1), 2.0), ("tape", (0, 1), 0.03), ("along", (0, 1, 2), 0.14), ("left", (0, 1, 2), 0.02)],
    ),
    network(
        "level tape of a sloping sight with a tape along the ground",
        QUAD[:3],
        STEEP,
        [("bearing", (0, 1), 2.0), ("level_tape", (0, 1), 0.06), ("bearing", (0, 2), 2.0), ("level_tape", (0, 2), 0.05), ("tape", (1, 2), 0.03)],
    ),
    network(
        "braced quadrilateral, redundant, on a slope",
        QUAD,
        STEEP,
        [("tape", pair, 0.03) for pair in [(0, 1), (1, 2), (2, 3), (3, 0), (0, 2), (1, 3)]]
        + [("bearing", pair, 2.0) for pair in [(0, 1), (0, 2), (0, 3), (2, 1)]],
    ),
    network(
        "every kind together, redundant",
        QUAD + [(12.0, 9.0), (-8.0, 13.0)],
        (-0.06, 0.09),
        [("tape", pair, 0.03) for pair in [(0, 1), (1, 2), (2, 3), (3, 0), (0, 2), (4, 2), (5, 0), (5, 3)]]
        + [("bearing", pair, 2.0) for pair in [(0, 1), (0, 5), (2, 3)]]
        + [("along", (0, 1, 4), 0.1), ("left", (0, 1, 4), 0.02), ("level_tape", (1, 3), 0.05), ("coordinates", (5,), 0.25)],
    ),
]

document = {
    "made_by": "tests/published/scripts/network_scipy.py",
    "scipy": scipy.__version__,
    "numpy": numpy.__version__,
    "networks": NETWORKS,
}
target = pathlib.Path(__file__).parent.parent / "data" / "networks_scipy.json"
target.write_text(json.dumps(document, indent=1) + "\n")
print(scipy.__version__, numpy.__version__, len(NETWORKS), "networks")

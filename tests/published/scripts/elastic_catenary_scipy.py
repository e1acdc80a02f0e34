"""Writes ../elastic_catenary_scipy.json: elastic ropes solved without any catenary formula.

The equilibrium of a rope element is integrated numerically (scipy.integrate.quad over
dx/dp = H/T·(1 + T/EA), dz/dp = v/T·(1 + T/EA), v = V - w·(L0 - p), T = hypot(H, v)) and the two end forces
are found by scipy.optimize.root so that the ends meet. Where pycatenary (which uses the closed forms) also
solves the case, `pycatenary_off` records how far its end force lies from ours, relative.

Run: pip install scipy pycatenary && python3 elastic_catenary_scipy.py
"""

import json
import math
import pathlib
import random

import numpy
import pycatenary
import scipy
from importlib.metadata import version
from pycatenary.cable import MooringLine
from scipy.integrate import quad
from scipy.optimize import root


def ends(h_n, v_n, length, w, ea):
    def at(p):
        v = v_n - w * (length - p)
        t = math.hypot(h_n, v)
        return v, t, 1 + t / ea

    # Split where the rope is lowest, so that the integrand is smooth on each side.
    lowest = length - v_n / w
    points = [0.0, *([lowest] if 0 < lowest < length else []), length]
    x = z = 0.0
    for a, b in zip(points, points[1:]):
        x += quad(lambda p: h_n / at(p)[1] * at(p)[2], a, b, epsabs=1e-13, epsrel=1e-13, limit=500)[0]
        z += quad(lambda p: at(p)[0] / at(p)[1] * at(p)[2], a, b, epsabs=1e-13, epsrel=1e-13, limit=500)[0]
    stretch = quad(lambda p: at(p)[2], 0, length, epsabs=1e-13, epsrel=1e-13, limit=500)[0]
    return x, z, stretch


def solve(span, rise, w, ea, length):
    chord = math.hypot(span, rise)
    weight = w * length
    guesses = [max(ea * (chord / length - 1), weight / 4) * f for f in (1.0, 1.5, 0.5, 3.0, 0.2, 8.0)]
    for t0 in guesses:
        start = [math.log(t0 * span / chord), t0 * rise / chord + weight / 2]

        def miss(u):
            x, z, _ = ends(math.exp(u[0]), u[1], length, w, ea)
            return [(x - span) / chord, (z - rise) / chord]

        try:
            found = root(miss, start, tol=1e-14)
        except OverflowError:
            continue
        if max(abs(e) for e in miss(found.x)) < 1e-12:
            h_n, v_n = math.exp(found.x[0]), float(found.x[1])
            return h_n, v_n, ends(h_n, v_n, length, w, ea)[2]
    return None


def against_pycatenary(span, rise, w, ea, length, h_n, v_n):
    """Relative difference of the end force from pycatenary's; None where pycatenary does not solve the case."""
    if rise < 0:
        return None  # it turns the line round
    line = MooringLine(fairlead=[span, rise], anchor=[0.0, 0.0], L=length, w=w, EA=ea, floor=False)
    try:
        line.compute_solution()
        top = line.get_tension(length)
    except Exception:
        return None
    off = float(max(abs(top[0] - h_n), abs(abs(top[1]) - abs(v_n))) / math.hypot(h_n, v_n))
    return off if off < 1e-2 else None  # a larger one is its own failure to converge (level, taut ropes)


def main():
    random.seed(1981)
    cases = []
    while len(cases) < 32:
        span = math.exp(random.uniform(math.log(1), math.log(60)))
        rise = random.uniform(-0.3, 3) * span if len(cases) % 8 else 0.0
        w = math.exp(random.uniform(math.log(0.05), math.log(8)))
        ea = math.exp(random.uniform(math.log(3e3), math.log(5e6)))
        chord = math.hypot(span, rise)
        if len(cases) % 4 == 3:
            length = chord * random.choice([1.002, 1.05, 1.5, 3.0])
        else:
            tension = w * chord * math.exp(random.uniform(math.log(5), math.log(3000)))
            if tension > 0.3 * ea:
                continue
            length = chord / (1 + tension / ea)
        found = solve(span, rise, w, ea, length)
        if found is None:
            continue
        h_n, v_n, stretched = found
        cases.append({
            "span_m": span, "rise_m": rise, "weight_n_per_m": w, "stiffness_n": ea, "unstressed_m": length,
            "horizontal_n": h_n, "vertical_top_n": v_n, "stretched_m": stretched,
            "pycatenary_off": against_pycatenary(span, rise, w, ea, length, h_n, v_n),
        })
    made_by = {
        "script": "scripts/elastic_catenary_scipy.py", "scipy": scipy.__version__, "numpy": numpy.__version__,
        "pycatenary": version("pycatenary"),
    }
    out = pathlib.Path(__file__).parent.parent / "elastic_catenary_scipy.json"
    out.write_text(json.dumps({"made_by": made_by, "cases": cases}, indent=1) + "\n")
    offs = [c["pycatenary_off"] for c in cases if c["pycatenary_off"] is not None]
    print(len(cases), "cases;", len(offs), "also by pycatenary, off by at most", max(offs))


main()

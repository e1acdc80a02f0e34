"""Writes ../data/cone_sampled.json: how near cones of strands come to things, by dense sampling in space.

The cone is walked by its strands: round in plan between two neighbours, as high at either end as the straight line between
those of the neighbours. Points are taken every 2 degrees or less and every 2 % of each strand, then ever finer about the
nearest ones (NumPy). How far a point is from a thing is its definition: off an outline (Shapely) or off a segment in plan, and
over or under it.

NumPy 2.4.6, shapely 2.2.0.
Run in the project's folder: pip install numpy shapely && python3 tests/published/scripts/cone_sampled.py
"""

import json
import math
import pathlib

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon

HERE = pathlib.Path(__file__).resolve().parent
RANDOM = np.random.default_rng(11)


def between(low, high):
    return float(RANDOM.uniform(low, high))


def cone():
    count = int(RANDOM.integers(2, 17))
    sweep = 360.0 if RANDOM.random() < 0.5 else between(60.0, 330.0)
    radius, top_radius, top = between(1.5, 4.5), between(0.0, 0.5), between(4.0, 9.0)
    gradient = [between(-0.25, 0.25), between(-0.25, 0.25)]
    bump = between(0.0, 0.4)
    middle, first = [between(-2.0, 2.0), between(-2.0, 2.0)], between(0.0, 360.0)
    gaps = count if sweep >= 360.0 else count - 1
    points, tops = [], []
    for i in range(count):
        turn = math.radians(first + sweep / gaps * i)
        out = [math.sin(turn), math.cos(turn)]
        x, y = middle[0] + radius * out[0], middle[1] + radius * out[1]
        points.append([x, y, gradient[0] * x + gradient[1] * y + bump * math.sin(3.0 * i)])
        tops.append([middle[0] + top_radius * out[0], middle[1] + top_radius * out[1], top])
    return {
        "middle": middle, "sweep_deg": sweep, "radius_m": radius, "top_radius_m": top_radius,
        "points": points, "tops": tops, "first_deg": first, "gaps": gaps,
    }


def surface(of, turns, shares):
    """Points at so many gaps on from the first strand, and so far down each."""
    count, gaps = len(of["points"]), of["gaps"]
    before = np.minimum(np.floor(turns).astype(int), gaps - 1)
    part = turns - before
    low = np.array(of["points"])[:, 2]
    end_z = low[before % count] + part * (low[(before + 1) % count] - low[before % count])
    angle = np.radians(of["first_deg"] + of["sweep_deg"] / gaps * turns)
    out = np.stack([np.sin(angle), np.cos(angle)], axis=-1)
    flat = np.array(of["middle"]) + out * of["top_radius_m"]
    end = np.array(of["middle"]) + out * of["radius_m"]
    top = np.concatenate([flat, np.full((len(turns), 1), of["tops"][0][2])], axis=1)
    bottom = np.concatenate([end, end_z[:, None]], axis=1)
    return top[:, None, :] + shares[None, :, None] * (bottom - top)[:, None, :]


def off(thing, p):
    """How far points are from a thing."""
    flat = p[..., :2]
    if thing["kind"] == "upright":
        a, b = np.array(thing["a"]), np.array(thing["b"])
        way = b - a
        square = float(way @ way)
        share = np.clip((flat - a) @ way / square, 0.0, 1.0) if square > 0 else np.zeros(flat.shape[:-1])
        beside = np.linalg.norm(flat - (a + share[..., None] * way), axis=-1)
        h = np.maximum(beside - thing["radius_m"], 0.0)
        under = -np.inf if thing["z0"] is None else thing["z0"]
        v = np.maximum(np.maximum(under - p[..., 2], p[..., 2] - thing["z1"]), 0.0)
        return np.hypot(h, v)
    if thing["kind"] == "prism":
        area = Polygon(thing["outline"])
        h = shapely.distance(area, shapely.points(flat.reshape(-1, 2))).reshape(flat.shape[:-1])
        return np.hypot(h, np.maximum(p[..., 2] - thing["top_z"], 0.0))
    a, b = np.array(thing["a"]), np.array(thing["b"])
    shares = np.linspace(0.0, 1.0, 801)
    wire = a + shares[:, None] * (b - a)
    least = np.full(p.shape[:-1], np.inf)
    for w in wire:
        h = np.linalg.norm(flat - w[:2], axis=-1)
        v = np.maximum(np.abs(p[..., 2] - w[2]) - thing["half_m"], 0.0)
        least = np.minimum(least, np.hypot(h, v))
    return least


def thing(of):
    kind = ["upright", "crown", "wall", "prism", "curtain"][int(RANDOM.integers(0, 5))]
    turn, far = between(0.0, 2.0 * math.pi), between(0.6, 1.8) * of["radius_m"]
    at = [of["middle"][0] + far * math.sin(turn), of["middle"][1] + far * math.cos(turn)]
    if kind == "upright":
        return {"kind": "upright", "a": at, "b": at, "radius_m": between(0.03, 0.4), "z0": None, "z1": between(0.2, 5.0)}
    if kind == "crown":
        low = between(1.0, 4.0)
        return {"kind": "upright", "a": at, "b": at, "radius_m": between(0.3, 1.2), "z0": low, "z1": low + between(1.0, 4.0)}
    if kind == "wall":
        b = [at[0] + between(-3.0, 3.0), at[1] + between(-3.0, 3.0)]
        return {"kind": "upright", "a": at, "b": b, "radius_m": 0.1, "z0": None, "z1": between(0.3, 2.0)}
    if kind == "prism":
        size = between(0.3, 1.5)
        outline = [[0, 0], [2, 0], [2, 1], [1, 1], [1, 2], [0, 2]]
        return {"kind": "prism", "outline": [[at[0] + size * x, at[1] + size * y] for x, y in outline], "top_z": between(0.3, 4.0)}
    a = [at[0], at[1], between(1.0, 7.0)]
    return {"kind": "curtain", "a": a, "b": [at[0] + between(-6.0, 6.0), at[1] + between(-6.0, 6.0), between(1.0, 7.0)], "half_m": between(0.0, 0.4)}


def least(of, what):
    turns = np.linspace(0.0, of["gaps"], max(181, of["gaps"] * 24 + 1))
    shares = np.linspace(0.0, 1.0, 51)
    wide = [turns[1] - turns[0], shares[1] - shares[0]]
    seeds = off(what, surface(of, turns, shares))
    best = float(seeds.min())
    for index in np.argsort(seeds, axis=None)[:6]:
        i, j = np.unravel_index(index, seeds.shape)
        at, span = [turns[i], shares[j]], list(wide)
        for _ in range(6):
            t = np.clip(np.linspace(at[0] - span[0], at[0] + span[0], 21), 0.0, of["gaps"])
            s = np.clip(np.linspace(at[1] - span[1], at[1] + span[1], 21), 0.0, 1.0)
            near = off(what, surface(of, t, s))
            k, m = np.unravel_index(np.argmin(near), near.shape)
            best = min(best, float(near[k, m]))
            at, span = [t[k], s[m]], [0.3 * part for part in span]
    return best


def case():
    of = cone()
    what = thing(of)
    on_strands = float(off(what, surface(of, np.arange(of["gaps"] + 1.0), np.linspace(0.0, 1.0, 4001))).min())
    return {"cone": of, "solid": what, "least_m": round(least(of, what), 6), "on_strands_m": round(on_strands, 6)}


cases = [case() for _ in range(90)]
(HERE.parent / "data" / "cone_sampled.json").write_text(json.dumps(cases, indent=1) + "\n")
print(len(cases), sum(c["least_m"] <= 0 for c in cases), sum(c["least_m"] < c["on_strands_m"] - 0.05 for c in cases))

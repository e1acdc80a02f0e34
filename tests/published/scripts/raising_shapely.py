"""Writes ../data/raising_shapely.json: masts turned up in random yards, computed by other means than the engine's.

What turns is turned by Rodrigues' rotation about the hinge line. How near it comes to a thing is found twice: by its
positions at every 0.05 degrees with points every few centimetres along it (NumPy), and from the swept part of the upright
plane as one Shapely polygon, to which the thing's surface is sampled. Lengths of ropes are the norms of turned vectors. The
lying angle is halved down between a mast that runs into the ground and one that does not, looked at in 4,000 points.

NumPy 2.4.6, shapely 2.2.0.
Run in the project's folder: pip install numpy shapely && python3 tests/published/scripts/raising_shapely.py
"""

import json
import math
import pathlib

import numpy as np
from shapely.geometry import Polygon
import shapely

HERE = pathlib.Path(__file__).resolve().parent
RANDOM = np.random.default_rng(20261127)
# The mast, and what turns with it, at these angles to the level.
STEP_DEG = 0.05


def between(low, high):
    return float(RANDOM.uniform(low, high))


def rounded(value):
    if isinstance(value, (list, tuple, np.ndarray)):
        return [rounded(x) for x in value]
    return round(float(value), 4)


def axes(bearing_deg):
    """Unit vectors along the bearing, to the right of it, and up."""
    a = math.radians(bearing_deg)
    toward = np.array([math.sin(a), math.cos(a), 0.0])
    return toward, np.array([math.cos(a), -math.sin(a), 0.0]), np.array([0.0, 0.0, 1.0])


def turned(points, hinge, bearing_deg, elevations_deg):
    """Rodrigues: about the hinge line, from plumb down to each angle. Shape: angles, points, 3."""
    _, right, _ = axes(bearing_deg)
    # Falling towards the bearing: up goes to toward, which is the positive turn about up × toward.
    axis = np.cross([0.0, 0.0, 1.0], axes(bearing_deg)[0])
    assert np.allclose(axis, -right)
    fall = np.radians(90.0 - np.asarray(elevations_deg))[:, None, None]
    v = np.asarray(points)[None, :, :] - hinge
    k = axis[None, None, :]
    out = v * np.cos(fall) + np.cross(k, v) * np.sin(fall) + k * (v @ axis)[..., None] * (1 - np.cos(fall))
    return out + hinge


def inside(polygon, xy):
    return shapely.contains_xy(polygon, xy[..., 0], xy[..., 1])


def off_solid(solid, p):
    """Distance of points (…, 3) from a solid."""
    kind = solid["kind"]
    if kind == "upright":
        a, b = np.array(solid["a"]), np.array(solid["b"])
        way = b - a
        length2 = float(way @ way)
        t = np.clip(((p[..., :2] - a) @ way) / length2, 0, 1) if length2 > 0 else np.zeros(p.shape[:-1])
        core = a + t[..., None] * way
        sideways = np.maximum(np.linalg.norm(p[..., :2] - core, axis=-1) - solid["radius_m"], 0)
        low = solid["z0"] if solid["z0"] is not None else -np.inf
        above = np.maximum(np.maximum(low - p[..., 2], p[..., 2] - solid["z1"]), 0)
        return np.hypot(sideways, above)
    if kind == "prism":
        polygon = Polygon(solid["outline"])
        flat = shapely.distance(polygon, shapely.points(p[..., 0], p[..., 1]))
        return np.hypot(flat, np.maximum(p[..., 2] - solid["top_z"], 0))
    a, b = np.array(solid["a"]), np.array(solid["b"])
    best = np.full(p.shape[:-1], np.inf)
    for t in np.linspace(0, 1, 81):
        w = a + t * (b - a)
        flat = np.linalg.norm(p[..., :2] - w[:2], axis=-1)
        best = np.minimum(best, np.hypot(flat, np.maximum(np.abs(p[..., 2] - w[2]) - solid["half_m"], 0)))
    return best


def by_positions(case):
    """Every angle, points along the piece."""
    lying = case["lying_deg"]
    count = int((90 - lying) / STEP_DEG) + 1
    best = np.inf
    share = np.linspace(0, 1, 101)[:, None]
    for part in np.array_split(np.linspace(lying, 90.0, count), 40):
        if "eye" in case:
            collar = turned([case["collar"]], case["hinge"], case["bearing_deg"], part)[:, 0, :]
            eye = np.array(case["eye"])
            points = eye + share[None, :, :] * (collar[:, None, :] - eye)
        else:
            a, b = map(np.array, case["ends"])
            points = turned(a + share * (b - a), np.array(case["hinge"]), case["bearing_deg"], part)
        best = min(best, float(off_solid(case["solid"], points).min()))
    return max(best - case.get("radius_m", 0.0), 0.0)


def surface(solid):
    """Points of a solid's surface."""
    kind = solid["kind"]
    if kind == "upright":
        low = solid["z0"] if solid["z0"] is not None else -1.0
        a, b = np.array(solid["a"]), np.array(solid["b"])
        angles = np.linspace(0, 2 * math.pi, 91)
        rims = []
        for radius in np.linspace(0.0, solid["radius_m"], 4):
            ring = np.stack([np.cos(angles), np.sin(angles)], axis=-1) * radius
            rims += [at + ring for at in a + np.linspace(0, 1, 41)[:, None] * (b - a)] if (a != b).any() else [a + ring]
        flat = np.concatenate(rims)
        heights = np.linspace(low, solid["z1"], 81)
        return np.concatenate([np.c_[flat, np.full(len(flat), z)] for z in heights])
    if kind == "prism":
        polygon = Polygon(solid["outline"])
        edge = np.array([polygon.exterior.interpolate(t, normalized=True).coords[0] for t in np.linspace(0, 1, 500)])
        x0, y0, x1, y1 = polygon.bounds
        grid = np.stack(np.meshgrid(np.linspace(x0, x1, 50), np.linspace(y0, y1, 50)), axis=-1).reshape(-1, 2)
        flat = np.concatenate([edge, grid[inside(polygon, grid)]])
        heights = np.linspace(-1.0, solid["top_z"], 81)
        return np.concatenate([np.c_[flat, np.full(len(flat), z)] for z in heights])
    a, b = np.array(solid["a"]), np.array(solid["b"])
    wire = a + np.linspace(0, 1, 1201)[:, None] * (b - a)
    return np.concatenate([wire + [0, 0, dz] for dz in np.linspace(-solid["half_m"], solid["half_m"], 31)])


def by_swept_plane(case):
    """The swept part of the upright plane as a polygon: only for a piece that lies in it."""
    toward, right, _ = axes(case["bearing_deg"])
    hinge = np.array(case["hinge"])
    angles = np.linspace(case["lying_deg"], 90.0, 361)
    both = turned(case["ends"], hinge, case["bearing_deg"], angles) - hinge
    flat = np.stack([both @ toward, both[..., 2]], axis=-1)
    # Out along the near end's way, back along the far end's: a ring sector, a sliver of it at a time.
    slivers = [Polygon([flat[i, 0], flat[i, 1], flat[i + 1, 1], flat[i + 1, 0]]).buffer(0) for i in range(0, 360)]
    swept = shapely.union_all(slivers)
    shapely.prepare(swept)
    points = surface(case["solid"]) - hinge
    across = points @ right
    plane = np.stack([points @ toward, points[:, 2]], axis=-1)
    near = shapely.distance(swept, shapely.points(plane))
    return max(float(np.hypot(near, across).min()) - case["radius_m"], 0.0)


def solid_near(hinge, bearing_deg, reach):
    toward, right, _ = axes(bearing_deg)
    out, side = between(-0.3 * reach, 1.4 * reach), between(-3.0, 3.0)
    at = (np.array(hinge) + out * toward + side * right)[:2]
    kind = RANDOM.choice(["post", "crown", "wall", "house", "wire"])
    if kind == "post":
        return {"kind": "upright", "a": rounded(at), "b": rounded(at), "radius_m": rounded(between(0.05, 0.4)),
                "z0": None, "z1": rounded(between(0.5, 7.0))}
    if kind == "crown":
        low = between(1.5, 4.0)
        return {"kind": "upright", "a": rounded(at), "b": rounded(at), "radius_m": rounded(between(0.8, 2.5)),
                "z0": rounded(low), "z1": rounded(low + between(1.0, 5.0))}
    other = at + np.array([between(-5, 5), between(-5, 5)])
    if kind == "wall":
        return {"kind": "upright", "a": rounded(at), "b": rounded(other), "radius_m": rounded(between(0.05, 0.4)),
                "z0": None, "z1": rounded(between(0.5, 2.5))}
    if kind == "house":
        w, d, turn = between(1.5, 5), between(1.5, 5), between(0, math.pi)
        c, s = math.cos(turn), math.sin(turn)
        corners = [(-w, -d), (w, -d), (w, d), (-w, d)]
        outline = [rounded([at[0] + (c * x - s * y) / 2, at[1] + (s * x + c * y) / 2]) for x, y in corners]
        return {"kind": "prism", "outline": outline, "top_z": rounded(between(2.0, 6.0))}
    far = other + (other - at)
    return {"kind": "curtain", "a": rounded([*at, between(4, 8)]), "b": rounded([*far, between(4, 8)]),
            "half_m": rounded(between(0.0, 0.6))}


def sweep_case(kind):
    hinge = rounded([between(-5, 5), between(-5, 5), between(-0.5, 0.8)])
    bearing = rounded(between(0, 360))
    toward, right, up = axes(bearing)
    length = between(3.0, 10.0)
    foot = np.array(hinge) - between(0.0, 0.1) * toward + between(-0.4, 0.3) * up
    case = {"hinge": hinge, "bearing_deg": bearing, "lying_deg": rounded(between(-8.0, 10.0))}
    if kind == "rope":
        a = between(0, 2 * math.pi)
        eye = np.array(hinge) + between(2, 6) * (math.cos(a) * toward + math.sin(a) * right) + between(-0.5, 0.3) * up
        case |= {"eye": rounded(eye), "collar": rounded(foot + length * 0.7 * up + 0.04 * right)}
    elif kind == "leg":
        case |= {"ends": rounded([foot, foot - 1.4 * toward]), "radius_m": 0.08}
    elif kind == "cross":
        case |= {"ends": rounded([foot - 0.9 * right, foot + 0.9 * right]), "radius_m": 0.08}
    else:
        case |= {"ends": rounded([foot, foot + length * up]), "radius_m": rounded(between(0.02, 0.15))}
    case["solid"] = solid_near(hinge, bearing, length)
    case["by_positions_m"] = round(by_positions(case), 5)
    if kind in ("mast", "leg"):
        case["by_swept_plane_m"] = round(by_swept_plane(case), 5)
    return case


def rope_lengths():
    hinge = rounded([between(-5, 5), between(-5, 5), between(-0.5, 0.8)])
    bearing = rounded(between(0, 360))
    toward, right, up = axes(bearing)
    a = between(0, 2 * math.pi)
    eye = rounded(np.array(hinge) + between(2, 6) * (math.cos(a) * toward + math.sin(a) * right) + between(-1.2, 1.2) * up)
    collar = rounded(np.array(hinge) - 0.05 * toward + between(2, 9) * up + between(-0.05, 0.05) * right)
    angles = [float(x) for x in range(0, 95, 5)]
    every = turned([collar], np.array(hinge), bearing, angles)[:, 0, :]
    fine = turned([collar], np.array(hinge), bearing, np.linspace(0, 90, 9001))[:, 0, :]
    lengths = np.linalg.norm(fine - np.array(eye), axis=-1)
    return {
        "hinge": hinge, "bearing_deg": bearing, "eye": eye, "collar": collar,
        "lengths_m": [round(float(x), 7) for x in np.linalg.norm(every - np.array(eye), axis=-1)],
        "least_m": round(float(lengths.min()), 7), "most_m": round(float(lengths.max()), 7),
    }


def lying():
    """The underside of the mast at 4,000 points against a plane."""
    bearing, up_m = rounded(between(0, 360)), between(0.0, 0.6)
    gradient = rounded([between(-0.2, 0.2), between(-0.2, 0.2)])
    toward, _, _ = axes(bearing)
    slope = float(np.array(gradient) @ toward[:2])
    axis, radius, length, rest = rounded([between(0.0, 0.08), between(0.02, 0.1), between(3, 10), RANDOM.choice([0.0, 0.6, 1.0])])
    if up_m < radius - axis + 0.02:
        up_m = radius - axis + 0.02
    up_m = rounded(up_m)
    along = np.linspace(0.0, length, 4000)

    def clear(angle):
        c, s = math.cos(angle), math.sin(angle)
        out, up = along * c - (axis - radius) * s, up_m + along * s + (axis - radius) * c
        ground = slope * out
        front = out > 0
        return bool((up - ground)[front].min() >= 0 and up[-1] - ground[-1] >= rest)

    low, high = math.radians(-44), math.radians(80)
    for _ in range(60):
        middle = 0.5 * (low + high)
        if clear(middle):
            high = middle
        else:
            low = middle
    return {"bearing_deg": bearing, "hinge_up_m": up_m, "gradient": gradient, "axis_m": axis, "radius_m": radius,
            "length_m": length, "rest_m": rest, "lying_deg": round(math.degrees(high), 5)}


if __name__ == "__main__":
    kinds = ["mast"] * 50 + ["rope"] * 25 + ["leg"] * 10 + ["cross"] * 10
    data = {
        "sweeps": [sweep_case(kind) for kind in kinds],
        "ropes": [rope_lengths() for _ in range(60)],
        "lying": [lying() for _ in range(60)],
    }
    path = HERE / "../data/raising_shapely.json"
    path.write_text(json.dumps(data, indent=1) + "\n")
    print(len(data["sweeps"]), "sweeps written")

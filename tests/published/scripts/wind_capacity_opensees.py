"""Use of every part at the gust limit by OpenSees, the reference of tests/published/wind_capacity_opensees.rs.

    python wind_capacity_opensees.py < limits.json > ../data/wind_capacity_opensees.json

`limits.json` is a list of {mast, stretch_percent, from_deg, gust_m_per_s}: the limits that the program reported (printed by
the test with --nocapture). Made with openseespy 3.7.1.

The mast and its loads are built anew from the job's plain numbers. Two states: the loads as they are, and 1.5 times all
of them (weights too; set lengths of guys stay). In the second the mast's spans between its supports are *really bent*
in their unloaded shape by 1/150 of their length, the way of the wind or against it: all combinations are solved,
and the worst counts for every part. A loose joint between supports is kinked the same way as its span is bent.
"""
import itertools
import json
import math
import sys

import numpy as np
import openseespy.opensees as ops

import guyed_masts_opensees as base

GRAV = 9.80665
FACTOR, STEEL, BOW, LEAN = 1.5, 1.1, 1 / 150, 1 / 200
FOOT = 0.089  # above the ground; the anchors' eyes too
RHO = 101325 / (287.05287 * 273.15)
YIELD = 205e6
YIELDS = [YIELD, YIELD]
OVERLAP = 0.7
TOPPER = dict(width=0.4, height=0.4, solid=0.6, drag=1.8, mass=1.0)


def take(mast):
    """The mast of two levels, or a slim one of one level: near its buckling load the bow grows tenfold."""
    global TUBES, PLAY, LEVELS, SPANS, HOLE
    (d1, w1), (d2, w2), HOLE, LEVELS = {
        "stout": ((0.0603, 0.00365), (0.0483, 0.00325), 0.011, [(2.5, 180.0, 2.6), (5.2, 160.0, 3.6)]),
        "slim": ((0.032, 0.002), (0.026, 0.002), 0.006, [(5.2, 220.0, 3.6)]),
    }[mast]
    TUBES = [base.tube(0.0, 3.4, d1, w1), base.tube(2.7, 5.9, d2, w2)]
    PLAY = (d1 - 2 * w1 - d2) / 2
    heights = [0.0] + [height for height, _, _ in LEVELS]
    SPANS = list(zip(heights, heights[1:]))


take("stout")


def guys_of(ea):
    """Three guys a level, every 120 degrees from the north: height, tension, anchor from the foot, EA, weight, diameter."""
    found = []
    for height, tension, radius in LEVELS:
        for k in range(3):
            b = math.radians(120.0 * k)
            anchor = np.array([radius * math.sin(b), radius * math.cos(b), 0.0])
            found.append((height, tension, anchor, ea, 0.025 * GRAV, 0.006))
    return found


def pressure(gust, height):
    """Of the gust told for 10 m in open country (ASCE 7-16, Table 26.10-1, exposure C)."""
    kz = lambda h: 2.01 * (max(h / 0.3048, 15.0) / 900.0) ** (2 / 9.5)
    return 0.5 * RHO * gust**2 * kz(height) / kz(10.0)


def across(w, axis):
    n = w - axis * (w @ axis)
    return n * np.linalg.norm(n)


def unloaded(h, j, w, signs, lines=None):
    """Where a tube's node is unloaded: leaning, kinked by play, its spans bent along lines, without any along the wind."""
    along = np.array([LEAN * w[0], LEAN * w[1], 1.0])
    along /= np.linalg.norm(along)
    joint, over = TUBES[1]["bottom_m"], TUBES[0]["top_m"]
    if j == 0:
        p = along * h
    else:
        low, high = along * joint, along * over + 2 * PLAY * w
        up = (high - low) / np.linalg.norm(high - low)
        p = low + up * (h - joint)
    for (a, b), sign, line in zip(SPANS, signs, lines or [w] * len(SPANS)):
        if a < h < b and sign:
            p = p + line * sign * 4 * BOW * (h - a) * (b - h) / (b - a)
            if sign > 0 and a < joint < b:
                # The play has the joint against the wind by this much, seen from the line between supports.
                angle = 2 * PLAY / (over - joint)
                kink = angle * ((h - a) * (b - joint) if h <= joint else (joint - a) * (b - h)) / (b - a)
                p = p + kink * (w + line)
    return p


def state(guys, from_deg, gust, factor, signs, times=None, lines=None):
    """Loads times the factor; or, with `times`, the wind alone times that."""
    w = -np.array([math.sin(math.radians(from_deg)), math.cos(math.radians(from_deg)), 0.0])
    case = dict(tubes=TUBES, guys=[dict(attach_height_m=guy[0]) for guy in guys])
    ops.wipe()
    ops.model("basic", "-ndm", 3, "-ndf", 6)
    nodes, ties, beams = base.nodes_of(case)
    heights = {tag: h for tag, h, _ in nodes}
    xyz = {tag: unloaded(h, j, w, signs, lines) for tag, h, j in nodes}
    straight = {tag: unloaded(h, j, w, (0, 0)) for tag, h, j in nodes}
    for tag, _, _ in nodes:
        ops.node(tag, *map(float, xyz[tag]))
    ops.fix(1, 1, 1, 1, 0, 0, 1)
    for outer, inner, dofs in ties:
        ops.equalDOF(outer, inner, *dofs)
    base.make_beams(case, nodes, beams, xyz, "Corotational")
    still, wind = {}, {}

    def put(to, tag, force, moment=(0, 0, 0)):
        to[tag] = to.get(tag, np.zeros(6)) + np.concatenate([np.array(force, float), np.array(moment, float)])

    lengths = {}
    for i, (a, b, j) in enumerate(beams):
        t = TUBES[j]
        d = xyz[b] - xyz[a]
        lengths[i] = np.linalg.norm(d)
        middle = 0.5 * (heights[a] + heights[b])
        exposed = j == 0 or middle > TUBES[0]["top_m"]
        push = 1.2 * t["outside_m"] * pressure(gust, middle + FOOT) * across(w, d / lengths[i]) if exposed else np.zeros(3)
        for tag in (a, b):
            put(still, tag, [0, 0, -t["weight_n_per_m"] * lengths[i] / 2])
            put(wind, tag, push * lengths[i] / 2)
    top = nodes[-1][0]
    area = TOPPER["width"] * TOPPER["height"] * TOPPER["solid"]
    f = TOPPER["drag"] * area * pressure(gust, TUBES[1]["top_m"] + FOOT + TOPPER["height"] / 2) * w
    put(wind, top, f, np.cross([0, 0, TOPPER["height"] / 2], f))
    put(still, top, [0, 0, -TOPPER["mass"] * GRAV])

    chains, element, node, parts = [], 10000, 10000, base.PARTS
    for height, tension, anchor, ea, weight, diameter in guys:
        attach = min(tag for tag, h, _ in nodes if abs(h - height) < 1e-9)
        d0 = straight[attach] - anchor
        l0 = base.unstressed_for(math.hypot(d0[0], d0[1]), d0[2], weight, ea, tension)
        d = xyz[attach] - anchor
        span = math.hypot(d[0], d[1])
        pts = base.catenary_points(span, d[2], weight, ea, l0, parts)
        toward = np.array([d[0], d[1], 0]) / span
        tags = []
        for i, (x, z) in enumerate(pts):
            if i == parts:
                tags.append(attach)
                continue
            node += 1
            side = np.cross([0, 0, 1.0], toward) * 1e-6 * math.sin(math.pi * i / parts)
            xyz[node] = anchor + toward * x + np.array([0, 0, z]) + side
            ops.node(node, *map(float, xyz[node]))
            ops.fix(node, *((1,) * 6 if i == 0 else (0, 0, 0, 1, 1, 1)))
            tags.append(node)
        chord = d / np.linalg.norm(d)
        elements, rest = [], l0 / parts
        for i in range(parts):
            element += 1
            p = xyz[tags[i + 1]] - xyz[tags[i]]
            ln = float(np.linalg.norm(p))
            ops.uniaxialMaterial("Elastic", element, ea * ln / rest)
            ops.uniaxialMaterial("InitStrainMaterial", element + 100000, element, (ln - rest) / ln)
            ops.element("corotTruss", element, tags[i], tags[i + 1], 1.0, element + 100000)
            elements.append(element)
            middle = 0.5 * (xyz[tags[i]][2] + xyz[tags[i + 1]][2]) + FOOT
            push = 1.2 * diameter * pressure(gust, middle) * across(w, chord) * np.linalg.norm(d) / parts
            for tag in tags[i:i + 2]:
                put(still, tag, [0, 0, -weight * rest / 2])
                put(wind, tag, push / 2)
        chains.append((tags, elements, push / rest))

    ops.timeSeries("Linear", 1)
    ops.pattern("Plain", 1, 1)
    for tag, load in still.items():
        ops.load(tag, *map(float, factor * load))
    ops.constraints("Transformation")
    ops.numberer("RCM")
    ops.system("UmfPack")
    base.run(4)
    ops.loadConst("-time", 0.0)
    ops.timeSeries("Linear", 2)
    ops.pattern("Plain", 2, 2)
    for tag, load in wind.items():
        ops.load(tag, *map(float, (times or factor) * load))
    base.run(40)

    uses = {"tube 1": 0.0, "tube 2": 0.0, "pin-hole 1 of joint 1": 0.0, "pin-hole 2 of joint 1": 0.0}
    for i, (a, b, j) in enumerate(beams):
        force = ops.eleResponse(i + 1, "localForces")
        own = factor * TUBES[j]["weight_n_per_m"] * lengths[i] / 2
        for tag, n, m in ((a, force[0] + own, math.hypot(force[4], force[5])),
                          (b, -force[6] - own, math.hypot(force[10], force[11]))):
            uses[f"tube {j + 1}"] = max(uses[f"tube {j + 1}"], section(j, n, m, False))
            if TUBES[1]["bottom_m"] - 1e-9 <= heights[tag] <= TUBES[0]["top_m"] + 1e-9:
                name = f"pin-hole {j + 1} of joint 1"
                uses[name] = max(uses[name], section(j, n, m, True))
    BENT[:] = [bent(nodes, span, w) for span in SPANS]
    scale = 1.0 if factor == 1.0 else 1.0 / FACTOR
    out = {name: FACTOR * STEEL * scale * use for name, use in uses.items()}
    for k, (tags, elements, push) in enumerate(chains):
        axials = [ops.eleResponse(e, "axialForce")[0] for e in elements]
        for name, i, which in (("rope", parts - 1, -1), ("anchor", 0, 0)):
            out[f"{name} {k}"] = scale * axials[i]
    ops.reactions()
    out["push"] = scale * ops.nodeReaction(1)[2]
    out["sideways"] = scale * math.hypot(*ops.nodeReaction(1)[:2])
    return out


BENT = []  # of the state solved last: the line along which each span is bent by its loads, with the wind


def bent(nodes, span, w):
    a, b = span
    moved = lambda h: np.array(ops.nodeDisp(min(nodes, key=lambda node: abs(node[1] - h))[0])[:3])
    off = moved((a + b) / 2) - (moved(a) + moved(b)) / 2
    off[2] = 0.0
    far, along = np.linalg.norm(off), off @ w
    return w if far < 1e-9 or abs(along) < 0.2 * far else off * np.sign(along) / far


def section(j, n, m, hole):
    """EN 1993-1-1, 6.2.1 (7): the ratios added; plastic, but elastic beside a hole."""
    t, fy = TUBES[j], YIELDS[j]
    d, wall = t["outside_m"], t["outside_m"] / 2 - math.sqrt((t["outside_m"] / 2) ** 2 - t["axial_n"] / base.E / math.pi)
    inside = d - 2 * wall
    area = math.pi / 4 * (d**2 - inside**2)
    plastic = (d**3 - inside**3) / 6
    elastic = math.pi / 32 * (d**4 - inside**4) / d
    n = max(n, 0.0)
    if not hole:
        return n / (area * fy) + m / (plastic * fy)
    strips, arm = 2 * HOLE * wall, (d - wall) / 2
    return n / ((area - strips) * fy) + m / ((elastic - strips * arm**2 / (d / 2)) * fy)


def main():
    done = []
    for limit in json.load(sys.stdin):
        take(limit["mast"])
        ea = 1500.0 / (limit["stretch_percent"] / 100)
        args = guys_of(ea), limit["from_deg"], limit["gust_m_per_s"]
        service = state(*args, 1.0, (0, 0))
        worst, by = dict(service), {}
        for signs in itertools.product((1, -1), repeat=len(SPANS)):
            try:
                design = state(*args, FACTOR, signs)
            except AssertionError as error:
                print("NOT DONE", limit, signs, error, file=sys.stderr)
                raise
            for name, value in design.items():
                if value > worst[name]:
                    worst[name], by[name] = value, signs
        print(limit, {k: round(v, 4) for k, v in worst.items()}, by, file=sys.stderr)
        # Of this fixture the push sideways is no part.
        for found in (service, worst):
            found.pop("sideways")
        done.append(dict(limit, service=service, worst=worst))
    json.dump(dict(openseespy="3.7.1", opensees=ops.version(), cases=done), sys.stdout, indent=1)


if __name__ == "__main__":
    main()

"""Whole guyed masts by OpenSees, the reference of tests/published/guyed_masts.rs.

    python guyed_masts_opensees.py > ../data/guyed_masts.json

Made with Python 3.11, openseespy 3.7.1, numpy and scipy (versions are written into the file).

Tubes: elasticBeamColumn with the Corotational transformation, at most 0.1 m long, loads lumped on the nodes.
Guys: chains of corotTruss with an initial strain, started on scipy's elastic catenary. Where one tube stands in
another the two run side by side, tied by equalDOF at the upper bearing (sideways) and at the lower end (sideways,
along, and against turning about the axis). Buckling: det(K_M + f K_G) = 0 in the deformed state, K_M from
OpenSees (Linear transformation, at the deformed coordinates) and the guys' condensed tangents, K_G the consistent
geometric stiffness (Przemieniecki 1968) with OpenSees's axial forces; smallest f > 0 by scipy.
"""
import json
import math
import sys
import time

import numpy as np
import scipy
import scipy.linalg
import scipy.optimize
import openseespy.opensees as ops

E, G, RHO, GRAV = 210e9, 210e9 / 2.6, 7850.0, 9.80665
MESH = 0.1
PARTS = 40  # truss elements a guy


def tube(bottom, top, outside, wall, **more):
    inside = outside - 2 * wall
    area = math.pi * wall * (outside - wall)
    inertia = area * (outside**2 + inside**2) / 16
    return dict(bottom_m=bottom, top_m=top, outside_m=outside, wall_m=wall, axial_n=E * area,
                bending_n_m2=E * inertia, torsion_n_m2=G * 2 * inertia, weight_n_per_m=RHO * GRAV * area,
                wind_n_per_m=[0.0, 0.0, 0.0], **more)


def catenary_upper(d, w, ea, l0):
    """Force (H, V) at the upper end of a rope over span d[0], rise d[1] (Irvine's equations)."""
    span, rise = d

    def miss(x):
        h, v = math.exp(x[0]), x[1] * w * l0
        a, b = math.hypot(h, v), math.hypot(h, v - w * l0)
        return [(h * l0 / ea + h / w * (math.asinh(v / h) - math.asinh((v - w * l0) / h)) - span) / l0,
                (w * l0 * l0 / ea * (v / (w * l0) - 0.5) + (a - b) / w - rise) / l0]

    chord = math.hypot(span, rise)
    strain = max((chord - l0) / l0, 0)
    best = None
    for t in [strain * ea + 0.5 * w * l0, w * l0, 3 * w * l0, 10 * w * l0, 0.3 * w * l0, 100 * w * l0]:
        x0 = [math.log(max(t * span / chord, 1e-6)), (t * rise / chord) / (w * l0) + 0.5]
        for method in ("hybr", "lm"):
            r = scipy.optimize.root(miss, x0, tol=1e-14, method=method)
            e = max(map(abs, r.fun))
            if best is None or e < best[0]:
                best = (e, r.x)
    assert best[0] < 1e-9, ("catenary", d, w, ea, l0, best)
    return math.exp(best[1][0]), best[1][1] * w * l0


def unstressed_for(span, rise, w, ea, tension):
    def miss(l0):
        return math.hypot(*catenary_upper((span, rise), w, ea, l0)) - tension
    chord = math.hypot(span, rise)
    guess = chord / (1 + tension / ea)
    return scipy.optimize.brentq(miss, guess * 0.9999, guess * 1.02, xtol=1e-12)


def catenary_points(span, rise, w, ea, l0, n):
    h, v = catenary_upper((span, rise), w, ea, l0)
    low = v - w * l0  # upward force that the rope's lower end needs, negative when it lifts
    pts = []
    for i in range(n + 1):
        s = l0 * i / n
        t = low + w * s
        x = h * s / ea + h / w * (math.asinh(t / h) - math.asinh(low / h))
        z = s / ea * (low + w * s / 2) + (math.hypot(h, t) - math.hypot(h, low)) / w
        pts.append((x, z))
    return pts


def levels(case):
    marks = {0.0}
    for t in case["tubes"]:
        marks |= {t["bottom_m"], t["top_m"]}
    for g in case["guys"]:
        marks.add(g["attach_height_m"])
    marks = sorted(marks)
    hs = []
    for a, b in zip(marks, marks[1:]):
        n = math.ceil((b - a) / MESH - 1e-9)
        hs += [a + (b - a) * k / n for k in range(n)]
    return hs + [marks[-1]]


def nodes_of(case):
    """(tag, height, tube) of all mast nodes, ties, beams."""
    hs, nodes, ties, last, beams = levels(case), [], [], {}, []
    tag = 0
    for h in hs:
        outer = None
        for j, t in enumerate(case["tubes"]):
            if not (t["bottom_m"] - 1e-9 <= h <= t["top_m"] + 1e-9):
                continue
            tag += 1
            nodes.append((tag, h, j))
            if j > 0 and outer is not None:
                before = case["tubes"][j - 1]
                if t["bottom_m"] > before["top_m"] - 1e-9:
                    ties.append((outer, tag, (1, 2, 3, 4, 5, 6)))
                elif abs(h - t["bottom_m"]) < 1e-9:
                    ties.append((outer, tag, (1, 2, 3, 6)))
                elif abs(h - before["top_m"]) < 1e-9:
                    ties.append((outer, tag, (1, 2)))
            if j in last:
                beams.append((last[j], tag, j))
            last[j] = tag
            outer = tag
    return nodes, ties, beams


def places(case, nodes):
    """Unloaded places: each tube leans in the one before by its play."""
    lines = []
    for j, t in enumerate(case["tubes"]):
        if j == 0:
            lines.append((np.zeros(3), np.array([0, 0, 1.0])))
            continue
        p, e = lines[j - 1]
        before = case["tubes"][j - 1]
        at = lambda h: p + e * (h - before["bottom_m"])
        low, play = at(t["bottom_m"]), np.array(list(t.get("play_m", [0, 0])) + [0.0])
        if t["bottom_m"] > before["top_m"] - 1e-9:
            lines.append((low, e))
        else:
            high = at(before["top_m"]) + 2 * play
            lines.append((low, (high - low) / np.linalg.norm(high - low)))
    return {tag: lines[j][0] + lines[j][1] * (h - case["tubes"][j]["bottom_m"]) for tag, h, j in nodes}


def make_beams(case, nodes, beams, xyz, transf):
    ops.geomTransf(transf, 1, 1.0, 0.0, 0.0)
    for i, (a, b, j) in enumerate(beams):
        t = case["tubes"][j]
        # A = EA/E and so on, E = 1
        ops.element("elasticBeamColumn", i + 1, a, b, t["axial_n"], 1.0, 1.0, t["torsion_n_m2"],
                    t["bending_n_m2"], t["bending_n_m2"], 1)


def solve(case):
    ops.wipe()
    ops.model("basic", "-ndm", 3, "-ndf", 6)
    nodes, ties, beams = nodes_of(case)
    xyz = places(case, nodes)
    heights = {tag: h for tag, h, _ in nodes}
    for tag, _, _ in nodes:
        ops.node(tag, *map(float, xyz[tag]))
    base = case["base"]
    free = 0 if base["kind"] != "fixed" else 1
    ops.fix(1, 1, 1, 1, free, free, 1)
    if base["kind"] == "spring":
        ops.node(999999, 0.0, 0.0, 0.0)
        ops.fix(999999, 1, 1, 1, 1, 1, 1)
        ops.uniaxialMaterial("Elastic", 900000, base["n_m_per_rad"])
        ops.element("zeroLength", 900000, 999999, 1, "-mat", 900000, 900000, "-dir", 4, 5)
    for outer, inner, dofs in ties:
        ops.equalDOF(outer, inner, *dofs)
    make_beams(case, nodes, beams, xyz, "Corotational")

    loads_still, loads_wind = {}, {}

    def put(where, tag, f):
        where[tag] = where.get(tag, np.zeros(3)) + np.asarray(f, float)

    lengths = {}
    for i, (a, b, j) in enumerate(beams):
        t = case["tubes"][j]
        length = float(np.linalg.norm(xyz[b] - xyz[a]))
        lengths[i] = length
        middle = 0.5 * (heights[a] + heights[b])
        exposed = all(o["top_m"] < middle for o in case["tubes"][:j])
        for tag in (a, b):
            put(loads_still, tag, [0, 0, -t["weight_n_per_m"] * length / 2])
            if exposed:
                put(loads_wind, tag, np.array(t["wind_n_per_m"]) * length / 2)
    top = nodes[-1][0]
    put(loads_wind, top, case["top_force_n"])

    chains = []
    element, node = 10000, 10000
    for k, g in enumerate(case["guys"]):
        if not g["holds"]:
            chains.append(None)
            continue
        attach = min((tag for tag, h, _ in nodes if abs(h - g["attach_height_m"]) < 1e-9))
        anchor = np.array(g["anchor_m"])
        d = xyz[attach] - anchor
        w, ea, l0 = g["weight_n_per_m"], g["stiffness_n"], g["unstressed_m"]
        parts = g.get("parts", PARTS)
        # Started where it hangs in still air, or in its wind where a chain of trusses would fold on the way.
        load = np.array([0, 0, -w]) + np.array(g["wind_n_per_m"]) * (1 if "parts" in g else 0)
        size = np.linalg.norm(load)
        down = load / size
        across = d - down * (d @ down)
        span = np.linalg.norm(across)
        toward = across / span
        pts = catenary_points(span, -(d @ down), size, ea, l0, parts)
        tags = []
        for i, (x, z) in enumerate(pts):
            if i == parts:
                tags.append(attach)
                continue
            node += 1
            # A hair out of its plane, so that no chain can balance folded in it.
            out = np.cross(down, toward) * 1e-6 * math.sin(math.pi * i / parts)
            p = anchor + toward * x - down * z + out
            xyz[node] = p
            ops.node(node, *map(float, p))
            ops.fix(node, *((1,) * 6 if i == 0 else (0, 0, 0, 1, 1, 1)))
            tags.append(node)
        elements, rest = [], l0 / parts
        for i in range(parts):
            element += 1
            ln = float(np.linalg.norm(xyz[tags[i + 1]] - xyz[tags[i]]))
            ops.uniaxialMaterial("Elastic", element, ea * ln / rest)
            ops.uniaxialMaterial("InitStrainMaterial", element + 100000, element, (ln - rest) / ln)
            ops.element("corotTruss", element, tags[i], tags[i + 1], 1.0, element + 100000)
            elements.append(element)
            for tag in tags[i:i + 2]:
                put(loads_still, tag, [0, 0, -w * rest / 2])
                put(loads_still if "parts" in g else loads_wind, tag, np.array(g["wind_n_per_m"]) * rest / 2)
        chains.append(dict(tags=tags, elements=elements, rest=rest, ea=ea))

    ops.timeSeries("Linear", 1)
    ops.pattern("Plain", 1, 1)
    for tag, f in loads_still.items():
        ops.load(tag, *map(float, f), 0.0, 0.0, 0.0)
    ops.constraints("Transformation")
    ops.numberer("RCM")
    ops.system("UmfPack")
    started = time.perf_counter()
    run(4)
    ops.loadConst("-time", 0.0)
    ops.timeSeries("Linear", 2)
    ops.pattern("Plain", 2, 2)
    for tag, f in loads_wind.items():
        ops.load(tag, *map(float, f), 0.0, 0.0, 0.0)
    run(case.get("steps", 20))
    elapsed = time.perf_counter() - started

    ops.reactions()
    total = {tag: loads_still.get(tag, 0) + loads_wind.get(tag, np.zeros(3)) for tag in loads_still}
    disp = {tag: np.array(ops.nodeDisp(tag)) for tag, _, _ in nodes}
    bending, compression = 0.0, 0.0
    axial = {}
    for i, (a, b, j) in enumerate(beams):
        f = ops.eleResponse(i + 1, "localForces")
        bending = max(bending, math.hypot(f[4], f[5]), math.hypot(f[10], f[11]))
        axial[i] = f[6]
        share = case["tubes"][j]["weight_n_per_m"] * lengths[i] / 2
        compression = max(compression, -f[6] + share)
    guys = []
    for k, chain in enumerate(chains):
        if chain is None:
            guys.append(None)
            continue
        axials = [ops.eleResponse(e, "axialForce")[0] for e in chain["elements"]]
        # Folded over itself, a chain of trusses has a corner; elsewhere nothing is pressed.
        assert min(axials) > -1e-3 * max(axials), (case["name"], k, min(axials))
        g = case["guys"][k]
        # Half an element's own load between the element's middle and the rope's end.
        half = (np.array(g["wind_n_per_m"]) + [0, 0, -g["weight_n_per_m"]]) * chain["rest"] / 2

        def pull(i, sign):
            p = [xyz[t] + np.array(ops.nodeDisp(t))[:3] for t in chain["tags"][i:i + 2]]
            e = (p[1] - p[0]) / np.linalg.norm(p[1] - p[0])
            return sign * axials[i] * e + half
        upper, lower = pull(len(axials) - 1, -1), pull(0, 1)
        guys.append(dict(on_mast_n=list(map(float, upper)), on_anchor_n=list(map(float, lower)),
                         tension_upper_n=float(np.linalg.norm(upper)),
                         tension_lower_n=float(np.linalg.norm(lower))))
    reaction = np.array(ops.nodeReaction(1)[:3])
    out = dict(top_m=list(map(float, disp[top][:3])), largest_bending_n_m=bending,
               largest_compression_n=compression, base_force_n=list(map(float, reaction)), guys=guys,
               seconds=round(elapsed, 4))
    if case.get("buckling", True):
        here = {tag: xyz[tag] + disp[tag][:3] for tag, _, _ in nodes}
        chain_k = []
        for chain in chains:
            if chain is None:
                continue
            p = [xyz[t] + np.array(ops.nodeDisp(t))[:3] for t in chain["tags"]]
            axials = [ops.eleResponse(e, "axialForce")[0] for e in chain["elements"]]
            chain_k.append((chain["tags"][-1], condensed(p, axials, chain)))
        out["buckling_factor"] = buckling(case, nodes, ties, beams, here, axial, chain_k)
    return out


def run(steps):
    ops.test("NormDispIncr", 1e-11, 60, 0)
    ops.algorithm("Newton")
    ops.integrator("LoadControl", 1.0 / steps)
    ops.analysis("Static")
    done = 0.0
    size = 1.0 / steps
    while done < 1 - 1e-12:
        size = min(size, 1 - done)
        ops.integrator("LoadControl", size)
        if ops.analyze(1) == 0:
            done += size
            size = min(size * 1.5, 1.0 / steps)
            continue
        ok = False
        for algorithm in (("NewtonLineSearch",), ("KrylovNewton",), ("ModifiedNewton", "-initial")):
            ops.algorithm(*algorithm)
            ok = ops.analyze(1) == 0
            ops.algorithm("Newton")
            if ok:
                break
        if ok:
            done += size
        else:
            size /= 2
            assert size > 1e-5, "OpenSees does not converge"


def condensed(p, axials, chain):
    """3x3 tangent at the upper end of a chain of trusses with its lower end held."""
    n = len(p) - 1
    k = np.zeros((3 * n, 3 * n))
    for i in range(n):
        d = p[i + 1] - p[i]
        l = np.linalg.norm(d)
        e = d / l
        kk = chain["ea"] / chain["rest"] * np.outer(e, e) + axials[i] / l * (np.eye(3) - np.outer(e, e))
        b = slice(3 * i, 3 * i + 3)
        k[b, b] += kk
        if i > 0:
            a = slice(3 * i - 3, 3 * i)
            k[a, a] += kk
            k[a, b] -= kk
            k[b, a] -= kk
    m = 3 * (n - 1)
    return k[m:, m:] - k[m:, :m] @ np.linalg.solve(k[:m, :m], k[:m, m:])


def buckling(case, nodes, ties, beams, here, axial, chain_k):
    ops.wipe()
    ops.model("basic", "-ndm", 3, "-ndf", 6)
    for tag, _, _ in nodes:
        ops.node(tag, *map(float, here[tag]))
    make_beams(case, nodes, beams, here, "Linear")
    ops.timeSeries("Linear", 1)
    ops.pattern("Plain", 1, 1)
    ops.constraints("Plain")
    ops.numberer("Plain")
    ops.system("FullGeneral")
    ops.test("NormUnbalance", 1e300, 1, 0)
    ops.algorithm("Linear")
    # A free body: the transient integrator hands out the stiffness without solving with it alone.
    for tag, _, _ in nodes:
        ops.mass(tag, *([1.0] * 6))
    ops.integrator("GimmeMCK", 0.0, 0.0, 1.0)
    ops.analysis("Transient")
    ops.analyze(1, 0.0)
    size = ops.systemSize()
    km = np.array(ops.printA("-ret")).reshape(size, size)
    km = 0.5 * (km + km.T)
    at = {tag: ops.nodeDOFs(tag) for tag, _, _ in nodes}
    kg = np.zeros_like(km)
    for i, (a, b, j) in enumerate(beams):
        d = here[b] - here[a]
        l = np.linalg.norm(d)
        x = d / l
        y = np.cross([1.0, 0, 0], x)
        y /= np.linalg.norm(y)
        r = np.vstack([x, y, np.cross(x, y)])
        t = scipy.linalg.block_diag(r, r, r, r)
        g = np.zeros((12, 12))
        for v, w, s in ((1, 5, 1), (2, 4, -1)):
            ids = [v, w, v + 6, w + 6]
            c = np.array([[36, 3 * l * s, -36, 3 * l * s], [3 * l * s, 4 * l * l, -3 * l * s, -l * l],
                          [-36, -3 * l * s, 36, -3 * l * s], [3 * l * s, -l * l, -3 * l * s, 4 * l * l]])
            g[np.ix_(ids, ids)] += axial[i] / (30 * l) * c
        ids = at[a] + at[b]
        kg[np.ix_(ids, ids)] += t.T @ g @ t
    for tag, k in chain_k:
        ids = at[tag][:3]
        km[np.ix_(ids, ids)] += k
    # Ties and supports.
    keep = np.eye(size)
    drop = []
    for outer, inner, dofs in ties:
        for dof in dofs:
            keep[at[inner][dof - 1], :] = keep[at[outer][dof - 1], :]
            drop.append(at[inner][dof - 1])
    fixed = [0, 1, 2, 5] + ([3, 4] if case["base"]["kind"] == "fixed" else [])
    drop += [at[1][k] for k in fixed]
    keep = np.delete(keep, sorted(set(drop)), axis=1)
    if case["base"]["kind"] == "spring":
        for k in (3, 4):
            km[at[1][k], at[1][k]] += case["base"]["n_m_per_rad"]
    m, g = keep.T @ km @ keep, keep.T @ kg @ keep
    # K_M positive definite: g x = mu m x, f = -1/mu
    mu = scipy.linalg.eigh(g, m, eigvals_only=True)
    return float(-1 / mu.min()) if mu.min() < 0 else None


ROPE = dict(stiffness_n=60e3, weight_n_per_m=0.45)  # polyester, 10 mm or so
WIRE = dict(stiffness_n=900e3, weight_n_per_m=1.1)  # wire rope, 4 mm
THIN = dict(stiffness_n=12e3, weight_n_per_m=0.06)


def telescope(*parts, overlap=0.5):
    """Tubes (length, outside, wall) one in another."""
    tubes, bottom = [], 0.0
    for length, outside, wall in parts:
        tubes.append(tube(round(bottom, 6), round(bottom + length, 6), outside, wall))
        bottom += length - overlap
    return tubes


def around(count, radius, height, tension, rope, turn=0.0, ground=lambda x, y: 0.0, radii=None):
    guys = []
    for i in range(count):
        b = math.radians(turn + 360.0 * i / count)
        r = radii[i] if radii else radius
        x, y = r * math.sin(b), r * math.cos(b)
        z = ground(x, y)
        l0 = unstressed_for(math.hypot(x, y), height - z, rope["weight_n_per_m"], rope["stiffness_n"], tension)
        guys.append(dict(attach_height_m=height, anchor_m=[x, y, z], unstressed_m=l0, holds=True,
                         wind_n_per_m=[0.0, 0.0, 0.0], **rope))
    return guys


def blow(case, bearing_to, tube_n_per_m, guy_n_per_m=0.0, top_n=0.0, up_n=0.0):
    """Even wind towards a bearing; on the guys square to the chord (cross-flow), on the tubes by diameter."""
    w = np.array([math.sin(math.radians(bearing_to)), math.cos(math.radians(bearing_to)), 0.0])
    for t in case["tubes"]:
        t["wind_n_per_m"] = list(map(float, w * tube_n_per_m * t["outside_m"] / 0.05))
    for g in case["guys"]:
        c = np.array([-g["anchor_m"][0], -g["anchor_m"][1], g["attach_height_m"] - g["anchor_m"][2]])
        c /= np.linalg.norm(c)
        across = w - c * (w @ c)
        g["wind_n_per_m"] = list(map(float, across * np.linalg.norm(across) * guy_n_per_m))
    case["top_force_n"] = list(map(float, w * top_n + np.array([0, 0, up_n])))
    return case


def mast(name, tubes, guys, base=None, **more):
    return dict(name=name, tubes=tubes, guys=guys, base=base or dict(kind="pinned"), top_force_n=[0, 0, 0], **more)


def cases():
    slope = lambda x, y: -0.09 * x - 0.14 * y
    steep = lambda x, y: 0.25 * x + 0.1 * y
    one = lambda: telescope((6.0, 0.0483, 0.0032))
    two = lambda: telescope((6.0, 0.0603, 0.0036), (5.0, 0.0483, 0.0032), overlap=0.6)
    three = lambda: telescope((4.0, 0.0730, 0.0052), (4.0, 0.0603, 0.0039), (3.5, 0.0483, 0.0037), overlap=0.6)
    yield blow(mast("one tube, three guys, breeze", one(), around(3, 4, 5.5, 250, ROPE)), 20, 6, 1, 10)
    yield blow(mast("one tube, three guys, towards a guy", one(), around(3, 4, 5.5, 250, ROPE)), 0, 25, 4, 60)
    yield blow(mast("one tube, four guys, storm", one(), around(4, 4, 5.0, 300, ROPE, 45)), 90, 60, 9, 250)
    yield blow(mast("overhang above the guys", one(), around(3, 4, 3.5, 300, ROPE)), 75, 30, 4, 80)
    yield blow(mast("wire guys", one(), around(3, 5, 5.8, 700, WIRE, 30)), 180, 40, 5, 150)
    yield blow(mast("two tubes, two levels", two(),
                    around(3, 6, 5.2, 350, ROPE) + around(3, 6, 10.0, 300, ROPE)), 10, 30, 4, 120, -60)
    yield blow(mast("two tubes, two levels, between guys", two(),
                    around(3, 6, 5.2, 350, ROPE) + around(3, 6, 10.0, 300, ROPE)), 60, 45, 6, 200, -60)
    yield blow(mast("two tubes, one level", two(), around(4, 7, 9.4, 500, ROPE)), 33, 25, 4, 60, -40)
    yield blow(mast("two tubes on a slope", two(),
                    around(3, 6, 5.2, 350, ROPE, ground=slope) + around(3, 6, 10.0, 300, ROPE, ground=slope)),
               215, 30, 4, 100, -50)
    yield blow(mast("steep slope, four guys", two(), around(4, 6.5, 9.0, 400, ROPE, 20, ground=steep)),
               300, 30, 4, 100, -50)
    yield blow(mast("three tubes, two levels, sprung base", three(),
                    around(3, 7, 6.5, 500, ROPE, 15) + around(3, 7, 9.9, 400, ROPE, 15),
                    dict(kind="spring", n_m_per_rad=3000.0)), 140, 35, 5, 180, -120)
    yield blow(mast("three tubes, fixed base, one level", three(), around(3, 6, 8.5, 450, ROPE, 50),
                    dict(kind="fixed")), 250, 35, 5, 100, -80)
    yield blow(mast("slack guys", one(), around(3, 4, 5.5, 12, ROPE)), 100, 20, 3, 60)
    yield blow(mast("slack guys, nearly still", one(), around(3, 4, 5.5, 12, ROPE)), 100, 2, 0.3, 5)
    failed = mast("one guy failed, fixed base", two(), around(4, 6, 8.0, 250, ROPE), dict(kind="fixed"))
    failed["guys"][1]["holds"] = False
    yield blow(failed, 200, 15, 2, 30)
    failed = mast("lee guy failed", two(), around(3, 6, 5.2, 250, ROPE) + around(3, 6, 10.0, 250, ROPE))
    failed["guys"][3]["holds"] = False
    yield blow(failed, 0, 30, 4, 150, -40)
    yield blow(mast("gale near the limit", two(),
                    around(3, 6, 5.2, 350, ROPE) + around(3, 6, 10.0, 300, ROPE)), 45, 110, 16, 500, -60)
    yield blow(mast("high pretension", two(),
                    around(3, 6, 5.2, 3000, WIRE) + around(3, 6, 10.0, 2500, WIRE)), 95, 40, 5, 150, -60)
    yield blow(mast("heavy top pull", one(), around(3, 4, 5.8, 300, ROPE)), 270, 15, 2, 60, -4000)
    yield blow(mast("unequal radii", two(), around(3, 6, 9.5, 350, ROPE, 5, radii=[4.5, 6.0, 8.0])),
               120, 25, 4, 80, -50)
    # The rope's chord lies along the wind and the rope is slack: folded in its own line it would balance too.
    trap = mast("thin slack guy in line with the wind", one(),
                around(3, 5, 5.5, 200, ROPE, 180) + [dict(attach_height_m=3.0, anchor_m=[0.0, 9.0, 2.6],
                                                          unstressed_m=9.8, holds=True, parts=160,
                                                          wind_n_per_m=[0.0, 0.0, 0.0], **THIN)])
    blow(trap, 0, 25, 0.0, 80)
    for g in trap["guys"][:3]:
        g["wind_n_per_m"] = [0.0, 1.0, 0.0]
    trap["guys"][3]["wind_n_per_m"] = [0.0, 1.5, 0.0]
    yield trap
    thick = telescope((5.0, 0.0889, 0.0055), (5.0, 0.0603, 0.0039), overlap=0.7)
    thick[1]["play_m"] = [0.006, 0.003]
    yield blow(mast("play leans the upper tube with the wind", thick, around(4, 6, 8.8, 400, ROPE)),
               63, 30, 4, 100, -60)
    coupled = [tube(0.0, 3.0, 0.0603, 0.0039), tube(3.0, 6.0, 0.0603, 0.0039), tube(6.0, 9.0, 0.0483, 0.0037)]
    yield blow(mast("coupled tubes", coupled, around(3, 5, 5.9, 400, ROPE) + around(3, 5, 8.8, 300, ROPE, 60)),
               330, 30, 4, 90, -40)


def main():
    done = []
    only = sys.argv[1:]
    for case in cases():
        if only and not any(word in case["name"] for word in only):
            continue
        try:
            case["opensees"] = solve(case)
        except Exception as error:
            print("NOT DONE", case["name"], repr(error), file=sys.stderr)
            continue
        o = case["opensees"]
        print(f"{case['name']}: top {np.linalg.norm(o['top_m']):.4f} m, M {o['largest_bending_n_m']:.1f}, N "
              f"{o['largest_compression_n']:.0f}, buckling {o.get('buckling_factor')}, {o['seconds']} s",
              file=sys.stderr)
        done.append(case)
    json.dump(dict(versions=dict(python=sys.version.split()[0], openseespy="3.7.1", opensees=ops.version(),
                                 numpy=np.__version__, scipy=scipy.__version__),
                   cases=done), sys.stdout, indent=1)


if __name__ == "__main__":
    main()

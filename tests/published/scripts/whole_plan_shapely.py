"""Writes ../data/whole_plan_shapely.json: whole plans computed anew from the job document alone.

Own least squares (NumPy, SciPy), own ground (Delaunay by Qhull through scipy.spatial), own geometry in plan (shapely), own
rope (the elastic catenary, its two equations solved by scipy.optimize), distances in space by dense sampling. Declination
by pygeomag. Nothing of it comes from Mastwright's engine; only the conventions do that docs/methods states, such as that a
wall follows the ground in pieces of 2 m.

NumPy 2.4.6, SciPy 1.17.1, shapely 2.2.0, pygeomag 1.1.0.
Run in the project's folder: pip install numpy scipy shapely pygeomag && python3 tests/published/scripts/whole_plan_shapely.py
"""

import copy
import datetime
import json
import math
import pathlib

import numpy as np
from pygeomag import GeoMag
from scipy.optimize import brentq, fsolve, least_squares
from scipy.spatial import Delaunay
from shapely.geometry import LineString, Point, Polygon

G = 9.80665
HERE = pathlib.Path(__file__).resolve().parent
DEMO = json.loads((HERE / "../../../src-tauri/engine/src/demo/lantern-green.job.json").resolve().read_text())


def unit(deg):
    return np.array([math.sin(math.radians(deg)), math.cos(math.radians(deg))])


# ---------------------------------------------------------------- survey


class Survey:
    """The plane by one general least-squares fit of everything read; then marks and points by their own readings."""

    def __init__(self, job):
        yard = job["yard"]
        self.yard, self.i = yard, yard["instruments"]
        self.along = yard["tape_held"] == "along_ground"
        self.turn = 0.0
        if yard["bearings"]["kind"] == "magnetic":
            at = datetime.datetime.fromisoformat(yard["surveyed_at"]).astimezone(datetime.timezone.utc)
            start = datetime.datetime(at.year, 1, 1, tzinfo=datetime.timezone.utc)
            days = (datetime.datetime(at.year + 1, 1, 1, tzinfo=datetime.timezone.utc) - start).days
            year = at.year + (at - start).total_seconds() / 86400 / days
            place = yard["place"]
            model = GeoMag(coefficients_file="wmm/WMM_2025.COF")
            found = model.calculate(
                glat=place["latitude_deg"], glon=place["longitude_deg"], alt=place["altitude_m"] / 1000, time=year
            )
            self.turn = found.d
        self.marks = [m for m in yard["marks"] if m["at"]["by"] != "origin"]
        self.spots = [s for s in yard["spot_heights"] if not s["struck"]]
        self.fit()

    def tape(self, a, b, g):
        d = np.asarray(b) - np.asarray(a)
        rise = (g @ d) if self.along else 0.0
        return math.sqrt(d @ d + rise * rise)

    def tape_sigma(self, t):
        return math.hypot(self.i["tape_sigma_m"], self.i["tape_sigma_mm_per_m"] / 1000 * t)

    def readings(self, fix, p, at, g):
        """Residuals of a fix over their sigmas."""
        if fix["by"] == "coordinates":
            s = self.i["sketched_sigma_m"]
            return [(p[0] - fix["east_m"]) / s, (p[1] - fix["north_m"]) / s]
        if fix["by"] == "bearing_tape":
            d = p - at[fix["from"]]
            off = (math.degrees(math.atan2(d[0], d[1])) - fix["bearing_deg"] - self.turn + 180) % 360 - 180
            t = (self.tape(at[fix["from"]], p, g) - fix["tape_m"]) / self.tape_sigma(fix["tape_m"])
            return [off / self.i["bearing_sigma_deg"], t]
        if fix["by"] == "two_tapes":
            return [
                (self.tape(at[fix["from_" + x]], p, g) - fix[f"tape_{x}_m"]) / self.tape_sigma(fix[f"tape_{x}_m"])
                for x in "ab"
            ]
        raise ValueError(fix["by"])

    def start(self, fix, at):
        """Some place near where the fix puts a point, on level ground."""
        if fix["by"] == "coordinates":
            return np.array([fix["east_m"], fix["north_m"]])
        if fix["by"] == "bearing_tape":
            return at[fix["from"]] + fix["tape_m"] * unit(fix["bearing_deg"] + self.turn)
        a, b = at[fix["from_a"]], at[fix["from_b"]]
        run = np.linalg.norm(b - a)
        u = (b - a) / run
        x = (fix["tape_a_m"] ** 2 - fix["tape_b_m"] ** 2 + run**2) / (2 * run)
        y = math.sqrt(max(fix["tape_a_m"] ** 2 - x * x, 0.01))
        left = np.array([-u[1], u[0]])
        return a + x * u + (y if fix["side"] == "left" else -y) * left

    def slope_sigmas(self, g):
        """A bearing's own error reads the slope of another line (effective variance)."""
        out = []
        for s in self.yard["slopes"]:
            b = math.radians(s["bearing_deg"] + self.turn)
            t = g[0] * math.sin(b) + g[1] * math.cos(b)
            across = g[0] * math.cos(b) - g[1] * math.sin(b)
            own = s.get("sigma_deg") or self.i["slope_sigma_deg"]
            out.append(math.hypot(own, across / (1 + t * t) * self.i["bearing_sigma_deg"]))
        return out

    def fit(self):
        slopes = [s for s in self.yard["slopes"] if not s["struck"]]
        rows = [unit(s["bearing_deg"] + self.turn) for s in slopes]
        tangents = [math.tan(math.radians(s["slope_deg"])) for s in slopes]
        g0 = np.linalg.lstsq(np.array(rows), np.array(tangents), rcond=None)[0] if rows else np.zeros(2)
        sigmas = self.slope_sigmas(g0)
        start = {"A": np.zeros(2)}
        for m in self.marks:
            start[m["id"]] = self.start(m["at"], start)
        x0 = [0.0, *g0]
        for m in self.marks:
            x0 += list(start[m["id"]])
        for s in self.spots:
            x0 += list(self.start(s["at"], start))
        heights = [s.get("sigma_m") or self.i["spot_height_sigma_m"] for s in self.spots]

        def residuals(x):
            g = x[1:3]
            at = {"A": np.zeros(2)}
            points = x[3:].reshape(-1, 2)
            for m, p in zip(self.marks, points):
                at[m["id"]] = p
            out = []
            for m in self.marks:
                out += self.readings(m["at"], at[m["id"]], at, g)
            for m in self.yard["measurements"]:
                if m["kind"] == "tape" and not m["struck"]:
                    t = self.tape(at[m["from"]], at[m["to"]], g) - m["tape_m"]
                    out.append(t / self.tape_sigma(m["tape_m"]))
            for s, p, sigma in zip(self.spots, points[len(self.marks) :], heights):
                out += self.readings(s["at"], p, at, g)
                out.append((s["height_m"] - x[0] - g @ p) / sigma)
            if self.spots:
                out.append(x[0] / sorted(heights)[len(heights) // 2])
            else:
                out.append(x[0] / 1e-6)
            for s, t, sigma in zip(slopes, tangents, sigmas):
                wide = math.radians(sigma) * (1 + t * t)
                out.append((t - g @ unit(s["bearing_deg"] + self.turn)) / wide)
            return np.array(out)

        x = least_squares(residuals, x0, xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=4000).x
        self.h0, self.g = x[0], x[1:3]
        self.at = self.marks_alone(x[3 : 3 + 2 * len(self.marks)])
        self.spot_at = np.array([self.locate(s["at"]) for s in self.spots])

    def marks_alone(self, start):
        """The marks by tapes and bearings only, tapes reduced by this ground: heights pull at no mark."""
        if not self.marks:
            return {"A": np.zeros(2)}

        def places(x):
            return {"A": np.zeros(2), **{m["id"]: p for m, p in zip(self.marks, x.reshape(-1, 2))}}

        def residuals(x):
            at, out = places(x), []
            for m in self.marks:
                out += self.readings(m["at"], at[m["id"]], at, self.g)
            for m in self.yard["measurements"]:
                if m["kind"] == "tape" and not m["struck"]:
                    t = self.tape(at[m["from"]], at[m["to"]], self.g) - m["tape_m"]
                    out.append(t / self.tape_sigma(m["tape_m"]))
            return np.array(out)

        return places(least_squares(residuals, start, xtol=1e-15, ftol=1e-15, gtol=1e-15).x)

    def locate(self, fix):
        """A point by its own readings alone, the marks held."""
        if fix["by"] == "coordinates":
            return np.array([fix["east_m"], fix["north_m"]])
        found = least_squares(
            lambda p: self.readings(fix, p, self.at, self.g), self.start(fix, self.at), xtol=1e-15, ftol=1e-15, gtol=1e-15
        )
        return found.x


# ---------------------------------------------------------------- ground


class Ground:
    """The plane, or flat triangles through the spot heights and the origin with the plane outside."""

    def __init__(self, survey, surface):
        self.h0, self.g = survey.h0, survey.g
        self.triangles = None
        if surface:
            plan = np.vstack([[0.0, 0.0], survey.spot_at])
            z = np.array([0.0] + [s["height_m"] for s in survey.spots])
            net = Delaunay(plan)
            self.plan, self.z, self.net = plan, z, net
            self.triangles = [(Polygon(plan[t]), t) for t in net.simplices]
            self.hull = Polygon([plan[i] for i in hull_order(plan, net.convex_hull)])

    def plane(self, p):
        return self.h0 + self.g @ np.asarray(p)

    def height(self, p):
        p = np.asarray(p, float)
        if self.triangles is None:
            return self.plane(p)
        t = int(self.net.find_simplex(p))
        if t < 0:
            return self.plane(p)
        return self.on(t, p)

    def on(self, t, p):
        i = self.net.simplices[t]
        a, b, c = self.plan[i]
        w = np.linalg.solve(np.array([[a[0], b[0], c[0]], [a[1], b[1], c[1]], [1, 1, 1]]), np.array([p[0], p[1], 1.0]))
        return float(w @ self.z[i])

    def range_over(self, area):
        """Lowest and highest ground over a polygon: every corner of its meet with every triangle, and of what is left."""
        if self.triangles is None:
            z = [self.plane(p) for p in area.exterior.coords]
            return min(z), max(z)
        z = []
        for k, (triangle, _) in enumerate(self.triangles):
            meet = triangle.intersection(area)
            for part in getattr(meet, "geoms", [meet]):
                if part.geom_type == "Polygon" and not part.is_empty:
                    z += [self.on(k, p) for p in part.exterior.coords]
        rest = area.difference(self.hull)
        for part in getattr(rest, "geoms", [rest]):
            if part.geom_type == "Polygon" and not part.is_empty and part.area > 1e-12:
                z += [self.plane(p) for p in part.exterior.coords]
        return min(z), max(z)


def hull_order(plan, edges):
    nexts = {}
    for a, b in edges:
        nexts.setdefault(a, []).append(b)
        nexts.setdefault(b, []).append(a)
    order, at, before = [], edges[0][0], None
    while len(order) < len(nexts):
        order.append(at)
        step = [n for n in nexts[at] if n != before][0]
        before, at = at, step
    return order


# ---------------------------------------------------------------- work


def rectangle(axis, deg, back, out, half):
    u = unit(deg)
    r = np.array([u[1], -u[0]])
    corner = lambda a, b: tuple(axis + a * u + b * r)
    return Polygon([corner(-back, -half), corner(out, -half), corner(out, half), corner(-back, half)])


class Rope:
    """Elastic catenary set to a tension at its upper end."""

    def __init__(self, span, rise, weight, stiffness, tension):
        chord = math.hypot(span, rise)

        def ends(h, v, length):
            low = v - weight * length
            x = h * length / stiffness + h / weight * (math.asinh(v / h) - math.asinh(low / h))
            z = weight * length**2 / stiffness * (v / (weight * length) - 0.5)
            z += (math.hypot(h, v) - math.hypot(h, low)) / weight
            return x, z

        def wrong(q):
            h, length = q[0] * tension, q[1] * chord
            v = math.sqrt(max(tension**2 - h**2, 0.0))
            x, z = ends(h, v, length)
            return [(x - span) / chord, (z - rise) / chord]

        q = fsolve(wrong, [span / chord, 1.0], xtol=1e-13)
        assert max(abs(e) for e in wrong(q)) < 1e-11
        self.h, self.length = q[0] * tension, q[1] * chord
        self.v = math.sqrt(tension**2 - self.h**2)
        self.weight, self.stiffness = weight, stiffness

    def points(self, count):
        """(distance out from the lower end, height over it) at even steps of the unstretched length."""
        low = self.v - self.weight * self.length
        out = []
        for s in np.linspace(0, self.length, count):
            v = low + self.weight * s
            x = self.h * s / self.stiffness + self.h / self.weight * (math.asinh(v / self.h) - math.asinh(low / self.h))
            z = s / self.stiffness * (low + 0.5 * self.weight * s)
            z += (math.hypot(self.h, v) - math.hypot(self.h, low)) / self.weight
            out.append((x, z))
        return np.array(out)


def plan_of(job, surface):
    survey = Survey(job)
    ground = Ground(survey, surface)
    placement, rig = job["placement"], job["rig"]
    mast = survey.locate(placement["mast"])
    base, front = rig["base"], placement["front_bearing_deg"]
    half = base["timber_width_mm"] / 2000
    legs = [("front", 0, base["front_reach_m"]), ("right", 90, base["side_reach_m"]), ("left", 270, base["side_reach_m"])]
    if base["pattern"] == "x":
        legs.append(("back", 180, base["back_reach_m"] or base["front_reach_m"]))
    timbers = {name: rectangle(mast, front + turn, half, reach, half) for name, turn, reach in legs}
    underside = max(ground.range_over(area)[1] for area in timbers.values())
    gaps = {}
    for name, turn, reach in legs:
        middle = mast + (reach - base["foot_thickness_mm"] / 2000) * unit(front + turn)
        gaps[name] = underside - ground.height(middle)
    foot = underside + (base["timber_depth_mm"] + base["seat_height_mm"]) / 1000
    guys, ropes = {}, {}
    for level in rig["guy_levels"]:
        for n in range(level["count"]):
            guy, rope = guy_of(job, survey, ground, mast, foot, level, n)
            guys[f"{level['id']}-{n + 1}"] = guy
            ropes[f"{level['id']}-{n + 1}"] = rope
    return {
        "mast": list(mast),
        "ground_at_mast_m": ground.height(mast),
        "underside_m": underside,
        "gaps_m": gaps,
        "guys": guys,
        "clearances": clearances(job, survey, ground, timbers, guys, ropes),
    }


def guy_of(job, survey, ground, mast, foot, level, n):
    azimuth = job["placement"]["front_bearing_deg"] + job["placement"]["guy_turn_deg"] + 360 * n / level["count"]
    collar, eye_up = level["collar_radius_mm"] / 1000, level["anchor_eye_height_m"]
    top = foot + level["attach_height_m"]
    rule = level["anchor_layout"]
    if rule["rule"] == "free":
        at = survey.locate(rule["anchors"][n])
        azimuth = math.degrees(math.atan2(*(at - mast)))
    elif rule["rule"] == "equal_radius":
        at = mast + rule["radius_m"] * unit(azimuth)
    elif rule["rule"] == "equal_tape":
        assert ground.triangles is None
        at = mast + rule["tape_m"] / math.hypot(1, ground.g @ unit(azimuth)) * unit(azimuth)
    else:
        slope = math.tan(math.radians(rule["angle_deg"]))
        u = unit(azimuth)
        over = lambda r: ground.height(mast + r * u) + eye_up - (top - slope * (r - collar))
        step = 0.01
        r = next(r for r in np.arange(collar, 12 * level["attach_height_m"], step) if over(r + step) >= 0)
        at = mast + brentq(over, r, r + step, xtol=1e-12) * u
    z = ground.height(at)
    radius = float(np.linalg.norm(at - mast))
    span, rise = radius - collar, top - z - eye_up
    rope = level["rope"]
    line = Rope(span, rise, rope["mass_g_per_m"] / 1000 * G, rope["stretch_at_n"] / (rope["stretch_percent"] / 100), level["tension_n"])
    inwards = (mast - at) / radius
    points = [[*(at + x * inwards), z + eye_up + up] for x, up in line.points(401)]
    guy = {
        "east_m": float(at[0]),
        "north_m": float(at[1]),
        "ground_m": float(z),
        "chord_m": math.hypot(span, rise),
        "angle_deg": math.degrees(math.atan2(rise, span)),
        "unstressed_m": line.length,
    }
    return guy, np.array(points)


# ---------------------------------------------------------------- clearances


def upright_distance(rope, plan_distance, top, bottom=-math.inf):
    over = np.maximum(rope[:, 2] - top, 0) + np.maximum(bottom - rope[:, 2], 0)
    return float(np.min(np.hypot(plan_distance, over)))


def outside(distance, radius):
    return np.maximum(distance - radius, 0)


def finely(rope):
    """The rope once more, ten times as finely."""
    at = np.linspace(0, len(rope) - 1, 10 * len(rope))
    return np.column_stack([np.interp(at, np.arange(len(rope)), rope[:, k]) for k in range(3)])


def flat(rope, shape):
    import shapely

    return shapely.distance(shapely.points(rope[:, :2]), shape)


def clearances(job, survey, ground, timbers, guys, ropes):
    rows = []
    fine = [finely(rope) for rope in ropes.values()]
    anchors = [Point(guy["east_m"], guy["north_m"]) for guy in guys.values()]
    for thing in job["yard"]["obstacles"]:
        shape = thing["shape"]
        kind, word = shape["kind"], {"keep_off": "ground to keep off"}.get(shape["kind"], shape["kind"])
        points = [survey.locate(f) for f in ([shape["at"]] if "at" in shape else shape.get("outline") or shape["line"])]
        rope_m = None
        if kind in ("tree", "post"):
            middle = Point(points[0])
            wide = max(shape["crown_radius_m"], shape["trunk_radius_m"]) if kind == "tree" else shape["radius_m"]
            # Finer than any plan could be: 1,000 corners.
            low, high = ground.range_over(middle.buffer(max(wide, 1e-6), quad_segs=250))
            radius = shape["trunk_radius_m"] if kind == "tree" else shape["radius_m"]
            area = middle.buffer(radius, quad_segs=1000)
            top = high + shape["height_m"]
            rope_m = min(upright_distance(r, outside(flat(r, middle), radius), top) for r in fine)
            if kind == "tree":
                wide, base = shape["crown_radius_m"], low + min(shape["crown_base_m"], shape["height_m"])
                rope_m = min(rope_m, *(upright_distance(r, outside(flat(r, middle), wide), top, base) for r in fine))
        elif kind == "building":
            area = Polygon(points)
            top = ground.range_over(area)[1] + shape["height_m"]
            rope_m = min(upright_distance(r, flat(r, area), top) for r in fine)
        elif kind == "barrier":
            half, near = shape["thickness_m"] / 2, []
            for a, b in zip(points, points[1:]):
                count = max(1, math.ceil(np.linalg.norm(b - a) / 2.0))
                for k in range(count):
                    p, q = a + (b - a) * k / count, a + (b - a) * (k + 1) / count
                    u = (q - p) / np.linalg.norm(q - p)
                    on = LineString([p - half * u, q + half * u]).buffer(max(half, 1e-9), cap_style="flat")
                    top = ground.range_over(on)[1] + shape["height_m"]
                    near += [upright_distance(r, outside(flat(r, LineString([p, q])), half), top) for r in fine]
            rope_m = min(near)
            area = LineString(points).buffer(half, quad_segs=1000)
        elif kind == "path":
            area = None
        else:
            area = Polygon(points)
        if rope_m is not None:
            rows.append((thing["id"], f"rope to {word}", rope_m))
        if area is not None:
            rows.append((thing["id"], f"anchor to {word}", min(area.distance(p) for p in anchors)))
            rows.append((thing["id"], f"base timber to {word}", min(area.distance(t) for t in timbers.values())))
    for service in job["yard"]["buried_services"]:
        line = LineString([survey.locate(f) for f in service["line"]])
        edge = min(max(line.distance(p) - service["width_m"] / 2, 0) for p in anchors)
        rows.append((service["id"], "anchor to the buried service's edge", edge))
    return [{"to": to, "what": what, "distance_m": float(d)} for to, what, d in rows]


# ---------------------------------------------------------------- yards


def xy(east, north):
    return {"by": "coordinates", "east_m": float(east), "north_m": float(north)}


def yard_job(name, spots, mast, front, turn, **rig):
    job = copy.deepcopy(DEMO)
    job["name"] = name
    yard = job["yard"]
    yard["bearings"] = {"kind": "true"}
    yard["instruments"]["sketched_sigma_m"] = 0.001
    yard["marks"] = yard["marks"][:1]
    yard["measurements"], yard["slopes"], yard["boundary"] = [], [], None
    yard["overhead_lines"], yard["buried_services"], yard["obstacles"] = [], [], []
    yard["spot_heights"] = [
        {"id": f"h{i}", "at": xy(e, n), "height_m": float(z), "sigma_m": None, "struck": False}
        for i, (e, n, z) in enumerate(spots)
    ]
    job["rig"]["strands"] = None
    job["placement"] = {"mast": xy(*mast), "front_bearing_deg": front, "guy_turn_deg": turn}
    job["rig"]["base"].update(rig.get("base", {}))
    for level, change in zip(job["rig"]["guy_levels"], rig.get("levels", [])):
        level.update(change)
    job["rig"]["guy_levels"] = job["rig"]["guy_levels"][: rig.get("count", 2)]
    return job


def thing(id, shape):
    return {"id": id, "name": id.capitalize(), "shape": shape, "keep_off_m": None}


def things(dx, dy, turn_deg=0.0):
    """One of each kind round a place."""
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    at = lambda x, y: xy(round(dx + c * x - s * y, 6), round(dy + s * x + c * y, 6))
    return [
        thing("house", {"kind": "building", "outline": [at(5.5, -3), at(9, -3), at(9, 3.2), at(5.5, 3.2)], "height_m": 2.3, "height_sigma_m": None}),
        thing("fence", {"kind": "barrier", "what": "fence", "line": [at(-7, -4.6), at(-1, -4.1), at(5, -4.4)], "thickness_m": 0.12, "height_m": 1.4, "height_sigma_m": None}),
        thing("tree", {"kind": "tree", "at": at(-4.2, 3.9), "trunk_radius_m": 0.2, "crown_radius_m": 1.3, "crown_base_m": 1.7, "height_m": 4.6, "height_sigma_m": None}),
        thing("post", {"kind": "post", "at": at(1.4, 3.2), "radius_m": 0.3, "height_m": 1.1, "height_sigma_m": None}),
        thing("pond", {"kind": "keep_off", "outline": [at(-8, 0.5), at(-6, 0.2), at(-6.4, 2.2)]}),
    ]


def jittered(rng, section, easts, slope=(0.0, 0.0)):
    """Heights by a section over north, at places that no circle of four passes through."""
    out = []
    for north, z in section:
        for east in easts:
            e, n = east + rng.uniform(-0.35, 0.35), north + rng.uniform(-0.12, 0.12)
            out.append((round(e, 3), round(n, 3), round(z + slope[0] * e + slope[1] * n + rng.uniform(-0.03, 0.03), 4)))
    return out


def plane_spots(rng, places, g, noise=0.004):
    return [(e, n, round(g[0] * e + g[1] * n + rng.uniform(-noise, noise), 4)) for e, n in places]


SPREAD = [(-6.2, -5.1), (6.4, -5.7), (5.3, 6.1), (-5.8, 6.6), (0.6, 7.9), (7.7, 0.4), (-7.9, 0.9), (0.7, -7.4)]


def yards():
    rng = np.random.default_rng(20261126)
    radius = lambda r: {"anchor_layout": {"rule": "equal_radius", "radius_m": r}}
    out = [("demo", copy.deepcopy(DEMO), False)]
    steep = math.tan(math.radians(18))
    job = yard_job(
        "Steep, 18 degrees", plane_spots(rng, SPREAD, (-steep * 0.6, steep * 0.8)), (0.4, -0.3), 143.0, 20.0,
        levels=[{"anchor_layout": {"rule": "equal_angle", "angle_deg": 48}}, {"anchor_layout": {"rule": "equal_tape", "tape_m": 4.9}}],
    )
    job["yard"]["obstacles"] = things(0.4, -0.3, 12.0)
    job["yard"]["buried_services"] = [
        {"id": "pipe", "name": "Pipe", "carries": "potable_water", "located": "marked_by_utility", "line": [xy(-6, -2.5), xy(2, -5.5), xy(7, -5)], "width_m": 0.1, "tolerance_m": None}
    ]
    out.append(("steep plane", job, False))
    bank = [(-9, 0.0), (-4, 0.1), (-0.7, 0.0), (0.9, 1.3), (4.5, 1.4), (9, 1.5)]
    job = yard_job("Two levels on a bank", jittered(rng, bank, (-9, -5, -1.6, 1.4, 4.8, 9)), (0.2, 0.1), 190.0, -17.0, levels=[radius(3.6), radius(5.1)])
    job["yard"]["obstacles"] = things(0.2, 0.1)
    out.append(("two guy levels on a bank", job, True))
    ditch = [(-9, 0.2), (-3, 0.0), (-1.9, -1.1), (-0.9, 0.1), (4, 0.2), (9, 0.0)]
    job = yard_job("Ditch", jittered(rng, ditch, (-9, -4.4, -1, 2.2, 5.1, 9), (0.05, 0.02)), (0.3, 1.6), 75.0, 33.0, levels=[{"anchor_layout": {"rule": "equal_angle", "angle_deg": 47}}, radius(4.7)])
    job["yard"]["obstacles"] = things(0.3, 1.6, -8.0)
    out.append(("ditch", job, True))
    spots = plane_spots(rng, SPREAD, (0.09, -0.06))
    e, n, z = spots[2]
    spots[2] = (e, n, round(z - 0.9, 4))
    job = yard_job("One wrong reading", spots, (-0.5, 0.8), 10.0, 5.0, levels=[radius(3.9), radius(3.9)])
    job["yard"]["obstacles"] = things(-0.5, 0.8, 30.0)
    out.append(("one wrong reading", job, None))
    job = yard_job(
        "Short and stout", plane_spots(rng, SPREAD, (0.11, 0.05)), (1.1, 0.3), 250.0, 45.0, count=1,
        base={"pattern": "x", "back_reach_m": 0.8},
        levels=[{"count": 4, "attach_height_m": 1.9, "collar_radius_mm": 70, **radius(2.4)}],
    )
    job["rig"]["tubes"] = [
        {"name": "Tube", "section": {"kind": "measured", "outside_mm": 114.3, "wall_mm": 6.0}, "length_m": 2.2, "overlap_m": 0, "joint": "telescoped", "pin_hole_mm": None, "yield_mpa": 235}
    ]
    job["rig"]["topper"] = None
    job["yard"]["obstacles"] = things(1.1, 0.3, 4.0)
    out.append(("short stout mast", job, False))
    job = yard_job("Shared anchors", plane_spots(rng, SPREAD, (-0.07, 0.13)), (0.2, 0.5), 320.0, 60.0, levels=[radius(4.2), radius(4.2)])
    free = [xy(3.9, 2.6), xy(-0.6, -4.3), xy(-3.6, 2.8)]
    for level in job["rig"]["guy_levels"]:
        level["anchor_layout"] = {"rule": "free", "anchors": free}
    job["yard"]["obstacles"] = things(0.2, 0.5, -20.0)
    out.append(("shared anchors", job, False))
    return out


def main():
    found = []
    for name, job, surface in yards():
        of = [surface] if surface is not None else [False, True]
        for surface in of:
            expected = plan_of(job, surface)
            found.append({"name": name, "surface": surface, "job": job, "expected": expected})
    text = json.dumps({"yards": found}, indent=1)
    (HERE / "../data/whole_plan_shapely.json").resolve().write_text(text + "\n")
    for one in found:
        print(one["name"], one["surface"], json.dumps(one["expected"]["gaps_m"]), len(one["expected"]["clearances"]))


if __name__ == "__main__":
    main()

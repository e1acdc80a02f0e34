"""The quick rules of a search for places against Shapely, which knows nothing of ours but the job, the outlines of the timbers
and where stakes and anchors lie about the mast; and how long both take, in one run.

    python siting_shapely.py [MASTWRIGHT]     # needs shapely 2 and numpy; MASTWRIGHT: target/release/mastwright

40,000 places, 12 turns of three guys, 150 squares of a metre to stay off by 0.3 m on a lawn of 50 m by 50 m; then 10 to 2,000
of them, the most that a job may have, as thick on lawns of their own size. Ours is the whole command: start, reading, surveying, the rules, and an answer as
JSON, with its largest memory (by GNU time). Shapely's is its rules alone, with an index over the squares (STRtree), all points at once, and
only those still open asked further. Fails where the two differ in any place.
"""
import json
import math
import os
import subprocess
import sys
import tempfile
import time

import numpy as np
import shapely
from shapely.geometry import Polygon

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.join(HERE, "..", "..", "..")
PROGRAM = sys.argv[1] if len(sys.argv) > 1 else os.path.join(ROOT, "target", "release", "mastwright")
ACROSS, TURNS, KEEP_OFF = 200, 12, 0.3
ROUNDS = 5


def square(x, y, side):
    corners = [(x, y), (x + side, y), (x + side, y + side), (x, y + side)]
    return [{"by": "coordinates", "east_m": east, "north_m": north} for east, north in corners]


def yard(things, side, front_bearing_deg):
    with open(os.path.join(ROOT, "tests", "data", "yardstick-53a387c.json")) as file:
        job = json.load(file)
    for key in ("spot_heights", "overhead_lines", "buried_services"):
        job["yard"][key] = []
    chance = np.random.default_rng(7)
    job["yard"]["boundary"] = {"outline": square(0.0, 0.0, side)}
    job["yard"]["obstacles"] = [
        {"id": f"t{index}", "name": f"Bed {index}", "keep_off_m": KEEP_OFF,
         "shape": {"kind": "keep_off", "outline": square(x, y, 1.0)}}
        for index, (x, y) in enumerate(chance.uniform(0.0, side - 1.0, (things, 2)).tolist())
    ]
    job["placement"]["mast"] = {"by": "coordinates", "east_m": side / 2, "north_m": side / 2}
    job["placement"]["front_bearing_deg"] = front_bearing_deg
    return job


def ask(command, path, *options):
    """The answer, and the most memory of the program in MB.

    GNU time asks for it: what wait4 tells here counts this interpreter, too, with all of numpy, which stood in the child until our
    program was put in its place.
    """
    with tempfile.NamedTemporaryFile("r") as used:
        asked = ["/usr/bin/time", "-q", "-f", "%M", "-o", used.name, PROGRAM, command, path, "--json", *options]
        program = subprocess.run(asked, stdout=subprocess.PIPE, check=False)
        kilobytes = used.read()
    assert program.returncode != 2, command
    return json.loads(program.stdout), int(kilobytes) / 1024


def written(job):
    with tempfile.NamedTemporaryFile("w", suffix=".json", delete=False) as file:
        json.dump(job, file)
    return file.name


def turned(points, by_deg):
    """Round the mast, as bearings go."""
    c, s = math.cos(math.radians(by_deg)), math.sin(math.radians(by_deg))
    return points @ np.array([[c, -s], [s, c]])


def shapely_mask(job, side, timbers, stakes, anchors):
    lawn = Polygon([(0, 0), (side, 0), (side, side), (0, side)])
    shapely.prepare(lawn)
    outlines = [[(p["east_m"], p["north_m"]) for p in it["shape"]["outline"]] for it in job["yard"]["obstacles"]]
    tree = shapely.STRtree([Polygon(outline) for outline in outlines])
    axis = (np.arange(ACROSS) + 0.5) * (side / ACROSS)
    places = np.stack([it.ravel() for it in np.meshgrid(axis, axis)], axis=1)
    good = np.ones(len(places), bool)

    def pegs_stand(at):
        """For each place whether all of its pegs, an axis of their own, keep off."""
        flat = at.reshape(-1, 2)
        inside = shapely.contains_xy(lawn, flat[:, 0], flat[:, 1])
        near = tree.query(shapely.points(flat), predicate="dwithin", distance=KEEP_OFF)[0]
        inside[near] = False
        return inside.reshape(at.shape[:-1]).all(axis=-1)

    def timbers_lie(at):
        outlines = np.stack([at[:, None, :] + timber[None] for timber in timbers], axis=1)
        inside = shapely.contains_xy(lawn, outlines[..., 0].ravel(), outlines[..., 1].ravel())
        inside = inside.reshape(outlines.shape[:-1]).all(axis=(1, 2))
        shapes = shapely.polygons(outlines.reshape(-1, *outlines.shape[2:]))
        near = tree.query(shapes, predicate="dwithin", distance=KEEP_OFF)[0]
        inside[near // len(timbers)] = False
        return inside

    good &= pegs_stand(places[:, None, :] + stakes[None])
    good[good] = timbers_lie(places[good])
    left = places[good]
    open_ = np.zeros(len(left), bool)
    period = 360.0 / len(anchors)
    for turn in range(TURNS):
        still = ~open_
        if still.any():
            around = turned(anchors, period * turn / TURNS)
            open_[still] = pegs_stand(left[still][:, None, :] + around[None])
    good[good] = open_
    return good


def timed(work):
    start = time.perf_counter()
    answer = work()
    return answer, time.perf_counter() - start


def compare(things, side, rounds):
    first, _ = ask("plan", written(yard(things, side, 0.0)))
    job = yard(things, side, first["ground"]["fall_bearing_deg"])
    path = written(job)
    plan, _ = ask("plan", path)
    middle = np.array([side / 2, side / 2])
    timbers = [np.array(leg["outline"]) - middle for leg in plan["base"]["legs"]]
    stakes = np.array([[it["east_m"], it["north_m"]] for it in plan["base"]["stakes"]]) - middle
    anchors = np.array([[it["east_m"], it["north_m"]] for it in plan["guys"]]) - middle
    options = ["--plans", "0", "--step", f"{side / ACROSS} m", "--guy-turns", str(TURNS)]
    theirs = [timed(lambda: shapely_mask(job, side, timbers, stakes, anchors)) for _ in range(rounds)]
    ours = [timed(lambda: ask("siting", path, *options)) for _ in range(rounds)]
    answer, megabytes = ours[0][0]
    area = answer.get("siting", answer)["area"]
    is_open = [state["state"] in ("possible", "good", "as_far_as_known") for state in area["states"]]
    mask = np.concatenate([np.full(count, is_open[state]) for state, count in area["runs"]])
    differ = int((mask != theirs[0][0]).sum())
    theirs_ms, ours_ms = ([1e3 * seconds for _, seconds in runs] for runs in (theirs, ours))
    print(f"{things} things on {side:.0f} m: open {int(mask.sum())} of {len(mask)}, differ {differ};"
          f" Shapely median {np.median(theirs_ms):.0f} ms, fastest {min(theirs_ms):.0f};"
          f" here median {np.median(ours_ms):.0f} ms, fastest {min(ours_ms):.0f}, {megabytes:.0f} MB;"
          f" ratio of the medians {np.median(theirs_ms) / np.median(ours_ms):.1f}")
    assert differ == 0


print(f"Shapely {shapely.__version__}")
compare(150, 50.0, ROUNDS)
for things in (10, 100, 1000, 2000):
    compare(things, 50.0 * math.sqrt(things / 150), ROUNDS)

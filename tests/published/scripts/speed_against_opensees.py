"""How long one nonlinear solution of the same mast takes in OpenSees and here, in one run.

    python speed_against_opensees.py        # from anywhere; needs openseespy 3.7.1, numpy, scipy and cargo

The mast is the fixture's "two tubes, two levels": beams of at most 0.5 m on both sides; guys as exact catenaries here,
as chains of 8 trusses there. Both from the unloaded mast; OpenSees in one load step for weights and one for wind (more
where it does not converge), its analysis alone, without building the model. A measurement, never a test.
"""
import json
import os
import re
import statistics
import subprocess
import time
import types

import guyed_masts_opensees as reference

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.join(HERE, "..", "..", "..")
NAME = "two tubes, two levels"

reference.MESH, reference.PARTS = 0.5, 8
whole_run = reference.run
reference.run = lambda steps: whole_run(1)
# Processor time, so that a busy machine does not count against it.
reference.time = types.SimpleNamespace(perf_counter=time.process_time)

with open(os.path.join(HERE, "..", "data", "guyed_masts.json")) as file:
    case = next(case for case in json.load(file)["cases"] if case["name"] == NAME)
case["buckling"] = False
seconds = []
for _ in range(40):
    found = reference.solve(case)
    seconds.append(found["seconds"])
top_m = max(map(abs, found["top_m"]))
expected_m = max(map(abs, case["opensees"]["top_m"]))
assert abs(top_m / expected_m - 1) < 0.01, (top_m, expected_m)
theirs_us = 1e6 * statistics.median(seconds)
print(f"OpenSees: median {theirs_us:.0f} µs of {len(seconds)}, fastest {1e6 * min(seconds):.0f} µs")

bench = ["cargo", "bench", "-q", "-p", "mastwright-benches", "--bench", "structure", "--", "mast_of_the_opensees_run"]
table = subprocess.run(bench, cwd=ROOT, capture_output=True, text=True, check=True).stdout
row = next(line for line in table.splitlines() if "mast_of_the_opensees_run" in line)
columns = [column.strip() for column in re.split("│", row.split("mast_of_the_opensees_run")[1])]


def microseconds(text):
    number, unit = text.split()
    return float(number) * {"ns": 1e-3, "µs": 1, "ms": 1e3}[unit]


fastest_us, ours_us = microseconds(columns[0]), microseconds(columns[2])
print(f"here: median {ours_us:.0f} µs, fastest {fastest_us:.0f} µs")
print(f"ratio of the medians {theirs_us / ours_us:.0f}, of the fastest {1e6 * min(seconds) / fastest_us:.0f}")

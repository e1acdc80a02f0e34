"""Writes ../data/cutting_scipy.json: cutting plans over several stock lengths, solved by a general MILP solver.

Each instance is invented: 60 pieces, three stock lengths, a saw cut, prices or none. The model is an arc-flow: nodes are
places along a bar in steps of `unit_mm`, an arc is a piece with its cut or the rest of the bar; the flow out of the first node
is the number of bars, each ending at the node of its length. scipy.optimize.milp (HiGHS) finds the least cost with a gap of
nothing. Nothing of this comes from Mastwright's engine.

Run: pip install scipy numpy && python3 cutting_scipy.py
"""

import json
import pathlib
import random

import numpy
import scipy
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_matrix

random.seed(20261127)


def arcs_of(kinds, rooms, weights):
    """Arcs (from, to, kind) that pieces, longest first, can lie in; ends of bars as rooms."""
    reach = {0}
    arcs = set()
    order = sorted(range(len(kinds)), key=lambda k: -weights[k])
    for k in order:
        starts = sorted(reach)
        seen = set()
        frontier = starts
        for _ in range(kinds[k][1]):
            following = []
            for at in frontier:
                to = at + weights[k]
                if to <= max(rooms) and (at, k) not in seen:
                    seen.add((at, k))
                    arcs.add((at, to, k))
                    following.append(to)
            reach.update(following)
            frontier = following
            if not frontier:
                break
    return reach, arcs


def solve(kinds, stocks, kerf, unit):
    weights = [(length + kerf) // unit for length, _ in kinds]
    rooms = [(length + kerf) // unit for length, _ in stocks]
    assert all((length + kerf) % unit == 0 for length, _ in kinds + stocks)
    reach, arcs = arcs_of(kinds, rooms, weights)
    nodes = {node: i for i, node in enumerate(sorted(reach))}
    arcs = sorted(arcs)
    # A node is left by a piece, or ends a bar of a length that holds it.
    ends = [(node, s) for node in nodes if node > 0 for s, room in enumerate(rooms) if node <= room]
    cost = numpy.array([0.0] * len(arcs) + [stocks[s][1] for _, s in ends])
    row, column, value = [], [], []
    for j, (a, b, _) in enumerate(arcs):
        for node, v in ((a, -1), (b, 1)):
            if node != 0:
                row.append(nodes[node] - 1)
                column.append(j)
                value.append(v)
    for j, (node, _) in enumerate(ends):
        row.append(nodes[node] - 1)
        column.append(len(arcs) + j)
        value.append(-1)
    flow = coo_matrix((value, (row, column)), shape=(len(nodes) - 1, len(cost)))
    row, column = [], []
    for j, (_, _, k) in enumerate(arcs):
        row.append(k)
        column.append(j)
    demand = coo_matrix(([1] * len(row), (row, column)), shape=(len(kinds), len(cost)))
    wanted = [count for _, count in kinds]
    found = milp(
        cost,
        constraints=[LinearConstraint(flow, 0, 0), LinearConstraint(demand, wanted, numpy.inf)],
        integrality=numpy.ones(len(cost)),
        bounds=Bounds(0, numpy.inf),
        options={"mip_rel_gap": 0, "time_limit": 1500},
    )
    assert found.status == 0, found.message
    return found


def instance(name, lengths, stocks, kerf, unit, pieces=60):
    kinds = {}
    for _ in range(pieces):
        length = random.choice(lengths)
        kinds[length] = kinds.get(length, 0) + 1
    kinds = sorted(kinds.items())
    found = solve(kinds, stocks, kerf, unit)
    print(name, len(kinds), found.fun, found.mip_node_count, flush=True)
    return {
        "name": name,
        "kerf": kerf,
        "pieces": kinds,
        "stocks": [[length, price] for length, price in stocks],
        "priced": any(length != price for length, price in stocks),
        "least": round(found.fun, 6),
    }


def main():
    step = lambda a, b, by: list(range(a, b, by))
    metres = [(3000, 3000), (4000, 4000), (6000, 6000)]
    odd = [(2997, 2997), (3997, 3997), (4997, 4997)]
    inches = [(96 * 254, 7.98), (120 * 254, 10.48), (144 * 254, 12.37)]
    wanted = [
        ("metric, few kinds", [447, 722, 897, 1247, 1647, 2072], odd, 3, 25),
        ("no saw cut, tight", step(700, 1900, 100), metres, 0, 100),
        ("metric prices", step(697, 2700, 150), [(2997, 9.9), (3997, 12.4), (4997, 15.8)], 3, 50),
        # Tenths of a millimetre, so that half an inch is whole.
        ("half inches, prices", step(24 * 127, 170 * 127, 14 * 127), inches, 0, 127),
        ("metric lengths", step(797, 2900, 50), odd, 3, 50),
    ]
    out = pathlib.Path(__file__).parent.parent / "data" / "cutting_scipy.json"
    instances = []
    for one in wanted:
        instances.append(instance(*one))
        document = {"by": f"scipy {scipy.__version__} (HiGHS), numpy {numpy.__version__}", "instances": instances}
        out.write_text(json.dumps(document) + "\n")


main()

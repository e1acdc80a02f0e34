"""Stake-outs with blunders, explained by SciPy's general least-squares solver, which knows nothing of surveying.

Every unknown is a parameter here: the slope of the ground, the marks, the pegs. The slope and the marks have their prior, each peg
the two tapes it was set with, each check tape its reading; a blunder changes what a peg was set with, or adds a number. What the
engine gets from the covariance of the misfits is here the least sum of squares of the whole.

    /tmp/peg-venv/bin/python tests/published/scripts/pegging_scipy.py > tests/published/data/pegging_scipy.json
"""

import json

import numpy as np
import scipy
from scipy.optimize import least_squares

TAPE, GROWTH = 0.010, 0.001
PRIOR_G, PRIOR_MARK = 0.004, 0.015
G = np.array([0.06, -0.09])
MARKS = np.array([[0.0, 0.0], [18.0, 1.5], [4.0, 21.0]])
# Number of the two points each peg is tied from (marks first), where it is meant to be.
PEGS = [
    ((0, 1), [9.0, 9.0]),
    ((3, 1), [10.4, 9.3]),
    ((0, 2), [4.5, 7.0]),
    ((1, 2), [13.0, 12.5]),
    ((0, 1), [10.5, 4.2]),
    ((3, 4), [9.6, 8.1]),
]
CHECKS = [(2, 3), (3, 5), (3, 6), (3, 7), (5, 6), (6, 7), (5, 7), (0, 6), (2, 8), (4, 8), (4, 7), (1, 8)]


def length(g, p, q):
    d = q - p
    return np.sqrt(d @ d + (g @ d) ** 2)


def sigma(tape):
    return np.hypot(TAPE, GROWTH * tape)


PLAN = np.vstack([MARKS, [at for _, at in PEGS]])
SET = [[length(G, PLAN[s], PLAN[3 + i]) for s in ties] for i, (ties, _) in enumerate(PEGS)]


def side(a, b, p):
    return np.sign((b - a)[0] * (p - a)[1] - (b - a)[1] * (p - a)[0])


def meet(g, a, b, tapes, sign):
    """Where both tapes are right, on the side asked for: from a start by plane circles."""
    base = b - a
    far = np.hypot(*base)
    foot = (far + (tapes[0] ** 2 - tapes[1] ** 2) / far) / 2
    off = np.sqrt(max(tapes[0] ** 2 - foot**2, 1e-3))
    along = base / far
    start = a + foot * along + sign * off * np.array([-along[1], along[0]])
    return least_squares(lambda p: [length(g, a, p) - tapes[0], length(g, b, p) - tapes[1]], start, xtol=1e-14, ftol=1e-14, gtol=1e-14).x


def stand(g, marks, tapes, signs):
    at = list(marks)
    for i, (ties, _) in enumerate(PEGS):
        at.append(meet(g, at[ties[0]], at[ties[1]], tapes[i], signs[i]))
    return np.array(at)


SIGNS = [side(PLAN[t[0]], PLAN[t[1]], np.array(at)) for t, at in PEGS]


def explained(readings, tapes, signs, free=None, skip=None, by=0.0):
    """The least sum of squares where pegs were set with these tapes; `free` adds an unknown to one of them."""
    start = stand(G, MARKS, [[t + (by if free == (i, k) else 0.0) for k, t in enumerate(own)] for i, own in enumerate(tapes)], signs)

    def misfits(x):
        g, at, b = x[:2], x[2 : 2 + start.size].reshape(-1, 2), x[-1]
        out = list((g - G) / PRIOR_G) + list(((at[:3] - MARKS) / PRIOR_MARK).ravel())
        for i, (ties, _) in enumerate(PEGS):
            for k, s in enumerate(ties):
                meant = tapes[i][k] + (b if free == (i, k) else 0.0)
                out.append((length(g, at[s], at[3 + i]) - meant) / sigma(SET[i][k]))
        for row, (p, q) in enumerate(CHECKS):
            if row != skip:
                out.append((readings[row] - length(g, at[p], at[q])) / sigma(length(G, PLAN[p], PLAN[q])))
        if free is None:
            out.append(b)
        return out

    x = np.concatenate([G, start.ravel(), [by]])
    found = least_squares(misfits, x, xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=400)
    return 2 * found.cost, found.x[-1]


def swapped(tapes, peg):
    return [own[::-1] if i == peg else own for i, own in enumerate(tapes)]


def drawn(rng, blunder):
    g = G + PRIOR_G * rng.standard_normal(2)
    marks = MARKS + PRIOR_MARK * rng.standard_normal(MARKS.shape)
    tapes = [list(own) for own in SET]
    signs = list(SIGNS)
    kind, which, by = blunder
    if kind == "swapped":
        tapes = [list(own) for own in swapped(tapes, which)]
    if kind == "wrong_side":
        signs[which] = -signs[which]
    if kind == "tie_off":
        tapes[which[0]][which[1]] += by
    noisy = [[t + sigma(t) * rng.standard_normal() for t in own] for own in tapes]
    at = stand(g, marks, noisy, signs)
    readings = [length(g, at[p], at[q]) for p, q in CHECKS]
    readings = [r + sigma(r) * rng.standard_normal() for r in readings]
    if kind == "tape_off":
        readings[which] += by
    return readings


def case(rng, blunder):
    readings = drawn(rng, blunder)
    null, _ = explained(readings, SET, SIGNS)
    left = {}
    for i in range(len(PEGS)):
        left[f"swapped:{i}"] = explained(readings, swapped(SET, i), SIGNS)[0]
        signs = [-s if k == i else s for k, s in enumerate(SIGNS)]
        left[f"wrong_side:{i}"] = explained(readings, SET, signs)[0]
        for k in range(2):
            best = min((explained(readings, SET, SIGNS, free=(i, k), by=by) for by in (0.0, 0.3, -0.3)), key=lambda it: it[0])
            left[f"tie_off:{i}:{k}"] = best[0]
    for row in range(len(CHECKS)):
        left[f"tape_off:{row}"] = explained(readings, SET, SIGNS, skip=row)[0]
    kind, which, by = blunder
    return {"kind": kind, "which": which, "by_m": by, "readings_m": readings, "null": null, "left": left}


def main():
    rng = np.random.default_rng(20261127)
    blunders = [("sound", None, 0.0)] * 3
    blunders += [("swapped", 2, 0.0), ("swapped", 3, 0.0), ("wrong_side", 4, 0.0)]
    blunders += [("tie_off", [4, 0], 0.3048), ("tie_off", [0, 1], -0.3048), ("tape_off", 5, 0.3048), ("tape_off", 1, -0.3048)]
    print(
        json.dumps(
            {
                "made_by": f"numpy {np.__version__}, scipy {scipy.__version__}, seed 20261127",
                "gradient": list(G),
                "prior_gradient": PRIOR_G,
                "prior_mark_m": PRIOR_MARK,
                "tape_sigma_m": TAPE,
                "tape_sigma_mm_per_m": 1000 * GROWTH,
                "marks": MARKS.tolist(),
                "pegs": [{"from": list(ties), "at": at} for ties, at in PEGS],
                "checks": CHECKS,
                "cases": [case(rng, blunder) for blunder in blunders],
            },
            indent=1,
        )
    )


main()

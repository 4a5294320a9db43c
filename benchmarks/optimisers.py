"""Answers the jobs of optimisers.mjs with SciPy's least_squares, lsq_linear and milp: one JSON record on stdin, one on stdout."""
import json
import sys
import time

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, least_squares, lsq_linear, milp

SPECTRAL = 1e-4
# As long as one milp may take.
MILP_SECONDS = 2


def ciede2000(reference, sample):
    (l1, a1, b1), (l2, a2, b2) = reference, sample
    mean7 = ((np.hypot(a1, b1) + np.hypot(a2, b2)) / 2) ** 7
    stretch = 1.5 - np.sqrt(mean7 / (mean7 + 25.0**7)) / 2
    c1, c2 = np.hypot(stretch * a1, b1), np.hypot(stretch * a2, b2)
    h1 = np.arctan2(b1, stretch * a1) % (2 * np.pi)
    h2 = np.arctan2(b2, stretch * a2) % (2 * np.pi)
    turn, mean = h2 - h1, (h1 + h2) / 2
    if abs(turn) > np.pi:
        turn -= np.copysign(2 * np.pi, turn)
        mean += np.pi if h1 + h2 < 2 * np.pi else -np.pi
    chroma, middle = (c1 + c2) / 2, ((l1 + l2) / 2 - 50) ** 2
    deg = np.degrees(mean)
    t = (1 - 0.17 * np.cos(np.radians(deg - 30)) + 0.24 * np.cos(np.radians(2 * deg))
         + 0.32 * np.cos(np.radians(3 * deg + 6)) - 0.2 * np.cos(np.radians(4 * deg - 63)))
    dl = (l2 - l1) / (1 + 0.015 * middle / np.sqrt(20 + middle))
    dc = (c2 - c1) / (1 + 0.045 * chroma)
    dh = 2 * np.sqrt(c1 * c2) * np.sin(turn / 2) / (1 + 0.015 * chroma * t)
    rotation = np.radians(60) * np.exp(-(((deg - 275) / 25) ** 2))
    rt = -2 * np.sqrt(chroma**7 / (chroma**7 + 25.0**7)) * np.sin(rotation)
    return np.sqrt(max(0.0, dl * dl + dc * dc + dh * dh + rt * dc * dh))


def prepare(job):
    arrays = {key: np.array(job[key]) for key in
              ("k", "s", "pot", "scale", "ghost", "shift", "weights", "white", "lab", "share", "target")}
    offset, gain, k2 = job["surface"]

    def residuals(added):
        """Three for each light, of which the squares add up to w times the square of CIEDE2000, then the bands."""
        grams = arrays["pot"] + added
        k = np.maximum(0, arrays["scale"] * (grams @ arrays["k"]) + arrays["ghost"])
        s = grams @ arrays["s"]
        inside = s / (k + s + np.sqrt(k * (k + 2 * s)))
        r = offset + gain * inside / (1 - k2 * inside) + arrays["shift"]
        out = []
        for light in range(len(arrays["share"])):
            ratio = arrays["weights"][light] @ r / arrays["white"][light]
            f = np.where(ratio > (6 / 29) ** 3, np.cbrt(ratio), ratio / (3 * (6 / 29) ** 2) + 4 / 29)
            lab = np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])
            step = lab - arrays["lab"][light]
            length = np.linalg.norm(step)
            size = ciede2000(arrays["lab"][light], lab) if length > 0 else 0.0
            out.append(np.sqrt(arrays["share"][light]) * size * step / (length if length > 0 else 1))
        out.append(100 * np.sqrt(SPECTRAL / len(r)) * (r - arrays["target"]))
        return np.concatenate(out)

    return residuals


def solve(residuals, toners, free, room):
    def of_free(x):
        added = np.zeros(toners)
        added[free] = x
        return residuals(added)

    found = least_squares(of_free, np.full(len(free), 0.01 * room), bounds=(0, room), x_scale=0.1 * room)
    added = np.zeros(toners)
    added[free] = found.x
    return added


def linear(residuals, at):
    """r and J at a mix, by forward differences."""
    here = residuals(at)
    step = 1e-4
    slopes = np.array([residuals(at + step * unit) - here for unit in np.eye(len(at))]).T / step
    return here, slopes


def by_lsq_linear(residuals, toners, room):
    """Linear least squares within the bounds, made linear anew at its own answer; a step is halved where it leads up."""
    added = np.full(toners, 0.01 * room)
    for _ in range(20):
        here, slopes = linear(residuals, added)
        to = lsq_linear(slopes, slopes @ added - here, bounds=(0, room)).x
        share = 1.0
        while share > 1e-3 and np.linalg.norm(residuals(added + share * (to - added))) >= np.linalg.norm(here):
            share /= 2
        if share <= 1e-3:
            break
        added = added + share * (to - added)
    return added


def by_milp(residuals, at, job):
    """Whole steps of at most so many toners with the least sum of residuals' absolute values, linear at a mix."""
    toners, room, step = len(at), job["room"], job["step"]
    here, slopes = linear(residuals, at)
    colour = 3 * len(job["share"])
    matrix, offset = slopes[:colour] * step, here[:colour] - slopes[:colour] @ at
    most = np.floor(room / step)
    # Unknowns: steps, whether a toner is poured, absolute residuals.
    zero = np.zeros((colour, toners))
    eye = np.eye(toners)
    constraints = [
        LinearConstraint(np.hstack([matrix, zero, -np.eye(colour)]), -np.inf, -offset),
        LinearConstraint(np.hstack([-matrix, zero, -np.eye(colour)]), -np.inf, offset),
        LinearConstraint(np.hstack([eye, -most * eye, np.zeros((toners, colour))]), -np.inf, 0),
        LinearConstraint(np.concatenate([np.zeros(toners), np.ones(toners), np.zeros(colour)]), 0, job["pours"]),
        LinearConstraint(np.concatenate([np.full(toners, step), np.zeros(toners + colour)]), 0, room),
    ]
    found = milp(
        np.concatenate([np.zeros(2 * toners), np.ones(colour)]),
        constraints=constraints,
        integrality=np.concatenate([np.ones(2 * toners), np.zeros(colour)]),
        bounds=Bounds(0, np.concatenate([np.full(toners, most), np.ones(toners), np.full(colour, np.inf)])),
        options={"time_limit": MILP_SECONDS},
    )
    return np.zeros(toners) if found.x is None else np.round(found.x[:toners]) * step


def clock(run):
    best, value = np.inf, None
    for _ in range(2):
        start = time.perf_counter()
        value = run()
        best = min(best, time.perf_counter() - start)
    return value, 1000 * best


def answer(job):
    residuals = prepare(job)
    score = lambda added: float(np.linalg.norm(residuals(added)))
    toners, room, step = len(job["pot"]), job["room"], job["step"]
    whole = lambda added: np.round(added / step) * step

    def few():
        added = solve(residuals, toners, np.arange(toners), room)
        kept = np.sort(np.argsort(added)[-job["pours"]:])
        return whole(solve(residuals, toners, kept, room))

    every, every_ms = clock(lambda: solve(residuals, toners, np.arange(toners), room))
    kept, few_ms = clock(few)
    linearly, linearly_ms = clock(lambda: by_lsq_linear(residuals, toners, room))
    mixed, milp_ms = clock(lambda: by_milp(residuals, every, job))
    return {"checks": [score(np.array(mix)) for mix in job["checks"]],
            "every": every.tolist(), "everyMs": every_ms, "few": kept.tolist(), "fewMs": few_ms,
            "linearly": linearly.tolist(), "linearlyMs": linearly_ms,
            "mixed": mixed.tolist(), "mixedMs": every_ms + milp_ms}


json.dump([answer(job) for job in json.load(sys.stdin)], sys.stdout)

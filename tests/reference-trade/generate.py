"""Writes the stored answers of general-purpose libraries for the measures of the trade.

Run with Python 3, NumPy, SciPy and Shapely 2:  python3 generate.py
Lengths are whole micrometres, levels whole thousandths of a decibel, so that both sides begin with the same input.
"""

import itertools
import json
import pathlib

import numpy
import scipy.interpolate
import scipy.optimize

HERE = pathlib.Path(__file__).parent


def write(name, rows):
    (HERE / name).write_text("".join(json.dumps(row, separators=(",", ":")) + "\n" for row in rows))


def sound(dice):
    """Several machines heard at one place: levels, distances, surfaces; the sum of their energies."""
    for _ in range(500):
        count = dice.integers(1, 6)
        power = dice.integers(30_000, 95_000, count)
        far = dice.integers(300_000, 80_000_000, count)
        surfaces = dice.integers(0, 4, count)
        levels = power / 1e3 - 20 * numpy.log10(far / 1e6) - 11 + 3 * (1 + surfaces)
        total = max(0.0, 10 * numpy.log10(numpy.sum(10 ** (levels / 10))))
        yield {"power": power.tolist(), "far": far.tolist(), "surfaces": surfaces.tolist(), "level": float(total)}


def ground(dice):
    """Levels at spots; the level at a place on SciPy's triangulated surface, nothing outside it."""
    for _ in range(300):
        spots = dice.integers(-20_000_000, 20_000_000, (dice.integers(4, 16), 2))
        levels = dice.integers(-2_000_000, 2_000_000, len(spots))
        place = dice.integers(-18_000_000, 18_000_000, 2)
        found = float(scipy.interpolate.LinearNDInterpolator(spots, levels)(*place))
        yield {"spots": spots.flatten().tolist(), "levels": levels.tolist(), "at": place.tolist(), "level": None if numpy.isnan(found) else found}


def contours(dice):
    """All contours of SciPy's triangulated surface, straight in each triangle, and its level at a place."""
    while True:
        spots = dice.integers(-15_000_000, 45_000_000, (10, 2))
        levels = dice.integers(48_000_000, 52_000_000, len(spots))
        interval = int(dice.choice([500_000, 1_000_000]))
        at = dice.integers((1_000_000, 1_000_000), (19_000_000, 39_000_000))
        surface = scipy.interpolate.LinearNDInterpolator(spots, levels)
        level = float(surface(*(at + 500)))
        lines = []
        for corners in surface.tri.simplices:
            for step in range(48_000_000 // interval, 52_000_000 // interval + 1):
                ends = []
                for one, other in ((0, 1), (1, 2), (2, 0)):
                    a, b = corners[one], corners[other]
                    if (levels[a] < step * interval) != (levels[b] < step * interval):
                        share = (step * interval - levels[a]) / (levels[b] - levels[a])
                        ends.append(numpy.round(spots[a] + share * (spots[b] - spots[a])).astype(int).tolist())
                if len(ends) == 2 and ends[0] != ends[1]:
                    lines.append([step * interval, *ends[0], *ends[1]])
        if not numpy.isnan(level) and lines:
            yield {"interval": interval, "at": at.tolist(), "level": level, "contours": lines}


def catenary(length, one, other, sag):
    """The heights of a chain between two supports with a given sag in the middle, by its own equation."""

    def curve(scale):
        lowest = length / 2 - scale * numpy.arcsinh((other - one) / (2 * scale * numpy.sinh(length / 2 / scale)))
        drop = one - scale * numpy.cosh(lowest / scale)
        return lambda x: scale * numpy.cosh((x - lowest) / scale) + drop

    def off(scale):
        return (one + other) / 2 - curve(scale)(length / 2) - sag

    return curve(scipy.optimize.brentq(off, length / 7, length * 1e4, xtol=1e-12))


def wires(dice):
    """The straight distance from a hanging wire to a flat rectangle at some height."""
    for _ in range(300):
        ends = dice.integers(-30_000_000, 30_000_000, (2, 2))
        length = float(numpy.hypot(*(ends[1] - ends[0]))) / 1e6
        if length < 8:
            continue
        one, other = (int(h) for h in dice.integers(4_000_000, 12_000_000, 2))
        sag = int(length * 1e6 * dice.uniform(0.003, 0.06))
        low = dice.integers(-20_000_000, 15_000_000, 2)
        high = low + dice.integers(1_000_000, 8_000_000, 2)
        rim = int(dice.integers(0, 2_000_000))
        height = catenary(length, one / 1e6, other / 1e6, sag / 1e6)

        def apart(share):
            at = (ends[0] + (ends[1] - ends[0]) * share) / 1e6
            aside = numpy.maximum(numpy.maximum(low / 1e6 - at, at - high / 1e6), 0)
            return float(numpy.sqrt(numpy.sum(aside**2) + (height(length * share) - rim / 1e6) ** 2))

        shares = numpy.linspace(0, 1, 2001)
        best = shares[numpy.argmin([apart(share) for share in shares])]
        near = scipy.optimize.minimize_scalar(
            apart, bounds=(max(0, best - 1e-3), min(1, best + 1e-3)), method="bounded", options={"xatol": 1e-12}
        )
        yield {
            "ends": ends.flatten().tolist(),
            "heights": [one, other],
            "sag": sag,
            "pool": [*low.tolist(), *high.tolist()],
            "rim": rim,
            "distance": min(near.fun, apart(0), apart(1)),
        }


if __name__ == "__main__":
    write("sound.jsonl", sound(numpy.random.default_rng(20_260_101)))
    write("ground.jsonl", ground(numpy.random.default_rng(20_260_102)))
    write("contours.jsonl", itertools.islice(contours(numpy.random.default_rng(20_260_104)), 150))
    write("wires.jsonl", wires(numpy.random.default_rng(20_260_103)))

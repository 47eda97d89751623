"""Writes the stored answers of general-purpose libraries for the measures of the trade.

Run with Python 3, NumPy, SciPy and Shapely 2:  python3 generate.py
Lengths are whole micrometres, levels whole thousandths of a decibel, so that both sides begin with the same input.
"""

import json
import pathlib

import numpy
import scipy.interpolate

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


if __name__ == "__main__":
    write("sound.jsonl", sound(numpy.random.default_rng(20_260_101)))
    write("ground.jsonl", ground(numpy.random.default_rng(20_260_102)))

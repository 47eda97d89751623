"""Writes arcs.jsonl.gz: areas with sides that are arcs, and how far they lie from other forms by Shapely (GEOS).

Run with Python 3 and Shapely 2:  python3 arcs.py
GEOS has no arcs here: each stands as so many corners that none is 10 nm from the arc. Coordinates are whole
micrometres, answers in metres.
"""

import gzip
import json
import math
import pathlib
import random

import shapely

SEED = 20_261_128
COUNT = 1_000
MICRO = 1e6
SAGITTA = 1e-8

dice = random.Random(SEED)


def corners(middle, reach):
    """A ring anticlockwise, its corners in order of their angle around a middle."""
    count = dice.randint(3, 7)
    angles = sorted(dice.uniform(0, 2 * math.pi) for _ in range(count))
    far = [dice.uniform(reach / 4, reach) for _ in angles]
    return [(round(middle[0] + f * math.cos(a)), round(middle[1] + f * math.sin(a))) for f, a in zip(far, angles)]


def arc(start, end, rise):
    """From a place to another in metres, without the last; the middle stands out so far to the right of the way."""
    long = math.dist(start, end)
    if rise == 0:
        return [start]
    radius = (long * long / 4 + rise * rise) / (2 * abs(rise))
    # The angle at the circle's middle, from the tangent of a quarter of it.
    sweep = 4 * math.atan2(abs(rise), long / 2)
    steps = math.ceil(sweep * math.sqrt(radius / (8 * SAGITTA))) + 1
    side = math.copysign(1, rise)
    along = ((end[0] - start[0]) / long, (end[1] - start[1]) / long)
    out = (along[1] * side, -along[0] * side)
    top = ((start[0] + end[0]) / 2 + out[0] * abs(rise), (start[1] + end[1]) / 2 + out[1] * abs(rise))
    middle = (top[0] - out[0] * radius, top[1] - out[1] * radius)
    begin = math.atan2(start[1] - middle[1], start[0] - middle[0])
    turned = [begin + side * sweep * step / steps for step in range(steps)]
    return [start] + [(middle[0] + radius * math.cos(t), middle[1] + radius * math.sin(t)) for t in turned[1:]]


def fine(ring, rises):
    metres = [(x / MICRO, y / MICRO) for x, y in ring]
    points = []
    for at, rise in enumerate(rises):
        points += arc(metres[at], metres[(at + 1) % len(metres)], rise / MICRO)
    return shapely.Polygon(points)


def curved(middle, reach):
    while True:
        ring = corners(middle, reach)
        if len(set(ring)) < len(ring):
            continue
        longs = [math.dist(a, b) for a, b in zip(ring, ring[1:] + ring[:1])]
        most = dice.choice([0.05, 0.2, 0.5, 0.9])
        rises = [dice.choice([0, 1, 1]) * round(dice.uniform(-most, most) * long) for long in longs]
        shape = fine(ring, rises)
        plain = shapely.Polygon(ring)
        if any(rises) and plain.exterior.is_ccw and shape.is_valid and shape.area > 0:
            return ring, rises, shape


def other(middle, reach):
    """Any form: a place, a line, an area with straight sides or one with round ones."""
    kind = dice.randrange(4)
    spot = lambda: tuple(round(m + dice.uniform(-reach, reach)) for m in middle)
    if kind == 3:
        ring, rises, shape = curved(middle, reach)
        return ["curved", ring, rises], shape
    if kind == 0:
        points = [spot()]
        return ["point", points, []], shapely.Point([c / MICRO for c in points[0]])
    if kind == 1:
        points = [spot() for _ in range(dice.randint(2, 6))]
        return ["path", points, []], shapely.LineString([(x / MICRO, y / MICRO) for x, y in points])
    while True:
        ring = corners(middle, reach)
        shape = shapely.Polygon([(x / MICRO, y / MICRO) for x, y in ring])
        if len(set(ring)) == len(ring) and shape.is_valid and shape.area > 0:
            return ["ring", ring, []], shape


def pair():
    reach = dice.choice([3, 8, 20]) * MICRO
    ring, rises, shape = curved((0, 0), reach)
    away, angle = dice.choice([0.3, 1.5, 2.5]) * reach, dice.uniform(0, 2 * math.pi)
    middle = (away * math.cos(angle), away * math.sin(angle))
    form, against = other(middle, reach * dice.choice([0.1, 0.5, 1]))
    distance = shapely.distance(shape, against)
    return {"a": ["curved", ring, rises], "b": form, "distance": distance, "corners": len(shape.exterior.coords)}


def main():
    lines = [json.dumps(pair(), separators=(",", ":")) for _ in range(COUNT)]
    target = pathlib.Path(__file__).with_name("arcs.jsonl.gz")
    with target.open("wb") as raw, gzip.GzipFile(fileobj=raw, mode="wb", mtime=0) as file:
        file.write(("\n".join(lines) + "\n").encode())
    print(len(lines), "pairs, Shapely", shapely.__version__, "over GEOS", shapely.geos_version_string)


main()

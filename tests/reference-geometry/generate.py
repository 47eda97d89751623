"""Writes pairs.jsonl.gz: pairs of forms with what Shapely (GEOS) says of them.

Run with Python 3, Shapely 2 and NumPy:  python3 generate.py
Coordinates are whole micrometres, in which floats are exact at these sizes; so both sides begin with the same input,
and what Shapely says of touching and containing does not hang on a rounded coordinate. Answers are in metres.
"""

import gzip
import json
import math
import pathlib
import random

import numpy
import shapely

SEED = 20_260_101
COUNT = 20_000
KINDS = 10
MICRO = 1e6

dice = random.Random(SEED)


def star(middle, low, high, corners):
    """A simple ring: corners in order of their angle around a middle."""
    angles = sorted(dice.uniform(0, 2 * math.pi) for _ in range(corners))
    ring = []
    for angle in angles:
        far = dice.uniform(low, high)
        ring.append((round(middle[0] + far * math.cos(angle)), round(middle[1] + far * math.sin(angle))))
    return ring


def ring(middle, low, high, corners=None):
    while True:
        points = star(middle, low, high, corners or dice.randint(3, 20))
        polygon = shapely.Polygon(points)
        if len(set(points)) == len(points) and polygon.is_valid and polygon.area > 0:
            return points


def path(middle, reach, corners=None):
    count = corners or dice.randint(2, 12)
    while True:
        points = [spot(middle, reach) for _ in range(count)]
        if len(set(points)) == len(points):
            return points


def spot(middle, reach):
    return tuple(round(m + dice.uniform(-reach, reach)) for m in middle)


def form(middle, reach):
    kind = dice.randrange(6)
    if kind == 0:
        return ["point", [spot(middle, reach)]]
    if kind <= 2:
        return ["path", path(middle, reach)]
    return ["ring", ring(middle, reach / 4, reach)]


def on_edge(points, closed):
    """A whole-micrometre point exactly on one edge, if an edge has one."""
    at = dice.randrange(len(points) if closed else len(points) - 1)
    (ax, ay), (bx, by) = points[at], points[(at + 1) % len(points)]
    parts = math.gcd(bx - ax, by - ay)
    part = dice.randint(0, parts)
    return ax + (bx - ax) // parts * part, ay + (by - ay) // parts * part


def coarse(points, step):
    return [(round(x / step) * step, round(y / step) * step) for x, y in points]


def shifted(points, by):
    return [(x + by[0], y + by[1]) for x, y in points]


def ordinary(reach):
    return form((0, 0), reach), form(spot((0, 0), 3 * reach), reach)


def touching(reach):
    """The second is moved so that one corner of it lies exactly on the first's line."""
    step = 1000
    while True:
        first = coarse(ring((0, 0), reach / 4, reach), step)
        polygon = shapely.Polygon(first)
        if len(set(first)) == len(first) and polygon.is_valid and polygon.area > 0:
            break
    second = form((0, 0), reach)
    corner = dice.choice(second[1])
    target = on_edge(first, True)
    return ["ring", first], [second[0], shifted(second[1], (target[0] - corner[0], target[1] - corner[1]))]


def nested(reach):
    return ["ring", ring((0, 0), reach / 2, reach)], form((0, 0), reach / dice.choice([2.5, 5, 50]))


def disjoint(reach):
    angle = dice.uniform(0, 2 * math.pi)
    away = reach * dice.uniform(2.1, 20)
    return form((0, 0), reach), form((away * math.cos(angle), away * math.sin(angle)), reach)


def collinear(reach):
    """Straight runs along one line, overlapping, end to end or apart."""
    dx, dy = dice.randint(-reach, reach) // 8, dice.randint(1, reach) // 8 + 1
    at = lambda part: (part * dx, part * dy)
    marks = sorted(dice.sample(range(-8, 9), 4))
    order = dice.choice([(0, 1, 2, 3), (0, 2, 1, 3), (0, 3, 1, 2), (0, 1, 1, 3)])
    first = [at(marks[order[0]]), at(marks[order[1]])]
    second = [at(marks[order[2]]), at(marks[order[3]])]
    if dice.random() < 0.3:
        second = ["ring", second + [(second[0][0] + dy + 1, second[0][1] - dx + 1)]]
        if shapely.Polygon(second[1]).area > 0:
            return ["path", first], second
        second = second[1][:2]
    return ["path", first], ["path", second]


def shared_side(reach):
    """Two upright rectangles with a side or a corner in common, or a sliver between."""
    w, h = dice.randint(1, reach), dice.randint(1, reach)
    slip, gap = dice.randint(-h, h), dice.choice([0, 0, 0, 1, 2, -1, 1000])
    first = [(0, 0), (w, 0), (w, h), (0, h)]
    return ["ring", first], ["ring", shifted(first, (w + gap, slip))]


def needles(reach):
    """A ring with a corner that is nearly nothing, beside another."""
    base = ring((0, 0), reach / 4, reach, 5)
    at = dice.randrange(5)
    (ax, ay), (bx, by) = base[at], base[(at + 1) % 5]
    middle = ((ax + bx) // 2, (ay + by) // 2)
    twig = [middle, (middle[0] + dice.randint(-3, 3), middle[1] + dice.randint(-3, 3)), (middle[0] + 1, middle[1] + 1)]
    points = base[: at + 1] + twig + base[at + 1 :]
    if len(set(points)) != len(points) or not shapely.Polygon(points).is_valid:
        points = base
    return ["ring", points], form(spot((0, 0), 2 * reach), reach)


def same(reach):
    """A ring against itself, turned round, or against a part of its own line."""
    points = ring((0, 0), reach / 4, reach)
    if dice.random() < 0.5:
        turn = dice.randrange(len(points))
        return ["ring", points], ["ring", (points[turn:] + points[:turn])[::-1]]
    return ["ring", points], ["path", points[: dice.randint(2, len(points))]]


def corners_only(reach):
    first = form((0, 0), reach)
    second = form((0, 0), reach)
    target, corner = dice.choice(first[1]), dice.choice(second[1])
    return first, [second[0], shifted(second[1], (target[0] - corner[0], target[1] - corner[1]))]


def tiny(reach):
    """A few micrometres across, where nearly everything touches."""
    return form((0, 0), 4), form(spot((0, 0), 6), 4)


MAKERS = [ordinary, touching, nested, disjoint, collinear, shared_side, needles, same, corners_only, tiny]
REACHES = [2_000, 1_000_000, 15_000_000, 60_000_000]


def shape(kind, points, scale):
    points = numpy.array(points, dtype=float) / scale
    return {"point": lambda p: shapely.Point(p[0]), "path": shapely.LineString, "ring": shapely.Polygon}[kind](points)


def record(number):
    while True:
        maker = MAKERS[number % KINDS]
        first, second = maker(REACHES[number // KINDS % len(REACHES)])
        whole = [shape(*one, 1) for one in (first, second)]
        if all(one.is_valid for one in whole):
            break
    metres = [shape(*one, MICRO) for one in (first, second)]
    return {
        "case": maker.__name__,
        "a": [first[0], *(n for p in first[1] for n in p)],
        "b": [second[0], *(n for p in second[1] for n in p)],
        # The distance in micrometres, in which the input is exact, so that nothing is lost before Shapely begins.
        "distance": whole[0].distance(whole[1]) / MICRO,
        "intersects": whole[0].intersects(whole[1]),
        "contains": whole[0].contains(whole[1]),
        "covers": whole[0].covers(whole[1]),
        "overlaps": whole[0].relate_pattern(whole[1], "T********") if metres[0].area and metres[1].area else None,
        "area": [whole[0].area / MICRO / MICRO, whole[1].area / MICRO / MICRO],
        "length": [whole[0].length / MICRO, whole[1].length / MICRO],
        "shared": metres[0].intersection(metres[1]).area if metres[0].area and metres[1].area else None,
    }


def main():
    target = pathlib.Path(__file__).with_name("pairs.jsonl.gz")
    lines = "".join(json.dumps(record(n), separators=(",", ":")) + "\n" for n in range(COUNT))
    with open(target, "wb") as file, gzip.GzipFile("", "wb", 9, file, mtime=0) as packed:
        packed.write(lines.encode())
    print(f"{COUNT} pairs, Shapely {shapely.__version__}, GEOS {shapely.geos_version_string}, {target.stat().st_size} bytes")


if __name__ == "__main__":
    main()

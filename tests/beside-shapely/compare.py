"""How fast distances and the way through a barrier are, beside Shapely (GEOS) on the same inputs in one run.

Run with Python 3, Shapely 2 and NumPy from the top of the checkout:

    cargo build --release -p outside-checks --example beside_shapely
    python3 tests/beside-shapely/compare.py target/release/examples/beside_shapely

Both sides read the same whole micrometres, each is timed by itself inside its own process, five hundred pairs at a time. They
take turns, three times each, and of each piece the least of all runs counts, so that seconds in which the machine is slow hurt
neither. Distances go through Shapely's vectorised call, so that Python's own loop costs it nothing. Shapely has no measure of
a way through a barrier; it is found there as one would find it: walls widened by half a width, and whether the rest of the
plane still joins the pool with the outside, halving the width down to a millimetre.
"""

import json
import math
import pathlib
import random
import subprocess
import sys
import tempfile
import time

import shapely

MICRO = 1_000_000
dice = random.Random(20_261_125)


def ring():
    corners = dice.randint(5, 20)
    x, y = dice.uniform(0, 60), dice.uniform(0, 60)
    places = []
    for corner in range(corners):
        angle, far = 2 * math.pi * corner / corners, dice.uniform(1, 5)
        places.append([round((x + far * math.cos(angle)) * MICRO), round((y + far * math.sin(angle)) * MICRO)])
    return places


def line(segments, level):
    """A wavy line of 100 m."""
    def at(index):
        x = 100 * index / segments
        return [round(x * MICRO), round((level + 2 * math.sin(x / 3) + dice.uniform(-0.05, 0.05)) * MICRO)]
    return [at(index) for index in range(segments + 1)]


def fence(edges, gap):
    """A wavy fence around a circle of 20 m with a gap."""
    turn = 2 * math.pi * (1 - gap / (2 * math.pi * 20))
    def at(index):
        angle = turn * index / edges
        far = 20 + 0.05 * math.sin(angle * 40)
        return [round(far * math.cos(angle) * MICRO), round(far * math.sin(angle) * MICRO)]
    return [at(index) for index in range(edges + 1)]


CHUNK = 500
SIZES = [50, 100, 200, 500, 1000, 2000, 5000]
POOL = [[-3, -2], [3, -2], [3, 2], [-3, 2]]
INPUT = {
    "pairs": [[ring(), ring()] for _ in range(20_000)],
    "lines": [[line(size, 0), line(size, 12)] for size in SIZES],
    "fences": [fence(size, gap) for gap in (0.1, 2.0) for size in SIZES],
    "pool": [[x * MICRO, y * MICRO] for x, y in POOL],
}


def least(run, times=5):
    best = math.inf
    for _ in range(times):
        start = time.perf_counter()
        run()
        best = min(best, time.perf_counter() - start)
    return best


def metres(places):
    return [(x / MICRO, y / MICRO) for x, y in places]


def way_through(wall, pool):
    low, high = 0.0, 4.0
    while high - low > 1e-3:
        width = (low + high) / 2
        free = shapely.box(-60, -60, 60, 60).difference(wall.buffer(width / 2, quad_segs=16))
        parts = list(free.geoms) if free.geom_type == "MultiPolygon" else [free]
        out = [part for part in parts if part.contains(shapely.Point(50, 50))]
        low, high = (width, high) if any(part.contains(pool) for part in out) else (low, width)
    return high


def of_shapely():
    ones = shapely.polygons([shapely.linearrings(metres(one)) for one, _ in INPUT["pairs"]])
    others = shapely.polygons([shapely.linearrings(metres(other)) for _, other in INPUT["pairs"]])
    pool = shapely.Polygon(metres(INPUT["pool"]))
    lines = [[shapely.LineString(metres(places)) for places in pair] for pair in INPUT["lines"]]
    fences = [shapely.LineString(metres(places)) for places in INPUT["fences"]]
    return {
        "pairs": sum(
            least(lambda at=at: shapely.distance(ones[at : at + CHUNK], others[at : at + CHUNK]), 9)
            for at in range(0, len(ones), CHUNK)
        ),
        "lines": [least(lambda pair=pair: shapely.distance(*pair), 99) for pair in lines],
        "fences": [least(lambda wall=wall: way_through(wall, pool.centroid), 2) for wall in fences],
        "distance": float(shapely.distance(ones, others).sum()),
        "widths": [way_through(wall, pool.centroid) for wall in fences],
    }


def of_here():
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "input.json"
        path.write_text(json.dumps(INPUT))
        return json.loads(subprocess.run([sys.argv[1], str(path)], check=True, capture_output=True).stdout)


def least_of(rounds):
    """The least times of several rounds; what was found is the same in each."""
    each = lambda key: [min(times) for times in zip(*(times[key] for times in rounds))]
    pairs = min(times["pairs"] for times in rounds)
    return {**rounds[0], "pairs": pairs, "lines": each("lines"), "fences": each("fences")}


def main():
    own, peer = zip(*[(of_here(), of_shapely()) for _ in range(3)])
    own, peer = least_of(own), least_of(peer)
    assert abs(own["distance"] - peer["distance"]) < 1e-3, (own["distance"], peer["distance"])
    for mine, theirs in zip(own["widths"], peer["widths"]):
        assert abs(mine - theirs) < 0.02, (mine, theirs)
    print(f"Shapely {shapely.__version__}, GEOS {shapely.geos_version_string}\n")
    print("| what | here | Shapely | ratio |\n|---|---|---|---|")
    count = len(INPUT["pairs"])
    micro = lambda seconds: f"{seconds / count * 1e6:.2f} µs"
    print(f"| distance of two rings of 5 to 20 corners | {micro(own['pairs'])} | {micro(peer['pairs'])} | {peer['pairs'] / own['pairs']:.1f} |")
    milli = lambda seconds: f"{seconds * 1e3:.3f} ms"
    for size, mine, theirs in zip(SIZES, own["lines"], peer["lines"]):
        print(f"| distance of two lines of {size} segments | {milli(mine)} | {milli(theirs)} | {theirs / mine:.1f} |")
    cases = [(gap, size) for gap in (0.1, 2.0) for size in SIZES]
    for (gap, size), mine, theirs in zip(cases, own["fences"], peer["fences"]):
        print(f"| way through {size} edges, gap {gap} m | {milli(mine)} | {milli(theirs)} | {theirs / mine:.1f} |")


main()

"""Shortest ways round areas: what a visibility graph over Shapely (GEOS) and the shortest path of NetworkX give.

Run with Python 3, Shapely 2 and NetworkX 3:  python3 walks.py
It writes walks.jsonl.gz. Coordinates are whole micrometres, lengths metres. Written with Shapely 2.2.0, GEOS 3.14.1 and
NetworkX 3.6.1.
"""

import gzip
import json
import math
import os
import random

import networkx
import shapely

SEED = 22
SCENES = 500
METRE = 1_000_000

dice = random.Random(SEED)


def ring(middle, reach):
    """Corners sorted around a middle: an area that may point in, never a crossing."""
    while True:
        turns = sorted(dice.uniform(0, 2 * math.pi) for _ in range(dice.randint(3, 8)))
        points = []
        for turn in turns:
            far = dice.uniform(reach / 4, reach)
            points.append((round(middle[0] + far * math.cos(turn)), round(middle[1] + far * math.sin(turn))))
        area = shapely.Polygon(points)
        if len(set(points)) == len(points) and area.is_valid and area.area > 0:
            return points


def spot(reach):
    return tuple(round(dice.uniform(-reach, reach)) for _ in range(2))


def scene():
    """One to six areas that keep apart, and two places out of all of them."""
    rings, areas = [], []
    while len(rings) < 1 or dice.random() < 0.8 and len(rings) < 6:
        points = ring(spot(15 * METRE), dice.uniform(1, 8) * METRE)
        area = shapely.Polygon(points)
        if all(area.distance(other) > METRE / 100 for other in areas):
            rings.append(points)
            areas.append(area)
    while True:
        ends = [spot(25 * METRE), spot(25 * METRE)]
        if all(area.distance(shapely.Point(end)) > METRE / 100 for area in areas for end in ends):
            return ends, rings, areas


def shortest(ends, rings, areas):
    places = ends + [corner for points in rings for corner in points]
    graph = networkx.Graph()
    for at, a in enumerate(places):
        for to in range(at):
            line = shapely.LineString([a, places[to]])
            if not any(shapely.relate_pattern(line, area, "T********") for area in areas):
                graph.add_edge(at, to, weight=line.length)
    return networkx.shortest_path_length(graph, 0, 1, weight="weight") / METRE


def main():
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "walks.jsonl.gz")
    with gzip.GzipFile(path, "wb", mtime=0) as out:
        for _ in range(SCENES):
            ends, rings, areas = scene()
            length = shortest(ends, rings, areas)
            line = {"ends": ends, "rings": rings, "length": length}
            out.write((json.dumps(line, separators=(",", ":")) + "\n").encode())


main()

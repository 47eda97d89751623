"""Writes lots.jsonl: 40 drawn lots with the names that their sides must get, and the ordinance each name is from.

Run with Python 3:  python3 generate.py
The figures are drawn here by hand, in metres; each is turned by an angle of its own, so that nothing rests on north.
Sides are listed anticlockwise, the first one along the first street unless said otherwise.
"""

import json
import math
import pathlib

GENEVA = "Geneva IL, from the lot line, not the pavement: https://www.geneva.il.us/FAQ.aspx?QID=147"
LEWISBURG = "Lewisburg WV, odd, corner, flag and pie lots: https://codelibrary.amlegal.com/codes/lewisburg/latest/lewisburg_wv/0-0-0-17577"
FREDONIA = "Fredonia NY, the second street side is a front: https://cetient.com/case/5794479/corter-v-zoning-board-of-appeals-for-the-village-of-fredonia"
BLOOMINGTON = "Bloomington MN, street side of a corner lot: https://codelibrary.amlegal.com/codes/bloomington/latest/bloomington_mn/0-0-0-110745"
VENTURA = "Ventura CA, triangular lots, curved fronts, ties: http://ventura-ca.elaws.us/code/coor_div8_ch1_art6_sec8106-4.3"
ORONO = "Orono MN, lakeshore: https://publicinfo.ci.orono.mn.us/WebLink/0/doc/41121/Page7.aspx"
INDIAN = "Indian River FL, lots without a rear yard: http://ircdocs.indian-river.org/WebLink/0/doc/16669/Page249.aspx"
SYLVANIA = "Sylvania OH, no rear yard on through lots: https://codelibrary.amlegal.com/codes/sylvania/latest/sylvania_oh/0-0-0-17165"
CAPE = "Cape Canaveral FL, lines parallel to a street: http://www.myflorida.com/cape/CapeCode/110-584.htm"
EDGEWATER = "Edgewater FL, the south side is a front: https://cityofedgewater.legistar.com/LegislationDetail.aspx?FullText=1&GUID=A8501542-5A1A-4527-BE3F-90E1FC4204F0&ID=6375803"

LOTS = []


def lot(name, source, corners, beyond, expect, naming=(), turn=0.0, curves=()):
    """Sides from corner to corner; a curve replaces the side of that number by a line of several pieces."""
    sides = [[corners[i], corners[(i + 1) % len(corners)]] for i in range(len(corners))]
    for index, line in curves:
        sides[index] = line
    angle = math.radians(turn + 7 * len(LOTS))
    spin = lambda p: [round(1000 * (p[0] * math.cos(angle) - p[1] * math.sin(angle))), round(1000 * (p[0] * math.sin(angle) + p[1] * math.cos(angle)))]
    assert len(expect.split()) == len(sides), name
    LOTS.append({
        "name": name, "source": source, "naming": list(naming), "expect": expect.split(),
        "sides": [[spin(p) for p in side] for side in sides],
        "beyond": [{"what": what, "reach": round(1000 * reach), "line": [spin(p) for p in line]} for what, reach, line in beyond],
    })


def street(line, what="street", reach=12.0):
    return (what, reach, line)


def arc(middle, radius, start, end, pieces):
    step = (end - start) / pieces
    return [(middle[0] + radius * math.cos(math.radians(start + step * i)), middle[1] + radius * math.sin(math.radians(start + step * i))) for i in range(pieces + 1)]


SOUTH = street([(-50, -5), (100, -5)])
NORTH = street([(-50, 45), (100, 45)])
EAST = street([(25, -50), (25, 100)])
WEST = street([(-5, -50), (-5, 100)])
BOX = [(0, 0), (20, 0), (20, 40), (0, 40)]

lot("interior", GENEVA, BOX, [SOUTH], "front side rear side")
lot("interior, wide", GENEVA, [(0, 0), (60, 0), (60, 30), (0, 30)], [SOUTH], "front side rear side")
lot("interior, askew", GENEVA, [(0, 0), (20, 2), (25, 40), (-3, 37)], [SOUTH], "front side rear side")
lot("interior, narrower behind", LEWISBURG, [(0, 0), (30, 0), (22, 40), (8, 40)], [SOUTH], "front side rear side")
lot("interior, wider behind (pie)", LEWISBURG, [(0, 0), (12, 0), (30, 40), (-18, 40)], [SOUTH], "front side rear side")
lot("interior, front in two pieces", LEWISBURG, [(0, 0), (10, 0), (20, 2), (20, 40), (0, 40)], [SOUTH], "front front side rear side")
lot("interior, rear in two pieces", LEWISBURG, [(0, 0), (20, 0), (20, 38), (10, 41), (0, 40)], [SOUTH], "front side rear rear side")
lot("interior, a jog in the side line", LEWISBURG, [(0, 0), (20, 0), (20, 20), (26, 20), (26, 40), (0, 40)], [SOUTH], "front side side side rear side")
lot("interior, alley behind", LEWISBURG, BOX, [SOUTH, street([(-50, 42), (100, 42)], "alley")], "front side alley side")
lot("interior, alley beside", LEWISBURG, BOX, [SOUTH, street([(22, -50), (22, 100)], "alley")], "front alley rear side")
lot("interior, drawn from another corner", GENEVA, [(20, 0), (20, 40), (0, 40), (0, 0)], [SOUTH], "side rear side front")

lot("corner, the shorter is the front", BLOOMINGTON, BOX, [SOUTH, EAST], "front street-side rear side")
lot("corner, the other way round", BLOOMINGTON, BOX, [SOUTH, WEST], "front side rear street-side")
lot("corner, address on the longer", BLOOMINGTON, BOX, [SOUTH, street([(25, -50), (25, 100)], "address")], "street-side front side rear")
lot("corner, second street is a front", FREDONIA, BOX, [SOUTH, EAST], "front front rear side", ["every-street-is-front"])
lot("corner, south side is a front too", EDGEWATER, [(0, 0), (30, 0), (30, 25), (0, 25)], [SOUTH, street([(35, -50), (35, 100)])], "front front side rear", ["every-street-is-front"])
lot("corner without a rear line", LEWISBURG, BOX, [SOUTH, EAST], "front street-side side side", ["corner-without-rear"])
lot("corner, most frontage is the front", LEWISBURG, BOX, [SOUTH, EAST], "street-side front side side", ["corner-without-rear", "longest-is-front"])
lot("corner, askew streets", BLOOMINGTON, [(0, 0), (22, 0), (30, 38), (2, 40)], [SOUTH, street([(25.5, -10), (38, 49)])], "front street-side rear side")
lot("corner, alley behind", BLOOMINGTON, BOX, [SOUTH, EAST, street([(-50, 42), (100, 42)], "alley")], "front street-side alley side")
lot("corner, address on the shorter", BLOOMINGTON, BOX, [street([(-50, -5), (100, -5)], "address"), WEST], "front side rear street-side")

lot("through", SYLVANIA, BOX, [SOUTH, NORTH], "front side front side")
lot("through, address on one", SYLVANIA, BOX, [SOUTH, street([(-50, 45), (100, 45)], "address")], "front side front side")
lot("through and corner: three streets", CAPE, BOX, [SOUTH, EAST, NORTH], "front street-side front side")
lot("through, every street a front", CAPE, BOX, [SOUTH, EAST, NORTH], "front front front side", ["every-street-is-front"])
lot("a whole block: four streets", CAPE, BOX, [SOUTH, EAST, NORTH, WEST], "front street-side front street-side")

FLAG = [(0, 0), (5, 0), (5, 40), (30, 40), (30, 70), (0, 70)]
lot("flag", LEWISBURG, FLAG, [SOUTH], "front side front side rear side")
lot("flag to the other side", LEWISBURG, [(0, 0), (5, 0), (5, 70), (-25, 70), (-25, 40), (0, 40)], [SOUTH], "front side rear side front side")
lot("flag, handle in the middle", LEWISBURG, [(0, 0), (5, 0), (5, 40), (20, 40), (20, 70), (-15, 70), (-15, 40), (0, 40)], [SOUTH], "front side front side rear side front side")
lot("flag, handle askew", LEWISBURG, [(0, 0), (5, 0), (9, 40), (32, 42), (30, 70), (1, 70)], [SOUTH], "front side front side rear side")

lot("triangle", VENTURA, [(0, 0), (40, 0), (18, 45)], [SOUTH], "front side side")
lot("triangle on a corner", LEWISBURG, [(0, 0), (30, 0), (0, 40)], [SOUTH, WEST], "front side street-side")
lot("curved front, outward", VENTURA, [(0, 0), (20, 0), (26, 40), (-6, 40)], [street(arc((10, 30), 36, 240, 300, 12), reach=8)], "front side rear side", curves=[(0, arc((10, 30), 31.623, 251.565, 288.435, 8))])
lot("curved front, end of a street", LEWISBURG, [(0, 0), (12, 0), (30, 40), (-18, 40)], [street(arc((6, -9), 6, 0, 180, 12), reach=9)], "front side rear side", curves=[(0, arc((6, -9), 10.817, 123.69, 56.31, 8))])
lot("five sides, two as far behind", VENTURA, [(0, 0), (30, 0), (30, 20), (15, 42), (0, 20)], [SOUTH], "front side tie tie side")
lot("five sides, one farthest", LEWISBURG, [(0, 0), (30, 0), (34, 25), (6, 45), (-2, 15)], [SOUTH], "front side rear side side")
lot("six sides", LEWISBURG, [(0, 0), (30, 0), (38, 18), (30, 40), (0, 40), (-8, 18)], [SOUTH], "front side side rear side side")
lot("lakeshore", ORONO, BOX, [SOUTH, ("water", 12.0, [(-50, 44), (100, 46)])], "front side shore side")
lot("lakeshore beside", ORONO, BOX, [SOUTH, ("water", 12.0, [(22, -50), (22, 100)])], "front shore rear side")
lot("no street", INDIAN, BOX, [], "none none none none")
lot("gore: two streets meet in a point", INDIAN, [(0, 0), (60, 0), (55, 20), (30, 14)], [SOUTH, street([(-6, 2.5), (28, 18), (54, 25)])], "street-side side front front")

if __name__ == "__main__":
    print(len(LOTS))
    here = pathlib.Path(__file__).parent
    (here / "lots.jsonl").write_text("".join(json.dumps(entry, separators=(",", ":")) + "\n" for entry in LOTS))

#!/usr/bin/env python3
"""Writes reference/box_solids.csv: volumes and centroids of walls by a general mesh library.

pip install manifold3d==3.5.4; then: tools/boxes.py > reference/box_solids.csv

Each box is made as a joiner would: walls take their wood from the shell one after the other, or
are trimmed by the plane through their outer and their inner edge. Round things are polygons of
the same area as the circle.
"""

import math
from importlib.metadata import version

import numpy
from manifold3d import Manifold

WALLS = "FBLRTU"  # front, back, left, right, top, bottom
SEGMENTS = 720

# Sizes in mm, leans in degrees; pattern, order in which walls run through.
BOXES = [
    # pattern, order, size, leans, thicknesses, setback, step share, hole, pocket, rounding
    ("order", "FBTULR", (320, 210, 180), (0, 0), (12, 12, 12, 12, 12, 12), 0, 0, (160, 100, 90), (0, 0, 0), 0),
    ("order", "LRFBTU", (250, 400, 220), (0, 0), (18, 15, 18, 16, 22, 18), 0, 0, (125, 250, 130), (100, 90, 40), 0),
    ("order", "TULRFB", (300, 350, 260), (10, 0), (18, 12, 15, 15, 18, 21), 0, 0, (150, 180, 150), (60, 120, 30), 0),
    ("order", "TULRFB", (300, 350, 260), (0, 0), (18, 12, 15, 15, 18, 21), 9, 0, (150, 180, 150), (60, 120, 30), 0),
    ("mitre", "", (280, 330, 240), (0, 0), (15, 15, 15, 15, 15, 15), 0, 0, (140, 170, 120), (0, 0, 0), 0),
    ("mitre", "", (280, 330, 300), (12, 6), (19, 12, 15, 16, 18, 22), 0, 0, (140, 170, 120), (0, 0, 0), 0),
    ("ring", "", (260, 420, 300), (8, 0), (18, 18, 15, 15, 15, 20), 0, 0, (130, 200, 100), (110, 120, 50), 0),
    ("inset", "", (260, 420, 300), (8, 3), (18, 12, 15, 16, 17, 20), 7, 0, (130, 200, 100), (0, 0, 0), 0),
    ("rebate", "TULRFB", (310, 290, 270), (0, 0), (18, 18, 18, 18, 18, 18), 0, 0.5, (155, 140, 150), (155, 130, 60), 0),
    ("rebate", "FBLRTU", (310, 290, 270), (6, 4), (12, 15, 18, 19, 20, 21), 0, 0.4, (155, 140, 150), (155, 130, 60), 0),
    ("inset", "", (300, 200, 160), (0, 0), (12, 12, 12, 12, 12, 12), 3, 0, (150, 100, 80), (0, 0, 0), 9),
]


def planes(size, leans, walls, setback):
    """Normal with offsets of the block, of the outer and of the inner face."""
    width, height, depth = size
    f, b = (math.radians(lean) for lean in leans)
    block = {
        "F": ((0, -math.cos(f), math.sin(f)), 0.0),
        "B": ((0, math.cos(b), math.sin(b)), depth * math.cos(b)),
        "L": ((-1, 0, 0), 0.0),
        "R": ((1, 0, 0), width),
        "T": ((0, 0, 1), height),
        "U": ((0, 0, -1), 0.0),
    }
    back = {wall: setback if wall == "F" else 0.0 for wall in WALLS}
    return {
        wall: (numpy.array(n, float), o, o - back[wall], o - back[wall] - thick)
        for (wall, (n, o)), thick in zip(block.items(), walls)
    }


def below(solid, normal, offset):
    return solid.trim_by_plane([-c for c in normal], -offset)


def above(solid, normal, offset):
    return solid.trim_by_plane(list(normal), offset)


def neighbours(wall):
    across = {"F": "B", "B": "F", "L": "R", "R": "L", "T": "U", "U": "T"}[wall]
    return [other for other in WALLS if other not in (wall, across)]


def meet(side, triple):
    """The point in which three planes (wall, which of its offsets) meet."""
    rows = [side[wall][0] for wall, _ in triple]
    return numpy.linalg.solve(numpy.array(rows), [side[wall][k] for wall, k in triple])


def mitred(solid, side, wall, other):
    """Trimmed by the plane through the outer and the inner edge."""
    first, second = [end for end in WALLS if end in neighbours(wall) and end in neighbours(other)]
    outer = [meet(side, [(wall, 2), (other, 2), (end, 1)]) for end in (first, second)]
    inner = meet(side, [(wall, 3), (other, 3), (first, 3)])
    normal = numpy.cross(outer[1] - outer[0], inner - outer[0])
    normal /= numpy.linalg.norm(normal)
    far = meet(side, [(wall, 3), (other, 2), (first, 1)])
    if normal @ (far - outer[0]) < 0:  # the corner of the other wall lies outside
        normal = -normal
    return below(solid, normal, normal @ outer[0])


def taken(rest, side, wall):
    """What lies beyond the inner face, and what of it is wood."""
    normal, _, outer, inner = side[wall]
    whole = above(rest, normal, inner)
    return whole, below(whole, normal, outer)


def walls_of(pattern, order, side, shell, share, thick):
    ring = "LTRU"
    pieces, rest = {}, shell
    if pattern == "mitre":
        for wall in WALLS:
            piece = taken(shell, side, wall)[1]
            for other in neighbours(wall):
                piece = mitred(piece, side, wall, other)
            pieces[wall] = piece
        return pieces
    if pattern in ("ring", "inset"):
        ends_first = pattern == "ring"
        if ends_first:
            for wall in "FB":
                whole, pieces[wall] = taken(rest, side, wall)
                rest = rest - whole
        for wall in ring:
            piece = taken(rest, side, wall)[1]
            for other in ring:
                if other in neighbours(wall):
                    piece = mitred(piece, side, wall, other)
            pieces[wall] = piece
        if not ends_first:
            for wall in ring:
                rest = rest - pieces[wall]
            for wall in "FB":
                pieces[wall] = taken(rest, side, wall)[1]
        return pieces
    for k, wall in enumerate(order):
        whole, piece = taken(rest, side, wall)
        if pattern == "rebate":
            normal, _, _, inner = side[wall]
            for other in order[k + 1 :]:
                if other in neighbours(wall):
                    step = below(whole, normal, inner + share * thick[wall])
                    step = above(step, side[other][0], side[other][3])
                    whole, piece = whole - step, piece - step
        pieces[wall] = piece
        rest = rest - whole
    return pieces


def even(radius):
    """Radius of the polygon with the area of the circle."""
    turn = 2 * math.pi / SEGMENTS
    return radius * math.sqrt(turn / math.sin(turn))


def drilled(solid, frame, diameter, depth):
    """A bore from just outside its face to a depth below it."""
    across, up, out, at = frame
    bore = Manifold.cylinder(depth + 50, even(diameter / 2), circular_segments=SEGMENTS)
    start = at - depth * out
    matrix = numpy.column_stack([across, up, out, start])
    return solid - bore.transform(matrix)


def rounded(shell, size, radius):
    """The four edges from front to back, of upright boxes."""
    width, height, depth = size
    for x, z in ((0, 0), (0, 1), (1, 0), (1, 1)):
        corner = Manifold.cube([radius, 3 * depth, radius])
        corner = corner.translate([(width - radius) * x, -depth, (height - radius) * z])
        rod = Manifold.cylinder(3 * depth, even(radius), circular_segments=SEGMENTS)
        rod = rod.rotate([-90, 0, 0])
        middle = [width - radius if x else radius, -depth, height - radius if z else radius]
        shell = shell - (corner - rod.translate(middle))
    return shell


def moments(solid):
    mesh = solid.to_mesh64()
    corners = numpy.array(mesh.vert_properties)[:, :3][numpy.array(mesh.tri_verts)]
    six = numpy.einsum("ij,ij->i", corners[:, 0], numpy.cross(corners[:, 1], corners[:, 2]))
    centre = (corners.sum(axis=1) * six[:, None]).sum(axis=0) / (4 * six.sum())
    return six.sum() / 6, centre


def check(shell, side, pieces):
    """Whether the library lost nothing: it sometimes does where planes nearly fall together."""
    normal, _, outer, _ = side["F"]
    before = above(shell, normal, outer)
    for wall in WALLS[1:]:
        before = before - pieces[wall]
    rest = shell.volume() - before.volume() - sum(piece.volume() for piece in pieces.values())
    if abs(rest) > 1e-3:
        raise SystemExit(f"{rest} mm³ lost: choose slightly other sizes")


def main():
    print(f"# Volumes and centroids of the walls of boxes: manifold3d {version('manifold3d')} (tools/boxes.py).")
    print("# Sizes in mm, leans in degrees, walls in the order front, back, left, right, top, bottom (U).")
    print("# Patterns: order (butts, walls run through in this order), mitre (all edges), ring (left, top,")
    print("# right, bottom mitred, front and back over them), inset (front and back within that ring), rebate")
    print("# (as order, with steps of this share of the thickness). A hole through the front and a pocket 6 mm")
    print("# deep in the top: across, up, diameter from the side's lower left corner. Rounding of the ring's edges.")
    fields = "pattern,order,width,height,depth,front_lean,back_lean,tF,tB,tL,tR,tT,tU,setback,share,"
    fields += "hole_x,hole_y,hole_d,pocket_x,pocket_y,pocket_d,round"
    found = [f"{what}{wall}" for wall in WALLS for what in ("volume_mm3_", "x_mm_", "y_mm_", "z_mm_")]
    print(",".join([fields, *found]))
    for pattern, order, size, leans, thick, setback, share, hole, pocket, radius in BOXES:
        side = planes(size, leans, thick, setback)
        world = Manifold.cube([4000, 4000, 4000]).translate([-2000, -2000, -2000])
        shell, room = world, world
        for normal, block, _, inner in side.values():
            shell, room = below(shell, normal, block), below(room, normal, inner)
        shell = shell - room
        if radius:
            shell = rounded(shell, size, radius)
        pieces = walls_of(pattern, order, side, shell, share, dict(zip(WALLS, thick)))
        check(shell, side, pieces)
        lean = math.radians(leans[0])
        out, up = side["F"][0], numpy.array([0, math.sin(lean), math.cos(lean)])
        right = numpy.array([1.0, 0, 0])
        foot = hole[0] * right + hole[1] * up - setback * out
        pieces["F"] = drilled(pieces["F"], (right, up, out, foot), hole[2], thick[0] + 1)
        if pocket[2]:
            top = numpy.array([pocket[0], pocket[1] + size[1] * math.tan(lean), size[1]], float)
            axes = (right, numpy.array([0, 1.0, 0]), numpy.array([0, 0, 1.0]), top)
            pieces["T"] = drilled(pieces["T"], axes, pocket[2], 6)
        numbers = []
        for wall in WALLS:
            volume, centre = moments(pieces[wall])
            numbers += [f"{volume:.6f}", *(f"{c:.8f}" for c in centre)]
        given = [pattern, order or "-", *size, *leans, *thick, setback, share, *hole, *pocket, radius]
        print(",".join([*map(str, given), *numbers]))


if __name__ == "__main__":
    main()

#!/usr/bin/env python3
"""Writes reference/solid_distances.csv: how pairs of solids stand to each other by general libraries.

pip install python-fcl==0.7.0.11 clarabel==0.11.1 scipy==1.17.1; then:
tools/solids.py > reference/solid_distances.csv

Blocks, cylinders and cones in random attitudes. Whether two meet is asked of a collision library.
Its distances of round solids are true to some hundredths of a millimetre only, so that those come
from a solver of second-order cone programs: the shortest difference of a point in the one and a
point in the other.
"""

from importlib.metadata import version

import clarabel
import fcl
import numpy
from scipy import sparse

ROWS = 10_000
KINDS = ("block", "cylinder", "cone")


def solid(kind: str, size: list[int]) -> fcl.CollisionGeometry:
    """Of sizes in mm: the block's three sides; radius and height of the others, about z."""
    a, b, c = (0.001 * side for side in size)
    return {
        "block": lambda: fcl.Box(a, b, c),
        "cylinder": lambda: fcl.Cylinder(a, b),
        "cone": lambda: fcl.Cone(a, b),
    }[kind]()


def rotation(quaternion: numpy.ndarray) -> numpy.ndarray:
    w, x, y, z = quaternion / numpy.linalg.norm(quaternion)
    return numpy.array(
        [
            [1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)],
            [2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)],
            [2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)],
        ]
    )


def meet(first, second, turn: numpy.ndarray, at: numpy.ndarray) -> bool:
    here = fcl.Transform(numpy.eye(3), numpy.zeros(3))
    there = fcl.Transform(rotation(turn), at)
    pair = fcl.CollisionObject(first, here), fcl.CollisionObject(second, there)
    return bool(fcl.collide(*pair, fcl.CollisionRequest(), fcl.CollisionResult()))


def within(kind: str, size: numpy.ndarray, start: int):
    """Rows A, b and cones of: the three variables from `start` lie in the solid, b - A v in cone."""

    def row(*entries: tuple[int, float]) -> numpy.ndarray:
        line = numpy.zeros(7)
        for index, value in entries:
            line[start + index] = value
        return line

    if kind == "block":
        rows = [row((i, sign)) for i in range(3) for sign in (1, -1)]
        return rows, [size[i] / 2 for i in range(3) for _ in (1, -1)], [clarabel.NonnegativeConeT(6)]
    radius, height = size[:2]
    slope = radius / height if kind == "cone" else 0.0
    start_radius = radius / 2 if kind == "cone" else radius
    rows = [row((2, 1)), row((2, -1)), row((2, slope)), row((0, -1)), row((1, -1))]
    limits = [height / 2, height / 2, start_radius, 0, 0]
    return rows, limits, [clarabel.NonnegativeConeT(2), clarabel.SecondOrderConeT(3)]


def distance(kinds, sizes, turn: numpy.ndarray, at: numpy.ndarray) -> float:
    """Variables: a point of the first, a point of the second in its own frame, their distance."""
    rows, limits, cones = within(kinds[0], sizes[0], 0)
    for found, taken in zip(within(kinds[1], sizes[1], 3), (rows, limits, cones), strict=True):
        taken.extend(found)
    apart = numpy.zeros((4, 7))
    apart[0, 6] = -1
    apart[1:, :3] = -numpy.eye(3)
    apart[1:, 3:6] = rotation(turn)
    matrix = sparse.csc_matrix(numpy.vstack([numpy.array(rows), apart]))
    limits = numpy.array([*limits, 0, *-at])
    cones = [*cones, clarabel.SecondOrderConeT(4)]
    settings = clarabel.DefaultSettings()
    settings.verbose = False
    settings.tol_gap_abs = settings.tol_gap_rel = settings.tol_feas = 1e-11
    aim = numpy.zeros(7)
    aim[6] = 1
    solver = clarabel.DefaultSolver(sparse.csc_matrix((7, 7)), aim, matrix, limits, cones, settings)
    return solver.solve().obj_val


def main() -> None:
    draw = numpy.random.default_rng(20_251)
    libraries = ("python-fcl", "clarabel")
    named = ", ".join(f"{name} {version(name)}" for name in libraries)
    print(f"# Whether two solids meet, and their distance in m: {named} (tools/solids.py).")
    print("# The first stands about the origin, the second is turned by the quaternion (w, x, y, z; not of")
    print("# length 1), then moved. Sizes in mm: sides of a block; radius, height of a cylinder or cone about z.")
    print("first,a1,a2,a3,second,b1,b2,b3,w,x,y,z,at_x_mm,at_y_mm,at_z_mm,meet,distance_m")
    for _ in range(ROWS):
        kinds = [KINDS[i] for i in draw.integers(0, 3, 2)]
        sizes = draw.integers(10, 200, (2, 3))
        turn = numpy.array([0, 0, 0, 0])
        while not turn.any():
            turn = draw.integers(-5, 6, 4)
        at = draw.integers(-200, 201, 3)
        first, second = (solid(k, s) for k, s in zip(kinds, sizes, strict=True))
        hit = meet(first, second, turn.astype(float), 0.001 * at)
        apart = 0.0 if hit else distance(kinds, 0.001 * sizes, turn.astype(float), 0.001 * at)
        words = [kinds[0], *sizes[0], kinds[1], *sizes[1], *turn, *at, int(hit), f"{apart:.9f}"]
        print(",".join(str(word) for word in words))


if __name__ == "__main__":
    main()

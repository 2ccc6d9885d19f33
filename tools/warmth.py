#!/usr/bin/env python3
"""Follows a warm box in time by a general solver of differential equations.

    pip install numpy scipy    # nothing else here needs them
    tools/warmth.py

Writes reference/box_warmth.csv: five bodies (chip, its board, the air in the box, the
inner and the outer half of the walls) and the air outdoors, with natural convection and
radiation written here a second time. Radau with tolerances of 1e-11; the rest by a
root finder.
"""

import csv
import pathlib

import numpy
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import fsolve

KELVIN = 273.15
SIGMA = 5.670374419e-8
PRESSURE = 101325.0
OUTDOORS = 38.0
HEAT = [6.0, 0.5, 2.0, 0.0, 40.0]
CAPACITY = [0.8, 45.0, 14.0, 1900.0, 1900.0]
CHIP_TO_BOARD = 0.4  # W/K
BOARD = (0.012, 0.06)  # m2, m
WALLS = (0.42, 0.22)
WOOD = 0.42 * 0.13 / 0.012  # W/K


def film(length, surface, air):
    kelvin = 0.5 * (surface + air) + KELVIN
    viscosity = 1.458e-6 * kelvin**1.5 / (kelvin + 110.4)
    conductivity = 2.648151e-3 * kelvin**1.5 / (kelvin + 245.4 * 10 ** (-12 / kelvin))
    density = PRESSURE * 0.02896442 / (8.314462618 * kelvin)
    prandtl = viscosity * 3.5 * 8.314462618 / 0.02896442 / conductivity
    rayleigh = 9.80665 * abs(surface - air) * length**3 * prandtl / (kelvin * (viscosity / density) ** 2)
    root = 0.825 + 0.387 * rayleigh ** (1 / 6) / (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27)
    return root**2 * conductivity / length


def convection(plate, surface, air):
    area, length = plate
    return area * film(length, surface, air) * (surface - air)


def radiation(area, hot, cold):
    return SIGMA * 0.9 * area * ((hot + KELVIN) ** 4 - (cold + KELVIN) ** 4)


def net(celsius):
    chip, board, air, inner, outer = celsius
    flows = [
        (0, 1, CHIP_TO_BOARD * (chip - board)),
        (1, 2, convection(BOARD, board, air)),
        (1, 3, radiation(BOARD[0], board, inner)),
        (3, 2, convection(WALLS, inner, air)),
        (3, 4, WOOD * (inner - outer)),
        (4, None, convection(WALLS, outer, OUTDOORS) + radiation(WALLS[0], outer, OUTDOORS)),
    ]
    heat = list(HEAT)
    for start, end, flow in flows:
        heat[start] -= flow
        if end is not None:
            heat[end] += flow
    return numpy.array(heat)


def main():
    times = [10, 60, 300, 900, 1800, 3600, 7200, 21600]
    course = solve_ivp(
        lambda _, celsius: net(celsius) / numpy.array(CAPACITY),
        (0, times[-1]),
        [25.0] * 5,
        method="Radau",
        t_eval=times,
        rtol=1e-11,
        atol=1e-11,
    )
    rest = fsolve(net, [80.0, 70.0, 50.0, 48.0, 45.0], xtol=1e-13)
    path = pathlib.Path(__file__).resolve().parent.parent / "reference" / "box_warmth.csv"
    with path.open("w", newline="", encoding="utf-8") as file:
        file.write(
            f"# A warm box by Radau and a root finder of SciPy {scipy.__version__} (scipy), laws churchill-chu-1975 and iso-2533 written a second time;\n"
            "# written by tools/warmth.py, which holds the numbers of the box. Temperatures in degrees Celsius; the last row is the rest.\n"
        )
        rows = csv.writer(file, lineterminator="\n")
        rows.writerow(["seconds", "chip", "board", "air", "inner", "outer"])
        for time, celsius in zip(times, course.y.T):
            rows.writerow([time] + [f"{value:.9f}" for value in celsius])
        rows.writerow(["inf"] + [f"{value:.9f}" for value in rest])


if __name__ == "__main__":
    main()

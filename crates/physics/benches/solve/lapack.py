"""Solves a stack of systems of equations each time it is asked to.

Arguments: equations in each system, how many systems, the file with the
matrices and after them the right-hand sides, the file the solutions go to.
Answers every line of its input with the seconds of one solve of the whole
stack; reading and writing are not counted.
"""

import sys
import time

import numpy

size, count = int(sys.argv[1]), int(sys.argv[2])
numbers = numpy.fromfile(sys.argv[3], dtype="<c16")
matrices = numbers[: count * size * size].reshape(count, size, size)
right = numbers[count * size * size :].reshape(count, size, 1)
solutions = right
for _ in sys.stdin:
    start = time.perf_counter()
    solutions = numpy.linalg.solve(matrices, right)
    print(time.perf_counter() - start, flush=True)
solutions.astype("<c16").tofile(sys.argv[4])

#!/usr/bin/env python3
"""Lays thirty generated jobs out by CP-SAT and sets our layouts beside them.

    pip install ortools        # a general solver; nothing else here needs it
    tools/sawing.py

Writes reference/sawing_jobs.csv (the jobs) and reference/sawing_cp_sat.csv
(what CP-SAT proved and found, and both times of this one run). Two models:

- *free*: rectangles anywhere on the sheets without overlap, kerf included. Every
  guillotine layout is one of these, so what is proven here of sheets and area
  bounds ours from below. Its own layouts need not be sawable.
- *strips*: strips the length of a sheet, blanks side by side in each. These can be
  sawn, so ours should be no worse; ours may have more stages.

Both minimise sheets bought first, then the area of all stock cut into.

    tools/sawing.py --plans 150

writes reference/sawing_plans.csv instead, for the jobs those models leave open. The
area is that of the stock cut into, so only a few choices of stock are cheaper than
ours. Each is put to CP-SAT by itself, with that many seconds and one worker: can all
blanks be laid on just this stock, sawable or not? Where they cannot, no layout has it.
"""

import argparse
import csv
import itertools
import json
import math
import pathlib
import random
import subprocess
import time

import ortools
from ortools.sat.python import cp_model

ROOT = pathlib.Path(__file__).resolve().parent.parent
JOBS = ROOT / "reference/sawing_jobs.csv"
RESULTS = ROOT / "reference/sawing_cp_sat.csv"
PLANS = ROOT / "reference/sawing_plans.csv"
KERF, TRIM = 3, 10
SHEETS = [(2500, 1250), (1525, 1525), (1220, 610), (1250, 800), (2440, 1220)]


def boxes(draw, blanks):
    """Blanks of boxes of one kind after another, in mm, until there are enough."""
    made, run = [], 0
    while len(made) < blanks:
        width, height, depth = draw.randint(180, 620), draw.randint(150, 420), draw.randint(120, 320)
        wall, turns = draw.choice([9, 12, 15, 18]), draw.random() < 0.5
        sides = [(height, depth), (width - 2 * wall, depth)]
        ring = [sides[0], sides[1], sides[0], sides[1]]
        around = run if draw.random() < 0.3 else None
        made += [(*size, turns and around is None, around) for size in ring]
        run += around is not None
        made += [(width, height, turns, None)] * 2
        for _ in range(draw.randint(0, 3)):
            made.append((draw.randint(60, width), draw.randint(40, 120), True, None))
    return made[:blanks] if all(blank[3] is None for blank in made) else made


def job(index):
    """One job: blanks (length, width, turns, run), stock (length, width, whole, count)."""
    draw = random.Random(1000 + index)
    count = [draw.randint(5, 10), draw.randint(11, 20), draw.randint(21, 36)][index % 3]
    blanks = boxes(draw, count)
    stock = []
    for _ in range(draw.randint(0, 3) if index % 2 else 0):
        stock.append((draw.randint(300, 1200), draw.randint(200, 700), 0, draw.randint(1, 2)))
    sheet = draw.choice([size for size in SHEETS if index % 3 < 2 or size[0] * size[1] < 1.6e6])
    stock.append((*sheet, 1, None))
    return blanks, stock


def write_jobs(jobs):
    rows = [
        "# Thirty jobs for the saw, drawn at random by tools/sawing.py: walls and braces of invented boxes.",
        f"# Lengths in mm; kerf {KERF}, trim of whole sheets {TRIM}, no other limits of the saw.",
        "# Row blank: length along the grain, width, may turn, run; row stock: length, width, whole sheet, count on hand (empty: to be bought).",
        "job,row,length,width,turns_or_whole,run_or_count",
    ]
    for index, (blanks, stock) in enumerate(jobs):
        for row, items in (("blank", blanks), ("stock", stock)):
            for length, width, flag, number in items:
                rows.append(f"{index},{row},{length},{width},{int(flag)},{'' if number is None else number}")
    JOBS.write_text("\n".join(rows) + "\n", encoding="utf-8")


def pieces(blanks, stock):
    """Rectangles with their kerf and whether they turn; a run is one where it fits."""
    runs, made = {}, []
    rooms = [room(*size, whole) for *size, whole, _ in stock]
    for length, width, turns, run in blanks:
        if run is None:
            made.append((length + KERF, width + KERF, turns))
        else:
            runs.setdefault(run, []).append((length + KERF, width + KERF))
    for members in runs.values():
        length, width = sum(member[0] for member in members), max(member[1] for member in members)
        if any(length <= long and width <= wide for long, wide in rooms):
            made.append((length, width, False))
        else:
            made += [(*member, False) for member in members]
    return made


def room(length, width, whole):
    """What can be used of a sheet, kerf included."""
    trim = 2 * TRIM if whole else 0
    return length - trim + KERF, width - trim + KERF


def bins(blanks, stock):
    """Rooms with their kerf, their areas, and whether they must be bought."""
    wanted, made = sum(length * width for length, width, _ in pieces(blanks, stock)), []
    for length, width, whole, count in stock:
        long, wide = room(length, width, whole)
        bought = count is None
        count = -(-wanted // (long * wide)) + 1 if bought else count
        made += [(long, wide, length * width, bought)] * count
    return made


def objective(model, used, rooms):
    """Sheets first, then area; identical bins are used in order."""
    for one in range(len(rooms) - 1):
        if rooms[one] == rooms[one + 1]:
            model.add(used[one] >= used[one + 1])
    much = 1 + sum(area for _, _, area, _ in rooms)
    costs = [area + much * bought for _, _, area, bought in rooms]
    model.minimize(sum(cost * use for cost, use in zip(costs, used)))
    return much


def free(blanks, stock):
    """Rectangles anywhere."""
    model, rooms = cp_model.CpModel(), bins(blanks, stock)
    used = [model.new_bool_var("") for _ in rooms]
    along, across, areas = [[] for _ in rooms], [[] for _ in rooms], [[] for _ in rooms]
    for length, width, turns in pieces(blanks, stock):
        ways = []
        for place, (long, wide, _, _) in enumerate(rooms):
            for a, b in {(length, width), (width, length)} if turns else {(length, width)}:
                if a > long or b > wide:
                    continue
                here = model.new_bool_var("")
                x, y = model.new_int_var(0, long - a, ""), model.new_int_var(0, wide - b, "")
                along[place].append(model.new_optional_fixed_size_interval_var(x, a, here, ""))
                across[place].append(model.new_optional_fixed_size_interval_var(y, b, here, ""))
                areas[place].append(a * b * here)
                model.add_implication(here, used[place])
                ways.append(here)
        model.add_exactly_one(ways)
    for place, (long, wide, _, _) in enumerate(rooms):
        model.add_no_overlap_2d(along[place], across[place])
        model.add(sum(areas[place]) <= long * wide * used[place])
    return model, objective(model, used, rooms)


def strips(blanks, stock):
    """Blanks side by side in strips along the sheet."""
    model, rooms, items = cp_model.CpModel(), bins(blanks, stock), pieces(blanks, stock)
    used = [model.new_bool_var("") for _ in rooms]
    heights, inside = [[] for _ in rooms], [[] for _ in items]
    for place, (long, wide, _, _) in enumerate(rooms):
        for _ in range(max(1, min(len(items), wide // min(min(size[:2]) for size in items)))):
            height, lengths = model.new_int_var(0, wide, ""), []
            heights[place].append(height)
            for index, (length, width, turns) in enumerate(items):
                for a, b in {(length, width), (width, length)} if turns else {(length, width)}:
                    if a > long or b > wide:
                        continue
                    here = model.new_bool_var("")
                    model.add(height >= b).only_enforce_if(here)
                    model.add_implication(here, used[place])
                    lengths.append(a * here)
                    inside[index].append(here)
            model.add(sum(lengths) <= long)
        for one, other in zip(heights[place], heights[place][1:]):
            model.add(one >= other)
        model.add(sum(heights[place]) <= wide)
    for ways in inside:
        model.add_exactly_one(ways)
    return model, objective(model, used, rooms)


def cheaper(blanks, stock, ours):
    """Choices of stock with room enough that cost less than ours, cheapest first: sheets, area, counts."""
    wanted = sum(length * width for length, width, _ in pieces(blanks, stock))
    most = [ours[0] if count is None else count for *_, count in stock]
    for counts in itertools.product(*(range(count + 1) for count in most)):
        chosen = list(zip(counts, stock))
        area = sum(times * length * width for times, (length, width, *_) in chosen)
        sheets = sum(times for times, kind in chosen if kind[3] is None)
        offered = sum(times * math.prod(room(*kind[:3])) for times, kind in chosen)
        if (sheets, area) < ours and offered >= wanted:
            yield sheets, area, counts


def sums(choices, most):
    """Sums up to most of some sizes, no more than one of each choice."""
    reached = 1
    for sizes in choices:
        before = reached
        for size in sizes:
            reached |= before << size
        reached &= (1 << (most + 1)) - 1
    return [total for total in range(most + 1) if reached >> total & 1]


def decision(items, rooms):
    """All of these pieces on all of these rooms. Every piece lies at a sum of sizes of
    others, for it can be pushed into the corner until it meets them."""
    model = cp_model.CpModel()
    items = sorted(items, key=lambda item: -item[0] * item[1])
    inside = [[model.new_bool_var("") for _ in rooms] for _ in items]
    filled = [sum(a * b * held[place] for (a, b, _), held in zip(items, inside)) for place in range(len(rooms))]
    for held in inside:
        model.add_exactly_one(held)
    for place, (long, wide) in enumerate(rooms):
        fit(model, items, [held[place] for held in inside], long, wide)
        model.add(filled[place] <= long * wide)
    number = [sum(place * here for place, here in enumerate(held)) for held in inside]
    for one in range(len(items) - 1):
        if items[one] == items[one + 1]:
            model.add(number[one] <= number[one + 1])
    for one in range(len(rooms) - 1):
        if rooms[one] == rooms[one + 1]:
            model.add(filled[one] >= filled[one + 1])
    return model


def fit(model, items, inside, long, wide):
    """Those pieces that are inside lie in one room without overlap."""
    poses = [
        sorted((a, b) for a, b in ({(l, w), (w, l)} if turns else {(l, w)}) if a <= long and b <= wide)
        for l, w, turns in items
    ]
    at = [sums([{pose[axis] for pose in ways} for ways in poses if ways], (long, wide)[axis]) for axis in (0, 1)]
    along, across = [], []
    for index, ways in enumerate(poses):
        heres = [model.new_bool_var("") if len(ways) > 1 else inside[index] for _ in ways]
        for (a, b), here in zip(ways, heres):
            # A layout may be mirrored: the largest piece keeps to one quarter.
            ends = [(span - size) // 2 + 1 if index == 0 else span - size for span, size in ((long, a), (wide, b))]
            x, y = (
                model.new_int_var_from_domain(cp_model.Domain.from_values([v for v in places if v <= end]), "")
                for places, end in zip(at, ends)
            )
            along.append(model.new_optional_fixed_size_interval_var(x, a, here, ""))
            across.append(model.new_optional_fixed_size_interval_var(y, b, here, ""))
        model.add(sum(heres) == inside[index])
    model.add_no_overlap_2d(along, across)
    sizes = [pose for ways in poses for pose in ways]
    model.add_cumulative(along, [b for _, b in sizes], wide)
    model.add_cumulative(across, [a for a, _ in sizes], long)


def decide(items, rooms, seconds):
    """Whether all fit, as far as it can be told, and the time it took."""
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 1
    solver.parameters.use_energetic_reasoning_in_no_overlap_2d = True
    solver.parameters.use_area_energetic_reasoning_in_no_overlap_2d = True
    start = time.perf_counter()
    status = solver.solve(decision(items, rooms))
    told = {cp_model.INFEASIBLE: "impossible", cp_model.OPTIMAL: "fits", cp_model.FEASIBLE: "fits"}
    return told.get(status, "open"), time.perf_counter() - start


def write_plans(jobs, seconds):
    """Every cheaper choice of stock, the largest first: what fits on none fits on no part of it."""
    rows = []
    for index, line in enumerate(csv.DictReader(line for line in RESULTS.open(encoding="utf-8") if line[0] != "#")):
        blanks, stock = jobs[index]
        ours = int(line["our_sheets"]), int(line["our_area"])
        verdicts = {}
        plans = sorted(cheaper(blanks, stock, ours), key=lambda plan: -sum(plan[2]))
        for sheets, area, counts in plans:
            holds = lambda other: all(a <= b for a, b in zip(counts, other))
            if any(verdict == "impossible" and holds(other) for other, verdict in verdicts.items()):
                verdicts[counts], spent = "impossible", 0.0
            else:
                rooms = [room(*kind[:3]) for times, kind in zip(counts, stock) for _ in range(times)]
                rooms.sort(key=math.prod)
                verdicts[counts], spent = decide(pieces(blanks, stock), rooms, seconds)
            said = " + ".join(f"{n} of {k[0]} x {k[1]}" for n, k in zip(counts, stock) if n)
            rows.append([index, sheets, area, said, verdicts[counts], f"{spent:.1f}"])
            print(*rows[-1], flush=True)
    rows.sort(key=lambda row: row[:3])
    with PLANS.open("w", encoding="utf-8", newline="") as file:
        file.write(
            "# Choices of stock with room enough that would cost less than our layouts of sawing_cp_sat.csv, each put to\n"
            f"# CP-SAT of OR-Tools {ortools.__version__} (or-tools) by itself, one worker, at most {seconds:g} s; written by tools/sawing.py --plans.\n"
            "# impossible: proven that the blanks do not fit, sawable or not; fits: laid on it without regard to the saw;\n"
            "# open: neither in that time. Areas in mm2; seconds 0 where a larger choice is impossible.\n"
        )
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow("job,sheets,area,stock,verdict,seconds".split(","))
        writer.writerows(rows)


def solve(build, blanks, stock, seconds):
    """Sheets and area found and proven, and the time it took."""
    start = time.perf_counter()
    model, much = build(blanks, stock)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 2
    status = solver.solve(model)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return {
        "found": divmod(round(solver.objective_value), much) if found else ("", ""),
        "bound": proven(solver.best_objective_bound, much, bins(blanks, stock)),
        "seconds": time.perf_counter() - start,
    }


def proven(bound, much, rooms):
    """Sheets and area that a bound of sheets * much + area proves: the fewest
    sheets with which all stock together is worth that much, and the area left then."""
    bound = max(0, math.ceil(bound - 0.5))
    on_hand = sum(area for _, _, area, bought in rooms if not bought)
    areas = sorted((area for _, _, area, bought in rooms if bought), reverse=True)
    sheets = 0
    while sheets < len(areas) and sheets * much + on_hand + sum(areas[:sheets]) < bound:
        sheets += 1
    return sheets, max(0, bound - sheets * much)


def ours():
    """Our layouts, timed by the benchmark."""
    command = ["cargo", "bench", "-q", "-p", "boxwright-wood", "--bench", "sawing", "--", "--json"]
    return json.loads(subprocess.run(command, check=True, capture_output=True, cwd=ROOT).stdout)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seconds", type=float, default=10, help="for each model of each job")
    parser.add_argument("--jobs-only", action="store_true", help="write the jobs and stop")
    parser.add_argument("--plans", type=float, metavar="SECONDS", help="decide each cheaper choice of stock")
    arguments = parser.parse_args()
    jobs = [job(index) for index in range(30)]
    if arguments.plans:
        write_plans(jobs, arguments.plans)
        return
    write_jobs(jobs)
    if arguments.jobs_only:
        return
    rows = []
    for index, (layout, (blanks, stock)) in enumerate(zip(ours(), jobs)):
        below = solve(free, blanks, stock, arguments.seconds)
        above = solve(strips, blanks, stock, arguments.seconds)
        rows.append([
            index, len(blanks), *below["bound"], *below["found"], *above["found"],
            layout["bought"], layout["area_mm2"], f"{layout['ms']:.3g}",
            f"{1e3 * below['seconds']:.3g}", f"{1e3 * above['seconds']:.3g}",
        ])
        print(*rows[-1], flush=True)
    with RESULTS.open("w", encoding="utf-8", newline="") as file:
        file.write(
            f"# The jobs of sawing_jobs.csv by CP-SAT of OR-Tools {ortools.__version__} (or-tools), two workers, at most "
            f"{arguments.seconds:g} s a model; written by tools/sawing.py.\n"
            "# Areas in mm2. bound: fewest sheets proven for any layout, guillotine or not, and the least area on so few; free: found without regard to the saw;\n"
            "# strips: found with strips along the sheet; ours: found in the same run; times in ms.\n"
        )
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(
            "job,blanks,bound_sheets,bound_area,free_sheets,free_area,strips_sheets,strips_area,"
            "our_sheets,our_area,our_ms,free_ms,strips_ms".split(",")
        )
        writer.writerows(rows)


if __name__ == "__main__":
    main()

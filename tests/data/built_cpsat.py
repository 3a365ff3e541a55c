"""Solves the orders of a file (built.csv, built_small.csv) with OR-Tools CP-SAT.

A walk is a circuit through the steps and a node that stands for beginning and end. A step's rank is
one more than that of the one before it; no step comes before one that it waits for. The walking time
weighs most, then zone changes, then steps back in the order of the zones, as in the planner's cost.
Hands-on time is the same in every order.

What the solver is spared, so that it can prove its answer: a step that another of the same zone can
stand for (all that it waits for the other waits for too, and all that waits for it), what is done at
once where one stands at the beginning, and ways between steps that must have another in between.

    pip install ortools
    python built_cpsat.py built.csv 30 > built_cpsat.csv
    python built_cpsat.py built_small.csv 120 > built_small_cpsat.csv
"""

import pathlib
import sys
from time import perf_counter as clock

from ortools.sat.python import cp_model


def read(line):
    seed, start, walks, steps = line.split(";")
    pairs = [walk.split(":") for walk in walks.split()]
    ends = [tuple(map(int, pair.split("-"))) for pair, _ in pairs]
    zones = range(max(map(max, ends)) + 1)
    way = [[0 if a == b else 10**6 for b in zones] for a in zones]
    for (a, b), (_, seconds) in zip(ends, pairs):
        way[a][b] = way[b][a] = min(way[a][b], int(seconds))
    for via in zones:
        for a in zones:
            for b in zones:
                way[a][b] = min(way[a][b], way[a][via] + way[via][b])
    found = []
    for step in steps.split():
        zone, seconds, after = step.split(":")
        found.append((int(zone), int(seconds), [int(one) for one in after.split(",") if one]))
    return int(seed), int(start), way, found


def essential(start, steps):
    """The steps that no other stands for, with all that each waits for in turn."""
    after = []
    for _, _, direct in steps:
        after.append(set(direct).union(*(after[one] for one in direct)))
    zone = [zone for zone, _, _ in steps]
    left = set(range(len(steps)))
    for step in sorted(left):
        if zone[step] == start and not after[step] & left:
            left.remove(step)
    before = {a: {b for b in left if a in after[b]} for a in left}
    for step in sorted(left):
        for other in left - {step}:
            if (
                zone[other] == zone[step]
                and (after[step] & left) - {other} <= after[other]
                and (before[step] & left) - {other} <= before[other]
            ):
                left.remove(step)
                break
    return {step: after[step] & left for step in sorted(left)}


def solve(start, way, steps, limit):
    after = essential(start, steps)
    nodes = sorted(after)
    zone = [steps[node][0] for node in nodes]
    after = [{nodes.index(one) for one in after[node]} for node in nodes]
    before = [{b for b in range(len(nodes)) if a in after[b]} for a in range(len(nodes))]

    def cost(a, b):
        return way[a][b] * 10_000 + (100 if a != b else 0) + (b < a)

    model = cp_model.CpModel()
    ends = len(nodes)
    rank = [
        model.new_int_var(len(after[node]), ends - 1 - len(before[node]), f"rank{node}")
        for node in range(ends)
    ]
    arcs, costs = [], []
    for a in range(ends):
        if not after[a]:
            first = model.new_bool_var(f"first{a}")
            arcs.append((ends, a, first))
            costs.append(cost(start, zone[a]) * first)
            model.add(rank[a] == 0).only_enforce_if(first)
        if not before[a]:
            last = model.new_bool_var(f"last{a}")
            arcs.append((a, ends, last))
            model.add(rank[a] == ends - 1).only_enforce_if(last)
        for b in range(ends):
            if a == b or b in after[a] or before[a] & after[b]:
                continue
            arc = model.new_bool_var(f"arc{a}_{b}")
            arcs.append((a, b, arc))
            costs.append(cost(zone[a], zone[b]) * arc)
            model.add(rank[b] == rank[a] + 1).only_enforce_if(arc)
        for b in before[a]:
            model.add(rank[a] < rank[b])
    if ends:
        model.add_circuit(arcs)
        model.add_all_different(rank)
    model.minimize(sum(costs))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 2
    solver.parameters.max_time_in_seconds = limit
    began = clock()
    status = solver.solve(model)
    took = clock() - began
    least = max(0, round(solver.best_objective_bound))
    return round(solver.objective_value), least, solver.status_name(status), took


def main():
    path = pathlib.Path(__file__).with_name(sys.argv[1])
    limit = float(sys.argv[2]) if len(sys.argv) > 2 else 60
    print("seed;elapsed_s;walk_s;zone_changes;backward;status;least_walk_s;seconds")
    for line in path.read_text().splitlines()[1:]:
        seed, start, way, steps = read(line)
        total, least, status, took = solve(start, way, steps, limit)
        walk, rest = divmod(total, 10_000)
        changes, backward = divmod(rest, 100)
        elapsed = walk + sum(seconds for _, seconds, _ in steps)
        found = (seed, elapsed, walk, changes, backward, status, least // 10_000, f"{took:.2f}")
        print(*found, sep=";", flush=True)


main()

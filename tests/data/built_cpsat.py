"""Solves the vehicles of built.csv with OR-Tools CP-SAT and prints built_cpsat.csv.

A walk is a row of visits to zones, a circuit with its ends joined. Each step falls into a visit to
its zone, none before a step that it waits for. The walking time weighs most, then zone changes, then steps back in the order of
the zones, as in the planner's cost. Hands-on time is the same in every order.

    pip install ortools
    python built_cpsat.py [seed …] >> built_cpsat.csv
"""

import pathlib
import sys
from time import perf_counter as clock

from ortools.sat.python import cp_model

ZONES = 12
# Visits to one zone at most; where all are used up in an answer, there might be a better one.
TIMES = 4


def read(line):
    seed, start, walks, steps = line.split(";")
    far = 10**6
    way = [[0 if a == b else far for b in range(ZONES)] for a in range(ZONES)]
    for walk in walks.split():
        ends, seconds = walk.split(":")
        a, b = map(int, ends.split("-"))
        way[a][b] = way[b][a] = min(way[a][b], int(seconds))
    for via in range(ZONES):
        for a in range(ZONES):
            for b in range(ZONES):
                way[a][b] = min(way[a][b], way[a][via] + way[via][b])
    found = []
    for step in steps.split():
        zone, seconds, after = step.split(":")
        found.append((int(zone), int(seconds), [int(one) for one in after.split(",") if one]))
    return int(seed), int(start), way, found


def solve(start, way, steps):
    """Visits are the nodes of a circuit through a node that stands for beginning and end."""
    model = cp_model.CpModel()
    needed = {zone for zone, _, _ in steps} | {start}
    nodes = [(zone, time) for zone in sorted(needed) for time in range(TIMES)]
    ends = len(nodes)
    first = nodes.index((start, 0))
    made = [model.new_bool_var(f"made{node}") for node in nodes]
    place = [model.new_int_var(0, ends, f"place{node}") for node in nodes]
    arcs, costs = [(ends, first, model.new_constant(1))], []
    model.add(place[first] == 0)
    for a, (zone, time) in enumerate(nodes):
        arcs.append((a, a, ~made[a]))
        arcs.append((a, ends, model.new_bool_var("")))
        for b, (other, _) in enumerate(nodes):
            if zone != other and b != first:
                arc = model.new_bool_var("")
                arcs.append((a, b, arc))
                costs.append((way[zone][other] * 10_000 + 100 + (other < zone)) * arc)
                model.add(place[b] == place[a] + 1).only_enforce_if(arc)
        if time > 0:
            model.add_implication(made[a], made[a - 1])
            model.add(place[a] > place[a - 1])
    model.add_circuit(arcs)
    at = []
    for zone, _, _ in steps:
        own = {time: model.new_bool_var("") for time in range(TIMES)}
        model.add_exactly_one(own.values())
        for time, here in own.items():
            model.add_implication(here, made[nodes.index((zone, time))])
        at.append(own)
    for number, (zone, _, after) in enumerate(steps):
        for before in after:
            other = steps[before][0]
            for time, here in at[number].items():
                for earlier, there in at[before].items():
                    if zone == other:
                        if earlier > time:
                            model.add_bool_or(~here, ~there)
                    else:
                        a, b = nodes.index((other, earlier)), nodes.index((zone, time))
                        model.add(place[a] < place[b]).only_enforce_if(here, there)
    model.minimize(sum(costs))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 4
    solver.parameters.max_time_in_seconds = 300
    began = clock()
    status = solver.solve(model)
    took = clock() - began
    return round(solver.objective_value), solver.status_name(status), took


def main():
    lines = pathlib.Path(__file__).with_name("built.csv").read_text().splitlines()[1:]
    wanted = set(map(int, sys.argv[1:]))
    for line in lines:
        seed, start, way, steps = read(line)
        if wanted and seed not in wanted:
            continue
        total, status, took = solve(start, way, steps)
        walk, rest = divmod(total, 10_000)
        changes, backward = divmod(rest, 100)
        elapsed = walk + sum(seconds for _, seconds, _ in steps)
        print(f"{seed};{elapsed};{walk};{changes};{backward};{status};{took:.2f}", flush=True)


main()

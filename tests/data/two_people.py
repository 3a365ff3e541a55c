"""Makes two_people.json: made-up lists of steps, each with the best way to share it between two
people, proved by CP-SAT (OR-Tools). Run: python3 two_people.py > two_people.json; a word after
it makes only the cases with that word in their name.

A step has a zone, hands-on seconds, steps that must have ended before, and perhaps a chain: all
steps of a chain are one person's, with nothing of that person's between. Both start in zone 0.
Best: least time until the last step ends, then least walking of both, then fewest zone changes.
"""

import json
import random
import sys

from ortools.sat.python import cp_model

LIMIT_S = 90


def walks(draw, zones):
    """Walking times, closed under shortest paths."""
    at = [[draw.randrange(0, 30), draw.randrange(0, 12)] for _ in range(zones)]
    table = [
        [0 if a == b else 2 + abs(p[0] - q[0]) + abs(p[1] - q[1]) for b, q in enumerate(at)]
        for a, p in enumerate(at)
    ]
    for via in range(zones):
        for a in range(zones):
            for b in range(zones):
                table[a][b] = min(table[a][b], table[a][via] + table[via][b])
    return table


def drawn(name, seed, steps, zones):
    """Steps in systems: mostly in order within one, now and then across; some systems are chains."""
    draw = random.Random(seed)
    jobs, systems = [], []
    while len(jobs) < steps:
        size = min(draw.randint(1, 5), steps - len(jobs))
        chain = len(systems) if size > 1 and draw.random() < 0.35 else None
        home = draw.randrange(zones)
        members = []
        for _ in range(size):
            before = {draw.choice(members)} if members and draw.random() < 0.8 else set()
            if chain is None and jobs and draw.random() < 0.12:
                before.add(draw.randrange(len(jobs)))
            members.append(len(jobs))
            zone = home if draw.random() < 0.7 else draw.randrange(zones)
            seconds = draw.choice([5, 5, 10, 10, 15, 20, 30, 60])
            jobs.append({"zone": zone, "seconds": seconds, "before": sorted(before), "chain": chain})
        systems.append(members)
    return {"name": name, "walks": walks(draw, zones), "jobs": jobs}


def delayed(name, seed, steps, zones):
    """The same, with some of what must have ended before for minutes: as a plan with waits."""
    case = drawn(name, seed, steps, zones)
    draw = random.Random(seed + 1)
    for job in case["jobs"]:
        asked = [before for before in job["before"] if draw.random() < 0.7]
        job["delays"] = [[before, draw.randint(1, 4)] for before in asked]
    return case


def best(case):
    """The best price and the bound on elapsed time."""
    model, jobs, walk = cp_model.CpModel(), case["jobs"], case["walks"]
    count = len(jobs)
    horizon = sum(job["seconds"] for job in jobs) + count * max(map(max, walk))
    horizon += 60 * sum(minutes for job in jobs for _, minutes in job.get("delays", []))
    start = [model.new_int_var(0, horizon, f"s{n}") for n in range(count)]
    elapsed = model.new_int_var(0, horizon, "elapsed")
    mine = [[model.new_bool_var(f"p{p}_{n}") for n in range(count)] for p in range(2)]
    walked, changes, chained = [], [], {}
    for person in range(2):
        own = []
        arcs = [(0, 0, model.new_bool_var(f"idle{person}"))]
        for b in range(count):
            arcs.append((b + 1, b + 1, ~mine[person][b]))
            for a in range(-1, count):
                if a == b:
                    continue
                arc = model.new_bool_var(f"a{person}_{a}_{b}")
                arcs.append((a + 1, b + 1, arc))
                here = 0 if a < 0 else jobs[a]["zone"]
                far = walk[here][jobs[b]["zone"]]
                free = 0 if a < 0 else start[a] + jobs[a]["seconds"]
                model.add(start[b] >= free + far).only_enforce_if(arc)
                own.append(far * arc)
                changes.append(int(here != jobs[b]["zone"]) * arc)
                chain = jobs[b]["chain"]
                if a >= 0 and chain is not None and jobs[a]["chain"] == chain:
                    chained.setdefault(chain, []).append(arc)
        arcs += [(n + 1, 0, model.new_bool_var(f"z{person}_{n}")) for n in range(count)]
        model.add_circuit(arcs)
        walked += own
        # Follows from the rest, and makes the proof much shorter.
        hands_on = sum(job["seconds"] * mine[person][n] for n, job in enumerate(jobs))
        model.add(sum(own) + hands_on <= elapsed)
    for n, job in enumerate(jobs):
        model.add_exactly_one(mine[0][n], mine[1][n])
        model.add(elapsed >= start[n] + job["seconds"])
        for before in job["before"]:
            model.add(start[n] >= start[before] + jobs[before]["seconds"])
        for before, minutes in job.get("delays", []):
            model.add(start[n] >= start[before] + jobs[before]["seconds"] + 60 * minutes)
    for chain, links in chained.items():
        members = [n for n, job in enumerate(jobs) if job["chain"] == chain]
        model.add(sum(links) == len(members) - 1)
        for one, other in zip(members, members[1:]):
            model.add(mine[0][one] == mine[0][other])
    model.add(mine[0][0] == 1)  # Two people are alike.
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = LIMIT_S
    solver.parameters.random_seed = 1
    solver.parameters.num_workers = 2
    model.minimize(elapsed)
    if solver.solve(model) != cp_model.OPTIMAL:
        return None
    price = [int(solver.objective_value)]
    model.add(elapsed <= price[0])
    for part in (sum(walked), sum(changes)):
        model.minimize(part)
        if solver.solve(model) != cp_model.OPTIMAL:
            return None
        price.append(int(solver.objective_value))
        model.add(part <= price[-1])
    return price


def all_cases():
    for steps, zones, seeds in ((8, 4, 10), (12, 5, 10), (16, 6, 8), (20, 7, 6), (24, 8, 4)):
        for seed in range(seeds):
            yield drawn(f"{steps} steps, {zones} zones, {seed}", 1000 * steps + seed, steps, zones)
    for steps, zones, seeds in ((8, 4, 8), (12, 5, 8), (16, 6, 6)):
        for seed in range(seeds):
            name = f"{steps} steps with waits, {zones} zones, {seed}"
            yield delayed(name, 1000 * steps + 500 + seed, steps, zones)


def main():
    cases = []
    for case in all_cases():
        if len(sys.argv) > 1 and sys.argv[1] not in case["name"]:
            continue
        case["best"] = best(case)
        print(case["name"], case["best"], file=sys.stderr)
        if case["best"] is not None:
            cases.append(case)
    lines = ",\n".join(json.dumps(case, separators=(",", ":")) for case in cases)
    print(f"[\n{lines}\n]")


if __name__ == "__main__":
    main()

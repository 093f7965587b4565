"""Solves cutting jobs as arc-flow programs with HiGHS and prints cost and time of each.

Reads a JSON list of jobs from the file named on the command line, and after it the most seconds for one.
A node is a length filled so far; arcs of items go from longest to shortest, each at most as often as wanted;
an arc from a node to the sink takes one bar of one stock and carries its price less the worth of what is left.
Costs are in parts of a cent ("parts" to one). Building the program is not timed.
Prints one line per job: "optimal COST SECONDS", "infeasible 0 SECONDS" or "other 0 SECONDS".
"""

import json
import sys
import time

import highspy


def arcs_of(items, widest):
    """Arcs (from, to, item) over the sums that can be reached."""
    reached = {0}
    arcs = []
    for index, (weight, wanted) in enumerate(items):
        used = {node: 0 for node in reached}
        for node in range(widest - weight + 1):
            if node in used and used[node] < wanted:
                arcs.append((node, node + weight, index))
                used[node + weight] = min(used.get(node + weight, wanted), used[node] + 1)
        reached |= set(used)
    return arcs, sorted(reached)


def build(job, most_seconds):
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 1e-6)
    solver.setOptionValue("time_limit", most_seconds)
    kerf = job["kerf"]
    items = sorted(((length + kerf, count) for length, count in job["pieces"]), reverse=True)
    stocks = [(usable + kerf, price, limit) for usable, price, limit in job["stocks"]]
    arcs, nodes = arcs_of(items, max(capacity for capacity, _, _ in stocks))
    infinity = highspy.kHighsInf
    balance = {node: [] for node in nodes}
    made = [[] for _ in items]
    taken = [[] for _ in stocks]

    def column(cost):
        solver.addCol(cost, 0.0, infinity, 0, [], [])
        index = solver.getNumCol() - 1
        solver.changeColIntegrality(index, highspy.HighsVarType.kInteger)
        return index

    for start, end, item in arcs:
        index = column(0.0)
        balance[start].append((index, -1.0))
        balance[end].append((index, 1.0))
        made[item].append((index, 1.0))
    for place, (capacity, price, _) in enumerate(stocks):
        for node in nodes:
            if 0 < node <= capacity:
                left = capacity - node - kerf
                worth = left * job["worth"] if left >= max(job["least"], 0) else 0
                index = column(float(price - worth))
                balance[node].append((index, -1.0))
                taken[place].append((index, 1.0))

    def row(low, high, entries):
        solver.addRow(low, high, len(entries), [entry[0] for entry in entries], [entry[1] for entry in entries])

    for node in nodes:
        if node > 0:
            row(0.0, 0.0, balance[node])
    for (_, count), entries in zip(items, made):
        row(float(count), float(count), entries)
    for (_, _, limit), entries in zip(stocks, taken):
        if limit is not None and entries:
            row(-infinity, float(limit), entries)
    return solver


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        jobs = json.load(file)
    for job in jobs:
        solver = build(job, float(sys.argv[2]))
        start = time.perf_counter()
        solver.run()
        seconds = time.perf_counter() - start
        status = solver.getModelStatus()
        if status == highspy.HighsModelStatus.kOptimal:
            cost = solver.getInfo().objective_function_value / job["parts"]
            print("optimal", repr(cost), seconds, flush=True)
        elif status == highspy.HighsModelStatus.kInfeasible:
            print("infeasible", 0, seconds, flush=True)
        else:
            print("other", 0, seconds, flush=True)


main()

"""Solves sizing problems as mixed-integer programs with HiGHS and prints cost and time of each.

Reads a JSON list of problems from the file named on the command line. One binary variable for each choice
of each section; each section takes one choice; sums of drops and resistances; ratios between devices; equal
indices within a group. Every section asked for a device must have one in each of its choices.
Prints one line per problem: "optimal COST SECONDS", "infeasible 0 SECONDS" or "other 0 SECONDS".
"""

import json
import sys
import time

import highspy


def allowed(table, rating):
    """Highest resistance for a rating; a rating between two takes the next higher entry."""
    for listed, most in table:
        if listed >= rating:
            return most
    return None


def nearest(sections, start):
    """The nearest section with a device, from one up."""
    here = start
    while here is not None:
        devices = [choice[3] for choice in sections[here]["choices"]]
        if all(device is not None for device in devices):
            return here
        assert all(device is None for device in devices), "a device in some choices only"
        here = sections[here]["parent"]
    return None


def build(problem):
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 1e-7)
    sections = problem["sections"]
    first = []
    for section in sections:
        first.append(solver.getNumCol())
        for cost, _, _, _ in section["choices"]:
            solver.addCol(cost, 0.0, 1.0, 0, [], [])
            solver.changeColIntegrality(solver.getNumCol() - 1, highspy.HighsVarType.kInteger)
    infinity = highspy.kHighsInf

    def row(low, high, entries):
        merged = {}
        for column, value in entries:
            merged[column] = merged.get(column, 0.0) + value
        solver.addRow(low, high, len(merged), list(merged), list(merged.values()))

    def each(section, value):
        choices = sections[section]["choices"]
        return [(first[section] + index, value(choice)) for index, choice in enumerate(choices)]

    for index in range(len(sections)):
        row(1.0, 1.0, each(index, lambda choice: 1.0))
    for limit in problem["limits"]:
        if limit["drop"] is not None:
            entries = [entry for section in limit["sections"] for entry in each(section, lambda choice: choice[1])]
            row(-infinity, limit["drop"], entries)
        if limit["table"] is not None:
            device = nearest(sections, limit["at"])
            if device is None:
                continue
            entries = [entry for section in limit["sections"] for entry in each(section, lambda choice: choice[2])]
            for index, choice in enumerate(sections[device]["choices"]):
                most = allowed(limit["table"], choice[3])
                column = first[device] + index
                if most is None:
                    solver.changeColBounds(column, 0.0, 0.0)
                else:
                    entries.append((column, -most))
            row(-infinity, 0.0, entries)
    for index, section in enumerate(sections):
        upstream = nearest(sections, section["parent"])
        if section["ratio"] > 0 and nearest(sections, index) == index and upstream is not None:
            entries = each(index, lambda choice: choice[3] * section["ratio"])
            row(-infinity, 0.0, entries + each(upstream, lambda choice: -choice[3]))
    for group in problem["alike"]:
        for section in group[1:]:
            for index in range(len(sections[section]["choices"])):
                row(0.0, 0.0, [(first[group[0]] + index, 1.0), (first[section] + index, -1.0)])
    return solver


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        problems = json.load(file)
    for problem in problems:
        solver = build(problem)
        start = time.perf_counter()
        solver.run()
        seconds = time.perf_counter() - start
        status = solver.getModelStatus()
        if status == highspy.HighsModelStatus.kOptimal:
            print("optimal", repr(solver.getInfo().objective_function_value), seconds)
        elif status == highspy.HighsModelStatus.kInfeasible:
            print("infeasible", 0, seconds)
        else:
            print("other", 0, seconds)


main()

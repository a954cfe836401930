#!/usr/bin/python3
"""Reads what the benchmarks measured, times sympy on the same matrices, and sets every figure beside its reach."""
import json
import sys
import time
from math import gcd

from sympy import Matrix, ZZ, ilcm
from sympy.polys.matrices import DomainMatrix


def best_of(action, rounds=7, seconds=0.1):
    """Time of one call: the fastest of some rounds, so that what else the machine does weighs little."""
    fastest = float("inf")
    for _ in range(rounds):
        calls, start = 0, time.perf_counter()
        while time.perf_counter() - start < seconds:
            action()
            calls += 1
        fastest = min(fastest, (time.perf_counter() - start) / calls)
    return fastest


def smallest_whole(vector):
    common = ilcm(1, *[entry.q for entry in vector])
    numbers = [int(entry * common) for entry in vector]
    divisor = 0
    for number in numbers:
        divisor = gcd(divisor, number)
    sign = 1 if numbers[0] > 0 else -1
    return [sign * number // divisor for number in numbers]


def main(path):
    with open(path) as file:
        measured = json.load(file)["benchmarks"]
    runs = {}  # the fastest round of each; cpu_time is what one core spent
    for run in measured:
        if run.get("run_type") == "aggregate":
            continue
        name = run["run_name"]
        if name not in runs or run["cpu_time"] < runs[name]["cpu_time"]:
            runs[name] = run
    units = {"ns": 1e-9, "us": 1e-6, "ms": 1e-3, "s": 1.0}
    seconds = {name: run["cpu_time"] * units[run["time_unit"]] for name, run in runs.items()}
    missed = []

    def say(what, figure, good, reach):
        print(f"{what:<58}{figure:>16}   reach {reach}{'' if good else '   MISSED'}")
        if not good:
            missed.append(what)

    print()
    for name in sorted(name for name in runs if name.startswith("balance_matrix/")):
        entries, coefficients = runs[name]["label"].split(" :")
        rows, columns, *numbers = map(int, entries.split())
        matrix = Matrix(rows, columns, numbers)
        domain = DomainMatrix.from_Matrix(matrix).convert_to(ZZ).to_field()
        assert smallest_whole(list(matrix.nullspace()[0])) == list(map(int, coefficients.split())), name
        which = f"equation {name.split('/')[1]} ({rows} x {columns})"
        ratio = best_of(matrix.nullspace) / seconds[name]
        say(f"balancing, {which}: times sympy's Matrix.nullspace", f"{ratio:.0f}", ratio >= 1000, ">= 1000")
        ratio = best_of(domain.nullspace) / seconds[name]
        say(f"balancing, {which}: times its DomainMatrix", f"{ratio:.0f}", ratio >= 150, ">= 150")
        text = seconds[name.replace("matrix", "text")]
        say(f"balancing, {which}: from text", f"{text * 1e6:.2f} us", text < 10e-6, "< 10 us")
    for name, what, reach in [("make_question", "questions made", 5000), ("mark_wrong_answer", "wrong answers marked", 20000)]:
        rate = runs[name]["items_per_second"]
        say(f"{what} on one core", f"{rate:.0f} /s", rate >= reach, f">= {reach} /s")
    paper = seconds["print_100_sheets_and_answers"]
    say("100 sheets and their answers as PDF", f"{paper:.2f} s", paper < 1, "< 1 s")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))

#!/usr/bin/python3
"""Reads what the benchmarks measured, times sympy on the same matrices, sets every figure beside its reach, prints tables of growth."""
import json
import sys
import time
from math import exp, gcd, log

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
    failed = [f"{name}: {run['error_message']}" for name, run in runs.items() if run.get("error_occurred")]
    if failed:
        print("\n".join(["These benchmarks did not run:", *failed]))
        return 1
    missed = []
    families = ("mixing", "diluting", "limiting", "parts")

    def argument(name):
        return int(name.split("/")[1])

    def say(what, figure, good, reach):
        print(f"{what:<74}{figure:>16}   reach {reach}{'' if good else '   MISSED'}")
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
        ratio = seconds[name.replace("balance_matrix", "flint_nullspace")] / seconds[name]
        say(f"balancing, {which}: times FLINT's nullspace", f"{ratio:.1f}", ratio >= 2, ">= 2")
        text = seconds[name.replace("matrix", "text")]
        say(f"balancing, {which}: from text", f"{text * 1e6:.2f} us", text < 10e-6, "< 10 us")
    for ours, theirs in [("convert_ours", "convert_udunits"), ("measured_ours", "measured_udunits")]:
        ratios = []
        for name in (name for name in runs if name.startswith(ours + "/")):
            ratio = seconds[name.replace(ours, theirs)] / seconds[name]
            ratios.append(ratio)
            say(f"converting {runs[name]['label']}: times udunits2", f"{ratio:.1f}", ratio >= 2, ">= 2")
        middle = exp(sum(map(log, ratios)) / len(ratios))
        say(f"converting, geometric mean of these {len(ratios)}: times udunits2", f"{middle:.1f}", middle >= 2, ">= 2")
    for name, what, usual in [("published_from_text", "from text", 100), ("published_from_plan", "with the plan known", 15)]:
        run = runs[name]
        problems = f"{run['problems']:.0f} published problems {what}"
        median, most = run["median_us"], run["longest_us"]
        say(f"{problems}: median", f"{median:.1f} us", median <= usual, f"<= {usual} us")
        say(f"{problems}: {run['label']}", f"{most:.0f} us", most <= 50e3, "<= 50 ms")
    for family in families:
        largest = max((name for name in runs if name.startswith(f"solve_{family}/")), key=lambda name: runs[name]["givens"])
        what = f"solving, {family}, {runs[largest]['givens']:.0f} givens, from text"
        say(what, f"{seconds[largest] * 1e3:.2f} ms", seconds[largest] <= 50e-3, "<= 50 ms")
    for family, what, reach in [
        ("make_questions/five_main_kinds", "questions of the five main kinds made, slips told apart", 20000),
        ("make_questions/all_templates", "questions of all templates made, slips told apart", 5000),
        ("mark_wrong_answer", "wrong answers marked, each with its question", 20000),
        ("mark_own_versions/half_right", "answers marked, each question made again from its code", 10000),
        # Most school tests are set so that about two thirds of the marks are won (common practice, no source).
        ("mark_shared_versions/67", "answers marked, thirty versions shared, two in three right", 300000),
    ]:
        name = next(name for name in runs if name.startswith(family))
        rate = runs[name]["items_per_second"]
        say(f"{what}, one core", f"{rate:.0f} /s", rate >= reach, f">= {reach} /s")
    for share in (50, 80):
        name = next(name for name in runs if name.startswith(f"mark_shared_versions/{share}"))
        print(f"  (with {share} in 100 right: {runs[name]['items_per_second']:.0f} /s)")
    paper = seconds["print_100_sheets_and_answers"]
    say("100 sheets and their answers as PDF", f"{paper:.2f} s", paper < 1, "< 1 s")

    print("\nGrowth of balancing with the number of species, in microseconds (made-up equations, tests/benchmark/equations.cpp):")
    print("  species  elements    ours   FLINT  FLINT/ours  from text")
    for name in sorted((name for name in runs if name.startswith("growth_matrix/")), key=argument):
        rows, columns = runs[name]["label"].split()[:2]
        ours, flint, text = (seconds[name.replace("matrix", which)] * 1e6 for which in ("matrix", "flint", "text"))
        print(f"  {columns:>7}{rows:>10}{ours:>8.2f}{flint:>8.2f}{flint / ours:>12.1f}{text:>11.1f}")
    print("\nGrowth of solving with the number of givens, in microseconds:")
    print("  problem    givens   finds  from text  plan known")
    for family in families:
        for name in sorted((name for name in runs if name.startswith(f"solve_{family}/")), key=argument):
            plan = seconds[name.replace("solve_", "rework_")] * 1e6
            givens, finds = runs[name]["givens"], runs[name]["finds"]
            print(f"  {family:<10}{givens:>7.0f}{finds:>8.0f}{seconds[name] * 1e6:>11.1f}{plan:>12.1f}")
    print("\nGrowth of marking with the slips of a question, in microseconds an answer that nothing explains:")
    print("  slips   single   and pairs")
    seen = set()
    for name in sorted((name for name in runs if name.startswith("mark_single/")), key=argument):
        slips = runs[name]["slips"]
        if slips in seen:
            continue
        seen.add(slips)
        print(f"  {slips:>5.0f}{seconds[name] * 1e6:>9.1f}{seconds[name.replace('single', 'pairs')] * 1e6:>12.1f}")
    print("\nGrowth of marking with the parts of a question, all of them wrong, in microseconds:")
    print("  parts      all   a part")
    for name in sorted((name for name in runs if name.startswith("mark_parts/")), key=argument):
        time_of_all = seconds[name] * 1e6
        print(f"  {argument(name):>5}{time_of_all:>9.1f}{time_of_all / argument(name):>9.1f}")
    if missed:
        print(f"\n{len(missed)} of the reaches missed.")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))

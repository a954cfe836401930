#!/usr/bin/env python3
"""Has simulated students answer questions of every template, and counts what the marker says; see run."""
import argparse
import json
import math
import os
import random as randoms
import subprocess
import sys
import tempfile
import time
from collections import Counter
from multiprocessing import Pool

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "oracle"))
from diagram import reliability_diagram  # noqa: E402
from students import draw, one_line, text_of  # noqa: E402
from wrong_work import Problem, faults_of  # noqa: E402
from matter import Unreadable  # noqa: E402
from work import Stuck  # noqa: E402

SURE = 0.80
BINS = 10
VERSIONS = 4


def set_of(program, templates, seed, folder):
    name = os.path.join(folder, "set.toml")
    with open(name, "w", encoding="utf-8") as out:
        out.write('title = "students"\nseed = "%s"\nversions = %d\n' % (seed, VERSIONS))
        for template in templates:
            out.write('[[question]]\ntemplate = "%s"\n' % template)
    made = subprocess.run([program, "set", name, "--out", os.path.join(folder, "out")], capture_output=True, text=True)
    if made.returncode:
        raise RuntimeError(made.stderr[:300])
    return os.path.join(folder, "out", "set.jsonl")


def problems_of(path):
    with open(path, encoding="utf-8") as lines:
        for line in lines:
            question = json.loads(line)
            if "code" not in question or "parts" not in question or question.get("form", "open") != "open":
                continue
            if not any("unrounded" in part for part in question["parts"]):
                continue
            try:
                yield Problem(question)
            except (Stuck, Unreadable, ValueError, KeyError):
                continue


def bare(node):
    return node.split(" in ")[0] if not node.startswith(("w(", "m(", "n(")) or ") in " in node else node


def row_of(script, judged, known_answers):
    """What came of one script, at the first part that its fault shows in."""
    part = judged[script.part]
    exact = float(script.exact[script.part])
    written = script.cells[script.part]
    names = {fault.name for fault in script.faults}
    places = {fault.where for fault in script.faults}
    hits, steps = [], []
    for slips, probability, value in part["c"]:
        same_number = abs(value - exact) <= 1e-6 * abs(exact)
        hits.append(bool(names) and ({slip for slip, _ in slips} == names or same_number))
        steps.append(bool(names) and (same_number or {bare(node) for _, node in slips} == places))
    coincident = any(abs(float(other) - exact) <= 1e-6 * abs(exact) for other in known_answers[script.part])
    due = script.problem.parts[script.part].get("significant_figures", 3)
    return {"world": script.world, "names": sorted(names), "verdict": part["v"], "hits": hits, "steps": steps, "figures": script.figures[script.part],
            "p": sure_of(part["c"]), "line": bool(script.lines), "lines": script.lines, "coincident": coincident, "due": due,
            "later": [judged[at]["v"] for at, key in enumerate(script.problem.finds) if key and at > script.part and script.cells[at]],
            "first": part["c"][0][0] if part["c"] else [],
            "values": [value for _, _, value in part["c"]], "right": float(script.problem.shown(script.part, script.problem.right)), "written": written, "template": script.problem.question["template"],
            "code": script.problem.question["code"], "kind": script.problem.question["kind"], "part": script.part, "exact": exact}


def sure_of(candidates):
    """How sure the marker is of the number that it names first: slips that lead to the very same number are one cause to a number."""
    if not candidates:
        return 0.0
    first_value = candidates[0][2]
    return min(1.0, sum(p for _, p, value in candidates if abs(value - first_value) <= 1e-6 * abs(first_value)))


def ask(marker, path, lines):
    asked = subprocess.run([marker, path], input="\n".join(lines) + "\n", capture_output=True, text=True)
    if asked.returncode:
        raise RuntimeError(asked.stderr[:300])
    return [json.loads(line) for line in asked.stdout.splitlines()]


def portion(order):
    program, marker, templates, seed, each, leave_out = order
    random = randoms.Random(seed)
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        path = set_of(program, templates, seed, folder)
        scripts, known = [], []
        for problem in problems_of(path):
            faults = faults_of(problem)
            if not faults:
                continue
            answers = [[answer[part] for fault, answer, _ in faults if fault.known and answer[part] is not None]
                       for part in range(len(problem.finds))]
            for _ in range(each):
                script = draw(problem, faults, random)
                if script is None:
                    continue
                if script.world == "pair" and random.random() < 0.5 or script.world == "single" and random.random() < 0.1:
                    script.lines = one_line(problem, script.faults, script.values, script.part, random)
                script.all_faults = faults
                scripts.append(script)
                known.append(answers)
        if leave_out:
            single = [script for script in scripts if script.world == "single"]
            for script, one in zip(single, ask(marker, path, [script.line(script.faults[0].name) for script in single])):
                # Where another slip leads to the very number, nobody could keep silent.
                others = [[answer[part] for fault, answer, _ in script.all_faults if fault.known and fault.name != script.faults[0].name and
                           answer[part] is not None] for part in range(len(script.problem.finds))]
                row = row_of(script, one, others)
                row["world"] = "not known"
                rows.append(row)
        else:
            for script, answers, judged in zip(scripts, known, ask(marker, path, [script.line() for script in scripts])):
                rows.append(row_of(script, judged, answers))
    return rows


def share(count, of):
    return "%5.1f %% of %d" % (100.0 * count / of, of) if of else "    - of 0"


def interval(count, of):
    """95 % (Wilson)."""
    if not of:
        return ""
    z, p = 1.96, count / of
    middle, half = (p + z * z / (2 * of)) / (1 + z * z / of), z * math.sqrt(p * (1 - p) / of + z * z / (4 * of * of)) / (1 + z * z / of)
    return "(%.1f to %.1f)" % (100 * (middle - half), 100 * (middle + half))


def first(rows):
    return sum(bool(row["hits"][:1] == [True]) for row in rows)


def first_three(rows):
    return sum(any(row["hits"][:3]) for row in rows)


def group_line(name, rows):
    said = [row for row in rows if row["hits"]]
    wrong = sum(row["p"] >= SURE and not row["hits"][0] for row in said)
    print("%-44s %6d  first %s  three %s  step %s  silent %s  sure and wrong %d" % (
        name, len(rows), percent(first(rows), rows), percent(first_three(rows), rows),
        percent(sum(bool(row["steps"] and row["steps"][0]) for row in rows), rows), percent(len(rows) - len(said), rows), wrong))


def calibration_line(name, rows):
    _, ece, brier = calibration(rows)
    sure = [row for row in rows if row["p"] >= SURE]
    print("%-44s %6d  Brier %.4f  calibration error %.4f  sure %s, of them wrong %d" % (
        name, len(rows), brier, ece, percent(len(sure), rows), sum(not row["hits"][0] for row in sure)))


def percent(count, rows):
    return "%5.1f" % (100.0 * count / len(rows)) if rows else "    -"


def report(rows, svg, goals):
    wrong = [row for row in rows if row["verdict"] in ("wrong", "follow-through")]
    passed = Counter(row["world"] for row in rows if row["verdict"] == "right")
    unread = [row for row in rows if row["verdict"] not in ("right", "wrong", "follow-through")]
    print("\n%d scripts; taken for right: %s; not read: %d" % (len(rows), dict(passed), len(unread)))
    for row in unread[:5]:
        print("  not read: %s (%s)" % (row["written"], row["verdict"]))
    worlds = sorted({row["world"] for row in wrong})
    for world in worlds:
        group_line(world, [row for row in wrong if row["world"] == world])
    single = [row for row in wrong if row["world"] == "single"]
    print("\nsingle slips, by figures written")
    for figures in sorted({min(row["figures"], 5) for row in single}):
        group_line("  %d%s" % (figures, " or more" if figures == 5 else ""), [row for row in single if min(row["figures"], 5) == figures])
    print("\nsingle slips, by kind of question")
    for kind in sorted({row["kind"] for row in single}):
        group_line("  " + kind, [row for row in single if row["kind"] == kind])
    print("\nsingle slips, by slip")
    for name in sorted({row["names"][0] for row in single}):
        group_line("  " + name, [row for row in single if row["names"][0] == name])
    pairs = [row for row in wrong if row["world"] == "pair"]
    print("\npairs")
    group_line("  four figures, no line", [row for row in pairs if row["figures"] >= 4 and not row["line"]])
    group_line("  a line of working", [row for row in pairs if row["line"]])
    group_line("  three figures or fewer, no line", [row for row in pairs if row["figures"] < 4 and not row["line"]])
    said = [row for row in wrong if row["hits"]]
    bins, ece, brier = calibration(said)
    print("\nsaid: %d; Brier score %.4f; expected calibration error %.4f over %d bins" % (len(said), brier, ece, BINS))
    for low, count, confidence, true in bins:
        print("  %.1f to %.1f  %6d  said %.3f  true %.3f" % (low, low + 1.0 / BINS, count, confidence, true))
    print("risk against coverage")
    for threshold in (0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99):
        spoken = [row for row in said if row["p"] >= threshold]
        print("  above %.2f: spoken of %s, wrong %s" % (threshold, share(len(spoken), len(wrong)), share(sum(not row["hits"][0] for row in spoken), len(spoken))))
    print("what is said, by figures written")
    for figures in sorted({min(row["figures"], 5) for row in said}):
        calibration_line("  %d%s" % (figures, " or more" if figures == 5 else ""), [row for row in said if min(row["figures"], 5) == figures])
    print("what is said, by kind of question")
    for kind in sorted({row["kind"] for row in said}):
        calibration_line("  " + kind, [row for row in said if row["kind"] == kind])
    later = Counter(verdict for row in single for verdict in row["later"])
    print("later parts of single slips: %s" % dict(later))
    if svg:
        with open(svg, "w", encoding="utf-8") as out:
            out.write(reliability_diagram(bins, ece, len(said)))
    strangers = [row for row in wrong if row["world"] in ("left out", "senseless", "not known") and not row["coincident"] and
                 not row["hits"][:1] == [True]]  # a number that another slip leads to exactly tells nobody apart
    clear = [row for row in pairs if row["line"] or row["figures"] >= 4]
    sure_wrong = sum(row["p"] >= SURE and not row["hits"][0] for row in said)
    results = [
        ("single slips: the true one first, three figures or more", first([r for r in single if r["figures"] >= 3]), len([r for r in single if r["figures"] >= 3]), ">=", 0.97),
        ("pairs with four figures or a line: in the first three", first_three(clear), len(clear), ">=", 0.80),
        ("left out and senseless: silent", sum(not row["hits"] for row in strangers), len(strangers), ">=", 0.90),
        ("sure and wrong, of what is said", sure_wrong, len(said), "<=", 0.02),
    ]
    print()
    passed_all = failed = 0
    for name, count, of, sense, goal in results:
        if not of:
            continue
        good = count / of >= goal if sense == ">=" else count / of <= goal
        print("%-60s %s %s, goal %s %.0f %%: %s" % (name, share(count, of), interval(count, of), sense, 100 * goal, "reached" if good else "missed"))
        passed_all, failed = passed_all + good, failed + (not good)
    good = ece <= 0.03
    print("%-60s %.4f, goal <= 0.03: %s" % ("expected calibration error", ece, "reached" if good else "missed"))
    print("%d passed, %d failed" % (passed_all + good, failed + (not good)))
    return failed + (not good)


def calibration(said):
    bins, ece, brier = [], 0.0, 0.0
    for at in range(BINS):
        own = [row for row in said if min(int(row["p"] * BINS), BINS - 1) == at]
        if own:
            confidence, true = sum(row["p"] for row in own) / len(own), first(own) / len(own)
            bins.append((at / BINS, len(own), confidence, true))
            ece += len(own) / len(said) * abs(confidence - true)
    brier = sum((row["p"] - row["hits"][0]) ** 2 for row in said) / len(said) if said else 0
    return bins, ece, brier


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--build", required=True)
    options.add_argument("--templates", required=True)
    options.add_argument("--scripts", type=int, default=20000)
    options.add_argument("--seeds", choices=["design", "calibration", "test"], default="test")
    options.add_argument("--svg")
    options.add_argument("--rows")
    options.add_argument("--leave-one-out", action="store_true")
    given = options.parse_args()
    program, marker = os.path.join(given.build, "molewright"), os.path.join(given.build, "tests", "students_marker")
    templates = sorted(name[:-len(".template")] for name in os.listdir(given.templates) if name.endswith(".template"))
    each = 5
    sets = max(1, round(given.scripts / (0.75 * each * VERSIONS * len(templates))))
    begin = time.time()
    orders = [(program, marker, templates, "%s %d" % (given.seeds, at), each, given.leave_one_out) for at in range(sets)]
    rows = []
    with Pool(os.cpu_count()) as pool:
        for more in pool.imap_unordered(portion, orders):
            rows += more
    rows.sort(key=lambda row: (row["code"], row["part"], row["written"]))
    if given.rows:
        with open(given.rows, "w", encoding="utf-8") as out:
            for row in rows:
                out.write(json.dumps(row, ensure_ascii=False) + "\n")
    print("seeds: %s; %d sets over %d templates; %.0f s" % (given.seeds, sets, len(templates), time.time() - begin))
    return report(rows, given.svg, True)


if __name__ == "__main__":
    sys.exit(1 if main() else 0)

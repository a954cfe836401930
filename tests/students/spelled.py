#!/usr/bin/env python3
"""Writes right answers in many spellings, units and roundings, and wrong ones beyond what is tolerated; see spelled."""
import os
import random as randoms
import re
import sys
import tempfile
import time
from collections import Counter
from fractions import Fraction
from functools import lru_cache
from multiprocessing import Pool

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from measure import ask, problems_of, set_of  # noqa: E402
from students import text_of  # noqa: E402
import work  # noqa: E402
from figures import read_number, top  # noqa: E402
from matter import WEIGHTS, read_formula  # noqa: E402

RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
# Other units of the same quantity: (how many of the asked unit one of them is, spellings).
UNITS = {
    "mol": [(1, ["mol", "moles", "mols", "mole"]), (Fraction(1, 1000), ["mmol"])],
    "mmol": [(1, ["mmol", "millimoles"]), (1000, ["mol", "moles"])],
    "g": [(1, ["g", "grams", "gram"]), (Fraction(1, 1000), ["mg"]), (1000, ["kg"])],
    "mg": [(1, ["mg", "milligrams"]), (1000, ["g", "grams"])],
    "kg": [(1, ["kg"]), (Fraction(1, 1000), ["g"])],
    "L": [(1, ["L", "l", "litres", "liters", "dm3", "dm³", "dm^3"]), (Fraction(1, 1000), ["mL", "ml", "cm3", "cm³"])],
    "mL": [(1, ["mL", "ml", "mls", "cm3", "cm^3", "cm³"]), (1000, ["L", "dm3", "litres"])],
    "mol/L": [(1, ["mol/L", "mol L-1", "mol L^-1", "mol L⁻¹", "mol dm-3", "mol·L⁻¹", "M", "mol/dm3", "mol/l"]), (Fraction(1, 1000), ["mmol/L", "mM"])],
    "mmol/L": [(1, ["mmol/L", "mM", "mmol L-1"]), (1000, ["mol/L", "M"])],
    "g/L": [(1, ["g/L", "g L-1", "g/l", "g dm-3"]), (Fraction(1, 1000), ["mg/L"])],
    "mg/L": [(1, ["mg/L", "mg L-1", "mg/l"]), (1000, ["g/L"])],
    "g/mol": [(1, ["g/mol", "g mol-1", "g mol^-1"])],
    "%": [(1, ["%", " %"])],
}


def spelled(value, figures, random):
    """A number to so many figures, in one of the ways that students write them."""
    text = text_of(value, figures)
    mantissa, _, power = text.partition("e")
    way = random.randrange(6)
    if not power and way == 0 and value != 0:  # a power of ten where none is needed
        power = str(top(Fraction(value)))
        mantissa = text_of(Fraction(value) / Fraction(10) ** int(power), figures)
        if "e" in mantissa or not 1 <= abs(float(mantissa)) < 10:
            return text
    if not power:
        return text
    return mantissa + random.choice(["e" + power, "E" + power, "×10^" + power, " x 10^" + power, " × 10" + power.translate(RAISED), "*10^" + power])


def right_answer(problem, part, random):
    key = problem.finds[part]
    value, due, unit = problem.shown(part, problem.right), problem.parts[part]["significant_figures"], problem.parts[part]["unit"]
    if value == 0:
        return "0 " + unit
    figures = due + random.choice([0, 0, 0, 1, 1, 2, 3, 7]) - (1 if due >= 3 and random.random() < 0.1 else 0)
    factor, names = random.choice(UNITS.get(unit, [(1, [unit])]))
    if key[0] in ("pH", "pOH"):
        places = max(0, due - top(value) - 1) if value >= 1 else due
        return "%.*f" % (min(places, 8), float(value)) if problem.parts[part]["answer"].count(".") else text_of(value, due)
    number = spelled(value / factor, figures, random)
    blank = random.choice([" ", " ", ""]) if names[0][:1] not in "eE" else " "
    before = random.choice(["", "", "", "", "= ", "x = ", key[0] + " = "])
    name = random.choice(names)
    return before + number + (blank + name if name and random.random() < 0.93 or factor != 1 else "")


@lru_cache(maxsize=None)
def whole_molar_mass(formula):
    atoms = read_formula(formula)[0]
    return sum((Fraction(71, 2) if atom == "Cl" else Fraction(round(WEIGHTS[atom]))) * count for atom, count in atoms.items())


plan_by_whole = lru_cache(maxsize=20000)(work.plan.__wrapped__)  # plans hold the molar masses that they were made with


def by_whole_weights(problem, part):
    """A part's answer by whole-number atomic weights (chlorine 35.5), which are tolerated."""
    if not hasattr(problem, "whole"):
        usual = work.plan, work.molar_mass
        work.plan, work.molar_mass = plan_by_whole, whole_molar_mass
        try:
            problem.whole = type(problem)(problem.question).right
        finally:
            work.plan, work.molar_mass = usual
    return problem.shown(part, problem.whole) if problem.whole else None


def wrong_answer(problem, part, random):
    value, due, unit = problem.shown(part, problem.right), problem.parts[part]["significant_figures"], problem.parts[part]["unit"]
    if value == 0:
        return None
    unit_off = Fraction(10) ** (top(value) - due + 1) * Fraction(5, 2)
    least = max(unit_off, abs(value) * Fraction(3, 100))
    off = least * Fraction(1 + random.expovariate(0.7))
    wrong = value + off * random.choice([1, -1])
    if wrong * value <= 0 or abs(wrong) > 8 * abs(value) or abs(wrong) < abs(value) / 8:
        wrong = value + least * Fraction(11, 10)
    figures = max(due, 2) + random.choice([0, 0, 1])
    text = text_of(wrong, figures, random)
    shown = read_number(text.replace(" x 10", "×10"))
    last = Fraction(10) ** (top(shown.value) - figures + 1)
    if abs(shown.value - value) <= last:
        return None  # beyond a power of ten the last figure is coarser: 10 is 9.7 to a whole number
    whole = by_whole_weights(problem, part)
    if whole is not None and abs(shown.value - whole) <= last:
        return None  # where two near numbers are taken from each other, the weights matter much
    if re.fullmatch(r"-?\d+0", text):
        text += "."  # else the zeros may only place the point, and it may be the right answer to fewer figures
    return text + " " + unit


def portion(order):
    program, marker, templates, seed, each, kind = order
    random = randoms.Random(kind + seed)
    lines, told = [], []
    with tempfile.TemporaryDirectory() as folder:
        path = set_of(program, templates, seed, folder)
        for problem in problems_of(path):
            parts = [part for part, key in enumerate(problem.finds) if key]
            for at in range(each):
                cells = [""] * len(problem.finds)
                if kind == "right":
                    for part in parts:
                        cells[part] = right_answer(problem, part, random)
                    asked = parts
                else:
                    part = parts[at % len(parts)]
                    wrong = wrong_answer(problem, part, random)
                    if wrong is None:
                        continue
                    cells[part] = wrong
                    asked = [part]
                lines.append(problem.question["code"] + "\t" + "\t".join(cells))
                told.append((problem.question["template"], problem.question["code"], asked, cells, [problem.parts[part]["answer"] + " " + problem.parts[part]["unit"] for part in range(len(cells))]))
        count, bad = 0, []
        for judged, (template, code, asked, cells, correct) in zip(ask(marker, path, lines), told):
            for part in asked:
                count += 1
                if (judged[part]["v"] == "right") != (kind == "right"):
                    bad.append("%s %s part %d: %s (%s) is judged %s" % (template, code, part, cells[part], correct[part], judged[part]["v"]))
        return count, bad


def main(build, templates_folder, wanted):
    program, marker = os.path.join(build, "molewright"), os.path.join(build, "tests", "students_marker")
    templates = sorted(name[:-len(".template")] for name in os.listdir(templates_folder) if name.endswith(".template"))
    failed = passed = 0
    for kind in ("right", "wrong"):
        begin = time.time()
        each = max(1, min(200, wanted // (4 * len(templates))))
        sets = max(1, -(-wanted // (each * 4 * len(templates))))
        count, bad = 0, []
        with Pool(os.cpu_count()) as pool:
            for more in pool.imap_unordered(portion, [(program, marker, templates, "test %s %d" % (kind, at), each, kind) for at in range(sets)]):
                count, bad = count + more[0], bad + more[1]
        for line in bad[:30]:
            print("  " + line)
        print("%s answers: %d, judged otherwise: %d, %.0f s" % (kind, count, len(bad), time.time() - begin))
        failed, passed = failed + len(bad), passed + count - len(bad)
    print("%d passed, %d failed" % (passed, failed))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2], int(sys.argv[3])))

#!/usr/bin/env python3
"""check.py FILE.. | -   works the printed givens of every question in set.jsonl anew and compares with the printed answers.

Prints each disagreement (code, template, part, ours, theirs), then totals; ends with status 1 where there is any. A question that cannot
be worked is a disagreement too.
"""
import json
import os
import re
import sys
from collections import Counter
from fractions import Fraction

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from figures import UP, read_number, rounded, scaled, top  # noqa: E402
from matter import read_formula, unit_factor  # noqa: E402
from work import work_question  # noqa: E402


def figures_asked(question):
    """For each part how many figures its find asks for, None where it leaves that to the data."""
    finds = re.findall(r"(?m)^find (.*)$", question.get("problem", "").split("\ntext\n")[0])
    asked = [re.search(r"\bto (\d+) (?:figures?|sf)\b", find) for find in finds]
    return [int(found[1]) if found else None for found in asked] + [None] * (len(question["parts"]) - len(finds))


def compare(part, answer, asked):
    """None where they agree, else what differs; `asked` is how many figures the question wants, None for as many as are sure."""
    kind, ours, key = answer
    theirs = part["answer"]
    if kind == "formula":
        same = read_formula(theirs)[0] == ours if isinstance(ours, dict) else theirs == ours
        return None if same else "ours %s, printed %s" % (ours, theirs)
    number = ours if key[0] in ("pH", "pOH") else scaled(ours, 1 / unit_factor(part["unit"]))
    full = read_number(part["unrounded"])
    if full.value != number.value:
        digits = full.figures()
        if digits < 10 or abs(full.value - number.value) > Fraction(10) ** (top(number.value) - digits + 1) * Fraction(51, 100):
            return "ours %.12g, unrounded %s" % (float(number.value), part["unrounded"])
    exact = number.place is None
    # What comes from the table of weights alone has no figures of its own: as many as are printed.
    value, figures = rounded(number, asked if asked else part["significant_figures"] if exact else None)
    printed = read_number(theirs)
    if value != printed.value:
        return "ours %.12g (%s figures), printed %s" % (float(value), figures, theirs)
    if key[0] not in ("pH", "pOH") and figures is not None and figures != part["significant_figures"]:
        return "ours %s figures, printed %s" % (figures, part["significant_figures"])
    return None


def plain(text):
    return text.translate(UP).replace("\u202f", " ").replace("\u00a0", " ").replace("\u2009", " ")


def printed_in_text(question):
    """The givens whose numbers the text does not show."""
    text = re.sub(r"\s*×\s*10(-?\d+)", r"e\1", plain(question["text"]))  # the raised power, written plainly
    numbers = set(re.findall(r"\d+(?:[.,]\d+)?(?:e-?\d+)?", text))
    for one in question["given"]:
        readings = one.get("readings") or [one["value"]]
        for value in [part for reading in readings for part in (reading.values() if isinstance(reading, dict) else [reading])]:
            if any(number not in numbers for number in re.findall(r"\d+(?:\.\d+)?(?:e-?\d+)?", plain(value))):
                yield one["quantity"], value


def check_lines(lines):
    """(questions, parts, Counter of kinds, list of disagreements)."""
    questions, parts, kinds, wrong = 0, 0, Counter(), []
    for line in lines:
        question = json.loads(line)
        if "format" in question:
            continue
        questions += 1
        name = question["kind"] or question["template"]
        kinds[name] += 1
        where = "%s %s" % (question["code"] or "own problem", question["template"])
        try:
            answers = work_question(question)
        except Exception as fault:  # whatever it is, it is counted and named
            wrong.append("%s: not worked: %s: %s" % (where, type(fault).__name__, fault))
            continue
        for at, (part, answer, asked) in enumerate(zip(question["parts"], answers, figures_asked(question))):
            parts += 1
            try:
                differs = compare(part, answer, asked)
            except Exception as fault:
                differs = "not compared: %s: %s" % (type(fault).__name__, fault)
            if differs:
                wrong.append("%s, part %s, %s: %s" % (where, "abcdefghijklmnopqrstuvwxyz"[at], part["find"], differs))
        for quantity, value in printed_in_text(question):
            wrong.append("%s: the text does not show %s = %s" % (where, quantity, value))
    return questions, parts, kinds, wrong


def main(files):
    if not files:
        print(__doc__.split("\n")[0], file=sys.stderr)
        return 2
    questions, parts, kinds, wrong = 0, 0, Counter(), []
    for name in files:
        with (sys.stdin if name == "-" else open(name, encoding="utf-8")) as lines:
            more = check_lines(lines)
        questions, parts, kinds, wrong = questions + more[0], parts + more[1], kinds + more[2], wrong + more[3]
    for line in wrong:
        print(line)
    print("%d questions, %d parts, %d disagreements" % (questions, parts, len(wrong)))
    return 1 if wrong or not questions else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

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


def compare(part, answer):
    """None where they agree, else what differs."""
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
    asked = re.search(r"(?m)to (\d+) significant figures", part.get("asked", ""))
    exact = number.place is None
    # What comes from the table of weights alone has no figures of its own: as many as are printed.
    value, figures = rounded(number, int(asked[1]) if asked else part["significant_figures"] if exact else None)
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
    text = plain(question["text"])
    numbers = set(re.findall(r"\d+(?:[.,]\d+)?", text))
    for one in question["given"]:
        for value in one.get("readings") or [one["value"]]:
            if any(number not in numbers for number in re.findall(r"\d+(?:\.\d+)?", plain(value).replace("e", " "))):
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
        for at, (part, answer) in enumerate(zip(question["parts"], answers)):
            parts += 1
            try:
                differs = compare(part, answer)
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

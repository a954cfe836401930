#!/usr/bin/env python3
"""Makes about N questions over every template, and variants of problems without template, and checks them; see run."""
import os
import re
import subprocess
import sys
import tempfile
import time
from collections import Counter
from multiprocessing import Pool

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from check import check_lines  # noqa: E402

PER_PAPER_SET = 50


def made_and_checked(program, lines, what):
    """Makes one set of an order and checks it; `lines` are those that follow its title."""
    with tempfile.TemporaryDirectory() as folder:
        name = os.path.join(folder, "set.toml")
        with open(name, "w", encoding="utf-8") as out:
            out.write('title = "check"\n' + lines)
        made = subprocess.run([program, "set", name, "--out", os.path.join(folder, "out")], capture_output=True, text=True)
        if made.returncode:
            return 0, 0, Counter(), ["%s: not made: %s" % (what, made.stderr.strip()[:300])]
        with open(os.path.join(folder, "out", "set.jsonl"), encoding="utf-8") as made_lines:
            return check_lines(made_lines)


def portion(order):
    """Makes one set of the templates and checks it."""
    program, templates, at = order
    lines = 'seed = "check %d"\nversions = %d\n' % (at, PER_PAPER_SET)
    return made_and_checked(program, lines + "".join('[[question]]\ntemplate = "%s"\n' % one for one in templates), "set %d" % at)


def variants(order):
    """Makes a set of variants of one problem and checks it: with other substances where there are any, else with other numbers."""
    program, problem, copies = order
    with tempfile.TemporaryDirectory() as folder:
        file = os.path.join(folder, "own.problem")
        with open(file, "w", encoding="utf-8") as out:
            out.write(problem)
        for vary in '"chemistry"', "true":
            lines = 'seed = "check"\nversions = %d\n[[question]]\nproblem = "%s"\nvary = %s\n' % (copies, file, vary)
            made = made_and_checked(program, lines, "variants of " + problem.split("\n")[0])
            if made[0]:
                break
        return vary, made


# In "spare-words" the text types numbers that are no givens, which no variant may leave as they are.
def problems_of(name):
    """The problems with a name and a text in a file of them, without the answers that it states."""
    with open(name, encoding="utf-8") as lines:
        text = "".join(line for line in lines if not line.startswith(("answer ", "#")))
    found = re.findall(r"(?ms)^problem .*?^end\n", text)
    return [one for one in found if one.count("\nproblem ") == 0 and "problem spare-words" not in one]


def main(program, templates_folder, own_problems, wanted):
    templates = sorted(name[:-len(".template")] for name in os.listdir(templates_folder) if name.endswith(".template"))
    rounds = max(1, -(-wanted // (PER_PAPER_SET * len(templates))))
    begin = time.time()
    questions, parts, kinds, wrong = 0, 0, Counter(), []
    with Pool(os.cpu_count()) as pool:
        for more in pool.imap_unordered(portion, [(program, templates, at) for at in range(rounds)]):
            questions, parts, kinds = questions + more[0], parts + more[1], kinds + more[2]
            wrong += more[3]
        own = problems_of(own_problems)
        varied = Counter()
        copies = max(2, wanted // 20 // len(own))
        for vary, more in pool.imap_unordered(variants, [(program, one, copies) for one in own]):
            varied["of other substances" if "chem" in vary else "with other numbers"] += more[0]
            questions, parts = questions + more[0], parts + more[1]
            wrong += more[3]
    for line in wrong[:200]:
        print(line)
    for kind, count in sorted(kinds.items()):
        print("%8d  %s" % (count, kind))
    for how, count in sorted(varied.items()):
        print("%8d  variants of %d problems, %s" % (count, len(own), how))
    print("%d templates, %d questions, %d parts, %.0f s, %d disagreements" % (len(templates), questions, parts, time.time() - begin, len(wrong)))
    failed = len(wrong) or (0 if questions >= wanted else 1)
    print("%d passed, %d failed" % (max(questions - failed, 0), failed))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2], sys.argv[3], int(sys.argv[4])))

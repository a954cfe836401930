#!/usr/bin/env python3
"""Makes about N questions over every template and checks them; see run."""
import os
import subprocess
import sys
import tempfile
import time
from collections import Counter
from multiprocessing import Pool

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from check import check_lines  # noqa: E402

PER_PAPER_SET = 50


def portion(order):
    """Makes one set of the templates and checks it."""
    program, templates, at = order
    with tempfile.TemporaryDirectory() as folder:
        name = os.path.join(folder, "set.toml")
        with open(name, "w", encoding="utf-8") as out:
            out.write('title = "check"\nseed = "check %d"\nversions = %d\n' % (at, PER_PAPER_SET))
            for template in templates:
                out.write('[[question]]\ntemplate = "%s"\n' % template)
        made = subprocess.run([program, "set", name, "--out", os.path.join(folder, "out")], capture_output=True, text=True)
        if made.returncode:
            return 0, 0, Counter(), ["set %d was not made: %s" % (at, made.stderr.strip()[:300])]
        with open(os.path.join(folder, "out", "set.jsonl"), encoding="utf-8") as lines:
            return check_lines(lines)


def main(program, templates_folder, wanted):
    templates = sorted(name[:-len(".template")] for name in os.listdir(templates_folder) if name.endswith(".template"))
    rounds = max(1, -(-wanted // (PER_PAPER_SET * len(templates))))
    begin = time.time()
    questions, parts, kinds, wrong = 0, 0, Counter(), []
    with Pool(os.cpu_count()) as pool:
        for more in pool.imap_unordered(portion, [(program, templates, at) for at in range(rounds)]):
            questions, parts, kinds = questions + more[0], parts + more[1], kinds + more[2]
            wrong += more[3]
    for line in wrong[:200]:
        print(line)
    for kind, count in sorted(kinds.items()):
        print("%8d  %s" % (count, kind))
    print("%d templates, %d questions, %d parts, %.0f s, %d disagreements" % (len(templates), questions, parts, time.time() - begin, len(wrong)))
    failed = len(wrong) or (0 if questions >= wanted else 1)
    print("%d passed, %d failed" % (max(questions - failed, 0), failed))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2], int(sys.argv[3])))

#!/usr/bin/python3
"""rows.py PROGRAM [--large]   how time and memory of `set` and `mark` grow with the class: a thousand and ten thousand students with
five questions each; with --large a hundred thousand as well (some minutes more). Fails where `--jobs 2` makes other files, and
where `mark` keeps more than MOST_KEPT bytes of an answer."""
import csv
import filecmp
import json
import os
import random
import subprocess
import sys
import tempfile

MOST_KEPT = 500
KINDS = ["n-cV", "mass-from-amount", "dilution", "precipitate", "limiting-reagent"]


def run(*command):
    """Processor time in seconds and the largest memory in MB that a command took."""
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    said = process.stderr.read().decode()
    _, status, used = os.wait4(process.pid, 0)
    if os.waitstatus_to_exitcode(status) != 0:
        sys.exit(" ".join(command) + ": " + said[:500])
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def order(folder, students, versions):
    with open(os.path.join(folder, "class.csv"), "w", encoding="utf-8") as out:
        out.write("student\n" + "".join(f"Student {number:06}\n" for number in range(students)))
    with open(os.path.join(folder, "set.toml"), "w", encoding="utf-8") as out:
        out.write(f'title = "A large class"\nseed = "rows"\nclass = "class.csv"\nversions = "{versions}"\n')
        out.write("".join(f'[[question]]\nkind = "{kind}"\n' for kind in KINDS))
    return os.path.join(folder, "set.toml")


def fill_in(made, path):
    """Answers of a class: of five, two right, two that a slip leads to, one that is neither. The number of cells filled."""
    chance = random.Random("rows")
    with open(os.path.join(made, "set.jsonl"), encoding="utf-8") as lines:
        header, *questions = map(json.loads, lines)
    parts, columns = {}, []
    for question in questions:
        for nth, part in enumerate(question["parts"]):
            column = question["number"] + (chr(ord("a") + nth) if len(question["parts"]) > 1 else "")
            parts.setdefault(question["version"], {})[column] = part
            if column not in columns:
                columns.append(column)
    with open(path, "w", encoding="utf-8", newline="") as out:
        table = csv.writer(out)
        table.writerow(["student", *columns])
        for student in header["students"]:
            row = [student["student"]]
            for column in columns:
                part = parts[student["version"]].get(column)
                keyed = [entry["answer"] for entry in part["slip_key"]] if part else []
                what = chance.randrange(5)
                if not part:
                    row.append("")
                elif what < 2:
                    row.append(f'{part["answer"]} {part["unit"]}')
                elif what < 4 and keyed:
                    row.append(f'{chance.choice(keyed)} {part["unit"]}')
                else:
                    row.append(f'{chance.uniform(0.001, 10):.4g} {part["unit"]}')
            table.writerow(row)
    return len(header["students"]) * len(columns)


def main(program, large):
    sizes = [1000, 10000] + ([100000] if large else [])
    print("\nGrowth of `set` with the students, five questions each, a version each (processor time, largest memory):")
    print("  students        s   ms a student      MB")
    for students in sizes:
        with tempfile.TemporaryDirectory() as folder:
            made = os.path.join(folder, "made")
            seconds, memory = run(program, "set", order(folder, students, "each"), "--out", made)
            print(f"  {students:>8}{seconds:>9.1f}{1000 * seconds / students:>15.2f}{memory:>8.0f}", flush=True)
            if students > sizes[0]:
                continue
            both = os.path.join(folder, "both")
            run(program, "set", os.path.join(folder, "set.toml"), "--jobs", "2", "--out", both)
            names = sorted(os.listdir(made))
            same, *_ = filecmp.cmpfiles(made, both, names, shallow=False)
            if sorted(same) != names or sorted(os.listdir(both)) != names:
                sys.exit("--jobs 2 makes other files")
            print("            the same files with --jobs 2, byte for byte")
    print("\nGrowth of `mark` with the rows, versions A and B shared by all:")
    print("   answers        s   us an answer      MB   bytes an answer more")
    before = None
    for students in sizes:
        with tempfile.TemporaryDirectory() as folder:
            made, answers = os.path.join(folder, "made"), os.path.join(folder, "answers.csv")
            run(program, "set", order(folder, students, "A/B"), "--out", made)
            cells = fill_in(made, answers)
            seconds, memory = run(program, "mark", os.path.join(made, "set.jsonl"), answers, "--out", os.path.join(folder, "marked"))
            kept = (memory - before[1]) * 2**20 / (cells - before[0]) if before else 0
            before = cells, memory
            print(f"  {cells:>8}{seconds:>9.1f}{1e6 * seconds / cells:>15.0f}{memory:>8.0f}" + (f"{kept:>23.0f}" if kept else ""), flush=True)
            if kept > MOST_KEPT:
                sys.exit("mark keeps more of an answer than it should")


if __name__ == "__main__":
    main(sys.argv[1], "--large" in sys.argv[2:])

#!/usr/bin/env python3
"""self_test.py TABLE   holds the second implementation itself against molar masses of Open Babel (TABLE) and cases worked by hand."""
import os
import subprocess
import sys
from fractions import Fraction

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from figures import read_given, read_number, read_readings, root, rounded, top  # noqa: E402
from ions import ions_of  # noqa: E402
from matter import Unreadable, molar_mass, read_equation, unit_factor, WEIGHTS  # noqa: E402

faults = []


def expect(what, ours, right):
    if ours != right:
        faults.append("%s: %s, not %s" % (what, ours, right))


with open(sys.argv[1], encoding="utf-8") as table:
    rows = [line.rstrip("\n").split("\t") for line in table if not line.startswith(("#", "formula"))]
for formula, _, mass, _ in rows:
    if abs(molar_mass(formula) - Fraction(mass)) > Fraction(mass) / 4000:
        faults.append("M(%s): %s, Open Babel %s" % (formula, float(molar_mass(formula)), mass))
# every weight against Open Babel, a lone atom each
atoms = "".join("[%s] %s\n" % (symbol, symbol) for symbol in WEIGHTS)
told = subprocess.run(["obabel", "-ismi", "-otxt", "--append", "MW"], input=atoms, capture_output=True, text=True).stdout
weighed = 0
for line in told.splitlines():
    words = line.split()
    if len(words) == 2 and words[0] in WEIGHTS:
        weighed += 1
        if abs(WEIGHTS[words[0]] - Fraction(words[1])) > Fraction(words[1]) / 1500:
            faults.append("A(%s): %s, Open Babel %s" % (words[0], float(WEIGHTS[words[0]]), words[1]))
expect("atoms weighed by Open Babel", weighed, len(WEIGHTS))
for value, figures, right in (("0.125", 2, "0.13"), ("2.5", 1, "3"), ("9.996", 3, "10.0"), ("0.09996", 3, "0.100"), ("1234.5", 2, "1200")):
    expect("%s to %d figures" % (value, figures), rounded(read_number(value), figures)[0], Fraction(right))
expect("burette", read_given("24.65 - 1.20").value, Fraction("23.45"))
expect("titres", read_given("mean of 24.10 rough | 23.45 | 23.50 | 23.40").value, Fraction("23.45"))
def mean_of(*readings, rough=()):
    return read_readings({"form": "mean", "unit": "mL", "readings": list(readings), "rough": list(rough)}).value


expect("concordant titres", mean_of("24.70", "23.45", "23.90", "23.50", "23.40", rough=(0,)), Fraction("23.45"))
expect("titres from two readings", mean_of({"final": "24.65", "initial": "1.20"}, {"final": "47.00", "initial": "23.45"}), Fraction("23.50"))
expect("top", (top(Fraction(999, 1000)), top(Fraction(1000)), top(Fraction(1, 1000))), (-1, 3, -3))
expect("a root that ends", root(read_given("2.56e-13"), 3, Fraction(1, 4)).value, Fraction(4, 100000))
expect("mL", unit_factor("mL"), Fraction(1, 1000))
expect("g/mL", unit_factor("g/mL"), 1000)
expect("mmol/L", unit_factor("mmol/L"), Fraction(1, 1000))
expect("ions", ions_of("Fe2(SO4)3"), {"Fe^3+": 2, "SO4^2-": 3})
try:
    read_equation("BaCl2(aq) + AgNO3(aq) -> AgCl(s) + Ba(NO3)2(aq)")
    faults.append("an unbalanced equation was taken")
except Unreadable:
    pass
for fault in faults:
    print("second implementation: " + fault)
sys.exit(1 if faults else 0)

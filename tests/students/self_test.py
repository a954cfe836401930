#!/usr/bin/env python3
"""The simulator's own wrong workings and writing, against numbers worked by hand."""
import os
import random
import sys
from fractions import Fraction

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "oracle"))
from students import text_of  # noqa: E402
from wrong_work import Problem, faults_of, misread, swapped, wrong_masses  # noqa: E402


def question(given, find, unit, answer, reactions=()):
    return {"given": [dict(zip(("quantity", "value", "unit"), one)) for one in given], "reactions": list(reactions), "excess": [], "text": "",
            "parts": [{"find": find, "unit": unit, "answer": answer, "significant_figures": 3, "unrounded": answer}]}


KOH = question([("V(KOH)", "20.00", "mL"), ("V(H2SO4)", "17.35", "mL"), ("c(H2SO4)", "0.0845", "mol/L")], "c(KOH)", "mol/L", "0.147",
               ["H2SO4 + 2KOH -> K2SO4 + 2H2O"])
FEED = question([("V(K2SO4)", "35.0", "mL"), ("c(K2SO4)", "0.125", "mol/L")], "n(K2SO4)", "mol", "0.00438")
HYDRATE = question([("n(FeSO4·7H2O)", "0.0100", "mol")], "m(FeSO4·7H2O)", "g", "2.78")
GAS = question([("V(CO2)", "0.500", "L"), ("p", "101", "kPa"), ("T", "22.0", "°C")], "n(CO2)", "mol", "0.0206")
# Slip, question, its wrong answer to three figures.
ROWS = [("mole-ratio-taken-as-one", KOH, "0.0733"), ("mole-ratio-inverted", KOH, "0.0367"), ("volume-left-in-mL", KOH, "147"),
        ("titre-and-aliquot-swapped", KOH, "0.195"), ("volume-left-in-mL", FEED, "4.38"), ("amount-as-c-over-V", FEED, "3.57"),
        ("digits-transposed", FEED, "0.00532"), ("hydrate-dot-multiplied", HYDRATE, "192"), ("hydrate-water-forgotten", HYDRATE, "1.52"),
        ("celsius-in-gas-law", GAS, "0.276")]


def main():
    passed, failed = 0, []
    for name, asked, wanted in ROWS:
        found = [text_of(answers[0], 3) for fault, answers, _ in faults_of(Problem(asked)) if fault.name == name]
        if wanted in found:
            passed += 1
        else:
            failed.append("%s: %s, wanted %s" % (name, found, wanted))
    for value, figures, wanted in [("0.0187499", 3, "0.0187"), ("9.995", 3, "10.0"), ("146.6", 3, "147"), ("1466", 3, "1.47e3"), ("0.00001234", 2, "1.2e-5")]:
        if text_of(Fraction(value), figures) == wanted:
            passed += 1
        else:
            failed.append("%s to %d figures: %s" % (value, figures, text_of(Fraction(value), figures)))
    for what, found, wanted in [("digits exchanged", set(swapped("17.35")), {"71.35", "13.75", "17.53"}), ("digits misread", set(misread("0.16")), {"0.76", "0.10"}),
                                ("M(Ca(NO3)2) with the 2 on the last atom", dict((n, m) for n, _, m in wrong_masses("Ca(NO3)2"))["bracket-multiplier-on-last-atom"], Fraction("150.079"))]:
        if found == wanted:
            passed += 1
        else:
            failed.append("%s: %s" % (what, found))
    for line in failed:
        print(line)
    print("%d passed, %d failed" % (passed, len(failed)))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())

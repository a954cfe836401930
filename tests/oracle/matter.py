"""Atoms, formulas, equations and units, read anew: nothing here comes from the program's tables.

Atomic weights: IUPAC standard atomic weights 2021, abridged to five digits (Pure Appl. Chem. 94 (2022) 573), typed from memory and
held against molar masses of Open Babel by self_test.py.
"""
import re
from fractions import Fraction
from functools import lru_cache

WEIGHTS = {symbol: Fraction(weight) for symbol, weight in (pair.split(":") for pair in """
H:1.0080 He:4.0026 Li:6.94 Be:9.0122 B:10.81 C:12.011 N:14.007 O:15.999 F:18.998 Ne:20.180 Na:22.990 Mg:24.305 Al:26.982 Si:28.085
P:30.974 S:32.06 Cl:35.45 Ar:39.95 K:39.098 Ca:40.078 Sc:44.956 Ti:47.867 V:50.942 Cr:51.996 Mn:54.938 Fe:55.845 Co:58.933 Ni:58.693
Cu:63.546 Zn:65.38 Ga:69.723 As:74.922 Se:78.971 Br:79.904 Kr:83.798 Rb:85.468 Sr:87.62 Mo:95.95 Pd:106.42 Ag:107.87 Cd:112.41
Sn:118.71 Sb:121.76 I:126.90 Xe:131.29 Cs:132.91 Ba:137.33 W:183.84 Pt:195.08 Au:196.97 Hg:200.59 Pb:207.2 Bi:208.98
""".split())}


class Unreadable(ValueError):
    pass


@lru_cache(maxsize=None)
def read_formula(text):
    """(atoms, charge) of a formula such as CuSO4·5H2O, SO4^2- or e^-; raises Unreadable."""
    bare, _, sign = text.partition("^")
    charge = 0
    if sign:
        found = re.fullmatch(r"(\d*)([+-])", sign)
        if not found:
            raise Unreadable(text)
        charge = int(found[1] or 1) * (1 if found[2] == "+" else -1)
    if bare == "e":
        return {}, charge
    atoms = {}
    for piece in re.split("[·.*]", bare):
        times, rest = re.fullmatch(r"(\d*)(.*)", piece).groups()
        stack = [{}]
        end = 0
        for token in re.finditer(r"([A-Z][a-z]?)(\d*)|([(\[])|([)\]])(\d*)", rest):
            if token.start() != end:
                raise Unreadable(text)
            end = token.end()
            if token[1]:
                stack[-1][token[1]] = stack[-1].get(token[1], 0) + int(token[2] or 1)
            elif token[3]:
                stack.append({})
            else:
                if len(stack) < 2:
                    raise Unreadable(text)
                for symbol, count in stack.pop().items():
                    stack[-1][symbol] = stack[-1].get(symbol, 0) + count * int(token[5] or 1)
        if end != len(rest) or len(stack) != 1 or not rest:
            raise Unreadable(text)
        for symbol, count in stack[0].items():
            if symbol not in WEIGHTS:
                raise Unreadable(text)
            atoms[symbol] = atoms.get(symbol, 0) + count * int(times or 1)
    return atoms, charge


@lru_cache(maxsize=None)
def is_formula(text):
    try:
        read_formula(text)
    except Unreadable:
        return False
    return True


@lru_cache(maxsize=None)
def molar_mass(text):
    return sum((WEIGHTS[symbol] * count for symbol, count in read_formula(text)[0].items()), Fraction(0))


@lru_cache(maxsize=None)
def read_equation(text):
    """(left, right), each {formula: coefficient}, states taken off; raises Unreadable where atoms or charge do not balance."""
    sides = []
    for side in text.split("->"):
        species = {}
        for term in side.split(" + "):
            term = re.sub(r"\((s|l|g|aq)\)$", "", term.strip())
            found = re.fullmatch(r"(\d*)\s*(.+)", term)
            species[found[2]] = species.get(found[2], 0) + int(found[1] or 1)
        sides.append(species)
    if len(sides) != 2:
        raise Unreadable(text)
    balance = {}
    for sign, side in ((1, sides[0]), (-1, sides[1])):
        for formula, times in side.items():
            atoms, charge = read_formula(formula)
            for symbol, count in list(atoms.items()) + [("charge", charge)]:
                balance[symbol] = balance.get(symbol, 0) + sign * count * times
    if any(balance.values()):
        raise Unreadable("not balanced: " + text)
    return sides[0], sides[1]


@lru_cache(maxsize=None)
def states(text):
    return {re.sub(r"^\d+", "", found[1]): found[2] for found in re.finditer(r"(\S+?)\((s|l|g|aq)\)(?= |$)", text)}


# Worked in mol, g, L, K, kPa, J; a unit is (factor to these, powers of them).
BASE = {"mol": 1, "g": 1, "L": 1, "l": 1, "K": 1, "°C": 1, "degC": 1, "Pa": Fraction(1, 1000), "bar": 100, "atm": Fraction("101.325"), "J": 1,
        "m3": 1000, "t": 1000000, "mmHg": Fraction("0.133322387415"), "cal": Fraction("4.184")}
PREFIX = {"": Fraction(1), "k": Fraction(1000), "h": Fraction(100), "d": Fraction(1, 10), "c": Fraction(1, 100), "m": Fraction(1, 1000),
          "u": Fraction(1, 10**6), "µ": Fraction(1, 10**6), "μ": Fraction(1, 10**6), "n": Fraction(1, 10**9), "M": Fraction(10**6)}
WHOLE = {"": Fraction(1), "1": Fraction(1), "%": Fraction(1, 100), "ppm": Fraction(1, 10**6), "ppb": Fraction(1, 10**9),
         "% (w/v)": Fraction(10), "% (m/v)": Fraction(10), "% (w/w)": Fraction(1, 100), "% (v/v)": Fraction(1, 100),
         "cm3": Fraction(1, 1000), "dm3": Fraction(1), "mm3": Fraction(1, 10**6), "M": Fraction(1), "mM": Fraction(1, 1000)}


@lru_cache(maxsize=None)
def unit_factor(text):
    """How many working units one of this unit is; raises Unreadable."""
    text = text.strip().replace("³", "3").replace("^3", "3")
    if text in WHOLE:
        return WHOLE[text]
    above, _, below = text.partition("/")
    factor = Fraction(1)
    for part, power in ((above, 1), (below, -1)):
        for word in re.findall(r"[^\s()·]+", part):
            inverse = re.fullmatch(r"(.+?)(?:\^?-1|⁻¹)", word)
            own = power
            if inverse:
                word, own = inverse[1], -power
            factor *= _one(word) ** own
    return factor


def _one(word):
    if word in WHOLE:
        return WHOLE[word]
    if word in BASE:
        return Fraction(BASE[word])
    if word[:1] in PREFIX and word[1:] in BASE:
        return PREFIX[word[0]] * BASE[word[1:]]
    raise Unreadable("unit " + word)

"""The ions of a salt, a strong acid or a base, from its formula alone: charges of school chemistry, recalled."""
import re
from functools import lru_cache

from matter import Unreadable, read_formula

CATIONS = {"H": 1, "Li": 1, "Na": 1, "K": 1, "Rb": 1, "Cs": 1, "Ag": 1, "NH4": 1, "Mg": 2, "Ca": 2, "Sr": 2, "Ba": 2, "Zn": 2, "Cd": 2, "Pb": 2,
           "Cu": 2, "Fe": None, "Ni": 2, "Co": 2, "Mn": 2, "Sn": 2, "Hg": 2, "Al": 3, "Cr": 3, "Bi": 3}
ANIONS = {"F": 1, "Cl": 1, "Br": 1, "I": 1, "OH": 1, "NO3": 1, "NO2": 1, "HCO3": 1, "ClO4": 1, "ClO3": 1, "MnO4": 1, "HSO4": 1, "H2PO4": 1,
          "CH3COO": 1, "SCN": 1, "IO3": 1, "BrO3": 1, "HCOO": 1, "CN": 1, "ClO": 1, "O": 2, "S": 2, "SO4": 2, "SO3": 2, "CO3": 2, "CrO4": 2, "Cr2O7": 2,
          "S2O3": 2, "C2O4": 2, "HPO4": 2, "PO4": 3}


def charged(name, charge):
    return "%s^%s%s" % (name, abs(charge) if abs(charge) > 1 else "", "+" if charge > 0 else "-")


@lru_cache(maxsize=None)
def ions_of(formula):
    """{ion: count}; empty where it is no salt."""
    salt = formula.split("·")[0]
    acids = {"CH3COOH", "HCOOH", "H2O", "H2S", "HF"}
    if salt in acids:
        return {}
    for cation, plus in sorted(CATIONS.items(), key=lambda pair: -len(pair[0])):
        found = re.fullmatch(r"(?:\(%s\)(\d+)|%s(\d*))(?![a-z])(.+)" % (cation, cation), salt)
        if not found:
            continue
        count = int(found[1] or found[2] or 1)
        rest = found[3]
        for anion, minus in ANIONS.items():
            many = re.fullmatch(r"\(%s\)(\d+)" % anion, rest)
            single = re.fullmatch(r"%s(\d*)" % anion, rest) if len(anion) <= 2 and anion != "OH" and anion != "CN" else None
            number = int(many[1]) if many else int(single[1] or 1) if single else 1 if rest == anion else None
            if number is None:
                continue
            own = plus if plus is not None else number * minus // count
            if own * count == number * minus and own > 0:
                return {charged(cation, own): count, charged(anion, -minus): number}
    return {}

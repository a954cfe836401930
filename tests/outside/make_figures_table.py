#!/usr/bin/env python3
"""Writes tests/data/figures_python.tsv: random problems with the figures that their answers can carry, by Python's decimal module.

    python3 tests/outside/make_figures_table.py > tests/data/figures_python.tsv

The rules are those of the course books (OpenStax Chemistry 2e, 1.5; for logarithms: common practice, no source), kept with numbers that are
not rounded on the way: a product keeps the fewest figures, a sum the coarsest last place, a logarithm as many decimal places as
its argument has figures; what is exact limits nothing. The last line alone is rounded, half up: to the place where it is a sum or
a logarithm, else to the figures. The same table comes out every time: the seed is fixed. Shares nothing with the program.
"""
import decimal
import math
import random
import sys

D = decimal.Decimal
decimal.getcontext().prec = 60
MOLAR = {"NaCl": D("58.44"), "KOH": D("56.105"), "CaCO3": D("100.086"), "AgNO3": D("169.874"), "CuSO4": D("159.602")}
GAS = D("8.31446261815324")


class Measured:
    """A number and the power of ten of its last sure digit (None: exact)."""

    def __init__(self, value, place=None):
        self.value, self.place = value, place

    @classmethod
    def read(cls, text):
        value = D(text)
        return cls(value, value.as_tuple().exponent)

    def figures(self):
        return None if self.place is None else self.value.adjusted() - self.place + 1

    def _with_figures(self, value, *others):
        counts = [n for n in (self.figures(), *(o.figures() for o in others)) if n is not None]
        return Measured(value, value.adjusted() - min(counts) + 1 if counts else None)

    def __mul__(self, other):
        return self._with_figures(self.value * other.value, other)

    def __truediv__(self, other):
        return self._with_figures(self.value / other.value, other)

    def _with_place(self, value, other):
        places = [p for p in (self.place, other.place) if p is not None]
        return Measured(value, max(places) if places else None)

    def __add__(self, other):
        return self._with_place(self.value + other.value, other)

    def __sub__(self, other):
        return self._with_place(self.value - other.value, other)

    def p(self):
        return Measured(-self.value.log10(), -self.figures())

    def power_of_ten(self):
        """10 to the power of minus this: as many figures as there are decimal places."""
        value = D(10) ** -self.value
        return Measured(value, value.adjusted() + self.place + 1)


def exact(text):
    return Measured(D(text))


def drawn(rng, low, high, places):
    """A number as text, between the two, with so many decimal places."""
    scale = 10**places
    return f"{D(rng.randint(math.ceil(low * scale), int(high * scale))) / scale:.{places}f}"


def solution(rng):
    c, v = drawn(rng, 0.1, 2, rng.randint(1, 4)), drawn(rng, 10, 60, rng.randint(0, 2))
    return f"given c(NaCl) = {c} mol/L; given V(NaCl) = {v} mL; find n(NaCl) in mol", Measured.read(c) * Measured.read(v) / exact("1000"), False


def mass_of_solute(rng):
    c, v = drawn(rng, 0.1, 2, rng.randint(1, 4)), drawn(rng, 10, 900, rng.randint(0, 1))
    answer = Measured.read(c) * Measured.read(v) / exact("1000") * Measured(MOLAR["KOH"])
    return f"given c(KOH) = {c} mol/L; given V(KOH) = {v} mL; find m(KOH) in g", answer, False


def amount(rng):
    name = rng.choice(sorted(MOLAR))
    m = drawn(rng, 0.2, 30, rng.randint(1, 4))
    return f"given m({name}) = {m} g; find n({name}) in mmol", Measured.read(m) / Measured(MOLAR[name]) * exact("1000"), False


def mass_of_solution(rng):
    m, water = drawn(rng, 0.5, 20, rng.randint(0, 3)), drawn(rng, 20, 300, rng.randint(0, 2))
    return f"given m(NaCl) = {m} g; given m(H2O) = {water} g; find m(solution) in g", Measured.read(m) + Measured.read(water), True


def mass_fraction(rng):
    m, water = drawn(rng, 0.5, 20, rng.randint(0, 3)), drawn(rng, 20, 300, rng.randint(0, 2))
    solute = Measured.read(m)
    return (f"given m(NaCl) = {m} g; given m(H2O) = {water} g; find w(NaCl) in %",
            solute / (solute + Measured.read(water)) * exact("100"), False)


def burette(rng):
    first, c = drawn(rng, 0, 5, 2), drawn(rng, 0.05, 0.9, rng.randint(3, 5))
    last = drawn(rng, float(first) + rng.choice((0.3, 3, 12)), float(first) + 30, 2)
    answer = (Measured.read(last) - Measured.read(first)) * Measured.read(c) / exact("1000")
    return f"given V(HCl) = {last} - {first} mL; given c(HCl) = {c} mol/L; find n(HCl) in mol", answer, False


def mean_titre(rng):
    middle = D(drawn(rng, 8, 30, 2))
    titres = [str(middle + D(step) / 100) for step in rng.choices((-5, 0, 5), k=3)]
    c = drawn(rng, 0.05, 0.9, rng.randint(3, 5))
    total = Measured.read(titres[0]) + Measured.read(titres[1]) + Measured.read(titres[2])
    mean = Measured(total.value / 3, total.place)
    return (f"given V(HCl) = mean of {' | '.join(titres)} mL; given c(HCl) = {c} mol/L; find n(HCl) in mmol", mean * Measured.read(c), False)


def dilution(rng):
    c1, v1, v2 = drawn(rng, 0.5, 4, rng.randint(1, 3)), drawn(rng, 5, 50, rng.randint(0, 2)), drawn(rng, 100, 500, rng.randint(0, 1))
    return (f"given c1(KOH) = {c1} mol/L; given V1(KOH) = {v1} mL; given V2(KOH) = {v2} mL; find c2(KOH) in mol/L",
            Measured.read(c1) * Measured.read(v1) / Measured.read(v2), False)


def mixed(rng):
    c1, c2 = drawn(rng, 0.1, 1, rng.randint(2, 4)), drawn(rng, 0.1, 1, rng.randint(2, 4))
    v1, v2 = drawn(rng, 10, 90, rng.randint(0, 2)), drawn(rng, 10, 90, rng.randint(0, 2))
    litre = exact("1000")
    one, two = Measured.read(v1) / litre, Measured.read(v2) / litre
    return (f"given c1(NaCl) = {c1} mol/L; given V1(NaCl) = {v1} mL; given c2(NaCl) = {c2} mol/L; given V2(NaCl) = {v2} mL; "
            "mix 1 + 2 -> 3; find c3(NaCl) in mol/L",
            (Measured.read(c1) * one + Measured.read(c2) * two) / (one + two), False)


def gas(rng):
    p, v, t = drawn(rng, 90, 120, rng.randint(0, 1)), drawn(rng, 0.2, 9, rng.randint(1, 3)), drawn(rng, 5, 95, rng.randint(0, 1))
    kelvin = Measured.read(t) + exact("273.15")
    answer = Measured.read(p) * Measured.read(v) / (Measured(GAS) * kelvin)
    return f"given p(O2) = {p} kPa; given V(O2) = {v} L; given T = {t} °C; find n(O2) in mol", answer, False


def heat(rng):
    m, cp = drawn(rng, 20, 300, rng.randint(0, 2)), "4.18"
    t1 = drawn(rng, 15, 25, rng.randint(0, 2))
    t2 = drawn(rng, 27, 60, rng.randint(0, 2))
    answer = Measured.read(m) * Measured.read(cp) * (Measured.read(t2) - Measured.read(t1)) / exact("1000")
    return (f"given m(solution) = {m} g; given cp = {cp} J/(g K); given T1 = {t1} °C; given T2 = {t2} °C; find q in kJ", answer, False)


def acidity(rng):
    c = drawn(rng, 0.001, 0.9, rng.randint(3, 5))
    return f"given c(HCl) = {c} mol/L; find pH", Measured.read(c).p(), True


def from_acidity(rng):
    pH = drawn(rng, 0.5, 5.5, rng.randint(1, 3))
    return f"given pH = {pH}; find c(H^+) in mol/L", Measured.read(pH).power_of_ten(), False


def from_mass_to_acidity(rng):
    m, v = drawn(rng, 0.1, 3, rng.randint(1, 3)), drawn(rng, 0.5, 3, rng.randint(1, 3))
    return (f"given m(HCl) = {m} g; given V(HCl) = {v} L; find pH",
            (Measured.read(m) / exact("36.458") / Measured.read(v)).p(), True)


def printed(answer, by_place):
    place = answer.place if by_place else answer.value.adjusted() - answer.figures() + 1
    rounded = answer.value.quantize(D(1).scaleb(place), decimal.ROUND_HALF_UP)
    if not by_place and rounded.adjusted() > answer.value.adjusted():  # carried: 9.97 to two figures is 10
        rounded = rounded.quantize(D(1).scaleb(place + 1))
    return rounded


def main():
    rng = random.Random(20260202)
    kinds = [solution, mass_of_solute, amount, mass_of_solution, mass_fraction, burette, mean_titre, dilution, mixed, gas, heat, acidity,
             from_acidity, from_mass_to_acidity]
    print(f"# Python {sys.version_info.major}.{sys.version_info.minor} decimal, libmpdec {decimal.__libmpdec_version__};"
          " written by tests/outside/make_figures_table.py")
    print("kind\tproblem\tanswer\tlast_place")
    for row in range(420):
        kind = kinds[row % len(kinds)]
        result = None
        # Neither zero nor a number without a sure figure, nor one that ends in a zero before the point: how many figures has 1680?
        while result is None or result.as_tuple().exponent > 0:
            problem, answer, by_place = kind(rng)
            result = printed(answer, by_place) if answer.value != 0 and answer.figures() > 0 else None
        print(f"{kind.__name__}\t{problem}\t{result:E}\t{result.as_tuple().exponent}")


if __name__ == "__main__":
    main()

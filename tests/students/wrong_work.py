"""The wrong workings of students, from formulas of their own.

A question is worked from its printed givens by the second implementation (tests/oracle), step by step: a step is one formula between
quantities. A fault puts another formula, another number or another quantity in the place of one step. The names are those of
marker/data/slips.tsv where that knows the fault; nothing else comes from the program.
"""
import os
import re
import sys
from fractions import Fraction

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "oracle"))
from figures import Number, read_number, top  # noqa: E402
from matter import WEIGHTS, Unreadable, is_formula, molar_mass, read_formula, unit_factor  # noqa: E402
from work import evaluate, plan_question, read_givens, read_quantity  # noqa: E402
from ions import ions_of  # noqa: E402

ATOMIC_NUMBER = {symbol: at for at, symbol in enumerate(
    "H He Li Be B C N O F Ne Na Mg Al Si P S Cl Ar K Ca Sc Ti V Cr Mn Fe Co Ni Cu Zn Ga Ge As Se Br Kr Rb Sr Y Zr Nb Mo Tc Ru Rh Pd Ag "
    "Cd In Sn Sb Te I Xe Cs Ba".split(), 1)}
ATOMIC_NUMBER.update(Pt=78, Au=79, Hg=80, Pb=82, Bi=83)
NEIGHBOUR = {"Mg": "Mn", "Mn": "Mg", "N": "Na", "Na": "N", "P": "K", "K": "P", "Cl": "C", "C": "Ca", "Ca": "C", "Cu": "Co", "S": "Si", "Fe": "F", "Ag": "Au"}


def words(key):
    """V2(NaOH, aliquot) again."""
    inside = ", ".join(part for part in (key[2], key[3]) if part)
    return key[0] + key[1] + ("(%s)" % inside if inside else "")


class Fault:
    """name: of the slip; known: whether the program's library is meant to have it; where: the quantity at which it is made; put: what
    is put in place, {quantity: function of the values worked so far}; answer: (part, function) where only the answer differs."""
    __slots__ = ("name", "where", "put", "answer", "known")

    def __init__(self, name, where, put=None, answer=None, known=True):
        self.name, self.where, self.put, self.answer, self.known = name, where, put or {}, answer, known


class Problem:
    """A question with its steps."""

    def __init__(self, question):
        self.question = question
        self.given = read_givens(question)
        self.unit = {read_quantity(one["quantity"]): one.get("unit", "") for one in question["given"]}
        self.printed = {read_quantity(one["quantity"]): one for one in question["given"]}
        self.parts = question["parts"]
        self.finds = [read_quantity(part["find"]) if "unrounded" in part else None for part in self.parts]
        numeric = [key for key in self.finds if key]
        self.net, self.through = plan_question(question, self.given, numeric)
        self.order = []
        self.paths = []
        for key in self.finds:
            self.paths.append(self._path(key) if key else [])
        for path in self.paths:
            self.order += [key for key in path if key not in self.order]
        self.right = self.work({})

    def _path(self, key):
        """Quantities to work out on the way to one, in order, itself last."""
        path, seen = [], set()

        def go(one):
            if one in self.given or one in seen:
                return
            seen.add(one)
            if self.through.get(one) is None:
                raise Unreadable("nothing leads to " + words(one))
            for before in self.ins(one):
                go(before)
            path.append(one)
        go(key)
        return path

    def ins(self, key):
        return self.net.rules[self.through[key]][1]

    def work(self, put):
        """All values, with the formulas of some quantities put otherwise; None where that cannot be worked."""
        values = {}
        try:
            for key, number in self.given.items():
                values[key] = Number(put[key](values)) if key in put else Number(number.value)
            for key in self.order:
                values[key] = Number(put[key](values)) if key in put else self.step(key, values)
        except (ZeroDivisionError, ValueError, ArithmeticError, OverflowError, AttributeError, KeyError):
            return None
        return values

    def step(self, key, values):
        _, ins, work, _ = self.net.rules[self.through[key]]
        return Number(work([values[one] for one in ins]).value)

    def shown(self, part, values):
        """A part's number in its unit."""
        key = self.finds[part]
        value = values[key].value
        return value if key[0] in ("pH", "pOH") else value / unit_factor(self.parts[part]["unit"])

    def answers(self, faults):
        """The unrounded answers of all parts (None where one is no number), and the values; None where nothing comes of it."""
        put = {}
        for fault in faults:
            if set(put) & set(fault.put):
                return None
            put.update(fault.put)
        values = self.work(put) if put else self.right
        if values is None:
            return None
        answers = [self.shown(part, values) if key else None for part, key in enumerate(self.finds)]
        for fault in faults:
            if fault.answer:
                part, function = fault.answer
                if answers[part] is None:
                    return None
                answers[part] = function(answers[part], values)
        if any(answer is not None and answer <= 0 and self.finds[part][0] not in ("dH", "q", "T") for part, answer in enumerate(answers)):
            return None
        return answers, values


# -- wrong formulas; v[x] is a Number
def val(key):
    return lambda v: v[key].value


def over(a, b):
    return lambda v: v[a].value / v[b].value


def times(a, b):
    return lambda v: v[a].value * v[b].value


def with_other(problem, step, key, value):
    """The right formula of a step, with another number for one quantity in it."""
    return lambda v: problem.step(step, {**v, key: Number(value)}).value


def scaled_step(problem, key, factor):
    """The right formula, and the result off by a factor."""
    return lambda v: problem.step(key, v).value * factor


def wrong_masses(formula):
    """(name of the fault, known, wrong molar mass)."""
    right = molar_mass(formula)
    bare = formula.split("^")[0]
    found = []
    if "·" in bare:
        salt, water = bare.split("·")
        times_ = int(re.match(r"\d*", water)[0] or 1)
        dry, wet = molar_mass(salt), molar_mass("H2O")
        found += [("hydrate-water-forgotten", True, dry), ("hydrate-dot-multiplied", True, dry * times_ * wet)]
        if times_ > 1:
            found += [("hydrate-one-water", True, dry + wet),
                      ("hydrate-number-on-hydrogen-only", True, dry + 2 * times_ * WEIGHTS["H"] + WEIGHTS["O"])]
        head = salt
    else:
        head = bare
    rest = right - molar_mass(head)
    bracket = re.search(r"\(([^()]+)\)(\d+)", head)
    if bracket:
        inside, count = bracket[1], int(bracket[2])
        once = molar_mass(head) - molar_mass(inside) * (count - 1)
        found.append(("bracket-multiplier-ignored", True, once + rest))
        last = re.search(r"([A-Z][a-z]?)(\d*)$", inside)
        if len(re.findall("[A-Z]", inside)) > 1:
            found.append(("bracket-multiplier-on-last-atom", True, once + WEIGHTS[last[1]] * int(last[2] or 1) * (count - 1) + rest))
        found.append(("bracket-multiplier-on-whole-formula", True, once * count + rest))
    plain = re.findall(r"([A-Z][a-z]?)(\d+)", head)
    if not bracket and len(re.findall("[A-Z]", head)) > 1:
        for symbol, count in plain:
            found.append(("subscript-ignored", True, right - WEIGHTS[symbol] * (int(count) - 1)))
    atoms = read_formula(head)[0]
    if len(atoms) == 1 and sum(atoms.values()) == 2:
        found.append(("diatomic-taken-as-atom", True, right / 2))
    if all(symbol in ATOMIC_NUMBER for symbol in read_formula(bare)[0]):
        found.append(("atomic-number-for-weight", True, Fraction(sum(ATOMIC_NUMBER[s] * n for s, n in read_formula(bare)[0].items()))))
    if len(atoms) > 1:
        for symbol, count in atoms.items():
            found.append(("element-left-out-of-sum", True, right - WEIGHTS[symbol] * count))
            found.append(("element-counted-twice", False, right + WEIGHTS[symbol] * count))
            if symbol in NEIGHBOUR:
                found.append(("neighbour-element-weight", False, right + count * (WEIGHTS[NEIGHBOUR[symbol]] - WEIGHTS[symbol])))
    return [(name, known, mass) for name, known, mass in found if mass > 0 and mass != right]


def uses_of_molar_mass(problem, formula):
    """{step: whether it divides by M(formula)}"""
    uses = {}
    for key in problem.order:
        ins = problem.ins(key)
        if len(ins) == 1 and key[2] == formula == ins[0][2]:
            if (key[0], ins[0][0]) in (("n", "m"), ("c", "gamma")):
                uses[key] = True
            if (key[0], ins[0][0]) in (("m", "n"), ("gamma", "c")):
                uses[key] = False
    return uses


def molar_mass_faults(problem, key, before, formula, dividing):
    """Of a step that divides by (or multiplies with) M(formula). Who works a molar mass out wrongly has that one wherever it is used."""
    right = molar_mass(formula)
    m_words = "M(%s)" % formula
    uses = uses_of_molar_mass(problem, formula)
    for name, known, mass in wrong_masses(formula) if key == next(iter(uses)) else ():
        yield Fault(name, m_words, {use: scaled_step(problem, use, right / mass if divides else mass / right)
                                    for use, divides in uses.items()}, known=known)
    for left, products in problem.net.reactions:
        for other, count in list(left.items()) + list(products.items()):
            if other == formula:
                if count > 1:
                    yield Fault("coefficient-inside-molar-mass", m_words,
                                {key: scaled_step(problem, key, Fraction(1, count) if dividing else Fraction(count))})
            elif molar_mass(other) and any(k[2] == other for k in problem.net.keys):
                ratio = right / molar_mass(other)
                yield Fault("other-substance-molar-mass", m_words, {key: scaled_step(problem, key, ratio if dividing else 1 / ratio)})


UNIT_FAULTS = {  # (symbol, printed unit): faults of leaving or changing the unit, as factors on the given
    ("V", "mL"): [("volume-left-in-mL", 1000), ("volume-converted-by-100", 10), ("volume-converted-wrong-way", 10**6)],
    ("V", "cm3"): [("volume-left-in-mL", 1000), ("volume-converted-by-100", 10), ("volume-converted-wrong-way", 10**6)],
    ("m", "mg"): [("mass-left-in-mg", 1000), ("mass-converted-wrong-way", 10**6)],
    ("m", "kg"): [("mass-left-in-kg", Fraction(1, 1000)), ("mass-converted-wrong-way", Fraction(1, 10**6))],
    ("n", "mmol"): [("millimole-taken-as-mole", 1000)],
    ("gamma", "mg/L"): [("mg-per-L-taken-as-g-per-L", 1000)],
    ("w", "%"): [("percent-left-as-number", 100)],
    ("yield", "%"): [("percent-left-as-number", 100)],
    ("c", "mmol/L"): [("millimole-taken-as-mole", 1000)],
}


def given_faults(problem):
    used = {one for key in problem.order for one in problem.ins(key)}
    for key in problem.given:
        if key not in used:
            continue
        value, unit = problem.given[key].value, problem.unit[key]
        users = [one for one in problem.order if key in problem.ins(one)]
        needs = not all(sum(other[0] == key[0] for other in list(problem.ins(user)) + [user]) > 1 for user in users)
        if needs:
            # Where it goes into n = cV and the like, not where volumes are added up.
            into = [user for user in users if not any(problem.unit.get(one) in ("g/mL", "g/cm3") for one in problem.ins(user)) and not any(one[0] == key[0] for one in list(problem.ins(user)) + [user] if one != key)]
            for name, factor in UNIT_FAULTS.get((key[0], unit), []) if into else []:
                yield Fault(name, words(key), {user: with_other(problem, user, key, value * factor) for user in into})
        one = problem.printed[key]
        factor = unit_factor(unit) if unit not in ("°C", "degC") and key[0] not in ("pH", "pOH") else Fraction(1)
        shift = Fraction("273.15") if unit in ("°C", "degC") else 0
        texts = one.get("readings") or [one["value"]]
        if len(texts) == 1 and re.fullmatch(r"[\d.]+", texts[0]):
            for wrong in swapped(texts[0]):
                yield Fault("digits-transposed", words(key), {key: lambda v, x=read_number(wrong).value * factor + shift: x})
            for wrong in misread(texts[0]):
                yield Fault("digit-misread", words(key), {key: lambda v, x=read_number(wrong).value * factor + shift: x}, known=False)
        elif one.get("form") == "difference":
            yield Fault("final-reading-as-titre", words(key), {key: lambda v, x=read_number(texts[0]).value * factor: x})
        if unit in ("°C", "degC") and not any(one[0] in ("q", "dT", "cp") for one in problem.order + list(problem.given)):
            yield Fault("celsius-in-gas-law", words(key), {key: lambda v, x=value - shift: x})
            yield Fault("kelvin-subtracted", words(key), {key: lambda v, x=abs(value - 2 * shift): x})
        for other in problem.given:
            if other != key and problem.unit[other] == unit and problem.given[other].value != value and key[0] == other[0]:
                yield Fault("other-given-copied", words(key), {key: lambda v, x=problem.given[other].value: x})


def swapped(text):
    digits = [at for at, sign in enumerate(text) if sign.isdigit() and text[:at + 1].strip("0.")]  # not the zeros that place the point
    for a, b in zip(digits, digits[1:]):
        wrong = list(text)
        wrong[a], wrong[b] = wrong[b], wrong[a]
        if wrong[a] != wrong[b] and not (a == digits[0] and wrong[a] == "0"):
            yield "".join(wrong)


def misread(text):
    for at, sign in enumerate(text):
        other = {"1": "7", "7": "1", "6": "0", "3": "8", "8": "3", "5": "6"}.get(sign)
        if other and not (at == 0 and other == "0"):
            yield text[:at] + other + text[at + 1:]


def there_and_back_again(problem, key):
    """n of a portion over its V, times the same V, or mg/L to mol/L and back: the second implementation's detours, nobody's working."""
    ins = problem.ins(key)
    through = {(one[0], problem.ins(one)[0][0]) for one in problem.order if one[2] == key[2] and len(problem.ins(one)) == 1}
    if key[0] in "nc" and {("c", "gamma"), ("gamma", "c")} <= through:
        return True
    volumes = {one for one in ins if one[0] == "V"}
    if key[0] == "n" and len(ins) == 2:
        return any(one[0] == "c" and one in problem.order and volumes & set(problem.ins(one)) for one in ins)
    users = [one for one in problem.order if key in problem.ins(one)]
    return key[0] == "c" and len(ins) == 2 and bool(volumes) and key not in problem.finds and bool(users) and all(
        volumes & set(problem.ins(one)) for one in users)


def step_faults(problem, key):
    ins = problem.ins(key)
    kind, of = key[0], key[2]
    symbols = "".join(sorted(one[0] for one in ins))
    by = {one[0]: one for one in ins}
    right = problem.right[key].value
    formula = of if is_formula(of) else None
    if len(ins) == 1 and formula and ins[0][2] == of:
        before = ins[0]
        m = molar_mass(of)
        there_and_back = any(len(problem.ins(one)) == 1 and (one[0], problem.ins(one)[0][0]) in {
            ("n", "m"): [("m", "n"), ("gamma", "c")], ("c", "gamma"): [("m", "n"), ("gamma", "c")], ("m", "n"): [("n", "m"), ("c", "gamma")],
            ("gamma", "c"): [("n", "m"), ("c", "gamma")]}.get((kind, before[0]), []) and one[2] == of for one in problem.order)
        if there_and_back:
            return  # the molar mass cancels: nobody goes that way round
        if (kind, before[0]) in (("n", "m"), ("c", "gamma")):
            yield from molar_mass_faults(problem, key, before, of, True)
            if kind == "n":
                yield Fault("mass-times-molar-mass", words(key), {key: lambda v: v[before].value * m})
                yield Fault("mass-over-molar-mass-inverted", words(key), {key: lambda v: m / v[before].value})
                yield Fault("mass-used-as-amount", words(key), {key: val(before)})
            else:
                yield Fault("mass-concentration-as-amount-concentration", words(key), {key: val(before)})
        if (kind, before[0]) in (("m", "n"), ("gamma", "c")):
            yield from molar_mass_faults(problem, key, before, of, False)
            if kind == "m":
                yield Fault("amount-divided-by-molar-mass", words(key), {key: lambda v: v[before].value / m})
                if before not in problem.given:
                    yield Fault("amount-reported-as-mass", words(key), {key: val(before)})
            else:
                yield Fault("amount-concentration-as-mass-concentration", words(key), {key: val(before)})
        if kind == "N" and before[0] == "n":
            yield Fault("avogadro-left-out", words(key), {key: val(before)})
    if there_and_back_again(problem, key):
        return
    if kind == "n" and symbols == "Vc":
        yield Fault("amount-as-c-over-V", words(key), {key: over(by["c"], by["V"])})
        yield Fault("amount-as-V-over-c", words(key), {key: over(by["V"], by["c"])})
    if kind == "c" and symbols == "Vn":
        # The amount in the same portion is known already: nobody works it out from this concentration.
        known_before = {one: val(by["n"]) for one in problem.order if one[0] == "n" and set(problem.ins(one)) == {key, by["V"]}}
        yield Fault("concentration-as-n-times-V", words(key), {key: times(by["n"], by["V"]), **known_before})
        yield Fault("concentration-upside-down", words(key), {key: over(by["V"], by["n"]), **known_before})
    if kind == "V" and symbols == "cn":
        yield Fault("volume-as-n-times-c", words(key), {key: times(by["n"], by["c"])})
    if kind == "n" and symbols == "VVm":
        yield Fault("molar-volume-multiplied-for-divided", words(key), {key: times(by["V"], by["Vm"])})
    if kind == "V" and symbols == "Vmn":
        yield Fault("molar-volume-multiplied-for-divided", words(key), {key: over(by["n"], by["Vm"])})
    if kind == "m" and by.keys() == {"rho", "V"} and by["rho"] in problem.given:
        per_mL = 10**6 if problem.unit.get(by["rho"]) in ("g/mL", "g/cm3") else 1  # millilitres over grams per millilitre
        yield Fault("density-inverted", words(key), {key: lambda v: per_mL * v[by["V"]].value / v[by["rho"]].value})
    if kind == "m" and "w" in by and len(ins) == 2 and "m" in by:
        yield Fault("purity-not-applied", words(key), {key: val(by["m"])})
        yield Fault("purity-divided-for-multiplied", words(key), {key: over(by["m"], by["w"])})
    if len(ins) == 1 and kind == "n" == ins[0][0] and formula and is_formula(ins[0][2]) and ins[0][2] != of and problem.net.reactions:
        before = ins[0]
        r = right / problem.right[before].value
        both = [1 for left, products in problem.net.reactions if {of, before[2]} <= set(left) | set(products)]
        if r != 1 and both:
            yield Fault("mole-ratio-inverted", words(key), {key: lambda v: v[before].value / r})
            yield Fault("mole-ratio-taken-as-one", words(key), {key: val(before)})
            yield Fault("ratio-used-twice", words(key), {key: lambda v: v[before].value * r * r})
            mass = ("m", "", of, key[3])
            start = ("m", "", before[2], before[3])
            if mass in problem.order and problem.ins(mass) == (key,) and (start in problem.given or start in problem.order):
                yield Fault("ratio-applied-to-masses", words(key), {mass: lambda v: v[start].value * r})
            left, products = problem.net.reactions[0]
            coefficient = {**left, **products}
            if of in coefficient and before[2] in coefficient:
                yield Fault("coefficients-added", words(key), {key: lambda v: abs(v[before].value + coefficient[of] - coefficient[before[2]])}, known=False)
                for other, count in coefficient.items():
                    if other not in (of, before[2]) and count != coefficient[before[2]]:
                        yield Fault("ratio-of-other-pair", words(key), {key: lambda v, f=Fraction(coefficient[of], count): v[before].value * f}, known=False)
    if len(ins) == 1 and kind in "cn" and ins[0][0] == kind and formula and is_formula(ins[0][2]) and not problem.net.reactions and "·" not in of + ins[0][2]:
        r = right / problem.right[ins[0]].value
        if r != 1:
            yield Fault("ion-count-ignored", words(key), {key: val(ins[0])})
            yield Fault("ion-count-inverted", words(key), {key: lambda v: v[ins[0]].value / r})
    if key[0] == "xi":
        names = problem.net.limited[0]
        coefficients = problem.net.limited[2]
        shares = [problem.right[one].value / count for one, count in zip(ins, coefficients)]
        if len(ins) == 2 and shares[0] != shares[1]:
            other = shares.index(max(shares))
            yield Fault("excess-reagent-used", "limiting reagent", {key: lambda v: v[ins[other]].value / coefficients[other]})

            def by_rule(name, amounts):
                if None not in amounts and amounts[other] < amounts[1 - other]:
                    return Fault(name, "limiting reagent", {key: lambda v: v[ins[other]].value / coefficients[other]})
                return None
            raw = lambda symbol: [next((problem.right[k].value for k in problem.given if k[0] == symbol and k[2] == one), None) for one in names]
            for fault in (by_rule("limiting-by-smaller-amount", [problem.right[one].value for one in ins]),
                          by_rule("limiting-by-smaller-mass", raw("m")), by_rule("limiting-by-smaller-volume", raw("V"))):
                if fault:
                    yield fault
            yield Fault("products-from-both-added", "limiting reagent", {key: lambda v: sum(v[one].value / count for one, count in zip(ins, coefficients))})
            yield Fault("products-from-both-averaged", "limiting reagent",
                        {key: lambda v: sum(v[one].value / count for one, count in zip(ins, coefficients)) / 2})
    if kind == "n" and key[3] == "left" and len(ins) == 2 and ins[1][3] == "used":
        yield Fault("excess-left-not-subtracted", words(key), {key: val(ins[0])})
        yield Fault("excess-used-reported-as-left", words(key), {key: val(ins[1])})
        if problem.net.limited:
            others = [one for one in problem.net.limited[1] if one != ins[0]]
            if len(others) == 1 and problem.right[ins[0]].value > problem.right[others[0]].value:
                yield Fault("excess-left-one-to-one", words(key), {key: lambda v: v[ins[0]].value - v[others[0]].value})
    if kind == "n" and key[3] == "used" and len(ins) == 2 and ins[1][3] == "left":
        yield Fault("back-titration-not-subtracted", words(key), {key: val(ins[1])})
        yield Fault("back-titration-total-used", words(key), {key: val(ins[0])})
    if kind in ("c", "gamma") and len(ins) == 3 and sum(one[0] == "V" for one in ins) == 2:
        start = next((one for one in ins if one[0] == kind), None)
        if start:
            low, high = sorted((one for one in ins if one[0] == "V"), key=lambda one: one[1])
            up = key[1] < start[1]
            big, small = (high, low) if not up else (low, high)
            yield Fault("dilution-factor-inverted", words(key), {key: lambda v: v[start].value ** 2 / problem.step(key, v).value})
            yield Fault("concentration-unchanged-on-mixing", words(key), {key: val(start)})
    if kind == "V" and len(ins) == 3 and "V" in by and symbols in ("Vcc", "Vgammagamma"):
        yield Fault("dilution-factor-inverted", words(key), {key: lambda v: v[by["V"]].value ** 2 / problem.step(key, v).value})
    if kind == "V" and len(ins) == 2 and all(one[0] == "V" for one in ins):
        if right == sum(problem.right[one].value for one in ins):
            yield Fault("added-volume-as-final-volume" if ("V", "", "H2O", "added") in ins else "total-volume-ignored-on-mixing", words(key),
                        {key: val(max(ins, key=lambda one: one[3] == "added"))})
            yield Fault("volume-difference-for-total", words(key), {key: lambda v: abs(v[ins[0]].value - v[ins[1]].value)})
        else:
            yield Fault("total-volume-as-water-added", words(key), {key: val(max(ins, key=lambda one: problem.right[one].value))})
    if kind == "yield" and len(ins) == 2:
        yield Fault("yield-inverted", words(key), {key: lambda v: 1 / problem.step(key, v).value})
        yield Fault("loss-given-for-yield", words(key), {key: lambda v: 1 - problem.step(key, v).value})
    if kind in "mn" and "yield" in by and len(ins) == 2:
        other = next(one for one in ins if one[0] != "yield")
        yield Fault("yield-not-applied", words(key), {key: val(other)})
        if right > problem.right[other].value:
            yield Fault("yield-multiplied-for-divided", words(key), {key: times(other, by["yield"])})
            yield Fault("loss-added-back-as-percent", words(key), {key: lambda v: v[other].value * (2 - v[by["yield"]].value)})
    if kind == "pH" and ins == (("pOH", "", "", ""),):
        yield Fault("pOH-given-as-pH", words(key), {key: val(ins[0])})
    if kind in ("pH", "pOH") and len(ins) == 1 and ins[0][0] == "c":
        yield Fault("natural-logarithm", words(key), {key: lambda v: problem.step(key, v).value * Fraction("2.302585092994")}, known=False)
    if kind == "dH":
        yield Fault("sign-of-enthalpy", words(key), {key: lambda v: -problem.step(key, v).value})
    if kind == "q" and any(one[2] == "solution" and one[0] == "m" for one in ins):
        solutes = [k for k in problem.given if k[0] == "m" and k[2] != "solution"]
        if len(solutes) == 1:
            at = next(one for one in ins if one[0] == "m")
            yield Fault("solute-mass-for-solution-mass", words(key), {key: lambda v: problem.step(key, v).value / v[at].value * v[solutes[0]].value})
    if kind in ("c", "s") and len(ins) == 1 and ins[0][0] == "Ksp":
        root = Fraction(float(problem.right[ins[0]].value) ** 0.5)
        if abs(float(root) / float(right) - 1) > 1e-6:
            yield Fault("solubility-as-square-root", words(key), {key: lambda v, x=root: x})
    if kind == "n" and len(ins) == 2 and all(one[0] == "n" and one[1] for one in ins) and key[1]:
        c = [("c", one[1], of, "") for one in ins]
        out = ("c", key[1], of, "")
        if all(one in problem.given for one in c) and out in problem.order:
            yield Fault("mixture-concentration-averaged", words(out), {out: lambda v: (v[c[0]].value + v[c[1]].value) / 2})
            yield Fault("mixture-concentrations-added", words(out), {out: lambda v: v[c[0]].value + v[c[1]].value})
    if kind == "n" and symbols == "Vc" and not key[3] and ("V", by["V"][1], of, "aliquot") in problem.given and key not in problem.given:
        portion = ("n", "", of, "portion")
        if portion in problem.order:
            yield Fault("aliquot-not-scaled-up", words(key), {key: val(portion)})


def answer_faults(problem):
    for part, key in enumerate(problem.finds):
        if not key:
            continue
        path = problem.paths[part]
        unit = problem.parts[part]["unit"]
        scale = unit_factor(unit) if key[0] not in ("pH", "pOH") else Fraction(1)
        here = words(key)
        if key in problem.order and len(path) > 1:
            for one in problem.ins(key):
                if one in problem.order and one[0] != "xi" and problem.right[one].value != problem.right[key].value:
                    if any(problem.right[given].value == problem.right[one].value for given in problem.given):
                        continue  # nothing was worked out yet
                    beside = [unit_factor(problem.unit[given]) for given in problem.given if given[0] == one[0] == "V"]
                    own = scale if one[0] == key[0] else beside[0] if beside else 1
                    yield Fault("stopped-one-step-early", here, answer=(part, lambda a, v, one=one, own=own: v[one].value / own))
        for power in () if key[0] in ("pH", "pOH") else (10, Fraction(1, 10), 100, Fraction(1, 100)):
            yield Fault("power-of-ten", here, answer=(part, lambda a, v, f=power: a * f))
        # A volume from c1V1 = c2V2 comes out in the unit that the other volume had.
        carried = any(one[0] == key[0] and problem.unit[one] == unit for one in problem.given)
        if scale != 1 and unit not in ("%",) and not carried:
            yield Fault("unit-prefix-not-applied", here, answer=(part, lambda a, v, f=scale: a * f))
            yield Fault("answer-converted-wrong-way", here, answer=(part, lambda a, v, f=scale: a * f * f))
        text = problem.parts[part]["answer"]
        if re.fullmatch(r"[\d.]+", text):
            for wrong in swapped(text):
                yield Fault("digits-transposed", here, answer=(part, lambda a, v, x=read_number(wrong).value: x))
        for other, other_key in enumerate(problem.finds):
            if other_key and other != part and problem.parts[other]["unit"] == unit:
                yield Fault("answer-of-another-part", here, answer=(part, lambda a, v, other=other: problem.shown(other, v)))


def volume_faults(problem):
    """Two volumes of a titration, one taken for the other."""
    volumes = [key for key in problem.given if key[0] == "V" and any(key in problem.ins(one) for one in problem.order)]
    used = [key for key in volumes if any(one[0] in "nc" and {k[0] for k in problem.ins(one)} in ({"c", "V"}, {"n", "V"}) for one in problem.order if key in problem.ins(one))]
    if len(volumes) == 2 and len(used) == 2 and len(problem.net.reactions) == 1 and not problem.net.limited:
        a, b = used
        yield Fault("titre-and-aliquot-swapped", words(a), {a: lambda v: problem.given[b].value, b: lambda v: problem.given[a].value})


def faults_of(problem):
    """Every fault that changes an answer: (fault, answers, values), answers as unrounded numbers."""
    right = [problem.shown(part, problem.right) if key else None for part, key in enumerate(problem.finds)]
    found = []

    def every():
        yield from given_faults(problem)
        for key in problem.order:
            yield from step_faults(problem, key)
        yield from volume_faults(problem)
        yield from answer_faults(problem)
    for fault in every():
        worked = problem.answers([fault])
        if worked is None:
            continue
        answers, values = worked
        if any(a is not None and abs(a - r) > abs(r) * Fraction(1, 1000) for a, r in zip(answers, right)):
            found.append((fault, answers, values))
    return found

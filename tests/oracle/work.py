"""Works the printed givens of a question: amounts from simple formulas, reactions by their extents.

Each formula is a group of quantities whose product (or sum) is known; from all but one of them the last follows. The shortest chain
to a find is sought once for all questions that print the same quantities, and then worked for each with its own numbers.
"""
import heapq
import re
from fractions import Fraction
from functools import lru_cache

from figures import Number, minus_lg, product, read_given, read_readings, root, scaled, ten_to_minus, total
from matter import Unreadable, is_formula, molar_mass, read_equation, read_formula, states, unit_factor

R = Fraction("8.31446261815324")
AVOGADRO = Fraction("6.02214076e23")
WHOLES = ("solution", "sample", "mixture", "hydrate")


class Stuck(Exception):
    pass


def read_quantity(text):
    """(symbol, stage, of, word) of V2(NaOH, aliquot)."""
    found = re.fullmatch(r"([A-Za-z]+?)(\d*)(?:\((.+)\))?", text)
    if not found:
        raise Stuck("quantity " + text)
    of, word = found[3] or "", ""
    if ", " in of:
        of, word = of.rsplit(", ", 1)
    return found[1], found[2], of, word


class Net:
    """All formulas that hold for one shape of question."""

    def __init__(self, reactions, excess, given, finds, mixed):
        self.rules = []        # (out, ins, work)
        self.by_input = {}
        self.known = list(given)
        self.printed = reactions
        self.reactions = [read_equation(text) for text in reactions]
        self.excess = set(excess)
        self.mixed = mixed
        keys = list(given) + list(finds)
        self.keys = set(keys)
        self.words = {key[3] for key in keys}
        self.mixed = mixed
        self.subjects = {key[2] for key in keys if key[2]}
        for left, right in self.reactions:
            self.subjects |= set(left) | set(right)
        self.parts = {name for name in self.subjects if " in " in name}
        if "hydrate" in self.subjects:
            self.subjects.add("H2O")
        self.substances = {name for name in self.subjects if is_formula(name)}
        self.stages = {}
        for symbol, stage, of, _ in keys:
            self.stages.setdefault(of, set()).add(stage)
        self.all_stages = sorted({key[1] for key in keys if key[1]})
        for name in sorted(self.substances):
            for stage in sorted(self.stages.get(name, set()) | {""} | set(self.all_stages)):
                self.of_a_substance(name, stage)
        for unknown in sorted({"X", "Z"} & self.subjects):
            self.times([(("m", "", unknown, ""), 1), (("n", "", unknown, ""), -1), (("M", "", unknown, ""), -1)])
        self.of_wholes()
        self.of_parts()
        self.of_ions()
        self.handling(mixed)
        self.react()
        self.heat()

    # -- formulas
    def add(self, out, ins, work, cost=1):
        self.rules.append((out, tuple(ins), work, cost))

    def times(self, terms, factor=Fraction(1), cost=1):
        """The product of quantity^power is the factor."""
        for place, (out, power) in enumerate(terms):
            others = [term for at, term in enumerate(terms) if at != place]
            if power == 1 or power == -1:
                self.add(out, [key for key, _ in others],
                         lambda values, others=others, power=power: product(
                             [(value, -other * power) for value, (_, other) in zip(values, others)], Fraction(factor) ** power), cost)

    def plus(self, whole, parts, cost=1):
        terms = [(whole, -1)] + [(part, 1) for part in parts]
        for place, (out, sign) in enumerate(terms):
            others = [term for at, term in enumerate(terms) if at != place]
            self.add(out, [key for key, _ in others],
                     lambda values, others=others, sign=sign: total([(value, -sign * other) for value, (_, other) in zip(values, others)]), cost)

    def same(self, one, other, cost=0.5):
        self.times([(one, 1), (other, -1)], 1, cost)

    def of_a_substance(self, name, stage):
        weight = molar_mass(name)
        for word in sorted({"", "used", "left", "actual", "theoretical", "taken", "aliquot"} & (self.words | {"", "used", "left"})):
            n, m, v = (("n", stage, name, word), ("m", stage, name, word), ("V", stage, name, word))
            if weight:
                self.times([(m, 1), (n, -1)], weight)
            self.times([(("N", stage, name, word), 1), (n, -1)], AVOGADRO)
            if word in ("taken", "aliquot"):
                self.times([(n, 1), (("c", stage, name, ""), -1), (v, -1)])
            self.gas(name, stage, word)
        n, m, v, c = ((symbol, stage, name, "") for symbol in "nmVc")
        gamma = ("gamma", stage, name, "")
        if ("s", stage, name, "") in self.keys:
            self.same(("s", stage, name, ""), c)
        self.times([(n, 1), (c, -1), (v, -1)])
        if weight:
            self.times([(gamma, 1), (c, -1)], weight)
        self.times([(m, 1), (gamma, -1), (v, -1)])
        if ("rho", stage, name, "") in self.keys:
            rho = ("rho", stage, name, "")
            dissolved = ("w", stage, name, "") in self.keys
            if not dissolved:
                self.times([(m, 1), (rho, -1), (v, -1)])
            elif weight:
                self.times([(gamma, 1), (rho, -1), (("w", stage, name, ""), -1)])

    def gas(self, name, stage, word):
        if any(states(text).get(name, "g") != "g" for text in self.printed):
            return  # a solid or a solution beside the gases
        n, v = ("n", stage, name, word), ("V", stage, name, word)
        if any(key[0] == "Vm" for key in self.keys):
            self.times([(v, 1), (n, -1), (("Vm", "", "", ""), -1)])
        if any(key[0] == "T" for key in self.keys):
            own = ("p", stage, name, "") if ("p", stage, name, "") in self.keys else ("p", "", "", "")
            if ("p", "", "H2O", "") in self.keys and name != "H2O":
                own = ("p", stage, name, "")
                self.plus(("p", "", "", ""), [own, ("p", "", "H2O", "")])
            t = ("T", "", "", "")
            self.times([(own, 1), (v, 1), (n, -1), (t, -1)], R, 1.5)
            if ("rho", stage, name, "") in self.keys:
                self.times([(own, 1), (("rho", stage, name, ""), -1), (t, -1)], R / molar_mass(name))

    def of_wholes(self):
        for whole in sorted(self.subjects & set(WHOLES)):
            for stage in sorted(self.stages[whole] | {""}):
                m, v, rho = ((symbol, stage, whole, "") for symbol in ("m", "V", "rho"))
                self.times([(m, 1), (rho, -1), (v, -1)])
        whole = next((name for name in WHOLES if name in self.subjects and name != "hydrate"), None)
        if any(key[0] in ("x", "p") and key[2] and key[2] != "H2O" for key in self.keys) and not self.reactions:
            parts = sorted(name for name in self.substances if ("n", "", name, "") in self.keys or ("m", "", name, "") in self.keys)
            self.plus(("n", "", "", ""), [("n", "", name, "") for name in parts])
            self.times([(("p", "", "", ""), 1), (("V", "", "", ""), 1), (("n", "", "", ""), -1), (("T", "", "", ""), -1)], R)
            for name in parts:
                self.times([(("n", "", name, ""), 1), (("x", "", name, ""), -1), (("n", "", "", ""), -1)])
                self.times([(("p", "", name, ""), 1), (("x", "", name, ""), -1), (("p", "", "", ""), -1)])
        if not whole and not self.reactions and any(key[0] == "w" and is_formula(key[2]) for key in self.keys):
            masses = sorted(key for key in self.known if key[0] == "m" and is_formula(key[2]))
            if len(masses) > 1:
                self.plus(("m", "", "whole", ""), masses)
                for key in masses:
                    self.times([(key, 1), (("w", "", key[2], ""), -1), (("m", "", "whole", ""), -1)])
        names = sorted(self.substances | {name for name in self.parts})
        for name in names:
            w = ("w", "", name, "")
            if w in self.keys and whole and name in self.substances:
                self.times([(("m", "", name, ""), 1), (w, -1), (("m", "", whole, ""), -1)])
            if w in self.keys and not whole and ("rho", "", name, "") in self.keys:
                continue
        for name in sorted(self.substances):
            if "solution" in self.subjects:
                if self.reactions or ("V", "", "solution", "") in self.keys:
                    if not any(key[0] == "phi" and key[2] == name for key in self.keys) and ("V", "", name, "") not in self.keys:
                        self.same(("V", "", name, ""), ("V", "", "solution", ""))
                if ("b", "", name, "") in self.keys and ("w", "", name, "") in self.keys or ("c", "", name, "") in self.keys and any(
                        key[0] == "b" for key in self.keys):
                    self.times([(("gamma", "", name, ""), 1), (("w", "", name, ""), -1), (("rho", "", "solution", ""), -1)])

                    def molality(values, weight=molar_mass(name)):
                        return product([(values[0], 1), (total([(Number(Fraction(1)), 1), (values[0], -1)]), -1)], 1 / weight)
                    self.add(("b", "", name, ""), [("w", "", name, "")], molality)
                for stage in sorted(self.stages.get(name, set()) | {""}):
                    if stage in ("", "1"):
                        self.times([(("gamma", stage, name, ""), 1), (("w", "", name, ""), -1), (("rho", "", "solution", ""), -1)])
            phi = ("phi", "", name, "")
            if phi in self.keys:
                self.times([(("V", "", name, ""), 1), (phi, -1), (("V", "", "solution", ""), -1)])
            if ("b", "", name, "") in self.keys:
                self.times([(("n", "", name, ""), 1), (("b", "", name, ""), -1), (("m", "", "H2O", ""), -1)])
                self.plus(("m", "", "solution", ""), [("m", "", name, ""), ("m", "", "H2O", "")])
            elif "H2O" in self.substances and "solution" in self.subjects and name != "H2O" and not self.reactions:
                self.plus(("m", "", "solution", ""), [("m", "", name, ""), ("m", "", "H2O", "")])
        if "hydrate" in self.subjects:
            salt = next((name for name in sorted(self.substances) if name != "H2O"), None)
            if salt:
                self.plus(("m", "", "hydrate", ""), [("m", "", salt, ""), ("m", "", "H2O", "")])

    def of_parts(self):
        for part in sorted(self.parts):
            inner, outer = part.split(" in ")
            if not (is_formula(inner) and is_formula(outer)):
                continue
            count = self.count(inner, outer)
            share = molar_mass(inner) * count / molar_mass(outer)
            w = ("w", "", part, "")
            self.add(w, [], lambda values, share=share: Number(share), 1)
            self.times([(("n", "", part, ""), 1), (("n", "", outer, ""), -1)], count)
            self.times([(("m", "", part, ""), 1), (("n", "", part, ""), -1)], molar_mass(inner))
            self.times([(("m", "", part, ""), 1), (("m", "", outer, ""), -1)], share, 1.2)
            self.times([(("N", "", part, ""), 1), (("n", "", part, ""), -1)], AVOGADRO)
        # a hydrate brings its salt and its water
        for hydrate in sorted(name for name in self.substances if "·" in name):
            salt = hydrate.split("·")[0]
            water = read_formula(hydrate)[0]["O"] - read_formula(salt)[0].get("O", 0)
            for stage in ["", "1"] if "1" in self.all_stages else [""]:
                if salt in self.substances:
                    self.same(("n", "", hydrate, ""), ("n", stage, salt, ""), 1)
                elif salt not in self.substances:
                    self.times([(("m", "", salt, ""), 1), (("n", "", hydrate, ""), -1)], molar_mass(salt))
            if "H2O" in self.substances and not any("H2O" in side for pair in self.reactions for side in pair):
                self.times([(("n", "", "H2O", ""), 1), (("n", "", hydrate, ""), -1)], water)
        # an element asked or given beside one compound that holds it
        for inner in sorted(self.substances):
            atoms, charge = read_formula(inner)
            if charge or len(atoms) != 1 or sum(atoms.values()) != 1 or any(inner in side for pair in self.reactions for side in pair):
                continue
            for outer in sorted(self.substances):
                if outer != inner and inner in read_formula(outer)[0]:
                    self.times([(("n", "", inner, ""), 1), (("n", "", outer, ""), -1)], read_formula(outer)[0][inner], 2)

    @staticmethod
    def count(inner, outer):
        if inner == "H2O":
            return read_formula(outer)[0]["O"] - read_formula(outer.split("·")[0])[0].get("O", 0)
        small, large = read_formula(inner)[0], read_formula(outer)[0]
        return min(large[symbol] // count for symbol, count in small.items())

    def of_ions(self):
        from ions import ions_of
        symbols = {key[0] for key in self.keys}
        wanted = {name for name in self.substances if read_formula(name)[1]}
        solids = {key[2] for key in self.keys if key[0] in ("Ksp", "Q", "s") and key[2]}
        wanted |= {ion for key in self.keys if key[0] in ("Q", "Ksp") and key[2] for ion in ions_of(key[2])}
        acid = bool(symbols & {"pH", "pOH"})
        if acid:
            wanted |= {"H^+", "OH^-"}
        salts = [name for name in sorted(self.substances) if not read_formula(name)[1]]
        # The hydrate that was weighed is in the solution as its salt, not beside it.
        salts = [name for name in salts if name.split("·")[0] == name or name.split("·")[0] not in salts]
        for ion in sorted(wanted):
            bearers = [(salt, ions_of(salt)[ion]) for salt in salts if ion in ions_of(salt)]
            if any(salt not in solids for salt, _ in bearers):
                bearers = [(salt, count) for salt, count in bearers if salt not in solids]
            for stage in sorted({""} | set(self.all_stages)):
                c = ("c", stage, ion, "")
                both = self.mixed and stage == self.all_stages[-1] and len(bearers) > 1  # it comes from either solution
                if both:
                    self.add(("n", stage, ion, ""), [("n", stage, salt, "") for salt, _ in bearers], lambda values, bearers=bearers: total(
                        [(value, count) for value, (_, count) in zip(values, bearers)]), 1.5)
                for salt, count in bearers if not both else ():
                    if len([1 for other, _ in bearers if stage in self.stages.get(other, set())]) > 1 and stage in self.stages.get(salt, set()):
                        continue
                    self.times([(c, 1), (("c", stage, salt, ""), -1)], count, 1.5)
                    self.times([(("n", stage, ion, ""), 1), (("n", stage, salt, ""), -1)], count, 1.5)
                if ion == "H^+" and acid:
                    self.logarithm(("pH", stage, "", ""), c)
                    self.plus_constant(("pH", stage, "", ""), ("pOH", stage, "", ""))
                if ion == "OH^-" and acid:
                    self.logarithm(("pOH", stage, "", ""), c)
                if acid and ion == "H^+":
                    self.times([(c, 1), (("c", stage, "OH^-", ""), 1)], Fraction(1, 10**14), 3)
        for name in sorted(self.substances):
            ksp = ("Ksp", "", name, "")
            if ksp in self.keys and ions_of(name):
                counts = list(ions_of(name).values())
                power = sum(counts)
                scale = Fraction(1)
                for count in counts:
                    scale *= Fraction(count) ** count
                c = ("c", "", name, "")
                elsewhere = {ion for ion in ions_of(name) for key in self.known if key[0] == "c" and is_formula(key[2]) and
                             key[2] != name and (key[2] == ion or ion in ions_of(key[2]))}
                if elsewhere:  # what the solid itself adds to an ion that is there already is left out
                    for ion in set(ions_of(name)) - elsewhere:
                        rest = sorted(elsewhere)
                        self.add(("c", "", ion, ""), [ksp] + [("c", "", one, "") for one in rest],
                                 lambda v, own=ions_of(name)[ion], times=[ions_of(name)[one] for one in rest]: root(
                                     product([(v[0], 1)] + [(one, -count) for one, count in zip(v[1:], times)]), own))
                    continue
                self.add(ksp, [c], lambda v, power=power, scale=scale: product([(v[0], power)], scale))
                self.add(c, [ksp], lambda v, power=power, scale=scale: root(v[0], power, 1 / scale))
                self.same(("s", "", name, ""), c)
                if all(("c", "", ion, "") in self.keys for ion in ions_of(name)):
                    self.add(ksp, [("c", "", ion, "") for ion in ions_of(name)],
                             lambda v, counts=counts: product(list(zip(v, counts))))
            for stage in {""} | set(self.all_stages):
                q = ("Q", stage, name, "")
                if q in self.keys:
                    counts = list(ions_of(name).values())
                    self.add(q, [("c", stage, ion, "") for ion in ions_of(name)], lambda v, counts=counts: product(list(zip(v, counts))))

    def logarithm(self, p, c):
        self.add(p, [c], lambda v: minus_lg(v[0]))
        self.add(c, [p], lambda v: ten_to_minus(v[0]))

    def plus_constant(self, one, other):
        for out, other_one in ((one, other), (other, one)):
            self.add(out, [other_one], lambda v: total([(Number(Fraction(14)), 1), (v[0], -1)]))

    def handling(self, mixed):
        numbered = [int(stage) for stage in self.all_stages]
        if not numbered:
            return
        solutes = sorted(name for name in self.substances if self.stages.get(name, set()) - {""})
        for name in sorted(self.substances):
            if mixed:
                last = str(max(numbered))
                sources = [str(at) for at in range(1, max(numbered))]
                holders = [s for s in sources if any(key[1] == s and key[2] == name for key in self.known)]
                if holders:
                    if len(holders) == 1:
                        self.same(("n", last, name, ""), ("n", holders[0], name, ""))
                    else:
                        self.plus(("n", last, name, ""), [("n", s, name, "") for s in holders])
                volumes = []
                for s in sources:
                    keys = [key for key in self.known if key[0] == "V" and key[1] == s]
                    volumes += keys[:1]
                if len(volumes) == len(sources) and not any(key[0] == "V" and key[1] == last for key in self.known):
                    self.plus(("V", last, name, ""), volumes)
                elif name in self.substances:
                    for key in self.known:
                        if key[0] == "V" and key[1] == last:
                            if key[2] != name:
                                self.same(("V", last, name, ""), key)
                continue
            if name not in solutes:
                continue
            for at in range(1, max(numbered) + (0 if not self.reactions else 0)):
                one, two = str(at), str(at + 1)
                taken = ("V", one, name, "taken")
                if taken in self.keys or ("V", one, name, "aliquot") in self.keys:
                    portion = taken if taken in self.keys else ("V", one, name, "aliquot")
                    n = ("n", one, name, portion[3])
                    self.times([(n, 1), (("c", one, name, ""), -1), (portion, -1)])
                    self.same(("n", two, name, ""), n)
                else:
                    self.same(("n", two, name, ""), ("n", one, name, ""))
                    for symbol in ("c", "gamma"):
                        self.times([((symbol, two, name, ""), 1), (("V", two, name, ""), 1), ((symbol, one, name, ""), -1), (("V", one, name, ""), -1)], 1, 1)
                    added = ("V", "", "H2O", "added")
                    if added in self.keys:
                        self.plus(("V", two, name, ""), [("V", one, name, ""), added])
            # the first stage is what a solid without a number makes; the last reacts
            if ("m", "", name, "") in self.keys or ("n", "", name, "") in self.keys:
                self.same(("n", "", name, ""), ("n", str(min(numbered)), name, ""), 1)
            if ("w", "", name, "") in self.keys:
                self.same(("c", "", name, ""), ("c", "1", name, ""))
        if mixed and {"pH"} & {key[0] for key in self.keys}:
            last = str(max(numbered))
            acids = [(s, key[2]) for s in self.all_stages for key in self.known if key[0] == "c" and key[1] == s]
            from ions import ions_of
            if len(acids) == 2 and all("H^+" in ions_of(name) for _, name in acids):
                for s, name in acids:
                    self.times([(("n", s, "H^+", ""), 1), (("n", s, name, ""), -1)], ions_of(name)["H^+"])
                self.plus(("n", last, "H^+", ""), [("n", s, "H^+", "") for s, _ in acids])

    # -- reactions
    def react(self):
        reacting = {}
        for at, (left, right) in enumerate(self.reactions):
            for name in left:
                reacting.setdefault(name, []).append(at)
        for name in sorted(reacting):
            self.portion(name)
        self.limited = None
        for name in sorted(set().union(*[set(right) for _, right in self.reactions]) if self.reactions else ()):
            makers = [i for i, (_, products) in enumerate(self.reactions) if name in products]
            if len(makers) > 1:
                self.plus(("n", "", name, ""), [("n", "of %d" % i, name, "") for i in makers])
        for at, (left, right) in enumerate(self.reactions):
            known = self.reach() if at == 0 else None
            start = [name for name in left if name not in self.excess and known and self.amount(name, at, reacting) in known]
            every = [name for name in left if name not in self.excess]
            if at == 0 and len(self.reactions) == 1 and len(start) > 1:
                self.extent(left, right, start, reacting)
            else:
                self.in_ratio(left, right, at, reacting)
        self.gas_volumes()
        self.yields()

    def amount(self, name, at, reacting):
        """Which amount of a reactant a reaction takes: of one that two reactions take, the first uses some, the last what is left."""
        places = reacting.get(name, [])
        if len(places) > 1 and at == places[-1] and any(key[2] == name and key[3] == "aliquot" for key in self.keys):
            return ("n", "", name, "portion")  # of what is left, in a flask
        if len(places) > 1 and at in places:
            return ("n", "", name, "used" if at == places[0] else "left")
        for key in self.keys:
            if key[2] == name and key[3] == "aliquot":
                return ("n", "", name, "portion")
        return ("n", "", name, "")

    def portion(self, name):
        for key in sorted(self.keys):
            if key[2] == name and key[3] == "aliquot":
                stage = key[1]
                self.times([(("n", "", name, "portion"), 1), (("c", stage, name, ""), -1), (key, -1)])
                if sum(name in left for left, _ in self.reactions) > 1:
                    self.times([(("n", "", name, "left"), 1), (("c", stage, name, ""), -1), (("V", stage, name, ""), -1)])
                return
        if not any(key[2] == name and key[3] == "left" for key in self.keys) and name in {k[2] for k in self.keys}:
            for stage in [s for s in self.all_stages if s in self.stages.get(name, set())][-1:]:
                if ("V", "", name, "") in self.keys:
                    self.same(("c", stage, name, ""), ("c", "", name, ""))
                elif not any(key[2] == name and key[1] == "" and key[0] in "nm" for key in self.keys):
                    self.same(("n", stage, name, ""), ("n", "", name, ""))

    def in_ratio(self, left, right, at, reacting):
        def made(name):
            makers = [i for i, (_, products) in enumerate(self.reactions) if name in products]
            takers = [i for i, (reactants, _) in enumerate(self.reactions) if name in reactants]
            if takers and max(takers) < at:
                return ("n", "made again", name, "")  # such as water taken up first and driven off later: not the same water
            return ("n", "of %d" % at, name, "") if len(makers) > 1 else ("n", "", name, "")
        species = [(name, times, self.amount(name, at, reacting) if name in left else made(name)) for side in (left, right)
                   for name, times in side.items()]
        for i, (one, times, key) in enumerate(species):
            for other, others, other_key in species[i + 1:]:
                if one in self.excess and one not in self.subject_keys() or key == other_key:
                    continue
                self.times([(key, 1), (other_key, -1)], Fraction(times, others))
        for name, places in reacting.items():
            if len(places) > 1 and at == places[0]:
                self.plus(("n", "", name, ""), [("n", "", name, "used"), ("n", "", name, "left")])

    def solid(self, name):
        return states(self.printed[0]).get(name) == "s"

    def subject_keys(self):
        return {key[2] for key in self.keys}

    def extent(self, left, right, start, reacting):
        keys = [self.amount(name, 0, reacting) for name in start]
        coefficients = [left[name] for name in start]
        self.limited = (start, keys, coefficients)
        extent = ("xi", "", "", "")

        def smallest(values):
            return min((product([(value, 1)], Fraction(1, times)) for value, times in zip(values, coefficients)), key=lambda n: n.value)
        self.add(extent, keys, smallest)
        for name, times in list(right.items()) + list(left.items()):
            key = ("n", "", name, "" if name in right else "used")
            self.add(key, [extent], lambda v, times=times: product([(v[0], 1)], Fraction(times)))
            if name in start:
                own = self.amount(name, 0, reacting)
                rest = ("n", "", name, "left")
                self.add(rest, [own, key], lambda v: total([(v[0], 1), (v[1], -1)]))
                if ("c", "", name, "left") in self.keys:
                    volumes = [k for k in self.known if k[0] == "V"]
                    self.plus(("V", "", "all", ""), volumes)
                    self.times([(rest, 1), (("c", "", name, "left"), -1), (("V", "", "all", ""), -1)])
        volumes = [k for k in self.known if k[0] == "V"]
        from ions import ions_of
        loose = {key[2] for key in self.keys if key[0] == "c" and key[2] not in left and key[2] not in right and is_formula(key[2])}
        for ion in sorted(loose):
            bringers = [name for name in start if ion in ions_of(name)]
            lost = [name for name in right if ion in ions_of(name) and self.solid(name)]
            if len(bringers) == 1 and len(lost) <= 1:
                name = bringers[0]
                for word in ("", "left"):
                    rest = ("n", "", ion, "left" if lost else word)
                    if lost:
                        self.add(rest, [self.amount(name, 0, reacting), extent],
                                 lambda v, a=ions_of(name)[ion], b=ions_of(lost[0])[ion] * right[lost[0]]: total(
                                     [(product([(v[0], 1)], Fraction(a)), 1), (product([(v[1], 1)], Fraction(b)), -1)]))
                    else:
                        self.times([(rest, 1), (self.amount(name, 0, reacting), -1)], ions_of(name)[ion])
                    self.plus(("V", "", "all", ""), volumes)
                    self.times([(rest, 1), (("c", "", ion, word), -1), (("V", "", "all", ""), -1)])
                self.rules = [rule for rule in self.rules if not (rule[0] == ("c", "", ion, "") and ("V", "", "all", "") not in rule[1])]
        if any(key[0] in ("pH", "pOH") for key in self.keys):
            self.plus(("V", "", "all", ""), volumes)
            ions = [(name, ions_of(name)) for name in start]

            def acidity(values):
                amount = []
                for value, (_, own) in zip(values, ions):
                    amount.append((value, own.get("H^+", 0) - own.get("OH^-", 0)))
                over = total([(product([(value, 1)], Fraction(abs(sign))), 1 if sign > 0 else -1) for value, sign in amount])
                if over.value == 0:
                    return Number(Fraction(7), -2, True)
                c = product([(Number(abs(over.value), over.place), 1), (values[-1], -1)])
                p = minus_lg(c)
                return p if over.value > 0 else total([(Number(Fraction(14)), 1), (p, -1)])
            self.add(("pH", "", "", ""), keys + [("V", "", "all", "")], acidity)
            self.rules = [rule for rule in self.rules if not (rule[0] == ("pH", "", "", "") and rule[2] is not acidity)]

    def gas_volumes(self):
        """Gases under the same conditions: volumes are as the coefficients."""
        if any(key[0] in ("T", "Vm", "p") for key in self.keys):
            return
        for text, (left, right) in zip(self.printed, self.reactions):
            said = states(text)
            gases = [(name, times) for side in (left, right) for name, times in side.items() if said.get(name, "g") == "g"]
            given = [name for name, _ in gases if name in left and name not in self.excess and ("V", "", name, "") in self.known]
            if not any(key[0] == "V" and key[2] in dict(gases) for key in self.known) or any(key[0] in ("c", "m", "n") for key in self.known):
                continue
            if len(given) > 1:
                extent = ("Vxi", "", "", "")
                self.add(extent, [("V", "", name, "") for name in given], lambda v, times=[left[name] for name in given]: min(
                    (product([(one, 1)], Fraction(1, of)) for one, of in zip(v, times)), key=lambda n: n.value))
                for name, times in gases:
                    key = ("V", "", name, "used" if name in left else "")
                    self.add(key, [extent], lambda v, times=times: product([(v[0], 1)], Fraction(times)))
                    if name in given:
                        self.add(("V", "", name, "left"), [("V", "", name, ""), key], lambda v: total([(v[0], 1), (v[1], -1)]))
                if not self.limited:
                    self.limited = (given, [("V", "", name, "") for name in given], [left[name] for name in given])
            else:
                for i, (one, times) in enumerate(gases):
                    for other, others in gases[i + 1:]:
                        self.times([(("V", "", one, ""), 1), (("V", "", other, ""), -1)], Fraction(times, others))

    def yields(self):
        for symbol, _, name, _ in sorted(self.keys):
            if symbol == "yield":
                y = ("yield", "", name, "")
                for of in "nm":
                    theory = (of, "", name, "theoretical") if (of, "", name, "theoretical") in self.keys else (of, "", name, "")
                    self.times([((of, "", name, "actual"), 1), (theory, -1), (y, -1)])
            if ("m", "", name, "theoretical") in self.keys or ("n", "", name, "theoretical") in self.keys:
                self.same(("n", "", name, "theoretical"), ("n", "", name, ""), 0.1)

    def heat(self):
        symbols = {key[0] for key in self.keys}
        if not symbols & {"q", "cp", "dH", "C"}:
            return
        q, dt = ("q", "", "", ""), ("dT", "", "", "")
        for m in [key for key in sorted(self.keys) if key[0] == "m" and key[2] in ("solution", "H2O", "water", "")]:
            self.times([(q, 1), (m, -1), (("cp", "", "", ""), -1), (dt, -1)])
        self.times([(q, 1), (("C", "", "", ""), -1), (dt, -1)])
        self.plus(("T", "2", "", ""), [("T", "1", "", ""), dt])
        volumes = [key for key in self.known if key[0] == "V" and key[2] != "solution"]
        if ("rho", "", "solution", "") in self.keys and len(volumes) > 1:
            self.plus(("V", "", "solution", ""), volumes)
        if ("rho", "", "solution", "") in self.keys:
            self.times([(q, 1), (("m", "", "solution", ""), -1), (("cp", "", "", ""), -1), (dt, -1)])
        for key in sorted(self.keys):
            if key[0] == "dH":
                self.times([(key, 1), (("n", "", key[2], ""), 1), (q, -1)], -1)

    # -- the shortest chain
    def chain(self):
        waiting = {}
        for at, (out, ins, _, _) in enumerate(self.rules):
            for key in set(ins):
                waiting.setdefault(key, []).append(at)
        missing = [len(set(ins)) for _, ins, _, _ in self.rules]
        cost, through = {}, {}
        heap = [(0, order, key, None) for order, key in enumerate(self.known)]
        order = len(heap)
        for at, (out, ins, _, own) in enumerate(self.rules):
            if not ins:
                heap.append((own, order, out, at))
                order += 1
        heapq.heapify(heap)
        while heap:
            price, _, key, rule = heapq.heappop(heap)
            if key in cost:
                continue
            cost[key], through[key] = price, rule
            for at in waiting.get(key, ()):
                missing[at] -= 1
                if missing[at] == 0:
                    out, ins, _, own = self.rules[at]
                    if out not in cost:
                        order += 1
                        heapq.heappush(heap, (own + sum(cost[i] for i in set(ins)), order, out, at))
        return through

    def reach(self):
        return set(self.chain())


@lru_cache(maxsize=20000)
def plan(reactions, excess, given, finds, mixed):
    net = Net(reactions, excess, given, finds, mixed)
    return net, net.chain()


def evaluate(net, through, values, key, doing=()):
    """Works one quantity, filling in what it needs."""
    if key in values:
        return values[key]
    if key not in through or through[key] is None:
        raise Stuck("nothing leads to %s%s(%s%s)" % (key[0], key[1], key[2], ", " + key[3] if key[3] else ""))
    _, ins, work, _ = net.rules[through[key]]
    values[key] = work([evaluate(net, through, values, one) for one in ins])
    return values[key]


def read_givens(question):
    """{quantity: Number in working units} of what a question prints."""
    given = {}
    for one in question["given"]:
        key = read_quantity(one["quantity"])
        unit = one.get("unit", "")
        number = read_readings(one) if "readings" in one else read_given(one["value"])
        if key[0] == "T" and unit in ("°C", "degC"):
            number = total([(number, 1), (Number(Fraction("273.15")), 1)])
        elif key[0] in ("pH", "pOH"):
            pass
        else:
            number = scaled(number, unit_factor(unit))
        given[key] = number
    return given


def plan_question(question, given, finds):
    """The net of a question and the shortest chain to each quantity."""
    mixed = bool(re.search(r"\b(mix|mixed|poured together|poured into|are put together|together|added to)\b", question.get("text", ""))) and not question["reactions"]
    stages = {key[1] for key in given} | {key[1] for key in finds}
    mixed = mixed and "2" in stages and "3" in stages
    return plan(tuple(question["reactions"]), tuple(question["excess"]), tuple(given), tuple(finds), mixed)


def work_question(question):
    """A list, one a part: ("number", Number in working units, unit factor) or ("formula", text)."""
    given = read_givens(question)
    numeric = [part for part in question["parts"] if "unrounded" in part]
    keys = {id(part): read_quantity(part["find"]) for part in numeric}
    net, through = plan_question(question, given, list(keys.values()))
    values = dict(given)
    answers = []
    for part in question["parts"]:
        if id(part) in keys:
            number = evaluate(net, through, values, keys[id(part)])
            answers.append(("number", number, keys[id(part)]))
        else:
            answers.append(("formula", formula_find(part["find"], net, through, values), None))
    return answers


def formula_find(find, net, through, values):
    if find == "limiting reagent":
        if not net.limited:
            raise Stuck("one reactant only")
        names, keys, times = net.limited
        shares = [evaluate(net, through, values, key).value / count for key, count in zip(keys, times)]
        if shares.count(min(shares)) > 1:
            raise Stuck("none is limiting")
        return names[shares.index(min(shares))]
    if find.startswith("empirical formula") or find.startswith("molecular formula"):
        return composition(find, values)
    if find == "formula of the hydrate":
        return hydrate(net, through, values)
    raise Stuck("a find of this kind: " + find)


def composition(find, values):
    amounts, rest, whole = {}, Fraction(0), None
    for (symbol, _, of, word), number in values.items():
        if of in ("sample", "compound") and symbol == "m":
            whole = number.value
    combustion = any(of == "CO2" for _, _, of, _ in values)
    for (symbol, _, of, word), number in values.items():
        if symbol not in ("m", "w", "n") or not is_formula(of.split(" in ")[0]):
            continue
        of = of.split(" in ")[0]
        atoms = read_formula(of)[0]
        inner = next((one for one in atoms if one != "O"), "O") if len(atoms) > 1 else next(iter(atoms))
        amount = number.value if symbol == "n" else number.value / molar_mass(of)
        amounts[inner] = amount * atoms[inner]
        rest += 0 if symbol == "n" else amount * atoms[inner] * molar_mass(inner)
    asked = re.search(r" of ([A-Z].*)$", find)
    others = [one for one in (asked[1].split(", ") if asked else ["O"] if combustion else []) if one not in amounts]
    if len(others) == 1 and whole is not None:
        left = (whole - rest) / molar_mass(others[0])
        if left > whole / 100 / molar_mass(others[0]):
            amounts[others[0]] = left
    least = min(amounts.values())
    for times in range(1, 13):
        counts = {one: amount / least * times for one, amount in amounts.items()}
        if all(abs(count - round(count)) <= Fraction(6, 100) * max(1, times) ** Fraction(1, 2) for count in counts.values()):
            break
    else:
        raise Stuck("no whole-number ratio")
    counts = {one: round(count) for one, count in counts.items()}
    if find.startswith("molecular"):
        mass = next((number.value for (symbol, _, of, _), number in values.items() if symbol == "M"), None)
        if mass is None:
            raise Stuck("no molar mass")
        multiple = round(mass / sum(molar_mass(one) * count for one, count in counts.items()))
        counts = {one: count * multiple for one, count in counts.items()}
    return counts


def hydrate(net, through, values):
    salt = next((name for name in sorted(net.subjects) if is_formula(name) and name != "H2O" and any(
        key[2] == name and key in values for key in net.keys)), None)
    if salt is None:
        raise Stuck("no salt of a hydrate")
    w, water = ("w", "", salt, ""), ("w", "", "H2O", "")
    if w in values or water in values:
        share = values[w].value if w in values else 1 - values[water].value
        other = values[water].value if water in values else 1 - share
        times = other / molar_mass("H2O") / (share / molar_mass(salt))
    else:
        times = evaluate(net, through, values, ("n", "", "H2O", "")).value / evaluate(net, through, values, ("n", "", salt, "")).value
    return "%s·%sH2O" % (salt, round(times) if round(times) > 1 else "")

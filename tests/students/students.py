"""Students who are simulated: what each does wrong, how they round, what they write.

All rates here are the simulator's own; nothing is taken from the marker's starting weights. A student's script is the answers to all
parts of one question.
"""
from decimal import Decimal
from fractions import Fraction

from figures import round_to, top

# How often each kind of wrong script is drawn.
WORLDS = {"single": 60, "pair": 12, "left out": 10, "senseless": 10, "arithmetic": 8}
# Faults that come about everywhere are rarer than their many places would make them.
RARER = {"digits-transposed": 0.5, "power-of-ten": 0.5, "digit-misread": 0.5, "other-given-copied": 0.6, "element-left-out-of-sum": 0.7}
PAIRS_WITH = 0.25  # a second fault of copying is taken this often


def weighted(random, names):
    names = sorted(names)
    return random.choices(names, [RARER.get(name, 1.0) for name in names])[0]


def text_of(value, figures, random=None, cut=False):
    """A number written to so many figures, plainly or with a power of ten."""
    value = Fraction(value)
    if value == 0:
        return "0"
    place = top(value) - figures + 1
    if cut:
        step = Fraction(10) ** place
        shown = (1 if value > 0 else -1) * (abs(value) // step) * step
    else:
        shown = round_to(value, place)
        place = top(shown) - figures + 1
    decimal = Decimal(shown.numerator) / Decimal(shown.denominator)
    power = top(shown)
    if -4 <= power and place <= 0 or (place <= power and 0 <= place < 1):
        return "%.*f" % (max(-place, 0), decimal)
    mantissa = "%.*f" % (figures - 1, decimal.scaleb(-power))
    sign = random.choice(["e%d", "×10^%d", " x 10^%d"]) if random else "e%d"
    return mantissa + sign % power


class Habits:
    """How one student rounds: `keep` figures on the way (None: all), `more` figures than due in the answer, `cut` off not rounded."""

    def __init__(self, random):
        self.keep = random.choices([None, 4, 3], [78, 15, 7])[0]
        self.more = random.choices([0, 1, 2, -1, 6], [66, 14, 5, 10, 5])[0]
        self.cut = random.random() < 0.03
        self.unit = random.random() < 0.9

    def figures(self, due):
        return max(1, due + self.more)


def rounded_on_the_way(problem, keep, put):
    """The faults of `put`, and each quantity worked out on the way written to `keep` figures."""
    last = set(key for key in problem.finds if key)
    out = dict(put)
    for key in problem.order:
        if key in last or key[0] == "xi":
            continue
        work = put.get(key) or (lambda v, key=key: problem.step(key, v).value)
        out[key] = lambda v, work=work: _kept(work(v), keep)
    return out


def _kept(value, keep):
    return round_to(value, top(value) - keep + 1) if value else value


class Script:
    """code, cells (one a part: the text), world, faults, exact (unrounded answers of the faults alone), figures."""

    def __init__(self, problem, world, faults, exact, random, habits=None):
        self.problem, self.world, self.faults, self.exact = problem, world, faults, exact
        self.cells, self.figures, self.lines = [], [], ""
        habits = habits or Habits(random)
        answers = exact
        if habits.keep and world in ("single", "pair", "left out") and not any(fault.answer for fault in faults):
            put = {}
            for fault in faults:
                put.update(fault.put)
            values = problem.work(rounded_on_the_way(problem, habits.keep, put))
            if values:
                answers = [problem.shown(part, values) if key else None for part, key in enumerate(problem.finds)]
        for part, answer in enumerate(answers):
            due = problem.parts[part].get("significant_figures", 3)
            if answer is None:
                self.cells.append("")
                self.figures.append(0)
                continue
            figures = habits.figures(due)
            unit = problem.parts[part]["unit"]
            self.cells.append(text_of(answer, figures, random, habits.cut) + (" " + unit if habits.unit and unit else ""))
            self.figures.append(figures)

    def line(self, without=None):
        """As the marker reads it; `without`: a slip that it is not to know."""
        cells = list(self.cells)
        if self.lines:
            cells[self.part] += "\x1f" + self.lines
        return self.problem.question["code"] + ("\x1f" + without if without else "") + "\t" + "\t".join(cells)


def first_off(problem, exact):
    """The first part that a fault shows in; None where it shows in none."""
    for part, key in enumerate(problem.finds):
        if key:
            right = problem.shown(part, problem.right)
            if abs(exact[part] - right) > abs(right) / 1000:
                return part
    return None


def one_line(problem, faults, values, part, random):
    """A line of working: a quantity worked out on the way, as the faults make it."""
    path = [key for key in problem.paths[part][:-1] if key[0] in "nmcV" and key[3] != "portion"]
    off = [key for key in path if values[key].value != problem.right[key].value and key in values]
    for key in off or path:
        symbol = key[0] + key[1] + ("(" + key[2] + ")" if key[2] else "")
        unit = {"n": "mol", "m": "g", "c": "mol/L", "V": "L"}[key[0]]
        return "%s = %s %s" % (symbol, text_of(values[key].value, 4), unit)
    return ""


def draw(problem, faults, random, worlds=WORLDS):
    """One script; None where the world drawn cannot be made of this question."""
    world = random.choices(list(worlds), list(worlds.values()))[0]
    by_name = {}
    for fault, answers, values in faults:
        by_name.setdefault((fault.name, fault.known), []).append((fault, answers, values))
    known = {name for name, ok in by_name if ok}
    unknown = {name for name, ok in by_name if not ok}
    if world == "single":
        if not known:
            return None
        fault, exact, values = random.choice(by_name[(weighted(random, known), True)])
        script = Script(problem, world, [fault], exact, random)
        script.values = values
    elif world == "left out":
        if not unknown:
            return None
        fault, exact, values = random.choice(by_name[(weighted(random, unknown), False)])
        script = Script(problem, world, [fault], exact, random)
        script.values = values
    elif world == "pair":
        copying = {"digits-transposed", "power-of-ten", "other-given-copied"}
        names = {name for name in known if name not in copying or random.random() < PAIRS_WITH}
        if len(names) < 2:
            return None
        for _ in range(20):
            one = random.choice(by_name[(weighted(random, names), True)])[0]
            two = random.choice(by_name[(weighted(random, names), True)])[0]
            if one.name == two.name or one.answer and two.answer:
                continue
            worked = problem.answers([one, two])
            if worked is None:
                continue
            exact, values = worked
            part = first_off(problem, exact)
            singles = [problem.answers([fault]) for fault in (one, two)]
            # Both must show in the first part that is off: elsewhere it is one fault at a time.
            if part is None or any(s is None or abs(s[0][part] - exact[part]) <= abs(exact[part]) / 1000 for s in singles):
                continue
            if any(abs(s[0][part] - problem.shown(part, problem.right)) <= abs(exact[part]) / 1000 for s in singles):
                continue
            script = Script(problem, world, [one, two], exact, random)
            script.values = values
            break
        else:
            return None
    else:
        part = random.choice([at for at, key in enumerate(problem.finds) if key] or [None])
        if part is None:
            return None
        exact = [problem.shown(at, problem.right) if key else None for at, key in enumerate(problem.finds)]
        if world == "senseless":
            exact[part] = abs(exact[part]) * Fraction(10 ** random.uniform(-3, 3))
        else:
            exact[part] = exact[part] * Fraction(random.choice([-1, 1]) * random.uniform(0.02, 0.6) + 1)
        script = Script(problem, world, [], exact, random)
        script.values = problem.right
    script.part = first_off(problem, script.exact)
    if script.part is None:
        return None
    if random.random() < 0.02 and len(script.cells) > 1:
        at = random.randrange(len(script.cells))
        if at != script.part:
            script.cells[at] = ""
    return script

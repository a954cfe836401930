"""A number with the place of its last sure digit: sums keep the coarsest place, products the fewest figures, exact numbers never limit
(ASTM E29, section 7); halves are rounded up."""
import re
from decimal import Decimal, getcontext, ROUND_HALF_UP
from fractions import Fraction

getcontext().prec = 70
UP = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺−", "0123456789-+-")


def top(value):
    """The power of ten of the first digit."""
    value = abs(value)
    if value == 0:
        return 0
    guess = len(str(value.numerator)) - len(str(value.denominator))
    while Fraction(10) ** guess > value:
        guess -= 1
    while Fraction(10) ** (guess + 1) <= value:
        guess += 1
    return guess


class Number:
    """value: Fraction; place: power of ten of the last sure digit, None if exact; summed: whether its own step was a sum."""
    __slots__ = ("value", "place", "summed")

    def __init__(self, value, place=None, summed=False):
        self.value, self.place, self.summed = value, place, summed

    def figures(self):
        if self.place is None:
            return None
        shown = round_to(self.value, self.place)  # 9.9975 that is sure to 0.1 is 10.0: three figures
        return top(shown) - self.place + 1 if shown else 1


def product(terms, factor=Fraction(1)):
    """terms: (Number, power)."""
    value, fewest = factor, None
    for number, power in terms:
        value *= number.value ** power
        own = number.figures()
        if own is not None and (fewest is None or own < fewest):
            fewest = own
    return Number(value, None if fewest is None else place_of(value, fewest))


def place_of(value, figures):
    """Power of ten of the last of so many figures, counted as they are printed: three figures of 9.9975 are 10.0."""
    place = top(value) - figures + 1
    shown = round_to(value, place)
    return place + top(shown) - top(value) if shown else place


def total(terms):
    """terms: (Number, whole factor): a number that is added twice keeps its place."""
    places = [number.place for number, _ in terms if number.place is not None]
    return Number(sum(number.value * factor for number, factor in terms), max(places) if places else None, True)


def scaled(number, factor):
    """The same quantity in another unit: figures stay."""
    if number.place is None:
        return Number(number.value * factor, None, number.summed)
    shift = top(factor)
    if Fraction(10) ** shift == factor:
        return Number(number.value * factor, number.place + shift, number.summed)
    value = number.value * factor
    return Number(value, place_of(value, number.figures()), False)


def round_to(value, place):
    step = Fraction(10) ** place
    whole = abs(value) / step
    count = (2 * whole.numerator + whole.denominator) // (2 * whole.denominator)
    return (count if value >= 0 else -count) * step


def rounded(number, figures=None):
    """(value, figures of it) as it is to be printed."""
    if figures is None and number.place is None:
        return number.value, None
    if figures is None and number.summed:
        value = round_to(number.value, number.place)
        return value, top(value) - number.place + 1
    keep = figures if figures is not None else max(number.figures(), 1)
    value = round_to(number.value, top(number.value) - keep + 1)
    return value, keep


def read_number(text):
    """Number with the figures that are written; 1.72×10^-3, 1.72e-3 and superscripts are read."""
    text = text.strip().translate(UP).replace(" ", "").replace("\u2009", "")
    found = re.fullmatch(r"([+-]?\d+)(?:[.,](\d*))?(?:(?:[eE]|×10\^?)\(?([+-]?\d+)\)?)?", text)
    if not found:
        raise ValueError("number " + text)
    fraction, power = found[2] or "", int(found[3] or 0)
    return Number(Fraction(int(found[1] + fraction)) * Fraction(10) ** (power - len(fraction)) if found[1] not in ("-0",) else
                  -Fraction(int("0" + fraction)) * Fraction(10) ** (power - len(fraction)), power - len(fraction))


def read_given(text):
    """Number from what a given's value says: plain, a difference of readings, or a mean of readings."""
    if text.startswith("mean of"):
        readings = [part for part in text[len("mean of"):].split("|") if "rough" not in part]
        numbers = [read_number(part) for part in readings]
        whole = total([(number, 1) for number in numbers])
        return Number(whole.value / len(numbers), whole.place, True)
    found = re.fullmatch(r"(\S+) [-−] (\S+)", text)
    if found:
        return total([(read_number(found[1]), 1), (read_number(found[2]), -1)])
    return read_number(text)


CONCORDANT = Fraction("0.10")  # mL


def concordant(titres):
    """The most titres that lie within 0.10 mL of each other; which they are is found here, not read."""
    chosen = []
    for lowest in titres:
        together = [one for one in titres if 0 <= one.value - lowest.value <= CONCORDANT]
        if len(together) > len(chosen):
            chosen = together
    if len(chosen) < 2 or 2 * len(chosen) <= len(titres):
        raise ValueError("no concordant titres")
    return chosen


def read_readings(given):
    """Number from a given of several readings. The one that is called rough is left out, and so are titres that do not agree."""
    numbers = []
    for at, one in enumerate(given["readings"]):
        if at in given.get("rough", []):
            continue
        pair = isinstance(one, dict)
        numbers.append(total([(read_number(one["final"]), 1), (read_number(one["initial"]), -1)]) if pair else read_number(one))
    if given["form"] == "difference":
        return total([(numbers[0], 1), (numbers[1], -1)])
    if given["form"] != "mean":
        raise ValueError("readings as " + given["form"])
    if given.get("unit") == "mL":
        numbers = concordant(numbers)
    whole = total([(number, 1) for number in numbers])
    return Number(whole.value / len(numbers), whole.place, True)


def decimal_of(value):
    return Decimal(value.numerator) / Decimal(value.denominator)


def minus_lg(number):
    """-lg of a number: as many decimals as it has figures."""
    value = -decimal_of(number.value).log10()
    return Number(Fraction(value), None if number.place is None else -number.figures(), True)


def ten_to_minus(number):
    value = Fraction(Decimal(10) ** (-decimal_of(number.value)))
    return Number(value, None if number.place is None else top(value) + number.place + 1)


def exact_root(value, degree):
    """The root where it is a fraction, such as 4e-5 of 6.4e-14; None where it does not end in one."""
    parts = []
    for whole in (value.numerator, value.denominator):
        near = int((decimal_of(Fraction(whole)) ** (Decimal(1) / degree)).to_integral_value())
        found = next((one for one in (near - 1, near, near + 1) if one**degree == whole), None)
        if found is None:
            return None
        parts.append(found)
    return Fraction(*parts)


def root(number, degree, factor=Fraction(1)):
    under = number.value * factor
    value = exact_root(under, degree)
    if value is None:
        value = Fraction(decimal_of(under) ** (Decimal(1) / degree))
    return Number(value, None if number.place is None else place_of(value, number.figures()))

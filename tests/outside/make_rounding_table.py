#!/usr/bin/env python3
"""Writes tests/data/rounding_python.tsv: random numbers rounded by Python's decimal module, half of them exact ties.

    python3 tests/outside/make_rounding_table.py > tests/data/rounding_python.tsv

The same table comes out every time: the seed is fixed. `expected` is in e-notation, so that it says nothing about layout.
"""
import decimal
import random
import sys

RULES = {
    "half-up": decimal.ROUND_HALF_UP,
    "half-even": decimal.ROUND_HALF_EVEN,
    "truncate": decimal.ROUND_DOWN,
    "up": decimal.ROUND_UP,
    "down": decimal.ROUND_DOWN,
}


def rounded(value, figures, mode):
    with decimal.localcontext() as context:
        context.prec = figures
        context.rounding = mode
        result = +value
    # A context pads nothing: bring the result to the figures asked for.
    with decimal.localcontext() as context:
        context.prec = 80
        return result.quantize(decimal.Decimal(1).scaleb(result.adjusted() - figures + 1))


def scientific(value):
    sign, digits, exponent = value.as_tuple()
    text = "".join(map(str, digits))
    mantissa = text[0] + ("." + text[1:] if len(text) > 1 else "")
    return f"{'-' if sign else ''}{mantissa}e{exponent + len(text) - 1}"


def main():
    rng = random.Random(20260101)
    names = list(RULES)
    print(f"# Python {sys.version_info.major}.{sys.version_info.minor} decimal, libmpdec {decimal.__libmpdec_version__};"
          " written by tests/outside/make_rounding_table.py")
    print("value\tfigures\trule\texpected")
    for row in range(300):
        figures = rng.randint(1, 7)
        rule = names[row % len(names)]
        digits = str(rng.randint(10 ** (figures - 1), 10**figures - 1))
        if rng.random() < 0.15:
            digits = "9" * figures  # carries
        if rng.random() < 0.5:
            digits += "5" + "0" * rng.randint(0, 3)  # a tie
        else:
            digits += "".join(rng.choice("0123456789") for _ in range(rng.randint(0, 12)))
        exponent = rng.randint(-30, 25)
        sign = "-" if rng.random() < 0.3 else ""
        value = decimal.Decimal(f"{sign}{digits}e{exponent}")
        print(f"{sign}{digits}e{exponent}\t{figures}\t{rule}\t{scientific(rounded(value, figures, RULES[rule]))}")


if __name__ == "__main__":
    main()

#!/usr/bin/python3
"""Null spaces of integer matrices by sympy, for the balancing test.

Reads one matrix a line from standard input: rows, columns, then the entries row by row.
Prints one line for each: its nullity and, where that is 1, the solution in smallest whole numbers (first one above 0).
"""
import sys
from math import gcd

from sympy import Matrix, ilcm


def whole(vector):
    denominator = ilcm(1, *[entry.q for entry in vector])
    numbers = [int(entry * denominator) for entry in vector]
    divisor = 0
    for number in numbers:
        divisor = gcd(divisor, number)
    first = next(number for number in numbers if number)
    sign = 1 if first > 0 else -1
    return [sign * number // divisor for number in numbers]


for line in sys.stdin:
    rows, columns, *entries = map(int, line.split())
    space = Matrix(rows, columns, entries).nullspace()
    answer = [len(space)]
    if len(space) == 1:
        answer += whole(list(space[0]))
    print(*answer)

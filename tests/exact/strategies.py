"""Strategies for exact numbers and the same numbers as sympy has them."""

from __future__ import annotations

import sympy
from hypothesis import strategies as st
from piecewright.exact import Exact, Vector

rationals = st.builds(Exact, st.integers(-2000, 2000), st.sampled_from([1, 2, 3, 4, 7, 8, 16, 64, 127]))
any_rationals = st.builds(Exact, st.integers(), st.integers(1))


def _mixed(first: Exact, terms: list[tuple[Exact, int]]) -> Exact:
    for coefficient, radicand in terms:
        first = first + coefficient * Exact.root(radicand)
    return first


irrationals = st.builds(
    _mixed,
    rationals,
    st.lists(st.tuples(rationals, st.sampled_from([2, 3, 5, 6, 10, 15, 30, 7, 35])), min_size=1, max_size=4),
)
# √2 alone is what most cloth brings
diagonals = st.builds(_mixed, rationals, st.tuples(rationals, st.just(2)).map(lambda term: [term]))
numbers = st.one_of(rationals, diagonals, irrationals)
vectors = st.builds(Vector, numbers, numbers)


def to_sympy(x: Exact) -> sympy.Expr:
    return sympy.sympify(str(x), rational=True)


def convergent(n: int) -> tuple[int, int]:
    """p/q, the n-th convergent of √2: p² - 2q² is 1 or -1 in turn, so p - q√2 is about 1/2p."""
    p = q = 1
    for _ in range(n):
        p, q = p + 2 * q, p + q
    return p, q


def pell(radicand: int, unit: tuple[int, int], power: int) -> tuple[int, int]:
    """(p, q) of (a + b√r)^power: p - q√r is that of the unit to the same power, hence tiny."""
    a, b = unit
    p, q = 1, 0
    for _ in range(power):
        p, q = a * p + radicand * b * q, a * q + b * p
    return p, q


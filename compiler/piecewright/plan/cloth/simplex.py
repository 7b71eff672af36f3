"""A small linear programme whose columns come one after another: least cost, every row at least its right side.

The revised simplex method with the inverse of the basis kept in full, for some tens of rows. Its duals only steer:
what is claimed from them is worked out again in whole numbers, so rounding here can weaken a bound and never falsify
one. Nothing depends on chance or on the order of a set, so the same columns always give the same basis.
"""

from __future__ import annotations

from collections.abc import Sequence

Entries = tuple[tuple[int, int], ...]
"""A column: (row, coefficient), rows rising."""

_SMALL = 1e-9
_FRESH = 120  # pivots after which the inverse is worked out anew


class Programme:
    """Minimise cost times x with rows at least `right`, x at least 0. `duals`: price of each row at the last basis."""

    def __init__(self, right: Sequence[int], start: Sequence[tuple[int, Entries]]) -> None:
        """`start`: a first basis, one column for each row in turn, with entries only in that row and later ones, whose
        solution is nowhere negative."""
        self.right = list(right)
        self.columns: list[tuple[int, Entries]] = []
        self._seen: set[tuple[int, Entries]] = set()
        rows = len(right)
        # a little more is asked of every row, each by another amount, so that ties between rows do not lead in circles
        self._asked = [value + 1e-7 * (1 + (37 * row) % 101 / 101) for row, value in enumerate(right)]
        self.basis = list(range(rows))
        for cost, entries in start:
            self.columns.append((cost, entries))
        self._first = rows
        self._pivots = 0
        self.duals: list[float] = []
        self._amounts: list[float] = []
        self._inverse: list[list[float]] = []
        self._renew()

    def add(self, cost: int, entries: Entries) -> bool:
        """Whether the column is new."""
        if (cost, entries) in self._seen:
            return False
        self._seen.add((cost, entries))
        self.columns.append((cost, entries))
        return True

    def solve(self, most: int = 5000) -> None:
        """Pivot until no known column improves, or `most` times."""
        for _ in range(most):
            entering = self._entering()
            if entering is None:
                return
            cost, entries = self._column(entering)
            shares = [sum(row[i] * value for i, value in entries) for row in self._inverse]
            at, least = -1, 0.0
            for i, share in enumerate(shares):
                if share > _SMALL:
                    ratio = self._amounts[i] / share
                    if at < 0 or ratio < least - 1e-12 or (ratio <= least + 1e-12 and share > shares[at]):
                        at, least = i, ratio
            if at < 0:
                return  # unbounded only by rounding: costs are not negative
            price = cost - sum(self.duals[i] * value for i, value in entries)
            self._pivot(at, entering, shares)
            pivot_row = self._inverse[at]
            self.duals = [dual + price * value for dual, value in zip(self.duals, pivot_row, strict=True)]
            self._pivots += 1
            if self._pivots >= _FRESH:
                self._renew()

    def value(self) -> float:
        """Cost at the last basis."""
        return sum((dual * right for dual, right in zip(self.duals, self.right, strict=True)), 0.0)

    def amounts(self) -> dict[int, float]:
        """How much of each column is used; columns of the start and surplus included under their number."""
        return {
            column: amount
            for column, amount in zip(self.basis, self._amounts, strict=True)
            if amount > 1e-6 and column >= 0
        }

    def _column(self, number: int) -> tuple[int, Entries]:
        """A column, or below zero what is too much in a row."""
        if number < 0:
            return 0, ((-1 - number, -1),)
        return self.columns[number]

    def _entering(self) -> int | None:
        best, least = None, -_SMALL
        duals = self.duals
        for i, dual in enumerate(duals):
            if dual < least:
                best, least = -1 - i, dual
        for number in range(self._first, len(self.columns)):
            cost, entries = self.columns[number]
            price = float(cost)
            for i, value in entries:
                price -= duals[i] * value
            if price < -_SMALL * (cost + 1):
                price /= cost or 1
                if price < least:
                    best, least = number, price
        return best

    def _pivot(self, at: int, entering: int, shares: list[float]) -> None:
        inverse, amounts = self._inverse, self._amounts
        scale = 1 / shares[at]
        pivot_row = [value * scale for value in inverse[at]]
        amount = amounts[at] * scale
        for i, share in enumerate(shares):
            if i != at and (share > 1e-13 or share < -1e-13):
                inverse[i] = [value - share * other for value, other in zip(inverse[i], pivot_row, strict=True)]
                amounts[i] -= share * amount
                if amounts[i] < 0:
                    amounts[i] = 0.0
        inverse[at], amounts[at] = pivot_row, amount
        self.basis[at] = entering

    def _renew(self) -> None:
        """The inverse, amounts and duals from the basis alone."""
        size = len(self.right)
        basis = self.basis
        self._inverse = [[1.0 if i == j else 0.0 for j in range(size)] for i in range(size)]
        self._amounts = list(self._asked)
        free = set(range(size))
        self.basis = [0] * size
        for number in basis:
            entries = self._column(number)[1]
            shares = [sum(row[i] * value for i, value in entries) for row in self._inverse]
            at = max(sorted(free), key=lambda i: abs(shares[i]))
            free.discard(at)
            inverse = self._inverse
            scale = 1 / shares[at]
            pivot_row = [value * scale for value in inverse[at]]
            for i, share in enumerate(shares):
                if i != at and (share > 1e-13 or share < -1e-13):
                    inverse[i] = [value - share * other for value, other in zip(inverse[i], pivot_row, strict=True)]
            inverse[at] = pivot_row
            self.basis[at] = number
        self._amounts = [
            max(0.0, sum(value * asked for value, asked in zip(row, self._asked, strict=True))) for row in self._inverse
        ]
        costs = [float(self._column(number)[0]) for number in self.basis]
        self.duals = [
            sum(cost * row[i] for cost, row in zip(costs, self._inverse, strict=True) if cost) for i in range(size)
        ]
        self._pivots = 0

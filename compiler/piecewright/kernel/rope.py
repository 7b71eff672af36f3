"""A long sequence of things that lie on the table, kept so that a step touches only those near an edge.

A rope is a tree whose leaves hold a few things each, and every branch the box round what it holds. Things within a box
are found or changed by going down a few branches; the rest is shared with the rope before. What is added goes to the
top, and parts of like size there are taken together; so what was sewn last, and lies at the edge, is near the top, and
the tree is as deep as a few logarithms of what it holds. A turn or a shift of all of it is kept at the top and handed
down when it is asked for, one exact step for as many turns as there were. A rope is never changed: what is handed
down says the same thing farther below.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Generic, TypeVar, cast

from piecewright.exact import Vector

Box = tuple[float, float, float, float]  # left, bottom, right, top

# inches; far above the error of the floats and far below any cloth
_SLACK = 1e-6
_NOWHERE: Box = (float("inf"), float("inf"), float("-inf"), float("-inf"))
_MOST = 8  # things in one leaf


def box(points: Iterable[Vector]) -> Box:
    """The box round some points in floats, widened by more than their error."""
    floats = [p.floats for p in points]
    xs = [f[0] for f in floats]
    ys = [f[1] for f in floats]
    return min(xs) - _SLACK, min(ys) - _SLACK, max(xs) + _SLACK, max(ys) + _SLACK


class Reaching:
    """Keeps the box round what it is, once it was asked for: most of a large unit lies clear of any one seam."""

    __slots__ = ("_reach",)

    _reach: Box

    @property
    def reach(self) -> Box:
        try:
            return self._reach
        except AttributeError:
            reach = box(self._points())
            object.__setattr__(self, "_reach", reach)
            return reach

    def _points(self) -> Iterable[Vector]:
        raise NotImplementedError

    def carried(self, turn: Vector | None, shift: Vector | None) -> Reaching:
        """The same thing turned about the origin by a unit vector, then shifted; None for neither."""
        raise NotImplementedError


T = TypeVar("T", bound=Reaching)


class Rope(Generic[T]):
    """Things in their order. A leaf has `_items`, a branch `_left` and `_right`; `_turn` and `_shift` are still to
    be done to all of it. `_own` is the box round it before that, `_box` the one after."""

    __slots__ = ("_box", "_items", "_left", "_own", "_right", "_shift", "_turn", "count", "depth")

    count: int
    depth: int
    _items: tuple[T, ...] | None
    _left: Rope[T] | None
    _right: Rope[T] | None
    _own: Box | None
    _box: Box | None
    _turn: Vector | None
    _shift: Vector | None

    def __init__(self, items: tuple[T, ...] = ()) -> None:
        self.count = len(items)
        self._left = self._right = self._own = self._box = self._turn = self._shift = None
        if len(items) <= _MOST:
            self._items = items
            self.depth = 0
            return
        half = len(items) // 2
        self._items = None
        self._left, self._right = Rope(items[:half]), Rope(items[half:])
        self.depth = 1 + self._right.depth

    def __iter__(self) -> Iterator[T]:
        pending = [self]
        while pending:
            rope = pending.pop()
            if rope._items is not None:
                yield from rope._here()
            else:
                left, right = rope._parts()
                pending += (right, left)

    def __reversed__(self) -> Iterator[T]:
        pending = [self]
        while pending:
            rope = pending.pop()
            if rope._items is not None:
                yield from reversed(rope._here())
            else:
                pending += rope._parts()

    def __getitem__(self, number: int) -> T:
        """The thing of a number, from 0. IndexError where there are fewer."""
        rope = self
        while rope._items is None:
            left, right = rope._parts()
            rope, number = (left, number) if number < left.count else (right, number - left.count)
        return rope._here()[number]

    def __add__(self, other: Rope[T]) -> Rope[T]:
        """The things of this one and then those of the other."""
        if not other.count:
            return self
        if not self.count:
            return other
        if self.count + other.count <= _MOST:
            return Rope((*self, *other))
        if self.count >= other.count:
            rope, new = self, other
            while rope._items is None:
                rest, last = rope._parts()
                if last.count > new.count:
                    break
                rope, new = rest, _branch(last, new)
            rope = _branch(rope, new)
        else:
            rope, new = other, self
            while rope._items is None:
                first, rest = rope._parts()
                if first.count > new.count:
                    break
                rope, new = rest, _branch(new, first)
            rope = _branch(new, rope)
        if rope.depth > 8 + 3 * rope.count.bit_length():  # by turns at both ends
            return Rope(tuple(rope))
        return rope

    def carried(self, turn: Vector | None, shift: Vector | None) -> Rope[T]:
        """All of it turned about the origin by a unit vector, then shifted."""
        if not self.count:
            return self
        rope: Rope[T] = Rope.__new__(Rope)
        rope.count, rope._items, rope._left, rope._right = self.count, self._items, self._left, self._right
        rope._own, rope._box, rope.depth = self._own, None, self.depth
        rope._turn = _turned(self._turn, turn)
        rope._shift = _turned(self._shift, turn) if self._shift is not None else None
        if shift is not None:
            rope._shift = shift if rope._shift is None else rope._shift + shift
        return rope

    def near(self, bounds: Box) -> Iterator[T]:
        """What may reach into a box, in order; more than that where it is little."""
        return self.unless(_apart_from(bounds))

    def unless(self, clear: Callable[[Box], bool]) -> Iterator[T]:
        """What is not certainly clear of something, in order: `clear` says so of a box, and holds for every box
        within one it holds for."""
        pending = [self]
        while pending:
            rope = pending.pop()
            if rope._items is not None:
                for item in rope._here():
                    if not clear(item.reach):
                        yield item
            elif not clear(rope.reach()):
                left, right = rope._parts()
                pending += (right, left)

    def changed(self, bounds: Box, change: Callable[[T], T | None]) -> Rope[T]:
        """The rope with everything that may reach into a box replaced; by nothing where `change` gives None. The
        same rope where nothing changed."""
        return self.mended(_apart_from(bounds), change)

    def mended(self, clear: Callable[[Box], bool], change: Callable[[T], T | None]) -> Rope[T]:
        """The rope with everything replaced that is not certainly clear of something, as `unless` gives it; by nothing
        where `change` gives None. The same rope where nothing changed."""
        if self._items is None:
            if clear(self.reach()):
                return self
            left, right = self._parts()
            first, last = left.mended(clear, change), right.mended(clear, change)
            if first is left and last is right:
                return self
            return _branch(first, last) if first.count and last.count else first + last
        items = self._here()
        kept = [item if clear(item.reach) else change(item) for item in items]
        if all(one is other for one, other in zip(kept, items, strict=True)):
            return self
        return Rope(tuple([item for item in kept if item is not None]))

    def reach(self) -> Box:
        """The box round all of it."""
        found = self._box
        if found is None:
            own = self._own
            if own is None:
                if self._items is not None:
                    boxes = [item.reach for item in self._items]
                else:
                    boxes = [cast("Rope[T]", self._left).reach(), cast("Rope[T]", self._right).reach()]
                own = self._own = _round(boxes)
            plain = self._turn is None and self._shift is None
            found = self._box = own if plain else _carried_box(own, self._turn, self._shift)
        return found

    def _here(self) -> tuple[T, ...]:
        """The things of a leaf as they lie now."""
        items = cast("tuple[T, ...]", self._items)
        if self._turn is not None or self._shift is not None:
            items = tuple([_carried_item(item, self._turn, self._shift) for item in items])
            self._items, self._own, self._box, self._turn, self._shift = items, None, None, None, None
        return items

    def _parts(self) -> tuple[Rope[T], Rope[T]]:
        """The two halves of a branch as they lie now."""
        left, right = cast("Rope[T]", self._left), cast("Rope[T]", self._right)
        if self._turn is not None or self._shift is not None:
            left, right = left.carried(self._turn, self._shift), right.carried(self._turn, self._shift)
            # the box of a turned box is larger than need be, unless it was turned by quarters
            kept = self._box if self._turn is None or not self._turn.x or not self._turn.y else None
            self._left, self._right, self._own, self._box = left, right, kept, kept
            self._turn = self._shift = None
        return left, right


def _branch(left: Rope[T], right: Rope[T]) -> Rope[T]:
    if left.count + right.count <= _MOST:
        return Rope((*left, *right))
    rope: Rope[T] = Rope.__new__(Rope)
    rope.count = left.count + right.count
    rope.depth = 1 + (left.depth if left.depth > right.depth else right.depth)
    rope._left, rope._right = left, right
    rope._items = rope._own = rope._box = rope._turn = rope._shift = None
    return rope


def _turned(v: Vector | None, turn: Vector | None) -> Vector | None:
    if turn is None:
        return v
    return turn if v is None else v.turned(turn)


def _round(boxes: list[Box]) -> Box:
    if not boxes:
        return _NOWHERE
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return min(lefts), min(bottoms), max(rights), max(tops)


def _carried_item(item: T, turn: Vector | None, shift: Vector | None) -> T:
    """A thing carried, and the box round it where that is no larger than need be."""
    found = cast(T, item.carried(turn, shift))
    if turn is None or not turn.x or not turn.y:
        object.__setattr__(found, "_reach", _carried_box(item.reach, turn, shift))
    return found


def _carried_box(bounds: Box, turn: Vector | None, shift: Vector | None) -> Box:
    """A box round what is in a box, after a turn and a shift."""
    left, bottom, right, top = bounds
    if turn is not None:
        u, v = turn.floats
        if not u:
            left, bottom, right, top = (-top, left, -bottom, right) if v > 0 else (bottom, -right, top, -left)
        else:
            xs = (left * u, right * u, -bottom * v, -top * v)
            ys = (left * v, right * v, bottom * u, top * u)
            left, right = min(xs[:2]) + min(xs[2:]), max(xs[:2]) + max(xs[2:])
            bottom, top = min(ys[:2]) + min(ys[2:]), max(ys[:2]) + max(ys[2:])
    dx, dy = shift.floats if shift is not None else (0.0, 0.0)
    return left + dx - _SLACK, bottom + dy - _SLACK, right + dx + _SLACK, top + dy + _SLACK


def _apart_from(bounds: Box) -> Callable[[Box], bool]:
    left, bottom, right, top = bounds

    def clear(reach: Box) -> bool:
        return reach[0] > right or reach[2] < left or reach[1] > top or reach[3] < bottom

    return clear


def outside_band(
    start: tuple[float, float], end: tuple[float, float], direction: tuple[float, float], depth: float
) -> Callable[[Box], bool]:
    """For `unless`: whether all of a box lies outside a band, so deep along a unit vector from a stretch square to it,
    and as far beyond both its ends."""
    dx, dy = direction
    low, high = start[0] * dy - start[1] * dx, end[0] * dy - end[1] * dx
    along, before = ((dy, -dx), (-dy, dx)) if low <= high else ((-dy, dx), (dy, -dx))
    sides = (
        farther_than(start, direction, depth),
        farther_than(start, (-dx, -dy), _SLACK),
        farther_than(start, before, depth),
        farther_than(end, along, depth),
    )

    def clear(reach: Box) -> bool:
        return sides[0](reach) or sides[1](reach) or sides[2](reach) or sides[3](reach)

    return clear


def farther_than(point: tuple[float, float], direction: tuple[float, float], distance: float) -> Callable[[Box], bool]:
    """For `unless`: whether all of a box lies farther than a distance from a point along a unit vector."""
    dx, dy = direction
    least = point[0] * dx + point[1] * dy + distance
    across, up = (0 if dx > 0 else 2), (1 if dy > 0 else 3)

    def clear(reach: Box) -> bool:
        return reach[across] * dx + reach[up] * dy > least

    return clear

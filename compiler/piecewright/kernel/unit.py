"""What lies on the table: cloth, its outline twice (finished and raw), seams and what went under.

Lengths are inches, exact; outlines run counter-clockwise with x to the right and y up. Edge `i` runs
from corner `i` to corner `i + 1`.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Literal

from piecewright.dataclass import dataclass
from piecewright.exact import Exact, Vector
from piecewright.kernel.rope import Reaching, Rope

Polygon = tuple[Vector, ...]  # counter-clockwise, no point twice in a row
Pressed = Literal["left", "right", "open"]
OffcutKind = Literal["allowance", "ear", "sliver", "trim", "flip"]


def carried(p: Vector, turn: Vector | None, shift: Vector | None) -> Vector:
    """A point turned about the origin by a unit vector, then shifted; None for neither."""
    if turn is not None:
        p = p.turned(turn)
    return p if shift is None else p + shift


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """`finished`: where the seam lines of the two edges meet. `raw`: the raw outline there, in the
    order of the outline: one point at a convex corner, more at a reflex one (chord ends) or a mark."""

    finished: Vector
    raw: tuple[Vector, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Disc:
    """A curved seam: the circle it runs along, about a point. `inside`: the cloth is seen within it, else
    outside."""

    centre: Vector
    radius: Exact
    inside: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Patch(Reaching):
    """What is seen of one piece of cloth, as convex cells. `grain` is the unit vector of the
    lengthwise grain; `cut` names the cut piece it came from; `mirrored`: it was turned over an odd number of times, as
    when it was flipped open over a seam. With `discs`, only what of the cells lies within
    or outside each of them: two patches divided by a curve share their cells there."""

    fabric: str
    cells: tuple[Polygon, ...]
    grain: Vector
    cut: str
    discs: tuple[Disc, ...] = ()
    mirrored: bool = False

    @property
    def up(self) -> Vector:
        """Where what was its top as it was cut points now: a piece is written across first, then down."""
        return self.grain.right() if self.mirrored else self.grain.left()

    def _points(self) -> Iterable[Vector]:
        return (p for cell in self.cells for p in cell)

    def carried(self, turn: Vector | None, shift: Vector | None) -> Patch:
        return Patch(
            fabric=self.fabric,
            cells=tuple(tuple([carried(p, turn, shift) for p in cell]) for cell in self.cells),
            grain=self.grain if turn is None else self.grain.turned(turn),
            cut=self.cut,
            discs=tuple(
                Disc(centre=carried(disc.centre, turn, shift), radius=disc.radius, inside=disc.inside)
                for disc in self.discs
            ),
            mirrored=self.mirrored,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam(Reaching):
    """A sewn seam between its visible ends. `direction` is the unit vector from start to end, carried
    through turns; `pressed` is the side its allowances lie to, seen along that direction; `sewn` False
    for the part of a seam that is still open."""

    start: Vector
    end: Vector
    direction: Vector
    pressed: Pressed
    sewn: bool = True

    def _points(self) -> Iterable[Vector]:
        return self.start, self.end

    def carried(self, turn: Vector | None, shift: Vector | None) -> Seam:
        return Seam(
            start=carried(self.start, turn, shift),
            end=carried(self.end, turn, shift),
            direction=self.direction if turn is None else self.direction.turned(turn),
            pressed=self.pressed,
            sewn=self.sewn,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """Cloth that is no longer seen: under a seam, or cut away. Area in square inches."""

    kind: OffcutKind
    fabric: str
    area: Exact


# A ledger, or the ledgers of which it is made, one after the other.
Accounts = tuple["Offcut | Accounts", ...]


class _Cloth:
    """Patches and seams of a unit as ropes, and its ledger as those of its parts. One that was made of these has its
    tuples when they are asked for."""

    __slots__ = ("_accounts", "_patch_rope", "_seam_rope", "_spots", "_turned_from")

    if TYPE_CHECKING:
        patches: tuple[Patch, ...]
        seams: tuple[Seam, ...]
        ledger: tuple[Offcut, ...]
        _accounts: Accounts
        _patch_rope: Rope[Patch]
        _seam_rope: Rope[Seam]
        _spots: Rope[Spot] | None
        _turned_from: tuple[Unit, Vector]
    else:

        def __getattr__(self, name: str) -> object:
            """A field that has not been worked out yet."""
            if name == "ledger":
                found = _flat(self._accounts)
            elif name in _ROPES:
                found = tuple(getattr(self, _ROPES[name]))
            else:
                raise AttributeError(name)
            object.__setattr__(self, name, found)
            return found

    @property
    def accounts(self) -> Accounts:
        try:
            return self._accounts
        except AttributeError:
            return self.ledger

    @property
    def spots(self) -> Rope[Spot] | None:
        """The pieces of a table that was set together, with what was sewn to it since; None for other work, and after a
        cut."""
        try:
            return self._spots
        except AttributeError:
            return None

    @property
    def turned_from(self) -> tuple[Unit, Vector] | None:
        """The unit of which this is the same turned about the origin, and the unit vector it is turned by, where that
        is known."""
        try:
            return self._turned_from
        except AttributeError:
            return None

    @property
    def patch_rope(self) -> Rope[Patch]:
        try:
            return self._patch_rope
        except AttributeError:
            rope = Rope(self.patches)
            object.__setattr__(self, "_patch_rope", rope)
            return rope

    @property
    def seam_rope(self) -> Rope[Seam]:
        try:
            return self._seam_rope
        except AttributeError:
            rope = Rope(self.seams)
            object.__setattr__(self, "_seam_rope", rope)
            return rope


def _flat(accounts: Accounts) -> tuple[Offcut, ...]:
    found: list[Offcut] = []
    pending: list[Offcut | Accounts] = [accounts]
    while pending:
        one = pending.pop()
        if isinstance(one, tuple):
            pending += reversed(one)
        else:
            found.append(one)
    return tuple(found)


_ROPES = {"patches": "_patch_rope", "seams": "_seam_rope"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit(_Cloth):
    """A piece of cloth, or pieces sewn together.

    `corners` and `directions` have the same length; `directions[i]` is the unit vector along edge i.
    `allowance` is the seam allowance; `cloth` the area that went in since the last cut: always the
    area seen plus the ledger.
    """

    corners: tuple[Corner, ...]
    directions: tuple[Vector, ...]
    patches: tuple[Patch, ...]
    seams: tuple[Seam, ...]
    ledger: tuple[Offcut, ...]
    allowance: Exact
    cloth: Exact


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot(Reaching):
    """A piece as it was before it was sewn, shared by all places where it lies, and where this one is: turned about the
    origin by a unit vector, then shifted; None for neither."""

    unit: Unit
    turn: Vector | None
    shift: Vector | None

    def points(self) -> Iterable[Vector]:
        """Its finished corners where they lie."""
        return (carried(corner.finished, self.turn, self.shift) for corner in self.unit.corners)

    def _points(self) -> Iterable[Vector]:
        return self.points()

    def carried(self, turn: Vector | None, shift: Vector | None) -> Spot:
        mine = self.turn if turn is None else turn if self.turn is None else self.turn.turned(turn)
        at = self.shift if turn is None or self.shift is None else self.shift.turned(turn)
        return Spot(unit=self.unit, turn=mine, shift=at if shift is None else shift if at is None else at + shift)


def roped(
    *,
    corners: tuple[Corner, ...],
    directions: tuple[Vector, ...],
    patches: Rope[Patch],
    seams: Rope[Seam],
    ledger: Accounts,
    allowance: Exact,
    cloth: Exact,
    spots: Rope[Spot] | None = None,
) -> Unit:
    """A unit of ropes, which gives its patches, seams and ledger as tuples when they are first asked for."""
    unit = object.__new__(Unit)
    put = object.__setattr__  # past the seal
    put(unit, "corners", corners)
    put(unit, "directions", directions)
    put(unit, "_patch_rope", patches)
    put(unit, "_seam_rope", seams)
    put(unit, "_accounts", ledger)
    put(unit, "allowance", allowance)
    put(unit, "cloth", cloth)
    if spots is not None:
        put(unit, "_spots", spots)
    return unit


def turned_from(unit: Unit, whole: Unit, turn: Vector) -> Unit:
    """The unit, which remembers that it is another one turned."""
    object.__setattr__(unit, "_turned_from", (whole, turn))
    return unit


def spotted(unit: Unit) -> Unit:
    """The same unit as one spot, which it stays where it is moved and turned."""
    return roped(
        corners=unit.corners,
        directions=unit.directions,
        patches=unit.patch_rope,
        seams=unit.seam_rope,
        ledger=unit.accounts,
        allowance=unit.allowance,
        cloth=unit.cloth,
        spots=spots_of(unit),
    )


def spots_of(unit: Unit) -> Rope[Spot]:
    """The spots of a table, or the unit itself as one."""
    found = unit.spots
    if found is None:
        whole, turn = unit.turned_from or (unit, None)
        found = Rope((Spot(unit=whole, turn=turn, shift=None),))
    return found

"""When parts are alike: as outlines with colours, in layers, and as rows of the cut list. What must be and what must
not, each by a change of one thing."""

from __future__ import annotations

from dataclasses import replace

import pytest
from kernel.sewing import S, join, oblong, square, trapezoid
from piecewright.exact import Exact, Vector
from piecewright.kernel.alike import has_hands, piece_shape, plain_piece, written_size
from piecewright.kernel.build import Piece
from piecewright.kernel.congruence import alike
from piecewright.kernel.foundation import ROUGH
from piecewright.kernel.layers import Layers, Stitch, alike_layers, turned_layers
from piecewright.kernel.moves import mirrored, moved, rotated, turned
from piecewright.kernel.unit import Unit

UP, EAST = Vector(0, 1), Vector(1, 0)
AWAY = Vector(Exact(7, 3), Exact(-2))


def scalene(fabric: str) -> Unit:
    """A right triangle of 3 by 4, which no turning makes its mirror image."""
    return trapezoid(((Exact(0), Exact(0)), (Exact(4), Exact(0)), (Exact(0), Exact(3))), fabric)


def layers(base: Unit, *uppers: Unit, at: tuple[Stitch, ...] = ((Vector(1, 0), UP),)) -> Layers:
    return Layers(base=base, placed=(), uppers=uppers, stitches=at)


def glass(work: Layers) -> Layers:
    """As in a mirror, left for right, each piece in its place."""
    return Layers(
        base=mirrored(work.base), placed=(), uppers=tuple(map(mirrored, work.uppers)),
        stitches=tuple((Vector(-p.x, p.y), Vector(-d.x, d.y)) for p, d in work.stitches),
    )  # fmt: skip


# ── in layers ───────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("degrees", [0, 30, 90, 180, 225])
def test_layers_that_are_turned_and_moved(degrees: int) -> None:
    work = layers(scalene("a"), scalene("b"))
    other = turned_layers(work, Vector.at(degrees), AWAY)
    assert alike_layers(work, other) and alike_layers(other, work)
    ((spot, along),) = other.stitches
    assert (spot, along) == (Vector.at(degrees) + AWAY, UP.turned(Vector.at(degrees))), "the stitching turns with it"


def test_layers_of_which_one_lies_over_are_alike_with_the_pieces_exchanged() -> None:
    work = layers(scalene("a"), scalene("b"))
    over = glass(layers(scalene("b"), scalene("a")))
    assert alike_layers(work, over) and alike_layers(work, turned_layers(over, Vector.at(90), AWAY))
    assert not alike_layers(work, layers(scalene("b"), scalene("a"))), "exchanged, but not turned over"
    assert not alike_layers(work, glass(work)), "turned over, but not exchanged"
    moved_stitch = glass(layers(scalene("b"), scalene("a"), at=((Vector(2, 0), UP),)))
    assert not alike_layers(work, moved_stitch)


def test_one_thing_that_differs() -> None:
    work = layers(scalene("a"), scalene("b"))
    assert alike_layers(work, layers(scalene("a"), scalene("b"), at=((Vector(1, 2), -UP),))), "the same line"
    for other in (
        layers(scalene("c"), scalene("b")),
        layers(scalene("a"), scalene("c")),
        layers(scalene("a"), scalene("b"), at=((Vector(Exact(5, 4), Exact(0)), UP),)),
        layers(scalene("a"), scalene("b"), at=((Vector(1, 0), EAST),)),
        layers(scalene("a"), scalene("b"), at=((Vector(1, 0), UP), (Vector(2, 0), UP))),
        layers(scalene("a"), scalene("b"), at=()),
        layers(scalene("a")),
        layers(scalene("a"), scalene("b"), scalene("b")),
        layers(scalene("a"), moved(scalene("b"), Vector(Exact(1, 8), Exact(0)))),
        layers(scalene("a"), square(2, "b")),
        layers(square(4, "a"), scalene("b")),
    ):
        assert not alike_layers(work, other) and not alike_layers(other, work)


def test_several_pieces_on_top_in_any_order() -> None:
    base = oblong(8, 4, "a")
    one, other = square(3, "b"), moved(square(3, "c"), Vector(5, 0))
    work = layers(base, one, other)
    assert alike_layers(work, layers(base, other, one))
    assert not alike_layers(work, layers(base, one, one)) and not alike_layers(layers(base, one, one), work)
    assert not alike_layers(work, layers(base, square(3, "c"), moved(square(3, "b"), Vector(5, 0))))
    two = ((Vector(1, 0), UP), (Vector(6, 0), UP))
    assert alike_layers(layers(base, one, other, at=two), layers(base, one, other, at=two[::-1]))
    assert not alike_layers(layers(base, one, other, at=two), layers(base, one, other, at=(two[0], (Vector(7, 0), UP))))


# ── opened out ──────────────────────────────────────────────────────────────────────────────────


def test_colours_in_the_same_outline_after_turning() -> None:
    pair = join(square(3, "a"), "right", square(3, "b"), "left")
    swapped = join(square(3, "b"), "right", square(3, "a"), "left")
    assert alike(pair, pair) == EAST
    assert alike(pair, swapped) == -EAST, "turned around"
    assert alike(pair, moved(turned(pair, 90), AWAY)) == Vector(0, -1), "back by a quarter"
    assert alike(pair, join(square(3, "a"), "right", square(3, "c"), "left")) is None
    assert alike(pair, join(oblong("3 1/4", 3, "a"), "right", oblong("2 3/4", 3, "b"), "left")) is None
    assert alike(pair, join(square(3, "a"), "right", oblong("3 1/4", 3, "b"), "left")) is None
    # how one colour is sewn together does not count
    whole = join(oblong("5 1/2", "1 1/2", "a"), "top", oblong("5 1/2", 2, "a"), "bottom")
    assert alike(oblong("5 1/2", 3, "a"), whole) == EAST


def test_a_mirror_image_is_not_alike() -> None:
    assert alike(scalene("a"), rotated(scalene("a"), Vector.at(45))) is not None
    assert alike(scalene("a"), mirrored(scalene("a"))) is None
    corner = join(square(3, "a"), "right", square(3, "b"), "left")
    ell = join(corner, "top", join(square(3, "c"), "right", square(3, "d"), "left"), "bottom")
    assert alike(ell, mirrored(ell)) is None and alike(ell, turned(ell, 270)) is not None


def test_the_raw_outline_counts_too() -> None:
    unit = square(4)
    (first, *rest) = unit.corners
    blunt = replace(unit, corners=(replace(first, raw=(Vector(0, S), Vector(S, 0))), *rest))
    assert alike(unit, blunt) is None
    short = replace(unit, corners=(replace(first, finished=Vector(S, S + S)), *rest))
    assert alike(unit, short) is None, "nor does it finish alike"


# ── rows of the cut list ────────────────────────────────────────────────────────────────────────


def piece(shape: str, wide: int | None, high: int, **more: object) -> Piece:
    return Piece(shape=shape, width=None if wide is None else Exact(wide), height=Exact(high), fabric="a", **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("given", "directional", "shape", "size", "mirrored_"),
    [
        (piece("rectangle", 4, 2), False, "rectangle", (2, 4), False),
        (piece("rectangle", 4, 2), True, "rectangle", (4, 2), False),
        (piece("rectangle", 2, 4), True, "rectangle", (2, 4), False),
        (piece("rectangle", 3, 3), False, "square", (3, 3), False),
        (piece("square", 3, 3, reversed=True), True, "square", (3, 3), False),
        (piece("strip", 5, 2), False, "rectangle", (2, 5), False),
        (piece("strip", 5, 2), True, "rectangle", (5, 2), False),
        (piece("strip", 2, 2), False, "square", (2, 2), False),
        (piece(ROUGH, 5, 2), False, ROUGH, (2, 5), False),
        (piece(ROUGH, 5, 2), True, ROUGH, (5, 2), False),
        (piece(ROUGH, 3, 3), False, ROUGH, (3, 3), False),
        (piece("rectangle", 4, 2, reversed=True, lengthwise=True), False, "rectangle", (2, 4), False),
        (piece("parallelogram", 4, 2, angle=45, reversed=True), False, "parallelogram", (4, 2), True),
        (piece("parallelogram", 4, 2, angle=45), False, "parallelogram", (4, 2), False),
        (piece("diamond", 2, 2, angle=45, reversed=True), False, "diamond", (2, 2), False),
        (piece("diamond", 2, 2, angle=45, reversed=True), True, "diamond", (2, 2), True),
        (piece("trapezoid", 4, 2, angle=60, reversed=True), True, "trapezoid", (4, 2), False),
        (piece("triangle", 3, 2, angle=60, reversed=True), True, "triangle", (3, 2), False),
    ],
)
def test_a_piece_as_the_cut_list_knows_it(
    given: Piece, directional: bool, shape: str, size: tuple[int, int], mirrored_: bool
) -> None:
    plain = plain_piece(given, directional)
    assert (plain.shape, plain.width, plain.height) == (shape, Exact(size[0]), Exact(size[1]))
    assert plain.reversed is mirrored_ and not plain.lengthwise
    assert plain_piece(plain, directional) == plain
    assert has_hands(given, directional) is (
        given.shape == "parallelogram" or (given.shape == "diamond" and directional)
    )


def test_a_strip_without_ends_stays_a_strip() -> None:
    strip = piece("strip", None, 2, reversed=True, lengthwise=True)
    assert plain_piece(strip, False) == replace(strip, reversed=False, lengthwise=False)
    assert piece_shape(strip, Exact(2)) == "strip" and piece_shape(strip, Exact(5)) == "strip"
    assert written_size("strip", Exact(40), Exact(2), False) == (Exact(2), Exact(40))
    assert written_size("strip", Exact(40), Exact(2), True) == (Exact(2), Exact(40))

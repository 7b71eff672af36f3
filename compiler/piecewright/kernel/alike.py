"""When two pieces cut from cloth are the same piece, however they will lie."""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact
from piecewright.kernel.build import Piece
from piecewright.kernel.foundation import ROUGH

_HAS_HANDS = ("parallelogram",)
_HAS_HANDS_ON_PRINT = ("parallelogram", "diamond")


def piece_shape(piece: Piece, width: Exact) -> str:
    """What a piece is called where it is cut: a rectangle with equal sides is a square, and a strip of
    known length a rectangle."""
    shape = "rectangle" if piece.shape == "strip" and piece.width is not None else piece.shape
    if shape in ("rectangle", "square"):
        return "square" if width == piece.height else "rectangle"
    return shape


def has_hands(piece: Piece, directional: bool) -> bool:
    """Whether the mirrored piece is another piece. A diamond's mirror image is the same diamond turned,
    with its grain along the neighbouring side, so it matters only on a print that has a direction."""
    return shape_has_hands(piece.shape, directional)


def shape_has_hands(shape: str, directional: bool) -> bool:
    """The same of all pieces of a shape."""
    return shape in (_HAS_HANDS_ON_PRINT if directional else _HAS_HANDS)


def written_size(shape: str, width: Exact, height: Exact, directional: bool) -> tuple[Exact, Exact]:
    """The two sizes of a piece in the order they are written, from those across and down."""
    if shape == "strip":
        return height, width
    if shape in ("rectangle", ROUGH) and not directional and height < width:
        return height, width
    return width, height


def plain_piece(piece: Piece, directional: bool) -> Piece:
    """The piece as the cut list knows it, so that like pieces are equal: narrow side first unless the cloth is
    `directional`, reversed only where that is another piece, on no matter which grain and for whatever it serves."""
    reversed_ = piece.reversed and has_hands(piece, directional)
    if piece.width is None or piece.angle is not None:
        return replace(piece, reversed=reversed_, lengthwise=False, joins=False)
    shape = piece_shape(piece, piece.width)
    width, height = written_size(shape, piece.width, piece.height, directional)
    return replace(
        piece, shape=shape, width=width, height=height, reversed=reversed_, lengthwise=False, joins=False
    )

"""What pieces and units are called in the instructions, the same way everywhere."""

from __future__ import annotations

from collections.abc import Mapping

from piecewright.dataclass import dataclass
from piecewright.exact import Exact
from piecewright.kernel.alike import has_hands, piece_shape, written_size
from piecewright.kernel.build import Made, Piece, Settings, Step
from piecewright.kernel.curve import Bend
from piecewright.kernel.measure import height, raw_edge, width
from piecewright.kernel.unit import Unit
from piecewright.plan.bends import bend_words
from piecewright.plan.rounding import cut_size
from piecewright.plan.words import plain, shape_size, turning, typographic

_NO_TEMPLATES: Mapping[Bend, tuple[str, str]] = {}
Source = Piece | str  # what is brought to the table: a piece of cloth, or a unit by its key


@dataclass(frozen=True, slots=True, kw_only=True)
class Tongue:
    """What every sentence needs: the settings, what was made and its titles by key, the directional fabrics;
    of each kind of curved seam the letters of its two templates."""

    settings: Settings
    made: Mapping[str, Made]
    titles: Mapping[str, str]
    directional: frozenset[str]
    templates: Mapping[Bend, tuple[str, str]] = _NO_TEMPLATES

    def called(self, source: Source | None, name: str) -> str:
        """What something brought to the table is called: `half-square, turned right`, `sand square 2½`. `name` is
        what the pattern calls it, with its turning; it serves where the source is not known."""
        if isinstance(source, Piece):
            return self.piece(source)
        if source is None:
            return typographic(name)
        title, how = self.titles[source], turning(name)
        if self.made[source].reversed:
            how = how.replace(" reversed", "")
            title = title if title.endswith(" reversed") else f"{title} reversed"
        return f"{title},{how}" if how else title

    def counted(self, source: Source, count: int, name: str = "", noun: str = "") -> str:
        """`8 glow squares 2½`, `1 lantern block in dusk and glow`, `14 paling units, turned right`, `2 goose units (2,
        sky and bird)`. A unit's name is the designer's and makes no plural of its own, so the word for what it is takes
        it. `name` is what the pattern calls it, with its turning; `noun` stands for the word of a piece's shape."""
        if isinstance(source, Piece):
            shape = noun or piece_shape(source, source.width or source.height)
            return f"{count} {self.piece(source, shape if count == 1 else f'{shape}s')}"
        made = self.made[source]
        own = plain(made.name)
        told = self.called(source, name or source).removeprefix(own)
        if told and not told.startswith((" in ", " reversed", ",")):
            told = f" ({told.strip()})"
        return f"{count} {own} {made.kind if count == 1 else f'{made.kind}s'}{told}"

    def piece(self, piece: Piece, noun: str = "", *, sized: bool = True) -> str:
        """`glow square 2½`, `glow strip 2¼ × 5½`; a strip without ends is `glow strip 2½ wide`. `noun` stands for
        the word of the shape; where it is not `sized`, only its narrow side is told."""
        if piece.width is None:
            return f"{piece.fabric} strip {cut_size(piece.height, self.settings).shown} wide"
        shape = piece_shape(piece, piece.width)
        mirrored = piece.reversed and has_hands(piece, piece.fabric in self.directional)
        name = f"{'reversed ' if mirrored else ''}{piece.fabric} {noun or shape}"
        if not sized:
            return f"{name} {cut_size(min(piece.width, piece.height), self.settings).shown} wide"
        return f"{name} {self.size(piece)}"

    def size(self, piece: Piece) -> str:
        """`2½` of a square, `2½ × 4½` of others, in the order and manner of the cut list."""
        if piece.radius is not None:
            return bend_words(piece.shape, piece.radius, self.settings)
        width = piece.width if piece.width is not None else piece.height
        shape = piece_shape(piece, width)
        first, second = written_size(shape, width, piece.height, piece.fabric in self.directional)
        shown = cut_size(first, self.settings).shown
        return shape_size(shape, shown, cut_size(second, self.settings).shown, piece.angle)


def piece_named(name: str, cell: Unit, step: Step) -> Piece | None:
    """Which of the pieces of cloth a step brings the table calls `name`; None where it cannot be told."""
    sides = _sides(cell)
    for supply in step.supplies:
        piece = supply.source
        if isinstance(piece, Piece) and name.startswith(f"{piece.fabric} ") and {piece.width, piece.height} == sides:
            return piece
    return None


def _sides(cell: Unit) -> set[Exact]:
    """The sides of a rectangle, also of one that lies slantwise; of any other piece across and down."""
    edges = [raw_edge(cell, n) for n in range(len(cell.directions))]
    found = {(q - p).dot(along) for (p, q), along in zip(edges, cell.directions, strict=True)}
    return found if len(edges) == 4 and len(found) < 3 else {width(cell), height(cell)}


def brought(step: Step) -> tuple[Source, ...]:
    """What the step brings to one piece of work, one after the other: of a pile, to the first of it."""
    return tuple(supply.source for supply in step.supplies for _ in range(max(supply.count // max(step.copies, 1), 1)))

"""Curved seams in words, the templates they need, and which pieces of the cut list a template finishes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from piecewright.kernel.action import Action, Curve
from piecewright.kernel.build import Build, Made, Piece, Settings, Step
from piecewright.kernel.curve import MELON, Bend, ground_arc
from piecewright.plan.bends import bend_size
from piecewright.plan.model import Size, TemplatePlan
from piecewright.plan.places import edges_words, point_words
from piecewright.plan.rounding import given_size, quarter_arc, with_unit
from piecewright.plan.scene_curve import hollow_panel, piece_panel
from piecewright.plan.words import article, listed, sentence

ALL_ROUND = 4  # corners, or sides
Letters = Mapping[Bend, tuple[str, str]]
"""Of each kind of seam, the letter of the round piece's template and of the hollow's."""


def letters(build: Build) -> dict[Bend, tuple[str, str]]:
    """Two letters for each kind, in the order of work."""
    bends = dict.fromkeys(curve.bend for made in build.made for curve in _curves(made))
    return {bend: (_letter(2 * n), _letter(2 * n + 1)) for n, bend in enumerate(bends)}


def hollows(build: Build) -> dict[tuple[str, Piece], tuple[Bend, ...]]:
    """The seams for which hollows are cut into a piece after it is cut out, by the key of its unit and the piece.

    A piece is known by the line that cut it, which its patches remember. Work with seams in it is
    hollowed as a whole, and not one of its pieces.
    """
    found: dict[tuple[str, Piece], dict[Bend, None]] = {}
    for made in build.made:
        pieces = [(step.line, s.source) for step in made.steps for s in step.supplies if isinstance(s.source, Piece)]
        for curve in _curves(made):
            if curve.before.seams:
                continue
            before = {(patch.cut, patch.cells): patch.discs for patch in curve.before.patches}
            for patch in curve.result.patches:
                if before.get((patch.cut, patch.cells), patch.discs) == patch.discs:
                    continue
                shape, _, line = patch.cut.rpartition(":")
                for at, piece in pieces:
                    if str(at) == line and piece.shape == shape and piece.fabric == patch.fabric:
                        for key in dict.fromkeys((made.key, made.whole or made.key)):
                            found.setdefault((key, piece), {})[curve.bend] = None
    return {where: tuple(bends) for where, bends in found.items()}


def hollow_note(bends: Sequence[Bend], known: Letters) -> str:
    """`then hollowed by template B`"""
    if not bends:
        return ""
    named = listed([known[bend][1] for bend in bends])
    return f"then hollowed by {'template' if len(bends) == 1 else 'templates'} {named}"


def curve_text(curves: Sequence[Curve], step: Step, known: Letters, settings: Settings) -> str:
    """`Cut away the bottom left corner by template B. Sew a dusk quarter circle (template A) into the hollow, right
    sides together: pin at the notches and ease the curve. Press toward dusk.`"""
    of = " of each" if step.copies > 1 else ""
    ways = list(dict.fromkeys(curve.toward for curve in curves))
    if len(curves) > 1:
        ways = [f"{way}s" if way.endswith(curves[0].shape) else way for way in ways]
    pressing = " and ".join("press open" if way == "open" else f"press {way}" for way in ways)
    where: dict[Bend, list[Curve]] = {}
    for curve in curves:
        where.setdefault(curve.bend, []).append(curve)
    cuts = [f"{_hollowing(group, len(curves), of)} by template {known[bend][1]}" for bend, group in where.items()]
    several = "each" if len(curves) > 1 else "the"
    if len(where) == 1:
        bend, what = curves[0].bend, f"{curves[0].fabric} {curves[0].shape}"
        sewn = f"sew {article(what)} (template {known[bend][0]}) into {several} hollow"
    else:
        pieces = listed([f"those of template {known[bend][0]} on {_sides(group)}" for bend, group in where.items()])
        sewn = f"sew the {curves[0].fabric} {curves[0].shape}s into the hollows, {pieces}"
    return " ".join(
        (
            *(sentence(cut) for cut in cuts),
            sentence(
                f"{sewn}, right sides together: pin at both ends and at the notches, and ease the curve between the"
                " pins"
            ),
            sentence(pressing),
        )
    )


def _hollowing(curves: Sequence[Curve], count: int, of: str) -> str:
    """`cut away each corner`, `cut a hollow from the left and the right edge of each`"""
    if curves[0].shape == MELON:
        every = len(curves) == count == ALL_ROUND
        sides = "each edge" if every else _sides(curves)
        return f"cut a hollow from {sides}{of}"
    corners = "each corner" if len(curves) == ALL_ROUND else listed([point_words(curve.place) for curve in curves])
    return f"cut away {corners}{of}"


def _sides(curves: Sequence[Curve]) -> str:
    return edges_words([curve.place for curve in curves])


def template_plans(known: Letters, settings: Settings) -> tuple[TemplatePlan, ...]:
    """The templates of every kind of seam, in the order of their letters."""
    return tuple(
        plan
        for bend, named in known.items()
        for plan in (_melon_plans if bend.shape == MELON else _quarter_plans)(bend, named, settings)
    )


def _quarter_plans(bend: Bend, named: tuple[str, str], settings: Settings) -> tuple[TemplatePlan, ...]:
    (quarter, hollow), size = named, bend_size(*bend, settings)
    told = with_unit(size.shown, settings.units)
    seam = sentence(f"the seam has a radius of {told} and is about {quarter_arc(bend.radius, settings)} long")
    return (
        TemplatePlan(
            id=f"quarter-circle-{_slug(size)}",
            letter=quarter,
            shape="quarter circle",
            title=f"Template {quarter}: quarter circle for a seam of radius {size.shown}",
            text=f"Cut on the solid line; sew on the broken one. {seam}",
            radius=size,
            raw_radius=given_size(bend.radius + settings.seam, settings),
            panel=piece_panel(bend, settings.seam),
        ),
        TemplatePlan(
            id=f"hollow-{_slug(size)}",
            letter=hollow,
            shape="hollow",
            title=f"Template {hollow}: hollow for a seam of radius {size.shown}",
            text=(
                "Lay the two straight edges on those of the corner and cut the hollow; the thin line is only the"
                f" end of the template. {seam}"
            ),
            radius=size,
            raw_radius=given_size(ground_arc(bend.radius, settings.seam), settings),
            panel=hollow_panel(bend, settings.seam),
        ),
    )


def _melon_plans(bend: Bend, named: tuple[str, str], settings: Settings) -> tuple[TemplatePlan, ...]:
    (melon, hollow), side = named, bend_size(*bend, settings)
    told = with_unit(side.shown, settings.units)
    seam = sentence(
        f"the seam runs from corner to corner of a side of {told} finished and is about"
        f" {quarter_arc(bend.radius, settings)} long"
    )
    radius = given_size(bend.radius, settings)
    return (
        TemplatePlan(
            id=f"half-melon-{_slug(side)}",
            letter=melon,
            shape="half melon",
            title=f"Template {melon}: half melon for a side of {side.shown} finished",
            text=f"Cut on the solid line, the short ends too; sew on the broken one. {seam}",
            radius=radius,
            raw_radius=given_size(bend.radius + settings.seam, settings),
            panel=piece_panel(bend, settings.seam),
        ),
        TemplatePlan(
            id=f"side-hollow-{_slug(side)}",
            letter=hollow,
            shape="hollow",
            title=f"Template {hollow}: hollow for a side of {side.shown} finished",
            text=(
                "Lay the two square corners on those of the side and cut the hollow between them; the thin line is only"
                f" the end of the template. {seam}"
            ),
            radius=radius,
            raw_radius=given_size(ground_arc(bend.radius, settings.seam), settings),
            panel=hollow_panel(bend, settings.seam),
        ),
    )


def _slug(size: Size) -> str:
    return size.ruler.replace(" ", "-").replace("/", "-").replace(".", "-")


def _curves(made: Made) -> tuple[Curve, ...]:
    actions: list[Action] = [action for step in made.steps for action in step.actions]
    return tuple(action for action in actions if isinstance(action, Curve))


def _letter(number: int) -> str:
    """A to Z, then AA, AB and so on."""
    high, low = divmod(number, 26)
    return (_letter(high - 1) if high else "") + chr(ord("A") + low)

"""Curved seams in words, the templates they need, and which pieces of the cut list a template finishes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from piecewright.exact import Exact
from piecewright.kernel.action import Action, Curve
from piecewright.kernel.build import Build, Made, Piece, Settings, Step
from piecewright.kernel.curve import ground_arc, quarter_circle
from piecewright.plan.model import TemplatePlan
from piecewright.plan.places import point_words
from piecewright.plan.rounding import given_size, quarter_arc, with_unit
from piecewright.plan.scene_curve import hollow_panel, quarter_circle_panel
from piecewright.plan.words import article, listed, sentence

ALL_ROUND = 4  # corners
Letters = Mapping[Exact, tuple[str, str]]
"""By the radius of a seam, the letter of the quarter circle's template and of the hollow's."""


def letters(build: Build) -> dict[Exact, tuple[str, str]]:
    """Two letters for each radius, in the order of work."""
    radii = dict.fromkeys(curve.radius for made in build.made for curve in _curves(made))
    return {radius: (_letter(2 * n), _letter(2 * n + 1)) for n, radius in enumerate(radii)}


def hollows(build: Build) -> dict[tuple[str, Piece], tuple[Exact, ...]]:
    """The radii of the hollows that are cut into a piece after it is cut out, by the key of its unit and the piece.

    A piece is known by the line that cut it, which its patches remember. Of work with seams in it the corner of the
    work is hollowed, and not of one of its pieces.
    """
    found: dict[tuple[str, Piece], dict[Exact, None]] = {}
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
                            found.setdefault((key, piece), {})[curve.radius] = None
    return {where: tuple(radii) for where, radii in found.items()}


def hollow_note(radii: Sequence[Exact], known: Letters) -> str:
    """`then hollowed by template B`"""
    if not radii:
        return ""
    named = listed([known[radius][1] for radius in radii])
    return f"then hollowed by {'template' if len(radii) == 1 else 'templates'} {named}"


def curve_text(curves: Sequence[Curve], step: Step, known: Letters, settings: Settings) -> str:
    """`Cut away the bottom left corner by template B. Sew a dusk quarter circle (template A) into the hollow, right
    sides together: pin at the notches and ease the curve. Press toward dusk.`"""
    first = curves[0]
    quarter, hollow = known[first.radius]
    of = " of each" if step.copies > 1 else ""
    several = len(curves) > 1
    corners = "each corner" if len(curves) == ALL_ROUND else listed([point_words(curve.place) for curve in curves])
    what = f"{first.fabric} quarter circle"
    ways = list(dict.fromkeys(curve.toward for curve in curves))
    pressing = " and ".join("press open" if way == "open" else f"press {way}" for way in ways)
    return " ".join(
        (
            sentence(f"cut away {corners}{of} by template {hollow}"),
            sentence(
                f"sew {article(what)} (template {quarter}) into {'each' if several else 'the'} hollow, right sides"
                " together: pin at both ends and at the notches, and ease the curve between the pins"
            ),
            sentence(pressing),
        )
    )


def template_plans(known: Letters, settings: Settings) -> tuple[TemplatePlan, ...]:
    """The templates of every radius, in the order of their letters."""
    plans: list[TemplatePlan] = []
    for radius, (quarter, hollow) in known.items():
        size = given_size(radius, settings)
        told = with_unit(size.shown, settings.units)
        slug = size.ruler.replace(" ", "-").replace("/", "-").replace(".", "-")
        seam = sentence(f"the seam has a radius of {told} and is about {quarter_arc(radius, settings)} long")
        template = quarter_circle(radius, settings.seam)
        plans.append(
            TemplatePlan(
                id=f"quarter-circle-{slug}",
                letter=quarter,
                shape="quarter circle",
                title=f"Template {quarter}: quarter circle for a seam of radius {size.shown}",
                text=f"Cut on the solid line; sew on the broken one. {seam}",
                radius=size,
                raw_radius=given_size(template.arc, settings),
                panel=quarter_circle_panel(radius, settings.seam),
            )
        )
        plans.append(
            TemplatePlan(
                id=f"hollow-{slug}",
                letter=hollow,
                shape="hollow",
                title=f"Template {hollow}: hollow for a seam of radius {size.shown}",
                text=(
                    "Lay the two straight edges on those of the corner and cut the hollow; the thin line is only the"
                    f" end of the template. {seam}"
                ),
                radius=size,
                raw_radius=given_size(ground_arc(radius, settings.seam), settings),
                panel=hollow_panel(radius, settings.seam),
            )
        )
    return tuple(plans)


def _curves(made: Made) -> tuple[Curve, ...]:
    actions: list[Action] = [action for step in made.steps for action in step.actions]
    return tuple(action for action in actions if isinstance(action, Curve))


def _letter(number: int) -> str:
    """A to Z, then AA, AB and so on."""
    high, low = divmod(number, 26)
    return (_letter(high - 1) if high else "") + chr(ord("A") + low)

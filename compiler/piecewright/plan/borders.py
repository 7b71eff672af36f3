"""How borders are told whose corners have posts or mitres, and borders of pieced work."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from piecewright.kernel.action import Sew
from piecewright.kernel.build import Piece, Step, Supply
from piecewright.plan.places import facing
from piecewright.plan.rounding import given_size, with_unit
from piecewright.plan.tongue import Tongue
from piecewright.plan.words import article, listed, sentence

IN_A_ROW = "Sew the units of each side together in a row, end to end."


def border_texts(sews: Sequence[Sew], step: Step, tongue: Tongue) -> tuple[str, ...]:
    """The whole border in the order of sewing, of a repeat each round; empty where the default sentence serves: strips
    of one piece each."""
    each = len(step.supplies) // step.times
    rounds = [replace(step, supplies=step.supplies[n * each : n * each + each]) for n in range(step.times)]
    return tuple(text for text in (_border_text(sews, one, tongue) for one in rounds) if text)


def _border_text(sews: Sequence[Sew], step: Step, tongue: Tongue) -> str:
    if any(len(sew.first_edges) > 1 for sew in sews):
        return _mitred(sews, step, tongue)
    posts = _posts(step)
    if posts:
        return _with_posts(sews, step, tongue, posts[0])
    if _has_rows(step):
        return _of_units(sews, step, tongue)
    return ""


def has_corners(sews: Sequence[Sew], step: Step) -> bool:
    """Whether a border has posts or mitres, whose own seams are told apart."""
    return bool(_posts(step)) or any(len(sew.first_edges) > 1 for sew in sews)


def _posts(step: Step) -> list[Piece]:
    return [s.source for s in step.supplies if isinstance(s.source, Piece) and s.source.shape == "square"]


def _mitred(sews: Sequence[Sew], step: Step, tongue: Tongue) -> str:
    seam = with_unit(given_size(tongue.settings.seam, tongue.settings).shown, tongue.settings.units)
    return (
        f"{sentence('sew ' + _each(sews, step.supplies, tongue))} Lay the middle of each strip on the middle of its"
        f" edge, and begin and end the seam {seam} from the raw edges, at the dots. Then mitre each corner: fold the"
        " work so that the two strips lie on each other, sew them from the dot outward at 45 degrees to their edges,"
        f" cut the ends off {seam} beyond the seam, and press that seam open."
    )


def _with_posts(sews: Sequence[Sew], step: Step, tongue: Tongue, post: Piece) -> str:
    sources = [s for s in step.supplies if s.source != post]
    sides, square = _each(sews[:2], sources[:2], tongue), tongue.piece(post)
    top, bottom = (_lot(sew, supply, tongue) for sew, supply in zip(sews[2:], sources[2:], strict=True))
    both = _two(sews[2], sources[2], tongue) if top == bottom else f"{top} for the top and {bottom} for the bottom"
    first = f"{IN_A_ROW} {sentence('then sew ' + sides)}" if _has_rows(step) else sentence(f"sew {sides}")
    return (
        f"{first} Sew {article(square)} to each end of {both}, and press away from the squares."
        " Then sew these to the top and the bottom edge, so that the seams at the corners meet."
    )


def _of_units(sews: Sequence[Sew], step: Step, tongue: Tongue) -> str:
    told = _each(sews, step.supplies, tongue)
    return f"{IN_A_ROW} {sentence('then sew ' + told)}"


def _has_rows(step: Step) -> bool:
    return any(s.count > 1 and isinstance(s.source, str) for s in step.supplies)


def _each(sews: Sequence[Sew], supplies: Sequence[Supply], tongue: Tongue) -> str:
    """`a dusk strip 4 × 14 to the left and the right edge`: equal ones together."""
    edges: dict[str, list[str]] = {}
    for sew, supply in zip(sews, supplies, strict=True):
        edge = facing(sew.first, sew.first_edges[len(sew.first_edges) // 2])
        edges.setdefault(_lot(sew, supply, tongue), []).append(f"the {edge}")
    return listed([f"{what}{',' if ',' in what else ''} to {listed(where)} edge" for what, where in edges.items()])


def _lot(sew: Sew, supply: Supply, tongue: Tongue) -> str:
    """`a row of 14 paling units, turned right`, `a dusk strip 4 × 14`."""
    source = supply.source
    if isinstance(source, Piece):
        return article(tongue.piece(source, "strip"))
    if supply.count == 1:
        return article(tongue.called(source, source))
    return f"a row of {tongue.counted(source, supply.count, sew.name)}"


def _two(sew: Sew, supply: Supply, tongue: Tongue) -> str:
    """`two rows of 14 paling units, turned right`, `two dusk strips 4 × 14`."""
    source = supply.source
    if supply.count > 1 and isinstance(source, str):
        return f"two rows of {tongue.counted(source, supply.count, sew.name)}"
    return f"two {tongue.counted(source, 2, noun='strip').removeprefix('2 ')}"

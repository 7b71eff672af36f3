"""Squares that are cut up into the triangles round a table on point, as the cut list tells it."""

from __future__ import annotations

from piecewright.kernel.build import Build, Piece, Step


def quartered(build: Build) -> dict[tuple[str, Piece], str]:
    """How squares that become triangles round a table on point are cut up, by the key of the quilt and the square."""
    found: dict[tuple[str, Piece], str] = {}
    for made in build.made:
        for step in made.steps:
            if step.verb == "fill":
                for target, (square, _) in zip(sorted(step.places, reverse=True), squares(step), strict=True):
                    times = "twice" if target == "sides" else "once"
                    found[made.key, square] = f"to be cut {times} from corner to corner"
        for step in made.steps:  # what is also used whole is not spoken of
            if step.verb != "fill":
                for one in step.supplies:
                    if isinstance(one.source, Piece):
                        found.pop((made.key, one.source), None)
    return found


def squares(step: Step) -> list[tuple[Piece, int]]:
    """The squares that a `fill` cuts from cloth, and how many of each; not the strips at the ends of sashes."""
    return [
        (one.source, one.count)
        for one in step.supplies
        if isinstance(one.source, Piece) and one.source.shape == "square"
    ]

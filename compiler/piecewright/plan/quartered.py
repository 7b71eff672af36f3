"""Squares that are cut up into the triangles round a table on point, as the cut list tells it."""

from __future__ import annotations

from piecewright.kernel.build import Build, Piece, Step


def quartered(build: Build) -> dict[tuple[str, Piece], str]:
    """How squares that become triangles round a table on point are cut up, by the key of the quilt and the square."""
    found: dict[tuple[str, Piece], str] = {}
    for made in build.made:
        for step in made.steps:
            if step.verb == "fill":
                for target, square in zip(sorted(step.places, reverse=True), squares(step), strict=True):
                    times = "twice" if target == "sides" else "once"
                    found[made.key, square] = f"to be cut {times} from corner to corner"
        for step in made.steps:  # what is also used whole is not spoken of
            if step.verb != "fill":
                for piece in squares(step):
                    found.pop((made.key, piece), None)
    return found


def squares(step: Step) -> list[Piece]:
    """What a step cuts from cloth."""
    return [one.source for one in step.supplies if isinstance(one.source, Piece)]

"""What is bought of cloth by the length, so that enough is there to be cut. Lengths are inches, exact."""

from __future__ import annotations

from piecewright.exact import Exact
from piecewright.kernel.build import Fabric


def to_buy(length: Exact, fabric: Fabric, step: Exact) -> Exact:
    """What to buy in such steps so that `length` is there to be cut, with the margin and after washing."""
    if not length:
        return length
    return step * ((length * (1 + fabric.margin_part) + fabric.margin) / (1 - fabric.shrinks) / step).ceil()

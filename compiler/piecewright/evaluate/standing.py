"""Stand-ins: fabrics for a definition that is shown without any."""

from __future__ import annotations

from typing import Literal

from piecewright.evaluate.definition import Definition, Parameter
from piecewright.kernel.build import Fabric, Settings

SHADES: tuple[Literal["light", "medium", "dark"], ...] = ("light", "medium", "dark")


def stand_in(definition: Definition, parameter: Parameter, settings: Settings) -> Fabric:
    """A fabric named like the parameter, valued by its name or shaded from light to dark in order."""
    return Fabric(
        name=parameter.name,
        text="",
        colour=None,
        value=_shade(definition, parameter),
        usable=settings.usable,
        stand_in=True,
        margin=settings.margin,
    )


def _shade(definition: Definition, parameter: Parameter) -> Literal["light", "medium", "dark"]:
    words = parameter.name.split("-")
    for shade in SHADES:
        if shade in words:
            return shade
    fabrics = [p for p in definition.parameters if p.kind in ("fabric", None)]
    if len(fabrics) == 1:
        return "medium"
    if len(fabrics) == 2:
        return ("light", "dark")[fabrics.index(parameter)] if parameter in fabrics else "medium"
    return SHADES[fabrics.index(parameter) * 3 // len(fabrics)] if parameter in fabrics else "medium"

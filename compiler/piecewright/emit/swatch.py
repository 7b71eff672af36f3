"""A sample of a fabric to stand beside its name: colour and texture as in the figures."""

from __future__ import annotations

from piecewright.emit.textures import TEXTURES, hexed, ink, rgb
from piecewright.plan.model import FabricPlan

WIDTH, HEIGHT = 24, 15  # points


def swatch_svg(fabric: FabricPlan, name: str) -> str:
    """SVG text to set into a page. `name` is the id of its pattern there. It stands beside the fabric's name, so
    that ears are not told of it."""
    colour = rgb(fabric.colour)
    box = f'x="0.4" y="0.4" width="{WIDTH - 0.8:g}" height="{HEIGHT - 0.8:g}" stroke="#1c1c1c" stroke-width="0.55"'
    tile = texture_svg(fabric, name)
    pattern = f"<defs>{tile}</defs>" if tile else ""
    cloth = f'<rect {box} fill="url(#{name})"/>' if tile else ""
    size = f'width="{WIDTH}pt" height="{HEIGHT}pt" viewBox="0 0 {WIDTH} {HEIGHT}"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {size} aria-hidden="true">'
    return f'{head}{pattern}<rect {box} fill="{hexed(colour)}"/>{cloth}</svg>'


def texture_svg(fabric: FabricPlan, name: str) -> str:
    """The texture of a fabric as an SVG pattern with an id; empty of a plain one."""
    texture = TEXTURES[fabric.texture]
    if texture is None:
        return ""
    tone = hexed(ink(rgb(fabric.colour)))
    filled = f'<path d="{texture.fill}" fill="{tone}"/>' if texture.fill else ""
    stroked = (
        f'<path d="{texture.stroke}" fill="none" stroke="{tone}" stroke-width="{texture.weight:g}"/>'
        if texture.stroke
        else ""
    )
    tile = f'width="{texture.width:g}" height="{texture.height:g}" patternUnits="userSpaceOnUse"'
    return f'<pattern id="{name}" {tile}>{filled}{stroked}</pattern>'

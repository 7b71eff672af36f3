"""The drawings that the README shows: `python tests/examples/readme_pictures.py` writes them anew."""

from __future__ import annotations

from pathlib import Path

from piecewright.pipeline import emitted

EXAMPLES = Path(__file__).parents[2] / "examples"

PICTURES = {
    "ferry-window.svg": ("04-framed-square-rejoined.piece", "ferry-window-lamp-dusk-finished"),
    "jetty-quilt.svg": ("24-lamps-on-the-jetty.piece", "jetty-quilt-finished"),
    "plum-cut.svg": ("23-cushions-from-fat-quarters.piece", "cutting-plum"),
}
"""For each drawing, the example it is of and the name of the figure in a build of it."""


def drawing(name: str) -> str:
    """A drawing as the compiler makes it now."""
    example, figure = PICTURES[name]
    _, files = emitted(str(EXAMPLES / example), to=("svg",))
    (text,) = (text for path, text in files if path == f"figures/{figure}.svg")
    return text


def main() -> None:
    for name in PICTURES:
        (EXAMPLES / "pictures" / name).write_text(drawing(name), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()

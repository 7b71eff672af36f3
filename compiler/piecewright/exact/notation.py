"""Exact numbers as text: `19/2 - 1/4*sqrt(2)`, every fraction in lowest terms, the roots in order."""

from __future__ import annotations

from math import gcd

from piecewright.exact.radicals import Terms


def number_text(n: int, d: int, t: Terms) -> str:
    """The text of (n + Σ c√r)/d."""
    parts: list[str] = []
    if n or not t:
        parts.append(_ratio_text(n, d))
    for r, c in t:
        size = _ratio_text(abs(c), d)
        text = f"sqrt({r})" if size == "1" else f"{size}*sqrt({r})"
        if parts:
            parts.append(f"- {text}" if c < 0 else f"+ {text}")
        else:
            parts.append(f"-{text}" if c < 0 else text)
    return " ".join(parts)


def parse_terms(text: str) -> list[tuple[int, int, int]]:
    """The terms (numerator, denominator > 0, radicand) of such a text; a rational term has radicand 1.

    Raises `ValueError` for any other form; lowest terms and order are not asked for.
    """
    return [_parse_term(piece, text) for piece in text.replace(" - ", " + -").split(" + ")]


def _ratio_text(n: int, d: int) -> str:
    g = gcd(n, d)
    return str(n // g) if d == g else f"{n // g}/{d // g}"


def _parse_term(piece: str, text: str) -> tuple[int, int, int]:
    """One `-3/4*sqrt(2)`, `sqrt(2)` or `19/2`."""
    negative = piece.startswith("-")
    body = piece[1:] if negative else piece
    coefficient, star, root = body.rpartition("*")
    radicand = "1"
    if root.startswith("sqrt(") and root.endswith(")"):
        radicand = root[5:-1]
        if not star:
            coefficient = "1"
    else:
        coefficient = body
    top, slash, bottom = coefficient.partition("/")
    if not slash:
        bottom = "1"
    if not all(digits.isascii() and digits.isdigit() for digits in (top, bottom, radicand)) or int(bottom) == 0:
        raise ValueError(f"not an exact number: {text!r}")
    return -int(top) if negative else int(top), int(bottom), int(radicand)

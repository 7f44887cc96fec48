"""Writes SVG elements in the look's colours: presentation attributes only, so that a drawing needs no style sheet."""

from __future__ import annotations

from xml.sax.saxutils import escape, quoteattr

from wetside.adapters.typesetting.tokens import THEMES, VARIABLES
from wetside.errors import UnknownNameError

FONT = "Atkinson Hyperlegible Next, Verdana, DejaVu Sans, sans-serif"


class Pen:
    """Writes elements in the colours of a theme, as attributes or, inside a page, as CSS variables."""

    def __init__(self, theme: str, *, in_page: bool = False) -> None:
        if theme not in THEMES:
            raise UnknownNameError("adapters.theme.unknown", theme=theme, choices=sorted(THEMES))
        self.colours, self.in_page = (VARIABLES if in_page else THEMES[theme]), in_page
        self.parts: list[str] = []

    def begin(self, name: str, title: str, description: str, width: float, height: float) -> None:
        """Open the drawing, with its words for those who do not see it."""
        size = f'viewBox="0 0 {width:g} {height:g}"'
        if not self.in_page:
            size += f' width="{width:g}" height="{height:g}"'
        self.parts.append(
            f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img" aria-labelledby="{name}-title {name}-desc" '
            f"font-family={quoteattr(FONT)}>"
            f'<title id="{name}-title">{escape(title)}</title><desc id="{name}-desc">{escape(description)}</desc>'
        )
        if not self.in_page:
            self.parts.append(f'<rect width="{width:g}" height="{height:g}" {self.paint(fill="paper")}/>')

    def finished(self) -> str:
        """Close the drawing and return it."""
        self.parts.append("</svg>")
        return "\n".join(part for part in self.parts if part) + ("" if self.in_page else "\n")

    def paint(self, **named: str) -> str:
        """Attributes ``fill`` and ``stroke`` by the names of the look's colours."""
        pairs = {kind: self.colours.get(name, name) for kind, name in named.items()}
        if self.in_page:
            return f'style="{";".join(f"{kind}:{colour}" for kind, colour in pairs.items())}"'
        return " ".join(f'{kind}="{colour}"' for kind, colour in pairs.items())

    def line(self, x1: float, y1: float, x2: float, y2: float, colour: str, width: float, extra: str = "") -> None:
        """A straight line."""
        self.parts.append(
            f'<line x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" '
            f'{self.paint(stroke=colour)} stroke-width="{width:g}"{extra}/>'
        )

    def text(
        self,
        x: float,
        y: float,
        words: str,
        colour: str,
        size: float,
        anchor: str = "start",
        weight: int = 400,
        *,
        rim: str = "",
    ) -> None:
        """Words, escaped; with a rim of a colour where they stand on something."""
        bold = f' font-weight="{weight}"' if weight != 400 else ""
        paint = self.paint(fill=colour, stroke=rim) if rim else self.paint(fill=colour)
        around = ' stroke-width="5" stroke-linejoin="round" paint-order="stroke"' if rim else ""
        self.parts.append(
            f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:g}" text-anchor="{anchor}"{bold}{around} '
            f"{paint}>{escape(words)}</text>"
        )

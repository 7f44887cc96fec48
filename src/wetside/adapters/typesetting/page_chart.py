"""The window chart inside a page whose policy forbids styles: colours by class, every bar a link."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.sax.saxutils import escape, quoteattr

from wetside.adapters.typesetting.pen import Pen
from wetside.adapters.typesetting.svg import draw_chart

if TYPE_CHECKING:
    from collections.abc import Callable

    from wetside.cards.window_chart import Bar, WindowChart


class PagePen(Pen):
    """Writes a class for each colour: ``fill-tone``, ``stroke-accent``; the style sheet of the page has them."""

    def __init__(self) -> None:
        super().__init__("light", in_page=True)

    def paint(self, **named: str) -> str:
        """Class names by the names of the look's colours."""
        return f'class="{" ".join(f"{kind}-{name}" for kind, name in named.items())}"'


def page_chart(chart: WindowChart, address: Callable[[str], str]) -> str:
    """Draw the window chart for a page.

    Parameters
    ----------
    chart : WindowChart
    address : callable
        Address of the reckoning of a sheet, by its label.

    Returns
    -------
    svg : str
        One bar can be reached by the tab key, the others from it by the arrow keys (``plans.js``).
    """
    pen = PagePen()
    frame = chart.frame
    name = f"windows-{round(frame.width)}"
    pen.parts.append(
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {frame.width:g} {chart.height:g}" role="group" '
        f'aria-labelledby="{name}-title" class="windows" data-bars="">'
        f'<title id="{name}-title">{escape(chart.title)}</title>'
    )
    first = chart.bars[0] if chart.bars else None

    def around(bar: Bar) -> tuple[str, str]:
        reach = "0" if bar is first else "-1"
        before = (
            f'<a class="bar" href={quoteattr(address(bar.sheet))} tabindex="{reach}" data-why="" '
            f"aria-label={quoteattr(bar.summary)}>"
            f'<rect class="reach" x="0" y="{bar.y - frame.bar_down:.1f}" width="{frame.width:g}" '
            f'height="{frame.row:g}"/>'
        )
        return before, "</a>"

    draw_chart(pen, chart, around)
    return pen.finished()

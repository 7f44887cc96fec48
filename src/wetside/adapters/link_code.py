"""A link as a picture that a telephone's camera reads, for the page and for the terminal."""

from __future__ import annotations

import segno


def code_picture(link: str) -> str:
    """SVG of a link's code, without style of its own: two colours by attributes, dark on light in every theme.

    Examples
    --------
    >>> picture = code_picture("https://192.168.1.5:8017/")
    >>> picture.startswith("<svg"), "style=" in picture
    (True, False)
    """
    return segno.make_qr(link, error="m").svg_inline(scale=5, border=4, dark="#000", light="#fff", omitsize=True)


def code_lines(link: str) -> list[str]:
    """Code of a link in half blocks of letters, two rows of it to a line, for a dark terminal or a light one.

    Light modules are drawn, dark ones are left open on a dark ground: cameras read both ways round.

    Examples
    --------
    >>> lines = code_lines("https://192.168.1.5:8017/")
    >>> len({len(line) for line in lines}), set("".join(lines)) <= set(" ▀▄█")
    (1, True)
    """
    rows = [list(row) for row in segno.make_qr(link, error="l").matrix_iter(border=2)]
    if len(rows) % 2:
        rows.append([0] * len(rows[0]))
    blocks = {(1, 1): " ", (1, 0): "▄", (0, 1): "▀", (0, 0): "█"}
    return [
        "".join(blocks[int(bool(upper)), int(bool(lower))] for upper, lower in zip(above, below, strict=True))
        for above, below in zip(rows[::2], rows[1::2], strict=True)
    ]

"""A plan in, a document as data out: run sheets, the window chart, the plan's card, the reckoning of one sheet.

What is made here has no colour, no type size and no markup; the terminal's text is made by :mod:`wetside.cards.text`,
paper and screen by ``wetside.adapters.typesetting``.
"""

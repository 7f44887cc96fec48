"""The look's colours, light and dark, by what they are used for."""

from __future__ import annotations

LIGHT = {
    "paper": "#f4f3ef",
    "sheet": "#fbfaf7",
    "ink": "#1d1c1a",
    "soft": "#5f5c57",
    "line": "#d9d6cf",
    "tone": "#c4c0b8",
    "deep": "#8d8982",
    "accent": "#6b4a63",
    "warn": "#8a3f24",
}
"""A fibre print's white."""

DARK = {
    "paper": "#0f0f0e",
    "sheet": "#171716",
    "ink": "#ebe8e1",
    "soft": "#a19d95",
    "line": "#2c2b29",
    "tone": "#45433f",
    "deep": "#78746d",
    "accent": "#c9a3bf",
    "warn": "#e0916f",
}
"""A drawer's black."""

THEMES = {"light": LIGHT, "dark": DARK}

VARIABLES = {name: f"var(--{name})" for name in LIGHT}
"""The same names as CSS variables, for drawings inside a page that knows both themes."""

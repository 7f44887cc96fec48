"""Views: parse, call one service, render."""

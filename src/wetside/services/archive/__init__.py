"""Keeping the archive itself: opening it, backups, plain files out and in, and the examination of the whole."""

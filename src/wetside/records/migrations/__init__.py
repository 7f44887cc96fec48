"""Migrations of the records; a backup is made and checked before any of them runs."""

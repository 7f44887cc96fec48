"""The options of each command, by group of commands."""

"""The run: facts, and the log that they are appended to. Receives ``now``; asks no clock, thread or database."""

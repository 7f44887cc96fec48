"""The use cases that keep records: the only writers of the tables."""

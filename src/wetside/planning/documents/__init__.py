"""Types of the documents that people keep: the evening file and the plan."""

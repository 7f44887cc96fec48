"""What the darkroom keeps: tables, their constraints and migrations, and the stored event log.

Columns, constraints and managers only. The use cases in ``wetside.services`` are the only writers.
"""

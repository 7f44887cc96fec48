"""Sentences of ``wetside.web``; what stands in templates alone is marked for translation there."""

from wetside.wording.catalog import N_

SENTENCES = {
    "web.port_taken": N_(
        "Port {port} of this machine is taken; the system says: {reason}. Name another with --port, or 0 for any that is "
        "free. Another Wetside may be running: look there first."
    ),
}

PARTS = ("web_sheets",)

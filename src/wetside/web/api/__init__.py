"""The interface for programs: JSON over the same services that the pages use. Loaded when it is first asked for."""

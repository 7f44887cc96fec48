"""The course of an evening around its loads: time line, looks, fixer, shelf, water and waste."""

from wetside.planning.course.whole import plan_with_course

__all__ = ["plan_with_course"]

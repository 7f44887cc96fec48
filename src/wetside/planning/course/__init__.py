"""The course of an evening around its loads: time line, looks, fixer, shelf, water and waste."""

from wetside.planning.course.whole import course_of_plan

__all__ = ["course_of_plan"]

"""The darkroom in the browser: views, forms, templates and static files over ``wetside.services``."""

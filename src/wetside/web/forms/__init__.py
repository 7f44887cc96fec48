"""Forms made from the declarations of the documents: one key, one field, the same reader as for a file."""

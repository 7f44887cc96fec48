"""planning/loads"""

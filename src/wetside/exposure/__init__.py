"""exposure"""

"""units"""

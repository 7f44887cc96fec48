"""chemistry"""

"""sensitometry"""

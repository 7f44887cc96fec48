"""values"""

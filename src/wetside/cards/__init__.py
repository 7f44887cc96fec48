"""cards"""

"""development"""

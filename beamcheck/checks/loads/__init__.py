"""Loads are read back before they are believed: nothing here changes a figure, it asks.

A figure that no house has is a slip and was refused when the job was read (`model/links/slips.py`). Here stand those
that may be right and seldom are: until somebody answers, the piece refers.
"""

"""Exposed wood in a fire."""

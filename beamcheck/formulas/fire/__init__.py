"""Exposed wood in a fire: char and what is left (NDS 2018 chapter 16)."""

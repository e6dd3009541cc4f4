"""Every pattern of the project takes time in step with its text."""

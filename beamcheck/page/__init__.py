"""The page for phone and desk, served from this machine only: the job file as a form, its verdict as one types."""

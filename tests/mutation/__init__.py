"""Whether the tests see a wrong formula or check: `python -m tests.mutation`."""

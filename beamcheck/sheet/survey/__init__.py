"""The survey of an old timber as a form: blank, for the field, or filled with what a job file holds."""

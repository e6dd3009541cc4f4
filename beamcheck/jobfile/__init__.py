"""A job file as people keep it: fields set and entries added in its text, with comments and layout as they were."""

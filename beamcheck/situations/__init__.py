"""Ready situations: the few questions that matter for each, and the job file that their answers make.

A situation is one file of `ready/`: its questions and the text of its job, as data.
"""

"""What a console shows of a result: the short answer, one piece, or everything; color is put on last."""

"""What a survey of an old timber means for the piece that is made of it. A survey screens; it never lets pass."""

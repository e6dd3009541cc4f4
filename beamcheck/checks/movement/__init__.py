"""Wood that moves with its moisture: what each timber does across its grain, and the room that parts of it need."""

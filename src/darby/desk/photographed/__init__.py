"""A photograph of a wall: the points marked on it, what they say of openings and lengths, and the way into the job."""

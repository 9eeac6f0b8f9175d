"""The day on site: the week drawn, what came in from the crew, and the way of it into the job."""

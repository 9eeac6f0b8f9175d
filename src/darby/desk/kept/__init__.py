"""What the desk keeps: people, revisions of documents, and the log. Nothing that a paper says is kept twice."""

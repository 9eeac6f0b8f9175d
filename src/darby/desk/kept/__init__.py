"""What the desk keeps: people, revisions of documents, and the log. Nothing that a paper says is kept twice."""

FIRM = "firm"
"""The firm file is a document too, under this name."""

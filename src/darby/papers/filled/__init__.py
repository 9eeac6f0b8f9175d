"""Answers put into words for the papers: every number was answered before; here it is only written."""

from darby.papers.filled.paper_set import not_made, paper_set

__all__ = ["not_made", "paper_set"]

"""Answers put into words for the papers: every number was answered before; here it is only written."""

from darby.papers.filled.paper_set import each_paper, not_made, paper_set

__all__ = ["each_paper", "not_made", "paper_set"]

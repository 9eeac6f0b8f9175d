"""The job document: loading, checking, upgrading, saving. What it becomes stands in ``model`` and ``firm``."""

"""The job document: loading, checking, upgrading, saving. ``darby.job.model`` and ``darby.job.firm`` are what it becomes."""

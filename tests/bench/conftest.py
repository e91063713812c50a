collect_ignore_glob = ["*.py"]  # measured with `python -m tests.bench`, never timed by pytest

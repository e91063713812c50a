"""The notebooks in a real JupyterLab, driven through headless Chromium."""

"""From content to site: the stages by name, what is remembered between builds, and the build itself."""

# Debian's own Python, which has the modules that scripts/setup installs.
find_program(DEBIAN_PYTHON python3 PATHS /usr/bin NO_DEFAULT_PATH)
find_program(DEBIAN_PYTHON python3 REQUIRED)

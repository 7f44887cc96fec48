# Wetside's tasks. `make` alone lists them. Python 3.11 or newer; name another with PYTHON=/path/to/python3.
.POSIX:
.PHONY: help run test lint bench docs soak release pins

help:
	@echo "make run      set everything up, plan the demo evening into out/demo, then open the darkroom in the browser"
	@echo "make test     everything that is checked before a change is taken, in at most 25 minutes"
	@echo "make lint     style, types and import contracts only"
	@echo "make bench    absolute times and ratios on this machine"
	@echo "make docs     regenerate schemas and printed output in the docs"
	@echo "make soak     hours of simulated runs, and the large evenings that make test tries a part of"
	@echo "make release  build and check wheel and source archive in out/release"
	@echo "make pins     for maintainers: resolve requirements/ anew"

run:
	@tools/environment.sh run
	@.venv/bin/wetside plan examples/demo/evening.toml --out out/demo
	@.venv/bin/wetside serve --open

test:
	@tools/test.sh

lint:
	@tools/environment.sh test
	@tools/lint.sh

bench:
	@tools/environment.sh test
	@.venv/bin/python tools/bench.py

docs:
	@tools/environment.sh run
	@.venv/bin/python tools/make_schemas.py
	@.venv/bin/python tools/make_interface.py
	@.venv/bin/python tools/print_docs.py

soak:
	@tools/environment.sh test
	@.venv/bin/python tools/soak.py
	@WETSIDE_LONG=1 .venv/bin/python -m pytest -p no:benchmark -n 2 tests/unit/planning/test_loads_scale.py

release:
	@tools/environment.sh run
	@tools/release.sh

pins:
	@tools/pins.sh

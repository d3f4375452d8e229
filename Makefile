# Everything is made here; `make help` lists the targets. PYTHON=... chooses another interpreter (3.11 or newer).
PYTHON ?= python3
BIN := .venv/bin
STATIC := src/cupwright/web/static/index.html
# One lock for run and test: one environment, so what is tested is what runs. run.lock is the subset a plain install needs.
LOCK := requirements/dev.lock
CLIENT_SOURCES := $(shell find client/src client/public -type f 2>/dev/null) \
	client/index.html client/vite.config.ts client/svelte.config.js client/tsconfig.json

.DEFAULT_GOAL := help
.DELETE_ON_ERROR:

.PHONY: help
help: ## list the targets
	@grep -hE '^[a-z-]+:.*##' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 12

.PHONY: setup
setup: ## virtual environment, pinned dependencies, client build (both halves at once)
	@$(MAKE) --no-print-directory -j2 .make/editable $(STATIC)

# --- Python half. Each stage leaves a stamp in .make/, so that a second run re-does only what changed.

.make/venv: requirements/uv.txt
	@mkdir -p .make
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' \
		|| { echo "Cupwright needs Python 3.11 or newer; $(PYTHON) is older. Try: make PYTHON=python3.12 $(MAKECMDGOALS)"; exit 1; }
	$(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --require-hashes -r requirements/uv.txt
	@touch $@

.make/python: .make/venv $(LOCK)
	$(BIN)/uv pip sync --quiet --python $(BIN)/python --require-hashes $(LOCK)
	@touch $@

# uv sync removes what the lock does not list, the project among it: hence the order.
.make/editable: .make/python pyproject.toml hatch_build.py
	$(BIN)/uv pip install --quiet --python $(BIN)/python --no-deps --no-build-isolation --offline --editable .
	@touch $@

# --- Client half

.make/node: client/package.json client/package-lock.json client/.npmrc
	@mkdir -p .make
	@command -v npm >/dev/null || { echo "Cupwright needs Node 20 or newer with npm to build the web client; npm was not found."; exit 1; }
	npm --prefix client ci --loglevel=error
	@touch $@

$(STATIC): .make/node $(CLIENT_SOURCES)
	npm --prefix client run --silent build -- --logLevel warn
	@touch $@

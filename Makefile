# Everything is made here; `make help` lists the targets. PYTHON=... chooses another interpreter (3.11 or newer).
PYTHON ?= python3
BIN := .venv/bin
UV = $(BIN)/uv
# One lock for run and test, hence one environment: what is tested is what runs. run.lock is the part a plain install needs.
LOCK := requirements/dev.lock

# Each stage leaves a stamp inside what it makes, so that a second run re-does only what changed, and a folder
# deleted by hand is made again.
UV_READY := .venv/.uv-ready
PACKAGES_READY := .venv/.packages-ready
PYTHON_READY := .venv/.cupwright-ready
NODE_READY := client/node_modules/.ready
CLIENT_READY := src/cupwright/web/static/index.html
# Folders count too: their time changes when a file is deleted. Tests do not end up in the build.
CLIENT_SOURCES := $(shell find client/src client/public -not -name '*.test.ts' 2>/dev/null) \
	client/index.html client/vite.config.ts client/svelte.config.js client/tsconfig.json

# Two jobs at a time; where make is new enough, each prints in one piece.
PAIR = $(MAKE) -j2 $(if $(filter output-sync,$(.FEATURES)),--output-sync=target)

.DEFAULT_GOAL := help
.DELETE_ON_ERROR:
MAKEFLAGS += --no-print-directory

.PHONY: help
help: ## list the targets
	@grep -hE '^[a-z]+:.*##' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 10

.PHONY: setup
setup: ## virtual environment, pinned dependencies, client build (both halves at once)
	@$(MAKE) -j2 setup-python setup-client

.PHONY: setup-python setup-client
setup-python: $(PYTHON_READY)
	@:
setup-client: $(CLIENT_READY)
	@:

$(UV_READY): requirements/uv.txt
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { \
		echo "Cupwright needs Python 3.11 or newer, and $(PYTHON) is older or missing. Name another one: make PYTHON=python3.12"; exit 1; }
	@echo "Setting up, once: Python packages into .venv, and the web client. This takes a minute or more."
	@$(PYTHON) -m venv .venv
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --require-hashes -r $<
	@touch $@

$(PACKAGES_READY): $(LOCK) $(UV_READY)
	@$(UV) pip sync --quiet --python $(BIN)/python --require-hashes $<
	@touch $@

# After the sync, which removes whatever the lock does not list. Without isolation: the build backend is in the lock too.
$(PYTHON_READY): $(PACKAGES_READY) pyproject.toml hatch_build.py
	@$(UV) pip install --quiet --python $(BIN)/python --no-deps --no-build-isolation --offline --editable .
	@touch $@

$(NODE_READY): client/package.json client/package-lock.json client/.npmrc
	@command -v npm >/dev/null && node -e 'const [a, b] = process.versions.node.split("."); process.exit(a > 20 || (a == 20 && b >= 19) ? 0 : 1)' || { \
		echo "Cupwright builds its web client with npm and Node 20.19 or newer; they are older or missing. Install them, then repeat the command."; exit 1; }
	@echo "Fetching the web client's packages into client/node_modules."
	@npm --prefix client ci --loglevel=error
	@touch $@

$(CLIENT_READY): $(NODE_READY) $(CLIENT_SOURCES)
	@echo "Building the web client."
	@npm --prefix client run --silent build -- --logLevel warn
	@touch $@

.PHONY: run
run: setup ## start the program: make run [DEMO=1] [LAN=1] [DATA=folder] [PORT=8000]
	@exec $(BIN)/cupwright serve $(if $(DEMO),--demo) $(if $(LAN),--lan) $(if $(DATA),--data "$(DATA)") $(if $(PORT),--port $(PORT))

.PHONY: test
test: setup ## every check and every test; ARGS=... goes to pytest
	@.ci/chromium
	@$(PAIR) check-python check-client
	$(BIN)/python -m pytest -n 2 --dist loadgroup $(ARGS)

.PHONY: check check-python check-client
check: setup ## lint, types, import contracts, client tests: what takes seconds
	@$(PAIR) check-python check-client

check-python:
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports

check-client:
	npm --prefix client run --silent check
	npm --prefix client run --silent test

.PHONY: bench
bench: setup ## every benchmark; QUICK=1 for the short form
	@set -e; for script in bench/*.py; do echo "== $$script"; $(BIN)/python "$$script" $(if $(QUICK),--quick); done

# The addresses of the package index stay out of the locks: the machine chooses the mirror, the hashes the content.
COMPILE = $(UV) pip compile --quiet --universal --generate-hashes --no-annotate --no-emit-index-url \
	--no-emit-find-links --custom-compile-command "make lock" $(if $(UPGRADE),--upgrade)

.PHONY: lock
lock: $(UV_READY) ## pin the dependencies again after a change of pyproject.toml or package.json; UPGRADE=1 takes newer ones
	$(COMPILE) requirements/uv.in -o requirements/uv.txt
	$(COMPILE) pyproject.toml --all-extras --group dev -o $(LOCK)
	$(COMPILE) pyproject.toml --constraints $(LOCK) -o requirements/run.lock
	cd client && npm $(if $(UPGRADE),update,install) --package-lock-only --loglevel=error

.PHONY: clean
clean: ## remove what setup and the tools made; your data folder stays
	rm -rf .venv client/node_modules $(dir $(CLIENT_READY)) build dist \
		.mypy_cache .ruff_cache .pytest_cache .import_linter_cache .hypothesis
	find src tests -name __pycache__ -type d -prune -exec rm -rf {} +

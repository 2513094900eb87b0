# The few verbs. `make` alone lists them.
PORT ?= 8480
PYTHON ?= python3
BIN := .venv/bin
.DEFAULT_GOAL := help
.PHONY: help demo test check fix serve card lock bench

help: ## list the verbs
	@grep -hE '^[a-z]+:.*##' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 10

demo: .venv/run ## load the invented firm, serve it on 127.0.0.1:$(PORT), and print what to open
	@TUNDISH_PORT=$(PORT) $(BIN)/python -m demo

test: .venv/test ## everything that must pass: linters, laws, articles, tests, a real browser
	@sh .ci/browser
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports
	$(BIN)/tundish check
	@# Two at once, each file as a whole; a set has one order in both, or they could not share the work.
	PYTHONHASHSEED=0 $(BIN)/python -m pytest -n 2 --dist loadfile

check: .venv/run ## hold the articles to the rules and prove what must never happen
	@$(BIN)/tundish check

fix: .venv/test ## let the linters mend what they can
	$(BIN)/ruff check --fix .
	$(BIN)/ruff format .

serve: .venv/run ## serve with the settings of this machine (TUNDISH_…)
	@TUNDISH_PORT=$(PORT) $(BIN)/tundish serve

card: .venv/run ## write the card of a home: make card KEY=… TO=card.pdf
	@$(BIN)/tundish card $(KEY) --to $(or $(TO),card.pdf)

bench: .venv/test ## speed and size, as ratios in one run
	@for each in benchmarks/*.py; do name=$$(basename $$each .py); echo "== $$name"; $(BIN)/python -m benchmarks.$$name || exit 1; done

lock: .venv/test ## pin the newest versions that pyproject.toml allows
	$(BIN)/uv pip compile -q --universal --no-header --no-annotate --no-emit-index-url --generate-hashes pyproject.toml -o requirements.lock
	$(BIN)/uv pip compile -q --universal --no-header --no-annotate --no-emit-index-url --generate-hashes --extra test pyproject.toml -o requirements-test.lock

.venv/python:
	@$(PYTHON) -c 'import sys; sys.exit("Expected Python 3.11 or newer, found " + sys.version.split()[0] + ". Install a newer one, or name it: make PYTHON=python3.12") if sys.version_info < (3, 11) else None'
	@$(PYTHON) -m venv .venv
	@touch $@

.venv/run: .venv/python requirements.lock pyproject.toml
	@$(BIN)/python -m pip install -q --disable-pip-version-check -r requirements.lock
	@$(BIN)/python -m pip install -q --disable-pip-version-check --no-deps --no-build-isolation -e .
	@touch $@

.venv/test: .venv/run requirements-test.lock
	@$(BIN)/python -m pip install -q --disable-pip-version-check -r requirements-test.lock
	@touch $@

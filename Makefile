# Two commands do it all: `make chat` opens the terminal chat, `make test` runs the checks.
# Both make the virtual environment when it isn't there and install the locked packages once.

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
LOCK := uv pip compile --universal --generate-hashes --no-emit-index-url --no-emit-find-links --no-annotate --no-header --quiet --extra build

.PHONY: chat test test-servers test-postgres nightly lock clean

chat: $(VENV)/.installed
	@$(BIN)/python -m bot chat $(ARGS)

test: $(VENV)/.installed-dev
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports
	$(BIN)/pytest -n auto -m "not servers and not nightly and not postgres"

test-servers: $(VENV)/.installed-dev
	$(BIN)/pytest -n auto -m "servers and not nightly"

test-postgres: $(VENV)/.installed-dev
	$(BIN)/pytest -n auto -m "postgres and not nightly and not servers"

nightly: $(VENV)/.installed-dev
	$(BIN)/pytest -n auto -m nightly --hypothesis-profile others --durations=10

$(VENV)/.installed: requirements.txt pyproject.toml
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements.txt
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
	@touch $@

$(VENV)/.installed-dev: requirements-dev.txt pyproject.toml
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements-dev.txt
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
	@touch $@ $(VENV)/.installed

lock:
	$(LOCK) pyproject.toml -o requirements.txt
	$(LOCK) --extra dev pyproject.toml -o requirements-dev.txt

clean:
	rm -rf $(VENV) build dist *.egg-info .pytest_cache .mypy_cache .ruff_cache .hypothesis .import_linter_cache

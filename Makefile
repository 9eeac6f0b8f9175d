# Two commands do all set-up on a bare machine with Python 3.11 and make: `make demo` and `make test`.
PYTHON ?= python3
VENV := .venv
UV := UV_PROJECT_ENVIRONMENT=$(VENV) $(VENV)/bin/uv
RUN := $(VENV)/bin

.PHONY: demo desk test browser check bench proof clean

$(VENV)/.synced: pyproject.toml uv.lock
	test -x $(RUN)/python || $(PYTHON) -m venv $(VENV)
	test -x $(RUN)/uv || $(RUN)/python -m pip install --quiet --disable-pip-version-check "uv>=0.8"
	$(UV) sync --locked --quiet
	touch $@

demo: $(VENV)/.synced ## answer the example and write its papers into demo/
	$(RUN)/darby answer examples/firehall.toml
	$(RUN)/darby papers examples/firehall.toml --into demo
	@echo "Open demo/firehall/quote.pdf first; the other papers lie beside it."

desk: $(VENV)/.synced ## open the desk with its examples
	$(RUN)/darby desk

test: $(VENV)/.synced browser ## every test but the long runs
	$(RUN)/pytest -n 2 --dist loadfile -m "not proof"

browser: ## Debian's chromium, for the tests of pages
	@test -n "$$CHROMIUM" || command -v chromium >/dev/null 2>&1 \
	|| { test "$$(id -u)" = 0 && command -v apt-get >/dev/null 2>&1 \
	&& apt-get update -qq && apt-get install -y -qq chromium >/dev/null; } \
	|| echo "The tests of pages need chromium and will fail without it. Debian: apt-get install chromium, as root."

check: $(VENV)/.synced ## style, types, floors
	$(RUN)/ruff check .
	$(RUN)/ruff format --check .
	$(RUN)/mypy
	$(RUN)/lint-imports

bench: $(VENV)/.synced ## ratios against a peer, in one run
	$(RUN)/python -m benchmarks

proof: $(VENV)/.synced ## long runs: dead figures, kills, fuzz
	$(RUN)/pytest -m proof

clean:
	rm -rf $(VENV) demo .mypy_cache .ruff_cache .pytest_cache .hypothesis

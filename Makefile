# One command each; `make` alone says which there are.
.PHONY: help setup setup-dev browser demo desk test check docs bench pictures messages bill lock clean
PY := .venv/bin/python

help:
	@echo "make demo      plan a sample job, print its summary and write its papers to out/demo"
	@echo "make desk      open the desk: the job in a browser on this machine"
	@echo "make test      run every check and test"
	@echo "make docs      build the documentation as a site, out/docs/index.html"
	@echo "make bench     measure plan times and memory, printed as tables"
	@echo "make messages  collect texts and sentences for translation, and list the codes in docs/errors.md"
	@echo "make bill      write what Rodbook is made of, and its licences, to out/bill"
	@echo "make pictures  remake the pictures in docs/"
	@echo "make setup     only build .venv (demo and test do it by themselves)"
	@echo "make lock      write the lock files anew (needs uv)"
	@echo "make clean     remove .venv and out/"

setup:
	@PYTHON="$(PYTHON)" sh scripts/setup run

setup-dev:
	@PYTHON="$(PYTHON)" sh scripts/setup dev

demo: setup
	@$(PY) -m rodbook demo --out out/demo

desk: setup
	@$(PY) -m rodbook desk

browser:
	@sh scripts/browser

check: setup-dev
	@sh scripts/checks

# Checks run beside the tests and what they found comes last; each of the three is run whether or not another fails.
test: setup-dev browser
	@mkdir -p out; nice sh scripts/checks > out/check.log 2>&1 & checking=$$!; \
	$(PY) -m pytest --durations=20; tests=$$?; \
	$(PY) -m pytest tests/browser -p no:django --dist worksteal --durations=20; pages=$$?; \
	wait $$checking; checks=$$?; cat out/check.log; \
	[ $$tests -eq 0 ] && [ $$pages -eq 0 ] && [ $$checks -eq 0 ]

docs: setup-dev
	@$(PY) -m sphinx -W --keep-going -q -E -j auto -b html docs out/docs && echo "Open out/docs/index.html"

bench: setup-dev browser
	@$(PY) benchmarks/start_time.py
	@$(PY) benchmarks/plan_time.py
	@$(PY) benchmarks/desk_time.py
	@$(PY) benchmarks/survey_to_setout.py
	@$(PY) benchmarks/sizes_time.py
	@$(PY) benchmarks/assembled.py
	@$(PY) benchmarks/swing_time.py
	@$(PY) benchmarks/money_time.py
	@$(PY) benchmarks/dates_time.py
	@$(PY) benchmarks/desk_live.py

pictures: setup-dev browser
	@$(PY) scripts/pictures.py
	@$(PY) scripts/desk_pictures.py

messages: setup-dev
	@$(PY) scripts/messages.py
	@$(PY) scripts/error_codes.py

bill: setup-dev
	@$(PY) scripts/bill_of_materials.py --out out/bill

lock:
	@sh scripts/lock

clean:
	rm -rf .venv out

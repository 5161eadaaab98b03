# liveside: one hand-written makefile; `make help` lists the targets.
# VARIANT is release (default), debug, san or cov; objects and results are in build/$(VARIANT).
# (`make fuzz` sets a fifth one, fuzz, for itself.)
VERSION := 0.1.0
# Of the shared library; raised when a program built against the last one would no longer run.
ABI := 0
VARIANT ?= release
PREFIX ?= /usr/local
LIBDIR ?= $(PREFIX)/lib
FUZZ_SECONDS ?= 20
WERROR ?=
ifeq ($(origin CC),default)
CC := gcc
endif

BUILD := build/$(VARIANT)
LAYERS := core num prop airframe flight study rules io report

WARN := -Wall -Wextra -Wpedantic -Wshadow -Wstrict-prototypes -Wmissing-prototypes -Wwrite-strings -Wvla
CFLAGS_release := -O2 -g
CFLAGS_debug := -O0 -g
CFLAGS_san := -O1 -g -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer
CFLAGS_cov := -O0 -g --coverage
CFLAGS_fuzz := -O1 -g -fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all
ifeq ($(CFLAGS_$(VARIANT)),)
$(error VARIANT=$(VARIANT) is not one of release, debug, san, cov)
endif

# pkg-config may be absent until `make deps` has run: it is asked in recipes only, and once.
PKG_CFLAGS = $(eval PKG_CFLAGS := $(shell pkg-config --cflags gsl yaml-0.1 jansson libmd))$(PKG_CFLAGS)
PKG_LIBS = $(eval PKG_LIBS := $(shell pkg-config --libs gsl yaml-0.1 jansson libmd))$(PKG_LIBS)

LANGUAGE := -std=c17 -D_XOPEN_SOURCE=700 -Iinclude -Isrc -Itests -fvisibility=hidden
DEFINES := -DLS_VERSION='"$(VERSION)"'
DATA_DIR := $(PREFIX)/share/liveside
# One set of objects serves the program and the shared library.
LANGUAGE += -fPIC -fno-semantic-interposition
OWN_FLAGS := $(LANGUAGE) $(DEFINES) $(WARN) $(WERROR) $(CFLAGS_$(VARIANT))
ALL_CFLAGS = $(OWN_FLAGS) $(HOT_FLAGS) $(PKG_CFLAGS) $(CPPFLAGS) $(CFLAGS)
LIBS = $(LDFLAGS) $(PKG_LIBS) -lm -lpthread

LIB_SRC := $(wildcard $(LAYERS:%=src/%/*.c))
CLI_SRC := $(wildcard src/cli/*.c)
HELP_SRC := $(filter-out tests/alloc_fail.c,$(wildcard tests/*.c))
TEST_SRC := $(wildcard tests/unit/*.c tests/physics/*.c tests/files/*.c)
BENCH_SRC := $(wildcard tests/bench/*.c)
FUZZ_SRC := $(wildcard tests/fuzz/fuzz_*.c)
C_FILES := $(wildcard include/liveside/*.h src/*/*.[ch] tests/*.[ch] tests/*/*.[ch])
CASES := $(wildcard tests/cli/*.case)

# Tests that ask for failing allocations carry their own malloc; no other program does.
ifneq ($(TEST_SRC),)
ALLOC_SRC := $(shell grep -l '"alloc_fail.h"' $(TEST_SRC))
endif

# A recipe line that shows its kind and target, or with V=1 the whole command.
run = $(if $(V),,@echo '$(1) $@'; )$(2)

object = $(1:%.c=$(BUILD)/%.o)
program = $(1:%.c=$(BUILD)/%)
LIB := $(BUILD)/libliveside.a

# The solvers, which a study asks a million times.
ifeq ($(VARIANT),release)
$(call object,$(wildcard $(patsubst %,src/%/*.c,num prop airframe flight))): private HOT_FLAGS := -O3
endif
CLI_LIB := $(BUILD)/libcli.a
TESTS := $(call program,$(TEST_SRC))
BENCHES := $(call program,$(BENCH_SRC))
FUZZERS := $(call program,$(FUZZ_SRC))
RUN_CASES := $(BUILD)/tests/cli/run_cases
PROGRAM := $(if $(wildcard src/cli/main.c),$(BUILD)/liveside)
SHARED := $(BUILD)/libliveside.so.$(ABI)

ifneq ($(filter deps deps-dev,$(MAKECMDGOALS)),)
.NOTPARALLEL:
endif
.DELETE_ON_ERROR:
.SECONDARY:
.PHONY: all help deps deps-dev demo check bench san valgrind lint fuzz fuzz-run cov format plots verification \
	man shared install uninstall install-check dist deb deb-check clean FORCE

all: $(LIB) $(PROGRAM) $(call object,$(CLI_SRC)) ## build the library and the program (default)

help: ## list the targets
	@sed -n 's/^\([a-z][a-z-]*\):.*## /\1\t/p' Makefile | awk -F '\t' '{ printf "%-14s %s\n", $$1, $$2 }'

# ---- packages -------------------------------------------------------------------------------------------

DEPS := gcc libc6-dev make pkg-config libgsl-dev libcmocka-dev libyaml-dev libjansson-dev libmd-dev \
	libudunits2-dev gnuplot-nox fonts-dejavu-core
DEPS_DEV := valgrind clang libclang-rt-dev cppcheck clang-tidy clang-format mandoc hyperfine zsh fish dpkg-dev

deps: ## install what demo and check need (Debian)
	@.dev/deps $(DEPS)

deps-dev: ## install what lint, fuzz and the pages need
	@.dev/deps $(DEPS_DEV)

# ---- building -------------------------------------------------------------------------------------------

# Rewritten only when the text differs, so that a change of CFLAGS, WERROR or CC rebuilds everything, and one of
# PREFIX the file that knows where the data are.
$(BUILD)/flags: TEXT = $(CC) $(OWN_FLAGS) $(CPPFLAGS) $(CFLAGS)
$(BUILD)/data_dir: TEXT = $(DATA_DIR)
$(BUILD)/flags $(BUILD)/data_dir: FORCE
	@mkdir -p $(@D)
	@printf '%s\n' '$(subst ','\'',$(TEXT))' | cmp -s - $@ || printf '%s\n' '$(subst ','\'',$(TEXT))' > $@

$(BUILD)/src/cli/find.o: $(BUILD)/data_dir
$(BUILD)/src/cli/find.o: private CPPFLAGS += -DLS_DATA_DIR='"$(DATA_DIR)"'

$(BUILD)/%.o: %.c $(BUILD)/flags
	@mkdir -p $(@D)
	$(call run,CC,$(CC) $(ALL_CFLAGS) -MMD -MP -c $< -o $@)

# The list of members is a file of its own, so that a deleted source leaves the archive too.
$(BUILD)/%.members: FORCE
	@mkdir -p $(@D)
	@printf '%s\n' $(MEMBERS) | cmp -s - $@ || printf '%s\n' $(MEMBERS) > $@
$(BUILD)/libliveside.members: MEMBERS = $(call object,$(LIB_SRC))
$(BUILD)/libcli.members: MEMBERS = $(call object,$(filter-out src/cli/main.c,$(CLI_SRC)))

$(LIB): $(call object,$(LIB_SRC)) $(BUILD)/libliveside.members
$(CLI_LIB): $(call object,$(filter-out src/cli/main.c,$(CLI_SRC))) $(BUILD)/libcli.members
$(LIB) $(CLI_LIB):
	$(call run,AR,rm -f $@ && ar rcs $@ $(filter %.o,$^))

$(BUILD)/liveside: $(BUILD)/src/cli/main.o $(CLI_LIB) $(LIB)
	$(call run,LINK,$(CC) $(ALL_CFLAGS) $^ -o $@ $(LIBS))

# Only what a public header marks LS_API is seen from outside.
SHARED_FLAGS = -shared -Wl,-soname,$(@F) -Wl,--no-undefined
shared: $(SHARED) ## build the shared library
$(SHARED): $(call object,$(LIB_SRC)) $(BUILD)/libliveside.members
	$(call run,LINK,$(CC) $(ALL_CFLAGS) $(SHARED_FLAGS) $(filter %.o,$^) -o $@ $(LIBS))

# ---- demo and tests -------------------------------------------------------------------------------------

demo: all ## run the program on a demo aeroplane, with charts in build/demo
	$(BUILD)/liveside vmca whimbrel --plot build/demo
	@printf '%s\n' '' 'Look at the pictures in build/demo. Then try these three commands:' '' \
		'  $(BUILD)/liveside balance whimbrel --speed 85 --bank 2live' \
		'      What holds it straight at 85 knots, and what is left?' \
		'  $(BUILD)/liveside trend whimbrel --over weight=2800:3800:200' \
		'      Why is the light aeroplane the one to be careful with?' \
		'  $(BUILD)/liveside vmca whimbrel --compare propeller=feathered' \
		'      What is feathering worth?'

$(call program,$(ALLOC_SRC)): $(BUILD)/tests/alloc_fail.o
$(TESTS) $(BENCHES): $(BUILD)/tests/%: $(BUILD)/tests/%.o $(call object,$(HELP_SRC)) $(CLI_LIB) $(LIB)
	$(call run,LINK,$(CC) $(ALL_CFLAGS) $(filter %.o,$^) $(CLI_LIB) $(LIB) -o $@ -lcmocka -ludunits2 $(LIBS))

$(RUN_CASES): $(call object,$(wildcard tests/cli/*.c))
	$(call run,LINK,$(CC) $(ALL_CFLAGS) $^ -o $@ -lm)
$(BUILD)/tests/unit/test_run_cases: | $(RUN_CASES)

check: $(TESTS) $(RUN_CASES) $(PROGRAM) ## build and run every test; ends with `N passed, N failed`
	@BUILD=$(BUILD) PROGRAM=$(PROGRAM) CASES='$(CASES)' .dev/run-tests $(TESTS)

san: ## the tests under the address and undefined-behaviour sanitizers
	@LS_TEST_SCALE=2 UBSAN_OPTIONS=print_stacktrace=1 TEST_LIMIT_S=900 LS_LIMIT_FACTOR=5 $(MAKE) --no-print-directory VARIANT=san check

VALGRIND_TESTS ?= $(filter $(BUILD)/tests/unit/% $(BUILD)/tests/files/%,$(TESTS))
valgrind: $(VALGRIND_TESTS) $(RUN_CASES) ## the unit and file tests under valgrind
	@BUILD=$(BUILD) LOGS=$(BUILD)/valgrind LS_TEST_SCALE=0.05 TEST_LIMIT_S=900 LS_LIMIT_FACTOR=5 \
		WRAP='valgrind -q --error-exitcode=99 --leak-check=full' .dev/run-tests $(VALGRIND_TESTS)

bench: $(BENCHES) ## build and run tests/bench
	@set -e; for b in $(BENCHES); do echo "== $$b"; $$b; .dev/instructions $$b; done

cov: ## the tests with line coverage; the table is build/coverage.txt
	@find build/cov -name '*.gcda' -delete 2>/dev/null || true
	@LS_TEST_SCALE=2 TEST_LIMIT_S=900 LS_LIMIT_FACTOR=5 $(MAKE) --no-print-directory VARIANT=cov check
	@.dev/coverage build/cov/src > build/coverage.txt && cat build/coverage.txt

fuzz: ## run each tests/fuzz/fuzz_*.c for FUZZ_SECONDS
	@$(MAKE) --no-print-directory VARIANT=fuzz CC=clang fuzz-run

fuzz-run: $(FUZZERS)
	@BUILD=$(BUILD) FUZZ_SECONDS=$(FUZZ_SECONDS) .dev/run-fuzz $(FUZZERS)

$(FUZZERS): $(BUILD)/tests/%: $(BUILD)/tests/%.o $(CLI_LIB) $(LIB)
	$(call run,LINK,$(CC) $(ALL_CFLAGS) -fsanitize=fuzzer $< $(CLI_LIB) $(LIB) -o $@ $(LIBS))

# ---- the code itself ------------------------------------------------------------------------------------

lint: all ## layering, bans, format, cppcheck, clang-tidy
	@BUILD=$(BUILD) .dev/lint
	clang-format --dry-run -Werror $(C_FILES)
	cppcheck -q -j2 --std=c11 --enable=warning,performance,portability --inline-suppr --error-exitcode=1 \
		--suppress=missingIncludeSystem -Iinclude -Isrc -Itests $(DEFINES) \
		-DLS_DATA_DIR='"$(DATA_DIR)"' src tests
	@echo clang-tidy; printf '%s\n' $(LIB_SRC) $(CLI_SRC) $(wildcard tests/cli/*.c) | xargs -P2 -n4 sh -c \
		'clang-tidy --quiet "$$@" -- $(subst ',,$(LANGUAGE)) -Wall -Wextra $(TIDY_DEFINES) $(PKG_CFLAGS) 2>/dev/null' tidy

TIDY_DEFINES := -DLS_VERSION=\"$(VERSION)\" -DLS_DATA_DIR=\"$(DATA_DIR)\"

format: ## clang-format every C file in place
	clang-format -i $(C_FILES)

verification: check ## rewrite docs/verification.md from the results of the tests
	@.dev/verification build/verification.tsv > build/verification.md
	@mkdir -p docs && mv build/verification.md docs/verification.md && echo wrote docs/verification.md

# The slides of docs/lessons.md: lesson-NAME.png is CHART of COMMAND.
SLIDES := 1-unit:prop:prop-unit 1-blade:prop:prop-triangles 1-feather:prop:prop-dead-by-pitch \
	2-bank:vmca:vmc-against-bank 2-above:explain:forces-from-above 2-yaw:explain:moments-yaw \
	3-speed:climb:climb-against-speed 3-bank:climb:climb-against-bank 3-costs:climb:climb-costs

plots: all ## remake the charts of plots/, which README.md and docs/lessons.md show
	@rm -rf build/plots build/slides
	@$(BUILD)/liveside vmca whimbrel --plot build/plots > build/plots.txt
	@cp build/plots/*.gp build/plots/*.png plots/
	@set -e; for c in prop vmca explain climb; do $(BUILD)/liveside $$c whimbrel --plot build/slides --slide >/dev/null; done
	@set -e; for s in $(SLIDES); do name=$${s%%:*}; cp build/slides/$${s##*:}.png plots/lesson-$$name.png; done
	@ls plots

man: all ## remake what the program says of itself: docs/liveside.1, docs/aircraft-file.md, README.md, docs/lessons.md
	@$(BUILD)/liveside --manual-page > build/liveside.1 && mv build/liveside.1 docs/liveside.1
	@$(BUILD)/liveside --aircraft-page > build/aircraft-file.md && mv build/aircraft-file.md docs/aircraft-file.md
	@set -e; for page in README.md docs/lessons.md; do \
	  .dev/examples $(BUILD)/liveside $$page > build/page.md && mv build/page.md $$page; done

# ---- packaging ------------------------------------------------------------------------------------------

# What install puts where; uninstall removes these, and leaves folders that may be others' too.
ROOT = $(DESTDIR)$(PREFIX)
SHARE = $(ROOT)/share
BASH_SCRIPT = $(SHARE)/bash-completion/completions/liveside
ZSH_SCRIPT = $(SHARE)/zsh/site-functions/_liveside
FISH_SCRIPT = $(SHARE)/fish/vendor_completions.d/liveside.fish
INSTALLED = $(ROOT)/bin/liveside $(SHARE)/man/man1/liveside.1 $(BASH_SCRIPT) $(ZSH_SCRIPT) $(FISH_SCRIPT) \
	$(SHARE)/liveside $(SHARE)/doc/liveside $(ROOT)/include/liveside $(DESTDIR)$(LIBDIR)/libliveside.a \
	$(DESTDIR)$(LIBDIR)/libliveside.so $(DESTDIR)$(LIBDIR)/libliveside.so.$(ABI) \
	$(DESTDIR)$(LIBDIR)/libliveside.so.$(VERSION) $(DESTDIR)$(LIBDIR)/pkgconfig/libliveside.pc

install: all shared ## install program, library, headers, pages, completion, demo aeroplanes under DESTDIR and PREFIX
	install -d $(ROOT)/bin $(SHARE)/liveside/aircraft $(SHARE)/man/man1 $(SHARE)/doc/liveside \
		$(ROOT)/include/liveside $(DESTDIR)$(LIBDIR)/pkgconfig \
		$(dir $(BASH_SCRIPT) $(ZSH_SCRIPT) $(FISH_SCRIPT))
	install -m 755 $(PROGRAM) $(ROOT)/bin/liveside
	install -m 644 $(wildcard aircraft/*) $(SHARE)/liveside/aircraft
	install -m 644 docs/liveside.1 $(SHARE)/man/man1
	install -m 644 $(wildcard docs/*.md) $(SHARE)/doc/liveside
	install -m 644 $(wildcard include/liveside/*.h) $(ROOT)/include/liveside
	install -m 644 $(LIB) $(DESTDIR)$(LIBDIR)
	install -m 644 $(SHARED) $(DESTDIR)$(LIBDIR)/libliveside.so.$(VERSION)
	ln -sf libliveside.so.$(VERSION) $(DESTDIR)$(LIBDIR)/libliveside.so.$(ABI)
	ln -sf libliveside.so.$(ABI) $(DESTDIR)$(LIBDIR)/libliveside.so
	sed 's|@PREFIX@|$(PREFIX)|; s|@LIBDIR@|$(LIBDIR)|; s|@VERSION@|$(VERSION)|' .dev/libliveside.pc.in \
		> $(DESTDIR)$(LIBDIR)/pkgconfig/libliveside.pc
	$(PROGRAM) --completion bash > $(BASH_SCRIPT)
	$(PROGRAM) --completion zsh > $(ZSH_SCRIPT)
	$(PROGRAM) --completion fish > $(FISH_SCRIPT)

uninstall: ## remove what install put there
	rm -rf $(INSTALLED)

install-check: ## install into build/stage, look at everything there, and uninstall
	+@.dev/install-check $(abspath build/stage) $(VERSION) $(ABI)

dist: ## a source archive of the last commit
	@mkdir -p build
	git archive --prefix=liveside-$(VERSION)/ -o build/liveside-$(VERSION).tar.gz HEAD
	@echo build/liveside-$(VERSION).tar.gz

deb: ## Debian packages of program, shared library and headers, in build/deb
	+@.dev/deb $(VERSION) $(ABI)

deb-check: deb ## install the packages in a fresh root (as root: debootstrap) and try them as an ordinary user
	+@.dev/deb-check build/deb

clean: ## remove build/
	rm -rf build

-include $(shell test -d $(BUILD) && find $(BUILD) -name '*.d')

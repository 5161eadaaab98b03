# liveside: one hand-written makefile. VARIANT is release (default), debug, san or cov.
VARIANT ?= release
CC ?= gcc
BUILD := build/$(VARIANT)

WARN := -Wall -Wextra -Wpedantic -Wshadow -Wstrict-prototypes -Wmissing-prototypes -Wwrite-strings -Wvla
CFLAGS_release := -O2 -g
CFLAGS_debug := -O0 -g
CFLAGS_san := -O1 -g -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer
CFLAGS_cov := -O0 -g --coverage
ALL_CFLAGS = -std=c17 -D_XOPEN_SOURCE=700 -Iinclude -Isrc -Itests -fvisibility=hidden $(WARN) $(WERROR) \
	$(CFLAGS_$(VARIANT)) $(shell pkg-config --cflags gsl yaml-0.1 jansson libmd) $(CFLAGS)
LIBS = $(shell pkg-config --libs gsl yaml-0.1 jansson libmd) -lm -lpthread

LIB_SRC := $(wildcard src/core/*.c src/num/*.c src/prop/*.c src/airframe/*.c src/flight/*.c src/study/*.c \
	src/rules/*.c src/io/*.c src/report/*.c)
CLI_SRC := $(wildcard src/cli/*.c)
TEST_SRC := $(wildcard tests/unit/*.c tests/physics/*.c tests/files/*.c)
LIB_OBJ := $(LIB_SRC:%.c=$(BUILD)/%.o)
CLI_OBJ := $(CLI_SRC:%.c=$(BUILD)/%.o)
TESTS := $(TEST_SRC:%.c=$(BUILD)/%)
LIB := $(BUILD)/libliveside.a

.PHONY: all check clean
all: $(LIB)

$(LIB): $(LIB_OBJ)
	rm -f $@ && ar rcs $@ $^

$(BUILD)/%.o: %.c
	@mkdir -p $(@D)
	$(CC) $(ALL_CFLAGS) -MMD -MP -c $< -o $@

$(BUILD)/tests/%: $(BUILD)/tests/%.o $(BUILD)/tests/check.o $(LIB)
	$(CC) $(ALL_CFLAGS) $^ -o $@ -lcmocka -ludunits2 $(LIBS)

check: $(TESTS)
	@for t in $(TESTS); do LS_VERIFICATION=build/verification.tsv $$t || exit 1; done

clean:
	rm -rf build

-include $(shell find build -name '*.d' 2>/dev/null)

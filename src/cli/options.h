/* The one table of options, and what a command receives from the command line. */
#ifndef LIVESIDE_CLI_OPTIONS_H
#define LIVESIDE_CLI_OPTIONS_H

#include "liveside/status.h"
#include "liveside/units.h"

#include <stdint.h>

typedef enum {
    CLI_FAILED,
    CLI_PROPELLER,
    CLI_ROTATION,
    CLI_POWER,
    CLI_PARTIAL_POWER,
    CLI_RATING,
    CLI_ALTITUDE,
    CLI_OAT,
    CLI_ISA,
    CLI_WEIGHT,
    CLI_CG,
    CLI_CG_LATERAL,
    CLI_BANK,
    CLI_FLAP,
    CLI_GEAR,
    CLI_COWL_FLAPS,
    CLI_SPEED,
    CLI_FROM,
    CLI_DELAY,
    CLI_HOLD,
    CLI_FEATHER_AT,
    CLI_RECOVER_AT,
    CLI_DURATION,
    CLI_HEIGHT,
    CLI_CROSSWIND,
    CLI_DEMONSTRATION,
    CLI_DRILL,
    CLI_BANK_LIMIT,
    CLI_PEDAL_LIMIT,
    CLI_RUDDER_LIMIT,
    CLI_MARGIN,
    CLI_WITHOUT,
    CLI_SET,
    CLI_COMPARE,
    CLI_OVER,
    CLI_BASIS,
    CLI_BLADES,
    CLI_STEP,
    CLI_BY,
    CLI_UNCERTAIN,
    CLI_CORRELATE,
    CLI_SAMPLES,
    CLI_SAMPLING,
    CLI_SEED,
    CLI_THREADS,
    CLI_EXCEEDS,
    CLI_INDICES,
    CLI_PARTS,
    CLI_LIST,
    CLI_FULL,
    CLI_BALL,
    CLI_UNITS,
    CLI_FORMAT,
    CLI_PAGE_FORMAT,
    CLI_OUTPUT,
    CLI_PLOT,
    CLI_SLIDE,
    CLI_FORCE,
    CLI_AIRCRAFT,
    CLI_FLOOR,
    CLI_STALL_MARGIN,
    CLI_THRUST_DOUBT,
    CLI_ACCURACY,
    CLI_HELP,
    CLI_OPTION_COUNT
} cli_option;

typedef enum {
    CLI_FLAG,   /* no value */
    CLI_TEXT,   /* any text */
    CLI_WORD,   /* one of `words` */
    CLI_NUMBER, /* a number with or without unit, or one of `words` */
    CLI_SIDED   /* a number and its side, "5live"; 0 needs none */
} cli_kind;

typedef enum { CLI_GROUP_CONDITION, CLI_GROUP_LIMITS, CLI_GROUP_WHAT_IF, CLI_GROUP_OUTPUT, CLI_GROUPS } cli_group;

typedef struct {
    const char *name; /* two rows may have the same, for different commands */
    cli_kind kind;
    cli_group group;
    int repeats;          /* may be given more than once */
    const char *argument; /* what help calls the value */
    const char *words; /* "up|down"; other spellings of one word after a comma, "anticlockwise,counterclockwise" */
    ls_dimension dimension;
    const char *unit[LS_UNITS_COUNT]; /* that a bare number takes */
    double low, high;                 /* SI, inclusive */
    const char *meaning;              /* for help and the manual page */
    char letter;                      /* -o for --output; 0: none */
} cli_option_row;

extern const cli_option_row cli_option_rows[CLI_OPTION_COUNT];

/* Sets of options, a bit each. */
_Static_assert(CLI_OPTION_COUNT <= 64, "a set of options has 64 bits");
#define CLI_BIT(option) ((uint64_t)1 << (option))
#define CLI_ALWAYS      CLI_BIT(CLI_HELP)
#define CLI_FILE_BITS   (CLI_BIT(CLI_SET) | CLI_BIT(CLI_UNITS) | CLI_BIT(CLI_FORMAT) | CLI_BIT(CLI_OUTPUT))
#define CLI_CONDITION_BITS                                                                                     \
    (CLI_BIT(CLI_FAILED) | CLI_BIT(CLI_PROPELLER) | CLI_BIT(CLI_ROTATION) | CLI_BIT(CLI_POWER) |               \
     CLI_BIT(CLI_PARTIAL_POWER) | CLI_BIT(CLI_ALTITUDE) | CLI_BIT(CLI_OAT) | CLI_BIT(CLI_ISA) |                \
     CLI_BIT(CLI_WEIGHT) | CLI_BIT(CLI_CG) | CLI_BIT(CLI_CG_LATERAL) | CLI_BIT(CLI_BANK) | CLI_BIT(CLI_FLAP) | \
     CLI_BIT(CLI_GEAR) | CLI_BIT(CLI_COWL_FLAPS) | CLI_BIT(CLI_BANK_LIMIT) | CLI_BIT(CLI_PEDAL_LIMIT) |        \
     CLI_BIT(CLI_WITHOUT))

enum { CLI_REPEATS_MAX = 24, CLI_FILES_MAX = 8 };

/* Indices of words in the rows' `words`. */
enum { CLI_WEIGHT_MAX, CLI_WEIGHT_MIN, CLI_WEIGHT_WORST };
enum { CLI_CG_FORWARD, CLI_CG_AFT, CLI_CG_REFERENCE, CLI_CG_WORST };
enum { CLI_TOWARD_LIVE, CLI_TOWARD_DEAD };
enum { CLI_SIDE_RIGHT, CLI_SIDE_LEFT };
enum { CLI_PEDAL_NONE };
enum { CLI_BY_VMC, CLI_BY_CLIMB, CLI_BY_BANK };
enum { CLI_SAMPLING_RANDOM, CLI_SAMPLING_SOBOL };
enum { CLI_DELAY_NEVER };
enum { CLI_WIND_RIGHT, CLI_WIND_LEFT };
enum { CLI_RATING_TAKEOFF, CLI_RATING_CONTINUOUS };

typedef struct {
    int count;                         /* how many times given; 0: not at all */
    const char *text[CLI_REPEATS_MAX]; /* as typed */
    int word;                          /* index in `words`; -1 when a number was given alone */
    double si;                         /* the number; NaN when a word was given alone */
} cli_value;

typedef struct cli_command cli_command;

typedef struct {
    const cli_command *command; /* null for `liveside` alone and `liveside --help` */
    cli_value value[CLI_OPTION_COUNT];
    int files;
    const char *file[CLI_FILES_MAX];
    ls_unit_system units;
} cli_options;

/* What is run, for how long, and how to be stopped: handed to every command. */
typedef struct {
    const cli_options *options;
    const char *command_line; /* as typed, quoted where a shell needs it */
    const char *self;         /* argv[0] */
    struct cli_page *page;    /* into which the result goes; null: where --output and --plot say */
} cli_run;

/* One command: src/cli/cmd_NAME.c defines one, src/cli/commands.c lists them. */
struct cli_command {
    const char *name;
    const char *alias;    /* or null */
    const char *question; /* "How slow can it be held straight?" */
    const char *summary;  /* a sentence or two, for help and the manual page */
    const char *example;  /* a whole command line */
    uint64_t options;     /* CLI_BIT()s besides CLI_ALWAYS */
    int files_min, files_max;
    ls_status (*run)(const cli_run *run, ls_error *error);
};

/* The commands, in the order of the list; null at the end. */
extern const cli_command *const cli_commands[];

/* A command by its name or alias, or null. */
const cli_command *cli_command_find(const char *name);

/* Reads the arguments after the command's name.
 * Returned: options, which refer to the arguments; when --help is among them nothing else is judged.
 * Status: LS_OK; LS_USAGE with the one line that helps. */
ls_status cli_options_parse(const cli_command *command, int count, char *const *arguments, cli_options *options,
                            ls_error *error);

/* Options with one changed, for --compare: NAME=VALUE where NAME is an option of a condition without its dashes
 * (replaced) or a path of the aeroplane file (added to --set).
 * Given: text, which must outlive changed.
 * Status: LS_OK; LS_USAGE. */
ls_status cli_options_change(const cli_options *options, const char *text, cli_options *changed, ls_error *error);

/* Whether an option was given; its last text, or null. */
int cli_given(const cli_options *options, cli_option option);
const char *cli_text(const cli_options *options, cli_option option);

#endif

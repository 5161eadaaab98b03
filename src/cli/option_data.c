/* The options, in the order of the help. Numbers in SI; ranges are those of the models behind them. */
#include "cli/options.h"
#include "liveside/air.h"

#define DEG (3.14159265358979323846 / 180.0)

#define SAME(unit)       \
    {                    \
        unit, unit, unit \
    }
#define FLAG(g)            .kind = CLI_FLAG, .group = CLI_GROUP_##g
#define VALUE(k, g, a)     .kind = CLI_##k, .group = CLI_GROUP_##g, .argument = (a)
#define RANGE(dim, lo, hi) .dimension = LS_DIM_##dim, .low = (lo), .high = (hi)

const cli_option_row cli_option_rows[CLI_OPTION_COUNT] = {
    [CLI_FAILED] = {"failed", VALUE(TEXT, CONDITION, "ENGINE[,ENGINE]"),
                    .meaning = "The engine that has failed, by its name in the file or its number from 1; several "
                               "with commas; left or right for all on that side; or none."},
    [CLI_PROPELLER] = {"propeller", VALUE(WORD, CONDITION, "STATE"),
                       .words = "windmilling|feathered|stopped|partial|lever-aft|idle|zero-thrust|automatic",
                       .meaning =
                           "What the failed engine's propeller does: windmilling, with its lever forward or "
                           "aft; feathered; stopped; partial power; idle (throttle closed, still firing); "
                           "zero-thrust; or automatic, as if left out: what it does by itself, which is to "
                           "windmill unless it feathers automatically."},
    [CLI_PARTIAL_POWER] = {"partial-power", VALUE(NUMBER, CONDITION, "PERCENT"), RANGE(FRACTION, 0, 1),
                           .unit = SAME("%"),
                           .meaning =
                               "With --propeller partial: what the failed engine still gives. Left out: 50."},
    [CLI_ROTATION] = {"rotation", VALUE(WORD, CONDITION, "WAY"),
                      .words = "file|clockwise|anticlockwise,counterclockwise|inboard|outboard",
                      .meaning = "Which way the propellers turn, seen from behind; inboard and outboard say where "
                                 "the blades at the top move. Left out: as in the file."},
    [CLI_POWER] = {"power", VALUE(NUMBER, CONDITION, "PERCENT"), RANGE(FRACTION, 0, 1), .unit = SAME("%"),
                   .meaning = "Power of the live engines, as a part of what they can give there. Left out: all."},
    [CLI_RATING] = {"rating", VALUE(WORD, CONDITION, "RATING"), .words = "takeoff|continuous",
                    .meaning =
                        "Rating of the live engines: take-off, or maximum continuous as the file has it. Left "
                        "out: takeoff."},
    [CLI_ALTITUDE] = {"altitude", VALUE(NUMBER, CONDITION, "ALTITUDE"),
                      RANGE(ALTITUDE, LS_AIR_H_MIN_M, LS_AIR_H_MAX_M), .unit = {"ft", "ft", "m"},
                      .meaning = "Pressure altitude. Left out: sea level."},
    [CLI_OAT] = {"oat", VALUE(NUMBER, CONDITION, "TEMPERATURE"),
                 RANGE(TEMPERATURE, LS_AIR_T_MIN_K, LS_AIR_T_MAX_K), .unit = SAME("degC"),
                 .meaning = "Outside air temperature. Left out: standard for the altitude."},
    [CLI_ISA] = {"isa", VALUE(NUMBER, CONDITION, "DIFFERENCE"), RANGE(TEMPERATURE_DIFFERENCE, -100, 100),
                 .unit = SAME("degC"), .meaning = "Instead of --oat: how much warmer than standard it is."},
    [CLI_WEIGHT] = {"weight", VALUE(NUMBER, CONDITION, "WEIGHT"), .words = "max|min|worst", RANGE(MASS, 50, 600e3),
                    .unit = {"lb", "kg", "kg"},
                    .meaning = "Weight, within the file's range; worst, the default, searches that range."},
    [CLI_CG] = {"cg", VALUE(NUMBER, CONDITION, "STATION"), .words = "forward|aft|reference|worst",
                RANGE(LENGTH, -50, 100), .unit = {"in", "m", "m"},
                .meaning = "Centre of gravity, aft of the datum, within the file's range; worst, the default, "
                           "searches that range."},
    [CLI_CG_LATERAL] = {"cg-lateral", VALUE(SIDED, CONDITION, "OFFSET"), .words = "right|left",
                        RANGE(LENGTH, 0, 2), .unit = {"in", "m", "m"},
                        .meaning = "Centre of gravity off the centreline from uneven fuel, with its side: 2left."},
    [CLI_BANK] = {"bank", VALUE(SIDED, CONDITION, "BANK"), .words = "live|dead", RANGE(ANGLE, 0, 45 * DEG),
                  .unit = SAME("deg"),
                  .meaning = "Bank with its side: 5live is five degrees toward the live engine, 5dead away from "
                             "it, and 0 wings level."},
    [CLI_FLAP] = {"flap", VALUE(TEXT, CONDITION, "NAME"),
                  .meaning = "Flap setting, by its name in the file. Left out: the take-off setting."},
    [CLI_GEAR] = {"gear", VALUE(WORD, CONDITION, "POSITION"), .words = "up|down",
                  .meaning = "Landing gear. Left out: up."},
    [CLI_COWL_FLAPS] = {"cowl-flaps", VALUE(WORD, CONDITION, "POSITION"), .words = "open|closed",
                        .meaning = "Cowl flaps. Left out: closed."},
    [CLI_SPEED] = {"speed", VALUE(NUMBER, CONDITION, "SPEED"), RANGE(SPEED, 5, 200), .unit = {"kt", "kt", "m/s"},
                   .meaning = "Calibrated airspeed."},
    [CLI_FROM] = {"from", VALUE(NUMBER, CONDITION, "ALTITUDE"), RANGE(ALTITUDE, 0, LS_AIR_H_MAX_M),
                  .unit = {"ft", "ft", "m"},
                  .meaning =
                      "Pressure altitude where the drift-down begins. Left out: the service ceiling on every "
                      "engine."},
    [CLI_DELAY] = {"delay", VALUE(NUMBER, CONDITION, "SECONDS"), .words = "never", RANGE(TIME, 0, 60),
                   .unit = SAME("s"), .meaning = "Until the pilot acts, or never. Left out: 1."},
    [CLI_HOLD] = {"hold", VALUE(WORD, CONDITION, "WHAT"), .words = "airspeed|attitude",
                  .meaning = "What the nose does: once the pilot acts it goes to where the power left holds the "
                             "airspeed (left out), or it stays where it was."},
    [CLI_FEATHER_AT] = {"feather-at", VALUE(NUMBER, CONDITION, "SECONDS"), RANGE(TIME, 0, 600), .unit = SAME("s"),
                        .meaning = "When feathering is selected. Left out: never, but for automatic feathering."},
    [CLI_RECOVER_AT] = {"recover-at", VALUE(NUMBER, CONDITION, "SECONDS"), RANGE(TIME, 0, 600), .unit = SAME("s"),
                        .meaning =
                            "When the live engines are throttled and the nose is lowered, to regain control."},
    [CLI_DURATION] = {"duration", VALUE(NUMBER, CONDITION, "SECONDS"), RANGE(TIME, 1, 300), .unit = SAME("s"),
                      .meaning = "How long the motion is followed. Left out: 30."},
    [CLI_HEIGHT] = {"height", VALUE(NUMBER, CONDITION, "HEIGHT"), RANGE(ALTITUDE, 0, 20e3),
                    .unit = {"ft", "ft", "m"},
                    .meaning = "Height above the ground at the failure. Left out: enough for everything."},
    [CLI_CROSSWIND] = {"crosswind", VALUE(SIDED, CONDITION, "SPEED"), .words = "right|left", RANGE(SPEED, 0, 30),
                       .unit = {"kt", "kt", "m/s"},
                       .meaning =
                           "Wind across the runway with the side that it comes from: 10left. Left out: none."},
    [CLI_DEMONSTRATION] = {"demonstration", FLAG(WHAT_IF),
                           .meaning = "Show the demonstration too: one engine idling, full power on the others, "
                                      "slowing by 1 kt a second; which limit comes first."},
    [CLI_DRILL] = {"drill", FLAG(WHAT_IF),
                   .meaning = "Show the feathering drill too: height and speed against the seconds to identify, "
                              "verify and feather."},
    [CLI_BANK_LIMIT] = {"bank-limit", VALUE(NUMBER, LIMITS, "ANGLE"), RANGE(ANGLE, 0, 30 * DEG),
                        .unit = SAME("deg"),
                        .meaning = "The most bank that may be used. Left out: the file's, usually 5."},
    [CLI_PEDAL_LIMIT] = {"pedal-limit", VALUE(NUMBER, LIMITS, "FORCE"), .words = "none", RANGE(FORCE, 10, 2000),
                         .unit = {"lbf", "N", "N"},
                         .meaning = "The most pedal force that may be used. Left out: the file's, usually 150 "
                                    "lbf, and no limit when the file has no pedal data."},
    [CLI_RUDDER_LIMIT] = {"rudder-limit", VALUE(NUMBER, LIMITS, "PERCENT"), RANGE(FRACTION, 0.1, 1),
                          .unit = SAME("%"),
                          .meaning = "Of the rudder's travel, how much the instructor lets the student have. Left "
                                     "out: all."},
    [CLI_MARGIN] = {"margin", VALUE(NUMBER, LIMITS, "SPEED"), RANGE(SPEED, 0, 30), .unit = {"kt", "kt", "m/s"},
                    .meaning =
                        "How far above the stall heading must be lost for a demonstration. Left out: 5 kt."},
    [CLI_WITHOUT] = {"without", VALUE(WORD, WHAT_IF, "EFFECT"), .repeats = 1,
                     .words = "p-factor|torque|normal-force|dead-drag|installation|cooling|slipstream|swirl",
                     .meaning = "Leave one effect out, to see what it is worth. May be given more than once."},
    [CLI_SET] = {"set", VALUE(TEXT, WHAT_IF, "PATH=VALUE"), .repeats = 1,
                 .meaning = "Change any number of the file, by its path: --set rudder.left='30 deg'. May be given "
                            "more than once."},
    [CLI_COMPARE] = {"compare", VALUE(TEXT, WHAT_IF, "NAME=VALUE"), .repeats = 1,
                     .meaning = "Work it out again with one thing changed, an option without its dashes or a path "
                                "of the file, and show before, after and the difference."},
    [CLI_OVER] = {"over", VALUE(TEXT, WHAT_IF, "NAME=FROM:TO:STEP"), .repeats = 1,
                  .meaning =
                      "What to vary, an option without its dashes or a path of the file. Given twice: a grid."},
    [CLI_BASIS] = {"basis", VALUE(TEXT, WHAT_IF, "NAME"), .repeats = 1,
                   .meaning =
                       "The rule to judge by; --list names them. May be given more than once. Left out: every "
                       "one that could apply."},
    [CLI_BLADES] = {"blades", VALUE(TEXT, WHAT_IF, "FROM:TO"),
                    .meaning =
                        "Compare this many of the propeller's blades, at the same tip speed and power, as in "
                        "2:6."},
    [CLI_STEP] = {"step", VALUE(NUMBER, WHAT_IF, "PERCENT"), RANGE(FRACTION, 0.001, 0.5), .unit = SAME("%"),
                  .meaning = "How far each number of the file is moved, as a share of it. Left out: by its spread "
                             "where the file states one, else by a tenth."},
    [CLI_BY] = {"by", VALUE(WORD, WHAT_IF, "ANSWER"), .words = "vmc|climb|bank",
                .meaning =
                    "What the order goes by: minimum control speed, the default, the climb on one engine, or "
                    "the bank without sideslip."},
    [CLI_UNCERTAIN] = {"uncertain", VALUE(TEXT, WHAT_IF, "NAME=SPREAD[:SHAPE]"), .repeats = 1,
                       .meaning =
                           "Gives an input a standard deviation, in its unit or in per cent, and a shape: "
                           "normal (the default), uniform, triangular or truncated (cut off at two). NAME is a "
                           "path of the file or an option of the condition. May be given more than once."},
    [CLI_CORRELATE] = {"correlate", VALUE(TEXT, WHAT_IF, "NAME,NAME=NUMBER"), .repeats = 1,
                       .meaning =
                           "How two uncertain inputs go together, from -1 to 1. May be given more than once."},
    [CLI_SAMPLES] = {"samples", VALUE(NUMBER, WHAT_IF, "NUMBER"), RANGE(NUMBER, 100, 1e8), .unit = SAME(""),
                     .meaning = "How many samples are drawn. Left out: 100000."},
    [CLI_SAMPLING] = {"sampling", VALUE(WORD, WHAT_IF, "WAY"), .words = "random|sobol",
                      .meaning = "Drawn at random, the default, or from a Sobol sequence, which fills the space "
                                 "evenly."},
    [CLI_SEED] = {"seed", VALUE(NUMBER, WHAT_IF, "NUMBER"), RANGE(NUMBER, 0, 4294967295.0), .unit = SAME(""),
                  .meaning = "Where the random numbers begin; the same seed gives the same result. Left out: 1."},
    [CLI_THREADS] = {"threads", VALUE(NUMBER, WHAT_IF, "NUMBER"), RANGE(NUMBER, 1, 64), .unit = SAME(""),
                     .meaning = "How many processors to use; the result is the same. Left out: all."},
    [CLI_EXCEEDS] = {"exceeds", VALUE(NUMBER, WHAT_IF, "SPEED"), RANGE(SPEED, 5, 200), .unit = {"kt", "kt", "m/s"},
                     .meaning =
                         "Asks how likely it is that the minimum control speed (calibrated) lies above this "
                         "one."},
    [CLI_INDICES] = {"indices", FLAG(WHAT_IF),
                     .meaning =
                         "Shares the variance out among the inputs: first-order and total Sobol indices, with "
                         "intervals. The inputs must be independent, and at most 20."},
    [CLI_PARTS] = {"parts", VALUE(TEXT, OUTPUT, "PART[,PART]"),
                   .meaning =
                       "Which parts, with commas: aeroplane, control, trends, critical, factors, propeller, "
                       "climb, failure, rules, questions. Left out: all."},
    [CLI_LIST] = {"list", FLAG(WHAT_IF),
                  .meaning = "List everything that can be varied or chosen here, and leave it at that."},
    [CLI_FULL] = {"full", FLAG(OUTPUT), .meaning = "Show everything, not only what matters most."},
    [CLI_BALL] = {"ball-width", VALUE(NUMBER, OUTPUT, "ANGLE"), RANGE(ANGLE, 1 * DEG, 20 * DEG),
                  .unit = SAME("deg"), .meaning = "The bank that moves the ball by its own width. Left out: 5."},
    [CLI_UNITS] = {"units", VALUE(WORD, OUTPUT, "SYSTEM"), .words = "us|metric|si",
                   .meaning = "Units of the results and of plain numbers. us, the default, has knots, feet and "
                              "pounds; metric has knots, feet and kilograms."},
    [CLI_FORMAT] = {"format", VALUE(WORD, OUTPUT, "FORMAT"), .words = "text|csv|json",
                    .meaning = "How the result is written. Left out: text."},
    [CLI_PAGE_FORMAT] = {"format", VALUE(WORD, OUTPUT, "FORMAT"), .words = "html|pdf",
                         .meaning =
                             "How the hand-out is written; pdf through a browser or another converter that is "
                             "installed. Left out: html."},
    [CLI_OUTPUT] = {"output", VALUE(TEXT, OUTPUT, "FILE"), .letter = 'o',
                    .meaning = "Write to this file instead of standard output; with csv, what was run is "
                               "described in FILE.meta.json beside it."},
    [CLI_PLOT] = {"plot", VALUE(TEXT, OUTPUT, "FOLDER"),
                  .meaning =
                      "Write charts into this folder: gnuplot scripts, and pictures when gnuplot is there."},
    [CLI_SLIDE] = {"slide", FLAG(OUTPUT), .meaning = "Charts for a lecture: wide, large type, few curves."},
    [CLI_FORCE] = {"force", FLAG(OUTPUT), .meaning = "Replace the file if it is there."},
    [CLI_AIRCRAFT] = {"aircraft", VALUE(TEXT, OUTPUT, "FILE"),
                      .meaning = "Write the aeroplane that comes out of it to this file."},
    [CLI_FLOOR] = {"floor", VALUE(NUMBER, LIMITS, "ALTITUDE"), RANGE(ALTITUDE, 0, 15000),
                   .unit = {"ft", "ft", "m"},
                   .meaning =
                       "Lowest pressure altitude of a test, for the height to recover in. Left out: 5000 ft."},
    [CLI_STALL_MARGIN] = {"stall-margin", VALUE(NUMBER, LIMITS, "SPEED"), RANGE(SPEED, 0, 50),
                          .unit = {"kt", "kt", "m/s"},
                          .meaning = "Least margin of a test above the stall. Left out: 5 kt."},
    [CLI_THRUST_DOUBT] = {"thrust-uncertainty", VALUE(NUMBER, WHAT_IF, "PERCENT"), RANGE(FRACTION, 0, 0.5),
                          .unit = SAME("%"),
                          .meaning =
                              "How well the thrust moment of the file is known, one standard deviation: with it "
                              "yaw derivatives are found, without it only their ratio."},
    [CLI_ACCURACY] = {"accuracy", VALUE(TEXT, WHAT_IF, "NAME=VALUE"), .repeats = 1,
                      .meaning =
                          "What an instrument is good for, one standard deviation: speed, bank, rudder, weight, "
                          "temperature, altitude or power, as in bank=0.3deg or weight=1%."},
    [CLI_HELP] = {"help", FLAG(OUTPUT), .meaning = "Show this help."},
};

/* Inputs as people read them. */
#ifndef LIVESIDE_REPORT_INPUT_WORDS_H
#define LIVESIDE_REPORT_INPUT_WORDS_H

#include "liveside/inputs.h"
#include "report/phrase.h"

/* "yaw.rudder", "left: hub.right", "flat four: engine.power": what fits into a column of a table. */
enum { LS_INPUT_WORDS = 45 };
const char *ls_input_short(const ls_input *input, char out[LS_INPUT_WORDS]);

/* The unit that an input's value is shown in, and a value or a step in it: "-0.075 /rad". */
const ls_unit *ls_input_unit(const ls_input *input, ls_unit_system units);
const char *ls_input_value(const ls_input *input, double value, ls_unit_system units, char out[LS_PHRASE]);
const char *ls_input_step(const ls_input *input, double step, ls_unit_system units, char out[LS_PHRASE]);

#endif

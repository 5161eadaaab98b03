/* The cautions that an answer needs for what it rests on; each study adds those of its own. */
#ifndef LIVESIDE_REPORT_CAUTION_H
#define LIVESIDE_REPORT_CAUTION_H

#include "report/report.h"

/* Given: uncertain, how many values of the file are estimated or assumed; bank_rad, of either sign; flags,
 * LS_PROPULSOR_ bits. */
void ls_report_cautions(ls_report *report, int uncertain, double bank_rad, unsigned flags);

/* The caution for a sideslip, of either sign, at which linear derivatives have ended. */
void ls_report_caution_sideslip(ls_report *report, double beta_rad);

#endif

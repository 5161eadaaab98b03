/* Findings in the order of the lines of the file. */
#ifndef LS_IO_LISTING_H
#define LS_IO_LISTING_H

#include "liveside/findings.h"

/* Sorts by line and column; those of the same place keep their order. */
void ls_findings_sort(ls_findings *findings);

#endif

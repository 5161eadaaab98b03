/* What is least well known about an aeroplane, and the ends of what it may be: a difference smaller than it moves
 * between them says nothing. */
#ifndef LIVESIDE_DOUBT_H
#define LIVESIDE_DOUBT_H

#include "liveside/parameter.h"

typedef struct {
    const char *path; /* of the file */
    double low, high; /* SI, or shares of the value */
    int is_share;
    const char *basis; /* where the range comes from */
} ls_doubt_row;

LS_API const ls_doubt_row *ls_doubts(int *count);

/* An aircraft with one doubtful number at an end of its range, in every element of its list.
 * Given: marks, whose spread of the value takes the place of the row's range; null: none; end 0 low, 1 high.
 * Returned: 1 and changed; 0 (changed is a copy) where the aircraft has no such number, or a zero: that is none.
 */
LS_API int ls_doubt_apply(const ls_aircraft *aircraft, const ls_marks *marks, int row, int end,
                          ls_aircraft *changed);

#endif

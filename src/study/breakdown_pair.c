/* Which two failures are compared. */
#include "study/breakdown_parts.h"

#include <math.h>

static const double same_m = 0.01;

/* The engine that stands where this one's mirror image would, or -1. */
static int counterpart(const ls_aircraft *aircraft, int engine)
{
    double wanted_m = -aircraft->engine[engine].hub_right_m;
    for (int i = 0; i < aircraft->engines; i++) {
        if (i != engine && fabs(aircraft->engine[i].hub_right_m - wanted_m) < same_m) {
            return i;
        }
    }
    return -1;
}

static unsigned mirrored(const ls_aircraft *aircraft, unsigned set)
{
    unsigned mirror = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        int other = set >> i & 1u ? counterpart(aircraft, i) : -2;
        if (other == -1) {
            return 0;
        }
        mirror |= other >= 0 ? 1u << other : 0u;
    }
    return mirror != set ? mirror : 0;
}

/* The engine farthest out on a side, or -1. */
static int outermost(const ls_aircraft *aircraft, int side)
{
    int found = -1;
    double farthest_m = same_m;
    for (int i = 0; i < aircraft->engines; i++) {
        double out_m = side * aircraft->engine[i].hub_right_m;
        if (out_m > farthest_m) {
            farthest_m = out_m;
            found = i;
        }
    }
    return found;
}

int ls_breakdown_pair(const ls_aircraft *aircraft, const ls_vmca_request *request,
                      unsigned failed[LS_BREAKDOWN_SIDES])
{
    int left = outermost(aircraft, -1), right = outermost(aircraft, +1);
    if (aircraft->engines < 2) {
        return 0;
    }
    if (request->sets == 1) {
        failed[0] = request->set[0];
        failed[1] = mirrored(aircraft, failed[0]);
        return failed[1] != 0 ? 2 : 1;
    }
    failed[0] = left >= 0 && right >= 0 ? 1u << left : 1u;
    failed[1] = left >= 0 && right >= 0 ? 1u << right : 2u;
    return 2;
}

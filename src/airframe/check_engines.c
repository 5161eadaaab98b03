/* Plausibility of where the engines stand. */
#include "airframe/check.h"

#include <math.h>

/* Closer than this to the plane of symmetry an engine is on it; closer than this two engines mirror each other. */
static const double near_m = 0.02;
static const double near_rad = 0.005;

static int is_mirror(const ls_engine_mount *a, const ls_engine_mount *b)
{
    return fabs(a->hub_right_m + b->hub_right_m) <= near_m && fabs(a->hub_aft_m - b->hub_aft_m) <= near_m &&
           fabs(a->hub_down_m - b->hub_down_m) <= near_m && fabs(a->tilt_rad - b->tilt_rad) <= near_rad &&
           fabs(a->toe_rad + b->toe_rad) <= near_rad && a->powerplant == b->powerplant;
}

static int is_placed(const ls_engine_mount *engine)
{
    return ls_given(engine->hub_right_m) && ls_given(engine->hub_aft_m);
}

static int has_mirror(const ls_aircraft *a, int engine)
{
    for (int other = 0; other < a->engines; other++) {
        /* One whose place is not known yet may be the mirror. */
        if (other != engine &&
            (!is_placed(&a->engine[other]) || is_mirror(&a->engine[engine], &a->engine[other]))) {
            return 1;
        }
    }
    return 0;
}

static void check_place(const ls_check *check, int i)
{
    const ls_aircraft *a = check->aircraft;
    const ls_engine_mount *engine = &a->engine[i];
    if (fabs(engine->hub_right_m) > 0.5 * a->wing.span_m) {
        ls_check_add(check, LS_REJECT, "engines[].hub.right", i, "%.2f m is beyond the wing tip, %.2f m",
                     engine->hub_right_m, 0.5 * a->wing.span_m);
        return;
    }
    if (is_placed(engine) && fabs(engine->hub_right_m) > near_m && !has_mirror(a, i)) {
        ls_check_add(check, LS_WARNING, "engines[].hub.right", i,
                     "engine '%s' has no mirror image (same powerplant, place, tilt and toe): the aeroplane is "
                     "taken as unsymmetrical",
                     engine->name);
    }
}

/* Two engines in one place are a slip of copying. */
static void check_apart(const ls_check *check, int i)
{
    const ls_engine_mount *engine = check->aircraft->engine;
    for (int other = 0; other < i; other++) {
        if (fabs(engine[i].hub_right_m - engine[other].hub_right_m) <= near_m &&
            fabs(engine[i].hub_aft_m - engine[other].hub_aft_m) <= near_m &&
            fabs(engine[i].hub_down_m - engine[other].hub_down_m) <= near_m) {
            ls_check_add(check, LS_REJECT, "engines[].hub.right", i, "this engine stands where engines[%d] stands",
                         other + 1);
            return;
        }
    }
}

static void check_asymmetry(const ls_check *check)
{
    const ls_aircraft *a = check->aircraft;
    int off_centre = 0;
    for (int i = 0; i < a->engines; i++) {
        off_centre += !is_placed(&a->engine[i]) || fabs(a->engine[i].hub_right_m) > near_m;
    }
    if (a->engines == 1) {
        ls_check_add(check, LS_WARNING, "engines[].name", 0,
                     "the only engine: when it fails no engine is left to hold the aeroplane against");
    } else if (a->engines > 1 && off_centre == 0) {
        ls_check_add(check, LS_WARNING, "engines[].hub.right", 0,
                     "every engine is on the centreline: no failure makes the thrust asymmetric");
    }
}

void ls_check_engines(const ls_check *check)
{
    for (int i = 0; i < check->aircraft->engines; i++) {
        check_place(check, i);
        check_apart(check, i);
    }
    check_asymmetry(check);
}

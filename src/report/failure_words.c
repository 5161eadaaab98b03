/* The verdict in words, and the facts under it. */
#include "report/failure_parts.h"

#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

/* "12.3 deg toward the dead engine", "none". */
static const char *angle_text(const ls_failure_view *view, double angle_rad, char out[LS_PHRASE])
{
    double dead_rad = ls_failure_toward_dead(view, angle_rad);
    if (fabs(angle_rad) < 0.05 * DEG) {
        snprintf(out, LS_PHRASE, "none");
    } else if (view->failure->live_side == 0) {
        snprintf(out, LS_PHRASE, "%.1f deg to the %s", fabs(angle_rad) / DEG, angle_rad > 0 ? "right" : "left");
    } else {
        snprintf(out, LS_PHRASE, "%.1f deg toward the %s engine", fabs(angle_rad) / DEG,
                 dead_rad > 0 ? "dead" : "live");
    }
    return out;
}

static int is_lost(const ls_motion *motion)
{
    return motion->end != LS_MOTION_TIME && motion->end != LS_MOTION_STRAIGHT && motion->end != LS_MOTION_GROUND;
}

/* "wing stall": what ends it, for a list of times. */
static const char *short_end(ls_motion_end end)
{
    static const char *const names[LS_MOTION_ENDS] = {"end",           "straight flight", "fin stall",
                                                      "wing stall",    "60 deg of bank",  "ground",
                                                      "limits passed", "breakdown"};
    return names[end];
}

static void verdict(ls_report *report, const ls_failure_view *view)
{
    const ls_motion *motion = &view->failure->with_action;
    char name[LS_PHRASE], speed[LS_PHRASE], angle[LS_PHRASE];
    ls_phrase_set(view->aircraft, view->failure->request.failed, name);
    ls_phrase_cas(motion->start.cas_m_s, view->units, view->uncertain, speed);
    angle_text(view, motion->heading_most_rad, angle);
    if (view->recovery != NULL && view->recovery->is_regained) {
        ls_report_answer(report, "%s, %.60s engine failing at %s: control regained %.1f s after throttling.",
                         view->aircraft->name, name, speed, view->recovery->seconds);
    } else if (is_lost(motion)) {
        ls_report_answer(report, "%s, %.60s engine failing at %s: control is lost; %s after %.1f s.",
                         view->aircraft->name, name, speed, ls_motion_end_text(motion->end), motion->end_s);
    } else if (motion->end == LS_MOTION_GROUND) {
        ls_report_answer(report, "%s, %.60s engine failing at %s: the ground is reached after %.1f s.",
                         view->aircraft->name, name, speed, motion->end_s);
    } else if (fabs(motion->heading_most_rad) > LS_HEADING_LIMIT_RAD) {
        ls_report_answer(
            report, "%s, %.60s engine failing at %s: the heading changes by %s, more than the 20 deg allowed.",
            view->aircraft->name, name, speed, angle);
    } else {
        ls_report_answer(report, "%s, %.60s engine failing at %s: held, the heading changing by %s.",
                         view->aircraft->name, name, speed, angle);
    }
    ls_report_line(report, "%s", "");
}

static void say_pilot(ls_report *report, const ls_failure_view *view)
{
    const ls_motion_request *request = &view->failure->request;
    char bank[LS_PHRASE], name[LS_PHRASE];
    int side = view->failure->live_side;
    ls_failure_fact(report, "failed", "%s, %s", ls_phrase_set(view->aircraft, request->failed, name),
                    request->state == LS_FEATHERED ? "feathering by itself"
                                                   : ls_engine_state_name(request->state));
    if (isfinite(request->delay_s)) {
        ls_phrase_bank(side < 0 ? -request->bank_rad : request->bank_rad, side,
                       view->aircraft->engines - ls_set_size(request->failed), bank);
        ls_failure_fact(report, "pilot", "after %.1f s holds heading, %s", request->delay_s, bank);
        ls_failure_fact(report, "nose", "%s",
                        request->hold == LS_HOLD_ATTITUDE
                            ? "pitch attitude kept"
                            : "then lowered to what keeps the airspeed on the power left");
    } else {
        ls_failure_fact(report, "pilot", "does nothing; the pitch attitude is kept");
    }
}

/* Where and when the rudder ran into a stop. */
static void say_rudder(ls_report *report, const ls_motion *motion)
{
    if (!isnan(motion->rudder_stop_s)) {
        ls_failure_fact(report, "rudder", "all of its travel from %.1f s", motion->rudder_stop_s);
    }
    if (!isnan(motion->pedal_limit_s)) {
        ls_failure_fact(report, "pedal", "at the force limit from %.1f s", motion->pedal_limit_s);
    }
}

static void say_losses(ls_report *report, const ls_failure_view *view, const ls_motion *motion)
{
    char height[LS_PHRASE], speed[LS_PHRASE], end[LS_PHRASE];
    ls_phrase_value(fabs(motion->climbed_least_m), LS_DIM_ALTITUDE, NULL, view->units, 0, height);
    ls_phrase_value(fabs(motion->last.climbed_m), LS_DIM_ALTITUDE, NULL, view->units, 0, end);
    ls_phrase_speed(fmax(0.0, motion->start.cas_m_s - motion->cas_least_m_s), view->units, 0, speed);
    ls_failure_fact(report, "height, speed", "%s lost at most, %s %s after %.0f s; %s lost at most", height, end,
                    motion->last.climbed_m < 0.0 ? "down" : "up", motion->end_s, speed);
}

static void say_motion(ls_report *report, const ls_failure_view *view)
{
    const ls_motion *motion = &view->failure->with_action;
    char angle[LS_PHRASE], wind[LS_PHRASE];
    ls_failure_fact(report, "heading", "%s at most, after %.1f s",
                    angle_text(view, motion->heading_most_rad, angle), motion->heading_most_s);
    ls_failure_fact(report, "bank", "%s at most", angle_text(view, motion->bank_most_rad, angle));
    ls_failure_fact(report, "sideslip", "%s at most",
                    ls_phrase_wind(motion->beta_most_rad, view->failure->live_side, wind));
    if (!isnan(motion->straight_s)) {
        ls_failure_fact(report, "straight", "from %.0f s on, heading %s", motion->straight_s,
                        angle_text(view, motion->last.heading_rad, angle));
    }
    say_rudder(report, motion);
    if (view->recovery == NULL) {
        say_losses(report, view, motion);
    }
}

static void say_no_action(ls_report *report, const ls_failure_view *view)
{
    const ls_motion *motion = &view->failure->no_action;
    char then[LS_PHRASE] = "";
    if (is_lost(motion)) {
        snprintf(then, sizeof then, "; %s at %.1f s", short_end(motion->end), motion->end_s);
    }
    if (isnan(motion->heading_limit_s)) {
        ls_failure_fact(report, "no action", "the heading does not change by 20 deg%s", then);
    } else {
        ls_failure_fact(report, "no action", "20 deg of heading at %.1f s%s", motion->heading_limit_s, then);
    }
}

static void say_propeller(ls_report *report, const ls_failure_view *view)
{
    const ls_motion *motion = &view->failure->with_action;
    char drag[LS_PHRASE], latch[LS_PHRASE] = "";
    if (motion->start.failed_rev_s <= 0.0) {
        return;
    }
    ls_phrase_value(-motion->drag_most_N, LS_DIM_FORCE, NULL, view->units, 0, drag);
    if (motion->feather_latched) {
        snprintf(latch, sizeof latch, "; too slow to feather at %.0f rpm", 60.0 * motion->feather_rev_s);
    } else if (!isnan(motion->stopped_s)) {
        snprintf(latch, sizeof latch, "; stands from %.1f s", motion->stopped_s);
    }
    ls_failure_fact(report, "propeller", "%.0f rpm, most drag %s after %.1f s%s", 60.0 * motion->last.failed_rev_s,
                    drag, motion->drag_most_s, latch);
}

static void say_speeds(ls_report *report, const ls_failure_view *view)
{
    const ls_failure *failure = view->failure;
    char speed[LS_PHRASE];
    if (isfinite(failure->fixed.control_cas_m_s)) {
        ls_failure_fact(report, "static VMC", "%s (%s), same bank and loading%s",
                        ls_phrase_cas(failure->fixed.control_cas_m_s, view->units, view->uncertain, speed),
                        ls_limit_name(failure->fixed.control_limit),
                        failure->fixed.kind == LS_VMC_STALLS_FIRST ? "; the wing stalls first" : "");
    } else {
        ls_failure_fact(report, "static VMC", "no control limit is met");
    }
    if (!isfinite(failure->request.delay_s)) {
        return;
    }
    const ls_dynamic_vmc *asked = &failure->asked;
    if (asked->status != LS_OK || isnan(asked->cas_m_s)) {
        ls_failure_fact(report, "dynamic VMC", "none: %s", asked->reason);
    } else if (!asked->is_lowest) {
        ls_failure_fact(report, "dynamic VMC", "none above the stall with %.1f s of delay", asked->delay_s);
    } else {
        ls_failure_fact(report, "dynamic VMC", "%s with %.1f s of delay, airspeed held, 20 deg allowed",
                        ls_phrase_cas(asked->reported_cas_m_s, view->units, view->uncertain, speed),
                        asked->delay_s);
    }
}

void ls_failure_say(ls_report *report, const ls_failure_view *view)
{
    verdict(report, view);
    say_pilot(report, view);
    say_motion(report, view);
    say_no_action(report, view);
    say_propeller(report, view);
    say_speeds(report, view);
}

static void say_recovery(ls_report *report, const ls_failure_view *view)
{
    const ls_recovery *recovery = view->recovery;
    char height[LS_PHRASE], speed[LS_PHRASE];
    if (!recovery->is_regained) {
        ls_failure_fact(report, "recovery", "from %.1f s: not regained, %s", view->failure->request.recover_s,
                        short_end(view->failure->with_action.end));
        return;
    }
    ls_phrase_value(fmax(0.0, recovery->height_lost_m), LS_DIM_ALTITUDE, NULL, view->units, 0, height);
    ls_phrase_cas(recovery->cas_m_s, view->units, view->uncertain, speed);
    ls_failure_fact(report, "recovery", "power off, nose down at %.1f s: %.1f s, %s lower, %s",
                    view->failure->request.recover_s, recovery->seconds, height, speed);
}

static void say_demonstration(ls_report *report, const ls_failure_view *view)
{
    const ls_slowing *shown = view->demonstration;
    char speed[LS_PHRASE], end[LS_PHRASE];
    const char *after = short_end(shown->motion.end);
    ls_phrase_cas(shown->end_cas_m_s, view->units, view->uncertain, end);
    if (shown->control_first) {
        ls_failure_fact(report, "demonstration", "%s: %s first, at %s; %s at %s",
                        ls_engine_state_name(shown->state),
                        shown->by_force ? "pedal-force limit" : "rudder travel",
                        ls_phrase_cas(shown->rudder_cas_m_s, view->units, view->uncertain, speed), after, end);
    } else {
        ls_failure_fact(report, "demonstration", "%s: %s first, at %s, with rudder left",
                        ls_engine_state_name(shown->state), after, end);
    }
}

void ls_failure_say_modes(ls_report *report, const ls_failure_view *view)
{
    if (view->recovery != NULL) {
        say_recovery(report, view);
    }
    if (view->demonstration != NULL) {
        say_demonstration(report, view);
    }
}

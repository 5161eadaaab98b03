/* The propeller's answer in words, and what its unit is doing. */
#include "report/prop_parts.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

const char *ls_prop_rpm(double n_rev_s, char out[LS_PHRASE])
{
    snprintf(out, LS_PHRASE, "%.0f RPM", 60.0 * n_rev_s);
    return out;
}

const char *ls_prop_force(const ls_prop_view *view, double force_N, char out[LS_PHRASE])
{
    return ls_phrase_value(force_N, LS_DIM_FORCE, NULL, view->units, 0, out);
}

const char *ls_prop_state_text(ls_engine_state state)
{
    static const char *const names[LS_ENGINE_STATES] = {[LS_RUNNING] = "running",
                                                        [LS_WINDMILLING] = "windmilling, lever forward",
                                                        [LS_FEATHERED] = "feathered",
                                                        [LS_STOPPED] = "stopped, not feathered",
                                                        [LS_PARTIAL] = "partial power",
                                                        [LS_LEVER_AFT] = "windmilling, lever aft",
                                                        [LS_IDLE] = "idling, throttle closed",
                                                        [LS_ZERO_THRUST] = "set to zero thrust"};
    return (unsigned)state < LS_ENGINE_STATES ? names[state] : "unknown";
}

/* ---- what the unit is doing ---- */

static const ls_propeller_data *propeller_of(const ls_prop_view *view)
{
    return &view->study->powerplant->data->propeller;
}

static double coarser_deg(const ls_prop_view *view, const ls_prop_point *at)
{
    return (at->pitch_rad - propeller_of(view)->fine_pitch_rad) / DEG;
}

static void sentence(char out[LS_PROP_SENTENCE], const char *format, ...) LS_PRINTF(2, 3);

static void sentence(char out[LS_PROP_SENTENCE], const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(out, LS_PROP_SENTENCE, format, arguments);
    va_end(arguments);
}

static void say_running(const ls_prop_view *view, const ls_prop_point *at, char out[LS_PROP_SENTENCE])
{
    char lever[LS_PHRASE];
    ls_prop_rpm(at->lever_rev_s, lever);
    if (at->flags & LS_PROPULSOR_FINE_STOP) {
        sentence(out, "On the fine stop: the engine does not reach the %s that the lever asks for.", lever);
    } else {
        sentence(out, "Governing: it holds %s, the blades %.1f deg coarser than the fine stop.", lever,
                 coarser_deg(view, at));
    }
}

static void say_closed(const ls_prop_point *at, char out[LS_PROP_SENTENCE])
{
    char lever[LS_PHRASE];
    ls_prop_rpm(at->lever_rev_s, lever);
    if (at->flags & LS_PROPULSOR_FINE_STOP) {
        sentence(out, "It went fine to keep %s and is on the stop: from here RPM follows airspeed.", lever);
    } else {
        sentence(out, "Still governing: the air turns the propeller fast enough for %s.", lever);
    }
}

static void say_forward(const ls_prop_point *at, char out[LS_PROP_SENTENCE])
{
    char lever[LS_PHRASE];
    ls_prop_rpm(at->lever_rev_s, lever);
    if (at->flags & LS_PROPULSOR_STOPS) {
        sentence(out, "Stopped on the fine stop: at this speed the air cannot turn the dead engine.");
    } else if (at->flags & LS_PROPULSOR_FINE_STOP) {
        sentence(out, "It went fine to keep %s and is on the stop; the air turns the dead engine.", lever);
    } else {
        sentence(out, "The air turns the dead engine at the governed %s.", lever);
    }
}

static void say_aft(const ls_prop_view *view, const ls_prop_point *at, char out[LS_PROP_SENTENCE])
{
    char lever[LS_PHRASE];
    ls_prop_rpm(at->lever_rev_s, lever);
    if (at->flags & LS_PROPULSOR_STOPS) {
        sentence(out, "Stopped on the fine stop, as with the lever forward.");
    } else if (at->flags & LS_PROPULSOR_FINE_STOP) {
        sentence(out, "On the fine stop: it turns slower than %s, so the lever changes nothing.", lever);
    } else {
        sentence(out, "It holds the least RPM, %s: the blades are %.1f deg coarser and drag less.", lever,
                 coarser_deg(view, at));
    }
}

static void say_feathered(const ls_prop_view *view, const ls_prop_point *at, char out[LS_PROP_SENTENCE])
{
    char torque[LS_PHRASE];
    ls_phrase_value(fabs(at->torque_Nm), LS_DIM_TORQUE, NULL, view->units, 0, torque);
    if (at->flags & LS_PROPULSOR_TURNS) {
        sentence(out, "Edge-on, but the air's %.40s is more than holds the engine: it turns slowly.", torque);
    } else {
        sentence(out, "Edge-on and standing still; the air's %.40s does not turn the engine.", torque);
    }
}

const char *ls_prop_doing(const ls_prop_view *view, ls_phase phase, char out[LS_PROP_SENTENCE])
{
    const ls_prop_point *at = &view->flight->phase[phase];
    if (at->status != LS_OK) {
        sentence(out, "No such point: %s", at->reason);
    } else if (at->flags & LS_PROPULSOR_COARSE_STOP) {
        sentence(out, "On the coarse stop: it turns faster than the set speed and nothing holds it.");
    } else if (phase == LS_PHASE_CLOSED) {
        say_closed(at, out);
    } else if (phase == LS_PHASE_FORWARD) {
        say_forward(at, out);
    } else if (phase == LS_PHASE_AFT) {
        say_aft(view, at, out);
    } else if (phase == LS_PHASE_FEATHERED) {
        say_feathered(view, at, out);
    } else {
        say_running(view, at, out);
    }
    return out;
}

/* ---- the answer ---- */

static const ls_prop_point *state_point(const ls_prop_view *view, ls_engine_state state)
{
    const ls_idle_demonstration *demonstration = view->demonstration;
    for (int i = 0; i < demonstration->count; i++) {
        if (demonstration->state[i] == state && demonstration->point[i].status == LS_OK) {
            return &demonstration->point[i];
        }
    }
    return NULL;
}

static void say_answer(ls_report *report, const ls_prop_view *view)
{
    char at_rest[LS_PHRASE], in_climb[LS_PHRASE], speed[LS_PHRASE], dead[LS_PHRASE], feathered[LS_PHRASE] = "";
    const ls_prop_point *run_up = &view->flight->phase[LS_PHASE_RUN_UP];
    const ls_prop_point *climb = &view->flight->phase[LS_PHASE_CLIMB];
    const ls_prop_point *windmill = state_point(view, LS_WINDMILLING), *feather = state_point(view, LS_FEATHERED);
    const char *name = view->study->aircraft->name;
    if (run_up->status != LS_OK || climb->status != LS_OK || windmill == NULL) {
        ls_report_answer(report, "%s: its propeller has no answer here: %s%s", name, run_up->reason,
                         climb->reason);
        return;
    }
    if (feather != NULL) {
        snprintf(feathered, sizeof feathered, " and %.40s feathered",
                 ls_prop_force(view, fmax(0.0, -feather->thrust_N), dead));
    }
    ls_report_answer(report, "%s: a propeller pulls %s at rest and %s in the climb; dead, at %s, it drags %s%s.",
                     name, ls_prop_force(view, run_up->thrust_N, at_rest),
                     ls_prop_force(view, climb->thrust_N, in_climb),
                     ls_phrase_cas(view->cas_m_s, view->units, view->uncertain, speed),
                     ls_prop_force(view, -windmill->thrust_N, dead), feathered);
}

static void fact(ls_report *report, const char *name, const char *format, ...) LS_PRINTF(3, 4);

static void fact(ls_report *report, const char *name, const char *format, ...)
{
    char text[2 * LS_PHRASE];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    ls_report_line(report, "  %-14s%s", name, text);
}

static void say_propeller(ls_report *report, const ls_prop_view *view)
{
    char diameter[LS_PHRASE], stops[LS_PHRASE] = "";
    size_t used = 0;
    const ls_propeller_data *propeller = propeller_of(view);
    const struct {
        const char *name;
        double pitch_rad;
    } rows[] = {{"fine stop", propeller->fine_pitch_rad},
                {"coarse", propeller->coarse_pitch_rad},
                {"feather", propeller->feather_pitch_rad}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (ls_given(rows[i].pitch_rad)) {
            used += (size_t)snprintf(stops + used, sizeof stops - used, ", %s %.1f", rows[i].name,
                                     rows[i].pitch_rad / DEG);
        }
    }
    fact(report, "propeller", "%s, %.0f blades, %s%s deg", view->study->aircraft->engine[view->study->engine].name,
         propeller->blades, ls_phrase_value(propeller->diameter_m, LS_DIM_LENGTH, "in", view->units, 1, diameter),
         stops);
    fact(report, "blades", "cover %.1f %% of the disc; activity factor %.0f a blade",
         100.0 * view->study->solidity, view->study->activity_factor);
}

static void say_rating(ls_report *report, const ls_prop_view *view)
{
    char power[LS_PHRASE], rpm[LS_PHRASE];
    const ls_engine_data *engine = &view->study->powerplant->data->engine;
    ls_phrase_value(engine->power_W, LS_DIM_POWER, NULL, view->units, 0, power);
    ls_prop_rpm(view->study->rated_rev_s, rpm);
    if (engine->time_limit_s > 0.0) {
        fact(report, "take-off", "%s at %s, for %.3g minutes at most", power, rpm, engine->time_limit_s / 60.0);
    } else {
        fact(report, "take-off", "%s at %s, without a time limit", power, rpm);
    }
    if (engine->continuous < 1.0) {
        fact(report, "continuous", "%.0f %% of that, without a time limit", 100.0 * engine->continuous);
    }
}

/* Where the dead propeller changes its ways. */
static void say_limits(ls_report *report, const ls_prop_view *view)
{
    char speed[LS_PHRASE], rpm[LS_PHRASE];
    const ls_dead_by_speed *dead = view->by_speed;
    const ls_propeller_data *propeller = propeller_of(view);
    if (isfinite(dead->stops_cas_m_s)) {
        fact(report, "stops", "below %s the air no longer turns the dead engine",
             ls_phrase_cas(dead->stops_cas_m_s, view->units, view->uncertain, speed));
    }
    if (isfinite(dead->latched_cas_m_s)) {
        fact(report, "no feathering", "below %s: it turns slower than the latch's %s",
             ls_phrase_cas(dead->latched_cas_m_s, view->units, view->uncertain, speed),
             ls_prop_rpm(propeller->feather_latch_rev_s, rpm));
    }
    if (isfinite(dead->aft_cas_m_s)) {
        fact(report, "lever aft", "lowers the drag above %s; slower it changes nothing",
             ls_phrase_cas(dead->aft_cas_m_s, view->units, view->uncertain, speed));
    }
}

/* How far an engine at idle is from a dead one. */
static void say_idle(ls_report *report, const ls_prop_view *view)
{
    char drag[LS_PHRASE], by[LS_PHRASE];
    const ls_idle_demonstration *demonstration = view->demonstration;
    const ls_prop_point *idle = state_point(view, LS_IDLE), *dead = state_point(view, LS_WINDMILLING);
    const ls_vmca_point *vmc = demonstration->vmc;
    if (idle == NULL || dead == NULL) {
        return;
    }
    ls_prop_force(view, idle->thrust_N - dead->thrust_N, drag);
    int at_idle = 0;
    while (demonstration->state[at_idle] != LS_IDLE) {
        at_idle++;
    }
    if (vmc[0].status == LS_OK && vmc[at_idle].status == LS_OK && vmc[0].vmc.kind == LS_VMC_CONTROL &&
        vmc[at_idle].vmc.kind == LS_VMC_CONTROL) {
        fact(report, "idle demo", "a closed throttle drags %s less, and VMC is %s too low", drag,
             ls_phrase_by(vmc[0].vmc.cas_m_s - vmc[at_idle].vmc.cas_m_s, view->units, view->uncertain, by));
    } else {
        fact(report, "idle demo", "a closed throttle drags %s less", drag);
    }
}

/* ---- cautions ---- */

static unsigned flags_of_flight(const ls_prop_view *view)
{
    unsigned flags = 0;
    for (int i = 0; i < LS_PHASES; i++) {
        flags |= view->flight->phase[i].flags;
    }
    return flags;
}

static void warn(ls_report *report, const ls_prop_view *view)
{
    unsigned flags = flags_of_flight(view);
    if (flags & LS_PROPULSOR_TIP_MACH) {
        ls_report_warning(report, "The propeller's tips pass Mach %.2f, where the section data end.", LS_TIP_MACH);
    }
    if (flags & LS_PROPULSOR_TABLE_EDGE) {
        ls_report_warning(report, "The propeller leaves the range of its table: the nearest point was taken.");
    }
    if (flags & LS_PROPULSOR_COARSE_STOP) {
        ls_report_warning(report, "The propeller is on its coarse stop and runs above its governed speed.");
    }
    if ((flags & LS_PROPULSOR_LATCHED) || view->by_speed->latched_cas_m_s > view->cas_m_s) {
        ls_report_warning(report,
                          "The dead propeller, left to windmill, turns too slowly to be feathered any more.");
    }
    if (view->flight->phase[LS_PHASE_FEATHERED].flags & LS_PROPULSOR_TURNS) {
        ls_report_warning(report, "The feathered propeller would turn: its torque exceeds the break-out torque.");
    }
    if (view->uncertain > 0) {
        ls_report_warning(report, "%d of the file's values %s estimated or assumed.", view->uncertain,
                          view->uncertain == 1 ? "is" : "are");
    }
}

void ls_prop_say(ls_report *report, const ls_prop_view *view)
{
    say_answer(report, view);
    ls_report_line(report, "%s", "");
    say_propeller(report, view);
    say_rating(report, view);
    say_limits(report, view);
    say_idle(report, view);
    ls_report_line(report, "%s", "");
    warn(report, view);
}

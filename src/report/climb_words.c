/* The answer in words. */
#include "report/climb_parts.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

enum { NAME_COLUMNS = 16, TEXT_COLUMNS = LS_TEXT_COLUMNS - 2 - NAME_COLUMNS };

/* One fact a line, its name in front; what does not fit goes on under it. */
static void fact(ls_report *report, const char *name, const char *format, ...) LS_PRINTF(3, 4);

static void fact(ls_report *report, const char *name, const char *format, ...)
{
    char text[3 * LS_PHRASE];
    const char *rest = text;
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    while (*rest != '\0') {
        int length = (int)strlen(rest), shown = length;
        if (length > TEXT_COLUMNS) {
            for (shown = TEXT_COLUMNS; shown > 0 && rest[shown] != ' '; shown--) {
            }
            shown = shown > 0 ? shown : length;
        }
        ls_report_line(report, "  %-*s%.*s", NAME_COLUMNS, rest == text ? name : "", shown, rest);
        rest += shown;
        rest += strspn(rest, " ");
    }
}

static int live_engines(const ls_climb_view *view, const ls_performance_case *of)
{
    return view->request->aircraft->engines - ls_set_size(of->failed);
}

/* "the left failed and feathered", "the left at 50 % power". */
static const char *failure_text(const ls_climb_view *view, const ls_performance_case *of, char out[LS_PHRASE])
{
    char name[LS_PHRASE];
    ls_phrase_set(view->request->aircraft, of->failed, name);
    if (of->state == LS_PARTIAL) {
        snprintf(out, LS_PHRASE, "the %.80s at %.0f %% power", name, 100.0 * of->condition.partial);
    } else if (of->state == LS_IDLE || of->state == LS_ZERO_THRUST) {
        snprintf(out, LS_PHRASE, "the %.80s %s", name, ls_engine_state_name(of->state));
    } else {
        snprintf(out, LS_PHRASE, "the %.80s failed and %s", name, ls_engine_state_name(of->state));
    }
    return out;
}

static void say_answer(ls_report *report, const ls_climb_view *view, const ls_performance_case *one)
{
    const ls_performance_case *all = &view->performance->all;
    const char *name = view->request->aircraft->name;
    char rate[LS_PHRASE], speed[LS_PHRASE], failure[LS_PHRASE];
    const ls_performance_case *of = one != NULL ? one : all;
    const ls_climb_point *best = &of->rate.point;
    ls_climb_rate_text(view, fabs(best->rate_m_s), rate);
    ls_phrase_cas(best->cas_m_s, view->units, view->uncertain, speed);
    if (of->rate.end == LS_CLIMB_NOT_HELD) {
        ls_report_answer(report, "%s: with %s no speed can be held straight.", name,
                         one != NULL ? failure_text(view, one, failure) : "every engine running");
    } else if (one == NULL) {
        ls_report_answer(report, "%s: climbs %s at %s with every engine running.", name, rate, speed);
    } else if (best->rate_m_s < 0.0) {
        ls_report_answer(report, "%s: with %s it cannot hold level here: it sinks %s at best, at %s.", name,
                         failure_text(view, one, failure), rate, speed);
    } else {
        ls_report_answer(report, "%s: with %s it climbs %s at %s; %.0f %% of the climb is lost.", name,
                         failure_text(view, one, failure), rate, speed, 100.0 * one->lost);
    }
    ls_report_line(report, "%s", "");
}

/* Why the best speed is not inside the range. */
static const char *end_text(const ls_climb_best *best, char out[LS_PHRASE])
{
    switch (best->end) {
    case LS_CLIMB_LEAST:
        snprintf(out, LS_PHRASE, " (%.1f VS; better still when slower)", LS_LEAST_STALLS);
        break;
    case LS_CLIMB_SLOWEST:
        snprintf(out, LS_PHRASE, " (the slowest held: %s)", ls_limit_name(best->point.limit));
        break;
    case LS_CLIMB_FASTEST:
        snprintf(out, LS_PHRASE, " (the fastest looked at)");
        break;
    default:
        out[0] = '\0';
    }
    return out;
}

static void say_best(ls_report *report, const ls_climb_view *view, const ls_performance_case *of,
                     const char *rate_name, const char *gradient_name)
{
    char rate[LS_PHRASE], speed[LS_PHRASE], bank[LS_PHRASE], end[LS_PHRASE];
    const ls_climb_best *best = &of->rate;
    if (best->end == LS_CLIMB_NOT_HELD) {
        return;
    }
    for (int aim = 0; aim < 2; aim++) {
        best = aim == 0 ? &of->rate : &of->gradient;
        ls_phrase_cas(best->point.cas_m_s, view->units, view->uncertain, speed);
        ls_phrase_bank(ls_climb_live_bank(of, &best->point), of->live_side, live_engines(view, of), bank);
        if (aim == 0) {
            ls_climb_rate_text(view, best->point.rate_m_s, rate);
        } else {
            snprintf(rate, sizeof rate, "%.1f %%", 100.0 * best->point.gradient);
        }
        fact(report, aim == 0 ? rate_name : gradient_name, "%s at %s, %s%s", rate, speed, bank,
             end_text(best, end));
    }
}

/* What the failed propeller costs before it is feathered. */
static void say_states(ls_report *report, const ls_climb_view *view, const ls_performance_case *one)
{
    char rate[LS_PHRASE], speed[LS_PHRASE], less[LS_PHRASE];
    const ls_performance_set *set = &view->performance->set[view->performance->worst];
    const ls_performance_case *windmilling = &set->by_state[0];
    if (windmilling == one || windmilling->status != LS_OK || one->state != LS_FEATHERED) {
        return;
    }
    fact(report, "windmilling", "%s at %s: %s less",
         ls_climb_rate_text(view, windmilling->rate.point.rate_m_s, rate),
         ls_phrase_cas(windmilling->rate.point.cas_m_s, view->units, view->uncertain, speed),
         ls_climb_rate_text(view, one->rate.point.rate_m_s - windmilling->rate.point.rate_m_s, less));
}

static void say_bank(ls_report *report, const ls_climb_view *view, const ls_performance_case *one)
{
    char zero[LS_PHRASE], level[LS_PHRASE], limit[LS_PHRASE];
    const ls_climb_by_bank *banks = view->banks;
    if (banks == NULL || one->live_side == 0 || banks->no_sideslip.status != LS_OK ||
        banks->best.status != LS_OK || banks->level.status != LS_OK || banks->limit.status != LS_OK) {
        return;
    }
    double best_m_s = banks->best.point.rate_m_s;
    ls_phrase_bank(banks->no_sideslip.bank_rad, one->live_side, live_engines(view, one), zero);
    ls_climb_rate_text(view, best_m_s - banks->level.point.rate_m_s, level);
    ls_climb_rate_text(view, best_m_s - banks->limit.point.rate_m_s, limit);
    fact(report, "no sideslip", "%s, ball %.1f widths out", zero,
         fabs(banks->no_sideslip.bank_rad) / view->ball_rad);
    fact(report, "bank costs", "wings level %s, %.3g deg %s, against the best bank", level,
         banks->limit.bank_rad / DEG, limit);
}

static void say_ceilings(ls_report *report, const ls_climb_view *view, const ls_performance_case *one)
{
    char service[LS_PHRASE], absolute[LS_PHRASE];
    const ls_performance_case *all = &view->performance->all;
    fact(report, "ceiling, all", "service %s (100 ft/min), absolute %s",
         ls_climb_ceiling_text(view, &all->service, service),
         ls_climb_ceiling_text(view, &all->absolute, absolute));
    if (one != NULL) {
        fact(report, "ceiling, one", "service %s (50 ft/min), absolute %s",
             ls_climb_ceiling_text(view, &one->service, service),
             ls_climb_ceiling_text(view, &one->absolute, absolute));
    }
}

static void say_drift(ls_report *report, const ls_climb_view *view)
{
    char from[LS_PHRASE], to[LS_PHRASE];
    const ls_drift *drift = view->drift;
    if (drift == NULL || drift->kind == LS_DRIFT_FAILED) {
        return;
    }
    ls_climb_altitude_text(view, drift->from_m, from);
    if (drift->kind == LS_DRIFT_CLIMBS) {
        fact(report, "drift-down", "none from %s: it holds its height there", from);
        return;
    }
    const ls_drift_point *last = &drift->point[LS_DRIFT_POINTS - 1];
    ls_climb_altitude_text(view, drift->to_m, to);
    fact(report, "drift-down", "from %s to %s in %.0f min, %.0f nmi%s", from, to, last->time_s / 60.0,
         last->distance_m / 1852.0, drift->levels ? "; there still 50 ft/min down" : ", still sinking");
}

/* Which cases at the field cannot hold level. */
static void say_field(ls_report *report, const ls_climb_view *view)
{
    char list[2 * LS_PHRASE] = "";
    size_t used = 0;
    int impossible = 0;
    const ls_field *field = view->field;
    if (field == NULL) {
        return;
    }
    for (int i = 0; i < field->cases && used < sizeof list; i++) {
        const ls_performance_case *of = &field->of[i].solved;
        if (of->status == LS_OK && !(of->rate.point.rate_m_s >= 0.0 && of->rate.point.is_held)) {
            used += (size_t)snprintf(list + used, sizeof list - used, "%sgear %s, flap %.30s, %s",
                                     impossible++ > 0 ? "; " : "", of->condition.gear > 0.0 ? "down" : "up",
                                     view->request->aircraft->flap[of->condition.flap].name,
                                     ls_engine_state_name(of->state));
        }
    }
    fact(report, "level flight", "%s%s", impossible > 0 ? "impossible here at any speed with " : "",
         impossible > 0 ? list : "held here in every case of the table below");
}

static void say_rating(ls_report *report, const ls_climb_view *view)
{
    const ls_aircraft *aircraft = view->request->aircraft;
    double limit_s = 0.0;
    for (int i = 0; i < aircraft->powerplants; i++) {
        double own_s = aircraft->powerplant[i].engine.time_limit_s;
        limit_s = own_s > 0.0 && (limit_s == 0.0 || own_s < limit_s) ? own_s : limit_s;
    }
    if (!view->request->condition.is_continuous && limit_s > 0.0) {
        fact(report, "rating", "take-off power, for %.3g min at most (--rating continuous)", limit_s / 60.0);
    }
}

static void warn(ls_report *report, const ls_climb_view *view, const ls_performance_case *one)
{
    static const struct {
        unsigned flag;
        const char *text;
    } rows[] = {
        {LS_PROPULSOR_SPEED_OUTSIDE, "A propeller's curve does not reach some of these speeds: its thrust is "
                                     "extrapolated there."},
        {LS_PROPULSOR_TABLE_EDGE, "A propeller leaves its table at some of these points: the nearest was taken."},
        {LS_PROPULSOR_TIP_MACH,
         "A propeller's tips are above Mach 0.85 at some of these points, where the section "
         "data end."},
        {LS_PROPULSOR_LATCHED, "At some of these speeds the dead propeller turns too slowly to be feathered."},
        {LS_PROPULSOR_TURNS, "The dead propeller's torque at rest exceeds the break-out torque: it would turn."},
    };
    const ls_performance_case *all = &view->performance->all;
    unsigned flags = all->rate.point.flags | all->gradient.point.flags | all->service.best.point.flags;
    if (one != NULL) {
        flags |= one->rate.point.flags | one->gradient.point.flags | one->service.best.point.flags;
    }
    flags |= view->drift != NULL ? view->drift->flags : 0u;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (flags & rows[i].flag) {
            ls_report_warning(report, "%s", rows[i].text);
        }
    }
    if (view->request->bank_given && fabs(view->request->bank_rad) > 5.001 * DEG) {
        ls_report_warning(report, "More than 5 deg of bank: beyond what certification allows.");
    }
    if (view->uncertain > 0) {
        ls_report_warning(report,
                          "%d of the file's values are estimated or assumed: speeds are given to whole knots and "
                          "rates to tens.",
                          view->uncertain);
    }
}

static void compare(ls_report *report, const ls_climb_view *view, const char *name, double published,
                    double computed, ls_dimension dimension)
{
    char own[LS_PHRASE], other[LS_PHRASE];
    if (!ls_given(published)) {
        return;
    }
    int decimals = dimension == LS_DIM_SPEED && view->uncertain == 0;
    ls_phrase_value(published, dimension, NULL, view->units, decimals, own);
    if (isfinite(computed)) {
        ls_phrase_value(computed, dimension, NULL, view->units, decimals, other);
    } else {
        snprintf(other, sizeof other, "no answer");
    }
    fact(report, name, "%s published, %s computed", own, other);
}

/* Published figures are compared and never enter the answer. */
static void say_published(ls_report *report, const ls_climb_view *view)
{
    const ls_published_climb *computed = view->published;
    const ls_aircraft *aircraft = view->request->aircraft;
    if (computed == NULL) {
        return;
    }
    ls_report_line(report, "%s", "");
    ls_report_line(report, "Published, at sea level, standard day, maximum mass, clean; speeds %s:",
                   aircraft->published.vmc_kind == 1 ? "indicated" : "calibrated");
    compare(report, view, "climb, all", aircraft->published.climb_m_s, computed->climb_m_s, LS_DIM_CLIMB_RATE);
    compare(report, view, "VY", aircraft->published.vy_m_s, computed->vy_m_s, LS_DIM_SPEED);
    compare(report, view, "VX", aircraft->published.vx_m_s, computed->vx_m_s, LS_DIM_SPEED);
    compare(report, view, "ceiling, all", aircraft->published.ceiling_m, computed->ceiling_m, LS_DIM_ALTITUDE);
    if (view->request->sets > 0) {
        compare(report, view, "climb, one", aircraft->published.climb_one_engine_m_s,
                computed->climb_one_engine_m_s, LS_DIM_CLIMB_RATE);
        compare(report, view, "VYSE", aircraft->published.vyse_m_s, computed->vyse_m_s, LS_DIM_SPEED);
        compare(report, view, "VXSE", aircraft->published.vxse_m_s, computed->vxse_m_s, LS_DIM_SPEED);
        compare(report, view, "ceiling, one", aircraft->published.ceiling_one_engine_m,
                computed->ceiling_one_engine_m, LS_DIM_ALTITUDE);
    }
}

void ls_climb_say(ls_report *report, const ls_climb_view *view)
{
    const ls_performance_case *one = ls_performance_worst(view->performance);
    say_answer(report, view, one);
    say_best(report, view, &view->performance->all, "VY, all", "VX, all");
    if (one != NULL) {
        say_best(report, view, one, "VYSE, one", "VXSE, one");
        say_states(report, view, one);
        say_bank(report, view, one);
    }
    say_ceilings(report, view, one);
    say_field(report, view);
    say_drift(report, view);
    say_rating(report, view);
    say_published(report, view);
    ls_report_line(report, "%s", "");
    warn(report, view, one);
}

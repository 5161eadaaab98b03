/* The answer in words. */
#include "report/phrase.h"
#include "report/vmca_parts.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

static void critical_text(const ls_vmca_view *view, char out[LS_PHRASE])
{
    const ls_vmca *vmca = view->vmca;
    char name[LS_PHRASE], by[LS_PHRASE];
    int critical = vmca->critical[LS_ROTATION_FILE];
    int singles = ls_vmca_singles(vmca);
    ls_phrase_set(view->aircraft, vmca->set[ls_vmca_answer_set(vmca)].failed, name);
    if (singles < 2) {
        snprintf(out, LS_PHRASE, "with the %.60s failed", name);
    } else if (critical >= 0) {
        ls_phrase_speed(vmca->critical_by_m_s[LS_ROTATION_FILE], view->units, 0, by);
        snprintf(out, LS_PHRASE, "the %.60s engine is critical, by %.20s", name, by);
    } else if (critical == LS_CRITICAL_NEITHER) {
        snprintf(out, LS_PHRASE, "neither engine is critical (within 0.1 kt)");
    } else if (critical == LS_CRITICAL_STALL) {
        snprintf(out, LS_PHRASE, "so it does whichever engine fails");
    } else {
        snprintf(out, LS_PHRASE, "which engine is critical is not known: an answer is missing");
    }
}

static void say_answer(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char speed[LS_PHRASE], critical[LS_PHRASE];
    const char *name = view->aircraft->name;
    const ls_vmca_point *answer = &set->answer;
    critical_text(view, critical);
    ls_phrase_cas(answer->vmc.cas_m_s, view->units, view->uncertain, speed);
    switch (answer->vmc.kind) {
    case LS_VMC_CONTROL:
        ls_report_answer(report, "%s: VMC %s; %s.", name, speed, critical);
        break;
    case LS_VMC_STALLS_FIRST:
        ls_report_answer(report, "%s: the wing stalls first, at %s, with control left; %s.", name, speed,
                         critical);
        break;
    case LS_VMC_ABOVE_RANGE:
        ls_report_answer(
            report, "%s: no minimum control speed; with the %s failed %s is exceeded at every speed up to %s.",
            name, ls_phrase_set(view->aircraft, set->failed, critical), ls_limit_name(answer->vmc.limit),
            ls_phrase_speed(answer->vmc.high_V_m_s, view->units, 1, speed));
        break;
    default:
        ls_report_answer(report, "%s: no limit is met down to 0.6 times the stall speed.", name);
        break;
    }
    ls_report_line(report, "%s", "");
}

/* One fact a line, its name in front. */
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

/* All limits that are met together. */
static void limit_text(const ls_vmca_point *point, char out[LS_PHRASE])
{
    size_t used = 0;
    int named = 0;
    out[0] = '\0';
    for (int limit = 0; limit < LS_LIMITS && used < LS_PHRASE; limit++) {
        if (point->vmc.joint >> limit & 1u) {
            used += (size_t)snprintf(out + used, LS_PHRASE - used, "%s%s", named++ == 0 ? "" : " and ",
                                     ls_limit_name((ls_limit)limit));
        }
    }
}

static void say_circumstances(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char text[LS_PHRASE], name[LS_PHRASE], stall[LS_PHRASE], margin[LS_PHRASE];
    const ls_vmc *vmc = &set->answer.vmc;
    const char *engine = ls_engine_state_name(ls_vmca_set_state(set));
    ls_phrase_bank(set->answer.bank_rad, set->live_side, ls_vmca_live_engines(view->aircraft, set->failed), text);
    fact(report, "bank", "%s%s", text, view->request->bank_given ? "" : ": lowest VMC within the limit");
    fact(report, "failed", "%s, %s", ls_phrase_set(view->aircraft, set->failed, name), engine);
    if (vmc->kind == LS_VMC_CONTROL) {
        limit_text(&set->answer, text);
        fact(report, "limit met", "%s", text);
        if (isfinite(vmc->stall_cas_m_s)) {
            fact(report, "stall", "%s, %s below",
                 ls_phrase_cas(vmc->stall_cas_m_s, view->units, view->uncertain, stall),
                 ls_phrase_speed(vmc->cas_m_s - vmc->stall_cas_m_s, view->units, view->uncertain, margin));
        }
    } else if (vmc->kind == LS_VMC_STALLS_FIRST) {
        fact(report, "left at stall", "%.0f %% of the rudder, %.0f %% of the aileron",
             100 * vmc->margins.left[LS_LIMIT_RUDDER], 100 * vmc->margins.left[LS_LIMIT_AILERON]);
    }
}

static void say_loading(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char mass[LS_PHRASE], cg[LS_PHRASE], side[LS_PHRASE] = "", speed[LS_PHRASE];
    const ls_condition *condition = &set->condition;
    ls_phrase_value(condition->mass_kg, LS_DIM_MASS, NULL, view->units, 0, mass);
    ls_phrase_value(condition->cg_aft_m, LS_DIM_LENGTH, "in", view->units, 1, cg);
    if (condition->cg_right_m != 0.0) {
        char value[LS_PHRASE];
        ls_phrase_value(fabs(condition->cg_right_m), LS_DIM_LENGTH, "in", view->units, 1, value);
        snprintf(side, sizeof side, ", %.40s %s", value, condition->cg_right_m > 0 ? "right" : "left");
    }
    fact(report, "weight, CG", "%s, %s aft%s%s", mass, cg, side,
         view->request->search & LS_SEARCH_MASS ? ": worst of the file" : "");
    if (condition->mass_kg < view->aircraft->mass.maximum_kg && ls_vmca_has_speed(&set->heaviest)) {
        ls_phrase_value(view->aircraft->mass.maximum_kg, LS_DIM_MASS, NULL, view->units, 0, mass);
        fact(report, "at max weight", "%s (%s)%s",
             ls_phrase_cas(set->heaviest.vmc.cas_m_s, view->units, view->uncertain, speed), mass,
             set->heaviest.vmc.kind == LS_VMC_STALLS_FIRST ? "; there the wing stalls first" : "");
    }
}

static void say_banks(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char bank[LS_PHRASE], speed[LS_PHRASE];
    int live = ls_vmca_live_engines(view->aircraft, set->failed);
    if (ls_vmca_has_speed(&set->level)) {
        fact(report, "wings level", "%s",
             ls_phrase_cas(set->level.vmc.cas_m_s, view->units, view->uncertain, speed));
    }
    if (ls_vmca_has_speed(&set->zero_sideslip)) {
        ls_phrase_bank(set->zero_sideslip.bank_rad, set->live_side, live, bank);
        fact(report, "no sideslip", "%s at %s",
             ls_phrase_cas(set->zero_sideslip.vmc.cas_m_s, view->units, view->uncertain, speed), bank);
    }
}

static void say_controls(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    const ls_trim *trim = &set->answer.vmc.trim;
    char force[LS_PHRASE] = "", wind[LS_PHRASE];
    if (!isnan(trim->pedal_force_N)) {
        char value[LS_PHRASE];
        ls_phrase_value(fabs(trim->pedal_force_N), LS_DIM_FORCE, NULL, view->units, 0, value);
        snprintf(force, sizeof force, " (%.40s)", value);
    }
    fact(report, "controls", "%s rudder %.1f deg%s, %s aileron %.1f deg", trim->rudder_rad > 0 ? "left" : "right",
         fabs(trim->rudder_rad) / DEG, force, trim->aileron_rad > 0 ? "right" : "left",
         fabs(trim->aileron_rad) / DEG);
    fact(report, "wind, ball", "sideslip %s, ball %.1f widths out",
         ls_phrase_wind(trim->beta_rad, set->live_side, wind), fabs(trim->bank_rad) / view->ball_rad);
}

static void say_other_speeds(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char tas[LS_PHRASE], eas[LS_PHRASE], ias[LS_PHRASE];
    const ls_vmc *vmc = &set->answer.vmc;
    ls_phrase_speed(vmc->V_m_s, view->units, view->uncertain, tas);
    ls_phrase_speed(vmc->eas_m_s, view->units, view->uncertain, eas);
    if (view->aircraft->position_error.rows > 0) {
        int outside;
        double indicated = ls_indicated_airspeed(view->aircraft, vmc->cas_m_s, &outside);
        ls_phrase_speed(indicated, view->units, view->uncertain, ias);
        fact(report, "other speeds", "%s indicated%s, %s true, %s equivalent", ias,
             outside ? " (beyond the file's curve)" : "", tas, eas);
    } else {
        fact(report, "other speeds", "%s true, %s equivalent", tas, eas);
    }
}

static void say_altitude(ls_report *report, const ls_vmca_view *view)
{
    char altitude[LS_PHRASE];
    double round_m = view->units == LS_UNITS_SI ? 100.0 : 30.48; /* to 100 ft */
    if (isfinite(view->meeting_altitude_m)) {
        ls_phrase_value(round_m * round(view->meeting_altitude_m / round_m), LS_DIM_ALTITUDE, NULL, view->units, 0,
                        altitude);
        fact(report, "with altitude", "it falls and meets the stall near %s", altitude);
    }
}

/* The published speed is compared in its own kind, and never enters the answer. */
static void say_published(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    const ls_aircraft *aircraft = view->aircraft;
    if (!ls_given(aircraft->published.vmc_m_s) || !ls_vmca_has_speed(&set->level) ||
        !ls_vmca_has_speed(&set->at_limit)) {
        return;
    }
    int is_ias = aircraft->published.vmc_kind == 1;
    double level = set->level.vmc.cas_m_s, limit = set->at_limit.vmc.cas_m_s,
           published = aircraft->published.vmc_m_s;
    double answer = set->answer.vmc.cas_m_s;
    if (is_ias) {
        level = ls_indicated_airspeed(aircraft, level, NULL);
        limit = ls_indicated_airspeed(aircraft, limit, NULL);
        answer = ls_indicated_airspeed(aircraft, answer, NULL);
    }
    char own[LS_PHRASE], low[LS_PHRASE], high[LS_PHRASE];
    int inside = published >= fmin(level, limit) && published <= fmax(level, limit);
    fact(report, "published", "%s %s; computed %s (limit) to %s (level): %s",
         ls_phrase_speed(published, view->units, 0, own), is_ias ? "IAS" : "CAS",
         ls_phrase_speed(limit, view->units, view->uncertain, low),
         ls_phrase_speed(level, view->units, view->uncertain, high), inside ? "inside" : "outside");
    if (answer < published) {
        ls_report_warning(report,
                          "The computed speed is below the published one: not a flying speed; use the flight "
                          "manual's.");
    }
}

/* What the propellers do at the answer that the reader should know. */
static void warn_of_propeller(ls_report *report, unsigned flags)
{
    static const struct {
        unsigned flag;
        const char *text;
    } rows[] = {
        {LS_PROPULSOR_SPEED_OUTSIDE,
         "The propeller's curve does not reach this speed: its thrust is extrapolated."},
        {LS_PROPULSOR_TABLE_EDGE, "A propeller is outside the range of its table: the nearest point was taken."},
        {LS_PROPULSOR_COARSE_STOP, "A propeller is on its coarse stop and runs above its governed speed."},
        {LS_PROPULSOR_TIP_MACH, "A propeller's tips are above Mach 0.85, where the section data end."},
        {LS_PROPULSOR_STOPS, "At this speed the dead propeller no longer windmills: it stops, unfeathered."},
        {LS_PROPULSOR_LATCHED, "The dead propeller turns too slowly here to be feathered any more."},
        {LS_PROPULSOR_TURNS, "The dead propeller's torque at rest exceeds the break-out torque: it would turn."},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (flags & rows[i].flag) {
            ls_report_warning(report, "%s", rows[i].text);
        }
    }
}

static void warn(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    if (set->answer.vmc.kind == LS_VMC_STALLS_FIRST) {
        ls_report_warning(report,
                          "The wing stalls before control is lost: not a flying speed; use the flight manual's.");
    }
    if (fabs(set->answer.bank_rad) > 5.001 * DEG) {
        ls_report_warning(report,
                          "More than 5 deg of bank: beyond what certification allows; sideslip and fin stall grow "
                          "there.");
    }
    if (view->uncertain > 0) {
        ls_report_warning(report,
                          "%d of the file's values are estimated or assumed: speeds are given to whole knots.",
                          view->uncertain);
    }
    warn_of_propeller(report, set->answer.vmc.flags);
}

void ls_vmca_say(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    say_answer(report, view, set);
    if (ls_vmca_has_speed(&set->answer)) {
        say_circumstances(report, view, set);
        say_loading(report, view, set);
        say_banks(report, view, set);
        say_controls(report, view, set);
        say_other_speeds(report, view, set);
        say_altitude(report, view);
        say_published(report, view, set);
        ls_report_line(report, "%s", "");
    }
    warn(report, view, set);
}

/* The answer in words. */
#include "report/phrase.h"
#include "report/vmca_parts.h"

#include <math.h>
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
    } else if (critical == -1) {
        snprintf(out, LS_PHRASE, "neither engine is critical (within 0.1 kt)");
    } else {
        snprintf(out, LS_PHRASE, "which engine is critical is not known: an answer is missing");
    }
}

static void say_answer(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char speed[LS_PHRASE], critical[LS_PHRASE];
    const ls_vmca_point *answer = &set->answer;
    critical_text(view, critical);
    switch (answer->vmc.kind) {
    case LS_VMC_CONTROL:
        ls_report_answer(report, "VMC %s: %s.",
                         ls_phrase_cas(answer->vmc.cas_m_s, view->units, view->uncertain, speed), critical);
        break;
    case LS_VMC_STALLS_FIRST:
        ls_report_answer(report, "The wing stalls first, at %s, with control left: %s.",
                         ls_phrase_cas(answer->vmc.cas_m_s, view->units, view->uncertain, speed), critical);
        break;
    case LS_VMC_ABOVE_RANGE:
        ls_report_answer(report, "No minimum control speed: %s is exceeded even at three times the stall speed.",
                         ls_limit_name(answer->vmc.limit));
        break;
    default:
        ls_report_answer(report, "No limit is met down to 0.6 times the stall speed.");
        break;
    }
}

static void state_text(const ls_vmca_view *view, const ls_vmca_set *set, char out[LS_PHRASE])
{
    char name[LS_PHRASE];
    int first = 0;
    while (!(set->failed >> first & 1u)) {
        first++;
    }
    ls_phrase_set(view->aircraft, set->failed, name);
    const ls_powerplant_data *powerplant = &view->aircraft->powerplant[view->aircraft->engine[first].powerplant];
    if (powerplant->engine.type == LS_ENGINE_JET) {
        snprintf(out, LS_PHRASE, "%.80s engine windmilling", name);
    } else {
        snprintf(out, LS_PHRASE, "%.80s propeller %s", name, ls_engine_state_name(set->condition.state[first]));
    }
}

/* "the rudder is the limit (right, 25.0 deg)": all that are met together. */
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
    char bank[LS_PHRASE], state[LS_PHRASE], limit[LS_PHRASE], stall[LS_PHRASE];
    const ls_vmc *vmc = &set->answer.vmc;
    if (vmc->kind != LS_VMC_CONTROL && vmc->kind != LS_VMC_STALLS_FIRST) {
        return;
    }
    limit_text(&set->answer, limit);
    state_text(view, set, state);
    ls_phrase_bank(set->answer.bank_rad, set->live_side, ls_vmca_live_engines(view->aircraft, set->failed), bank);
    if (vmc->kind == LS_VMC_CONTROL) {
        ls_report_line(report, "%c%s, %s; the limit is %s; the wing stalls at %s.", bank[0] == 'w' ? 'W' : bank[0],
                       bank + 1, state, limit,
                       isfinite(vmc->stall_cas_m_s) ? ls_phrase_cas(vmc->stall_cas_m_s, view->units, 0, stall)
                                                    : "no speed in the range");
    } else {
        ls_report_line(report,
                       "%c%s, %s; at the stall %.0f %% of the rudder travel and %.0f %% of the aileron are left.",
                       bank[0] == 'w' ? 'W' : bank[0], bank + 1, state, 100 * vmc->margins.left[LS_LIMIT_RUDDER],
                       100 * vmc->margins.left[LS_LIMIT_AILERON]);
    }
}

static void say_controls(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    const ls_trim *trim = &set->answer.vmc.trim;
    char force[LS_PHRASE] = "";
    if (!ls_vmca_has_speed(&set->answer)) {
        return;
    }
    if (!isnan(trim->pedal_force_N)) {
        char value[LS_PHRASE];
        ls_phrase_value(fabs(trim->pedal_force_N), LS_DIM_FORCE, NULL, view->units, 0, value);
        snprintf(force, sizeof force, " (%.40s of pedal)", value);
    }
    double from_live = -trim->beta_rad * (set->live_side != 0 ? set->live_side : 1);
    const char *wind = set->live_side == 0 ? (trim->beta_rad > 0 ? "right" : "left")
                       : from_live > 0     ? "dead side"
                                           : "live side";
    ls_report_line(report,
                   "There: %s rudder %.1f deg%s, aileron %.1f deg to the %s, wind %.1f deg from the %s, ball %.1f "
                   "widths out.",
                   trim->rudder_rad > 0 ? "left" : "right", fabs(trim->rudder_rad) / DEG, force,
                   fabs(trim->aileron_rad) / DEG, trim->aileron_rad > 0 ? "right" : "left",
                   fabs(trim->beta_rad) / DEG, wind, fabs(trim->bank_rad) / view->ball_rad);
}

static void say_loading(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char mass[LS_PHRASE], cg[LS_PHRASE], side[LS_PHRASE] = "", heavy[LS_PHRASE], most[LS_PHRASE];
    const ls_condition *condition = &set->condition;
    const char *how = view->request->search == 0               ? "As asked"
                      : view->request->search & LS_SEARCH_MASS ? "Most unfavourable weight and CG of the file"
                                                               : "Most unfavourable CG of the file";
    ls_phrase_value(condition->mass_kg, LS_DIM_MASS, NULL, view->units, 0, mass);
    ls_phrase_value(condition->cg_aft_m, LS_DIM_LENGTH, "in", view->units, 1, cg);
    if (condition->cg_right_m != 0.0) {
        char value[LS_PHRASE];
        ls_phrase_value(fabs(condition->cg_right_m), LS_DIM_LENGTH, "in", view->units, 1, value);
        snprintf(side, sizeof side, ", %.40s %s of centre", value, condition->cg_right_m > 0 ? "right" : "left");
    }
    ls_phrase_value(view->aircraft->mass.maximum_kg, LS_DIM_MASS, NULL, view->units, 0, most);
    if (condition->mass_kg < view->aircraft->mass.maximum_kg && ls_vmca_has_speed(&set->heaviest)) {
        ls_report_line(report, "%s: %s, CG %s aft of datum%s. At maximum weight (%s) %s%s.", how, mass, cg, side,
                       most, ls_phrase_cas(set->heaviest.vmc.cas_m_s, view->units, view->uncertain, heavy),
                       set->heaviest.vmc.kind == LS_VMC_STALLS_FIRST ? ", where the wing stalls first" : "");
    } else {
        ls_report_line(report, "%s: %s, CG %s aft of datum%s.", how, mass, cg, side);
    }
}

static void say_banks(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char zero[LS_PHRASE], bank[LS_PHRASE], level[LS_PHRASE];
    int live = ls_vmca_live_engines(view->aircraft, set->failed);
    if (ls_vmca_has_speed(&set->zero_sideslip)) {
        ls_phrase_bank(set->zero_sideslip.bank_rad, set->live_side, live, bank);
        ls_report_line(report, "Same weight: no sideslip at %s, %s; wings level %s.", bank,
                       ls_phrase_cas(set->zero_sideslip.vmc.cas_m_s, view->units, view->uncertain, zero),
                       ls_vmca_has_speed(&set->level)
                           ? ls_phrase_cas(set->level.vmc.cas_m_s, view->units, view->uncertain, level)
                           : "no answer");
    } else if (ls_vmca_has_speed(&set->level)) {
        ls_report_line(report, "Same weight, wings level: %s.",
                       ls_phrase_cas(set->level.vmc.cas_m_s, view->units, view->uncertain, level));
    }
    if (isfinite(view->meeting_altitude_m)) {
        char altitude[LS_PHRASE];
        double rounded = view->units == LS_UNITS_SI ? 100.0 : 30.48; /* to 100 ft */
        ls_phrase_value(rounded * round(view->meeting_altitude_m / rounded), LS_DIM_ALTITUDE, NULL, view->units, 0,
                        altitude);
        ls_report_line(
            report, "With altitude it falls, and meets the stall at about %s: above that the wing stalls first.",
            altitude);
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
    if (is_ias) {
        level = ls_indicated_airspeed(aircraft, level, NULL);
        limit = ls_indicated_airspeed(aircraft, limit, NULL);
    }
    char own[LS_PHRASE], low[LS_PHRASE], high[LS_PHRASE];
    int inside = published >= fmin(level, limit) && published <= fmax(level, limit);
    ls_report_line(
        report,
        "Published VMC %s %s: %s the computed span, %s (bank limit) to %s (wings level). Compared, not used.",
        ls_phrase_speed(published, view->units, 0, own), is_ias ? "IAS" : "CAS", inside ? "inside" : "outside",
        ls_phrase_speed(limit, view->units, view->uncertain, low),
        ls_phrase_speed(level, view->units, view->uncertain, high));
    double answer =
        is_ias ? ls_indicated_airspeed(aircraft, set->answer.vmc.cas_m_s, NULL) : set->answer.vmc.cas_m_s;
    if (answer < published) {
        ls_report_warning(report,
                          "The computed speed is below the published one: not a flying speed; use the flight "
                          "manual's.");
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
    if (set->answer.vmc.flags & LS_PROPULSOR_SPEED_OUTSIDE) {
        ls_report_warning(report, "The propeller's curve does not reach this speed: its thrust is extrapolated.");
    }
}

static void say_other_speeds(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char tas[LS_PHRASE], eas[LS_PHRASE], ias[LS_PHRASE];
    const ls_vmc *vmc = &set->answer.vmc;
    if (!ls_vmca_has_speed(&set->answer)) {
        return;
    }
    ls_phrase_speed(vmc->V_m_s, view->units, view->uncertain, tas);
    ls_phrase_speed(vmc->eas_m_s, view->units, view->uncertain, eas);
    if (view->aircraft->position_error.rows > 0) {
        int outside;
        double indicated = ls_indicated_airspeed(view->aircraft, vmc->cas_m_s, &outside);
        ls_phrase_speed(indicated, view->units, view->uncertain, ias);
        ls_report_line(report, "As other airspeeds: %s indicated%s, %s true, %s equivalent.", ias,
                       outside ? " (beyond the file's curve)" : "", tas, eas);
    } else {
        ls_report_line(report, "As other airspeeds: %s true, %s equivalent.", tas, eas);
    }
}

void ls_vmca_say(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    say_answer(report, view, set);
    say_circumstances(report, view, set);
    say_controls(report, view, set);
    say_loading(report, view, set);
    say_banks(report, view, set);
    say_other_speeds(report, view, set);
    say_published(report, view, set);
    warn(report, view, set);
}

/* The answer in words. */
#include "report/caution.h"
#include "report/phrase.h"
#include "report/vmca_parts.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* "the left engine", "the left and centre engines". */
static void engines_text(const ls_vmca_view *view, unsigned failed, char out[LS_PHRASE])
{
    char name[LS_PHRASE];
    ls_phrase_set(view->aircraft, failed, name);
    if (strstr(name, "engine") != NULL) {
        snprintf(out, LS_PHRASE, "%s", name);
    } else {
        snprintf(out, LS_PHRASE, "the %.200s engine%s", name, ls_set_size(failed) > 1 ? "s" : "");
    }
}

static void critical_text(const ls_vmca_view *view, char out[LS_PHRASE])
{
    const ls_vmca *vmca = view->vmca;
    char engines[LS_PHRASE], by[LS_PHRASE];
    int critical = vmca->critical[LS_ROTATION_FILE];
    engines_text(view, vmca->set[ls_vmca_answer_set(vmca)].failed, engines);
    if (ls_vmca_singles(vmca) < 2) {
        snprintf(out, LS_PHRASE, "with %.200s failed", engines);
    } else if (critical >= 0 && isinf(vmca->critical_by_m_s[LS_ROTATION_FILE])) {
        snprintf(out, LS_PHRASE, "%.200s is critical: with another failed the wing stalls first", engines);
    } else if (critical >= 0) {
        ls_phrase_by(vmca->critical_by_m_s[LS_ROTATION_FILE], view->units, view->uncertain, by);
        snprintf(out, LS_PHRASE, "%.200s is critical, by %.20s", engines, by);
    } else if (critical == LS_CRITICAL_NEITHER) {
        snprintf(out, LS_PHRASE, "%s engine is critical (within 0.1 kt)",
                 ls_vmca_singles(vmca) == 2 ? "neither" : "no single");
    } else if (critical == LS_CRITICAL_STALL) {
        snprintf(out, LS_PHRASE, "so it does whichever engine fails");
    } else {
        snprintf(out, LS_PHRASE, "which engine is critical is not known: an answer is missing");
    }
}

/* A limit that is exceeded already at the top of the range. */
static void say_exceeded(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char top[LS_PHRASE], engines[LS_PHRASE];
    const ls_vmc *vmc = &set->answer.vmc;
    engines_text(view, set->failed, engines);
    ls_phrase_speed(vmc->high_V_m_s, view->units, 1, top);
    ls_report_answer(report, "%s: no minimum control speed was found: with %s failed it is %s.",
                     view->aircraft->name, engines, ls_phrase_exceeded(vmc));
    ls_report_line(report, "More than is allowed is needed %s %s true, the fastest speed looked at.",
                   vmc->everywhere ? "from the stall up to" : "already at", top);
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
        say_exceeded(report, view, set);
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
    char text[3 * LS_PHRASE];
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

/* What is left at the stall, of each limit that there is. */
static void say_left(ls_report *report, const ls_margins *margins)
{
    static const char *const names[LS_LIMIT_WING_STALL] = {"rudder", "pedal force", "aileron", "fin"};
    char text[LS_PHRASE] = "";
    size_t used = 0;
    for (int limit = 0; limit < LS_LIMIT_WING_STALL; limit++) {
        if (!isnan(margins->left[limit])) {
            used += (size_t)snprintf(text + used, sizeof text - used, "%s%s %.0f %%", used > 0 ? ", " : "",
                                     names[limit], 100 * margins->left[limit]);
        }
    }
    fact(report, "left at stall", "%s", text);
}

static void say_circumstances(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char text[LS_PHRASE], name[LS_PHRASE], stall[LS_PHRASE], margin[LS_PHRASE];
    const ls_vmc *vmc = &set->answer.vmc;
    const char *engine = ls_engine_state_name(ls_vmca_set_state(set));
    ls_phrase_bank(set->answer.bank_rad, set->live_side, ls_vmca_live_engines(view->aircraft, set->failed), text);
    fact(report, "bank", "%s%s", text,
         view->request->bank_given || set->live_side == 0 ? "" : ": lowest VMC within the limit");
    fact(report, "failed", "%s, %s%s", ls_phrase_set(view->aircraft, set->failed, name), engine,
         view->request->state < 0 ? " as it does by itself" : "");
    if (vmc->kind == LS_VMC_CONTROL) {
        limit_text(&set->answer, text);
        fact(report, "limit met", "%s", text);
        if (isfinite(vmc->stall_cas_m_s)) {
            fact(report, "stall", "%s, %s below",
                 ls_phrase_cas(vmc->stall_cas_m_s, view->units, view->uncertain, stall),
                 ls_phrase_by(vmc->cas_m_s - vmc->stall_cas_m_s, view->units, view->uncertain, margin));
        }
    } else if (vmc->kind == LS_VMC_STALLS_FIRST) {
        say_left(report, &vmc->margins);
    }
}

/* What was searched for the most unfavourable. */
static const char *searched_text(unsigned search)
{
    int weight = (search & LS_SEARCH_MASS) != 0, cg = (search & LS_SEARCH_CG) != 0;
    return weight && cg ? ": worst of the file" : weight ? ": worst weight" : cg ? ": worst CG" : "";
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
    fact(report, "weight, CG", "%s, %s aft%s%s", mass, cg, side, searched_text(view->request->search));
    if (condition->mass_kg < view->aircraft->mass.maximum_kg && ls_vmca_has_speed(&set->heaviest)) {
        ls_phrase_value(view->aircraft->mass.maximum_kg, LS_DIM_MASS, NULL, view->units, 0, mass);
        fact(report, "at max weight", "%s (%s)%s",
             ls_phrase_cas(set->heaviest.vmc.cas_m_s, view->units, view->uncertain, speed), mass,
             set->heaviest.vmc.kind == LS_VMC_STALLS_FIRST ? "; there the wing stalls first" : "");
    }
}

/* "76.7 KCAS at 5.5 deg toward the live engine, 2756 lb". */
static void say_bank(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set, const char *name,
                     const ls_vmca_point *point)
{
    char bank[LS_PHRASE], speed[LS_PHRASE], mass[LS_PHRASE];
    if (!ls_vmca_has_speed(point)) {
        return;
    }
    ls_phrase_bank(point->bank_rad, set->live_side, ls_vmca_live_engines(view->aircraft, set->failed), bank);
    int is_level = strcmp(bank, "wings level") == 0;
    ls_phrase_value(set->condition.mass_kg, LS_DIM_MASS, NULL, view->units, 0, mass);
    fact(report, name, "%s%s%s, %s%s", ls_phrase_cas(point->vmc.cas_m_s, view->units, view->uncertain, speed),
         is_level ? "" : " at ", is_level ? "" : bank, mass,
         point->vmc.kind == LS_VMC_STALLS_FIRST ? " (stall)" : "");
}

static void say_banks(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    say_bank(report, view, set, "wings level", &set->level);
    if (set->live_side != 0) {
        say_bank(report, view, set, "lowest VMC", &set->lowest);
    }
    say_bank(report, view, set, "no sideslip", &set->zero_sideslip);
}

/* How much higher VMC is with the failed engine's propeller in another state; not a number where that is none, or
 * the two answers are not alike. */
static double worth_of_state(const ls_vmca_set *set, int state)
{
    const ls_vmca_point *other = &set->by_state[state];
    int is_other = ls_vmca_states[state] != ls_vmca_set_state(set);
    return is_other && ls_vmca_has_speed(other) && other->vmc.kind == set->answer.vmc.kind
               ? other->vmc.cas_m_s - set->answer.vmc.cas_m_s
               : NAN;
}

/* "lower: lever aft 0.3 kt, feathered 2.6 kt; higher: stopped 0.4 kt": all else as in the answer. */
static void say_propeller(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    static const char *const names[LS_ENGINE_STATES] = {[LS_WINDMILLING] = "windmilling",
                                                        [LS_LEVER_AFT] = "lever aft",
                                                        [LS_FEATHERED] = "feathered",
                                                        [LS_STOPPED] = "stopped"};
    static const char *const groups[] = {"lower", "the same", "higher"};
    const double nothing_m_s = 0.05 * 1852.0 / 3600.0;
    char line[LS_PHRASE] = "", by[LS_PHRASE];
    size_t used = 0;
    for (int group = -1; group <= 1; group++) {
        int listed = 0;
        for (int i = 0; i < LS_VMCA_STATES && used < sizeof line; i++) {
            double more_m_s = worth_of_state(set, i);
            if (isnan(more_m_s) || (more_m_s > nothing_m_s) - (more_m_s < -nothing_m_s) != group) {
                continue;
            }
            const char *before = listed++ > 0 ? ", " : used > 0 ? "; " : "";
            ls_phrase_by(fabs(more_m_s), view->units, view->uncertain, by);
            used += (size_t)snprintf(line + used, sizeof line - used, "%s%s%s%s%s%s", before,
                                     listed == 1 ? groups[group + 1] : "", listed == 1 ? ": " : "",
                                     names[ls_vmca_states[i]], group != 0 ? " " : "", group != 0 ? by : "");
        }
    }
    if (used > 0) {
        fact(report, "propeller", "%s", line);
    }
}

/* Two engines of one side, where they were solved beside the single ones. */
static void say_pairs(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *answer)
{
    for (int i = 0; i < view->vmca->sets; i++) {
        const ls_vmca_set *set = &view->vmca->set[i];
        char name[LS_PHRASE];
        if (set != answer && ls_set_size(set->failed) == 2) {
            ls_phrase_set_heading(view->aircraft, set->failed, name);
            *strchr(name, '\n') = ' ';
            if (ls_vmca_has_speed(&set->answer)) {
                say_bank(report, view, set, name, &set->answer);
            } else {
                fact(report, name, "%s", ls_phrase_limit(&set->answer));
            }
        }
    }
}

static void say_controls(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    const ls_trim *trim = &set->answer.vmc.trim;
    char text[LS_PHRASE], force[LS_PHRASE] = "";
    if (!isnan(trim->pedal_force_N)) {
        ls_phrase_pedal(trim->pedal_force_N, view->units, force);
    }
    ls_phrase_rudder(view->aircraft, trim->rudder_rad, text);
    fact(report, "rudder", "%s%s%s", text, force[0] != '\0' ? "; " : "", force);
    fact(report, "aileron", "%s", ls_phrase_aileron(view->aircraft, trim->aileron_rad, text));
    fact(report, "sideslip", "%s", ls_phrase_wind(trim->beta_rad, set->live_side, text));
    fact(report, "ball", "%s",
         ls_phrase_ball(trim->bank_rad, view->ball_rad, set->live_side,
                        ls_vmca_live_engines(view->aircraft, set->failed), text));
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
    const ls_unit *unit = ls_unit_preferred(view->units, LS_DIM_ALTITUDE);
    if (isfinite(view->meeting_altitude_m)) {
        double shown = 100.0 * round(ls_unit_from_si(unit, view->meeting_altitude_m) / 100.0);
        ls_units_format(ls_unit_to_si(unit, shown), unit, 0, altitude, sizeof altitude);
        fact(report, "with altitude", "it falls and meets the stall near %s", altitude);
    }
}

/* One end of the computed span: "76.9 at 5 deg (stall)". */
static void span_text(const ls_vmca_view *view, const ls_vmca_point *point, double m_s, const char *where,
                      char out[LS_PHRASE])
{
    char speed[LS_PHRASE];
    ls_phrase_speed(m_s, view->units, view->uncertain, speed);
    snprintf(out, LS_PHRASE, "%.40s %s%s", speed, where, point->vmc.kind == LS_VMC_STALLS_FIRST ? " (stall)" : "");
}

/* The published speed is compared in its own kind, and never enters the answer. */
static void say_published(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    char own[LS_PHRASE], banked[LS_PHRASE], level[LS_PHRASE];
    ls_published published = ls_vmca_published(view, set);
    if (!published.given) {
        return;
    }
    ls_phrase_of_kind(view->aircraft->published.vmc_m_s, published.is_ias, view->units, own);
    if (set->at_5_deg.vmc.kind == LS_VMC_STALLS_FIRST && set->level.vmc.kind == LS_VMC_STALLS_FIRST) {
        ls_phrase_speed(published.level_m_s, view->units, view->uncertain, level);
        fact(report, "published", "%s; computed: the wing stalls first, at %s", own, level);
        return;
    }
    span_text(view, &set->at_5_deg, published.at_5_deg_m_s, "at 5 deg", banked);
    span_text(view, &set->level, published.level_m_s, "level", level);
    fact(report, "published", "%s; computed %s to %s: %s", own, banked, level,
         published.inside ? "inside" : "outside");
}

/* What makes an answer no speed to fly at, in one caution. */
static void warn_not_flying(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    ls_published published = ls_vmca_published(view, set);
    int stalls = set->answer.vmc.kind == LS_VMC_STALLS_FIRST;
    int below = published.given && published.answer_m_s < view->aircraft->published.vmc_m_s;
    if (stalls || below) {
        ls_report_warning(report, "%s%s%s: not a flying speed; use the flight manual's.",
                          stalls ? "The wing stalls before control is lost" : "The computed speed",
                          stalls && below ? ", and this" : "", below ? " is below the published one" : "");
    }
}

static void warn(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    const double kt_per_lbf = 0.514444444 / 4.4482216152605;
    const ls_vmc *vmc = &set->answer.vmc;
    warn_not_flying(report, view, set);
    if (fabs(vmc->m_s_per_N) > kt_per_lbf) {
        ls_report_warning(report,
                          "The pedal force hardly changes with speed here: 1 lbf more or less moves this speed by "
                          "%.1f kt.",
                          fabs(vmc->m_s_per_N) / kt_per_lbf);
    }
    if (vmc->at_jump) {
        ls_report_warning(report,
                          "Control is lost at once where the dead propeller stops turning: its drag jumps there.");
    }
    ls_report_caution_sideslip(report, vmc->trim.beta_rad);
    ls_report_cautions(report, view->uncertain, set->answer.bank_rad, vmc->flags);
}

void ls_vmca_say(ls_report *report, const ls_vmca_view *view, const ls_vmca_set *set)
{
    say_answer(report, view, set);
    if (ls_vmca_has_speed(&set->answer)) {
        say_circumstances(report, view, set);
        say_loading(report, view, set);
        say_banks(report, view, set);
        say_propeller(report, view, set);
        say_pairs(report, view, set);
        say_controls(report, view, set);
        say_other_speeds(report, view, set);
        say_altitude(report, view);
        say_published(report, view, set);
        ls_report_line(report, "%s", "");
    }
    warn(report, view, set);
}

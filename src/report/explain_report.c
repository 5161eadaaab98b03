#include "report/explain_report.h"

#include "report/caution.h"
#include "report/explain_parts.h"

#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

const char *ls_explain_name(const ls_explain_view *view, int side, char out[LS_PHRASE])
{
    return ls_phrase_set(view->aircraft, view->breakdown->side[side].failed, out);
}

int ls_explain_has_propellers(const ls_aircraft *aircraft)
{
    int count = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        count += aircraft->powerplant[aircraft->engine[i].powerplant].engine.type != LS_ENGINE_JET;
    }
    return count > 0;
}

static double toward_live(const ls_breakdown_side *side)
{
    return side->condition.bank_rad * (side->live_side < 0 ? -1 : 1);
}

/* A margin in per cent, never "-0". */
static double percent(double left)
{
    return fabs(left) < 0.005 ? 0.0 : 100.0 * left;
}

static void say_attitudes(ls_report *report, const ls_explain_view *view, int i)
{
    const ls_breakdown_side *side = &view->breakdown->side[i];
    const ls_attitudes *at = &side->attitudes;
    char name[LS_PHRASE], speed[LS_PHRASE], mass[LS_PHRASE], bank[LS_PHRASE], alone[LS_PHRASE] = "";
    ls_explain_name(view, i, name);
    if (at->status != LS_OK) {
        ls_report_line(report, "With the %s dead, no speed of best climb: %s.", name, at->reason);
        return;
    }
    if (isfinite(at->ailerons_only_rad)) {
        snprintf(alone, sizeof alone, "; on ailerons alone %.1f deg", at->ailerons_only_rad / DEG);
    } else if (side->live_side != 0) {
        snprintf(alone, sizeof alone, "; ailerons alone do not hold it");
    }
    ls_report_line(report, "Best climb, %s dead and %s, %s at %s: no sideslip at %s, ball %.1f widths out%s.",
                   name, ls_engine_state_name(at->state),
                   ls_phrase_cas(at->best.point.cas_m_s, view->units, view->uncertain, speed),
                   ls_phrase_value(at->mass_kg, LS_DIM_MASS, NULL, view->units, 0, mass),
                   ls_phrase_bank(at->no_sideslip_rad, side->live_side,
                                  view->aircraft->engines - ls_set_size(side->failed), bank),
                   fabs(at->no_sideslip_rad) / view->ball_rad, alone);
}

void ls_explain_circumstances(ls_report *report, const ls_explain_view *view)
{
    const ls_breakdown *b = view->breakdown;
    const ls_breakdown_side *first = &b->side[0];
    char speed[LS_PHRASE], bank[LS_PHRASE], name[LS_PHRASE];
    ls_phrase_bank(toward_live(first), first->live_side, view->aircraft->engines - ls_set_size(first->failed),
                   bank);
    ls_report_line(report, "Moments at %s%s, %s.", ls_phrase_cas(b->cas_m_s, view->units, view->uncertain, speed),
                   b->speed_given ? ""
                   : b->sides > 1 ? ", the higher of the two speeds"
                                  : "",
                   bank);
    for (int i = 0; i < b->sides; i++) {
        const ls_breakdown_side *side = &b->side[i];
        ls_explain_name(view, i, name);
        if (side->status != LS_OK) {
            ls_report_line(report, "With the %s dead there is none: %s.", name, side->reason);
        } else {
            ls_report_line(
                report,
                "With the %s dead: rudder %.1f deg, %.0f %% left; aileron %.0f %% left; stall %.0f %% left, "
                "%.0f %% with slipstream lift counted.",
                name, fabs(side->trim.rudder_rad) / DEG, percent(side->margins.left[LS_LIMIT_RUDDER]),
                percent(side->margins.left[LS_LIMIT_AILERON]), percent(side->margins.left[LS_LIMIT_WING_STALL]),
                percent(side->margins.stall_power_on));
        }
    }
    for (int i = 0; i < b->sides; i++) {
        say_attitudes(report, view, i);
    }
    ls_report_line(report, "%s", "");
}

static void warn(ls_report *report, const ls_explain_view *view)
{
    const ls_breakdown *b = view->breakdown;
    for (int i = 0; i < b->sides; i++) {
        const ls_breakdown_side *side = &b->side[i];
        char name[LS_PHRASE];
        if (side->status == LS_OK && side->margins.left[LS_LIMIT_WING_STALL] < 0.0) {
            ls_report_warning(report, "With the %s dead this speed lies below the stall: not a flying speed.",
                              ls_explain_name(view, i, name));
        } else if (side->status == LS_OK && side->margins.left[LS_LIMIT_RUDDER] < -1e-9) {
            ls_report_warning(report, "With the %s dead it takes more rudder than there is at this speed.",
                              ls_explain_name(view, i, name));
        }
    }
    unsigned flags = 0;
    double beta_rad = 0.0;
    for (int i = 0; i < b->sides; i++) {
        beta_rad = b->side[i].status == LS_OK ? fmax(beta_rad, fabs(b->side[i].trim.beta_rad)) : beta_rad;
        flags |= b->side[i].point.flags;
    }
    ls_report_caution_sideslip(report, beta_rad);
    ls_report_cautions(report, view->uncertain, b->side[0].condition.bank_rad, flags);
}

void ls_explain_report(ls_report *report, ls_explain_view *view)
{
    ls_explain_say(report, view);
    ls_explain_circumstances(report, view);
    ls_explain_tables(report, view);
    ls_explain_data(report, view);
    warn(report, view);
}

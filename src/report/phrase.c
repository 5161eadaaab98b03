#include "report/phrase.h"

#include "liveside/text.h"
#include "report/table.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

static const double shown_rad = 0.05 * DEG; /* below this, 0.0 deg would be printed */

static const char *speed_text(double m_s, ls_unit_system units, int rough, const char *after_kt, const char *after,
                              char out[LS_PHRASE])
{
    const ls_unit *unit = ls_unit_preferred(units, LS_DIM_SPEED);
    char number[64];
    static const ls_unit bare = {"", LS_DIM_NUMBER, 1.0, 0.0};
    ls_units_format(ls_unit_from_si(unit, m_s), &bare, rough ? 0 : 1, number, sizeof number);
    if (strcmp(unit->name, "kt") == 0) {
        snprintf(out, LS_PHRASE, "%s %s", number, after_kt);
    } else {
        snprintf(out, LS_PHRASE, "%s %s%s", number, unit->name, after);
    }
    return out;
}

const char *ls_phrase_cas(double cas_m_s, ls_unit_system units, int rough, char out[LS_PHRASE])
{
    return speed_text(cas_m_s, units, rough, "KCAS", " CAS", out);
}

const char *ls_phrase_of_kind(double m_s, int is_ias, ls_unit_system units, char out[LS_PHRASE])
{
    return is_ias ? speed_text(m_s, units, 0, "KIAS", " IAS", out)
                  : speed_text(m_s, units, 0, "KCAS", " CAS", out);
}

const char *ls_phrase_speed(double m_s, ls_unit_system units, int rough, char out[LS_PHRASE])
{
    return speed_text(m_s, units, rough, "kt", "", out);
}

const char *ls_phrase_by(double m_s, ls_unit_system units, int rough, char out[LS_PHRASE])
{
    const ls_unit *unit = ls_unit_preferred(units, LS_DIM_SPEED);
    if (rough && ls_unit_from_si(unit, m_s) < 0.5) {
        snprintf(out, LS_PHRASE, "less than 1 %s", unit->name);
        return out;
    }
    return ls_phrase_speed(m_s, units, rough, out);
}

const char *ls_phrase_bank(double bank_rad, int live_side, int live_engines, char out[LS_PHRASE])
{
    double bank_deg = bank_rad / DEG;
    if (fabs(bank_rad) < shown_rad) {
        snprintf(out, LS_PHRASE, "wings level");
    } else if (live_side == 0) {
        snprintf(out, LS_PHRASE, "%.1f deg to the %s", fabs(bank_deg), bank_deg > 0 ? "right" : "left");
    } else if (bank_deg > 0) {
        snprintf(out, LS_PHRASE, "%.1f deg toward the live engine%s", bank_deg, live_engines > 1 ? "s" : "");
    } else {
        snprintf(out, LS_PHRASE, "%.1f deg toward the dead engine", -bank_deg);
    }
    return out;
}

/* Wind from the right is positive. */
static const char *wind_side(double beta_rad, int live_side)
{
    if (live_side == 0) {
        return beta_rad > 0 ? "right" : "left";
    }
    return beta_rad * live_side > 0 ? "live" : "dead";
}

const char *ls_phrase_wind(double beta_rad, int live_side, char out[LS_PHRASE])
{
    if (fabs(beta_rad) < shown_rad) {
        snprintf(out, LS_PHRASE, "none");
    } else {
        snprintf(out, LS_PHRASE, "%.1f deg from the %s%s", fabs(beta_rad) / DEG, wind_side(beta_rad, live_side),
                 live_side != 0 ? " side" : "");
    }
    return out;
}

const char *ls_phrase_wind_short(double beta_rad, int live_side, char out[LS_PHRASE])
{
    if (fabs(beta_rad) < shown_rad) {
        snprintf(out, LS_PHRASE, "0.0");
    } else {
        snprintf(out, LS_PHRASE, "%.1f %s", fabs(beta_rad) / DEG, wind_side(beta_rad, live_side));
    }
    return out;
}

const char *ls_phrase_bank_short(double bank_rad, int live_side, char out[LS_PHRASE])
{
    double bank_deg = bank_rad / DEG;
    const char *side = live_side == 0 ? (bank_deg > 0 ? "right" : "left") : bank_deg > 0 ? "to live" : "to dead";
    if (fabs(bank_rad) < shown_rad) {
        snprintf(out, LS_PHRASE, "level");
    } else {
        snprintf(out, LS_PHRASE, "%.3g %s", round(10 * fabs(bank_deg)) / 10, side);
    }
    return out;
}

static const char *control_text(double angle_rad, double travel_rad, const char *side, char out[LS_PHRASE])
{
    if (fabs(angle_rad) < shown_rad) {
        snprintf(out, LS_PHRASE, "centred");
    } else {
        snprintf(out, LS_PHRASE, "%s %.1f deg, %.0f %% of its travel", side, fabs(angle_rad) / DEG,
                 100 * fabs(angle_rad) / travel_rad);
    }
    return out;
}

const char *ls_phrase_rudder(const ls_aircraft *aircraft, double rudder_rad, char out[LS_PHRASE])
{
    int is_left = rudder_rad > 0; /* trailing edge left: the left pedal */
    return control_text(rudder_rad, is_left ? aircraft->rudder.left_rad : aircraft->rudder.right_rad,
                        is_left ? "left" : "right", out);
}

const char *ls_phrase_aileron(const ls_aircraft *aircraft, double aileron_rad, char out[LS_PHRASE])
{
    return control_text(aileron_rad, aircraft->aileron.travel_rad, aileron_rad > 0 ? "right" : "left", out);
}

const char *ls_phrase_pedal(double force_N, ls_unit_system units, char out[LS_PHRASE])
{
    char force[LS_PHRASE];
    if (isnan(force_N)) {
        snprintf(out, LS_PHRASE, "no pedal data in the file");
        return out;
    }
    ls_phrase_value(fabs(force_N), LS_DIM_FORCE, NULL, units, 0, force);
    snprintf(out, LS_PHRASE, "%s pedal %.60s", force_N > 0 ? "right" : "left", force);
    return out;
}

const char *ls_phrase_ball(double bank_rad, double width_rad, int live_side, int live_engines, char out[LS_PHRASE])
{
    double widths = fabs(bank_rad) / width_rad;
    const char *side = live_side == 0               ? (bank_rad > 0 ? "right" : "left")
                       : live_side * bank_rad < 0.0 ? "dead engine"
                       : live_engines > 1           ? "live engines"
                                                    : "live engine";
    if (widths < 0.05) {
        snprintf(out, LS_PHRASE, "centred");
    } else {
        snprintf(out, LS_PHRASE, "%.1f widths toward the %s", widths, side);
    }
    return out;
}

const char *ls_phrase_set(const ls_aircraft *aircraft, unsigned set, char out[LS_PHRASE])
{
    size_t used = 0;
    int left = ls_set_size(set), named = 0;
    out[0] = '\0';
    for (int i = 0; i < aircraft->engines && used < LS_PHRASE; i++) {
        if (set >> i & 1u) {
            left--;
            used += (size_t)snprintf(out + used, LS_PHRASE - used, "%s%s",
                                     named++ == 0 ? ""
                                     : left == 0  ? " and "
                                                  : ", ",
                                     aircraft->engine[i].name);
        }
    }
    ls_text_trim_utf8(out);
    return out;
}

static int engines_on_side(const ls_aircraft *aircraft, int side)
{
    int count = 0;
    for (int i = 0; i < aircraft->engines; i++) {
        count += side * aircraft->engine[i].hub_right_m > 0;
    }
    return count;
}

const char *ls_phrase_set_heading(const ls_aircraft *aircraft, unsigned set, char out[LS_PHRASE])
{
    int first = 0;
    while (!(set >> first & 1u)) {
        first++;
    }
    if (ls_set_size(set) > 1) {
        int side = aircraft->engine[first].hub_right_m > 0 ? 1 : -1;
        int is_whole_side = ls_set_size(set) == engines_on_side(aircraft, side);
        snprintf(out, LS_PHRASE, "%s\n%s", is_whole_side ? "both" : "outer", side > 0 ? "right" : "left");
        return out;
    }
    snprintf(out, LS_PHRASE, "%s", aircraft->engine[first].name);
    char *space = strrchr(out, ' ');
    if (space != NULL) {
        *space = '\n';
    }
    return out;
}

const char *ls_phrase_value(double si, ls_dimension dimension, const char *us_unit, ls_unit_system units,
                            int decimals, char out[LS_PHRASE])
{
    const ls_unit *unit = units == LS_UNITS_US && us_unit != NULL ? ls_unit_find(dimension, us_unit)
                                                                  : ls_unit_preferred(units, dimension);
    ls_units_format(si, unit, ls_units_decimals(units, dimension, us_unit, decimals), out, LS_PHRASE);
    return out;
}

const char *ls_phrase_exceeded(const ls_vmc *vmc)
{
    static const char *const everywhere[LS_LIMITS] = {
        "rudder-limited at every speed", "force-limited at every speed", "aileron-limited at every speed",
        "fin-limited at every speed", "stalled at every speed"};
    static const char *const top[LS_LIMITS] = {
        "rudder-limited at the top of the range", "force-limited at the top of the range",
        "aileron-limited at the top of the range", "fin-limited at the top of the range",
        "stalled at the top of the range"};
    return vmc->everywhere ? everywhere[vmc->limit] : top[vmc->limit];
}

const char *ls_phrase_limit(const ls_vmca_point *point)
{
    if (point->status != LS_OK) {
        return point->reason;
    }
    switch (point->vmc.kind) {
    case LS_VMC_CONTROL:
    case LS_VMC_STALLS_FIRST:
        return ls_limit_name(point->vmc.limit);
    case LS_VMC_ABOVE_RANGE:
        return ls_phrase_exceeded(&point->vmc);
    case LS_VMC_NO_LIMIT:
        return "no limit met";
    default:
        return "no trim";
    }
}

const char *ls_phrase_limit_short(const ls_vmca_point *point)
{
    static const char *const names[LS_LIMITS] = {"rudder", "pedal", "aileron", "fin", "stall"};
    if (point->status != LS_OK) {
        return "none";
    }
    switch (point->vmc.kind) {
    case LS_VMC_CONTROL:
    case LS_VMC_STALLS_FIRST:
        return names[point->vmc.limit];
    case LS_VMC_ABOVE_RANGE:
        return "over";
    default:
        return "none";
    }
}

const char *ls_phrase_reason(const ls_aircraft *aircraft, const ls_vmca_point *point, char out[LS_PHRASE])
{
    const ls_vmc *vmc = &point->vmc;
    if (point->status != LS_OK || !isfinite(vmc->cas_m_s)) {
        snprintf(out, LS_PHRASE, "%s", ls_phrase_limit(point));
        return out;
    }
    const char *pedal = !ls_aircraft_has_pedal(aircraft)           ? "; no pedal data in the file"
                        : isnan(vmc->margins.left[LS_LIMIT_PEDAL]) ? "; no limit of pedal force"
                                                                   : "";
    int used = snprintf(out, LS_PHRASE, "%s%s%s",
                        isfinite(vmc->control_cas_m_s) ? "" : "; no control limit in the range of speeds",
                        isfinite(vmc->stall_cas_m_s) ? "" : "; no stall in the range of speeds", pedal);
    memmove(out, out + (used > 0 ? 2 : 0), strlen(out) + 1 - (used > 0 ? 2 : 0));
    return out;
}

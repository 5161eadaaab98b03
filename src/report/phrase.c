#include "report/phrase.h"

#include "report/table.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

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

const char *ls_phrase_speed(double m_s, ls_unit_system units, int rough, char out[LS_PHRASE])
{
    return speed_text(m_s, units, rough, "kt", "", out);
}

const char *ls_phrase_bank(double bank_rad, int live_side, int live_engines, char out[LS_PHRASE])
{
    double bank_deg = bank_rad / DEG;
    if (fabs(bank_deg) < 0.05) {
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
    if (fabs(beta_rad) < 0.05 * DEG) {
        snprintf(out, LS_PHRASE, "none");
    } else {
        snprintf(out, LS_PHRASE, "%.1f deg from the %s%s", fabs(beta_rad) / DEG, wind_side(beta_rad, live_side),
                 live_side != 0 ? " side" : "");
    }
    return out;
}

const char *ls_phrase_wind_short(double beta_rad, int live_side, char out[LS_PHRASE])
{
    if (fabs(beta_rad) < 0.05 * DEG) {
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
    if (fabs(bank_deg) < 0.05) {
        snprintf(out, LS_PHRASE, "level");
    } else {
        snprintf(out, LS_PHRASE, "%.3g %s", round(10 * fabs(bank_deg)) / 10, side);
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
    return out;
}

const char *ls_phrase_set_heading(const ls_aircraft *aircraft, unsigned set, char out[LS_PHRASE])
{
    int first = 0;
    while (!(set >> first & 1u)) {
        first++;
    }
    if (ls_set_size(set) > 1) {
        double right_m = aircraft->engine[first].hub_right_m;
        snprintf(out, LS_PHRASE, "%s\n%s", ls_set_size(set) == 2 ? "both" : "all", right_m > 0 ? "right" : "left");
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
        return "above the range";
    case LS_VMC_NO_LIMIT:
        return "no limit met";
    default:
        return "no trim";
    }
}

const char *ls_phrase_limit_short(const ls_vmca_point *point)
{
    static const char *const names[LS_LIMITS] = {"rudder", "pedal", "aileron", "fin", "stall"};
    int has_limit =
        point->status == LS_OK && (point->vmc.kind == LS_VMC_CONTROL || point->vmc.kind == LS_VMC_STALLS_FIRST);
    return has_limit ? names[point->vmc.limit] : "none";
}

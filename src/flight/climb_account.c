/* Where the climb goes: every force along the flight path at a trim, worked out apart from the solver. */
#include "liveside/climb.h"

#include "airframe/slipstream.h"
#include "num/curve.h"

#include <math.h>
#include <string.h>

const char *ls_account_name(ls_account_item item)
{
    static const char *const names[LS_ACCOUNTS] = {"thrust",
                                                   "installation",
                                                   "airframe at zero lift",
                                                   "lift",
                                                   "flap",
                                                   "gear",
                                                   "cowl flaps",
                                                   "propeller",
                                                   "cooling",
                                                   "sideslip",
                                                   "rudder",
                                                   "aileron",
                                                   "propellers in-plane"};
    return (unsigned)item < LS_ACCOUNTS ? names[item] : "unknown";
}

static double dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static double induced(const ls_flap *flap, double CL)
{
    return flap->drag_induced * (CL - flap->drag_least_at) * (CL - flap->drag_least_at);
}

/* Drag acts along the path; the side forces act along the body's y axis, whose part along the path is sin beta. */
static void add_airframe(const ls_model *model, const ls_trim *trim, double qS_N, double part_N[LS_ACCOUNTS])
{
    const ls_aircraft *aircraft = model->aircraft;
    const ls_condition *condition = &model->condition;
    const ls_derivatives *d = &model->derivatives;
    const ls_flap *flap = &aircraft->flap[condition->flap], *clean = &aircraft->flap[ls_flap_clean(aircraft)];
    double CL = trim->lift_coefficient, sin_b = sin(trim->beta_rad);
    double beta = trim->beta_rad, rudder = trim->rudder_rad, aileron = trim->aileron_rad;
    double effective = model->rudder_effect.table.rows == 0
                           ? rudder
                           : copysign(ls_curve_at(&model->rudder_effect, fabs(rudder)).value, rudder);
    part_N[LS_ACCOUNT_ZERO] = -qS_N * clean->drag_zero;
    part_N[LS_ACCOUNT_INDUCED] = -qS_N * induced(clean, CL);
    part_N[LS_ACCOUNT_FLAP] =
        -qS_N * (flap->drag_zero + induced(flap, CL) - clean->drag_zero - induced(clean, CL));
    part_N[LS_ACCOUNT_GEAR] = -qS_N * condition->gear * aircraft->gear.drag;
    part_N[LS_ACCOUNT_COWL] = -qS_N * condition->cowl_flaps * aircraft->drag.cowl_flaps;
    part_N[LS_ACCOUNT_SIDESLIP] =
        qS_N * (d->side_sideslip * beta * sin_b - aircraft->drag.sideslip_per_rad2 * beta * beta);
    part_N[LS_ACCOUNT_RUDDER] =
        qS_N * (d->side_rudder * effective * sin_b - aircraft->drag.rudder_per_rad2 * rudder * rudder);
    part_N[LS_ACCOUNT_AILERON] =
        qS_N * (d->side_aileron * aileron * sin_b - aircraft->drag.aileron_per_rad2 * aileron * aileron);
}

static void add_engine(const ls_model *model, const ls_mounted_engine *unit, const ls_propulsor_point *load,
                       double q_Pa, const double u[3], double part_N[LS_ACCOUNTS])
{
    double along = dot(unit->axis, u);
    if (unit->state == LS_RUNNING || unit->state == LS_PARTIAL) {
        part_N[LS_ACCOUNT_THRUST] += load->thrust_N * along;
        part_N[LS_ACCOUNT_INSTALL] -= ls_installation_loss(unit, load->thrust_N) * along;
        return;
    }
    part_N[LS_ACCOUNT_COOLING] -= q_Pa * unit->cooling_area_m2;
    if (!(model->condition.effects_off & LS_EFFECT_DEAD_DRAG)) {
        part_N[LS_ACCOUNT_PROPELLER] += load->thrust_N * along;
    }
}

ls_status ls_climb_account(const ls_model *model, const ls_climb_point *point, ls_account *account,
                           ls_error *error)
{
    ls_powerplant_point powerplant;
    const ls_trim *trim = &point->trim;
    ls_status status = model->loads(model, point->V_m_s, &powerplant, error);
    if (status != LS_OK) {
        return status;
    }
    double u[3] = {cos(trim->alpha_rad) * cos(trim->beta_rad), sin(trim->beta_rad),
                   sin(trim->alpha_rad) * cos(trim->beta_rad)};
    double q_Pa = 0.5 * model->air.rho_kg_m3 * point->V_m_s * point->V_m_s;
    double *part_N = account->part_N, propulsion_N = 0.0;
    memset(account, 0, sizeof *account);
    add_airframe(model, trim, q_Pa * model->S_m2, part_N);
    for (int i = 0; i < model->units; i++) {
        add_engine(model, &model->unit[i], &powerplant.unit[i], q_Pa, u, part_N);
    }
    double from_zero_rad = trim->alpha_rad + model->lift_zero / model->lift_slope;
    for (int i = 0; i < 3; i++) {
        propulsion_N += u[i] * (powerplant.force0_N[i] + dot(powerplant.force_u_N[i], u) +
                                powerplant.upwash_force_N[i] * from_zero_rad);
    }
    double swirl_rad = ls_fin_as_rudder(&model->derivatives, powerplant.fin_rad);
    propulsion_N += q_Pa * model->S_m2 * model->derivatives.side_rudder * swirl_rad * u[1];
    part_N[LS_ACCOUNT_OTHER] = propulsion_N - part_N[LS_ACCOUNT_THRUST] - part_N[LS_ACCOUNT_INSTALL] -
                               part_N[LS_ACCOUNT_PROPELLER] - part_N[LS_ACCOUNT_COOLING];
    for (int i = 0; i < LS_ACCOUNTS; i++) {
        account->sum_N += part_N[i];
    }
    return LS_OK;
}

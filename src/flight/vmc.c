/* The minimum control speed at a bank: by Newton's method on the limit condition, or where that is not sure of it
 * by the search in steps. */
#include "liveside/vmc.h"

#include "flight/fast_vmc.h"
#include "flight/search.h"
#include "liveside/airspeed.h"

#include <math.h>
#include <string.h>

enum { STEPS = 28 };

#define RANGE_LOW  0.6 /* of the 1 g stall speed */
#define RANGE_HIGH 3.0
#define JOINT_M_S  (1e-5 * 1852.0 / 3600.0)

const char *ls_limit_name(ls_limit limit)
{
    static const char *const names[LS_LIMITS] = {"rudder travel", "pedal force", "aileron travel", "fin stall",
                                                 "wing stall"};
    return (unsigned)limit < LS_LIMITS ? names[limit] : "none";
}

void ls_margins_at(const ls_model *model, const ls_trim *trim, ls_margins *margins)
{
    const ls_aircraft *aircraft = model->aircraft;
    double travel_rad = trim->rudder_rad > 0.0 ? aircraft->rudder.left_rad : aircraft->rudder.right_rad;
    margins->left[LS_LIMIT_RUDDER] = 1.0 - fabs(trim->rudder_rad) / travel_rad;
    margins->left[LS_LIMIT_PEDAL] = isfinite(model->condition.pedal_limit_N) && !isnan(trim->pedal_force_N)
                                        ? 1.0 - fabs(trim->pedal_force_N) / model->condition.pedal_limit_N
                                        : NAN;
    margins->left[LS_LIMIT_AILERON] = 1.0 - fabs(trim->aileron_rad) / model->aileron_rad;
    margins->left[LS_LIMIT_FIN_STALL] = 1.0 - fabs(trim->beta_rad) / aircraft->fin.stall_sideslip_rad;
    margins->left[LS_LIMIT_WING_STALL] = 1.0 - trim->lift_coefficient / model->lift_max;
    margins->stall_power_on = 1.0 - trim->free_lift_coefficient / model->lift_max;
}

static double cas_of(const ls_model *model, double V_m_s)
{
    ls_airspeed speed;
    return isfinite(V_m_s) && ls_airspeed_from_tas(&model->air, V_m_s, &speed, NULL) == LS_OK ? speed.CAS_m_s
                                                                                              : NAN;
}

static void set_speeds(const ls_model *model, ls_vmc *vmc)
{
    vmc->cas_m_s = cas_of(model, vmc->V_m_s);
    vmc->eas_m_s = vmc->V_m_s * sqrt(model->air.sigma);
    vmc->control_cas_m_s = cas_of(model, vmc->control_V_m_s);
    vmc->stall_cas_m_s = cas_of(model, vmc->stall_V_m_s);
}

static void take_highest(const ls_crossing found[LS_LIMITS], ls_vmc *vmc)
{
    vmc->control_V_m_s = NAN;
    vmc->control_limit = LS_LIMITS;
    for (int limit = 0; limit < LS_LIMIT_WING_STALL; limit++) {
        if (found[limit].V_m_s > vmc->control_V_m_s || (isnan(vmc->control_V_m_s) && !isnan(found[limit].V_m_s))) {
            vmc->control_V_m_s = found[limit].V_m_s;
            vmc->control_limit = (ls_limit)limit;
        }
    }
    vmc->stall_V_m_s = found[LS_LIMIT_WING_STALL].V_m_s;
    if (!isnan(vmc->control_V_m_s) && !(vmc->control_V_m_s < vmc->stall_V_m_s)) {
        vmc->kind = LS_VMC_CONTROL;
        vmc->limit = vmc->control_limit;
    } else if (!isnan(vmc->stall_V_m_s)) {
        vmc->kind = LS_VMC_STALLS_FIRST;
        vmc->limit = LS_LIMIT_WING_STALL;
    } else {
        vmc->kind = LS_VMC_NO_LIMIT;
        vmc->limit = LS_LIMITS;
        return;
    }
    vmc->V_m_s = found[vmc->limit].V_m_s;
    vmc->bracket_m_s = found[vmc->limit].bracket_m_s;
    vmc->at_jump = found[vmc->limit].is_jump;
    for (int limit = 0; limit < LS_LIMITS; limit++) {
        vmc->joint |= fabs(found[limit].V_m_s - vmc->V_m_s) <= JOINT_M_S ? 1u << limit : 0u;
    }
}

/* Whether a limit that is exceeded at the top stays so down to the stall, or to the end of the range. */
static int stays_exceeded(ls_search *s, const ls_search_sample *top, ls_limit over, double low_m_s, double ratio)
{
    s->at = *top;
    s->has_start = 1;
    for (double V_m_s = top->V_m_s * ratio; V_m_s >= low_m_s; V_m_s *= ratio) {
        if (ls_search_at(s, V_m_s) != LS_OK) {
            return 0;
        }
        if (s->at.margins.left[LS_LIMIT_WING_STALL] <= 0.0) {
            break;
        }
        if (s->at.margins.left[over] > 0.0) {
            return 0;
        }
    }
    return 1;
}

/* How the answer follows the pedal force allowed: the force held at speeds close by, the other way round. */
static double speed_by_force(ls_search *s, const ls_search_sample *answer)
{
    const double share = 1e-4; /* of the speed: the force is smooth there, and differences keep 8 digits */
    double force_N[2];
    for (int i = 0; i < 2; i++) {
        s->at = *answer;
        s->has_start = 1;
        if (ls_search_at(s, answer->V_m_s * (i == 0 ? 1.0 - share : 1.0 + share)) != LS_OK) {
            return NAN;
        }
        force_N[i] = fabs(s->at.trim.pedal_force_N);
    }
    return 2.0 * share * answer->V_m_s / (force_N[1] - force_N[0]);
}

/* The trim at the answer. */
static void fill_answer(ls_search *s, ls_vmc *vmc)
{
    if (ls_search_at(s, vmc->V_m_s) == LS_OK) {
        vmc->trim = s->at.trim;
        vmc->margins = s->at.margins;
        vmc->flags = s->flags;
        ls_search_sample answer = s->at;
        vmc->m_s_per_N = vmc->limit == LS_LIMIT_PEDAL ? speed_by_force(s, &answer) : NAN;
    }
}

static void set_answer(ls_search *s, const ls_search_sample *top, const ls_crossing found[LS_LIMITS], double ratio,
                       ls_vmc *vmc)
{
    ls_limit over = ls_margins_exceeded(&top->margins);
    if (top->margins.left[over] <= 0.0) {
        vmc->kind = LS_VMC_ABOVE_RANGE;
        vmc->limit = over;
        vmc->trim = top->trim;
        vmc->margins = top->margins;
        vmc->everywhere = stays_exceeded(s, top, over, vmc->low_V_m_s, ratio);
        return;
    }
    take_highest(found, vmc);
    if (vmc->kind == LS_VMC_NO_LIMIT) {
        if (s->status != LS_OK) {
            vmc->kind = LS_VMC_FAILED;
            vmc->stop = s->at.trim.stop;
        }
        return;
    }
    s->at = *top;
    s->has_start = 1;
    fill_answer(s, vmc);
}

static void begin(const ls_model *model, ls_vmc *vmc, ls_crossing found[LS_LIMITS])
{
    memset(vmc, 0, sizeof *vmc);
    vmc->V_m_s = vmc->control_V_m_s = vmc->stall_V_m_s = vmc->m_s_per_N = NAN;
    vmc->low_V_m_s = RANGE_LOW * model->stall_V_m_s;
    vmc->high_V_m_s = RANGE_HIGH * model->stall_V_m_s;
    for (int limit = 0; limit < LS_LIMITS; limit++) {
        found[limit] = (ls_crossing){NAN, NAN, 0};
    }
}

/* The plain search. Given: step_m_s, of the scan; 0: `steps` of equal ratio. */
static ls_status find(const ls_model *model, double bank_rad, int steps, double step_m_s, ls_vmc *vmc,
                      ls_error *error)
{
    ls_error local = {0};
    ls_search s = {.model = model, .bank_rad = bank_rad, .error = &local};
    ls_crossing found[LS_LIMITS];
    ls_search_sample top = {0};
    begin(model, vmc, found);
    double ratio = pow(RANGE_LOW / RANGE_HIGH, 1.0 / steps);
    int solved = ls_search_down(&s, vmc->high_V_m_s, vmc->low_V_m_s, steps, ratio, step_m_s, &top, found);
    if (solved == 0) {
        vmc->kind = LS_VMC_FAILED;
        vmc->stop = s.at.trim.stop;
        vmc->control_limit = vmc->limit = LS_LIMITS;
    } else {
        set_answer(&s, &top, found, ratio, vmc);
    }
    vmc->trims = s.trims;
    set_speeds(model, vmc);
    if (vmc->kind != LS_VMC_FAILED) {
        return LS_OK;
    }
    if (local.status == LS_OK) {
        ls_fail(&local, LS_NOT_CONVERGED, "no trim in the speed range: %s", ls_stop_text(vmc->stop));
    }
    return ls_fail(error, local.status, "%s", local.text);
}

static void take_root(const ls_limit_root *root, ls_crossing found[LS_LIMITS])
{
    if (root->limit != LS_LIMITS) {
        found[root->limit] = (ls_crossing){root->state.V_m_s, root->step_m_s, 0};
    }
}

/* Newton's method on the limit condition: the first limit, and if asked the first of the other kind, control or
 * stall. Returned: 0 where it is not sure of the answer. */
static int find_fast(const ls_model *model, double bank_rad, int both, int fill, ls_vmc_workspace *work,
                     ls_vmc *vmc)
{
    const unsigned all = (1u << LS_LIMITS) - 1u, stall = 1u << LS_LIMIT_WING_STALL;
    ls_error unused = {0};
    ls_limit_search fast = {.model = model, .bank_rad = bank_rad, .work = work, .error = &unused};
    ls_fast_track track = {.count = 0};
    ls_limit_root first, second;
    ls_crossing found[LS_LIMITS];
    begin(model, vmc, found);
    if (model->loads != ls_powerplant_at || model->propulsor != ls_propulsor_at ||
        !ls_fast_next(&fast, all, vmc->low_V_m_s, vmc->high_V_m_s, &track, &first)) {
        return 0;
    }
    take_root(&first, found);
    if (both && first.limit != LS_LIMITS) {
        unsigned other = first.limit == LS_LIMIT_WING_STALL ? all & ~stall : stall;
        if (!ls_fast_next(&fast, other, vmc->low_V_m_s, vmc->high_V_m_s, &track, &second)) {
            return 0;
        }
        take_root(&second, found);
    }
    take_highest(found, vmc);
    vmc->trims = fast.trims;
    if (fill && vmc->kind != LS_VMC_NO_LIMIT) {
        ls_search s = {.model = model, .bank_rad = bank_rad, .error = &unused};
        fill_answer(&s, vmc);
        vmc->trims += s.trims;
        if (s.status != LS_OK) {
            return 0;
        }
    }
    set_speeds(model, vmc);
    return 1;
}

ls_status ls_vmc_first(const ls_model *model, double bank_rad, int fill, ls_vmc_workspace *work, ls_vmc *vmc,
                       ls_error *error)
{
    ls_vmc_workspace own = {0};
    ls_vmc_workspace *kept = work != NULL ? work : &own;
    kept->solves++;
    if (find_fast(model, bank_rad, 0, fill, kept, vmc)) {
        return LS_OK;
    }
    kept->searched++;
    memset(&kept->top, 0, sizeof kept->top);
    memset(&kept->below, 0, sizeof kept->below);
    memset(kept->top_rad, 0, sizeof kept->top_rad);
    kept->root_stalls = 0.0;
    return find(model, bank_rad, STEPS, 0.0, vmc, error);
}

int ls_vmc_is_below(const ls_model *model, double bank_rad, double V_m_s, ls_vmc_workspace *work)
{
    ls_error unused = {0};
    ls_limit_search fast = {.model = model, .bank_rad = bank_rad, .work = work, .error = &unused};
    double high_m_s = RANGE_HIGH * model->stall_V_m_s;
    return model->loads == ls_powerplant_at && model->propulsor == ls_propulsor_at &&
           V_m_s > RANGE_LOW * model->stall_V_m_s && V_m_s < high_m_s &&
           ls_fast_clear_from(&fast, (1u << LS_LIMITS) - 1u, V_m_s, high_m_s);
}

ls_status ls_vmc_at(const ls_model *model, double bank_rad, ls_vmc *vmc, ls_error *error)
{
    ls_vmc_workspace work = {0};
    return find_fast(model, bank_rad, 1, 1, &work, vmc) ? LS_OK : find(model, bank_rad, STEPS, 0.0, vmc, error);
}

ls_status ls_vmc_scan(const ls_model *model, double bank_rad, ls_vmc *vmc, ls_error *error)
{
    const double step_m_s = 0.1 * 1852.0 / 3600.0;
    int steps = (int)ceil((RANGE_HIGH - RANGE_LOW) * model->stall_V_m_s / step_m_s);
    return find(model, bank_rad, steps, step_m_s, vmc, error);
}

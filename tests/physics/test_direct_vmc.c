/* The minimum control speed rests on tables of the propeller: beside direct solutions of the disc, and beside a
 * propeller of handbook coefficients that are taken from it. */
#include "check.h"
#include "fleet.h"

#include "liveside/disc.h"
#include "liveside/prepare.h"
#include "liveside/vmc.h"
#include "num/root.h"
#include "prop/engine.h"
#include "prop/wake.h"

#include <math.h>
#include <string.h>

#define PI  3.14159265358979323846
#define DEG (PI / 180.0)
#define KT  (1852.0 / 3600.0)

static const char *const names[] = {"whimbrel", "sanderling", "redshank", "barnacle"};
enum { FLEET = 4 };

static ls_aircraft aircraft[FLEET];
static ls_disc disc[FLEET];

static int read_fleet(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        ls_blade blade;
        fleet_read(names[i], &aircraft[i]);
        const ls_propeller_data *propeller = &aircraft[i].powerplant[0].propeller;
        assert_int_equal(aircraft[i].powerplants, 1);
        assert_int_equal(ls_propeller_blade(propeller, &blade, NULL), LS_OK);
        assert_int_equal(ls_disc_prepare(&blade, &propeller->section, NULL, &disc[i], NULL), LS_OK);
    }
    return 0;
}

/* ---- direct solutions ---- */

static const ls_disc *disc_of(const ls_powerplant *powerplant)
{
    int i = 0;
    while (powerplant->data->propeller.table != aircraft[i].powerplant[0].propeller.table) {
        i++;
        assert_true(i < FLEET);
    }
    return &disc[i];
}

typedef struct {
    const ls_disc *disc;
    const ls_powerplant *powerplant;
    const ls_air *air;
    ls_engine_state state;
    double power, V_m_s, pitch_rad, n_rev_s;
    int by_pitch;
} direct;

static ls_disc_axial solve(const direct *it, double pitch_rad, double n_rev_s)
{
    ls_disc_axial axial;
    ls_disc_state state = {.V_axial_m_s = it->V_m_s,
                           .n_rev_s = n_rev_s,
                           .pitch_rad = pitch_rad,
                           .rho_kg_m3 = it->air->rho_kg_m3,
                           .a_m_s = it->air->a_m_s};
    assert_int_equal(ls_disc_solve_axial(it->disc, &state, LS_INDUCTION_LOCAL, &axial, NULL), LS_OK);
    return axial;
}

static double direct_excess(double x, void *context)
{
    direct *it = context;
    double pitch_rad = it->by_pitch ? x : it->pitch_rad, n_rev_s = it->by_pitch ? it->n_rev_s : x;
    return solve(it, pitch_rad, n_rev_s).Q_N_m -
           ls_engine_torque(it->powerplant, it->air, it->state, it->power, n_rev_s);
}

/* Torques balanced by direct solutions, looked for around where the table has them, with the same loads from them
 * as the table's; which stop the blades are on is the table's to say. */
static ls_status direct_propulsor(const ls_powerplant *powerplant, ls_engine_state state, double power,
                                  const ls_air *air, double V_m_s, ls_propulsor_point *point, ls_error *error)
{
    ls_status status = ls_propulsor_at(powerplant, state, power, air, V_m_s, point, error);
    direct it = {disc_of(powerplant), powerplant, air, state, power, V_m_s, point->pitch_rad, point->n_rev_s, 0};
    ls_root_options options = {.x_tol = 1e-10};
    ls_root_report report;
    if (status != LS_OK) {
        return status;
    }
    if (point->n_rev_s > 0.0) {
        it.by_pitch = !(point->flags & LS_PROPULSOR_FINE_STOP);
        double x = it.by_pitch ? it.pitch_rad : it.n_rev_s, width = it.by_pitch ? 1.5 * DEG : 0.06 * it.n_rev_s;
        assert_int_equal(ls_root_find(direct_excess, &it, x - width, x + width, &options, &report), LS_OK);
        *(it.by_pitch ? &it.pitch_rad : &it.n_rev_s) = report.x;
    }
    ls_disc_axial axial = solve(&it, it.pitch_rad, it.n_rev_s);
    unsigned flags = point->flags;
    memset(point, 0, sizeof *point);
    point->thrust_N = axial.T_N;
    point->torque_Nm = axial.Q_N_m;
    point->normal_N = axial.N_N_s_m * V_m_s;
    point->hub_first_Nm = axial.m1_N_s * V_m_s;
    point->n_rev_s = it.n_rev_s;
    point->pitch_rad = it.pitch_rad;
    point->shaft_power_W = 2 * PI * it.n_rev_s * axial.Q_N_m;
    point->flags = flags;
    ls_wake_from_momentum(powerplant->data->propeller.diameter_m, air, V_m_s, point);
    return LS_OK;
}

static void vmc_by_table_is_vmc_by_direct_solutions(void **state)
{
    (void)state;
    static const ls_engine_state states[] = {LS_WINDMILLING, LS_LEVER_AFT, LS_FEATHERED, LS_STOPPED};
    uint64_t seed = 4711;
    double worst_kt = 0.0;
    int compared = 0, conditions = check_scaled(200);
    for (int i = 0; i < conditions; i++) {
        const ls_aircraft *plane = &aircraft[i % FLEET];
        ls_condition condition;
        ls_model model;
        ls_vmc by_table, by_disc;
        fleet_condition(plane, &seed, &condition);
        ls_condition_fail_as(plane, ls_condition_failed(plane, &condition), states[i / FLEET % 4], &condition);
        double bank_rad = ls_live_side(plane, &condition) * check_random(&seed, -2, 6) * DEG;
        assert_int_equal(ls_model_make(plane, &condition, &model, NULL), LS_OK);
        assert_int_equal(ls_vmc_at(&model, bank_rad, &by_table, NULL), LS_OK);
        model.propulsor = direct_propulsor;
        assert_int_equal(ls_vmc_at(&model, bank_rad, &by_disc, NULL), LS_OK);
        assert_int_equal(by_table.kind, by_disc.kind);
        assert_int_equal(by_table.limit, by_disc.limit);
        if (isfinite(by_disc.V_m_s)) {
            check_close("VMC or stall by table less that by direct solutions, kt",
                        (by_table.cas_m_s - by_disc.cas_m_s) / KT, 0.0, 0.05, "what a table may cost",
                        "our own direct solutions of the disc");
            worst_kt = fmax(worst_kt, fabs(by_table.cas_m_s - by_disc.cas_m_s) / KT);
            compared++;
        }
        if (isfinite(by_disc.control_cas_m_s) && isfinite(by_table.control_cas_m_s)) {
            check_close("control-limited speed by table less that by direct solutions, kt",
                        (by_table.control_cas_m_s - by_disc.control_cas_m_s) / KT, 0.0, 0.05,
                        "what a table may cost", "our own direct solutions of the disc");
            worst_kt = fmax(worst_kt, fabs(by_table.control_cas_m_s - by_disc.control_cas_m_s) / KT);
        }
    }
    print_message("%d of %d conditions with a speed; worst difference %.4f kt\n", compared, conditions, worst_kt);
    assert_true(compared >= conditions * 3 / 4);
}

/* ---- coefficients ---- */

static ls_propulsor_point point_at(const ls_model *model, ls_engine_state state, double V_m_s)
{
    ls_propulsor_point point;
    assert_int_equal(ls_propulsor_at(&model->powerplant[0], state, 1.0, &model->air, V_m_s, &point, NULL), LS_OK);
    return point;
}

/* The efficiency over the power available, against the advance ratio at the rated speed of rotation. */
static void take_efficiency(const ls_model *model, ls_propeller_data *to)
{
    double nD =
        model->powerplant[0].data->engine.n_rev_s * model->powerplant[0].data->engine.gear_ratio * to->diameter_m;
    double power_W = ls_powerplant_power(&model->powerplant[0], &model->air);
    to->efficiency.rows = 0;
    for (double V_m_s = 0.0; V_m_s <= 90.0; V_m_s += 2.0) {
        int row = to->efficiency.rows++;
        to->efficiency.x[row] = V_m_s / nD;
        to->efficiency.y[row] = point_at(model, LS_RUNNING, V_m_s).thrust_N * V_m_s / power_W;
    }
}

/* Drag areas, P-factor and in-plane force at one speed. */
static void take_coefficients(const ls_model *model, double V_m_s, ls_propeller_data *to)
{
    double q_Pa = 0.5 * model->air.rho_kg_m3 * V_m_s * V_m_s;
    ls_propulsor_point running = point_at(model, LS_RUNNING, V_m_s);
    take_efficiency(model, to);
    to->kind = LS_PROPELLER_COEFFICIENTS;
    to->windmilling_area_m2 = -point_at(model, LS_WINDMILLING, V_m_s).thrust_N / q_Pa;
    to->feathered_area_m2 = -point_at(model, LS_FEATHERED, V_m_s).thrust_N / q_Pa;
    to->stopped_area_m2 = -point_at(model, LS_STOPPED, V_m_s).thrust_N / q_Pa;
    to->offset_per_rad = running.hub_first_Nm / (running.thrust_N * to->diameter_m);
    to->normal_area_m2 = running.normal_N / q_Pa;
    to->table = NULL;
}

static double vmc_kt(const ls_aircraft *plane, ls_engine_state state, unsigned effects_off, double *V_m_s)
{
    ls_condition condition;
    ls_model model;
    ls_vmc vmc;
    ls_condition_takeoff(plane, &condition);
    ls_condition_fail_as(plane, 1u, state, &condition);
    condition.effects_off = effects_off;
    condition.mass_kg = plane->mass.minimum_kg;
    assert_int_equal(ls_model_make(plane, &condition, &model, NULL), LS_OK);
    assert_int_equal(ls_vmc_at(&model, ls_live_side(plane, &condition) * 3 * DEG, &vmc, NULL), LS_OK);
    assert_true(isfinite(vmc.control_cas_m_s));
    *V_m_s = vmc.control_V_m_s;
    return vmc.control_cas_m_s / KT;
}

static void coefficients_taken_from_the_blades_agree_with_them(void **state)
{
    (void)state;
    static const ls_engine_state states[] = {LS_WINDMILLING, LS_FEATHERED, LS_STOPPED};
    for (int i = 0; i < FLEET; i++) {
        ls_condition condition;
        ls_model model;
        ls_condition_takeoff(&aircraft[i], &condition);
        assert_int_equal(ls_model_make(&aircraft[i], &condition, &model, NULL), LS_OK);
        for (int k = 0; k < 3; k++) {
            ls_aircraft other = aircraft[i];
            double V_m_s, same_m_s, blades[2], handbook[2];
            vmc_kt(&aircraft[i], states[k], 0, &V_m_s);
            take_coefficients(&model, V_m_s, &other.powerplant[0].propeller);
            for (int n = 0; n < 2; n++) {
                unsigned effects_off = n == 0 ? LS_EFFECT_NORMAL_FORCE : 0u;
                blades[n] = vmc_kt(&aircraft[i], states[k], effects_off, &same_m_s);
                handbook[n] = vmc_kt(&other, states[k], effects_off, &same_m_s);
            }
            print_message("%s, %s: %.3f kt by blades, %.3f by coefficients; without in-plane forces %.3f, %.3f\n",
                          names[i], ls_engine_state_name(states[k]), blades[1], handbook[1], blades[0],
                          handbook[0]);
            check_close("VMC by coefficients less that by blade elements, without in-plane forces, kt",
                        handbook[0] - blades[0], 0.0, 0.3,
                        "torque and hub moment of the dead propeller are not among the coefficients",
                        "our own blade elements");
            check_close("the same with in-plane forces, kt", handbook[1] - blades[1], 0.0, 1.0,
                        "nor is the fin that the blades of a feathered propeller make", "our own blade elements");
        }
    }
}

/* At the rows of the curve the thrust is the same to round-off, and between them to the curve's smoothness. */
static void thrust_by_coefficients_is_that_of_the_blades(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        ls_condition condition;
        ls_model model, other_model;
        ls_aircraft other = aircraft[i];
        ls_condition_takeoff(&aircraft[i], &condition);
        assert_int_equal(ls_model_make(&aircraft[i], &condition, &model, NULL), LS_OK);
        take_coefficients(&model, 40.0, &other.powerplant[0].propeller);
        assert_int_equal(ls_model_make(&other, &condition, &other_model, NULL), LS_OK);
        for (double V_m_s = 20.0; V_m_s <= 88.0; V_m_s += 1.0) {
            double blades_N = point_at(&model, LS_RUNNING, V_m_s).thrust_N;
            double curve_N = point_at(&other_model, LS_RUNNING, V_m_s).thrust_N;
            int is_row = fmod(V_m_s, 2.0) == 0.0;
            check_close(is_row ? "thrust by coefficients over that by blades, at a row of the curve"
                               : "thrust by coefficients over that by blades, between rows",
                        curve_N / blades_N, 1.0, is_row ? 1e-9 : 2e-3, is_row ? "round-off" : "rows 2 m/s apart",
                        "our own blade elements");
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(vmc_by_table_is_vmc_by_direct_solutions),
        cmocka_unit_test(coefficients_taken_from_the_blades_agree_with_them),
        cmocka_unit_test(thrust_by_coefficients_is_that_of_the_blades),
    };
    return cmocka_run_group_tests(tests, read_fleet, NULL);
}

/* The fast minimum control speed against the plain scan, on random aeroplanes and conditions drawn from a pool of
 * twelve propellers of both kinds. LS_TEST_SCALE=12500 asks for 100,000 of them. */
#include "check.h"
#include "fleet.h"

#include "flight/fast_vmc.h"
#include "liveside/prepare.h"
#include "liveside/vmc.h"
#include "num/linear.h"
#include "prop/follow.h"

#include <gsl/gsl_linalg.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)

enum { POOL = 12, CASES = 800 };

static ls_aircraft pool[POOL];

/* A propeller of the other kind, of a usual size for its diameter. */
static void use_coefficients(ls_aircraft *aircraft)
{
    static const ls_curve efficiency = {6, {0, 0.2, 0.4, 0.6, 0.8, 1.1}, {0, 0.37, 0.60, 0.74, 0.82, 0.80}};
    for (int i = 0; i < aircraft->powerplants; i++) {
        ls_propeller_data *propeller = &aircraft->powerplant[i].propeller;
        double disc_m2 = 0.785 * propeller->diameter_m * propeller->diameter_m;
        propeller->kind = LS_PROPELLER_COEFFICIENTS;
        propeller->efficiency = efficiency;
        propeller->thrust_N.rows = 0;
        propeller->windmilling_area_m2 = 0.10 * disc_m2;
        propeller->feathered_area_m2 = 0.01 * disc_m2;
        propeller->stopped_area_m2 = 0.06 * disc_m2;
        propeller->offset_per_rad = 0.3;
        propeller->normal_area_m2 = 0.03 * disc_m2;
        propeller->table = NULL;
    }
}

/* Larger, of finer pitch, and closer to its stop at the speeds in question. */
static void use_larger(ls_aircraft *aircraft)
{
    for (int i = 0; i < aircraft->powerplants; i++) {
        ls_propeller_data *propeller = &aircraft->powerplant[i].propeller;
        propeller->diameter_m *= 1.06;
        propeller->fine_pitch_rad += 1.5 * DEG;
    }
    assert_int_equal(ls_aircraft_prepare(aircraft, NULL, NULL), LS_OK);
}

static int make_pool(void **state)
{
    static const char *const names[4] = {"whimbrel", "sanderling", "redshank", "barnacle"};
    (void)state;
    for (int i = 0; i < 4; i++) {
        fleet_read(names[i], &pool[3 * i]);
        pool[3 * i + 1] = pool[3 * i + 2] = pool[3 * i];
        use_larger(&pool[3 * i + 1]);
        use_coefficients(&pool[3 * i + 2]);
    }
    return 0;
}

static int free_pool(void **state)
{
    (void)state;
    for (int i = 0; i < 4; i++) {
        ls_aircraft_release(&pool[3 * i + 1], &pool[3 * i]);
    }
    return 0;
}

/* Returned: 0 when this condition cannot be flown. */
static int draw(uint64_t *seed, ls_aircraft *aircraft, ls_model *model, double *bank_rad)
{
    static const ls_engine_state dead[4] = {LS_WINDMILLING, LS_FEATHERED, LS_STOPPED, LS_LEVER_AFT};
    ls_condition condition;
    fleet_vary(&pool[(int)check_random(seed, 0, POOL - 1e-9)], seed, aircraft);
    fleet_condition(aircraft, seed, &condition);
    if (check_random(seed, 0, 1) < 0.1) { /* so stiff that the dead propeller stops not far from VMC */
        double friction = check_random(seed, 0.30, 0.60);
        for (int i = 0; i < aircraft->powerplants; i++) {
            aircraft->powerplant[i].engine.friction_share = friction;
        }
    }
    ls_engine_state state = dead[(int)check_random(seed, 0, 3.999)];
    if (check_random(seed, 0, 1) < 0.5) {
        ls_condition_fail_as(aircraft, ls_condition_failed(aircraft, &condition), state, &condition);
    }
    if (check_random(seed, 0, 1) < 0.3) {
        condition.pedal_limit_N = check_random(seed, 250, 700);
    }
    *bank_rad = check_random(seed, -3, 9) * DEG * (ls_live_side(aircraft, &condition) < 0 ? -1 : 1);
    ls_powerplant_point point;
    return ls_model_make(aircraft, &condition, model, NULL) == LS_OK &&
           ls_powerplant_at(model, model->stall_V_m_s, &point, NULL) == LS_OK;
}

/* How far V moves when the limit does, as a share of the limit: m/s. */
static double steepness(const ls_model *model, double bank_rad, const ls_vmc *vmc)
{
    ls_trim above, below;
    ls_margins left_above, left_below;
    double step = 1e-3 * vmc->V_m_s;
    if (ls_trim_solve(model, vmc->V_m_s + step, bank_rad, &above, NULL) != LS_OK ||
        ls_trim_solve(model, vmc->V_m_s - step, bank_rad, &below, NULL) != LS_OK) {
        return INFINITY;
    }
    ls_margins_at(model, &above, &left_above);
    ls_margins_at(model, &below, &left_below);
    return 2.0 * step / fabs(left_above.left[vmc->limit] - left_below.left[vmc->limit]);
}

typedef struct {
    int steep, compared, jumps;
    double farthest_kt;
} tally;

/* Where the speed hardly changes the margin, what is left of the limit is compared instead, and the case listed.
 */
static void compare(const ls_model *model, double bank_rad, const ls_vmc *fast, const ls_vmc *scan, tally *count)
{
    assert_int_equal(fast->kind, scan->kind);
    assert_int_equal(fast->at_jump, scan->at_jump);
    count->compared++;
    count->jumps += scan->at_jump;
    if (isnan(scan->V_m_s)) {
        assert_true(isnan(fast->V_m_s));
        return;
    }
    double apart_kt = (fast->V_m_s - scan->V_m_s) / KT;
    int joint = scan->joint & (1u << fast->limit) ? 1 : 0;
    assert_true(fast->limit == scan->limit || joint);
    if (fabs(apart_kt) > 1e-6 && steepness(model, bank_rad, scan) > 100.0) {
        count->steep++;
        print_message("steep: limit %s, %.9f against %.9f m/s\n", ls_limit_name(scan->limit), fast->V_m_s,
                      scan->V_m_s);
        ls_trim trim;
        ls_margins margins;
        assert_int_equal(ls_trim_solve(model, fast->V_m_s, bank_rad, &trim, NULL), LS_OK);
        ls_margins_at(model, &trim, &margins);
        check_close("limit left at a fast VMC where it hardly changes with speed", margins.left[fast->limit], 0.0,
                    1e-9, "as the scan's own root", "the plain scan");
        return;
    }
    count->farthest_kt = fmax(count->farthest_kt, fabs(apart_kt));
    check_close("fast VMC less the scan's, kt", apart_kt, 0.0, 1e-6, "round-off over the slope of the margin",
                "the plain scan");
}

static void first_limit_is_the_scans(void **state)
{
    (void)state;
    static ls_aircraft aircraft;
    uint64_t seed = 20240607;
    ls_vmc_workspace work = {0};
    tally count = {0};
    int kinds[LS_VMC_FAILED + 1] = {0}, limits[LS_LIMITS + 1] = {0}, cases = check_scaled(CASES);
    for (int i = 0; i < cases; i++) {
        ls_model model;
        ls_vmc fast, scan;
        double bank_rad;
        if (!draw(&seed, &aircraft, &model, &bank_rad)) {
            continue;
        }
        ls_status status = ls_vmc_first(&model, bank_rad, 0, &work, &fast, NULL);
        assert_int_equal(status, ls_vmc_scan(&model, bank_rad, &scan, NULL));
        if (status == LS_OK) {
            compare(&model, bank_rad, &fast, &scan, &count);
        }
        kinds[scan.kind]++;
        limits[scan.limit]++;
    }
    print_message("%d cases: %d control, %d stall first, %d no limit, %d above the range, %d failed; searched "
                  "%ld; %d where a propeller stops\n",
                  cases, kinds[0], kinds[1], kinds[2], kinds[3], kinds[4], work.searched, count.jumps);
    print_message("%d compared, %d of them by what is left of the limit; farthest apart %.2g kt\n", count.compared,
                  count.steep, count.farthest_kt);
    print_message("limits: rudder %d, pedal %d, aileron %d, fin %d, stall %d, none %d\n", limits[0], limits[1],
                  limits[2], limits[3], limits[4], limits[5]);
    assert_true(count.compared > cases / 2 && kinds[0] > cases / 10 && (cases < 200 || limits[1] > 0));
    if (cases >= 200) { /* fewer say nothing of a share */
        check_between("share of VMC searched step by step", (double)work.searched / work.solves, 0, 0.05,
                      "the fast way is the usual one");
        check_between("share of steep cases", (double)count.steep / count.compared, 0, 0.01, "requirement");
    }
}

/* A known source: yaw toward the dead side comes and goes within 1 m/s of the speed at which the blades reach
 * their fine stop, so that a margin dips below zero between two steps of the search. */
static const double kink_m_s = 45.0;

static ls_status kinked_loads(const ls_model *of, double V_m_s, ls_powerplant_point *point, ls_error *error)
{
    ls_status status = ls_powerplant_at(of, V_m_s, point, error);
    point->unit[0].flags |= V_m_s < kink_m_s ? LS_PROPULSOR_FINE_STOP : 0u;
    point->moment0_Nm[2] -= 20e3 * fmax(0.0, 1.0 - fabs(V_m_s - kink_m_s));
    return status;
}

static void a_dip_at_a_kink_is_found(void **state)
{
    (void)state;
    ls_condition condition;
    ls_model model;
    ls_vmc smooth, steps, scan;
    ls_condition_takeoff(&pool[0], &condition);
    ls_condition_fail_as(&pool[0], 1u, LS_FEATHERED, &condition);
    for (double mass_kg = 1250.0; mass_kg < 1720.0; mass_kg += 20.0) { /* the steps fall here and there */
        condition.mass_kg = mass_kg;
        assert_int_equal(ls_model_make(&pool[0], &condition, &model, NULL), LS_OK);
        assert_int_equal(ls_vmc_at(&model, 5.0 * DEG, &smooth, NULL), LS_OK);
        model.loads = kinked_loads;
        assert_int_equal(ls_vmc_at(&model, 5.0 * DEG, &steps, NULL), LS_OK);
        assert_int_equal(ls_vmc_scan(&model, 5.0 * DEG, &scan, NULL), LS_OK);
        assert_true(smooth.V_m_s < kink_m_s - 1.0 && !steps.at_jump && !scan.at_jump);
        check_between("VMC where a margin dips at 45 m/s, m/s", steps.V_m_s, kink_m_s, kink_m_s + 1.0,
                      "the dip is 2 m/s wide");
        check_close("the same less the scan's, kt", (steps.V_m_s - scan.V_m_s) / KT, 0.0, 1e-6,
                    "root tolerance 1e-9 m/s", "the plain scan");
    }
}

/* Both roots, the filled trim and the speeds of the whole answer. */
static void whole_answer_is_the_scans(void **state)
{
    (void)state;
    static ls_aircraft aircraft;
    uint64_t seed = 99;
    int cases = check_scaled(CASES / 8);
    for (int i = 0; i < cases; i++) {
        ls_model model;
        ls_vmc fast, scan;
        double bank_rad;
        if (!draw(&seed, &aircraft, &model, &bank_rad) || ls_vmc_scan(&model, bank_rad, &scan, NULL) != LS_OK ||
            !isfinite(scan.V_m_s)) {
            continue;
        }
        assert_int_equal(ls_vmc_at(&model, bank_rad, &fast, NULL), LS_OK);
        assert_int_equal(fast.kind, scan.kind);
        assert_int_equal(isnan(fast.control_V_m_s), isnan(scan.control_V_m_s));
        assert_int_equal(isnan(fast.stall_V_m_s), isnan(scan.stall_V_m_s));
        assert_int_equal(fast.control_limit, scan.control_limit);
        assert_int_equal(fast.flags, scan.flags);
        if (!isnan(scan.control_V_m_s) && steepness(&model, bank_rad, &scan) < 100.0) {
            check_close("fast control speed less the scan's, kt", (fast.control_V_m_s - scan.control_V_m_s) / KT,
                        0.0, 1e-6, "round-off over the slope of the margin", "the plain scan");
        }
        if (!isnan(scan.stall_V_m_s)) {
            check_close("fast stall speed less the scan's, kt", (fast.stall_V_m_s - scan.stall_V_m_s) / KT, 0.0,
                        1e-6, "round-off over the slope of the margin", "the plain scan");
        }
        check_close("sideslip at the fast VMC, deg", fast.trim.beta_rad / DEG, scan.trim.beta_rad / DEG, 1e-6,
                    "follows the speed", "the plain scan");
    }
}

/* What is kept between solves changes nothing but round-off. */
static void workspace_makes_no_difference(void **state)
{
    (void)state;
    static ls_aircraft aircraft;
    uint64_t seed = 5;
    ls_vmc_workspace work = {0};
    for (int i = 0; i < check_scaled(2000); i++) {
        ls_model model;
        ls_vmc with, without;
        double bank_rad;
        if (!draw(&seed, &aircraft, &model, &bank_rad) ||
            ls_vmc_first(&model, bank_rad, 0, NULL, &without, NULL) != LS_OK) {
            continue;
        }
        assert_int_equal(ls_vmc_first(&model, bank_rad, 0, &work, &with, NULL), LS_OK);
        assert_int_equal(with.kind, without.kind);
        if (isfinite(without.V_m_s) && steepness(&model, bank_rad, &without) < 100.0) {
            check_close("VMC with a workspace less without, kt", (with.V_m_s - without.V_m_s) / KT, 0.0, 1e-6,
                        "round-off over the slope of the margin", "identity");
        }
    }
}

/* The followed unit is where the governor puts it, and its slopes are those of differences. */
static void followed_units_are_the_governors(void **state)
{
    (void)state;
    uint64_t seed = 17;
    int lost = 0, cases = check_scaled(2000);
    for (int i = 0; i < cases; i++) {
        const ls_aircraft *aircraft =
            &pool[3 * (int)check_random(&seed, 0, 3.999) + (int)check_random(&seed, 0, 1.999)];
        static const ls_engine_state states[3] = {LS_RUNNING, LS_WINDMILLING, LS_LEVER_AFT};
        ls_powerplant powerplant;
        ls_air air;
        ls_follow follow = {0};
        ls_propulsor_point here, ahead, exact;
        double moved_rad, V_m_s = check_random(&seed, 25, 60), step_m_s = 1e-3;
        assert_int_equal(ls_powerplant_prepare(&aircraft->powerplant[0], &powerplant, NULL), LS_OK);
        assert_int_equal(ls_air_at(check_random(&seed, 0, 3000), 0, &air, NULL), LS_OK);
        ls_follow_unit unit = {&powerplant, &air, states[(int)check_random(&seed, 0, 2.999)], 0.9};
        assert_int_equal(ls_follow_at(&unit, V_m_s * check_random(&seed, 0.85, 1.15), step_m_s, 9, &follow, &here,
                                      &ahead, &moved_rad, NULL),
                         LS_OK);
        assert_int_equal(ls_follow_at(&unit, V_m_s, step_m_s, 9, &follow, &here, &ahead, &moved_rad, NULL), LS_OK);
        assert_int_equal(ls_propulsor_at(&powerplant, unit.state, unit.power, &air, V_m_s, &exact, NULL), LS_OK);
        if (moved_rad > 1e-6 || !ls_follow_confirm(&unit, V_m_s, &follow)) {
            lost++; /* it says so itself */
            continue;
        }
        assert_int_equal(here.flags, exact.flags);
        check_close("followed thrust less the governor's, N", here.thrust_N, exact.thrust_N, 2e-6,
                    "a last step of 1e-6 rad squared", "the governor");
        check_close("followed propeller speed less the governor's, rev/s", here.n_rev_s, exact.n_rev_s, 1e-8,
                    "a last step of 1e-6 rad squared", "the governor");
        double slope_N = (ahead.thrust_N - here.thrust_N) / step_m_s;
        assert_int_equal(
            ls_propulsor_at(&powerplant, unit.state, unit.power, &air, V_m_s + step_m_s, &ahead, NULL), LS_OK);
        if (ahead.flags == exact.flags) {
            check_close("slope of the followed thrust less a difference, N s/m", slope_N,
                        (ahead.thrust_N - exact.thrust_N) / step_m_s, 0.05, "difference over 1 mm/s",
                        "the governor");
        }
    }
}

/* The elimination against GSL's LU decomposition. */
static void elimination_is_gsls(void **state)
{
    (void)state;
    uint64_t seed = 3;
    for (int i = 0; i < check_scaled(1000); i++) {
        double a[LS_LINEAR_MAX][LS_LINEAR_MAX], plain[16];
        double right[2][4], x[4];
        for (int r = 0; r < 4; r++) {
            for (int c = 0; c < 4; c++) {
                a[r][c] = plain[4 * r + c] = check_random(&seed, -1, 1);
            }
            a[r][4] = right[0][r] = check_random(&seed, -1, 1);
            a[r][5] = right[1][r] = check_random(&seed, -1, 1);
        }
        gsl_matrix_view matrix = gsl_matrix_view_array(plain, 4, 4);
        gsl_vector_view out = gsl_vector_view_array(x, 4);
        gsl_permutation *order = gsl_permutation_alloc(4);
        int sign;
        gsl_linalg_LU_decomp(&matrix.matrix, order, &sign);
        double determinant = fabs(gsl_linalg_LU_det(&matrix.matrix, sign));
        assert_true(ls_linear_sides(4, 2, a));
        for (int side = 0; side < 2 && determinant > 1e-3; side++) {
            gsl_vector_view b = gsl_vector_view_array(right[side], 4);
            gsl_linalg_LU_solve(&matrix.matrix, order, &b.vector, &out.vector);
            for (int r = 0; r < 4; r++) {
                check_close("elimination of four equations", a[r][4 + side], x[r], 1e-10, "determinant above 1e-3",
                            "GSL, LU decomposition");
            }
        }
        gsl_permutation_free(order);
    }
    double singular[LS_LINEAR_MAX][LS_LINEAR_MAX] = {{1, 2, 3}, {2, 4, 6}};
    assert_false(ls_linear_sides(2, 1, singular));
}

/* "Below" is never said of a speed at which the first limit is met, or below it; well above it, it mostly is. */
static void below_is_never_wrong(void **state)
{
    (void)state;
    uint64_t seed = 20261125;
    int said = 0, well_above = 0, said_well_above = 0;
    for (int i = 0; i < check_scaled(4 * CASES); i++) {
        ls_aircraft aircraft;
        ls_model model;
        double bank_rad;
        ls_vmc vmc;
        ls_vmc_workspace work = {0};
        if (!draw(&seed, &aircraft, &model, &bank_rad) ||
            ls_vmc_first(&model, bank_rad, 0, &work, &vmc, NULL) != LS_OK) {
            continue;
        }
        double base_m_s = isnan(vmc.V_m_s) ? 1.2 * model.stall_V_m_s : vmc.V_m_s;
        double over = check_random(&seed, -1, 1);
        double share = 0.05 * over * over * over; /* many close to the limit */
        int is_below = ls_vmc_is_below(&model, bank_rad, base_m_s * (1.0 + share), &work);
        int is_met = vmc.kind == LS_VMC_ABOVE_RANGE || (!isnan(vmc.V_m_s) && share <= 0.0);
        assert_false(is_below && is_met);
        said += is_below;
        if (!isnan(vmc.V_m_s) && share > 0.01 && work.root_stalls > 0.0) {
            well_above++;
            said_well_above += is_below;
        }
    }
    print_message("said to be below: %d; of %d more than 1 %% above the limit %d\n", said, well_above,
                  said_well_above);
    if (well_above > 100) {
        check_between("share said to be below, of those 1 % above", (double)said_well_above / well_above, 0.6, 1.0,
                      "that the shortcut is taken");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(below_is_never_wrong),
        cmocka_unit_test(elimination_is_gsls),
        cmocka_unit_test(followed_units_are_the_governors),
        cmocka_unit_test(first_limit_is_the_scans),
        cmocka_unit_test(whole_answer_is_the_scans),
        cmocka_unit_test(a_dip_at_a_kink_is_found),
        cmocka_unit_test(workspace_makes_no_difference),
    };
    return cmocka_run_group_tests(tests, make_pool, free_pool);
}

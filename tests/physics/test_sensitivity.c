/* Elasticities and sampled distributions against closed forms.
 *
 * The aeroplane of the closed forms: wings level, no drag, a lift curve so steep that incidence vanishes, a live
 * engine of constant thrust power at an arm y, ailerons that only roll. Then side force and yaw alone give V^3 = 2
 * P y / (rho S b K delta),  K = |Cn_dr| - Cn_b CY_dr / |CY_b|, P thrust power, delta the rudder's travel.
 * Calibrated is true airspeed at sea level on a standard day. */
#include "check.h"
#include "fleet.h"

#include "liveside/sensitivity.h"
#include "liveside/uncertainty.h"
#include "num/derivative.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define DEG    (3.14159265358979323846 / 180.0)
#define CLOSED "algebra (D), V^3 = 2 P y / (rho S b K delta)"

static const double CYb = -0.60, CYdr = 0.16, Cnb = 0.080, Cndr = -0.065, S_m2 = 16.8, b_m = 11.6, y_m = 1.83;
static const double efficiency = 0.8, power_W = 109e3, travel_rad = 25.0 * DEG;

static double yaw_power(void)
{
    return fabs(Cndr) - Cnb * CYdr / fabs(CYb);
}

static double closed_vmc(double thrust_power_W)
{
    return cbrt(2.0 * thrust_power_W * y_m / (LS_AIR_RHO0_KG_M3 * S_m2 * b_m * yaw_power() * travel_rad));
}

static void make_plain(ls_aircraft *aircraft, ls_marks *marks)
{
    memset(marks, 0, sizeof *marks);
    ls_aircraft_defaults(aircraft);
    aircraft->mass.maximum_kg = 1700.0;
    aircraft->mass.minimum_kg = 1500.0;
    aircraft->cg.reference_m = aircraft->cg.forward_m = aircraft->cg.aft_m = 0.0;
    aircraft->wing.area_m2 = S_m2;
    aircraft->wing.span_m = b_m;
    aircraft->flaps = 1;
    aircraft->flap[0] = (ls_flap){.lift_slope_per_rad = 1e9, .lift_max = 2.2}; /* the stall stays below */
    aircraft->axes = LS_AXES_STABILITY;
    aircraft->derivatives = (ls_derivatives){
        .side_sideslip = CYb, .side_rudder = CYdr, .roll_aileron = 0.17, .yaw_sideslip = Cnb, .yaw_rudder = Cndr};
    aircraft->fin.stall_sideslip_rad = 80.0 * DEG;
    aircraft->rudder.left_rad = aircraft->rudder.right_rad = travel_rad;
    aircraft->aileron.travel_rad = 50.0 * DEG;
    aircraft->swirl_straightened = 0.5;
    aircraft->powerplants = 1;
    ls_powerplant_data *powerplant = &aircraft->powerplant[0];
    powerplant->engine.type = LS_ENGINE_TURBOPROP; /* flat rated: constant power */
    powerplant->engine.power_W = power_W;
    powerplant->engine.n_rev_s = 40.0;
    powerplant->engine.gear_ratio = 1.0;
    powerplant->engine.flat_to_sigma = 0.2;
    powerplant->propeller.kind = LS_PROPELLER_COEFFICIENTS;
    powerplant->propeller.diameter_m = 1.9;
    powerplant->propeller.efficiency = (ls_curve){3, {0.0, 0.001, 5.0}, {0.0, efficiency, efficiency}};
    powerplant->propeller.windmilling_area_m2 = 0.0;
    aircraft->engines = 2;
    for (int i = 0; i < 2; i++) {
        aircraft->engine[i] = (ls_engine_mount){.hub_right_m = i == 0 ? -y_m : y_m};
    }
}

static ls_aircraft plain;
static ls_marks no_marks;
static ls_inputs inputs;

static void make_request(ls_sensitivity_request *request)
{
    make_plain(&plain, &no_marks);
    memset(request, 0, sizeof *request);
    request->aircraft = &plain;
    ls_condition_takeoff(&plain, &request->condition);
    request->condition.mass_kg = 1600.0; /* with room to either side */
    request->condition.effects_off = LS_EFFECT_ALL;
    request->condition.pedal_limit_N = INFINITY;
    request->condition.power = 0.9;
    request->failed = 1u;
    ls_condition_fail(&plain, 1u, &request->condition);
    ls_inputs_list(&plain, &no_marks, &request->condition, 0.0, &inputs);
}

static const ls_sensitivity_row *row_of(const ls_sensitivity *s, const char *name)
{
    for (int i = 0; i < s->count; i++) {
        if (strcmp(s->row[i].input->name, name) == 0) {
            return &s->row[i];
        }
    }
    fail_msg("no row '%s'", name);
    abort();
}

static void elasticities_of_the_closed_form(void **state)
{
    (void)state;
    double K = yaw_power(), coupling = Cnb * CYdr / fabs(CYb);
    const struct {
        const char *name;
        double elasticity;
    } rows[] = {
        {"wing.area", -1.0 / 3},
        {"wing.span", -1.0 / 3},
        {"derivatives.yaw.rudder", -fabs(Cndr) / K / 3},
        {"derivatives.yaw.sideslip", coupling / K / 3},
        {"derivatives.side.rudder", coupling / K / 3},
        {"derivatives.side.sideslip", -coupling / K / 3},
        {"rudder.right", -1.0 / 3},
        {"engines[2].hub.right", 1.0 / 3},
        {"powerplants[1].engine.power", 1.0 / 3},
        {"powerplants[1].propeller.efficiency", 1.0 / 3},
        {"power", 1.0 / 3},
        {"weight", 0.0},
        {"derivatives.roll.aileron", 0.0},
        {"rudder.left", 0.0},
        {"flaps[1].lift_max", 0.0},
    };
    ls_sensitivity_request request;
    ls_sensitivity got;
    make_request(&request);
    assert_int_equal(ls_sensitivity_solve(&request, &inputs, NULL, &got, NULL), LS_OK);
    assert_int_equal(got.kind, LS_VMC_CONTROL);
    assert_int_equal(got.limit, LS_LIMIT_RUDDER);
    check_close("VMC of the closed form, m/s", got.base[LS_RESULT_VMC], closed_vmc(0.9 * efficiency * power_W),
                1e-6, "root tolerance, incidence 1e-9 rad", CLOSED);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const ls_response *of = &row_of(&got, rows[i].name)->of[LS_RESULT_VMC];
        check_close("elasticity of VMC", of->elasticity, rows[i].elasticity, 1e-5,
                    "1e-9 of the speed over the step", CLOSED);
        assert_true(of->error <= 1e-4 * fabs(got.base[LS_RESULT_VMC] / row_of(&got, rows[i].name)->input->base));
    }
    /* Sums: of the derivatives of yaw together the speed is of degree -1/3, of those of side force together 0. */
    double yaw = row_of(&got, "derivatives.yaw.rudder")->of[0].elasticity +
                 row_of(&got, "derivatives.yaw.sideslip")->of[0].elasticity;
    double side = row_of(&got, "derivatives.side.rudder")->of[0].elasticity +
                  row_of(&got, "derivatives.side.sideslip")->of[0].elasticity;
    check_close("elasticities of the yaw derivatives together", yaw, -1.0 / 3, 2e-5, "two elasticities", CLOSED);
    check_close("elasticities of the side-force derivatives together", side, 0.0, 2e-5, "two elasticities",
                CLOSED);
    ls_sensitivity_free(&got);
}

/* Changes by the step are what a new solve gives, and the largest comes first. */
static void changes_are_those_of_new_solves(void **state)
{
    (void)state;
    ls_sensitivity_request request;
    ls_sensitivity got;
    make_request(&request);
    request.step_share = 0.05;
    assert_int_equal(ls_sensitivity_solve(&request, &inputs, NULL, &got, NULL), LS_OK);
    const ls_sensitivity_row *row = row_of(&got, "powerplants[1].engine.power");
    double base = closed_vmc(0.9 * efficiency * power_W);
    check_close("VMC with 5 % more power less base, m/s", row->of[LS_RESULT_VMC].up, base * (cbrt(1.05) - 1.0),
                1e-6, "root tolerance", CLOSED);
    check_close("VMC with 5 % less power less base, m/s", row->of[LS_RESULT_VMC].down, base * (cbrt(0.95) - 1.0),
                1e-6, "root tolerance", CLOSED);
    double last = INFINITY;
    for (int i = 0; i < got.count; i++) {
        const ls_response *of = &got.row[i].of[LS_RESULT_VMC];
        double effect = fmax(isnan(of->up) ? 0 : fabs(of->up), isnan(of->down) ? 0 : fabs(of->down));
        assert_true(effect <= last);
        last = effect;
    }
    ls_sensitivity_free(&got);
}

/* The slow scan, differenced here with two steps, against the study on a whole aeroplane. */
static double scan_vmc(const ls_aircraft *aircraft, const ls_condition *condition, double bank_rad)
{
    ls_model model;
    ls_vmc vmc;
    assert_int_equal(ls_model_make(aircraft, condition, &model, NULL), LS_OK);
    assert_int_equal(ls_vmc_scan(&model, bank_rad, &vmc, NULL), LS_OK);
    return vmc.cas_m_s;
}

static double scan_slope(const ls_sensitivity_request *request, const ls_input *input, double h)
{
    double V[4], step[4] = {h, -h, 0.5 * h, -0.5 * h};
    for (int i = 0; i < 4; i++) {
        ls_aircraft changed = *request->aircraft;
        ls_condition condition = request->condition;
        double bank_rad = request->bank_rad;
        ls_input_apply(input, input->base + step[i], request->aircraft, &changed, &condition, &bank_rad);
        V[i] = scan_vmc(&changed, &condition, bank_rad);
    }
    double wide = (V[0] - V[1]) / (2.0 * h), narrow = (V[2] - V[3]) / h;
    return (4.0 * narrow - wide) / 3.0;
}

static void slopes_of_the_whimbrel(void **state)
{
    (void)state;
    static ls_aircraft whimbrel;
    static const char *const names[] = {"derivatives.yaw.rudder",
                                        "derivatives.yaw.sideslip",
                                        "derivatives.side.sideslip",
                                        "wing.span",
                                        "weight",
                                        "altitude",
                                        "bank",
                                        "engines[right].hub.right",
                                        "powerplants[flat four].engine.power",
                                        "powerplants[flat four].propeller.thrust_change"};
    ls_sensitivity_request request = {.aircraft = &whimbrel, .failed = 1u, .bank_rad = 3.0 * DEG};
    ls_sensitivity got;
    fleet_read("whimbrel", &whimbrel);
    ls_condition_takeoff(&whimbrel, &request.condition);
    request.condition.mass_kg = 1600.0;
    request.condition.altitude_m = 500.0;
    ls_condition_fail(&whimbrel, 1u, &request.condition);
    static ls_inputs all, some;
    ls_inputs_list(&whimbrel, &no_marks, &request.condition, request.bank_rad, &all);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const ls_input *found = ls_inputs_find(&all, &whimbrel, names[i], NULL);
        assert_non_null(found);
        some.input[some.count++] = *found;
    }
    assert_int_equal(ls_sensitivity_solve(&request, &some, NULL, &got, NULL), LS_OK);
    for (int i = 0; i < got.count; i++) {
        const ls_input *input = got.row[i].input;
        double h = 0.01 * (input->base != 0.0 ? fabs(input->base) : 1.0);
        double want = scan_slope(&request, input, h), slope = got.row[i].of[LS_RESULT_VMC].slope;
        check_close("slope of VMC over that of the scan", slope / want, 1.0, 2e-4,
                    "the propeller's table is a cubic spline",
                    "differences of the plain scan, Richardson's extrapolation");
    }
    ls_sensitivity_free(&got);
}

static void cube(double x, double *results, void *context)
{
    (void)context;
    results[0] = x * x * x;
    results[1] = exp(x);
    results[2] = x < 1.0 ? NAN : x;
}

static void derivatives_of_known_functions(void **state)
{
    (void)state;
    ls_derivative got[3];
    const double wide[2] = {-10, 10}, half[2] = {-10, 2};
    double at[3] = {8.0, exp(2.0), 2.0};
    ls_derivative_find(cube, NULL, 3, 2.0, at, 0.2, 6, wide, got);
    check_close("derivative of x^3 at 2", got[0].slope, 12.0, 1e-10, "round-off over the step", "calculus");
    check_close("derivative of exp at 2", got[1].slope, exp(2.0), 1e-8, "sixth halving", "calculus");
    assert_true(got[1].error < 1e-5);
    ls_derivative_find(cube, NULL, 3, 2.0, at, 0.2, 6, half, got); /* at the end of its range */
    check_close("one-sided derivative of exp at 2", got[1].slope, exp(2.0), 1e-5, "sixth halving, one-sided",
                "calculus");
    ls_derivative_find(cube, NULL, 3, 1.1, (double[3]){1.331, exp(1.1), 1.1}, 0.2, 1, wide, got);
    assert_true(isnan(got[2].slope));
}

/* ---- sampling ---- */

static void make_samples(ls_shape shape, double spread, ls_uncertainty_request *request)
{
    static ls_sensitivity_request base;
    make_request(&base);
    memset(request, 0, sizeof *request);
    request->aircraft = &plain;
    request->condition = base.condition;
    for (int i = 0; i < 2; i++) {
        request->condition.state[i] = LS_RUNNING;
    }
    request->sets = 1;
    request->set[0] = 1u;
    request->state = -1;
    request->inputs = 1;
    request->input[0] = *ls_inputs_find(&inputs, &plain, "powerplants[1].engine.power", NULL);
    request->input[0].spread = spread;
    request->input[0].shape = shape;
    request->samples = 100000;
    request->seed = 3;
}

/* The power below which a share of the samples lies. */
static double power_at(ls_shape shape, double spread, double share, double z)
{
    switch (shape) {
    case LS_SHAPE_UNIFORM:
        return power_W + spread * sqrt(3.0) * (2.0 * share - 1.0);
    case LS_SHAPE_TRIANGULAR:
        return power_W + spread * sqrt(6.0) * (share < 0.5 ? sqrt(2 * share) - 1 : 1 - sqrt(2 * (1 - share)));
    default:
        return power_W + spread * z;
    }
}

/* The speed rises with the cube root of power, so its percentiles are those of power. */
static void percentiles_of_the_closed_form(void **state)
{
    (void)state;
    static const double z[LS_PERCENTILES] = {-2.326347874, -1.644853627, -0.674489750, 0.0,
                                             0.674489750,  1.644853627,  2.326347874};
    static const ls_shape shapes[3] = {LS_SHAPE_NORMAL, LS_SHAPE_UNIFORM, LS_SHAPE_TRIANGULAR};
    const double spread = 0.05 * power_W;
    for (int sampling = 0; sampling < 2; sampling++) {
        for (int i = 0; i < 3; i++) {
            ls_uncertainty_request request;
            ls_uncertainty got;
            make_samples(shapes[i], spread, &request);
            request.sampling = (ls_sampling)sampling;
            request.exceeds_m_s = closed_vmc(0.9 * efficiency * power_at(shapes[i], spread, 0.75, z[4]));
            assert_int_equal(ls_uncertainty_solve(&request, NULL, &got, NULL), LS_OK);
            assert_int_equal(got.samples, got.asked);
            assert_int_equal(got.kinds[LS_VMC_CONTROL], got.samples);
            for (int k = 0; k < LS_PERCENTILES; k++) {
                double want = closed_vmc(0.9 * efficiency * power_at(shapes[i], spread, got.share[k], z[k]));
                const ls_sampled *p = &got.percentile[k];
                double width = p->high - p->low; /* 95 %: one in twenty misses, twice as far one in 10,000 */
                check_close("percentile of VMC, m/s", p->value, want, width + 0.0006, "its 95 % interval doubled",
                            "power's own percentile, " CLOSED "; tables of the normal distribution");
                assert_true(width < 0.05);
            }
            check_close("share of samples above the closed form's 75th percentile", got.exceeds.value, 0.25,
                        got.exceeds.high - got.exceeds.low, "its 95 % interval doubled", CLOSED);
        }
    }
}

static void mean_follows_correlation(void **state)
{
    (void)state;
    ls_uncertainty_request request;
    ls_uncertainty got;
    make_samples(LS_SHAPE_NORMAL, 0.03 * power_W, &request);
    request.inputs = 2;
    request.input[1] = *ls_inputs_find(&inputs, &plain, "engines[2].hub.right", NULL);
    request.input[1].spread = 0.03 * y_m;
    request.correlated = 1;
    request.correlation[0][0] = request.correlation[1][1] = 1.0;
    for (int i = -1; i <= 1; i++) {
        double r = 0.8 * i;
        request.correlation[0][1] = request.correlation[1][0] = r;
        assert_int_equal(ls_uncertainty_solve(&request, NULL, &got, NULL), LS_OK);
        /* ln V = (ln P + ln y) / 3: to first order its variance is (2 + 2 r) 0.03^2 / 9 */
        double want = closed_vmc(0.9 * efficiency * power_W) * 0.01 * sqrt(2.0 + 2.0 * r);
        check_close("deviation of VMC with correlated inputs, m/s", got.deviation_m_s, want, 0.01 * want,
                    "second order, and 100,000 samples", CLOSED);
    }
}

static void threads_and_workspaces_make_no_difference(void **state)
{
    (void)state;
    static ls_uncertainty one, many;
    ls_uncertainty_request request;
    make_samples(LS_SHAPE_NORMAL, 0.05 * power_W, &request);
    request.samples = 20000;
    request.index_rows = 64;
    request.threads = 1;
    assert_int_equal(ls_uncertainty_solve(&request, NULL, &one, NULL), LS_OK);
    request.threads = 3;
    assert_int_equal(ls_uncertainty_solve(&request, NULL, &many, NULL), LS_OK);
    assert_memory_equal(&one, &many, sizeof one);
    check_close("first-order index of the only input", one.index[0].first.value, 1.0, 0.05, "64 x 16 rows",
                "identity");
    check_close("total index of the only input", one.index[0].total.value, 1.0, 0.05, "64 x 16 rows", "identity");
}

static int stop_after(void *context)
{
    return --*(int *)context < 0;
}

static void a_stopped_run_keeps_what_it_has(void **state)
{
    (void)state;
    int blocks = 3;
    ls_watch watch = {NULL, stop_after, &blocks};
    ls_uncertainty_request request;
    static ls_uncertainty part, whole;
    ls_error error = {0};
    make_samples(LS_SHAPE_NORMAL, 0.05 * power_W, &request);
    assert_int_equal(ls_uncertainty_solve(&request, &watch, &part, &error), LS_INTERRUPTED);
    assert_non_null(strstr(error.text, "24576 of 100000"));
    assert_int_equal(part.samples, 24576);
    request.samples = 24576;
    assert_int_equal(ls_uncertainty_solve(&request, NULL, &whole, NULL), LS_OK);
    assert_memory_equal(&part.percentile, &whole.percentile, sizeof part.percentile);
}

static void what_cannot_be_sampled_is_refused(void **state)
{
    (void)state;
    static ls_aircraft whimbrel;
    static ls_inputs all;
    ls_error error = {0};
    ls_uncertainty got;
    ls_uncertainty_request request;
    make_samples(LS_SHAPE_NORMAL, 0.05 * power_W, &request);
    fleet_read("whimbrel", &whimbrel);
    ls_inputs_list(&whimbrel, &no_marks, &request.condition, 0.0, &all);
    request.aircraft = &whimbrel;
    request.input[0] = *ls_inputs_find(&all, &whimbrel, "powerplants[1].propeller.diameter", NULL);
    request.input[0].spread = 0.01;
    assert_int_equal(ls_uncertainty_solve(&request, NULL, &got, &error), LS_USAGE);
    assert_non_null(strstr(error.text, "thrust_change and torque_change"));
    error = (ls_error){0};
    make_samples(LS_SHAPE_NORMAL, 0.05 * power_W, &request);
    request.inputs = 3;
    request.input[1] = request.input[2] = request.input[0];
    request.correlated = 1;
    for (int i = 0; i < 9; i++) {
        request.correlation[i / 3][i % 3] = i / 3 == i % 3 ? 1.0 : 0.9;
    }
    request.correlation[1][2] = request.correlation[2][1] = -0.9;
    assert_int_equal(ls_uncertainty_solve(&request, NULL, &got, &error), LS_USAGE);
    assert_non_null(strstr(error.text, "contradict"));
    error = (ls_error){0};
    request.correlation[1][2] = request.correlation[2][1] = 0.9;
    request.index_rows = 64;
    assert_int_equal(ls_uncertainty_solve(&request, NULL, &got, &error), LS_USAGE);
    assert_non_null(strstr(error.text, "independent"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(derivatives_of_known_functions),
        cmocka_unit_test(elasticities_of_the_closed_form),
        cmocka_unit_test(changes_are_those_of_new_solves),
        cmocka_unit_test(slopes_of_the_whimbrel),
        cmocka_unit_test(percentiles_of_the_closed_form),
        cmocka_unit_test(mean_follows_correlation),
        cmocka_unit_test(threads_and_workspaces_make_no_difference),
        cmocka_unit_test(a_stopped_run_keeps_what_it_has),
        cmocka_unit_test(what_cannot_be_sampled_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* The take-off roll after a failure, against closed solutions and the practice of flight test. */
#include "check.h"
#include "fleet.h"

#include "liveside/runway.h"

#include <math.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

#define MOMENT_NM 4000.0
#define THRUST_N  3000.0

/* A thrust ahead, and once an engine has failed a yawing moment to the left: nothing else. */
static ls_status constant_loads(const ls_model *model, double V_m_s, ls_powerplant_point *point, ls_error *error)
{
    (void)error;
    memset(point, 0, sizeof *point);
    point->V_m_s = V_m_s;
    point->force0_N[0] = THRUST_N;
    point->moment0_Nm[2] = ls_condition_failed(model->aircraft, &model->condition) != 0 ? -MOMENT_NM : 0.0;
    return LS_OK;
}

/* An aeroplane that the air does not touch, but for a rudder to be there. */
static void bare(ls_aircraft *aircraft)
{
    fleet_read("whimbrel", aircraft);
    memset(&aircraft->derivatives, 0, sizeof aircraft->derivatives);
    aircraft->derivatives.side_rudder = 1e-12;
    aircraft->derivatives.yaw_rudder = -1e-12;
    aircraft->derivatives.side_sideslip = -1e-9;
    aircraft->rates.side_roll = aircraft->rates.side_yaw = aircraft->rates.roll_roll = 0.0;
    aircraft->rates.roll_yaw = aircraft->rates.yaw_roll = aircraft->rates.yaw_yaw = 0.0;
    memset(aircraft->flap, 0, sizeof aircraft->flap);
    aircraft->flap[0].lift_slope_per_rad = 1e-9;
    aircraft->flap[0].lift_max = 1.0;
    aircraft->gear.drag = 0.0;
    aircraft->drag.sideslip_per_rad2 = 0.0;
    aircraft->ground.rolling = 0.0;
    aircraft->ground.incidence_rad = 0.0;
    aircraft->ground.cornering_per_rad = 0.0;
    aircraft->fin.stall_sideslip_rad = 1.5;
}

static ls_runway_request usual(const ls_aircraft *aircraft, double V_m_s)
{
    ls_runway_request request = {.failed = 1u, .V_m_s = V_m_s, .delay_s = 1.0};
    ls_condition_takeoff(aircraft, &request.condition);
    request.condition.gear = 1.0;
    request.state = ls_engine_state_after_failure(&aircraft->powerplant[0]);
    return request;
}

/* Constant moment, no tyres: psi = N t^2/2I; the thrust then drives it aside: y = (T/m) N t^4/24I for small
 * angles. */
static void constant_moment_without_tyres(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_runway runway;
    bare(&aircraft);
    ls_runway_request request = usual(&aircraft, 40.0);
    request.loads = constant_loads;
    request.delay_s = INFINITY;
    request.duration_s = 1.2;
    assert_int_equal(ls_runway_run(&aircraft, &request, &runway, NULL), LS_OK);
    ls_inertia I = ls_inertia_of(&aircraft, request.condition.mass_kg);
    const char *source = "identity: integrals of a constant moment and thrust";
    for (int k = 2; k < runway.count; k++) {
        double t = runway.sample[k].t_s, psi = -MOMENT_NM * t * t / (2.0 * I.zz_kg_m2);
        double y = THRUST_N / request.condition.mass_kg * psi * t * t / 12.0;
        check_close("heading under a constant moment over N t^2/2I", runway.sample[k].heading_rad / psi, 1.0, 1e-6,
                    "tolerance of the steps", source);
        check_close("deviation over (T/m) N t^4/24I", runway.sample[k].y_m / y, 1.0, 0.06 * psi * psi + 1e-4,
                    "sin(psi) for psi", source);
    }
    ls_runway_free(&runway);
}

/* Tyres that do not slip: the axle, a behind the centre of gravity, moves only ahead: (I + m a^2) r' + m a u r =
 * N, so r = N/(m a u) (1 - exp(-t/tau)), tau = (I + m a^2)/(m a u), at a speed that does not change. */
static void constant_moment_on_rails(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_runway runway;
    bare(&aircraft);
    aircraft.ground.cornering_per_rad = 2000.0;
    aircraft.ground.grip = 1000.0;
    ls_runway_request request = usual(&aircraft, 40.0);
    request.loads = constant_loads;
    request.delay_s = INFINITY;
    request.duration_s = 1.0;
    assert_int_equal(ls_runway_run(&aircraft, &request, &runway, NULL), LS_OK);
    ls_inertia I = ls_inertia_of(&aircraft, request.condition.mass_kg);
    double a = ls_wheels_of(&aircraft, request.condition.cg_aft_m).main_behind_m, m = request.condition.mass_kg;
    double u = 40.0 + 0.5 * THRUST_N / m, tau = (I.zz_kg_m2 + m * a * a) / (m * a * u);
    const char *source = "identity: an axle that does not slip";
    for (int k = 3; k < runway.count; k++) {
        double t = runway.sample[k].t_s, r = -MOMENT_NM / (m * a * u) * (1.0 - exp(-t / tau));
        check_close("rate of turn on rails over the closed solution", runway.sample[k].r_rad_s / r, 1.0, 0.01,
                    "the speed grows by 2 per cent", source);
    }
    ls_runway_free(&runway);
}

static double vmcg(const ls_aircraft *aircraft, const ls_runway_request *request)
{
    ls_vmcg answer;
    ls_vmcg_find(aircraft, request, &answer);
    assert_int_equal(answer.status, LS_OK);
    assert_true(answer.is_lowest);
    assert_true(fabs(answer.y_most_m) <= LS_RUNWAY_LIMIT_M);
    return answer.V_m_s;
}

/* What flight-test practice says. Of the weight with a pilot who takes a second and more: with a quick one the
 * lighter aeroplane's better acceleration outweighs the rest. */
static void trends(void **state)
{
    (void)state;
    static const char *const names[] = {"whimbrel", "sanderling", "redshank"};
    static const double delays[] = {1.0, 1.0, 1.4};
    for (int i = 0; i < 3; i++) {
        ls_aircraft aircraft;
        fleet_read(names[i], &aircraft);
        ls_runway_request request = usual(&aircraft, 40.0);
        request.delay_s = delays[i];
        double base = vmcg(&aircraft, &request), before = 0.0;
        for (double delay_s = 0.4; delay_s < 1.5; delay_s += 0.2) {
            ls_runway_request slower = request;
            slower.delay_s = delay_s;
            double here = vmcg(&aircraft, &slower);
            assert_true(here > before - 0.1);
            before = here;
        }
        ls_runway_request other = request;
        other.condition.mass_kg = aircraft.mass.minimum_kg;
        assert_true(vmcg(&aircraft, &other) > base); /* lighter */
        other = request;
        other.condition.cg_aft_m = aircraft.cg.aft_m;
        assert_true(vmcg(&aircraft, &other) > base);
        other = request;
        other.condition.power = 0.8;
        assert_true(vmcg(&aircraft, &other) < base); /* less thrust */
        other = request;
        other.crosswind_m_s = -4.0; /* from the left, where the dead engine is: it weathercocks that way */
        assert_true(vmcg(&aircraft, &other) > base);
        other.crosswind_m_s = 4.0;
        assert_true(vmcg(&aircraft, &other) < base);
        ls_aircraft stronger = aircraft;
        stronger.derivatives.yaw_rudder *= 1.15;
        stronger.derivatives.side_rudder *= 1.15;
        assert_true(vmcg(&stronger, &request) < base);
        ls_aircraft slippery = aircraft;
        slippery.ground.cornering_per_rad = 0.0;
        assert_true(vmcg(&slippery, &request) > base);
    }
}

static void mirrored(void **state)
{
    (void)state;
    ls_aircraft whimbrel, mirror;
    uint64_t seed = 87;
    fleet_read("whimbrel", &whimbrel);
    for (int i = 0; i < check_scaled(10); i++) {
        ls_aircraft varied;
        ls_runway a, b;
        fleet_vary(&whimbrel, &seed, &varied);
        fleet_mirror_aircraft(&varied, &mirror);
        ls_runway_request request = usual(&varied, 45.0);
        fleet_condition(&varied, &seed, &request.condition);
        memset(request.condition.state, 0, sizeof request.condition.state);
        request.crosswind_m_s = 2.0;
        request.past_parallel = 1;
        request.duration_s = 5.0;
        ls_runway_request reflected = request;
        fleet_mirror_condition(&request.condition, &reflected.condition);
        reflected.crosswind_m_s = -2.0;
        assert_int_equal(ls_runway_run(&varied, &request, &a, NULL), LS_OK);
        assert_int_equal(ls_runway_run(&mirror, &reflected, &b, NULL), LS_OK);
        assert_int_equal(a.count, b.count);
        const char *reason = "tolerance of the steps, which round-off may place differently",
                   *source = "identity: mirror symmetry";
        check_close("mirrored deviation, m", b.sample[b.count - 1].y_m, -a.sample[a.count - 1].y_m, 1e-5, reason,
                    source);
        check_close("mirrored heading on the ground, rad", b.sample[b.count - 1].heading_rad,
                    -a.sample[a.count - 1].heading_rad, 1e-6, reason, source);
        ls_runway_free(&a);
        ls_runway_free(&b);
    }
}

/* Every engine running, nothing happens. */
static void rolls_straight_without_failure(void **state)
{
    (void)state;
    ls_aircraft aircraft;
    ls_runway runway;
    fleet_read("whimbrel", &aircraft);
    for (int i = 0; i < 2; i++) {
        ls_runway_request request = usual(&aircraft, 35.0);
        request.failed = 0;
        request.crosswind_m_s = 3.0 * i;
        request.past_parallel = 1;
        request.duration_s = 3.0;
        assert_int_equal(ls_runway_run(&aircraft, &request, &runway, NULL), LS_OK);
        check_close("deviation without a failure, m", runway.sample[runway.count - 1].y_m, 0.0, 0.05,
                    "the trim drifts as the speed grows", "identity: equilibrium");
        ls_runway_free(&runway);
    }
}

/* Far too slow: it ends with a reason. */
static void hopeless(void **state)
{
    (void)state;
    static const char *const names[] = {"whimbrel", "sanderling", "redshank", "barnacle"};
    for (int i = 0; i < 4; i++) {
        ls_aircraft aircraft;
        ls_runway runway;
        fleet_read(names[i], &aircraft);
        ls_runway_request request = usual(&aircraft, 15.0);
        request.delay_s = INFINITY;
        assert_int_equal(ls_runway_run(&aircraft, &request, &runway, NULL), LS_OK);
        assert_true(runway.end != LS_RUNWAY_PARALLEL);
        for (int k = 0; k < runway.count; k++) {
            assert_true(isfinite(runway.sample[k].y_m + runway.sample[k].heading_rad + runway.sample[k].V_m_s));
        }
        ls_runway_free(&runway);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(constant_moment_without_tyres),
        cmocka_unit_test(constant_moment_on_rails),
        cmocka_unit_test(trends),
        cmocka_unit_test(mirrored),
        cmocka_unit_test(rolls_straight_without_failure),
        cmocka_unit_test(hopeless),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

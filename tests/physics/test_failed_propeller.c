/* The propeller of a failed engine: windmilling, stopped, feathered; and the minimum control speed where it stops.
 */
#include "check.h"
#include "fleet.h"

#include "liveside/blade.h"
#include "liveside/prepare.h"
#include "liveside/propeller_study.h"
#include "liveside/vmc.h"

#include <math.h>

#define PI  3.14159265358979323846
#define DEG (PI / 180.0)
#define KT  (1852.0 / 3600.0)
#define AFH "FAA Airplane Flying Handbook, FAA-H-8083-3C, ch. 13"

static const char *const names[] = {"whimbrel", "sanderling", "barnacle", "redshank"};
enum { PISTONS = 3, FLEET = 4 };

static ls_aircraft aircraft[FLEET];
static ls_model model[FLEET];

static int read_fleet(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        ls_condition condition;
        fleet_read(names[i], &aircraft[i]);
        ls_condition_takeoff(&aircraft[i], &condition);
        assert_int_equal(ls_model_make(&aircraft[i], &condition, &model[i], NULL), LS_OK);
    }
    return 0;
}

static ls_propulsor_point at(int plane, ls_engine_state is, double V_kt)
{
    ls_propulsor_point point;
    assert_int_equal(
        ls_propulsor_at(&model[plane].powerplant[0], is, 1.0, &model[plane].air, V_kt * KT, &point, NULL), LS_OK);
    return point;
}

static double drag_area_m2(int plane, ls_engine_state is, double V_kt)
{
    double q_Pa = 0.5 * model[plane].air.rho_kg_m3 * V_kt * KT * V_kt * KT;
    return -at(plane, is, V_kt).thrust_N / q_Pa;
}

/* ---- what each state drags ---- */

static void windmilling_drags_many_times_feathered(void **state)
{
    (void)state;
    for (int i = 0; i < PISTONS; i++) {
        for (double V_kt = 70; V_kt <= 100; V_kt += 5) {
            double ratio = at(i, LS_WINDMILLING, V_kt).thrust_N / at(i, LS_FEATHERED, V_kt).thrust_N;
            print_message("%s at %.0f kt: windmilling %.0f N at %.0f rpm, %.0f times feathered\n", names[i], V_kt,
                          -at(i, LS_WINDMILLING, V_kt).thrust_N, 60 * at(i, LS_WINDMILLING, V_kt).n_rev_s, ratio);
            check_between("windmilling over feathered drag, 70 to 100 kt", ratio, 10, 60,
                          "common practice: a windmilling propeller is most of the drag of a failure, a feathered "
                          "one almost none (" AFH ")");
        }
    }
}

static void coarser_blades_drag_less_and_turn_slower(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        ls_prop_study study;
        ls_dead_by_pitch dead;
        int turning = 0;
        assert_int_equal(ls_prop_study_make(&aircraft[i], &model[i].condition, 0, &study, NULL), LS_OK);
        ls_dead_by_pitch_solve(&study, 85 * KT, LS_PROP_PITCHES, &dead);
        for (int k = 1; k < dead.count && !(dead.windmilling[k].flags & LS_PROPULSOR_STOPS); k++) {
            assert_true(dead.windmilling[k].n_rev_s < dead.windmilling[k - 1].n_rev_s);
            turning = k;
            if (dead.pitch_rad[k] > 60 * DEG) {
                continue; /* the twisted blade has its least drag some degrees short of feather */
            }
            check_between("fall of the windmilling drag, a degree coarser, N",
                          dead.windmilling[k - 1].drag_N - dead.windmilling[k].drag_N, 1e-3, 200,
                          "NACA Report 464 (Hartman): negative thrust rises as the blade angle falls");
        }
        assert_true(turning > 30);
        for (int k = turning + 1; k < dead.count; k++) { /* too coarse to turn the engine, it stays so */
            assert_true(dead.windmilling[k].flags & LS_PROPULSOR_STOPS);
            assert_true(dead.windmilling[k].drag_N == dead.stopped[k].drag_N);
        }
    }
}

/* The lever matters where the propeller would turn faster than it asks for, and there alone. */
static void lever_aft_helps_where_it_is_asked_for(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        double aft_rev_s = model[i].powerplant[0].data->propeller.lever_aft_rev_s;
        int same = 0, less = 0;
        for (double V_kt = 5; V_kt <= 150; V_kt += 1) {
            ls_propulsor_point forward = at(i, LS_WINDMILLING, V_kt), aft = at(i, LS_LEVER_AFT, V_kt);
            if (forward.n_rev_s > aft_rev_s) {
                check_close("speed of rotation, lever aft, over that asked for", aft.n_rev_s / aft_rev_s, 1.0,
                            1e-12, "held", "definition");
                assert_true(-aft.thrust_N < -forward.thrust_N && aft.pitch_rad > forward.pitch_rad);
                less++;
            } else {
                check_close("thrust with the lever aft less that with it forward, N", aft.thrust_N,
                            forward.thrust_N, 1e-7,
                            "the same root, from another start: 1e-11 rev/s, steep near where it stops",
                            "the lever asks for more than it turns");
                assert_true(aft.pitch_rad == forward.pitch_rad);
                same++;
            }
        }
        assert_true(same > 20 && less > 20);
    }
}

static void feathered_propeller_stands_still(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        const ls_engine_data *engine = &model[i].powerplant[0].data->engine;
        double rated_Nm = engine->power_W / (2 * PI * engine->n_rev_s * engine->gear_ratio);
        for (double V_kt = 60; V_kt <= 160; V_kt += 20) {
            ls_propulsor_point feathered = at(i, LS_FEATHERED, V_kt);
            assert_true(feathered.n_rev_s == 0.0);
            check_between("feathered torque at rest over the break-out torque",
                          fabs(feathered.torque_Nm) / (engine->break_out_share * rated_Nm), 0.0, 1.0,
                          "common practice: a feathered propeller stands still");
            assert_false(feathered.flags & LS_PROPULSOR_TURNS);
        }
    }
}

/* ---- the fine stop, the decay, the stop ---- */

/* The slowest speed at which it windmills, by halving on the answer's own flag. */
static double stopping_kt(int plane)
{
    double low = 3, high = 100;
    while (high - low > 1e-9) {
        double middle = 0.5 * (low + high);
        *(at(plane, LS_WINDMILLING, middle).flags & LS_PROPULSOR_STOPS ? &low : &high) = middle;
    }
    return high;
}

static void rpm_decays_on_the_fine_stop_down_to_where_it_stops(void **state)
{
    (void)state;
    for (int i = 0; i < PISTONS; i++) {
        double fine_rad = model[i].powerplant[0].data->propeller.fine_pitch_rad, last_rev_s = INFINITY;
        double stops_kt = stopping_kt(i);
        for (double V_kt = 170; V_kt > stops_kt; V_kt -= 1) {
            ls_propulsor_point point = at(i, LS_WINDMILLING, V_kt);
            int governs = !(point.flags & LS_PROPULSOR_FINE_STOP);
            assert_true(governs ? point.pitch_rad > fine_rad : point.pitch_rad == fine_rad);
            assert_true(governs ? point.n_rev_s <= last_rev_s : point.n_rev_s < last_rev_s);
            last_rev_s = point.n_rev_s;
        }
        ls_propulsor_point above = at(i, LS_WINDMILLING, stops_kt + 1e-6),
                           below = at(i, LS_WINDMILLING, stops_kt - 1e-6);
        print_message("%s stops at %.2f kt from %.0f rpm: drag falls from %.0f to %.0f N\n", names[i], stops_kt,
                      60 * above.n_rev_s, -above.thrust_N, -below.thrust_N);
        assert_true(above.n_rev_s > 3.0 && below.n_rev_s == 0.0);
        assert_true(below.thrust_N == at(i, LS_STOPPED, stops_kt - 1e-6).thrust_N);
        /* At the last turning root torque taken and torque given only touch: the speed falls like a square root.
         */
        double one = at(i, LS_WINDMILLING, stops_kt + 1e-4).n_rev_s - above.n_rev_s;
        double four = at(i, LS_WINDMILLING, stops_kt + 4e-4).n_rev_s - above.n_rev_s;
        check_between("fall of the speed of rotation over four times the distance", four / one, 1.7, 2.5,
                      "2: a fold, where two roots merge");
    }
}

static void stopped_propeller_may_turn_again_only_beyond_break_out(void **state)
{
    (void)state;
    const ls_engine_data *engine = &model[0].powerplant[0].data->engine;
    double break_out_Nm = engine->break_out_share * engine->power_W / (2 * PI * engine->n_rev_s);
    for (double V_kt = 30; V_kt <= 160; V_kt += 5) {
        ls_propulsor_point point = at(0, LS_STOPPED, V_kt);
        assert_int_equal((point.flags & LS_PROPULSOR_TURNS) != 0, fabs(point.torque_Nm) > break_out_Nm);
    }
}

/* ---- beside published rules: compared, nothing is fitted ---- */

static void drag_areas_beside_raymer(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        ls_blade blade;
        const ls_propeller_data *propeller = &model[i].powerplant[0].data->propeller;
        assert_int_equal(ls_propeller_blade(propeller, &blade, NULL), LS_OK);
        double D = propeller->diameter_m, blades_m2 = ls_blade_solidity(&blade) * 0.25 * PI * D * D;
        double feathered = drag_area_m2(i, LS_FEATHERED, 85), stopped = drag_area_m2(i, LS_STOPPED, 85);
        print_message(
            "%s: feathered %.4f m2 (Raymer %.4f, Torenbeek %.4f), stopped %.3f (Raymer %.3f), windmilling "
            "%.3f\n",
            names[i], feathered, 0.1 * blades_m2, 0.00125 * propeller->blades * D * D, stopped, 0.8 * blades_m2,
            drag_area_m2(i, LS_WINDMILLING, 85));
        check_between("feathered drag area over Raymer's 0.1 sigma A", feathered / (0.1 * blades_m2), 0.2, 2.0,
                      "Raymer, Aircraft Design, eq. 12.39; compared, not fitted: rules of thumb, within a factor");
        check_between(
            "feathered drag area over Torenbeek's 0.00125 B D^2",
            feathered / (0.00125 * propeller->blades * D * D), 0.4, 2.5,
            "Torenbeek, Synthesis of Subsonic Airplane Design, eq. G-63 (second hand); compared, not fitted");
        check_between("stopped drag area over Raymer's 0.8 sigma A", stopped / (0.8 * blades_m2), 0.5, 2.0,
                      "Raymer, Aircraft Design, eq. 12.39; compared, not fitted");
    }
}

static void dead_yaw_beside_roskam(void **state)
{
    (void)state;
    for (int i = 0; i < PISTONS; i++) {
        double share = -at(i, LS_WINDMILLING, 80).thrust_N / at(i, LS_RUNNING, 80).thrust_N;
        print_message("%s at 80 kt: the dead side's yaw is %.3f of the live side's\n", names[i], share);
        check_between(
            "yaw of the dead propeller over that of the live one", share, 0.05, 0.25,
            "Roskam, Airplane Design II, eq. 11.13 to 11.16: 0.10 variable pitch, 0.25 fixed; compared, not "
            "fitted");
        double feathered = -at(i, LS_FEATHERED, 80).thrust_N / at(i, LS_RUNNING, 80).thrust_N;
        check_between("the same, feathered", feathered, 0.0, 0.05, "well below either");
    }
}

static void windmilling_beside_stopped(void **state)
{
    (void)state;
    for (int i = 0; i < PISTONS; i++) {
        check_between("windmilling over stopped drag on the fine stop, just above where it stops",
                      drag_area_m2(i, LS_WINDMILLING, 50) / drag_area_m2(i, LS_STOPPED, 50), 1.0, 3.0,
                      "up to about 3, secondary account of the Naval Aviators' textbook");
    }
}

/* ---- the minimum control speed where it stops ---- */

/* The highest speed at which a control margin is not positive, by a plain walk down in steps of 0.005 kt that
 * knows of no jumps. */
static double plain_walk(const ls_model *of, double bank_rad, double from_m_s, double to_m_s)
{
    for (double V_m_s = from_m_s; V_m_s > to_m_s; V_m_s -= 0.005 * KT) {
        ls_trim trim;
        ls_margins margins;
        assert_int_equal(ls_trim_solve(of, V_m_s, bank_rad, &trim, NULL), LS_OK);
        ls_margins_at(of, &trim, &margins);
        for (int limit = 0; limit < LS_LIMIT_WING_STALL; limit++) {
            if (margins.left[limit] <= 0.0) {
                return V_m_s;
            }
        }
    }
    return NAN;
}

/* The friction of the engine moves the speed at which the propeller stops through the minimum control speed. */
static void vmc_near_the_jump_is_the_highest_true_one(void **state)
{
    (void)state;
    int above = 0, below = 0, beside = 0;
    for (double friction = 0.30; friction <= 0.601; friction += 0.01) {
        ls_aircraft stiff = aircraft[0];
        ls_condition condition;
        ls_model own;
        ls_vmc fast, slow;
        stiff.powerplant[0].engine.friction_share = friction;
        ls_condition_takeoff(&stiff, &condition);
        ls_condition_fail(&stiff, 1u, &condition);
        condition.mass_kg = stiff.mass.minimum_kg;
        assert_int_equal(ls_model_make(&stiff, &condition, &own, NULL), LS_OK);
        assert_int_equal(ls_vmc_at(&own, 5 * DEG, &fast, NULL), LS_OK);
        assert_int_equal(ls_vmc_scan(&own, 5 * DEG, &slow, NULL), LS_OK);
        double walked_m_s = plain_walk(&own, 5 * DEG, fast.control_V_m_s + 10 * KT, 20.0);
        check_close("control-limited speed less that of a plain walk, kt", (fast.control_V_m_s - walked_m_s) / KT,
                    0.0025, 0.0026, "steps of 0.005 kt", "our own walk down");
        check_close("the same by the 0.1 kt scan, kt", slow.control_V_m_s / KT, fast.control_V_m_s / KT, 1e-5,
                    "root tolerance 1e-9 m/s; a fold's steep side", "the plain 0.1 kt scan");
        assert_false(fast.at_jump); /* the drag falls when it stops, so no control is lost there */
        ls_powerplant_point point;
        assert_int_equal(ls_powerplant_at(&own, fast.control_V_m_s, &point, NULL), LS_OK);
        int stopped = (point.flags & LS_PROPULSOR_STOPS) != 0;
        above += !stopped;
        below += stopped;
        assert_int_equal(ls_powerplant_at(&own, fast.control_V_m_s - 1.0 * KT, &point, NULL), LS_OK);
        beside += !stopped && (point.flags & LS_PROPULSOR_STOPS) != 0;
    }
    print_message("windmilling at VMC %d, of which it stops within a knot %d; stopped at VMC %d\n", above, beside,
                  below);
    assert_true(above > 0 && below > 0);
}

/* A known source: drag on the dead side jumps up as the speed falls, so that control is lost at the jump. */
static const double jump_m_s = 41.0;

static ls_status jumping_loads(const ls_model *of, double V_m_s, ls_powerplant_point *point, ls_error *error)
{
    ls_status status = ls_powerplant_at(of, V_m_s, point, error);
    if (V_m_s < jump_m_s) {
        point->unit[0].flags |= LS_PROPULSOR_STOPS;
        point->flags |= LS_PROPULSOR_STOPS;
        point->moment0_Nm[2] -= 4000.0;
    }
    return status;
}

static void control_lost_at_a_jump_is_said_to_be_lost_there(void **state)
{
    (void)state;
    ls_condition condition;
    ls_model own;
    ls_vmc fast, slow;
    ls_condition_takeoff(&aircraft[0], &condition);
    ls_condition_fail_as(&aircraft[0], 1u, LS_FEATHERED, &condition);
    condition.mass_kg = aircraft[0].mass.minimum_kg;
    assert_int_equal(ls_model_make(&aircraft[0], &condition, &own, NULL), LS_OK);
    assert_int_equal(ls_vmc_at(&own, 5 * DEG, &slow, NULL), LS_OK);
    assert_true(slow.V_m_s < jump_m_s && !slow.at_jump);
    own.loads = jumping_loads;
    assert_int_equal(ls_vmc_at(&own, 5 * DEG, &fast, NULL), LS_OK);
    assert_int_equal(ls_vmc_scan(&own, 5 * DEG, &slow, NULL), LS_OK);
    assert_true(fast.at_jump && slow.at_jump);
    assert_int_equal(fast.kind, LS_VMC_CONTROL);
    check_close("speed at which control is lost, m/s", fast.V_m_s, jump_m_s, 2e-9, "bracket 1e-9 m/s",
                "the source");
    check_close("the same by the plain scan, m/s", slow.V_m_s, jump_m_s, 2e-9, "bracket 1e-9 m/s", "the source");
    assert_true(fast.margins.left[fast.limit] > 0.01); /* no root: something is left just above */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(windmilling_drags_many_times_feathered),
        cmocka_unit_test(coarser_blades_drag_less_and_turn_slower),
        cmocka_unit_test(lever_aft_helps_where_it_is_asked_for),
        cmocka_unit_test(feathered_propeller_stands_still),
        cmocka_unit_test(rpm_decays_on_the_fine_stop_down_to_where_it_stops),
        cmocka_unit_test(stopped_propeller_may_turn_again_only_beyond_break_out),
        cmocka_unit_test(drag_areas_beside_raymer),
        cmocka_unit_test(dead_yaw_beside_roskam),
        cmocka_unit_test(windmilling_beside_stopped),
        cmocka_unit_test(vmc_near_the_jump_is_the_highest_true_one),
        cmocka_unit_test(control_lost_at_a_jump_is_said_to_be_lost_there),
    };
    return cmocka_run_group_tests(tests, read_fleet, NULL);
}

/* The study of one propeller: its points are what is flown, its limits are those of momentum theory. */
#include "check.h"
#include "fleet.h"

#include "liveside/propeller_study.h"

#include <math.h>
#include <string.h>

#define PI  3.14159265358979323846
#define DEG (PI / 180.0)
#define KT  (1852.0 / 3600.0)

static const char *const names[] = {"whimbrel", "sanderling", "redshank", "barnacle"};
enum { FLEET = 4 };

static ls_aircraft aircraft[FLEET];
static ls_prop_study study[FLEET];
static ls_prop_flight flight[FLEET];

static int read_fleet(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        ls_condition condition;
        fleet_read(names[i], &aircraft[i]);
        ls_condition_takeoff(&aircraft[i], &condition);
        assert_int_equal(ls_prop_study_make(&aircraft[i], &condition, 0, &study[i], NULL), LS_OK);
        ls_prop_flight_solve(&study[i], &flight[i]);
    }
    return 0;
}

/* ---- momentum theory ---- */

static void ideal_thrust_spends_the_power(void **state)
{
    (void)state;
    uint64_t seed = 9;
    for (int i = 0; i < check_scaled(2000); i++) {
        double P = check_random(&seed, 1e3, 1e6), V = check_random(&seed, 0, 120), A = check_random(&seed, 0.5, 8);
        double rho = check_random(&seed, 0.4, 1.3), T = ls_prop_ideal_thrust(P, V, A, rho);
        double v = 0.5 * (-V + sqrt(V * V + 2.0 * T / (rho * A))); /* from T = 2 rho A v (V + v) */
        check_close("ideal thrust times speed through the disc, over the power", T * (V + v) / P, 1.0, 1e-12,
                    "round-off", "momentum theory: P = T (V + v), T = 2 rho A v (V + v)");
    }
    check_close("ideal static thrust, 149.1 kW on 1.93 m, N",
                ls_prop_ideal_thrust(149140, 0, PI * 0.965 * 0.965, 1.225),
                cbrt(2 * 1.225 * PI * 0.965 * 0.965 * 149140.0 * 149140.0), 1e-6, "round-off",
                "momentum theory: T = (2 rho A P^2)^(1/3)");
    assert_true(ls_prop_ideal_thrust(0.0, 30.0, 2.0, 1.2) == 0.0);
}

static void no_propeller_beats_it(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        static ls_prop_by_speed by_speed;
        ls_prop_by_speed_solve(&study[i], 0.0, 2.0 * KT, LS_PROP_SPEEDS, &by_speed);
        for (int k = 0; k < by_speed.count; k++) {
            const ls_prop_point *at = &by_speed.takeoff[k];
            assert_int_equal(at->status, LS_OK);
            check_between("thrust over the ideal at its power, 0 to 160 kt", at->thrust_N / by_speed.ideal_N[k],
                          0.5, 1.0, "momentum theory: never above 1");
            /* slower, heavily loaded blades may be stalled, and more power then gives no more thrust */
            assert_true(by_speed.cas_m_s[k] < 10 * KT ||
                        by_speed.continuous[k].thrust_N <= at->thrust_N * (1 + 1e-9));
            for (int pitch = 0; pitch < LS_PROP_FIXED; pitch++) {
                double efficiency = by_speed.fixed_efficiency[pitch][k];
                assert_true(isnan(efficiency) || (efficiency >= 0.0 && efficiency < 1.0));
            }
        }
    }
}

/* ---- points ---- */

static void points_are_what_is_flown(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        for (int is = 0; is < LS_ENGINE_STATES; is++) {
            ls_prop_point point;
            ls_propulsor_point load;
            ls_prop_point_solve(&study[i], (ls_engine_state)is, 1.0, 45.0, &point);
            assert_int_equal(ls_propulsor_at(study[i].powerplant, (ls_engine_state)is, 1.0, &study[i].model.air,
                                             45.0, &load, NULL),
                             LS_OK);
            assert_true(point.thrust_N == load.thrust_N && point.torque_Nm == load.torque_Nm);
            assert_true(point.n_rev_s == load.n_rev_s && point.pitch_rad == load.pitch_rad);
            assert_int_equal(point.flags, load.flags);
            check_close("incidence and inflow angle at 0.75 R less the blade angle, rad",
                        point.alpha75_rad + point.phi75_rad, point.pitch_rad, 1e-12, "round-off", "definition");
        }
    }
}

static void the_flight_goes_as_it_is_taught(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        const ls_prop_point *phase = flight[i].phase;
        double fine_rad = study[i].powerplant->data->propeller.fine_pitch_rad;
        for (int k = 0; k < LS_PHASES; k++) {
            assert_int_equal(phase[k].status, LS_OK);
        }
        assert_true(phase[LS_PHASE_RUN_UP].thrust_N > phase[LS_PHASE_ROLL].thrust_N);
        assert_true(phase[LS_PHASE_ROLL].thrust_N > phase[LS_PHASE_CLIMB].thrust_N);
        assert_true(phase[LS_PHASE_CLIMB].thrust_N > phase[LS_PHASE_CRUISE].thrust_N);
        /* the pitch coarsens as true airspeed rises, and the angle of attack falls */
        assert_true(phase[LS_PHASE_CRUISE].pitch_rad > phase[LS_PHASE_CLIMB].pitch_rad);
        assert_true(phase[LS_PHASE_ROLL].alpha75_rad > phase[LS_PHASE_CLIMB].alpha75_rad);
        assert_true(phase[LS_PHASE_CLIMB].alpha75_rad > phase[LS_PHASE_CRUISE].alpha75_rad);
        check_between("efficiency in the cruise", phase[LS_PHASE_CRUISE].efficiency, 0.80, 0.90,
                      "0.80 to 0.85 and a little above (from memory)");
        check_between("efficiency in the climb", phase[LS_PHASE_CLIMB].efficiency, 0.65, 0.82,
                      "0.66 to 0.70 at 36 m/s, rising (from memory)");
        assert_true(phase[LS_PHASE_CLOSED].pitch_rad == fine_rad && phase[LS_PHASE_FORWARD].pitch_rad == fine_rad);
        assert_true(phase[LS_PHASE_AFT].pitch_rad > fine_rad);
        assert_true(phase[LS_PHASE_FORWARD].thrust_N < phase[LS_PHASE_CLOSED].thrust_N);
        assert_true(phase[LS_PHASE_FORWARD].thrust_N < phase[LS_PHASE_AFT].thrust_N);
        assert_true(phase[LS_PHASE_AFT].thrust_N < phase[LS_PHASE_FEATHERED].thrust_N);
        assert_true(phase[LS_PHASE_FEATHERED].thrust_N < 0.0 && phase[LS_PHASE_FEATHERED].n_rev_s == 0.0);
        /* a windmilling section works at negative lift */
        assert_true(i == 2 || phase[LS_PHASE_FORWARD].cl75 < 0.0);
    }
}

static void cruise_is_level_flight(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        const ls_prop_point *cruise = &flight[i].phase[LS_PHASE_CRUISE];
        ls_condition condition = study[i].model.condition;
        ls_model clean;
        condition.flap = ls_flap_clean(&aircraft[i]);
        assert_int_equal(ls_model_make(&aircraft[i], &condition, &clean, NULL), LS_OK);
        double q_S = 0.5 * clean.air.rho_kg_m3 * cruise->V_m_s * cruise->V_m_s * clean.S_m2;
        double lift = clean.weight_N / q_S - clean.drag_least_at;
        double drag_N = q_S * (clean.drag_base + clean.drag_induced * lift * lift);
        double each_N = cruise->thrust_N - ls_installation_loss(&clean.unit[0], cruise->thrust_N);
        check_close("thrust of all engines in the cruise over the drag", aircraft[i].engines * each_N / drag_N,
                    1.0, 1e-6, "root tolerance 1e-6 m/s", "level flight");
    }
    const ls_prop_point *cruise = &flight[0].phase[LS_PHASE_CRUISE];
    check_close("manifold pressure in the cruise, inHg", cruise->map_Pa / 3386.389, 0.8 * 28.8, 0.01, "as set",
                "0.80 of the rated one: about 23 in and 2300 rpm is an ordinary cruise setting (common practice)");
}

/* ---- dead ---- */

static void limits_of_the_dead_propeller_are_where_they_are_said(void **state)
{
    (void)state;
    static ls_dead_by_speed dead;
    const ls_propeller_data *propeller = &study[0].powerplant->data->propeller;
    ls_dead_by_speed_solve(&study[0], 20 * KT, 2 * KT, LS_PROP_SPEEDS, &dead);
    for (int i = 0; i < dead.count; i++) {
        int stops = (dead.forward[i].flags & LS_PROPULSOR_STOPS) != 0;
        int latched = (dead.forward[i].flags & LS_PROPULSOR_LATCHED) != 0;
        assert_int_equal(stops, dead.cas_m_s[i] < dead.stops_cas_m_s);
        assert_int_equal(latched, dead.cas_m_s[i] < dead.latched_cas_m_s);
        assert_int_equal(dead.aft[i].pitch_rad > propeller->fine_pitch_rad, dead.cas_m_s[i] > dead.aft_cas_m_s);
    }
    assert_true(dead.stops_cas_m_s < dead.latched_cas_m_s && dead.latched_cas_m_s < dead.aft_cas_m_s);
    ls_dead_by_speed_solve(&study[2], 20 * KT, 2 * KT, 10, &dead);
    assert_true(isnan(dead.latched_cas_m_s)); /* the file has no latch */
}

/* ---- from the side ---- */

static void side_loads_begin_as_the_table_has_them(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        ls_prop_incidence incidence;
        ls_propulsor_point load;
        double V_m_s = 42.0;
        ls_prop_incidence_solve(&study[i], V_m_s, 1.0 * DEG, LS_PROP_INCIDENCES, &incidence);
        assert_int_equal(incidence.status, LS_OK);
        assert_int_equal(
            ls_propulsor_at(study[i].powerplant, LS_RUNNING, 1.0, &study[i].model.air, V_m_s, &load, NULL), LS_OK);
        check_close("side load without incidence, N", incidence.normal_N[0], 0.0, 1e-6, "round-off", "symmetry");
        check_close("hub moment at 1 deg over the table's slope",
                    incidence.moment_Nm[1] / (load.hub_first_Nm * sin(DEG)), 1.0, 0.03,
                    "curvature within a degree, and the table's half per cent", "our own table");
        check_close("side load at 1 deg over the table's slope",
                    incidence.normal_N[1] / (load.normal_N * sin(DEG)), 1.0, 0.03,
                    "curvature within a degree, and the table's half per cent", "our own table");
        for (int k = 1; k < incidence.count; k++) {
            assert_true(incidence.offset_m[k] > incidence.offset_m[k - 1]);
            assert_true(incidence.offset_bound_m[k] > incidence.offset_m[k]);
            assert_true(incidence.normal_bound_N[k] > incidence.normal_N[k]);
        }
        check_between("thrust offset at 8 deg, over the diameter",
                      incidence.offset_m[8] / study[i].disc.diameter_m, 0.005, 0.04,
                      "estimate of 0.01 to 0.03 D at 8 deg from blade-element theory");
    }
}

/* ---- zero thrust, idle, blades ---- */

static void settings_give_what_they_are_for(void **state)
{
    (void)state;
    static ls_zero_thrust zero;
    for (int i = 0; i < FLEET; i++) {
        ls_zero_thrust_solve(&study[i], 1500.0, LS_PROP_HEIGHTS, 80 * KT, 10 * KT, LS_PROP_ZERO_SPEEDS, &zero);
        assert_int_equal(zero.heights, LS_PROP_HEIGHTS);
        for (int h = 0; h < zero.heights; h++) {
            for (int k = 0; k < zero.speeds; k++) {
                const ls_prop_point *none = &zero.zero[h][k], *feather = &zero.feather[h][k];
                ls_propulsor_point load;
                ls_air air;
                assert_int_equal(ls_air_at(zero.altitude_m[h], 0, &air, NULL), LS_OK);
                assert_int_equal(
                    ls_propulsor_at(study[i].powerplant, LS_FEATHERED, 1.0, &air, none->V_m_s, &load, NULL),
                    LS_OK);
                check_close("thrust at the setting for none, N", none->thrust_N, 0.0, 1e-4, "root tolerances",
                            "identity");
                check_close("thrust at the setting like feather less the feathered one, N", feather->thrust_N,
                            load.thrust_N, 1e-4, "root tolerances", "identity");
                assert_true(feather->n_rev_s < none->n_rev_s || feather->pitch_rad < none->pitch_rad);
                assert_int_equal(isfinite(none->map_Pa),
                                 study[i].powerplant->data->engine.type == LS_ENGINE_PISTON);
            }
        }
    }
}

static void idle_flatters(void **state)
{
    (void)state;
    ls_vmca_request request = {.sets = 1, .set = {1u}, .state = -1, .bank_given = 1, .bank_rad = 5 * DEG};
    static ls_vmca vmca;
    ls_idle_demonstration demo;
    ls_condition_takeoff(&aircraft[0], &request.condition);
    request.condition.mass_kg = aircraft[0].mass.minimum_kg;
    assert_int_equal(ls_vmca_solve(&aircraft[0], &request, &vmca, NULL), LS_OK);
    ls_idle_demonstration_solve(&study[0], &vmca.set[0], vmca.set[0].answer.vmc.V_m_s, &demo);
    assert_int_equal(demo.state[0], LS_WINDMILLING);
    check_close("VMC windmilling, as the answer's, kt", demo.vmc[0].vmc.cas_m_s / KT,
                vmca.set[0].answer.vmc.cas_m_s / KT, 1e-9, "the same solution", "identity");
    for (int i = 1; i < demo.count; i++) {
        assert_true(demo.point[i].thrust_N > demo.point[0].thrust_N);
        assert_true(demo.vmc[i].vmc.cas_m_s < demo.vmc[0].vmc.cas_m_s);
    }
    ls_idle_demonstration_solve(&study[0], NULL, 40.0, &demo);
    assert_int_equal(demo.vmc[0].status, LS_NO_STATE);
    assert_true(strlen(demo.vmc[0].reason) > 0);
}

static void own_number_of_blades_is_the_file_s(void **state)
{
    (void)state;
    for (int i = 0; i < FLEET; i++) {
        ls_blade_counts counts;
        int own = study[i].blade.blades;
        ls_blade_counts_solve(&study[i], &flight[i], LS_PROP_BLADES_MIN, LS_PROP_BLADES_MAX, &counts);
        const ls_blade_count *row = &counts.row[own - LS_PROP_BLADES_MIN];
        const ls_prop_point *climb = &flight[i].phase[LS_PHASE_CLIMB], *cruise = &flight[i].phase[LS_PHASE_CRUISE];
        check_close("pitch in the climb with the file's own blades less the governed one, deg",
                    row->pitch_rad[1] / DEG, climb->pitch_rad / DEG, 0.05, "the table's half per cent of torque",
                    "our own table");
        check_close("thrust in the climb with them over the governed one", row->thrust_N[1] / climb->thrust_N, 1.0,
                    0.005, "the table's half per cent", "our own table");
        check_close("power taken at the same angle over the engine's", row->absorbed_W / climb->power_W, 1.0,
                    0.005, "the table's half per cent", "our own table");
        check_close("efficiency in the cruise", row->efficiency[2], cruise->efficiency, 0.005,
                    "the table's half per cent", "our own table");
        for (int k = 1; k < counts.count; k++) {
            assert_true(counts.row[k].absorbed_W > counts.row[k - 1].absorbed_W);
            assert_true(counts.row[k].solidity > counts.row[k - 1].solidity);
            /* the engine is matched to its own blades: fewer are not better everywhere, more are worse in the
             * cruise */
            assert_true(counts.row[k].blades <= own ||
                        counts.row[k].efficiency[2] < counts.row[k - 1].efficiency[2]);
        }
        print_message("%s: efficiency in the cruise %.3f with 2 blades, %.3f with 4, %.3f with 6\n", names[i],
                      counts.row[0].efficiency[2], counts.row[2].efficiency[2], counts.row[4].efficiency[2]);
        check_between("efficiency lost in the cruise from 5 to 8 of the same blade",
                      counts.row[3].efficiency[2] - counts.row[6].efficiency[2], 0.005, 0.1,
                      "common practice: beyond about five blades a conventional disc loses efficiency");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ideal_thrust_spends_the_power),
        cmocka_unit_test(no_propeller_beats_it),
        cmocka_unit_test(points_are_what_is_flown),
        cmocka_unit_test(the_flight_goes_as_it_is_taught),
        cmocka_unit_test(cruise_is_level_flight),
        cmocka_unit_test(limits_of_the_dead_propeller_are_where_they_are_said),
        cmocka_unit_test(side_loads_begin_as_the_table_has_them),
        cmocka_unit_test(settings_give_what_they_are_for),
        cmocka_unit_test(idle_flatters),
        cmocka_unit_test(own_number_of_blades_is_the_file_s),
    };
    return cmocka_run_group_tests(tests, read_fleet, NULL);
}

/* The explanation: moments that sum to zero, effects whose sign is that of the handbooks, worths that add up with
 * their interaction, and the right answer for every way the propellers can turn and for engines in line. */
#include "check.h"
#include "fleet.h"

#include "liveside/breakdown.h"

#include <math.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)
#define AFH "FAA Airplane Flying Handbook, FAA-H-8083-3C, ch. 13"

enum { LEFT, RIGHT };

static ls_aircraft whimbrel;
static ls_breakdown found;

static int read_whimbrel(void **state)
{
    (void)state;
    fleet_read("whimbrel", &whimbrel);
    return 0;
}

static void explain(const ls_aircraft *aircraft, ls_rotation rotation, double cas_kt)
{
    ls_vmca_request request = {.state = -1, .search = LS_SEARCH_ALL};
    ls_error error = {0};
    ls_condition_takeoff(aircraft, &request.condition);
    request.condition.rotation = rotation;
    request.sets = ls_vmca_sets(aircraft, request.set);
    assert_int_equal(ls_breakdown_solve(aircraft, &request, cas_kt * KT, &found, &error), LS_OK);
}

static void sums_are_zero(void **state)
{
    (void)state;
    static const char *const names[] = {"whimbrel", "sanderling", "redshank", "barnacle"};
    for (int n = 0; n < 4; n++) {
        ls_aircraft aircraft;
        fleet_read(names[n], &aircraft);
        explain(&aircraft, LS_ROTATION_FILE, 0.0);
        assert_int_equal(found.sides, 2);
        for (int i = 0; i < 2; i++) {
            const ls_breakdown_side *side = &found.side[i];
            double yaw_Nm = 0.0, roll_Nm = 0.0, rudder_rad = 0.0;
            double scale_Nm = fabs(side->cause[LS_CAUSE_THRUST].yaw_Nm);
            assert_int_equal(side->status, LS_OK);
            for (int cause = 0; cause < LS_CAUSES; cause++) {
                yaw_Nm += side->cause[cause].yaw_Nm;
                roll_Nm += side->cause[cause].roll_Nm;
                rudder_rad += side->cause[cause].yaw_rudder_rad;
            }
            check_close("sum of the yawing moments by cause, of the thrust's", yaw_Nm / scale_Nm, 0.0, 1e-8,
                        "the trim's tolerance", "identity: equilibrium");
            check_close("sum of the rolling moments by cause, of the thrust's", roll_Nm / scale_Nm, 0.0, 1e-8,
                        "the trim's tolerance", "identity: equilibrium");
            check_close("sum of the causes as rudder, deg", rudder_rad / DEG, 0.0, 1e-6, "the trim's tolerance",
                        "identity: equilibrium");
            assert_true(side->cause[LS_CAUSE_THRUST].yaw_Nm > 0.0);    /* toward the dead engine */
            assert_true(side->cause[LS_CAUSE_DEAD_DRAG].yaw_Nm > 0.0); /* the same way */
            assert_true(side->cause[LS_CAUSE_RUDDER].yaw_Nm < 0.0);    /* and held */
        }
    }
}

/* Both clockwise: each handed effect by itself is worse for the left engine's failure. */
static void each_effect_is_adverse_to_the_left_failure(void **state)
{
    (void)state;
    explain(&whimbrel, LS_ROTATION_CLOCKWISE, 80.0);
    const ls_breakdown_side *left = &found.side[LEFT], *right = &found.side[RIGHT];
    const ls_moments *l = left->cause, *r = right->cause;
    double P = l[LS_CAUSE_P_FACTOR].yaw_Nm - r[LS_CAUSE_P_FACTOR].yaw_Nm;
    double wash = l[LS_CAUSE_SLIPSTREAM].roll_Nm - r[LS_CAUSE_SLIPSTREAM].roll_Nm;
    double swirl = l[LS_CAUSE_SWIRL].yaw_Nm - r[LS_CAUSE_SWIRL].yaw_Nm;
    double torque = l[LS_CAUSE_TORQUE].roll_Nm - r[LS_CAUSE_TORQUE].roll_Nm;
    const char *source = AFH ": both propellers clockwise make the left engine critical";
    check_between("P-factor, yaw left less right dead, N m", P, 20.0, 400.0, source);
    check_between("slipstream lift, roll left less right dead, N m", wash, 5.0, 200.0, source);
    check_between("swirl on the fin, yaw left less right dead, N m", swirl, 20.0, 600.0, source);
    check_between("torque, roll left less right dead, N m", torque, 300.0, 900.0, source);
    assert_true(l[LS_CAUSE_P_FACTOR].yaw_Nm > 0.0 && r[LS_CAUSE_P_FACTOR].yaw_Nm < 0.0);
    assert_true(l[LS_CAUSE_TORQUE].roll_Nm > 0.0 && r[LS_CAUSE_TORQUE].roll_Nm < 0.0);
    assert_true(l[LS_CAUSE_SLIPSTREAM].roll_Nm > 0.0 && r[LS_CAUSE_SLIPSTREAM].roll_Nm > 0.0);
    assert_true(r[LS_CAUSE_SWIRL].yaw_Nm < 0.0);
    /* the thrust arm that a pilot is shown: longer on the right */
    assert_true(left->arm_m[1] > 1.90 && -right->arm_m[0] < 1.90);
    assert_true(isnan(left->arm_m[0]) && isnan(right->arm_m[1]));
}

static void handedness(void **state)
{
    (void)state;
    explain(&whimbrel, LS_ROTATION_FILE, 0.0);
    double speed[LS_ROTATIONS][2];
    for (int i = 0; i < LS_ROTATIONS; i++) {
        speed[i][LEFT] = found.side[LEFT].by_rotation[i].vmc.cas_m_s / KT;
        speed[i][RIGHT] = found.side[RIGHT].by_rotation[i].vmc.cas_m_s / KT;
    }
    assert_int_equal(found.critical[LS_ROTATION_FILE], LEFT);
    assert_int_equal(found.critical[LS_ROTATION_CLOCKWISE], LEFT);
    assert_int_equal(found.critical[LS_ROTATION_ANTICLOCKWISE], RIGHT);
    assert_int_equal(found.critical[LS_ROTATION_TOPS_INBOARD], LS_CRITICAL_NEITHER);
    assert_int_equal(found.critical[LS_ROTATION_TOPS_OUTBOARD], LS_CRITICAL_NEITHER);
    check_close("anticlockwise, right dead, against clockwise, left dead, kt",
                speed[LS_ROTATION_ANTICLOCKWISE][RIGHT], speed[LS_ROTATION_CLOCKWISE][LEFT], 1e-6,
                "root tolerance 1e-9 m/s", "identity: mirror images");
    check_close("tops inboard, left less right dead, kt",
                speed[LS_ROTATION_TOPS_INBOARD][LEFT] - speed[LS_ROTATION_TOPS_INBOARD][RIGHT], 0.0, 1e-6,
                "root tolerance 1e-9 m/s", AFH ": no critical engine");
    assert_true(speed[LS_ROTATION_TOPS_OUTBOARD][LEFT] > speed[LS_ROTATION_TOPS_INBOARD][LEFT] + 0.1);
    assert_true(speed[LS_ROTATION_TOPS_OUTBOARD][RIGHT] > speed[LS_ROTATION_TOPS_INBOARD][RIGHT] + 0.1);
}

static void worths_add_up(void **state)
{
    (void)state;
    explain(&whimbrel, LS_ROTATION_CLOCKWISE, 0.0);
    for (int i = 0; i < 2; i++) {
        const ls_breakdown_side *side = &found.side[i];
        double sum_m_s = side->interaction_m_s;
        for (int k = 0; k < LS_EFFECTS; k++) {
            assert_true(isfinite(side->worth[k].m_s));
            assert_true(side->worth[k].low_m_s <= side->worth[k].m_s + 1e-9);
            assert_true(side->worth[k].m_s <= side->worth[k].high_m_s + 1e-9);
            sum_m_s += side->worth[k].m_s;
        }
        check_close("worths and interaction against all effects off, kt", sum_m_s / KT, side->all_m_s / KT, 1e-9,
                    "round-off", "identity");
        check_between("interaction of the effects, kt", side->interaction_m_s / KT, -1.0, 1.0,
                      "the effects are small beside the thrust, so nearly additive");
    }
    const ls_worth *left = found.side[LEFT].worth, *right = found.side[RIGHT].worth;
    assert_true(left[0].m_s > 0.0 && right[0].m_s < 0.0);           /* P-factor */
    assert_true(left[1].m_s > 0.0 && right[1].m_s > 0.0);           /* slipstream on the wing raises both */
    assert_true(left[2].m_s > right[2].m_s && right[2].m_s < 0.0);  /* swirl eases the right engine's failure */
    assert_true(left[5].m_s > 1.0 * KT && right[5].m_s > 1.0 * KT); /* drag of the windmilling propeller */
}

/* Switching the effects off one by one leaves mirror images. */
static void nothing_handed_left(void **state)
{
    (void)state;
    explain(&whimbrel, LS_ROTATION_CLOCKWISE, 0.0);
    double left = found.side[LEFT].vmc.vmc.control_cas_m_s - found.side[LEFT].all_m_s;
    double right = found.side[RIGHT].vmc.vmc.control_cas_m_s - found.side[RIGHT].all_m_s;
    check_close("left less right dead with every effect off, kt", (left - right) / KT, 0.0, 1e-6,
                "root tolerance 1e-9 m/s", "identity: mirror images");
}

/* Engines in line: no arm, no yaw from thrust, no critical engine for control. */
static void in_line(void **state)
{
    (void)state;
    ls_aircraft aircraft = whimbrel;
    aircraft.engine[0].hub_right_m = aircraft.engine[1].hub_right_m = 0.0;
    aircraft.engine[1].hub_aft_m = aircraft.cg.reference_m + 1.5;
    explain(&aircraft, LS_ROTATION_FILE, 75.0);
    assert_int_equal(found.sides, 2);
    assert_int_equal(found.critical[LS_ROTATION_FILE], LS_CRITICAL_STALL);
    for (int i = 0; i < 2; i++) {
        assert_int_equal(found.side[i].live_side, 0);
        assert_int_equal(found.side[i].vmc.vmc.kind, LS_VMC_STALLS_FIRST);
        check_close("yaw of thrust in line, N m", found.side[i].cause[LS_CAUSE_THRUST].yaw_Nm, 0.0, 1e-9,
                    "round-off", "identity: no arm");
        assert_true(found.side[i].trim.bank_rad == 0.0);
    }
}

static void zero_sideslip(void **state)
{
    (void)state;
    explain(&whimbrel, LS_ROTATION_FILE, 0.0);
    for (int i = 0; i < 2; i++) {
        const ls_attitudes *at = &found.side[i].attitudes;
        assert_int_equal(at->status, LS_OK);
        assert_int_equal(at->state, LS_FEATHERED);
        double bank_deg = at->no_sideslip_rad / DEG, alone_deg = at->ailerons_only_rad / DEG;
        check_between("zero-sideslip bank at best one-engine climb, deg", bank_deg, 1.0, 3.5,
                      AFH ": 1.5 to 2.5 deg, about 2 on most light twins");
        check_between("the ball there, widths of 5 deg", bank_deg / 5.0, 0.2, 0.7,
                      AFH ": a third to half a width");
        check_between("ailerons-only bank over zero-sideslip bank", alone_deg / bank_deg, 2.5, 6.0,
                      AFH ": 8 to 10 deg against about 2");
    }
}

static void refused(void **state)
{
    (void)state;
    ls_aircraft single = whimbrel;
    ls_vmca_request request = {.state = -1};
    ls_error error = {0};
    single.engines = 1;
    ls_condition_takeoff(&single, &request.condition);
    request.sets = ls_vmca_sets(&single, request.set);
    assert_int_equal(ls_breakdown_solve(&single, &request, 0.0, &found, &error), LS_NO_STATE);
    assert_non_null(strstr(error.text, "one engine"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sums_are_zero),       cmocka_unit_test(each_effect_is_adverse_to_the_left_failure),
        cmocka_unit_test(handedness),          cmocka_unit_test(worths_add_up),
        cmocka_unit_test(nothing_handed_left), cmocka_unit_test(in_line),
        cmocka_unit_test(zero_sideslip),       cmocka_unit_test(refused),
    };
    return cmocka_run_group_tests(tests, read_whimbrel, NULL);
}

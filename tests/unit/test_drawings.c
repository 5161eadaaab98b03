/* The drawings: every arrow's length, place and direction, and every number beside one, against the numbers of the
 * study, read back from the written script. Forces in pounds by their definition, 1 lbf = 4.4482216152605 N. */
#include "drawing_script.h"

#include "fleet.h"

#include "report/explain_charts.h"
#include "report/prop_report.h"

#define DEG  (3.14159265358979323846 / 180.0)
#define LBF  4.4482216152605
#define FT   0.3048
#define G0   9.80665
#define FROM "identity: the drawing against its numbers"
#define WHY  "9 printed digits"

static const char *const fleet[] = {"whimbrel", "sanderling", "redshank", "barnacle"};

enum { FLEET = sizeof fleet / sizeof fleet[0] };

typedef struct {
    ls_aircraft aircraft;
    ls_breakdown breakdown;
    ls_explain_view view;
    const ls_breakdown_side *side;
    ls_chart chart;
    script drawn;
} fixture;

static fixture at;

static void solve(const char *name)
{
    ls_vmca_request request = {.state = -1, .search = LS_SEARCH_ALL};
    ls_error error = {0};
    fleet_read(name, &at.aircraft);
    ls_condition_takeoff(&at.aircraft, &request.condition);
    request.sets = ls_vmca_sets(&at.aircraft, request.set);
    assert_int_equal(ls_breakdown_solve(&at.aircraft, &request, 0.0, &at.breakdown, &error), LS_OK);
    at.view = (ls_explain_view){
        .aircraft = &at.aircraft, .breakdown = &at.breakdown, .units = LS_UNITS_US, .ball_rad = 5 * DEG};
    at.side = &at.breakdown.side[0];
    assert_int_equal(at.side->status, LS_OK);
}

/* Force and moment of a cause, of all engines or of one, summed here anew. */
static void sum(ls_cause cause, int engine, double force_N[3], double moment_Nm[3])
{
    memset(force_N, 0, 3 * sizeof *force_N);
    memset(moment_Nm, 0, 3 * sizeof *moment_Nm);
    for (int k = 0; k < at.side->balance.count; k++) {
        const ls_part *part = &at.side->balance.part[k];
        for (int i = 0; i < 3 && part->cause == cause && (engine < 0 || part->engine == engine); i++) {
            force_N[i] += part->force_N[i];
            moment_Nm[i] += part->moment_Nm[i];
        }
    }
}

static void thrusts_are_drawn(double m_per_N)
{
    double none_N[3], thrust_N[3], drag_N[3];
    char label[64];
    for (int i = 0; i < at.aircraft.engines; i++) {
        sum(LS_CAUSE_THRUST, i, thrust_N, none_N);
        sum(LS_CAUSE_DEAD_DRAG, i, drag_N, none_N);
        double along_N = thrust_N[0] + drag_N[0], arm_m = at.side->arm_m[i];
        double hub_m = at.aircraft.engine[i].hub_right_m - at.side->condition.cg_right_m;
        double x_m = isfinite(arm_m) ? arm_m : hub_m;
        double y_m = at.side->condition.cg_aft_m - at.aircraft.engine[i].hub_aft_m;
        const script_arrow *arrow = arrow_near(&at.drawn, x_m, y_m, 0.0, along_N);
        check_close("thrust's arrow off the centreline, m", arrow->x0, x_m, 1e-6, WHY, FROM);
        check_close("thrust's arrow from the hub, m", arrow->y0, y_m, 1e-6, WHY, FROM);
        check_close("thrust's arrow, length, m", arrow->y1 - arrow->y0, along_N * m_per_N, 1e-6, WHY, FROM);
        if (isfinite(arm_m)) {
            snprintf(label, sizeof label, "thrust %.0f lbf at %.2f ft", along_N / LBF, fabs(arm_m) / FT);
        } else {
            snprintf(label, sizeof label, "drag %.0f lbf", fabs(along_N) / LBF);
        }
        assert_words(&at.drawn, label);
    }
}

/* A side force stands where its own moment puts it: N = x Y. */
static void side_force_is_drawn(ls_cause cause, const char *name, double m_per_N)
{
    double force_N[3], moment_Nm[3];
    char label[64];
    sum(cause, -1, force_N, moment_Nm);
    if (fabs(force_N[1]) < 2.0) {
        return;
    }
    double ahead_m = moment_Nm[2] / force_N[1];
    const script_arrow *arrow = arrow_near(&at.drawn, 0.0, ahead_m, force_N[1], 0.0);
    check_close("side force's arrow, ahead of the centre of gravity, m", arrow->y0, ahead_m, 1e-6, WHY, FROM);
    check_close("side force's arrow, length to the right, m", arrow->x1 - arrow->x0, force_N[1] * m_per_N, 1e-6,
                WHY, FROM);
    snprintf(label, sizeof label, "%s %.0f lbf", name, fabs(force_N[1]) / LBF);
    assert_words(&at.drawn, label);
}

static void weight_and_string_are_drawn(double m_per_N)
{
    double beta_rad = at.side->trim.beta_rad, weight_N = at.side->condition.mass_kg * G0;
    double across_N = weight_N * sin(at.side->trim.bank_rad) * cos(at.side->trim.theta_rad);
    char label[64];
    const script_arrow *arrow = arrow_near(&at.drawn, 0.0, 0.0, across_N, 0.0);
    check_close("weight's part across, arrow, m", arrow->x1 - arrow->x0, across_N * m_per_N, 1e-6, WHY,
                "W sin(bank) cos(pitch), by hand");
    snprintf(label, sizeof label, "weight, by bank, %.0f lbf", fabs(across_N) / LBF);
    assert_words(&at.drawn, label);
    arrow = &at.drawn.arrow[at.drawn.arrows - 1]; /* the string comes last */
    check_close("string's angle from straight aft, deg", atan2(arrow->x0 - arrow->x1, arrow->y0 - arrow->y1) / DEG,
                beta_rad / DEG, 1e-5, WHY, "a string lies along the wind: from the right to the left");
    snprintf(label, sizeof label, "wind %.1f deg", fabs(beta_rad) / DEG);
    assert_words(&at.drawn, label);
}

static void from_above_is_to_scale(void **state)
{
    (void)state;
    for (int n = 0; n < FLEET; n++) {
        double force_N[3], moment_Nm[3];
        solve(fleet[n]);
        ls_chart_from_above(&at.chart, &at.view, 0, 0);
        script_read(&at.chart, &at.drawn);
        sum(LS_CAUSE_RUDDER, -1, force_N, moment_Nm);
        const script_arrow *rudder =
            arrow_near(&at.drawn, 0.0, moment_Nm[2] / force_N[1], force_N[1], 0.0); /* one arrow gives the scale */
        double m_per_N = arrow_length(rudder) / fabs(force_N[1]);
        check_between("longest force from above, of the span",
                      m_per_N * fabs(force_N[1]) / at.aircraft.wing.span_m, 0.01, 0.3 + 1e-6, FROM);
        thrusts_are_drawn(m_per_N);
        side_force_is_drawn(LS_CAUSE_RUDDER, "rudder", m_per_N);
        side_force_is_drawn(LS_CAUSE_SIDESLIP, "sideslip", m_per_N);
        weight_and_string_are_drawn(m_per_N);
    }
}

static void slipstreams_are_drawn(double m_per_N, double weight_N)
{
    double bank_rad = at.side->trim.bank_rad;
    for (int k = 0; k < at.side->balance.count; k++) {
        const ls_part *part = &at.side->balance.part[k];
        if (part->cause != LS_CAUSE_SLIPSTREAM || part->engine < 0 || fabs(part->force_N[2]) < 0.012 * weight_N) {
            continue;
        }
        double right_m = part->moment_Nm[0] / part->force_N[2], up_N = -part->force_N[2]; /* L = y Z */
        char label[64];
        const script_arrow *arrow = arrow_near(&at.drawn, right_m * cos(bank_rad), -right_m * sin(bank_rad),
                                               up_N * sin(bank_rad), up_N * cos(bank_rad));
        check_close("slipstream lift's arrow along the wing, m", hypot(arrow->x0, arrow->y0), fabs(right_m), 1e-6,
                    WHY, FROM);
        check_close("slipstream lift's arrow, m", arrow_length(arrow), fabs(up_N) * m_per_N, 1e-6, WHY, FROM);
        snprintf(label, sizeof label, "slipstream lift %.0f lbf", up_N / LBF);
        assert_words(&at.drawn, label);
    }
}

static void ball_is_drawn(void)
{
    double widths = at.side->trim.bank_rad / (5 * DEG), r_m = 0.018 * at.aircraft.wing.span_m;
    char label[64];
    int ball = at.drawn.circles - 1;
    check_close("ball's radius, of the span", at.drawn.circle_r[ball] / at.aircraft.wing.span_m, 0.018, 1e-6, WHY,
                FROM);
    check_close("ball's place, widths to the right", at.drawn.circle_x[ball] / (2 * r_m), widths, 1e-5, WHY,
                "it lies on the low side, by bank over the bank of one width");
    snprintf(label, sizeof label, "ball %.1f widths", fabs(widths));
    assert_words(&at.drawn, label);
}

static void from_behind_is_to_scale(void **state)
{
    (void)state;
    for (int n = 0; n < FLEET; n++) {
        double force_N[3], moment_Nm[3], lift_N = 0.0;
        char label[64];
        solve(fleet[n]);
        ls_chart_from_behind(&at.chart, &at.view, 0, 0);
        script_read(&at.chart, &at.drawn);
        double weight_N = at.side->condition.mass_kg * G0, bank_rad = at.side->trim.bank_rad;
        const script_arrow *weight = arrow_near(&at.drawn, 0.0, 0.0, 0.0, -1.0);
        double m_per_N = arrow_length(weight) / weight_N;
        check_close("weight's arrow hangs straight down, m aside", weight->x1 - weight->x0, 0.0, 1e-9, WHY, FROM);
        check_close("weight's arrow, of the span", arrow_length(weight) / at.aircraft.wing.span_m, 0.33, 1e-6, WHY,
                    FROM);
        snprintf(label, sizeof label, "weight %.0f lbf", weight_N / LBF);
        assert_words(&at.drawn, label);
        lift_N = -at.side->balance.part[1].force_N[2];
        const script_arrow *lift = arrow_near(&at.drawn, 0.0, 0.0, sin(bank_rad), cos(bank_rad));
        check_close("lift's arrow, m", arrow_length(lift), lift_N * m_per_N, 1e-6, WHY, FROM);
        check_close("lift's arrow leans with the bank, deg", atan2(lift->x1, lift->y1) / DEG, bank_rad / DEG, 1e-5,
                    WHY, "it stands on the wing");
        snprintf(label, sizeof label, "lift of the wing %.0f lbf", lift_N / LBF);
        assert_words(&at.drawn, label);
        sum(LS_CAUSE_RUDDER, -1, force_N, moment_Nm);
        double fin_m = 0.2 * at.aircraft.wing.span_m;
        const script_arrow *rudder =
            arrow_near(&at.drawn, fin_m * sin(bank_rad), fin_m * cos(bank_rad), force_N[1], 0.0);
        check_close("rudder's arrow from behind, m", arrow_length(rudder), fabs(force_N[1]) * m_per_N, 1e-6, WHY,
                    FROM);
        snprintf(label, sizeof label, "rudder %.0f lbf", fabs(force_N[1]) / LBF);
        assert_words(&at.drawn, label);
        slipstreams_are_drawn(m_per_N, weight_N);
        ball_is_drawn();
    }
}

/* One row a cause, the first failure's bars apart from the second's. */
static void moments_are_the_bars(void **state)
{
    (void)state;
    for (int n = 0; n < 2 * FLEET; n++) {
        int is_roll = n % 2, bar = 0;
        solve(fleet[n / 2]);
        ls_chart_of_moments(&at.chart, &at.view, is_roll, 0);
        script_read(&at.chart, &at.drawn);
        for (int side = 0; side < 2; side++) {
            for (int cause = 0; cause < LS_CAUSES; cause++) {
                const ls_moments *m[2] = {&at.breakdown.side[0].cause[cause], &at.breakdown.side[1].cause[cause]};
                double own_Nm = is_roll ? m[side]->roll_Nm : m[side]->yaw_Nm;
                double most_Nm = is_roll ? fmax(fabs(m[0]->roll_Nm), fabs(m[1]->roll_Nm))
                                         : fmax(fabs(m[0]->yaw_Nm), fabs(m[1]->yaw_Nm));
                char label[64];
                if (most_Nm < 1.0) {
                    continue;
                }
                check_close("moment's bar, of its largest",
                            (at.drawn.bar_to[bar] - at.drawn.bar_from[bar]) / most_Nm, own_Nm / most_Nm, 1e-6, WHY,
                            FROM);
                snprintf(label, sizeof label, "%.0f|",
                         fabs(own_Nm) < 0.5 ? 0.0 : fabs(own_Nm)); /* a sign of its own */
                assert_words(&at.drawn, label);
                bar++;
            }
        }
        assert_int_equal(bar, at.drawn.bars);
    }
}

/* ---- the blade's triangles ---- */

static ls_prop_study study;
static ls_prop_flight flight;

static const script_arrow *panel_arrow(double x, double y, double dx, double dy)
{
    return arrow_near(&at.drawn, x, y, dx, dy);
}

/* One panel: the air comes at phi above the plane; lift across it, drag along it; both as pull and as what
 * resists. */
static void panel_is_to_scale(const ls_prop_point *point, double x, double y)
{
    const double air_length = 6.4, force_length = 4.2;
    double phi = point->phi75_rad, c = cos(phi), s = sin(phi), cl = point->cl75, cd = point->cd75;
    double k = force_length / hypot(cl, cd), pull = k * (cl * c - cd * s), resist = k * (cl * s + cd * c);
    char label[96];
    const script_arrow *air = panel_arrow(x + air_length * c, y + air_length * s, -c, -s);
    check_close("air's arrow ends at the blade, off", hypot(air->x1 - x, air->y1 - y), 0.0, 1e-6, WHY, FROM);
    check_close("air's angle above the plane, deg", atan2(air->y0 - y, air->x0 - x) / DEG, phi / DEG, 1e-5, WHY,
                FROM);
    check_close("air's arrow, length", arrow_length(air), air_length, 1e-6, WHY, FROM);
    if (fabs(air_length * c) > 0.3) {
        const script_arrow *turning = panel_arrow(air->x0, air->y0, -c, 0.0);
        check_close("rotation's part of the air", arrow_length(turning), fabs(air_length * c), 1e-6, WHY,
                    "triangle of velocities");
    }
    if (fabs(k * cl) > 0.15) {
        const script_arrow *lift = panel_arrow(x, y, -cl * s, cl * c);
        check_close("lift's arrow over that of both forces", arrow_length(lift) / force_length,
                    fabs(cl) / hypot(cl, cd), 1e-6, WHY, FROM);
        check_close("lift stands across the air: product of the arrows",
                    (lift->x1 - x) * (air->x0 - x) + (lift->y1 - y) * (air->y0 - y), 0.0, 1e-6, WHY, FROM);
    }
    if (fabs(pull) > 0.15) {
        const script_arrow *pulling = panel_arrow(x, y, 0.0, pull);
        check_close("pull's arrow", pulling->y1 - y, pull, 1e-6, WHY, "cl cos(phi) - cd sin(phi)");
    }
    if (fabs(resist) > 0.15) {
        const script_arrow *resisting = panel_arrow(x, y, -resist, 0.0);
        check_close("resistance's arrow", resisting->x1 - x, -resist, 1e-6, WHY, "cl sin(phi) + cd cos(phi)");
    }
    check_close("attack is blade angle less air's, deg", point->alpha75_rad / DEG, (point->pitch_rad - phi) / DEG,
                1e-6, "round-off", "definition");
    snprintf(label, sizeof label, "blade %.1f, air %.1f, attack %.1f deg", point->pitch_rad / DEG, phi / DEG,
             point->alpha75_rad / DEG);
    assert_words(&at.drawn, label);
}

static void triangles_are_to_scale(void **state)
{
    (void)state;
    static const ls_phase phases[] = {LS_PHASE_RUN_UP,  LS_PHASE_CLIMB, LS_PHASE_CRUISE,
                                      LS_PHASE_FORWARD, LS_PHASE_AFT,   LS_PHASE_FEATHERED};
    for (int n = 0; n < FLEET; n++) {
        ls_condition condition;
        ls_error error = {0};
        fleet_read(fleet[n], &at.aircraft);
        ls_condition_takeoff(&at.aircraft, &condition);
        assert_int_equal(ls_prop_study_make(&at.aircraft, &condition, 0, &study, &error), LS_OK);
        ls_prop_flight_solve(&study, &flight);
        ls_prop_view view = {.study = &study, .flight = &flight, .units = LS_UNITS_US};
        ls_chart_of_triangles(&at.chart, &view, 0);
        script_read(&at.chart, &at.drawn);
        for (int i = 0; i < 6; i++) { /* three across, cells of 17.6 by 14.4, the blade in each at (0.43, 9.4) */
            panel_is_to_scale(&flight.phase[phases[i]], (i % 3 + 0.43) * 17.6, -(i / 3) * 14.4 - 9.4);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(from_above_is_to_scale),
        cmocka_unit_test(from_behind_is_to_scale),
        cmocka_unit_test(moments_are_the_bars),
        cmocka_unit_test(triangles_are_to_scale),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}

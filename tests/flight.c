#include "flight.h"

#include "check.h"
#include "liveside/airspeed.h"
#include "liveside/motion.h"
#include "liveside/vmc.h"

#include <math.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)

flight_noise flight_usual_noise(void)
{
    return (flight_noise){.speed_m_s = 0.8 * KT,
                          .bank_rad = 0.4 * DEG,
                          .rudder_rad = 0.4 * DEG,
                          .aileron_rad = 0.3 * DEG,
                          .beta_rad = 0.4 * DEG,
                          .force_N = 15.0,
                          .map_share = 0.003,
                          .heading_rad = 0.5 * DEG,
                          .height_m = 3.0};
}

void flight_hide(const ls_aircraft *aircraft, ls_aircraft *truth)
{
    *truth = *aircraft;
    truth->derivatives.side_rudder *= 0.94;
    truth->derivatives.roll_rudder *= 0.94;
    truth->derivatives.yaw_rudder *= 0.94;
    truth->derivatives.yaw_sideslip *= 1.10;
}

/* The condition of the i-th point. */
static void plan(const ls_aircraft *truth, int i, ls_condition *condition)
{
    static const double height_ft[] = {4000, 6000, 8000}, share[] = {0.15, 0.55, 0.95},
                        bank_deg[] = {5.0, 2.5, 0.0};
    ls_condition_takeoff(truth, condition);
    ls_condition_fail_as(truth, 1u, LS_WINDMILLING, condition);
    int kind = i / 3; /* the three of a kind differ in speed alone */
    condition->altitude_m = height_ft[kind % 3] * 0.3048;
    condition->isa_offset_K = 4.0 - kind;
    condition->mass_kg =
        truth->mass.minimum_kg + share[(kind / 3 + kind) % 3] * (truth->mass.maximum_kg - truth->mass.minimum_kg);
    condition->cg_aft_m = kind % 2 == 0 ? truth->cg.forward_m : truth->cg.aft_m;
    condition->bank_rad = bank_deg[(kind / 2) % 3] * DEG;
    condition->pedal_limit_N = INFINITY; /* the pilot is strong: the rudder's travel ends a point */
}

static void note(const ls_model *model, const ls_trim *trim, double cas_m_s, ls_point *point)
{
    const ls_condition *condition = &model->condition;
    const ls_powerplant *powerplant = &model->powerplant[0];
    point->altitude_m = condition->altitude_m;
    point->T_K = model->air.T_K;
    point->mass_kg = condition->mass_kg;
    point->cg_aft_m = condition->cg_aft_m;
    point->cg_right_m = condition->cg_right_m;
    point->bank_rad = condition->bank_rad;
    point->cas_m_s = cas_m_s;
    if (trim != NULL) {
        point->beta_rad = trim->beta_rad;
        point->rudder_rad = trim->rudder_rad;
        point->aileron_rad = trim->aileron_rad;
        point->force_N = trim->pedal_force_N;
    }
    point->map_Pa = powerplant->data->engine.map_Pa * model->air.p_Pa / powerplant->reference_p_Pa;
    snprintf(point->failed, sizeof point->failed, "left");
    snprintf(point->propeller, sizeof point->propeller, "windmilling");
}

void flight_truth(const ls_aircraft *truth, ls_point point[FLIGHT_POINTS])
{
    static const double faster[] = {1.0, 1.12, 1.40};
    for (int i = 0; i < FLIGHT_POINTS; i++) {
        ls_condition condition;
        ls_model model;
        ls_vmc vmc;
        ls_trim trim;
        ls_airspeed speed;
        plan(truth, i, &condition);
        ls_point_clear(&point[i]);
        assert_int_equal(ls_model_make(truth, &condition, &model, NULL), LS_OK);
        assert_int_equal(ls_vmc_at(&model, condition.bank_rad, &vmc, NULL), LS_OK);
        assert_int_equal(vmc.control_limit, LS_LIMIT_RUDDER);
        double V_m_s = faster[i % 3] * vmc.control_V_m_s;
        assert_int_equal(ls_trim_solve(&model, V_m_s, condition.bank_rad, &trim, NULL), LS_OK);
        assert_int_equal(ls_airspeed_from_tas(&model.air, V_m_s, &speed, NULL), LS_OK);
        note(&model, &trim, speed.CAS_m_s, &point[i]);
        snprintf(point[i].id, sizeof point[i].id, "%d%c", i / 3 + 1, 'A' + i % 3);
        snprintf(point[i].ended, sizeof point[i].ended, i % 3 == 0 ? "rudder" : "steady");
    }
}

static double positive(double value)
{
    return value > 0.0 ? value : 0.0;
}

/* What a sudden failure at a speed does to the truth. */
static void fail_at(const ls_model *model, double V_m_s, ls_point *point)
{
    ls_motion_request request;
    ls_motion motion;
    ls_condition running = model->condition;
    ls_condition_fail_as(model->aircraft, 0, LS_RUNNING, &running);
    ls_motion_usual(model->aircraft, &running, 1u, V_m_s, &request);
    request.bank_rad = model->condition.bank_rad;
    request.delay_s = FLIGHT_DELAY_S;
    request.hold = LS_HOLD_EXACT;
    request.duration_s = 90.0;
    request.until_straight = 1;
    assert_int_equal(ls_motion_run(model->aircraft, &request, &motion, NULL), LS_OK);
    point->heading_change_rad = motion.heading_most_rad;
    point->height_loss_m = positive(-motion.climbed_least_m);
    snprintf(point->ended, sizeof point->ended, motion.end == LS_MOTION_STRAIGHT ? "regained" : "lost");
    ls_motion_free(&motion);
}

void flight_sudden(const ls_aircraft *truth, ls_point point[FLIGHT_DYNAMIC])
{
    for (int i = 0; i < FLIGHT_DYNAMIC; i++) {
        ls_condition condition;
        ls_model model;
        ls_vmc vmc;
        ls_airspeed speed;
        plan(truth, 0, &condition);
        condition.mass_kg = truth->mass.minimum_kg + 0.95 * (truth->mass.maximum_kg - truth->mass.minimum_kg);
        condition.cg_aft_m = truth->cg.aft_m;
        ls_point_clear(&point[i]);
        assert_int_equal(ls_model_make(truth, &condition, &model, NULL), LS_OK);
        assert_int_equal(ls_vmc_at(&model, condition.bank_rad, &vmc, NULL), LS_OK);
        double cas_m_s = vmc.control_cas_m_s + (22.0 - 3.0 * i) * KT;
        assert_int_equal(ls_airspeed_from_cas(&model.air, cas_m_s, &speed, NULL), LS_OK);
        note(&model, NULL, cas_m_s, &point[i]);
        snprintf(point[i].id, sizeof point[i].id, "D%d", i + 1);
        snprintf(point[i].test, sizeof point[i].test, "dynamic");
        fail_at(&model, speed.TAS_m_s, &point[i]);
    }
}

/* A standard normal number by the polar method. */
static double normal(uint64_t *seed)
{
    for (;;) {
        double x = check_random(seed, -1.0, 1.0), y = check_random(seed, -1.0, 1.0), s = x * x + y * y;
        if (s > 0.0 && s < 1.0) {
            return x * sqrt(-2.0 * log(s) / s);
        }
    }
}

void flight_read(const ls_point *truth, int count, const flight_noise *noise, uint64_t *seed, ls_point *reading)
{
    for (int i = 0; i < count; i++) {
        ls_point *point = &reading[i];
        *point = truth[i];
        point->cas_m_s += noise->speed_m_s * normal(seed);
        point->bank_rad += noise->bank_rad * normal(seed);
        point->rudder_rad += noise->rudder_rad * normal(seed);
        point->aileron_rad += noise->aileron_rad * normal(seed);
        point->beta_rad += noise->beta_rad * normal(seed);
        point->force_N += noise->force_N * normal(seed);
        point->map_Pa *= 1.0 + noise->map_share * normal(seed);
        if (strcmp(point->test, "dynamic") == 0) {
            point->heading_change_rad += noise->heading_rad * normal(seed);
            point->height_loss_m = positive(point->height_loss_m + noise->height_m * normal(seed));
        }
    }
}

static void write_cell(FILE *out, const ls_point *point, const ls_point_column *column)
{
    const char *at = (const char *)point + column->offset;
    if (column->dimension == LS_POINT_TEXT) {
        fputs(at, out);
        return;
    }
    double si = *(const double *)(const void *)at;
    const ls_unit *unit = column->us_unit != NULL
                              ? ls_unit_find((ls_dimension)column->dimension, column->us_unit)
                              : ls_unit_preferred(LS_UNITS_US, (ls_dimension)column->dimension);
    if (!isnan(si)) {
        fprintf(out, "%.*f", column->decimals + 1, ls_unit_from_si(unit, si));
    }
}

void flight_write(FILE *out, const ls_point *point, int count)
{
    static const char *const keys[] = {
        "id",  "test",     "failed", "propeller", "altitude", "oat", "weight",         "cg",          "bank",
        "cas", "sideslip", "rudder", "aileron",   "force",    "map", "heading_change", "height_loss", "ended"};
    int columns;
    const ls_point_column *table = ls_point_columns(&columns);
    for (int row = -1; row < count; row++) {
        for (size_t k = 0; k < sizeof keys / sizeof keys[0]; k++) {
            const ls_point_column *column = table;
            while (strcmp(column->key, keys[k]) != 0) {
                column++;
            }
            fputs(k == 0 ? "" : ",", out);
            if (row >= 0) {
                write_cell(out, &point[row], column);
                continue;
            }
            const char *unit = column->dimension == LS_POINT_TEXT ? ""
                               : column->us_unit != NULL
                                   ? column->us_unit
                                   : ls_unit_preferred(LS_UNITS_US, (ls_dimension)column->dimension)->name;
            fprintf(out, "%s%s%s", column->key, unit[0] != '\0' ? "_" : "", unit);
        }
        fputc('\n', out);
    }
}

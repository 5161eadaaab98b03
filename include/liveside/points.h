/* Flight-test points: the columns that a test card is printed with and that a reduction reads. Signs are those of
 * the data: bank right wing down, sideslip wind from the right, rudder trailing edge left, aileron rolling right
 * and force on the right pedal are positive. */
#ifndef LIVESIDE_POINTS_H
#define LIVESIDE_POINTS_H

#include "liveside/status.h"
#include "liveside/units.h"

enum { LS_POINT_ID = 24, LS_POINT_WORD = 32, LS_POINT_REMARK = 96, LS_POINTS_MAX = 250000 };

/* What the file does not say is NaN, or an empty word. */
typedef struct {
    int line; /* in the file, from 1 */
    char id[LS_POINT_ID];
    char test[LS_POINT_WORD];      /* static, dynamic */
    char failed[LS_POINT_WORD];    /* engine by name, left, right, or several with + between */
    char propeller[LS_POINT_WORD]; /* windmilling, feathered, stopped, ...; empty: as it goes by itself */
    char flap[LS_POINT_WORD];
    char gear[LS_POINT_WORD];  /* up, down */
    char ended[LS_POINT_WORD]; /* rudder, force, aileron, stall, steady; dynamic: regained, lost */
    char remark[LS_POINT_REMARK];
    double altitude_m, T_K; /* pressure altitude, outside air */
    double mass_kg, cg_aft_m, cg_right_m;
    double bank_rad;
    double ias_m_s, correction_m_s, cas_m_s; /* CAS, or IAS and the correction that makes CAS of it */
    double beta_rad, heading_rate_rad_s;
    double rudder_rad, aileron_rad, force_N;
    double n_rev_s, map_Pa, torque_Nm;        /* of a live propeller's shaft; full throttle when none is given */
    double heading_change_rad, height_loss_m; /* dynamic */
    double expected_cas_m_s, expected_beta_rad, expected_rudder_rad, expected_aileron_rad, expected_force_N;
    double stall_margin_m_s;
    double expected_heading_change_rad, expected_height_loss_m;
} ls_point;

typedef struct {
    const char *key;     /* in the header, with the unit after it: altitude_ft */
    int dimension;       /* of a number, or LS_POINT_TEXT */
    int needed;          /* LS_POINT_ALWAYS: refused when the column is missing, or a cell of it is empty */
    double low, high;    /* SI */
    const char *choices; /* of a word; null: any */
    const char *us_unit; /* of the us system if not the usual one, or null */
    size_t offset, size; /* in ls_point */
    int decimals;        /* on a card, in the us system's unit */
    const char *meaning;
} ls_point_column;

enum { LS_POINT_TEXT = -1 };

enum { LS_POINT_MAYBE, LS_POINT_ALWAYS, LS_POINT_COLUMN /* the column must be there; a cell may be empty */ };

LS_API const ls_point_column *ls_point_columns(int *count);

typedef struct {
    ls_point *point;
    int count;
} ls_points;

/* A point of which nothing is known. */
LS_API void ls_point_clear(ls_point *point);

#endif

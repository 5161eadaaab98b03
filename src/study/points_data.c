/* The columns of a file of test points, in their order on a card. */
#include "study/points_data.h"

#include <stddef.h>

#define DEG (3.14159265358979323846 / 180.0)

#define WORD(key, needed, choices, member, meaning)                                  \
    {                                                                                \
        key, LS_POINT_TEXT, needed, 0, 0, choices, NULL, offsetof(ls_point, member), \
            sizeof(((ls_point *)0)->member), 0, meaning                              \
    }
#define VALUE(key, dimension, needed, low, high, unit, member, decimals, meaning)                           \
    {                                                                                                       \
        key, LS_DIM_##dimension, needed, low, high, NULL, unit, offsetof(ls_point, member), sizeof(double), \
            decimals, meaning                                                                               \
    }

const ls_point_column ls_point_rows[] = {
    WORD("id", 1, NULL, id, "name or number of the point"),
    WORD("test", 0, "static|dynamic", test, "static when left empty"),
    WORD("failed", 1, NULL, failed, "failed engine: its name, left, right; several with + between"),
    WORD("propeller", 0, "windmilling|feathered|stopped|partial|lever-aft|idle|zero-thrust", propeller,
         "of the failed engine; empty: as it goes by itself"),
    WORD("flap", 0, NULL, flap, "name of the setting; empty: take-off"),
    WORD("gear", 0, "up|down", gear, "up when left empty"),
    VALUE("altitude", ALTITUDE, 1, -2000, 20000, NULL, altitude_m, 0, "pressure altitude"),
    VALUE("oat", TEMPERATURE, 1, 150, 350, NULL, T_K, 1, "outside air temperature"),
    VALUE("weight", MASS, 1, 50, 600e3, NULL, mass_kg, 0, "at the point"),
    VALUE("cg", LENGTH, 0, -50, 100, "in", cg_aft_m, 1, "aft of the datum; empty: the file's reference"),
    VALUE("cg_lateral", LENGTH, 0, -2, 2, "in", cg_right_m, 1, "right positive; empty: 0"),
    VALUE("bank", ANGLE, 1, -45 * DEG, 45 * DEG, NULL, bank_rad, 1, "right wing down positive"),
    VALUE("ias", SPEED, 0, 5, 200, NULL, ias_m_s, 1, "indicated airspeed"),
    VALUE("correction", SPEED, 0, -30, 30, NULL, correction_m_s, 1, "to be added to it for CAS"),
    VALUE("cas", SPEED, 0, 5, 200, NULL, cas_m_s, 1, "calibrated airspeed, instead of these two"),
    VALUE("sideslip", ANGLE, 0, -45 * DEG, 45 * DEG, NULL, beta_rad, 1, "wind from the right positive"),
    VALUE("heading_rate", ANGULAR_RATE, 0, -1, 1, NULL, heading_rate_rad_s, 2, "to the right positive"),
    VALUE("rudder", ANGLE, 0, -60 * DEG, 60 * DEG, NULL, rudder_rad, 1, "trailing edge left positive"),
    VALUE("aileron", ANGLE, 0, -60 * DEG, 60 * DEG, NULL, aileron_rad, 1,
          "rolling right positive, mean of the two"),
    VALUE("force", FORCE, 0, -3000, 3000, NULL, force_N, 0, "on the right pedal positive"),
    VALUE("rpm", ROTATION, 0, 1, 100, NULL, n_rev_s, 0, "of a live propeller"),
    VALUE("map", PRESSURE, 0, 10e3, 300e3, NULL, map_Pa, 1, "manifold pressure of a live engine"),
    VALUE("torque", TORQUE, 0, 1, 1e5, NULL, torque_Nm, 0, "instead: of a live propeller's shaft"),
    VALUE("heading_change", ANGLE, 0, -180 * DEG, 180 * DEG, NULL, heading_change_rad, 0, "dynamic: the largest"),
    VALUE("height_loss", ALTITUDE, 0, -1000, 3000, NULL, height_loss_m, 0, "dynamic"),
    WORD("ended", LS_POINT_COLUMN, "rudder|force|aileron|stall|steady|regained|lost|abort", ended,
         "what ended the point: steady, above every limit; or the limit; dynamic: regained or lost; empty: not "
         "flown"),
    WORD("remark", 0, NULL, remark, "anything"),
    VALUE("expected_cas", SPEED, 0, 5, 200, NULL, expected_cas_m_s, 1, "of the card"),
    VALUE("expected_sideslip", ANGLE, 0, -3, 3, NULL, expected_beta_rad, 1, "of the card"),
    VALUE("expected_rudder", ANGLE, 0, -3, 3, NULL, expected_rudder_rad, 1, "of the card"),
    VALUE("expected_aileron", ANGLE, 0, -3, 3, NULL, expected_aileron_rad, 1, "of the card"),
    VALUE("expected_force", FORCE, 0, -1e5, 1e5, NULL, expected_force_N, 0, "of the card"),
    VALUE("stall_margin", SPEED, 0, -200, 200, NULL, stall_margin_m_s, 1,
          "of the card: above the stall as trimmed"),
    VALUE("expected_heading_change", ANGLE, 0, -7, 7, NULL, expected_heading_change_rad, 0,
          "of the card, dynamic"),
    VALUE("expected_height_loss", ALTITUDE, 0, -1000, 3000, NULL, expected_height_loss_m, 0,
          "of the card, dynamic"),
};

const int ls_point_row_count = (int)(sizeof ls_point_rows / sizeof ls_point_rows[0]);

/* The listed forces of a trim grouped by cause, and as rudder. */
#include "study/breakdown_parts.h"

#include <math.h>

static const double little_thrust = 1e-3; /* of the weight */

/* Yaw per rudder and roll per aileron in body axes (as in the trim), and the aileron's yaw. By hand: at incidence
 * the stability z axis leans back, so a yaw about it shows in body axes as cos a of yaw and -sin a of roll. */
typedef struct {
    double yaw_rudder, roll_aileron, yaw_aileron;
} control_power;

static control_power powers(const ls_model *model, double alpha_rad)
{
    const ls_derivatives *d = &model->derivatives;
    double cos_a = model->stability_axes ? cos(alpha_rad) : 1.0,
           sin_a = model->stability_axes ? sin(alpha_rad) : 0.0;
    return (control_power){d->roll_rudder * sin_a + d->yaw_rudder * cos_a,
                           d->roll_aileron * cos_a - d->yaw_aileron * sin_a,
                           d->roll_aileron * sin_a + d->yaw_aileron * cos_a};
}

/* Toward the dead side: the live side's thrust pulls the nose the other way, so the sign is minus its own. */
static int toward_dead(const ls_breakdown_side *side)
{
    return side->live_side < 0 ? +1 : -1;
}

static void finish(const ls_model *model, const ls_breakdown_side *side, ls_moments *moments)
{
    double q_Pa = 0.5 * model->air.rho_kg_m3 * side->trim.V_m_s * side->trim.V_m_s;
    double qSb_Nm = q_Pa * model->S_m2 * model->b_m;
    control_power power = powers(model, side->trim.alpha_rad);
    moments->yaw = moments->yaw_Nm / qSb_Nm;
    moments->roll = moments->roll_Nm / qSb_Nm;
    moments->yaw_rudder_rad = -moments->yaw / power.yaw_rudder;
    moments->roll_rudder_rad = moments->roll / power.roll_aileron * power.yaw_aileron / power.yaw_rudder;
}

/* Where the yaw of an engine's thrust and P-factor puts its thrust. By hand: thrust T at y to the right yaws -y T.
 */
static void set_arms(const ls_model *model, ls_breakdown_side *side)
{
    for (int i = 0; i < model->units; i++) {
        double yaw_Nm = 0.0, thrust_N = 0.0;
        for (int k = 0; k < side->balance.count; k++) {
            const ls_part *part = &side->balance.part[k];
            int counts = part->engine == i && (part->cause == LS_CAUSE_THRUST || part->cause == LS_CAUSE_P_FACTOR);
            yaw_Nm += counts ? part->moment_Nm[2] : 0.0;
            thrust_N += counts ? part->force_N[0] : 0.0;
        }
        side->arm_m[i] = thrust_N > little_thrust * model->weight_N ? -yaw_Nm / thrust_N : NAN;
    }
}

void ls_breakdown_moments(const ls_model *model, ls_breakdown_side *side)
{
    int sign = toward_dead(side);
    for (int k = 0; k < side->balance.count; k++) {
        const ls_part *part = &side->balance.part[k];
        side->cause[part->cause].yaw_Nm += sign * part->moment_Nm[2];
        side->cause[part->cause].roll_Nm += sign * part->moment_Nm[0];
    }
    side->sum.yaw_Nm = sign * side->balance.sum.moment_Nm[2];
    side->sum.roll_Nm = sign * side->balance.sum.moment_Nm[0];
    for (int cause = 0; cause < LS_CAUSES; cause++) {
        finish(model, side, &side->cause[cause]);
    }
    finish(model, side, &side->sum);
    set_arms(model, side);
}

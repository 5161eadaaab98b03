/* The listed forces of a trim grouped by cause, and as rudder. */
#include "study/breakdown_parts.h"

#include <math.h>

static const double little_thrust = 1e-3; /* of the weight */

/* A moment about the axes that the derivatives refer to. By hand: x_s = x_b cos a + z_b sin a, z_s = -x_b sin a +
 * z_b cos a; a roll to the right about a nose that points above the path is partly a yaw to the left about it. */
static void turn(const ls_model *model, double alpha_rad, const double body_Nm[3], double *roll_Nm, double *yaw_Nm)
{
    double cos_a = model->stability_axes ? cos(alpha_rad) : 1.0,
           sin_a = model->stability_axes ? sin(alpha_rad) : 0.0;
    *roll_Nm = body_Nm[0] * cos_a + body_Nm[2] * sin_a;
    *yaw_Nm = body_Nm[2] * cos_a - body_Nm[0] * sin_a;
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
    const ls_derivatives *d = &model->derivatives;
    moments->yaw = moments->yaw_Nm / qSb_Nm;
    moments->roll = moments->roll_Nm / qSb_Nm;
    moments->yaw_rudder_rad = -moments->yaw / d->yaw_rudder;
    moments->roll_rudder_rad = moments->roll / d->roll_aileron * d->yaw_aileron / d->yaw_rudder;
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
    double roll_Nm, yaw_Nm;
    for (int k = 0; k < side->balance.count; k++) {
        const ls_part *part = &side->balance.part[k];
        turn(model, side->trim.alpha_rad, part->moment_Nm, &roll_Nm, &yaw_Nm);
        side->cause[part->cause].yaw_Nm += sign * yaw_Nm;
        side->cause[part->cause].roll_Nm += sign * roll_Nm;
    }
    turn(model, side->trim.alpha_rad, side->balance.sum.moment_Nm, &roll_Nm, &yaw_Nm);
    side->sum.yaw_Nm = sign * yaw_Nm;
    side->sum.roll_Nm = sign * roll_Nm;
    for (int cause = 0; cause < LS_CAUSES; cause++) {
        finish(model, side, &side->cause[cause]);
    }
    finish(model, side, &side->sum);
    set_arms(model, side);
}

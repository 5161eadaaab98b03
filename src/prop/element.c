#include "element.h"

#include <math.h>
#include <stddef.h>

#include "polar.h"

static const double pi = 3.14159265358979323846;

/* Everything at one trial inflow angle. */
typedef struct {
    double s, c; /* of phi */
    double cn, ct;
    double loss;
    double mass;   /* mass flux through the annulus over rho W, as the momentum balance has it */
    double mX, mY; /* that times Vx/W and Vy/W */
} trial;

/* Prandtl's factor; beyond 32 in the exponent it is 1 to round-off. */
static double prandtl(double reach, double s)
{
    return reach > 0.0 && reach < 32.0 * s ? 2.0 / pi * acos(exp(-reach / s)) : 1.0;
}

/* The axial momentum balance: mass and mX for normal load kn = sigma' cn/(4 F) at s = sin phi.
 *
 * Momentum theory is X = s - kn/|s|. A windmilling annulus beyond a = -0.4 follows Buhl's
 * CT = 8/9 - 4/9 a' + 14/9 a'^2 (F = 1, load over F), a' = -a, which with s = (1 - a') X has the
 * closed form X = (sqrt(8 K - 4/3 s^2) + 4/3 s)/2, K = -kn, smooth through s = 0; with flow driven
 * back through the disc (s < 0) the momentum theory of reversed thrust takes over where its load is
 * the greater. The swirl is carried by the mass flux that the thrust implies, K/(X - s), which is |s|
 * in momentum theory and stays finite at s = 0. */
static void balance_axial(double s, double kn, double *mass, double *mX)
{
    double depth = -kn, flow = fabs(s);
    if (depth <= 0.0 || (s > 0.0 && depth <= 2.0 / 3.0 * s * s)) {
        *mass = flow;
        *mX = s * flow - kn;
        return;
    }
    double inside = 8.0 * depth - 4.0 / 3.0 * s * s;
    double X = inside > 0.0 ? 0.5 * (sqrt(inside) + 4.0 / 3.0 * s) : 0.0;
    if (s < 0.0 && (inside <= 0.0 || depth / flow - flow < X)) {
        X = depth / flow - flow;
    }
    *mass = depth / (X - s);
    *mX = *mass * X;
}

static trial try_angle(const ls_element *element, const element_flow *flow, double phi)
{
    trial t = {.s = sin(phi), .c = cos(phi)};
    double cl, cd;
    polar_at(&element->polar, flow->theta_rad - phi, flow->mach, flow->gain, &cl, &cd);
    t.cn = cl * t.c - cd * t.s;
    t.ct = cl * t.s + cd * t.c;
    double steep = fmax(fabs(t.s), 1e-9);
    t.loss = fmax(prandtl(element->tip_reach, steep) * prandtl(element->hub_reach, steep), 1e-6);
    double load = element->sigma / (4.0 * t.loss);
    balance_axial(t.s, load * t.cn, &t.mass, &t.mX);
    t.mY = t.mass * t.c + load * t.ct;
    return t;
}

static double speed_of(const element_flow *flow)
{
    return sqrt(flow->Vx * flow->Vx + flow->Vy * flow->Vy);
}

static double residual(const trial *t, const element_flow *flow)
{
    return flow->Vy * t->mX - flow->Vx * t->mY;
}

/* Where the root would be were the lift straight: the residual's own slope sin phi + sigma' a/4 and
 * the curvature of the momentum term, scaled by the speed. */
static double first_step(const ls_element *element, const element_flow *flow, double phi, double f)
{
    double speed = speed_of(flow), load = fabs(f) / speed;
    double slope = fabs(sin(phi)) + 0.25 * element->sigma * element->polar.slope_rad;
    double step = 2.0 * load / (slope + sqrt(slope * slope + 4.0 * load));
    return fmin(fmax(1.2 * step, 1e-6), 0.4);
}

typedef struct {
    double a, fa, b, fb; /* the residual changes sign between a and b; b is the newer */
    trial at_b;
} bracket;

/* Walks from the angle without induction toward the root; phi stays within (-pi/2, pi). */
static bool find_bracket(const ls_element *element, const element_flow *flow, bracket *in)
{
    in->b = atan2(flow->Vx, flow->Vy);
    in->at_b = try_angle(element, flow, in->b);
    in->fb = residual(&in->at_b, flow);
    double step = first_step(element, flow, in->b, in->fb), way = in->fb < 0.0 ? 1.0 : -1.0;
    double limit = way > 0.0 ? pi : -0.5 * pi;
    while (way * (limit - in->b) > 1e-9) {
        in->a = in->b;
        in->fa = in->fb;
        in->b = way * (limit - in->b) > step ? in->b + way * step : limit;
        in->at_b = try_angle(element, flow, in->b);
        in->fb = residual(&in->at_b, flow);
        if ((in->fa < 0.0) != (in->fb < 0.0)) {
            return true;
        }
        step = fmin(1.6 * step, 0.2);
    }
    return false;
}

/* A search ends when it would next move by less, rad. */
static const double last_step = 1e-10;

/* Regula falsi with Anderson and Bjorck's weighting, halving now and then lest it stall;
 * false when it does not end. */
static bool narrow(const ls_element *element, const element_flow *flow, bracket *in)
{
    for (int i = 0; i < 100; i++) {
        double step = -in->fb * (in->b - in->a) / (in->fb - in->fa);
        if (in->fb == 0.0 || fabs(step) < last_step) {
            return true;
        }
        double x = i % 8 == 7 ? 0.5 * (in->a + in->b) : in->b + step;
        in->at_b = try_angle(element, flow, x);
        double fx = residual(&in->at_b, flow);
        if ((fx < 0.0) != (in->fb < 0.0)) {
            in->a = in->b;
            in->fa = in->fb;
        } else {
            double weight = 1.0 - fx / in->fb;
            in->fa *= weight > 0.0 ? weight : 0.5;
        }
        in->b = x;
        in->fb = fx;
    }
    return false;
}

/* Loads per unit density at a trial angle. The velocity triangle fixes W by both its sides. */
static void loads_of(const ls_element *element, const element_flow *flow, const trial *t, element_loads *loads)
{
    double square_W =
        t->mass * t->mass * (flow->Vx * flow->Vx + flow->Vy * flow->Vy) / (t->mX * t->mX + t->mY * t->mY);
    double W = sqrt(square_W);
    loads->thrust = 0.5 * square_W * element->c_m * t->cn;
    loads->tangential = 0.5 * square_W * element->c_m * t->ct;
    loads->u = W * t->s - flow->Vx;
    loads->v = flow->Vy - W * t->c;
    loads->loss = t->loss;
    loads->residual = residual(t, flow);
}

/* The secant method from a neighbouring solution; false when it strays or dawdles. */
static bool follow(const ls_element *element, const element_flow *flow, const element_start *start, bracket *in)
{
    in->b = start->phi_rad;
    in->at_b = try_angle(element, flow, in->b);
    in->fb = residual(&in->at_b, flow);
    double step = -in->fb / start->slope;
    for (int i = 0; i < 8 && fabs(step) < 0.1; i++) {
        if (fabs(step) < last_step) {
            return true;
        }
        in->a = in->b;
        in->fa = in->fb;
        in->b += step;
        in->at_b = try_angle(element, flow, in->b);
        in->fb = residual(&in->at_b, flow);
        step = in->fb == 0.0 ? 0.0 : -in->fb * (in->b - in->a) / (in->fb - in->fa);
    }
    return false;
}

bool element_solve(const ls_element *element, const element_flow *flow, const element_start *start,
                   element_loads *loads)
{
    *loads = (element_loads){.loss = 1.0};
    if (flow->Vx == 0.0 && flow->Vy == 0.0) {
        loads->phi_rad = 0.5 * pi;
        return true;
    }
    bracket in;
    if (start == NULL || start->slope == 0.0 || !follow(element, flow, start, &in)) {
        if (!find_bracket(element, flow, &in) || !narrow(element, flow, &in)) {
            return false;
        }
    }
    loads->phi_rad = in.b;
    loads_of(element, flow, &in.at_b, loads);
    return flow->Vx * in.at_b.mX + flow->Vy * in.at_b.mY > 0.0;
}

void element_loads_frozen(const ls_element *element, const element_flow *flow, double u, double v,
                          element_loads *loads)
{
    double Ux = flow->Vx + u, Uy = flow->Vy - v;
    double square_W = Ux * Ux + Uy * Uy, phi = atan2(Ux, Uy);
    double s = sin(phi), c = cos(phi), cl, cd;
    polar_at(&element->polar, flow->theta_rad - phi, flow->mach, flow->gain, &cl, &cd);
    *loads = (element_loads){
        .phi_rad = phi,
        .thrust = 0.5 * square_W * element->c_m * (cl * c - cd * s),
        .tangential = 0.5 * square_W * element->c_m * (cl * s + cd * c),
        .u = u,
        .v = v,
        .loss = 1.0,
    };
}

static void displaced(const ls_element *element, const element_flow *flow, double phi, element_loads *loads)
{
    trial t = try_angle(element, flow, phi);
    loads_of(element, flow, &t, loads);
}

static void differentiate_frozen(const ls_element *element, const element_flow *flow, const element_flow *faster,
                                 const element_loads *at, double dV, element_slopes *slopes)
{
    element_loads more, here;
    element_loads_frozen(element, faster, at->u, at->v, &more);
    element_loads_frozen(element, flow, at->u, at->v, &here);
    slopes->thrust = (more.thrust - here.thrust) / dV;
    slopes->tangential = (more.tangential - here.tangential) / dV;
}

void element_differentiate(const ls_element *element, const element_flow *flow, const element_loads *at,
                           double dmach_dVy, bool frozen, element_slopes *slopes)
{
    const double dphi = 1e-7;
    double dV = 1e-7 * speed_of(flow);
    element_flow faster = *flow;
    faster.Vy += dV;
    faster.mach += dmach_dVy * dV;
    faster.gain = polar_gain(faster.mach);
    element_loads turned, sped;
    displaced(element, flow, at->phi_rad + dphi, &turned);
    slopes->residual = (turned.residual - at->residual) / dphi;
    if (frozen) {
        differentiate_frozen(element, flow, &faster, at, dV, slopes);
        return;
    }
    /* The root moves so that the residual stays zero: dphi/dVy = -(df/dVy)/(df/dphi). */
    displaced(element, &faster, at->phi_rad, &sped);
    double turn = -(sped.residual - at->residual) / dV / slopes->residual;
    /* Stalled ends of the blade, where Prandtl's factor is small, can come near a fold of the balance, and the
     * rate would have no bound. Of a blade that induces nothing it is at most 1 over the speed. */
    double bound = 1.25 / speed_of(flow);
    turn = fmin(fmax(turn, -bound), bound);
    slopes->thrust = (sped.thrust - at->thrust) / dV + turn * (turned.thrust - at->thrust) / dphi;
    slopes->tangential =
        (sped.tangential - at->tangential) / dV + turn * (turned.tangential - at->tangential) / dphi;
}

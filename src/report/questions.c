#include "report/questions.h"

#include "report/explain_parts.h"
#include "report/vmca_parts.h"

#include <math.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)

/* Short names for what nearly every answer prints. */
typedef struct {
    char a[LS_PHRASE], b[LS_PHRASE], c[LS_PHRASE], d[LS_PHRASE], e[LS_PHRASE];
} words;

static const char *cas(const ls_questions_view *view, const ls_vmca_point *point, char out[LS_PHRASE])
{
    return ls_phrase_cas(point->vmc.cas_m_s, view->units, view->uncertain, out);
}

static const char *difference(const ls_questions_view *view, double m_s, char out[LS_PHRASE])
{
    return ls_phrase_by(fabs(m_s), view->units, view->uncertain, out);
}

static const char *value(const ls_questions_view *view, double si, ls_dimension dimension, const char *us_unit,
                         int decimals, char out[LS_PHRASE])
{
    return ls_phrase_value(si, dimension, us_unit, view->units, decimals, out);
}

static const char *rate(const ls_questions_view *view, double m_s, char out[LS_PHRASE])
{
    return value(view, m_s, LS_DIM_CLIMB_RATE, NULL, 0, out);
}

static const char *name_of(const ls_questions_view *view, unsigned failed, char out[LS_PHRASE])
{
    return ls_phrase_set(view->aircraft, failed, out);
}

static int is_control(const ls_vmca_point *point)
{
    return ls_vmca_has_speed(point) && point->vmc.kind == LS_VMC_CONTROL;
}

/* ---- recall ---- */

static int critical(const ls_questions_view *view, ls_question *q)
{
    const ls_vmca *vmca = view->lesson->vmca;
    const ls_vmca_set *set = view->lesson->set;
    words w;
    if (set == NULL || ls_vmca_singles(vmca) < 2) {
        return 0;
    }
    int index = vmca->critical[LS_ROTATION_FILE];
    double by_m_s = vmca->critical_by_m_s[LS_ROTATION_FILE];
    snprintf(q->ask, sizeof q->ask,
             "Which engine of this aeroplane is the critical one, and what does that mean?");
    if (index >= 0 && isfinite(by_m_s)) {
        snprintf(q->answer, sizeof q->answer,
                 "The %.60s engine, by %.40s. Its failure asks for the higher minimum control speed: it leaves "
                 "the aeroplane worse off than the failure of any other single engine.",
                 name_of(view, vmca->set[index].failed, w.a), difference(view, by_m_s, w.b));
    } else if (index >= 0) {
        snprintf(q->answer, sizeof q->answer,
                 "The %.60s engine: with it dead control is lost before the wing stalls; with any other engine "
                 "dead the wing stalls first.",
                 name_of(view, vmca->set[index].failed, w.a));
    } else {
        snprintf(q->answer, sizeof q->answer,
                 "None is. The critical engine is the one whose failure asks for the highest minimum control "
                 "speed, and here %s",
                 index == LS_CRITICAL_STALL     ? "the wing stalls before control is lost, whichever engine fails."
                 : index == LS_CRITICAL_NEITHER ? "either failure asks for the same speed."
                                                : "at least one of the failures has no answer to compare.");
    }
    return 1;
}

static int speed_and_limit(const ls_questions_view *view, ls_question *q)
{
    const ls_vmca_set *set = view->lesson->set;
    words w;
    if (set == NULL || !ls_vmca_has_speed(&set->answer)) {
        return 0;
    }
    snprintf(q->ask, sizeof q->ask,
             "With the %.60s engine dead, what is the slowest speed at which this aeroplane can be held straight, "
             "at the least favourable loading, and what ends it?",
             name_of(view, set->failed, w.a));
    size_t used =
        (size_t)snprintf(q->answer, sizeof q->answer, "%.40s, %.80s, at %.40s. ", cas(view, &set->answer, w.a),
                         ls_phrase_bank(set->answer.bank_rad, set->live_side,
                                        ls_vmca_live_engines(view->aircraft, set->failed), w.b),
                         value(view, set->condition.mass_kg, LS_DIM_MASS, NULL, 0, w.c));
    if (is_control(&set->answer)) {
        snprintf(q->answer + used, sizeof q->answer - used,
                 "The limit that is met: %.40s. The wing stalls at %.40s.", ls_phrase_limit(&set->answer),
                 ls_phrase_cas(set->answer.vmc.stall_cas_m_s, view->units, view->uncertain, w.d));
    } else {
        snprintf(q->answer + used, sizeof q->answer - used, "No control ends it: there the wing stalls.");
    }
    return 1;
}

/* ---- understand ---- */

static int bank(const ls_questions_view *view, ls_question *q)
{
    const ls_vmca_set *set = view->lesson->set;
    words w;
    if (set == NULL || set->live_side == 0 || !ls_vmca_has_speed(&set->level) || !is_control(&set->at_5_deg)) {
        return 0;
    }
    double more_m_s = set->level.vmc.cas_m_s - set->at_5_deg.vmc.cas_m_s;
    snprintf(
        q->ask, sizeof q->ask,
        "How much higher is the minimum control speed with the wings level than with 5 degrees of bank toward "
        "the live engine, and where does the difference come from?");
    snprintf(
        q->answer, sizeof q->answer,
        "%.40s level, %.40s at 5 degrees: %.40s more. Banked, a part of the weight, W sin 5 deg = %.40s, "
        "pulls toward the live engine. It does the work that the sideslip did with the wings level, so that the "
        "fin no longer yaws the nose toward the dead engine and the rudder has less to hold.",
        cas(view, &set->level, w.a), cas(view, &set->at_5_deg, w.b), difference(view, more_m_s, w.c),
        value(view, set->condition.mass_kg * LS_G0_M_S2 * sin(5 * DEG), LS_DIM_FORCE, NULL, 0, w.d));
    return 1;
}

static int stall_or_control(const ls_questions_view *view, ls_question *q)
{
    const ls_vmca_set *set = view->lesson->set;
    const ls_vmc *vmc = set != NULL ? &set->answer.vmc : NULL;
    words w;
    if (set == NULL || !ls_vmca_has_speed(&set->answer) || !isfinite(vmc->control_cas_m_s) ||
        !isfinite(vmc->stall_cas_m_s)) {
        return 0;
    }
    double above_m_s = vmc->control_cas_m_s - vmc->stall_cas_m_s;
    snprintf(
        q->ask, sizeof q->ask,
        "The aeroplane slows down at sea level with the %.60s engine dead and full power on the rest. Which "
        "comes first, the loss of control or the stall, and how far apart are they? What changes with height?",
        name_of(view, set->failed, w.a));
    size_t used = (size_t)snprintf(
        q->answer, sizeof q->answer,
        "%s comes first: control ends at %.40s and the wing stalls at %.40s, %.40s apart. ",
        above_m_s > 0 ? "The loss of control" : "The stall",
        ls_phrase_cas(vmc->control_cas_m_s, view->units, view->uncertain, w.a),
        ls_phrase_cas(vmc->stall_cas_m_s, view->units, view->uncertain, w.b), difference(view, above_m_s, w.c));
    if (isfinite(view->lesson->meeting_altitude_m)) {
        snprintf(
            q->answer + used, sizeof q->answer - used,
            "As the power falls with height the first comes down to the second: they meet near %.40s. At that "
            "height the aeroplane stalls and swings at once, which is how a spin begins.",
            value(view, round(view->lesson->meeting_altitude_m / 30.48) * 30.48, LS_DIM_ALTITUDE, NULL, -1, w.d));
    } else {
        snprintf(q->answer + used, sizeof q->answer - used,
                 "The stall stays at its calibrated speed at every height; below this aeroplane's ceiling the two "
                 "do not meet.");
    }
    return 1;
}

/* ---- apply ---- */

static int climb_lost(const ls_questions_view *view, ls_question *q)
{
    const ls_lesson_climb *climb = &view->lesson->climb;
    words w;
    if (!climb->has) {
        return 0;
    }
    int engines = view->aircraft->engines, is_jet = !ls_explain_has_propellers(view->aircraft);
    snprintf(
        q->ask, sizeof q->ask,
        "With all %d engines the aeroplane climbs at %.40s, with one of them dead at %.40s. What share of the "
        "climb is lost, and why is that not the share of the %s?",
        engines, rate(view, climb->all_m_s, w.a), rate(view, climb->one_m_s, w.b), is_jet ? "thrust" : "power");
    snprintf(q->answer, sizeof q->answer,
             "(%.40s - %.40s) / %.40s = %.0f %%, where %.0f %% of the %s is gone. Climb comes from what is left "
             "of it when drag has had its part. Drag takes as much as before, and more: the dead engine%s, "
             "the rudder held over and any sideslip.",
             w.a, w.b, w.a, 100.0 * climb->lost, 100.0 * climb->power_lost, is_jet ? "thrust" : "power",
             is_jet ? " itself" : "'s propeller");
    return 1;
}

static int climb_out(const ls_questions_view *view, ls_question *q)
{
    const ls_lesson_climb *climb = &view->lesson->climb;
    const double up_m = view->units == LS_UNITS_SI ? 300.0 : 304.8;
    words w;
    if (!climb->has || climb->one_m_s < 0.05) {
        return 0;
    }
    double time_s = up_m / climb->one_m_s, along_m = up_m / climb->gradient;
    snprintf(q->ask, sizeof q->ask,
             "One engine is dead%s, the speed %.40s, the air still and at sea level. How "
             "steep is the climb, and how long and how far does %.40s of height take?",
             ls_explain_has_propellers(view->aircraft) ? ", its propeller at its least drag" : "",
             ls_phrase_cas(climb->cas_m_s, view->units, view->uncertain, w.a),
             value(view, up_m, LS_DIM_ALTITUDE, NULL, -1, w.b));
    snprintf(
        q->answer, sizeof q->answer,
        "The rate over the speed, both in the same unit: %.40s over %.40s is %.1f %%. %.40s at that rate take "
        "%.1f minutes, and at that gradient %.1f nautical miles.",
        rate(view, climb->one_m_s, w.c), ls_phrase_speed(climb->V_m_s, view->units, view->uncertain, w.d),
        100.0 * climb->gradient, w.b, time_s / 60.0, along_m / 1852.0);
    return 1;
}

static int turning_moment(const ls_questions_view *view, ls_question *q)
{
    const ls_lesson_yaw *yaw = &view->lesson->yaw;
    words w;
    if (!yaw->has) {
        return 0;
    }
    snprintf(
        q->ask, sizeof q->ask,
        "At its minimum control speed the running engines of this aeroplane pull %.40s, on balance %.40s to one "
        "side of the centre of gravity. How strongly does that yaw it? What side force must the rudder give for "
        "it alone, if it acts %.40s behind the centre of gravity?",
        value(view, yaw->thrust_N, LS_DIM_FORCE, NULL, 1, w.a),
        value(view, yaw->arm_m, LS_DIM_LENGTH, "ft", 3, w.b),
        value(view, yaw->rudder_arm_m, LS_DIM_LENGTH, "ft", 1, w.c));
    snprintf(
        q->answer, sizeof q->answer,
        "Force times arm: %.40s x %.40s = %.40s. For it alone the rudder must give that over its own arm, %.40s. "
        "It gives %.40s in the full account, where the dead engine's drag, the propellers, the sideslip and the "
        "ailerons have their say as well.",
        w.a, w.b, value(view, yaw->thrust_Nm, LS_DIM_TORQUE, NULL, 0, w.d),
        value(view, yaw->thrust_Nm / yaw->rudder_arm_m, LS_DIM_FORCE, NULL, 0, w.e),
        value(view, yaw->rudder_N, LS_DIM_FORCE, NULL, 0, w.c));
    return 1;
}

static int windmilling(const ls_questions_view *view, ls_question *q)
{
    const ls_lesson_climb *climb = &view->lesson->climb;
    words w;
    if (!climb->has || !climb->has_windmilling) {
        return 0;
    }
    snprintf(q->ask, sizeof q->ask,
             "At %.40s with one engine dead the aeroplane climbs at %.40s, and at %.40s if that engine windmills. "
             "It weighs %.40s. How much more does it drag then?",
             ls_phrase_speed(climb->V_m_s, view->units, view->uncertain, w.a), rate(view, climb->one_m_s, w.b),
             rate(view, climb->windmilling_m_s, w.c), value(view, climb->weight_N, LS_DIM_FORCE, NULL, 0, w.d));
    snprintf(q->answer, sizeof q->answer,
             "The climb lost is %.40s. Over the speed, in the same unit, that is %.4f: so much of the weight is "
             "hanging on the dead engine. %.4f x %.40s = %.40s.",
             rate(view, climb->one_m_s - climb->windmilling_m_s, w.b),
             (climb->one_m_s - climb->windmilling_m_s) / climb->V_m_s,
             (climb->one_m_s - climb->windmilling_m_s) / climb->V_m_s, w.d,
             value(view, climb->drag_N, LS_DIM_FORCE, NULL, 1, w.e));
    return 1;
}

/* ---- reason ---- */

static int less_rudder(const ls_questions_view *view, ls_question *q)
{
    const ls_vmca_set *set = view->lesson->set;
    const ls_vmca_point *less = &view->lesson->less_rudder;
    words w;
    if (set == NULL || !is_control(&set->answer) || set->answer.vmc.limit != LS_LIMIT_RUDDER ||
        !is_control(less)) {
        return 0;
    }
    double by_hand_m_s = set->answer.vmc.cas_m_s / sqrt(LS_LESSON_RUDDER);
    snprintf(q->ask, sizeof q->ask,
             "An instructor blocks the rudder at %.0f %% of its travel. If the yaw to be held did not change with "
             "speed, what would the minimum control speed become? Why is the full answer, %.40s, another one?",
             100.0 * LS_LESSON_RUDDER, cas(view, less, w.a));
    snprintf(
        q->answer, sizeof q->answer,
        "What a rudder gives grows with its deflection and with the square of the speed. With %.2f of the "
        "deflection the speed must be 1/sqrt(%.2f) = %.3f times as high: %.40s. In truth an engine pulls less "
        "when it goes faster, a rudder answers less evenly near its stop, and part of the yaw is held by bank "
        "and ailerons: %.40s off.",
        LS_LESSON_RUDDER, LS_LESSON_RUDDER, 1.0 / sqrt(LS_LESSON_RUDDER),
        ls_phrase_cas(by_hand_m_s, view->units, view->uncertain, w.b),
        difference(view, less->vmc.cas_m_s - by_hand_m_s, w.c));
    return 1;
}

static int higher(const ls_questions_view *view, ls_question *q)
{
    const ls_vmca_set *set = view->lesson->set;
    const ls_vmca_point *high = &view->lesson->high;
    const ls_lesson_climb *climb = &view->lesson->climb;
    words w;
    if (set == NULL || !is_control(&set->answer) || !ls_vmca_has_speed(high) || !climb->has || !climb->has_high) {
        return 0;
    }
    snprintf(q->ask, sizeof q->ask,
             "At a pressure altitude of %.40s the minimum control speed is %.40s, at sea level %.40s. Is this "
             "aeroplane then safer with one engine the higher it flies?",
             value(view, LS_LESSON_HIGH_M, LS_DIM_ALTITUDE, NULL, -1, w.a), cas(view, high, w.b),
             cas(view, &set->answer, w.c));
    snprintf(
        q->answer, sizeof q->answer,
        "No. The speed comes down by %.40s because the live engine%s give%s less there, and with that goes the "
        "climb: from %.40s at sea level to %.40s. %s",
        difference(view, set->answer.vmc.cas_m_s - high->vmc.cas_m_s, w.d),
        ls_vmca_live_engines(view->aircraft, set->failed) > 1 ? "s" : "",
        ls_vmca_live_engines(view->aircraft, set->failed) > 1 ? "" : "s", rate(view, climb->one_m_s, w.b),
        rate(view, climb->high_one_m_s, w.c),
        high->vmc.kind == LS_VMC_STALLS_FIRST
            ? "Up there the stall comes before the loss of control: the warning of a slow swing is gone."
            : "And the margin between the loss of control and the stall shrinks: the stall stays where it was.");
    return 1;
}

static int heavier(const ls_questions_view *view, ls_question *q)
{
    const ls_vmca_set *set = view->lesson->set;
    words w;
    if (set == NULL || set->live_side == 0 || !is_control(&set->answer) || !is_control(&set->heaviest) ||
        set->condition.mass_kg > view->aircraft->mass.maximum_kg - 1.0) {
        return 0;
    }
    double light_N = set->condition.mass_kg * LS_G0_M_S2, heavy_N = view->aircraft->mass.maximum_kg * LS_G0_M_S2;
    double slope = sin(fabs(set->answer.bank_rad));
    snprintf(
        q->ask, sizeof q->ask,
        "At the same bank the minimum control speed is %.40s at %.40s and %.40s at %.40s. Why does weight help "
        "here, and should it be taken aboard for that?",
        cas(view, &set->answer, w.a), value(view, set->condition.mass_kg, LS_DIM_MASS, NULL, 0, w.b),
        cas(view, &set->heaviest, w.c), value(view, view->aircraft->mass.maximum_kg, LS_DIM_MASS, NULL, 0, w.d));
    snprintf(
        q->answer, sizeof q->answer,
        "Banked by %.1f degrees the weight pulls toward the live side with W sin(bank): %.40s light, %.40s heavy. "
        "The heavier aeroplane needs less sideslip and less rudder. It is no reason to load it: each pound also "
        "costs climb and raises the stall, and with the wings level the help is gone.",
        fabs(set->answer.bank_rad) / DEG, value(view, light_N * slope, LS_DIM_FORCE, NULL, 0, w.a),
        value(view, heavy_N * slope, LS_DIM_FORCE, NULL, 0, w.b));
    return 1;
}

static int which_end(const ls_questions_view *view, ls_question *q)
{
    const ls_lesson_climb *climb = &view->lesson->climb;
    const ls_vmca_set *set = view->lesson->set;
    words w;
    if (!climb->has || set == NULL || !is_control(&set->answer)) {
        return 0;
    }
    snprintf(
        q->ask, sizeof q->ask,
        "One engine has failed in the climb, the speed has fallen below the minimum control speed of %.40s and "
        "the nose swings although the pilot has given all there is to give. Which two things bring it back, why "
        "both, and "
        "what do they cost?",
        cas(view, &set->answer, w.a));
    snprintf(
        q->answer, sizeof q->answer,
        "Less power on the live side, and the nose down. The first takes away what turns it, at once; the second "
        "brings back the speed that the rudder needs: at %.40s, the best speed of the climb, it gives %.1f times "
        "as much for the same deflection as at %.40s. Both cost height. More rudder or more aileron cannot "
        "help: the one is used up, and the other yaws the wrong way and brings the stall of a wing nearer.",
        ls_phrase_cas(climb->cas_m_s, view->units, view->uncertain, w.b),
        pow(climb->cas_m_s / set->answer.vmc.cas_m_s, 2.0), w.a);
    return 1;
}

int ls_questions_make(const ls_questions_view *view, ls_question question[LS_QUESTIONS])
{
    static const struct {
        const char *level;
        int (*make)(const ls_questions_view *view, ls_question *question);
    } row[LS_QUESTIONS] = {
        {"recall", critical},    {"recall", speed_and_limit},
        {"understand", bank},    {"understand", stall_or_control},
        {"apply", climb_lost},   {"apply", climb_out},
        {"apply", windmilling},  {"apply", turning_moment},
        {"reason", higher},      {"reason", heavier},
        {"reason", less_rudder}, {"reason", which_end},
    };
    int count = 0;
    for (int i = 0; i < LS_QUESTIONS; i++) {
        question[count].level = row[i].level;
        count += row[i].make(view, &question[count]);
    }
    return count;
}

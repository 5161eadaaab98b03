/* Which engine is critical and why, in sentences that are put together from the numbers. */
#include "report/explain_parts.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#define DEG (3.14159265358979323846 / 180.0)
#define KT  (1852.0 / 3600.0)

enum { SENTENCE = 640 };

static const double shown_m_s = 0.05 * KT; /* less would be printed as 0.0 */

/* A sentence while it grows. */
typedef struct {
    char text[SENTENCE];
    size_t used;
} sentence;

static void put(sentence *s, const char *format, ...) LS_PRINTF(2, 3);

static void put(sentence *s, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    if (s->used < SENTENCE) {
        int length = vsnprintf(s->text + s->used, SENTENCE - s->used, format, arguments);
        s->used += length > 0 ? (size_t)length : 0;
    }
    va_end(arguments);
}

/* What an effect adds to the difference between the critical failure and the other one. */
typedef struct {
    int effect;
    double m_s;
} share;

static int by_size(share *shares, const ls_breakdown *breakdown, int worse)
{
    int count = 0;
    for (int i = 0; i < LS_EFFECTS; i++) {
        double m_s = breakdown->side[worse].worth[i].m_s - breakdown->side[!worse].worth[i].m_s;
        if (!(fabs(m_s) >= shown_m_s)) {
            continue;
        }
        int at = count++;
        for (; at > 0 && fabs(shares[at - 1].m_s) < fabs(m_s); at--) {
            shares[at] = shares[at - 1];
        }
        shares[at] = (share){i, m_s};
    }
    return count;
}

/* ", swirl on the fin 0.5 kt and torque reaction 0.2 kt": those of one sign. */
static void put_shares(sentence *s, const ls_explain_view *view, const share *shares, int count, int sign)
{
    int left = 0, named = 0;
    for (int i = 0; i < count; i++) {
        left += sign * shares[i].m_s > 0.0;
    }
    for (int i = 0; i < count; i++) {
        char speed[LS_PHRASE];
        if (sign * shares[i].m_s > 0.0) {
            left--;
            put(s, "%s%s %s",
                named++ == 0 ? ""
                : left == 0  ? " and "
                             : ", ",
                ls_effect_rows[shares[i].effect].name,
                ls_phrase_speed(fabs(shares[i].m_s), view->units, 0, speed));
        }
    }
}

static int first_engine(unsigned set)
{
    int first = 0;
    while (!(set >> first & 1u)) {
        first++;
    }
    return first;
}

/* How far from the centre of gravity the thrust acts that one failure leaves opposite; NaN where there is none. */
static double live_arm(const ls_breakdown *breakdown, int side)
{
    int live = first_engine(breakdown->side[!side].failed);
    return fabs(breakdown->side[side].arm_m[live]);
}

static void put_arms(sentence *s, const ls_explain_view *view, int worse)
{
    char far[LS_PHRASE], near[LS_PHRASE], worse_name[LS_PHRASE], other_name[LS_PHRASE];
    double far_m = live_arm(view->breakdown, worse), near_m = live_arm(view->breakdown, !worse);
    if (isfinite(far_m) && isfinite(near_m)) {
        put(s,
            " The down-going blades pull harder, so the thrust of the %s engine acts %s from the centre of "
            "gravity "
            "and that of the %s engine %s.",
            ls_explain_name(view, !worse, other_name),
            ls_phrase_value(far_m, LS_DIM_LENGTH, "ft", view->units, 2, far),
            ls_explain_name(view, worse, worse_name),
            ls_phrase_value(near_m, LS_DIM_LENGTH, "ft", view->units, 2, near));
    }
}

/* Why the largest share comes about. */
static void put_reason(sentence *s, const ls_explain_view *view, const share *largest, int worse)
{
    char worse_name[LS_PHRASE], other_name[LS_PHRASE];
    ls_explain_name(view, worse, worse_name);
    ls_explain_name(view, !worse, other_name);
    switch (ls_effect_rows[largest->effect].bit) {
    case LS_EFFECT_P_FACTOR:
        put_arms(s, view, worse);
        break;
    case LS_EFFECT_SWIRL:
        put(s,
            " The slipstream of the %s engine turns across the fin and helps when the %s one is dead; that of the "
            "%s engine misses it.",
            worse_name, other_name, other_name);
        break;
    case LS_EFFECT_SLIPSTREAM:
        put(s, " The slipstream's lift acts farther out on the %s wing.", other_name);
        break;
    case LS_EFFECT_TORQUE:
        put(s, " The torque reaction rolls toward a dead %s engine and away from a dead %s one.", worse_name,
            other_name);
        break;
    default:
        break;
    }
}

static void say_critical(ls_report *report, const ls_explain_view *view, int worse)
{
    sentence s = {.used = 0};
    share shares[LS_EFFECTS];
    char name[LS_PHRASE], other[LS_PHRASE], high[LS_PHRASE], low[LS_PHRASE];
    const ls_breakdown *b = view->breakdown;
    int count = by_size(shares, b, worse);
    ls_phrase_cas(b->side[worse].vmc.vmc.cas_m_s, view->units, view->uncertain, high);
    ls_phrase_cas(b->side[!worse].vmc.vmc.cas_m_s, view->units, view->uncertain, low);
    put(&s, "It takes %s to hold it straight with the %s engine dead and %s with the %s one dead.", high,
        ls_explain_name(view, worse, name), low, ls_explain_name(view, !worse, other));
    if (count > 0 && shares[0].m_s > 0.0) {
        put(&s, " The difference comes from ");
        put_shares(&s, view, shares, count, +1);
        int opposed = 0;
        for (int i = 0; i < count; i++) {
            opposed += shares[i].m_s < 0.0;
        }
        if (opposed > 0) {
            put(&s, "; the other way: ");
            put_shares(&s, view, shares, count, -1);
        }
        put(&s, ".");
        put_reason(&s, view, &shares[0], worse);
    }
    ls_report_line(report, "%s", s.text);
}

static void say_neither(ls_report *report, const ls_explain_view *view)
{
    share shares[LS_EFFECTS];
    sentence s = {.used = 0};
    char speed[LS_PHRASE];
    const ls_breakdown *b = view->breakdown;
    int count = by_size(shares, b, 0);
    ls_phrase_cas(b->side[0].vmc.vmc.cas_m_s, view->units, view->uncertain, speed);
    if (!ls_explain_has_propellers(view->aircraft)) {
        put(&s,
            "It takes %s whichever engine is dead: a jet turns the air neither way, so each failure is the "
            "other's "
            "mirror image.",
            speed);
    } else if (count == 0) {
        put(&s,
            "It takes %s whichever engine is dead: the propellers are each other's mirror image, so each effect "
            "does the same to both failures.",
            speed);
    } else {
        put(&s, "It takes %s whichever engine is dead: what the rotation does against one failure (", speed);
        put_shares(&s, view, shares, count, +1);
        put(&s, ") it does for it elsewhere (");
        put_shares(&s, view, shares, count, -1);
        put(&s, ").");
    }
    ls_report_line(report, "%s", s.text);
}

static int is_in_line(const ls_breakdown *b)
{
    return b->side[0].live_side == 0 && b->side[1].live_side == 0;
}

static void put_in_line(sentence *s, const ls_explain_view *view)
{
    char speed[LS_PHRASE];
    const ls_breakdown *b = view->breakdown;
    double most_rad = fmax(fabs(b->side[0].trim.rudder_rad), fabs(b->side[1].trim.rudder_rad));
    put(s,
        "Both thrust lines lie in the plane of symmetry, so the thrust that is left has no arm to turn the nose "
        "with, and there is no minimum control speed above the stall.");
    if (b->side[0].status == LS_OK && b->side[1].status == LS_OK) {
        put(s, " What P-factor, torque and slipstream leave asks for at most %.1f deg of rudder at %s.",
            most_rad / DEG, ls_phrase_cas(b->cas_m_s, view->units, view->uncertain, speed));
    }
}

/* For which failure less is left to climb on, where that is what remains to choose by. */
static void put_climbs(sentence *s, const ls_explain_view *view)
{
    const ls_attitudes *first = &view->breakdown->side[0].attitudes, *second = &view->breakdown->side[1].attitudes;
    char name[2][LS_PHRASE], rate[2][LS_PHRASE];
    if (first->status != LS_OK || second->status != LS_OK) {
        return;
    }
    for (int i = 0; i < 2; i++) {
        ls_phrase_value(view->breakdown->side[i].attitudes.best.point.rate_m_s, LS_DIM_CLIMB_RATE, NULL,
                        view->units, 0, rate[i]);
    }
    put(s, " The best climb left is %s with the %s engine dead and %s with the %s one.", rate[0],
        ls_explain_name(view, 0, name[0]), rate[1], ls_explain_name(view, 1, name[1]));
}

static void say_stall(ls_report *report, const ls_explain_view *view)
{
    sentence s = {.used = 0};
    char speed[2][LS_PHRASE], name[2][LS_PHRASE];
    const ls_breakdown *b = view->breakdown;
    if (is_in_line(b)) {
        put_in_line(&s, view);
        put_climbs(&s, view);
    } else {
        put(&s, "The wing stalls before control is lost, whichever engine is dead, so no engine is critical for "
                "control here.");
        if (isfinite(b->side[0].vmc.vmc.control_cas_m_s) && isfinite(b->side[1].vmc.vmc.control_cas_m_s)) {
            for (int i = 0; i < 2; i++) {
                ls_phrase_cas(b->side[i].vmc.vmc.control_cas_m_s, view->units, view->uncertain, speed[i]);
                ls_explain_name(view, i, name[i]);
            }
            put(&s,
                " Below it the controls would last to %s with the %s engine dead and to %s with the %s "
                "one.",
                speed[0], name[0], speed[1], name[1]);
        }
    }
    ls_report_line(report, "%s", s.text);
}

/* What the other ways of turning would change. */
static void say_rotation(ls_report *report, const ls_explain_view *view)
{
    const ls_breakdown *b = view->breakdown;
    const ls_vmca_point *in = &b->side[0].by_rotation[LS_ROTATION_TOPS_INBOARD];
    const ls_vmca_point *out = &b->side[0].by_rotation[LS_ROTATION_TOPS_OUTBOARD];
    char low[LS_PHRASE], high[LS_PHRASE];
    int is_both_neither = b->critical[LS_ROTATION_TOPS_INBOARD] == LS_CRITICAL_NEITHER &&
                          b->critical[LS_ROTATION_TOPS_OUTBOARD] == LS_CRITICAL_NEITHER;
    if (is_both_neither && !is_in_line(b) && ls_explain_has_propellers(view->aircraft)) {
        ls_report_line(
            report,
            "Turning tops inboard, neither engine would be critical (%s); tops outboard, either would be "
            "(%s).",
            ls_phrase_cas(in->vmc.cas_m_s, view->units, view->uncertain, low),
            ls_phrase_cas(out->vmc.cas_m_s, view->units, view->uncertain, high));
    }
}

static void say_answer(ls_report *report, const ls_explain_view *view)
{
    const ls_breakdown *b = view->breakdown;
    const char *aeroplane = view->aircraft->name;
    char name[LS_PHRASE], by[LS_PHRASE];
    int critical = b->critical[LS_ROTATION_FILE];
    if (b->sides < 2) {
        ls_report_answer(report, "%s: the %s failed, which has no counterpart on the other side.", aeroplane,
                         ls_explain_name(view, 0, name));
    } else if (critical >= 0) {
        ls_report_answer(report, "%s: the %s engine is critical, by %s.", aeroplane,
                         ls_explain_name(view, critical, name),
                         ls_phrase_by(b->critical_by_m_s[LS_ROTATION_FILE], view->units, view->uncertain, by));
    } else if (critical == LS_CRITICAL_NEITHER) {
        ls_report_answer(report, "%s: neither engine is critical (within 0.1 kt).", aeroplane);
    } else if (critical == LS_CRITICAL_STALL) {
        ls_report_answer(report, "%s: neither engine is critical for control: the wing stalls first.", aeroplane);
    } else {
        ls_report_answer(report, "%s: which engine is critical is not known: an answer is missing.", aeroplane);
    }
}

void ls_explain_say(ls_report *report, const ls_explain_view *view)
{
    int critical = view->breakdown->critical[LS_ROTATION_FILE];
    say_answer(report, view);
    ls_report_line(report, "%s", "");
    if (view->breakdown->sides < 2) {
        return;
    }
    if (critical >= 0) {
        say_critical(report, view, critical);
    } else if (critical == LS_CRITICAL_NEITHER) {
        say_neither(report, view);
    } else if (critical == LS_CRITICAL_STALL) {
        say_stall(report, view);
    }
    if (view->breakdown->side[0].condition.rotation == LS_ROTATION_FILE) {
        say_rotation(report, view);
    }
    ls_report_line(report, "%s", "");
}

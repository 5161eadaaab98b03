/* The numbers behind the questions of a lesson, worked out for one aeroplane: each from the models, beside what a
 * student can work out by hand from the others. */
#ifndef LIVESIDE_LESSON_H
#define LIVESIDE_LESSON_H

#include "liveside/performance.h"
#include "liveside/vmca.h"

#define LS_LESSON_RUDDER 0.8    /* part of the rudder's travel that is left to a student */
#define LS_LESSON_HIGH_M 1524.0 /* 5000 ft: the height beside sea level */

/* The yaw at the minimum control speed: sums over the engines, body axes, toward the dead side positive. */
typedef struct {
    int has;
    double thrust_N;     /* of the running engines */
    double asymmetry_Nm; /* of thrust and of the dead engines' drag */
    double thrust_Nm;
    double arm_m;    /* of the thrust: thrust_Nm over thrust_N */
    double rudder_N; /* side force, positive */
    double rudder_Nm;
    double rudder_arm_m;
} ls_lesson_yaw;

/* The climb with the worst engine failed, at the speed of its best rate. */
typedef struct {
    int has;                 /* an answer on every engine and with one failed */
    double all_m_s, one_m_s; /* rates */
    double lost;             /* share */
    double power_lost;       /* share of the rated power, of jets thrust */
    double V_m_s, cas_m_s;   /* true, calibrated */
    double gradient;         /* tangent of the climb angle */
    double weight_N;
    int has_windmilling; /* the same speed and weight, its propeller windmilling instead */
    double windmilling_m_s;
    double drag_N; /* what the windmilling propeller drags more: the loss over the speed, times weight */
    int has_high;
    double high_one_m_s; /* best rate at LS_LESSON_HIGH_M */
} ls_lesson_climb;

typedef struct {
    const ls_vmca *vmca;
    const ls_vmca_set *set; /* that the answer is about; null when there is none */
    ls_lesson_yaw yaw;
    ls_lesson_climb climb;
    ls_vmca_point less_rudder; /* the answer with LS_LESSON_RUDDER of the travel */
    ls_vmca_point high;        /* the answer at LS_LESSON_HIGH_M */
    double meeting_altitude_m; /* where the minimum control speed meets the stall; NaN when they do not */
} ls_lesson;

/* Works out a lesson.
 * Given: aircraft, prepared; vmca with the index of the set that its answer is about, or null; performance, or
 * null. Returned: lesson, which refers to vmca; a part without an answer says so. */
LS_API void ls_lesson_solve(const ls_aircraft *aircraft, const ls_vmca *vmca, int set,
                            const ls_performance_request *request, const ls_performance *performance,
                            ls_lesson *lesson);

#endif

/* The main answer: minimum control speed for each failed engine, bank, propeller state and handedness. */
#ifndef LIVESIDE_VMCA_H
#define LIVESIDE_VMCA_H

#include "liveside/vmc.h"

enum { LS_VMCA_SETS = LS_MAX_ENGINES + 2, LS_VMCA_BANKS = 11, LS_VMCA_STATES = 4 };

/* The states of by_state, in order: windmilling, the same with the lever aft, feathered, stopped. */
LS_API extern const ls_engine_state ls_vmca_states[LS_VMCA_STATES];

/* Instead of a critical engine: none within 0.1 kt; an answer is missing; the wing stalls first whichever fails.
 */
enum { LS_CRITICAL_NEITHER = -1, LS_CRITICAL_UNKNOWN = -2, LS_CRITICAL_STALL = -3 };

/* One solved point; when status is not LS_OK the rest says nothing. */
typedef struct {
    ls_status status;
    char reason[96]; /* why there is no answer */
    double bank_rad; /* toward the live side positive */
    ls_vmc vmc;
} ls_vmca_point;

/* Everything for one set of failed engines. */
typedef struct {
    unsigned failed;
    int live_side;          /* ls_live_side */
    ls_condition condition; /* of the answer: the most unfavourable weight and centre of gravity */
    ls_vmca_point answer;   /* at the bank asked for, or the one of the lowest speed within the limit (wings level
                               where no side is the live one) */
    ls_vmca_point heaviest; /* the same at maximum mass */
    ls_vmca_point level;    /* wings level, same weight and centre of gravity (as all that follow) */
    ls_vmca_point at_5_deg; /* toward the live side */
    ls_vmca_point lowest;   /* within the bank limit */
    ls_vmca_point zero_sideslip;
    int banks;
    ls_vmca_point by_bank[LS_VMCA_BANKS];
    ls_vmca_point by_state[LS_VMCA_STATES]; /* ls_vmca_states, at the answer's bank */
    ls_vmca_point by_rotation[LS_ROTATIONS];
} ls_vmca_set;

typedef struct {
    int sets;
    ls_vmca_set set[LS_VMCA_SETS];
    int critical[LS_ROTATIONS]; /* index of the set of one engine with the highest speed, or LS_CRITICAL_ */
    double critical_by_m_s[LS_ROTATIONS]; /* CAS above the highest of the other single engines; infinite when none
                                             of those loses control before the stall */
    int critical_state[LS_VMCA_STATES];   /* the same for each state of by_state */
    double critical_state_by_m_s[LS_VMCA_STATES];
} ls_vmca;

/* What is asked. */
typedef struct {
    ls_condition condition; /* every engine running; the rest as wanted */
    unsigned search;        /* LS_SEARCH_ bits: what may vary to the most unfavourable */
    int sets;
    unsigned set[LS_VMCA_SETS];
    int state; /* ls_engine_state of the failed engines, or -1: as each goes by itself */
    int bank_given;
    double bank_rad; /* toward the live side positive */
} ls_vmca_request;

/* Answers a request.
 * Returned: vmca, filled as far as it goes: a point without an answer carries its status and reason.
 * Status: LS_OK; LS_NO_STATE or LS_NOT_CONVERGED when not one set has an answer. */
LS_API ls_status ls_vmca_solve(const ls_aircraft *aircraft, const ls_vmca_request *request, ls_vmca *vmca,
                               ls_error *error);

/* Each engine off the centreline in turn (each engine at all when none is), then for four and more engines the two
 * outermost of each side together. Returned: how many sets. */
LS_API int ls_vmca_sets(const ls_aircraft *aircraft, unsigned set[LS_VMCA_SETS]);

/* One point of the grid.
 * Given: condition, all but the bank; live_side as ls_live_side; bank_rad toward it (to the right where it is 0).
 * Returned: point, always filled, with its own status and reason. */
LS_API void ls_vmca_point_solve(const ls_aircraft *aircraft, const ls_condition *condition, int live_side,
                                double bank_rad, ls_vmca_point *point);

/* How two answers compare, the worse one to have first: a limit exceeded at the top of the range, then control
 * lost before the stall, then the stall first, then no limit met, then no answer; of two alike the higher speed.
 * Returned: by how much the first is worse, m/s of true airspeed; infinite where they are not alike. */
LS_API double ls_vmca_worse_by(const ls_vmca_point *one, const ls_vmca_point *other);

/* How many engines a set holds. */
LS_API int ls_set_size(unsigned set);

/* The pressure altitude at which the minimum control speed of a condition at a bank meets the stall in the trimmed
 * condition, searched from the condition's altitude up.
 * Returned: altitude_m. Status: LS_NO_STATE when they do not meet below the given top (reason in error). */
LS_API ls_status ls_vmca_meeting_altitude(const ls_aircraft *aircraft, const ls_condition *condition,
                                          double bank_rad, double top_m, double *altitude_m, ls_error *error);

#endif

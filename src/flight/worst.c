/* Searches over minimum control speeds: the most unfavourable weight and centre of gravity, the best bank, the
 * bank of zero sideslip. */
#include "liveside/vmc.h"

#include "num/root.h"

#include <math.h>
#include <string.h>

#define DEG (3.14159265358979323846 / 180.0)

enum { MASSES = 5, CENTRES = 3, SIDES = 3, ROUNDS = 3 };

/* Which of three kinds of answer an aeroplane's weight and balance can give; a higher kind wins over any speed. */
typedef struct {
    int rank; /* 2 control-limited, 1 stalls first, 0 none */
    double V_m_s;
} score;

static score score_of(const ls_vmc *vmc)
{
    switch (vmc->kind) {
    case LS_VMC_ABOVE_RANGE:
        return (score){3, vmc->high_V_m_s};
    case LS_VMC_CONTROL:
        return (score){2, vmc->V_m_s};
    case LS_VMC_STALLS_FIRST:
        return (score){1, vmc->V_m_s};
    default:
        return (score){0, 0.0};
    }
}

int ls_vmc_is_worse(const ls_vmc *one, const ls_vmc *other)
{
    score a = score_of(one), b = score_of(other);
    return a.rank != b.rank ? a.rank > b.rank : a.V_m_s > b.V_m_s;
}

typedef struct {
    const ls_aircraft *aircraft;
    double bank_rad;
    ls_condition best;
    ls_vmc vmc;
    int any;
} worst_search;

static ls_status try_condition(worst_search *search, const ls_condition *condition, ls_error *error)
{
    ls_model model;
    ls_vmc vmc;
    ls_status status = ls_model_make(search->aircraft, condition, &model, error);
    if (status == LS_OK) {
        status = ls_vmc_at(&model, search->bank_rad, &vmc, error);
    }
    if (status == LS_OK && (!search->any || ls_vmc_is_worse(&vmc, &search->vmc))) {
        search->any = 1;
        search->best = *condition;
        search->vmc = vmc;
    }
    return status;
}

static double between(double low, double high, int i, int count)
{
    return count > 1 ? low + (high - low) * i / (count - 1) : low;
}

/* Every combination of masses, centres and sides in a box. */
static ls_status try_box(worst_search *search, const ls_condition *condition, const double low[3],
                         const double high[3], ls_error *error)
{
    int masses = high[0] > low[0] ? MASSES : 1, centres = high[1] > low[1] ? CENTRES : 1;
    int sides = high[2] > low[2] ? SIDES : 1;
    for (int i = 0; i < masses * centres * sides; i++) {
        ls_condition trial = *condition;
        trial.mass_kg = between(low[0], high[0], i % masses, masses);
        trial.cg_aft_m = between(low[1], high[1], i / masses % centres, centres);
        trial.cg_right_m = between(low[2], high[2], i / (masses * centres), sides);
        ls_status status = try_condition(search, &trial, error);
        if (status != LS_OK) {
            return status;
        }
    }
    return LS_OK;
}

/* The box of masses, centres and sides to be searched; a side that is not varied has no width. */
static void set_box(const ls_aircraft *aircraft, const ls_condition *condition, unsigned vary, double least[3],
                    double most[3])
{
    least[0] = vary & LS_SEARCH_MASS ? aircraft->mass.minimum_kg : condition->mass_kg;
    most[0] = vary & LS_SEARCH_MASS ? aircraft->mass.maximum_kg : condition->mass_kg;
    least[1] = vary & LS_SEARCH_CG ? aircraft->cg.forward_m : condition->cg_aft_m;
    most[1] = vary & LS_SEARCH_CG ? aircraft->cg.aft_m : condition->cg_aft_m;
    least[2] = vary & LS_SEARCH_LATERAL ? -aircraft->cg.lateral_m : condition->cg_right_m;
    most[2] = vary & LS_SEARCH_LATERAL ? aircraft->cg.lateral_m : condition->cg_right_m;
}

ls_status ls_vmc_worst(const ls_aircraft *aircraft, const ls_condition *condition, unsigned search_over,
                       double bank_rad, ls_condition *worst, ls_vmc *vmc, ls_error *error)
{
    worst_search search = {.aircraft = aircraft, .bank_rad = bank_rad};
    double least[3], most[3], low[3], high[3];
    set_box(aircraft, condition, search_over, least, most);
    memcpy(low, least, sizeof low);
    memcpy(high, most, sizeof high);
    for (int round = 0; round < ROUNDS; round++) {
        ls_status status = try_box(&search, condition, low, high, error);
        if (status != LS_OK) {
            return status;
        }
        double at[3] = {search.best.mass_kg, search.best.cg_aft_m, search.best.cg_right_m};
        if ((at[0] == least[0] || at[0] == most[0]) && (at[1] == least[1] || at[1] == most[1])) {
            break; /* in a corner, where it nearly always is: there is nothing to refine */
        }
        for (int i = 0; i < 3; i++) {
            double reach = 0.3 * (high[i] - low[i]);
            low[i] = fmax(least[i], at[i] - reach);
            high[i] = fmin(most[i], at[i] + reach);
        }
    }
    *worst = search.best;
    *vmc = search.vmc;
    return LS_OK;
}

typedef struct {
    const ls_model *model;
    ls_vmc vmc; /* the last one */
    ls_status status;
} bank_search;

static double speed_at(double bank_rad, void *context)
{
    bank_search *s = context;
    s->status = ls_vmc_at(s->model, bank_rad, &s->vmc, NULL);
    if (s->vmc.kind == LS_VMC_ABOVE_RANGE) {
        return s->vmc.high_V_m_s;
    }
    return s->vmc.V_m_s;
}

static double sideslip_at(double bank_rad, void *context)
{
    bank_search *s = context;
    s->status = ls_vmc_at(s->model, bank_rad, &s->vmc, NULL);
    return isfinite(s->vmc.V_m_s) ? s->vmc.trim.beta_rad : NAN;
}

ls_status ls_vmc_best_bank(const ls_model *model, double *bank_rad, ls_vmc *vmc, ls_error *error)
{
    bank_search search = {.model = model};
    double limit_rad = model->condition.bank_limit_rad;
    ls_root_options options = {.x_tol = 1e-5};
    ls_minimum_report report;
    report.x = 0.0;
    if (limit_rad > 0.0 && ls_minimum_find(speed_at, &search, -limit_rad, limit_rad, &options, &report) != LS_OK) {
        return ls_fail(error, LS_NO_STATE, "no minimum control speed somewhere within %.1f deg of bank",
                       limit_rad / DEG);
    }
    ls_vmc best;
    ls_status status = ls_vmc_at(model, report.x, &best, error);
    if (status == LS_OK) {
        *bank_rad = report.x;
        *vmc = best;
    }
    return status;
}

ls_status ls_vmc_zero_sideslip_bank(const ls_model *model, double *bank_rad, ls_vmc *vmc, ls_error *error)
{
    bank_search search = {.model = model};
    int side = ls_live_side(model->aircraft, &model->condition);
    double far_rad = 15.0 * DEG;
    ls_root_options options = {.x_tol = 1e-9};
    ls_root_report report;
    double low = side == 0 ? -far_rad : fmin(0.0, side * far_rad),
           high = side == 0 ? far_rad : fmax(0.0, side * far_rad);
    if (ls_root_find(sideslip_at, &search, low, high, &options, &report) != LS_OK) {
        return ls_fail(error, LS_NO_STATE, "no bank up to 15 deg toward the live side gives zero sideslip");
    }
    ls_vmc found;
    ls_status status = ls_vmc_at(model, report.x, &found, error);
    if (status == LS_OK) {
        *bank_rad = report.x;
        *vmc = found;
    }
    return status;
}

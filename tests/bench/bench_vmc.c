/* How many trims and minimum control speeds a second; with `--count
 * first-limit N`, just N solves, for the instruction count. */
#include "fleet.h"

#include "flight/fast_vmc.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static double solve(const ls_model *model, int count)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        ls_vmc vmc;
        ls_vmc_at(model, 0.0872 * (i % 8) / 8.0, &vmc, NULL);
        sum += vmc.V_m_s;
    }
    return sum;
}

/* The first limit alone, verified, at changing power and temperature: nothing can be kept from one to the next. */
static double first(const ls_model *model, int count)
{
    double sum = 0.0;
    ls_vmc_workspace work = {0};
    for (int i = 0; i < count; i++) {
        ls_model changed;
        ls_vmc vmc;
        ls_condition condition = model->condition;
        condition.power = 1.0 - 0.01 * (i % 7);
        condition.isa_offset_K = i % 11;
        ls_model_make(model->aircraft, &condition, &changed, NULL);
        ls_vmc_first(&changed, 0.0872 * (i % 8) / 8.0, 0, &work, &vmc, NULL);
        sum += vmc.V_m_s;
    }
    return work.searched == 0 ? sum : NAN;
}

/* Models at changing power and temperature, made beforehand. */
enum { MODELS = 77 };
static void make_models(const ls_model *model, ls_model changed[MODELS])
{
    for (int i = 0; i < MODELS; i++) {
        ls_condition condition = model->condition;
        condition.power = 1.0 - 0.01 * (i % 7);
        condition.isa_offset_K = i % 11;
        ls_model_make(model->aircraft, &condition, &changed[i], NULL);
    }
}

/* One limit, the rudder's, from where it was met the last time: nothing is proved of the speeds above. */
static double single(const ls_model *model, int count)
{
    static ls_model changed[MODELS];
    double sum = 0.0;
    ls_vmc_workspace work = {0};
    ls_error error = {0};
    ls_limit_root root = {.limit = LS_LIMIT_RUDDER};
    make_models(model, changed);
    root.state.V_m_s = 40.0;
    for (int i = 0; i < count; i++) {
        ls_limit_search search = {&changed[i % MODELS], 0.0872 * (i % 8) / 8.0, &work, 0, 0, LS_OK, &error};
        if (!ls_fast_root(&search, 1u << LS_LIMIT_RUDDER, 20.0, 100.0, &root)) {
            exit(1);
        }
        sum += root.state.V_m_s;
    }
    return sum;
}

/* Trims at changing speeds, the governors solved at each, from the trim before. */
static double governed(const ls_model *model, int count)
{
    double sum = 0.0;
    ls_vmc_workspace work = {0};
    ls_error error = {0};
    ls_limit_state last, next;
    ls_limit_search search = {model, 0.0872, &work, 0, 0, LS_OK, &error};
    if (!ls_limit_state_at(&search, 40.0, NULL, &last)) {
        exit(1);
    }
    for (int i = 0; i < count; i++) {
        if (!ls_limit_state_at(&search, 37.0 + 0.25 * (i * 7 % 64), &last, &next)) {
            exit(1);
        }
        last = next;
        sum += last.z[RUDDER];
    }
    return sum;
}

static double trim(const ls_model *model, int count)
{
    double sum = 0.0;
    ls_powerplant_point point;
    ls_powerplant_at(model, 40.0, &point, NULL);
    for (int i = 0; i < count; i++) {
        ls_trim result;
        ls_trim_at(model, &point, 0.0872 * (i % 8) / 8.0, NULL, &result);
        sum += result.rudder_rad;
    }
    return sum;
}

/* One engine of the model at many speeds: the first is failed, the second runs. */
static double propulsors(const ls_model *model, int unit, int count)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        ls_propulsor_point point;
        ls_propulsor_at(&model->powerplant[model->unit[unit].powerplant], model->unit[unit].state, 1.0,
                        &model->air, 30.0 + (double)(i % 64), &point, NULL);
        sum += point.thrust_N;
    }
    return sum;
}

static double windmilling(const ls_model *model, int count)
{
    return propulsors(model, 0, count);
}

static double running(const ls_model *model, int count)
{
    return propulsors(model, 1, count);
}

static void report(const char *what, double (*work)(const ls_model *, int), const ls_model *model)
{
    int count = 256;
    double seconds = 0.0, sum = 0.0;
    for (; seconds < 0.3; count *= 2) {
        double start = now_s();
        sum += work(model, count);
        seconds = now_s() - start;
    }
    printf("%-32s %12.0f a second   (check %.6g)\n", what, count / 2 / seconds, sum);
}

int main(int argc, char **argv)
{
    static ls_aircraft aircraft;
    ls_condition condition;
    ls_model model;
    fleet_read("whimbrel", &aircraft);
    ls_condition_takeoff(&aircraft, &condition);
    ls_condition_fail(&aircraft, 1u, &condition);
    if (ls_model_make(&aircraft, &condition, &model, NULL) != LS_OK) {
        return 1;
    }
    if (argc == 2 && strcmp(argv[1], "--counted") == 0) {
        printf("first-limit 100 300\n");
        return 0;
    }
    if (argc == 4 && strcmp(argv[1], "--count") == 0) {
        return !(first(&model, atoi(argv[3])) > 0.0);
    }
    report("propellers, engine running", running, &model);
    report("propellers, windmilling", windmilling, &model);
    report("trims at a powerplant point", trim, &model);
    report("trims with governors", governed, &model);
    report("single limits", single, &model);
    report("first limits, verified", first, &model);
    report("whole answers, both limits", solve, &model);
    return 0;
}

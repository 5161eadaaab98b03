/* How many trims and minimum control speeds a second; with `--count N`, just N solves, for the instruction count.
 */
#include "fleet.h"

#include "liveside/vmc.h"

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
    if (argc == 3 && strcmp(argv[1], "--count") == 0) {
        return !(solve(&model, atoi(argv[2])) > 0.0);
    }
    report("propellers, engine running", running, &model);
    report("propellers, windmilling", windmilling, &model);
    report("trims at a powerplant point", trim, &model);
    report("minimum control speeds", solve, &model);
    return 0;
}

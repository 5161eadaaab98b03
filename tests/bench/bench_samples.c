/* How long a million samples take, and with how many threads: the worse of the two failed engines, nine uncertain
 * inputs, power and temperature among them. With `--count sample N`: N samples on one thread, for the instruction
 * count.
 */
#include "fleet.h"

#include "liveside/uncertainty.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

static double now_s(clockid_t clock)
{
    struct timespec t;
    clock_gettime(clock, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void add(ls_uncertainty_request *request, const ls_inputs *inputs, const char *name, double spread)
{
    const ls_input *found = ls_inputs_find(inputs, request->aircraft, name, NULL);
    ls_input *input = &request->input[request->inputs++];
    *input = *found;
    input->spread = spread;
}

static void make_request(const ls_aircraft *aircraft, ls_uncertainty_request *request)
{
    static ls_marks marks;
    static ls_inputs inputs;
    const double deg = 3.14159265358979323846 / 180.0;
    memset(request, 0, sizeof *request);
    request->aircraft = aircraft;
    ls_condition_takeoff(aircraft, &request->condition);
    request->condition.power = 0.97;
    request->state = -1;
    request->sets = ls_vmca_sets(aircraft, request->set);
    request->bank_rad = 5.0 * deg;
    request->seed = 1;
    ls_inputs_list(aircraft, &marks, &request->condition, request->bank_rad, &inputs);
    add(request, &inputs, "derivatives.yaw.rudder", 0.004);
    add(request, &inputs, "derivatives.yaw.sideslip", 0.006);
    add(request, &inputs, "derivatives.side.sideslip", 0.03);
    add(request, &inputs, "derivatives.side.rudder", 0.01);
    add(request, &inputs, "weight", 15.0);
    add(request, &inputs, "cg", 0.01);
    add(request, &inputs, "power", 0.01);
    add(request, &inputs, "isa", 5.0);
    add(request, &inputs, "bank", 0.5 * deg);
}

/* Returned: seconds by the clock on the wall; cpu_s, of all threads. */
static double time_samples(ls_uncertainty_request *request, long samples, int threads, ls_uncertainty *result,
                           double *cpu_s)
{
    double start = now_s(CLOCK_MONOTONIC), cpu_start = now_s(CLOCK_PROCESS_CPUTIME_ID);
    request->samples = samples;
    request->threads = threads;
    if (ls_uncertainty_solve(request, NULL, result, NULL) != LS_OK) {
        exit(1);
    }
    *cpu_s = now_s(CLOCK_PROCESS_CPUTIME_ID) - cpu_start;
    return now_s(CLOCK_MONOTONIC) - start;
}

int main(int argc, char **argv)
{
    static ls_aircraft aircraft;
    static ls_uncertainty_request request;
    static ls_uncertainty result, again;
    double cpu_s[2];
    fleet_read("whimbrel", &aircraft);
    make_request(&aircraft, &request);
    if (argc == 2 && strcmp(argv[1], "--counted") == 0) {
        printf("sample 1000 3000\n");
        return 0;
    }
    if (argc == 4 && strcmp(argv[1], "--count") == 0) {
        return !(time_samples(&request, atol(argv[3]), 1, &result, &cpu_s[0]) > 0.0);
    }
    long samples = argc == 2 ? atol(argv[1]) : 200000;
    double one = time_samples(&request, samples, 1, &result, &cpu_s[0]);
    double two = time_samples(&request, samples, 2, &again, &cpu_s[1]);
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    printf("%ld samples, the worse of two engines: %.2f s on one thread, %.2f s on two (%.2f times as fast)\n",
           samples, one, two, one / two);
    printf("processor time %.2f s on one, %.2f s on two together\n", cpu_s[0], cpu_s[1]);
    printf("that is %.2f s for a million on two threads; the answers are %s; median %.4f m/s\n",
           two * 1e6 / (double)samples, memcmp(&result, &again, sizeof result) == 0 ? "the same" : "different",
           result.percentile[3].value);
    printf("memory at most %.1f MiB\n", (double)usage.ru_maxrss / 1024.0);
    return 0;
}

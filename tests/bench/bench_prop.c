/* How fast the propeller is: disc solutions a second, the time to build a table, lookups a second. With
 * `--count WHAT N`, just N of them, for the instruction count. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "liveside/prop_table.h"
#include "propeller_case.h"

enum { STATES = 4096 };

static double cpu_s(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void draw_states(ls_disc_state state[STATES])
{
    uint64_t seed = 1;
    for (int i = 0; i < STATES; i++) {
        state[i] = sea_level(check_random(&seed, 0.0, 100.0), check_random(&seed, 5.0, 45.0),
                             check_random(&seed, 16.0, 82.0));
    }
}

static double solve(const ls_disc *disc, const ls_disc_state state[STATES], int count)
{
    ls_disc_axial axial;
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        ls_disc_solve_axial(disc, &state[i % STATES], LS_INDUCTION_LOCAL, &axial, NULL);
        sum += axial.T_N;
    }
    return sum;
}

static ls_prop_table *build(const ls_disc *disc)
{
    ls_prop_range range = {.pitch_min_rad = 16.0 * DEG, .pitch_max_rad = 82.5 * DEG};
    ls_prop_table *table = NULL;
    ls_error error = {0};
    if (ls_prop_table_build(disc, &range, LS_INDUCTION_LOCAL, &table, &error) != LS_OK) {
        fprintf(stderr, "%s\n", error.text);
        exit(EXIT_FAILURE);
    }
    return table;
}

/* Given: mask, STATES - 1 for all states, less for the first few. */
static double look_up(const ls_prop_table *table, const ls_disc_state state[STATES], int mask, int count)
{
    ls_disc_axial axial;
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        ls_prop_table_at(table, &state[i & mask], &axial);
        sum += axial.T_N;
    }
    return sum;
}

static void time_disc(const ls_disc *disc, const ls_disc_state state[STATES])
{
    double start = cpu_s(), sum = solve(disc, state, STATES), took = cpu_s() - start;
    printf("disc solutions, with slopes: %.0f a second, %.1f us each (sum %g)\n", STATES / took,
           1e6 * took / STATES, sum);
}

static void time_lookup(const ls_prop_table *table, const ls_disc_state state[STATES], int mask, const char *what)
{
    enum { LOOKUPS = 1024000 };
    double start = cpu_s(), sum = look_up(table, state, mask, LOOKUPS), took = (cpu_s() - start) / LOOKUPS;
    printf("lookups, %s: %.2f million a second, %.0f ns each (sum %g)\n", what, 1e-6 / took, 1e9 * took, sum);
}

/* N of a thing. */
static int count(const ls_disc *disc, const ls_disc_state state[STATES], const char *what, int n)
{
    if (strcmp(what, "disc-solution") == 0) {
        return !(solve(disc, state, n) != 0.0);
    }
    ls_prop_table *table = build(disc);
    for (int i = 1; strcmp(what, "table") == 0 && i < n; i++) {
        ls_prop_table_free(table);
        table = build(disc);
    }
    int failed = strcmp(what, "lookup") == 0 && !(look_up(table, state, STATES - 1, n) != 0.0);
    ls_prop_table_free(table);
    return failed;
}

int main(int argc, char **argv)
{
    static ls_disc disc;
    static ls_disc_state state[STATES];
    ls_blade blade = light_twin_blade();
    ls_section section = clark_y();
    ls_error error = {0};
    if (ls_disc_prepare(&blade, &section, NULL, &disc, &error) != LS_OK) {
        fprintf(stderr, "%s\n", error.text);
        return EXIT_FAILURE;
    }
    draw_states(state);
    if (argc == 2 && strcmp(argv[1], "--counted") == 0) {
        printf("disc-solution 100 300\ntable 1 2\nlookup 1000 3000\n");
        return EXIT_SUCCESS;
    }
    if (argc == 4 && strcmp(argv[1], "--count") == 0) {
        return count(&disc, state, argv[2], atoi(argv[3]));
    }
    time_disc(&disc, state);
    double start = cpu_s();
    ls_prop_table *table = build(&disc);
    printf("table of a feathering propeller: %.3f s of CPU\n", cpu_s() - start);
    time_lookup(table, state, STATES - 1, "all over the table");
    time_lookup(table, state, 7, "about one state");
    ls_prop_table_free(table);
    return EXIT_SUCCESS;
}

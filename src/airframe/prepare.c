#include "liveside/prepare.h"

#include "airframe/table_store.h"
#include "liveside/prop_table.h"
#include "num/curve.h"
#include "num/parallel.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

typedef struct {
    const ls_propeller_data *propeller;
    const char *folder; /* where tables are kept, or null */
    ls_prop_table *table;
    ls_status status;
    ls_error error;
} job;

ls_status ls_propeller_blade(const ls_propeller_data *propeller, ls_blade *blade, ls_error *error)
{
    ls_curve_fit angle, thickness;
    ls_status status = ls_curve_prepare(&propeller->angle_rad, LS_CURVE_MONOTONE, &angle, error);
    status =
        status == LS_OK ? ls_curve_prepare(&propeller->thickness, LS_CURVE_MONOTONE, &thickness, error) : status;
    if (status != LS_OK) {
        return status;
    }
    *blade = (ls_blade){.blades = (int)lround(propeller->blades),
                        .diameter_m = propeller->diameter_m,
                        .root_r_R = propeller->root_r_R,
                        .count = propeller->chord.rows};
    for (int i = 0; i < blade->count; i++) {
        double r_R = propeller->chord.x[i];
        blade->station[i] = (ls_blade_station){r_R, propeller->chord.y[i], ls_curve_at(&angle, r_R).value,
                                               ls_curve_at(&thickness, r_R).value};
    }
    return ls_blade_check(blade, error);
}

static double coarsest(const ls_propeller_data *propeller)
{
    double coarse_rad = fmax(propeller->coarse_pitch_rad, propeller->feather_pitch_rad); /* fmax passes NaN over */
    return isnan(coarse_rad) ? propeller->fine_pitch_rad : coarse_rad;
}

static void build(int chunk, void *context)
{
    job *it = (job *)context + chunk;
    ls_blade blade;
    ls_disc disc;
    ls_prop_range range = {it->propeller->fine_pitch_rad, coarsest(it->propeller), 0.0};
    it->status = ls_propeller_blade(it->propeller, &blade, &it->error);
    if (it->status == LS_OK) {
        it->status = ls_disc_prepare(&blade, &it->propeller->section, NULL, &disc, &it->error);
    }
    if (it->status == LS_OK) {
        it->status = ls_table_store_get(it->folder, it->propeller, offsetof(ls_propeller_data, table), &disc,
                                        &range, &it->table, &it->error);
    }
}

static int needs_table(const ls_powerplant_data *powerplant)
{
    return powerplant->engine.type != LS_ENGINE_JET && powerplant->propeller.kind == LS_PROPELLER_BLADE_ELEMENT;
}

static int is_same(const ls_propeller_data *a, const ls_propeller_data *b)
{
    return memcmp(a, b, offsetof(ls_propeller_data, table)) == 0;
}

/* A table that is there already for the same propeller, or null. */
static ls_prop_table *find_table(const ls_aircraft *aircraft, int powerplants, const ls_propeller_data *propeller)
{
    for (int i = 0; aircraft != NULL && i < powerplants; i++) {
        const ls_powerplant_data *other = &aircraft->powerplant[i];
        if (needs_table(other) && other->propeller.table != NULL && is_same(&other->propeller, propeller)) {
            return other->propeller.table;
        }
    }
    return NULL;
}

static int collect(ls_aircraft *aircraft, const ls_aircraft *like, const char *folder,
                   job jobs[LS_MAX_POWERPLANTS])
{
    int count = 0;
    for (int i = 0; i < aircraft->powerplants; i++) {
        ls_propeller_data *propeller = &aircraft->powerplant[i].propeller;
        propeller->table = NULL;
        if (needs_table(&aircraft->powerplant[i])) {
            propeller->table = find_table(like, like != NULL ? like->powerplants : 0, propeller);
        }
        int waits = propeller->table == NULL && needs_table(&aircraft->powerplant[i]);
        for (int k = 0; k < count && waits; k++) {
            waits = !is_same(jobs[k].propeller, propeller);
        }
        if (waits) {
            jobs[count++] = (job){.propeller = propeller, .folder = folder};
        }
    }
    return count;
}

static ls_status prepare(ls_aircraft *aircraft, const ls_aircraft *like, const char *folder, ls_error *error)
{
    job jobs[LS_MAX_POWERPLANTS];
    ls_status status = LS_OK;
    int count = collect(aircraft, like, folder, jobs);
    ls_parallel_for(count, 0, build, NULL, jobs);
    for (int k = 0; k < count; k++) {
        if (jobs[k].status != LS_OK) {
            status = ls_fail(error, jobs[k].status, "propeller: %s", jobs[k].error.text);
        }
        for (int i = 0; i < aircraft->powerplants; i++) {
            ls_propeller_data *propeller = &aircraft->powerplant[i].propeller;
            if (needs_table(&aircraft->powerplant[i]) && is_same(propeller, jobs[k].propeller)) {
                propeller->table = jobs[k].table;
            }
        }
    }
    if (status != LS_OK) {
        ls_aircraft_release(aircraft, like);
    }
    return status;
}

ls_status ls_aircraft_prepare(ls_aircraft *aircraft, const ls_aircraft *like, ls_error *error)
{
    return prepare(aircraft, like, NULL, error);
}

ls_status ls_aircraft_prepare_kept(ls_aircraft *aircraft, const char *folder, ls_error *error)
{
    return prepare(aircraft, NULL, folder, error);
}

void ls_aircraft_release(ls_aircraft *aircraft, const ls_aircraft *like)
{
    for (int i = 0; i < aircraft->powerplants; i++) {
        ls_prop_table *table = aircraft->powerplant[i].propeller.table;
        int is_shared = table == NULL;
        for (int k = 0; like != NULL && k < like->powerplants; k++) {
            is_shared |= like->powerplant[k].propeller.table == table;
        }
        for (int k = i; k < aircraft->powerplants; k++) { /* once for all that hold it */
            if (aircraft->powerplant[k].propeller.table == table) {
                aircraft->powerplant[k].propeller.table = NULL;
            }
        }
        if (!is_shared) {
            ls_prop_table_free(table);
        }
    }
}

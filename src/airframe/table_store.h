/* Propeller tables kept in a folder between runs, each under the hash of what it was made from. */
#ifndef LS_AIRFRAME_TABLE_STORE_H
#define LS_AIRFRAME_TABLE_STORE_H

#include "liveside/prop_table.h"

/* The table of a propeller from the folder, or made and put there.
 * Given: folder, which exists, or null for none; key, size bytes that the table depends on.
 * Status: that of ls_prop_table_build; whatever goes wrong with the folder only costs time. */
ls_status ls_table_store_get(const char *folder, const void *key, size_t size, const ls_disc *disc,
                             const ls_prop_range *range, ls_prop_table **table, ls_error *error);

#endif

#include "airframe/table_store.h"

#include "liveside/file.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { KEPT_MAX = 32, FILE_LIMIT = 64 << 20 };

#define SUFFIX    ".table"
#define INDUCTION LS_INDUCTION_LOCAL

/* What stands before the numbers: a file of another make, or one that was cut short, is passed over. */
typedef struct {
    char magic[16];
    char sha256[LS_SHA256_TEXT + 7]; /* of the numbers, padded to whole words */
    size_t count;
} head;

static const char magic[16] = "liveside table1";

static void head_of(const double *values, size_t count, head *of)
{
    memset(of, 0, sizeof *of);
    memcpy(of->magic, magic, sizeof of->magic);
    ls_file_sha256(values, count * sizeof values[0], of->sha256);
    of->count = count;
}

static ls_status load(const char *path, const ls_disc *disc, const ls_prop_range *range, ls_prop_table **table)
{
    ls_buffer buffer = {0};
    head kept, now;
    ls_status status = ls_file_read(path, FILE_LIMIT, &buffer, NULL);
    if (status != LS_OK) {
        return status;
    }
    status = LS_FILE_REJECTED;
    if (buffer.size > sizeof kept && (buffer.size - sizeof kept) % sizeof(double) == 0) {
        size_t count = (buffer.size - sizeof kept) / sizeof(double);
        double *values = malloc(count * sizeof *values);
        if (values != NULL) {
            memcpy(&kept, buffer.data, sizeof kept);
            memcpy(values, buffer.data + sizeof kept, count * sizeof *values);
            head_of(values, count, &now);
            if (memcmp(&kept, &now, sizeof now) == 0) {
                status = ls_prop_table_restore(disc, range, INDUCTION, values, count, table, NULL);
            }
        }
        free(values);
    }
    ls_file_free(&buffer);
    return status;
}

static void save(const char *path, const ls_prop_table *table)
{
    ls_output output;
    head of;
    size_t count;
    const double *values = ls_prop_table_values(table, &count);
    if (ls_output_open(&output, path, NULL) != LS_OK) {
        return;
    }
    head_of(values, count, &of);
    int written = fwrite(&of, sizeof of, 1, output.stream) == 1 &&
                  fwrite(values, sizeof values[0], count, output.stream) == count;
    if (!written || ls_output_commit(&output, NULL) != LS_OK) {
        ls_output_abandon(&output);
    }
}

static int is_table(const char *name)
{
    size_t length = strlen(name);
    return length > strlen(SUFFIX) && strcmp(name + length - strlen(SUFFIX), SUFFIX) == 0;
}

/* Makes room: where the folder is full, the table that was used longest ago goes. */
static void prune(const char *folder)
{
    char path[LS_PATH_TEXT], oldest[LS_PATH_TEXT] = "";
    struct stat about;
    time_t oldest_time = 0;
    int count = 0;
    DIR *list = opendir(folder);
    for (struct dirent *entry; list != NULL && (entry = readdir(list)) != NULL;) {
        int length = snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        if (!is_table(entry->d_name) || length >= (int)sizeof path || stat(path, &about) != 0) {
            continue;
        }
        count++;
        if (oldest[0] == '\0' || about.st_mtime < oldest_time) {
            oldest_time = about.st_mtime;
            memcpy(oldest, path, (size_t)length + 1);
        }
    }
    if (list != NULL) {
        closedir(list);
    }
    if (count >= KEPT_MAX) {
        unlink(oldest);
    }
}

ls_status ls_table_store_get(const char *folder, const void *key, size_t size, const ls_disc *disc,
                             const ls_prop_range *range, ls_prop_table **table, ls_error *error)
{
    char path[LS_PATH_TEXT], name[LS_SHA256_TEXT];
    ls_file_sha256(key, size, name);
    int has_path =
        folder != NULL && snprintf(path, sizeof path, "%s/%.24s" SUFFIX, folder, name) < (int)sizeof path;
    if (has_path && load(path, disc, range, table) == LS_OK) {
        return LS_OK;
    }
    ls_status status = ls_prop_table_build(disc, range, INDUCTION, table, error);
    if (status == LS_OK && has_path) {
        prune(folder);
        save(path, *table);
    }
    return status;
}

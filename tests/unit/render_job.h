/* What the tests of drawing share: a job in the current folder, and reading what was drawn. */
#ifndef LIVESIDE_TESTS_RENDER_JOB_H
#define LIVESIDE_TESTS_RENDER_JOB_H

#include "scratch.h"

#include "liveside/render.h"

static inline ls_render_job job_of(const char *where, const char *name)
{
    return (ls_render_job){.folder = where,
                           .name = name,
                           .formats = LS_RENDER_ALL,
                           .search_path = getenv("PATH"),
                           .home = getenv("HOME")};
}

/* The whole of a file, cut at the size of what holds it. */
static inline size_t slurp(const char *path, char *out, size_t size)
{
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    size_t n = fread(out, 1, size - 1, file);
    out[n] = '\0';
    fclose(file);
    return n;
}

#endif

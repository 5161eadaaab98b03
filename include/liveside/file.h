/* Reading a whole file within a limit, and writing one so that a failure leaves the old file as it was. */
#ifndef LIVESIDE_FILE_H
#define LIVESIDE_FILE_H

#include "liveside/status.h"

#include <signal.h>
#include <stddef.h>
#include <stdio.h>

typedef struct {
    char *data; /* size bytes and a final NUL that size does not count */
    size_t size;
} ls_buffer;

/* Reads a whole file, or standard input for "-".
 * Given: path; limit_bytes, the largest size accepted.
 * Returned: buffer, owned by the caller and freed with ls_file_free; untouched on failure.
 * Status: LS_OK; LS_IO (missing, a folder, not readable, read error); LS_FILE_REJECTED (larger than the
 * limit); LS_MEMORY. */
LS_API ls_status ls_file_read(const char *path, size_t limit_bytes, ls_buffer *buffer, ls_error *error);

/* Frees a buffer and empties it; may be called on an empty one. */
LS_API void ls_file_free(ls_buffer *buffer);

enum { LS_SHA256_TEXT = 65, LS_PATH_TEXT = 4096 };

/* The SHA-256 of size bytes, as 64 lower-case hexadecimal digits and a NUL. */
LS_API void ls_file_sha256(const void *data, size_t size, char hex[LS_SHA256_TEXT]);

/* A file that is being written. Print to `stream`; the rest belongs to the functions below. */
typedef struct {
    FILE *stream;
    char path[LS_PATH_TEXT];       /* as the user gave it, for messages */
    char target[LS_PATH_TEXT];     /* the file to be replaced, links followed */
    char temporary[LS_PATH_TEXT];  /* written first, in the target's folder */
    volatile sig_atomic_t pending; /* whether `temporary` exists and must go if the program is stopped */
} ls_output;

/* Opens a file for writing: a regular or absent target through a temporary file in the same folder, which a
 * commit renames; a device, a pipe, "-" (standard output), and a file that standard output or standard error
 * already writes to, in place.
 * Given: path; a symbolic link is followed, so that its target is replaced and the link stays.
 * Returned: output, ready to be printed to; output->stream is null on failure.
 * Status: LS_OK; LS_IO (a folder, no permission, a read-only old file, ...); LS_MEMORY.
 * Notes: the temporary file has mode 0666 less the umask. The caller decides about SIGPIPE and SIGXFSZ;
 * ignored, they become LS_IO at the commit. */
LS_API ls_status ls_output_open(ls_output *output, const char *path, ls_error *error);

/* Ends the writing: flushes, syncs, closes and renames. Call it or ls_output_abandon exactly once.
 * Status: LS_OK, or LS_IO for any write that failed since the opening (full disk, closed pipe, ...); then the
 * old file is as it was and the temporary file is gone.
 * Notes: output->stream is null afterwards. */
LS_API ls_status ls_output_commit(ls_output *output, ls_error *error);

/* Gives up: closes, and removes the temporary file; the old file is as it was. Does nothing to an output that
 * is committed, abandoned, zero-initialised or that failed to open. */
LS_API void ls_output_abandon(ls_output *output);

/* Removes the temporary file of an unfinished output; async-signal-safe, for a handler that ends the program.
 * Given: output, may be null. */
LS_API void ls_output_unlink(const ls_output *output);

#endif

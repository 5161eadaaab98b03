#include "liveside/file.h"

#include <errno.h>
#include <fcntl.h>
#include <sha256.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { FIRST_CAPACITY = 16384 };

static const char *shown_path(const char *path)
{
    return strcmp(path, "-") == 0 ? "standard input" : path;
}

static ls_status fail_to_read(const char *path, int number, ls_error *error)
{
    return ls_fail(error, LS_IO, "cannot read %s: %s", shown_path(path), strerror(number));
}

static ls_status fail_too_large(const char *path, size_t limit_bytes, ls_error *error)
{
    return ls_fail(error, LS_FILE_REJECTED, "%s is too large: the limit is %zu bytes", shown_path(path),
                   limit_bytes);
}

static ls_status open_to_read(const char *path, int *fd, ls_error *error)
{
    struct stat about;
    int opened = strcmp(path, "-") == 0 ? fcntl(STDIN_FILENO, F_DUPFD_CLOEXEC, 0)
                                        : open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY);
    if (opened < 0) {
        return fail_to_read(path, errno, error);
    }
    if (fstat(opened, &about) == 0 && S_ISDIR(about.st_mode)) {
        close(opened);
        return ls_fail(error, LS_IO, "cannot read %s: it is a folder, not a file", shown_path(path));
    }
    *fd = opened;
    return LS_OK;
}

/* A buffer that grows while it is read; one byte more than the limit is read to see that there is more. */
typedef struct {
    ls_buffer held;
    size_t capacity; /* without the final NUL */
} growing;

static int grow(growing *to, size_t limit_bytes)
{
    size_t capacity = to->capacity == 0 ? FIRST_CAPACITY : to->capacity * 2;
    if (capacity > limit_bytes) {
        capacity = limit_bytes + 1;
    }
    char *data = realloc(to->held.data, capacity + 1);
    if (data == NULL) {
        return 0;
    }
    to->held.data = data;
    to->capacity = capacity;
    return 1;
}

static ls_status read_all(int fd, const char *path, size_t limit_bytes, growing *to, ls_error *error)
{
    for (;;) {
        if (to->held.size == to->capacity && !grow(to, limit_bytes)) {
            return ls_fail(error, LS_MEMORY, "out of memory while reading %s", shown_path(path));
        }
        ssize_t count = read(fd, to->held.data + to->held.size, to->capacity - to->held.size);
        if (count == 0) {
            to->held.data[to->held.size] = '\0';
            return LS_OK;
        }
        if (count < 0 && errno != EINTR) {
            return fail_to_read(path, errno, error);
        }
        to->held.size += count > 0 ? (size_t)count : 0;
        if (to->held.size > limit_bytes) {
            return fail_too_large(path, limit_bytes, error);
        }
    }
}

ls_status ls_file_read(const char *path, size_t limit_bytes, ls_buffer *buffer, ls_error *error)
{
    int fd = -1;
    growing to = {0};
    ls_status status = open_to_read(path, &fd, error);
    if (status != LS_OK) {
        return status;
    }
    status = read_all(fd, path, limit_bytes, &to, error);
    close(fd);
    if (status != LS_OK) {
        free(to.held.data);
        return status;
    }
    *buffer = to.held;
    return LS_OK;
}

void ls_file_free(ls_buffer *buffer)
{
    free(buffer->data);
    *buffer = (ls_buffer){0};
}

void ls_file_sha256(const void *data, size_t size, char hex[LS_SHA256_TEXT])
{
    SHA256_CTX context;
    SHA256_Init(&context);
    if (size > 0) {
        SHA256_Update(&context, data, size);
    }
    SHA256_End(&context, hex);
}

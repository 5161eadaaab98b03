#include "liveside/file.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { LINKS_FOLLOWED = 40, NAMES_TRIED = 100 };

static const char *shown_path(const char *path)
{
    return strcmp(path, "-") == 0 ? "standard output" : path;
}

static ls_status fail_to_write(const char *path, int number, ls_error *error)
{
    ls_status status = number == ENOMEM ? LS_MEMORY : LS_IO;
    return ls_fail(error, status, "cannot write %s: %s", shown_path(path), strerror(number));
}

static int copy_path(char to[LS_PATH_TEXT], const char *from)
{
    if (strlen(from) >= LS_PATH_TEXT) {
        errno = ENAMETOOLONG;
        return 0;
    }
    strcpy(to, from);
    return 1;
}

/* The length of the folder part of a path with its last slash, 0 for a bare name. */
static size_t folder_length(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash != NULL ? (size_t)(slash - path) + 1 : 0;
}

/* Replaces a path by what its symbolic link holds. A relative link starts from the link's own folder. */
static int follow_link(char path[LS_PATH_TEXT])
{
    char held[LS_PATH_TEXT];
    ssize_t count = readlink(path, held, sizeof held - 1);
    if (count < 0) {
        return 0;
    }
    held[count] = '\0';
    size_t folder = held[0] == '/' ? 0 : folder_length(path);
    if (folder + (size_t)count >= LS_PATH_TEXT) {
        errno = ENAMETOOLONG;
        return 0;
    }
    memcpy(path + folder, held, (size_t)count + 1);
    return 1;
}

/* Follows links by hand, for realpath refuses one whose target is not there yet. */
static int resolve_links(char path[LS_PATH_TEXT])
{
    for (int i = 0; i < LINKS_FOLLOWED; i++) {
        struct stat about;
        if (lstat(path, &about) != 0) {
            return errno == ENOENT;
        }
        if (!S_ISLNK(about.st_mode)) {
            return 1;
        }
        if (!follow_link(path)) {
            return 0;
        }
    }
    errno = ELOOP;
    return 0;
}

/* A descriptor among standard output and standard error that writes to this very file, or -1: replacing it by a
 * rename would lose what the stream has written and will write. */
static int standard_stream_of(const struct stat *target)
{
    for (int fd = STDOUT_FILENO; fd <= STDERR_FILENO; fd++) {
        struct stat about;
        if (fstat(fd, &about) == 0 && about.st_dev == target->st_dev && about.st_ino == target->st_ino) {
            return fd;
        }
    }
    return -1;
}

static ls_status attach_stream(ls_output *output, int fd, ls_error *error)
{
    output->stream = fd < 0 ? NULL : fdopen(fd, "w");
    if (output->stream != NULL) {
        return LS_OK;
    }
    int number = errno;
    if (fd >= 0) {
        close(fd);
    }
    ls_output_unlink(output);
    output->pending = 0;
    return fail_to_write(output->path, number, error);
}

/* What our own stream still holds must come first. */
static ls_status open_standard(ls_output *output, int fd, ls_error *error)
{
    fflush(fd == STDOUT_FILENO ? stdout : stderr);
    return attach_stream(output, fcntl(fd, F_DUPFD_CLOEXEC, 0), error);
}

/* Creates the temporary file. No signal may come between the creation and the note of it: a handler would leave
 * the file behind or, the other way round, remove one that is not ours. */
static int create_temporary(ls_output *output)
{
    sigset_t all, before;
    int fd = -1;
    int number = EEXIST;
    size_t folder = folder_length(output->target);
    sigfillset(&all);
    pthread_sigmask(SIG_SETMASK, &all, &before);
    for (int i = 0; i < NAMES_TRIED && fd < 0 && number == EEXIST; i++) {
        int length = snprintf(output->temporary, sizeof output->temporary, "%.*s.liveside-%ld-%d.tmp", (int)folder,
                              output->target, (long)getpid(), i);
        if (length < 0 || (size_t)length >= sizeof output->temporary) {
            number = ENAMETOOLONG;
            break;
        }
        fd = open(output->temporary, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        number = errno;
    }
    output->pending = fd >= 0;
    pthread_sigmask(SIG_SETMASK, &before, NULL);
    errno = number;
    return fd;
}

static ls_status open_target(ls_output *output, ls_error *error)
{
    struct stat about;
    int exists = stat(output->path, &about) == 0;
    if (!exists && errno != ENOENT) {
        return fail_to_write(output->path, errno, error);
    }
    if (exists && S_ISDIR(about.st_mode)) {
        return ls_fail(error, LS_IO, "cannot write %s: it is a folder, not a file", output->path);
    }
    if (exists && standard_stream_of(&about) >= 0) {
        return open_standard(output, standard_stream_of(&about), error);
    }
    if (exists && !S_ISREG(about.st_mode)) {
        return attach_stream(output, open(output->path, O_WRONLY | O_CLOEXEC | O_NOCTTY), error);
    }
    if (!copy_path(output->target, output->path) || !resolve_links(output->target)) {
        return fail_to_write(output->path, errno, error);
    }
    /* A rename asks nothing of the old file itself; whoever made it read-only did not want it replaced. */
    if (exists && faccessat(AT_FDCWD, output->target, W_OK, AT_EACCESS) != 0) {
        return fail_to_write(output->path, errno, error);
    }
    return attach_stream(output, create_temporary(output), error);
}

ls_status ls_output_open(ls_output *output, const char *path, ls_error *error)
{
    *output = (ls_output){0};
    if (path[0] == '\0') {
        return ls_fail(error, LS_IO, "cannot write a file without a name");
    }
    if (!copy_path(output->path, path)) {
        return fail_to_write(path, errno, error);
    }
    if (strcmp(path, "-") == 0) {
        return open_standard(output, STDOUT_FILENO, error);
    }
    return open_target(output, error);
}

/* Pipes and terminals cannot be synced, and say so; that is no failure. */
static int sync_file(int fd)
{
    return fsync(fd) == 0 || errno == EINVAL || errno == EROFS || errno == ENOTSUP;
}

/* Flushes, syncs and closes; returns 0 or the number of the first error. */
static int finish_stream(ls_output *output)
{
    FILE *stream = output->stream;
    int number = 0;
    output->stream = NULL;
    errno = 0;
    if (fflush(stream) != 0) {
        number = errno;
    } else if (ferror(stream)) {
        number = EIO; /* a write failed earlier, and its reason is no longer known */
    } else if (output->pending && !sync_file(fileno(stream))) {
        number = errno;
    }
    if (fclose(stream) != 0 && number == 0) {
        number = errno;
    }
    return number;
}

ls_status ls_output_commit(ls_output *output, ls_error *error)
{
    int number = finish_stream(output);
    if (number == 0 && output->pending && rename(output->temporary, output->target) != 0) {
        number = errno;
    }
    if (number != 0) {
        ls_output_unlink(output);
    }
    output->pending = 0;
    return number == 0 ? LS_OK : fail_to_write(output->path, number, error);
}

void ls_output_abandon(ls_output *output)
{
    if (output->stream != NULL) {
        fclose(output->stream);
        output->stream = NULL;
    }
    ls_output_unlink(output);
    output->pending = 0;
}

void ls_output_unlink(const ls_output *output)
{
    if (output != NULL && output->pending) {
        unlink(output->temporary);
    }
}

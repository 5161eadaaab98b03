#include "cli/find.h"

#include <ctype.h>
#include <dirent.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#define SUFFIX ".yaml"

enum { FOLDERS = 3, SUFFIX_LENGTH = sizeof SUFFIX - 1 };

typedef struct {
    char beside[LS_PATH_TEXT]; /* of a program that was started by its path; "" otherwise */
    const char *path[FOLDERS];
} folders;

static int exists(const char *path)
{
    struct stat about;
    return stat(path, &about) == 0;
}

static void list_folders(const char *self, folders *to)
{
    const char *slash = strrchr(self, '/');
    to->beside[0] = '\0';
    if (slash != NULL) {
        snprintf(to->beside, sizeof to->beside, "%.*s/../share/liveside/aircraft", (int)(slash - self), self);
    }
    to->path[0] = "aircraft";
    to->path[1] = LS_DATA_DIR "/aircraft";
    to->path[2] = to->beside;
}

/* Whether a folder holds an aeroplane of that name, which stands in length bytes. */
static int holds(const char *folder, const char *name, int length, char path[LS_PATH_TEXT])
{
    int needed = snprintf(path, LS_PATH_TEXT, "%s/%.*s" SUFFIX, folder, length, name);
    return folder[0] != '\0' && needed < LS_PATH_TEXT && exists(path);
}

ls_status cli_input_find(const char *name, const char *self, char path[LS_PATH_TEXT], ls_error *error)
{
    size_t length = strlen(name);
    if (length >= LS_PATH_TEXT) {
        return ls_fail(error, LS_IO, "the name of the file is too long");
    }
    strcpy(path, name);
    if (strcmp(name, "-") == 0 || strchr(name, '/') != NULL || exists(path)) {
        return LS_OK;
    }
    folders all;
    list_folders(self, &all);
    for (int i = 0; i < FOLDERS; i++) {
        if (holds(all.path[i], name, (int)length, path)) {
            return LS_OK;
        }
    }
    return ls_fail(error, LS_IO, "no file '%s' here, no aircraft/%s.yaml, and no demo aeroplane of that name",
                   name, name);
}

/* The length of an aeroplane's name in the name of its file; 0 when it is none, or none for a shell. */
static int plain_length(const char *file)
{
    size_t length = strlen(file);
    if (length <= SUFFIX_LENGTH || strcmp(file + length - SUFFIX_LENGTH, SUFFIX) != 0 ||
        !isalnum((unsigned char)file[0])) {
        return 0;
    }
    length -= SUFFIX_LENGTH;
    for (size_t i = 0; i < length; i++) {
        if (!isalnum((unsigned char)file[i]) && strchr("_-.", file[i]) == NULL) {
            return 0;
        }
    }
    return (int)length;
}

/* One that an earlier folder holds is named there. */
static int is_hidden(const folders *all, int folder, const char *name, int length)
{
    char path[LS_PATH_TEXT];
    for (int i = 0; i < folder; i++) {
        if (holds(all->path[i], name, length, path)) {
            return 1;
        }
    }
    return 0;
}

ls_status cli_input_names(FILE *stream, const void *context, ls_error *error)
{
    (void)error;
    folders all;
    list_folders(context, &all);
    for (int i = 0; i < FOLDERS; i++) {
        struct dirent **entry = NULL;
        int count = scandir(all.path[i], &entry, NULL, alphasort);
        for (int n = 0; n < count; n++) {
            int length = plain_length(entry[n]->d_name);
            if (length > 0 && !is_hidden(&all, i, entry[n]->d_name, length)) {
                fprintf(stream, "%.*s\n", length, entry[n]->d_name);
            }
            free(entry[n]);
        }
        free(entry);
    }
    return LS_OK;
}

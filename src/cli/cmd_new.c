#include "cli/commands.h"
#include "cli/emit.h"
#include "liveside/reader.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

static ls_status write_starter(FILE *stream, const void *context, ls_error *error)
{
    (void)context;
    (void)error;
    ls_aircraft_write_starter(stream);
    return LS_OK;
}

static int is_regular_file(const char *path)
{
    struct stat about;
    return lstat(path, &about) == 0 && (S_ISREG(about.st_mode) || S_ISLNK(about.st_mode));
}

static ls_status run(const cli_run *run, ls_error *error)
{
    const char *path = run->options->file[0];
    if (strcmp(path, "-") != 0 && is_regular_file(path) && !cli_given(run->options, CLI_FORCE)) {
        return ls_fail(error, LS_USAGE, "%s is there already; --force replaces it", path);
    }
    ls_status status = cli_write(path, write_starter, NULL, error);
    if (status == LS_OK && strcmp(path, "-") != 0) {
        fprintf(stderr, "Wrote a starter aeroplane. Edit it, then look at it with 'liveside check'.\n");
    }
    return status;
}

const cli_command cli_command_new = {
    .name = "new",
    .question = "How do I describe my aeroplane?",
    .summary = "Writes a starter file, complete and commented, with the numbers of an invented light twin to be "
               "replaced by your own. A file called - is standard output.",
    .example = "liveside new mytwin.yaml",
    .options = CLI_BIT(CLI_FORCE),
    .files_min = 1,
    .files_max = 1,
    .run = run,
};

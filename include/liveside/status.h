/* Status codes and the error record that every fallible call fills. */
#ifndef LIVESIDE_STATUS_H
#define LIVESIDE_STATUS_H

#include <stdarg.h>

#if defined(__GNUC__)
#define LS_API                 __attribute__((visibility("default")))
#define LS_PRINTF(text, first) __attribute__((format(printf, text, first)))
#else
#define LS_API
#define LS_PRINTF(text, first)
#endif

/* One list gives the enumerator, the exit code of the program and the text. */
#define LS_STATUS_LIST(X)                             \
    X(LS_OK, 0, "ok")                                 \
    X(LS_INTERNAL, 1, "internal error")               \
    X(LS_USAGE, 2, "wrong usage")                     \
    X(LS_FILE_REJECTED, 3, "file rejected")           \
    X(LS_NO_STATE, 4, "the asked state cannot exist") \
    X(LS_NOT_CONVERGED, 5, "not converged")           \
    X(LS_IO, 6, "cannot read or write")               \
    X(LS_MEMORY, 7, "out of memory")                  \
    X(LS_RULE_NOT_MET, 8, "a rule is not met")        \
    X(LS_INTERRUPTED, 130, "interrupted")

typedef enum {
#define LS_STATUS_ENUM(name, code, text) name,
    LS_STATUS_LIST(LS_STATUS_ENUM)
#undef LS_STATUS_ENUM
        LS_STATUS_COUNT
} ls_status;

enum { LS_ERROR_TEXT = 512 };

/* The first failure of a call, owned by the caller; zero-initialise it. */
typedef struct {
    ls_status status;
    char text[LS_ERROR_TEXT];
} ls_error;

/* The text of a status, for people; never null.
 * Given: status, any enumerator (another value gives "unknown status"). */
LS_API const char *ls_status_text(ls_status status);

/* The exit code that the program ends with for a status. */
LS_API int ls_status_exit_code(ls_status status);

/* Records a failure and returns its status, so that `return ls_fail(...)` reads well.
 * Given: error, may be null; the first failure recorded in it wins.
 * Returned: status, unchanged. */
LS_API ls_status ls_fail(ls_error *error, ls_status status, const char *format, ...) LS_PRINTF(3, 4);

#endif

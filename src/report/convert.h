/* A page printed to PDF by a general-purpose converter that is installed. */
#ifndef LIVESIDE_REPORT_CONVERT_H
#define LIVESIDE_REPORT_CONVERT_H

#include "liveside/file.h"

#include <signal.h>

typedef struct {
    const char *folder;      /* absolute; holds the page, and all that the converter leaves */
    const char *page, *pdf;  /* names in it */
    const char *search_path; /* where converters are looked for: the environment's PATH; null for none */
    int is_root;             /* a browser then does without its sandbox, which root cannot have */
    double limit_s;          /* 0 for 60 s */
    const volatile sig_atomic_t *stop;
} ls_convert_job;

/* Prints FOLDER/PAGE to FOLDER/PDF with the first converter found.
 * Status: LS_OK; LS_IO (there is none: the message names those that would do; it failed, ran past the limit, or
 * wrote nothing); LS_INTERRUPTED; LS_MEMORY. */
ls_status ls_convert_to_pdf(const ls_convert_job *job, ls_error *error);

#endif

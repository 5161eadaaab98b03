#ifndef LIVESIDE_REPORT_PAGE_DATA_H
#define LIVESIDE_REPORT_PAGE_DATA_H

extern const char *const ls_page_style[]; /* lines of the style sheet; null at the end */

#endif

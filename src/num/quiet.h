/* GSL ends the program on an error unless it is told otherwise. */
#ifndef LS_NUM_QUIET_H
#define LS_NUM_QUIET_H

/* Tells it. It is a setting of the whole process, so only a program's main calls this, never the library. */
void ls_num_quiet(void);

#endif

/* The one place for threads: a loop over independent chunks. */
#ifndef LS_NUM_PARALLEL_H
#define LS_NUM_PARALLEL_H

/* Runs work(chunk, context) for every chunk 0 to chunks - 1, on up to `threads` threads (the caller's among them).
 * Given: threads, 0 for one a processor; stop, asked before each chunk, or null.
 * Returned: how many chunks were run; fewer than asked only when stop said so.
 * Notes: which thread runs a chunk is not determined: a chunk must depend on its number alone, and results be put
 * together in the order of chunks. Threads that cannot be started are done without. */
int ls_parallel_for(int chunks, int threads, void (*work)(int chunk, void *context), int (*stop)(void *context),
                    void *context);

#endif

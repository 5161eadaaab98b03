#include "num/parallel.h"

#include <pthread.h>
#include <stdatomic.h>
#include <unistd.h>

enum { THREADS_MAX = 64 };

typedef struct {
    atomic_int next, done;
    int chunks;
    void (*work)(int chunk, void *context);
    int (*stop)(void *context);
    void *context;
} loop;

static void *run(void *argument)
{
    loop *it = argument;
    for (;;) {
        if (it->stop != NULL && it->stop(it->context)) {
            return NULL;
        }
        int chunk = atomic_fetch_add(&it->next, 1);
        if (chunk >= it->chunks) {
            return NULL;
        }
        it->work(chunk, it->context);
        atomic_fetch_add(&it->done, 1);
    }
}

static int thread_count(int asked, int chunks)
{
    long processors = sysconf(_SC_NPROCESSORS_ONLN);
    int count = asked > 0 ? asked : processors > 0 ? (int)processors : 1;
    count = count < chunks ? count : chunks;
    return count < THREADS_MAX ? count : THREADS_MAX;
}

int ls_parallel_for(int chunks, int threads, void (*work)(int chunk, void *context), int (*stop)(void *context),
                    void *context)
{
    loop it = {.chunks = chunks, .work = work, .stop = stop, .context = context};
    pthread_t helper[THREADS_MAX];
    int helpers = 0, wanted = thread_count(threads, chunks) - 1;
    while (helpers < wanted && pthread_create(&helper[helpers], NULL, run, &it) == 0) {
        helpers++;
    }
    run(&it);
    for (int i = 0; i < helpers; i++) {
        pthread_join(helper[i], NULL);
    }
    return atomic_load(&it.done);
}

#include "alloc_fail.h"

#include "check.h"

#include <errno.h>
#include <stdatomic.h>
#include <stdlib.h>

#if defined(__SANITIZE_ADDRESS__) || !defined(__GLIBC__)
#define OWN_MALLOC 0
#else
#define OWN_MALLOC 1
#endif

static atomic_long count;
static atomic_long live;
static atomic_long fail_number;
static atomic_long failed_number;

#if OWN_MALLOC

/* The GNU C library's own allocator, under the names it keeps for such programs. */
extern void *__libc_malloc(size_t size);
extern void *__libc_calloc(size_t number, size_t size);
extern void *__libc_realloc(void *block, size_t size);
extern void *__libc_memalign(size_t alignment, size_t size);
extern void __libc_free(void *block);

/* Hidden, as the build makes everything else, they would not reach the shared libraries. */
#pragma GCC visibility push(default)

static int refused(void)
{
    long number = atomic_fetch_add(&count, 1) + 1;
    if (number != atomic_load(&fail_number)) {
        return 0;
    }
    atomic_store(&failed_number, number);
    errno = ENOMEM;
    return 1;
}

static void *counted(void *block)
{
    if (block != NULL) {
        atomic_fetch_add(&live, 1);
    }
    return block;
}

void *malloc(size_t size)
{
    return refused() ? NULL : counted(__libc_malloc(size));
}

void *calloc(size_t number, size_t size)
{
    return refused() ? NULL : counted(__libc_calloc(number, size));
}

void free(void *block)
{
    if (block != NULL) {
        atomic_fetch_sub(&live, 1);
    }
    __libc_free(block);
}

void *realloc(void *block, size_t size)
{
    if (block == NULL) {
        return malloc(size);
    }
    if (size == 0) {
        free(block);
        return NULL;
    }
    return refused() ? NULL : __libc_realloc(block, size);
}

void *memalign(size_t alignment, size_t size);
void *memalign(size_t alignment, size_t size)
{
    return refused() ? NULL : counted(__libc_memalign(alignment, size));
}

void *aligned_alloc(size_t alignment, size_t size)
{
    return memalign(alignment, size);
}

int posix_memalign(void **block, size_t alignment, size_t size)
{
    void *got = memalign(alignment, size);
    if (got == NULL) {
        return ENOMEM;
    }
    *block = got;
    return 0;
}

#pragma GCC visibility pop
#endif

/* Called through a pointer, for an inlined malloc would count even where valgrind has replaced it. */
void alloc_fail_or_skip(void)
{
    void *(*volatile get)(size_t) = malloc;
    long before = atomic_load(&live);
    void *block = get(1);
    int counts = atomic_load(&live) == before + 1;
    free(block);
    if (!counts) {
        skip();
    }
}

void alloc_fail_at(long n)
{
    atomic_store(&failed_number, 0);
    atomic_store(&count, 0);
    atomic_store(&fail_number, n);
}

long alloc_fail_stop(void)
{
    atomic_store(&fail_number, 0);
    return atomic_load(&failed_number);
}

long alloc_count(void)
{
    return atomic_load(&count);
}

long alloc_live(void)
{
    return atomic_load(&live);
}

long alloc_fail_next(long n)
{
    return n < 300 ? n + 1 : n + 17;
}

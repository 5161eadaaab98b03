#include "liveside/text.h"

#include <string.h>

enum { LONGEST_WORD = 64 };

static int least(int a, int b)
{
    return a < b ? a : b;
}

/* Optimal string alignment: insertion, deletion, replacement and the exchange of two neighbours cost one each.
 * Words longer than LONGEST_WORD are never near. */
static int distance(const char *a, const char *b)
{
    int rows = (int)strlen(a);
    int columns = (int)strlen(b);
    int cost[3][LONGEST_WORD + 1];
    for (int j = 0; j <= columns; j++) {
        cost[0][j] = j;
    }
    for (int i = 1; i <= rows; i++) {
        int *now = cost[i % 3];
        const int *last = cost[(i + 2) % 3];
        const int *before = cost[(i + 1) % 3];
        now[0] = i;
        for (int j = 1; j <= columns; j++) {
            now[j] = least(last[j - 1] + (a[i - 1] != b[j - 1]), least(last[j], now[j - 1]) + 1);
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
                now[j] = least(now[j], before[j - 2] + 1);
            }
        }
    }
    return cost[rows % 3][columns];
}

int ls_text_nearest(const char *word, const char *const *candidates, int n)
{
    int length = (int)strlen(word);
    if (length == 0 || length > LONGEST_WORD) {
        return -1;
    }
    int found = -1;
    int limit = (length + 2) / 3; /* a third, rounded up */
    for (int i = 0; i < n; i++) {
        if (candidates[i] == NULL || strlen(candidates[i]) > LONGEST_WORD) {
            continue;
        }
        int d = distance(word, candidates[i]);
        if (d <= limit && d < length) {
            found = i;
            limit = d - 1;
        }
    }
    return found;
}

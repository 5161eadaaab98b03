#include "report/chart_scale.h"

#include <math.h>
#include <string.h>

enum { MOST_TICKS = 40 };

double ls_scale_step(double span, double parts)
{
    double rough = span / parts;
    double power = pow(10.0, floor(log10(rough)));
    double first = rough / power;
    return power * (first < 1.5 ? 1.0 : first < 3.5 ? 2.0 : first < 7.5 ? 5.0 : 10.0);
}

static int decimals_of(double step)
{
    int decimals = 0;
    while (decimals < 9 && fabs(step * pow(10.0, decimals) - nearbyint(step * pow(10.0, decimals))) > 1e-6) {
        decimals++;
    }
    return decimals;
}

/* A range that is not empty: data that is one number, or none at all, gets room around it. */
static void open_range(double *low, double *high)
{
    if (!(*low <= *high)) {
        *low = 0.0;
        *high = 1.0;
    }
    const double tiny = 1e-30;
    double least = fmax(1e-9 * fmax(fabs(*low), fabs(*high)), tiny);
    if (*high - *low <= least) {
        double room = fabs(*low) > tiny ? 0.05 * fabs(*low) : 1.0;
        *low -= room;
        *high += room;
    }
}

ls_scale ls_scale_choose(const ls_chart_axis *axis, double low, double high, double ticks, int tight)
{
    int asked = axis->low >= -LS_CHART_LARGEST && axis->high <= LS_CHART_LARGEST && axis->low < axis->high;
    if (asked) {
        low = axis->low;
        high = axis->high;
    } else if (axis->with_zero && low <= high) {
        low = fmin(low, 0.0);
        high = fmax(high, 0.0);
    }
    int empty = !(low <= high);
    open_range(&low, &high);
    ls_scale scale = {low, high, axis->step, 0};
    if (!(scale.step >= (high - low) / MOST_TICKS && scale.step <= high - low)) {
        scale.step = ls_scale_step(high - low, ticks);
    }
    if (!asked && !tight && !empty) {
        double room = 0.04 * (high - low); /* so that no curve runs along the frame, but none beyond zero */
        double from = low >= 0.0 ? fmax(low - room, 0.0) : low - room;
        double to = high <= 0.0 ? fmin(high + room, 0.0) : high + room;
        double half = 0.5 * scale.step;
        scale.low = half * floor(from / half + 1e-9);
        scale.high = half * ceil(to / half - 1e-9);
    }
    scale.decimals = decimals_of(scale.step);
    return scale;
}

double ls_scale_first(const ls_scale *scale)
{
    return scale->step * ceil(scale->low / scale->step - 1e-9);
}

int ls_scale_count(const ls_scale *scale)
{
    double count = floor((scale->high - ls_scale_first(scale)) / scale->step + 1e-9) + 1.0;
    return count < 0.0 ? 0 : count > MOST_TICKS + 2 ? MOST_TICKS + 2 : (int)count;
}

/* Puts a thin space before each group of three digits. */
static void part_thousands(char *digits, size_t size)
{
    static const char thin[] = "\xE2\x80\x89";
    size_t whole = strcspn(digits, ".");
    while (whole > 3) {
        whole -= 3;
        size_t length = strlen(digits);
        if (length + sizeof thin > size) {
            return;
        }
        memmove(digits + whole + sizeof thin - 1, digits + whole, length - whole + 1);
        memcpy(digits + whole, thin, sizeof thin - 1);
    }
}

void ls_scale_text(const ls_scale *scale, double value, char out[LS_SCALE_TEXT])
{
    static const char minus[] = "\xE2\x88\x92";
    double magnitude = fabs(value) < 1e-9 * scale->step ? 0.0 : fabs(value);
    char digits[LS_SCALE_TEXT - sizeof minus];
    int plain = magnitude < 1e9 && (magnitude == 0.0 || scale->step >= 1e-6);
    snprintf(digits, sizeof digits, plain ? "%.*f" : "%.*g", plain ? scale->decimals : 4, magnitude);
    if (plain && fmax(fabs(scale->low), fabs(scale->high)) >= 1e4) {
        part_thousands(digits, sizeof digits);
    }
    snprintf(out, LS_SCALE_TEXT, "%s%s", value < 0.0 && magnitude > 0.0 ? minus : "", digits);
}

/* Charts of every kind from invented data, shaped like the real ones; and one whose every text is hostile. */
#ifndef LIVESIDE_TESTS_CHART_SAMPLES_H
#define LIVESIDE_TESTS_CHART_SAMPLES_H

#include "check.h"

#include "liveside/chart.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static inline void sample_texts(ls_chart *chart, const char *title, const char *subtitle)
{
    snprintf(chart->title, sizeof chart->title, "%s", title);
    snprintf(chart->subtitle, sizeof chart->subtitle, "%s", subtitle);
    snprintf(
        chart->caution, sizeof chart->caution, "%s",
        "Training and study only; never for flight planning or to set a speed. The approved flight manual, the "
        "authority and a licensed instructor decide. Never explore VMC in flight near the ground or the stall.");
    snprintf(chart->provenance, sizeof chart->provenance, "%s", "liveside   invented data   no input file");
}

static inline void sample_axis(ls_chart_axis *axis, const char *label, const char *unit)
{
    snprintf(axis->label, sizeof axis->label, "%s", label);
    snprintf(axis->unit, sizeof axis->unit, "%s", unit);
}

/* Minimum control speed against bank: four handedness options over the stall. */
static inline void sample_bank(ls_chart *chart)
{
    static const char *const option[] = {"both clockwise (this aeroplane)", "both anticlockwise", "tops inboard",
                                         "tops outboard"};
    static const double level_kt[] = {86.5, 81.0, 79.0, 91.5};
    static const double slope[] = {2.9, 2.75, 2.6, 3.05};
    ls_chart_start(chart, LS_CHART_CURVES, "vmc-against-bank");
    sample_texts(
        chart, "Whimbrel: minimum control speed against bank",
        "Left engine failed, propeller windmilling; take-off power, flap 0, gear up; sea level, ISA; 1610 kg");
    sample_axis(&chart->x, "bank toward the live engine", "deg");
    sample_axis(&chart->y[0], "Minimum control speed", "kt CAS");
    ls_chart_add_region(chart, LS_REGION_BELOW, 0, "wing stalled");
    for (int i = 0; i <= 60; i++) {
        double bank_deg = -5.0 + 0.25 * i;
        ls_chart_add_point(chart, bank_deg, 62.0 + 0.004 * bank_deg * bank_deg);
    }
    for (int n = 0; n < 4; n++) {
        ls_chart_add_curve(chart, n == 0 ? LS_CURVE_MAIN : LS_CURVE_OTHER, 0, option[n]);
        for (int i = 0; i <= 60; i++) {
            double b = -5.0 + 0.25 * i;
            double stall_kt = 62.0 + 0.004 * b * b;
            ls_chart_add_point(chart, b, fmax(level_kt[n] - slope[n] * b + 0.03 * b * b, stall_kt));
        }
    }
    ls_chart_add_vertical(chart, 5.0, "5 deg");
    ls_chart_add_horizontal(chart, 0, 80.0, "published VMC 80 KIAS");
    ls_chart_add_mark(chart, 0, 5.0, 72.75, "72.8 kt at 5 deg");
}

/* Minimum control speed and stall against altitude, with their crossing. */
static inline void sample_altitude(ls_chart *chart)
{
    ls_chart_start(chart, LS_CHART_CURVES, "vmc-against-altitude");
    sample_texts(chart, "Whimbrel: minimum control speed and stall against altitude",
                 "Left engine failed, propeller windmilling; bank 5 deg toward the live engine; 1610 kg");
    sample_axis(&chart->x, "pressure altitude", "ft");
    sample_axis(&chart->y[0], "Speed", "kt CAS");
    ls_chart_add_region(chart, LS_REGION_BELOW, 0, "wing stalled");
    for (int i = 0; i <= 48; i++) {
        ls_chart_add_point(chart, 250.0 * i, 62.0);
    }
    ls_chart_add_curve(chart, LS_CURVE_MAIN, 0, "minimum control speed");
    for (int i = 0; i <= 28; i++) {
        ls_chart_add_point(chart, 250.0 * i, 76.0 - 0.5 * i);
    }
    ls_chart_add_curve(chart, LS_CURVE_FAINT, 0, "control limit, below the stall");
    for (int i = 28; i <= 48; i++) {
        ls_chart_add_point(chart, 250.0 * i, 76.0 - 0.5 * i);
    }
    ls_chart_add_curve(chart, LS_CURVE_OTHER, 0, "wings level");
    for (int i = 0; i <= 48; i++) {
        ls_chart_add_point(chart, 250.0 * i, i % 20 == 10 ? NAN : 88.0 - 0.5 * i);
    }
    ls_chart_add_mark(chart, 0, 7000.0, 62.0, "VMC meets the stall at 7000 ft");
}

/* Control use against speed at a bank, the sideslip in a panel of its own. */
static inline void sample_control(ls_chart *chart)
{
    static const char *const control[] = {"rudder", "aileron", "pedal force"};
    static const double at_vmc[] = {100.0, 40.0, 91.0};
    static const double power[] = {2.0, 1.8, 0.3};
    ls_chart_start(chart, LS_CHART_CURVES, "control-use");
    sample_texts(
        chart, "Whimbrel: control use against speed",
        "Left engine failed, propeller windmilling; bank 5 deg toward the live engine; sea level, ISA; 1610 kg");
    chart->panels = 2;
    sample_axis(&chart->x, "speed", "kt CAS");
    sample_axis(&chart->y[0], "Control used", "% of its limit");
    sample_axis(&chart->y[1], "Sideslip, wind from the dead side positive", "deg");
    chart->y[0].with_zero = chart->y[1].with_zero = 1;
    for (int panel = 0; panel < 2; panel++) {
        ls_chart_add_region(chart, LS_REGION_LEFT, panel, panel == 0 ? "stalled" : "");
        ls_chart_add_point(chart, 62.0, -1000.0);
        ls_chart_add_point(chart, 62.0, 1000.0);
    }
    for (int n = 0; n < 3; n++) {
        ls_chart_add_curve(chart, n == 0 ? LS_CURVE_MAIN : LS_CURVE_OTHER, 0, control[n]);
        for (int speed_kt = 62; speed_kt <= 110; speed_kt++) {
            ls_chart_add_point(chart, speed_kt, at_vmc[n] * pow(72.8 / speed_kt, power[n]));
        }
    }
    ls_chart_add_curve(chart, LS_CURVE_MAIN, 1, "sideslip");
    for (int speed_kt = 62; speed_kt <= 110; speed_kt++) {
        ls_chart_add_point(chart, speed_kt, 3.0 - 9.0 * pow(72.8 / speed_kt, 2.0));
    }
    ls_chart_add_vertical(chart, 72.8, "VMC 72.8 kt");
    ls_chart_add_horizontal(chart, 0, 100.0, "limit");
}

static inline void sample_bars(ls_chart *chart, const char *const row[], const double left[], const double right[],
                               int n)
{
    for (int i = 0; i < n; i++) {
        char text[32];
        int at = ls_chart_add_row(chart, row[i]);
        snprintf(text, sizeof text, "%+.1f", left[i]);
        ls_chart_add_bar(chart, at, 0, 0.0, left[i], text);
        snprintf(text, sizeof text, "%+.1f", right[i]);
        ls_chart_add_bar(chart, at, 1, 0.0, right[i], text);
    }
}

/* Factors in the order of their weight, two bars of a row on one line; the last pair goes the same way. */
static inline void sample_tornado(ls_chart *chart)
{
    static const char *const row[] = {"Live-engine thrust ±5 %",
                                      "Cn rudder ±10 %",
                                      "Rudder travel ±1 deg",
                                      "Drag of the dead propeller ±20 %",
                                      "Centre of gravity ±1 % MAC",
                                      "Weight ±50 kg",
                                      "Cl beta ±20 %",
                                      "Temperature ±10 °C"};
    static const double lowered[] = {-2.4, 2.2, 1.5, -1.1, -0.7, 0.9, -0.3, 0.4};
    static const double raised[] = {2.5, -1.9, -1.4, 1.2, 0.8, -0.8, 0.3, 0.2};
    ls_chart_start(chart, LS_CHART_BARS, "factors");
    sample_texts(chart, "Whimbrel: what moves the minimum control speed",
                 "Change of VMC from 72.8 kt at 5 deg toward the live engine");
    chart->bars_overlaid = 1;
    sample_axis(&chart->x, "change of VMC", "kt");
    ls_chart_add_group(chart, "value lowered");
    ls_chart_add_group(chart, "value raised");
    sample_bars(chart, row, lowered, raised, 8);
}

/* Moments with the left engine failed beside those with the right one failed; one has no answer. */
static inline void sample_moments(ls_chart *chart)
{
    static const char *const row[] = {"Live thrust on its arm",       "Shift of thrust in the disc",
                                      "Drag of the dead propeller",   "Rudder",
                                      "Fin and fuselage in sideslip", "Aileron"};
    static const double left[] = {9.8, 0.9, 1.4, -10.9, -1.1, -0.1};
    static const double right[] = {-9.8, 0.7, -1.4, 9.2, 1.3, NAN};
    ls_chart_start(chart, LS_CHART_BARS, "moments");
    sample_texts(chart, "Whimbrel: yawing moments at 85 kt, left beside right engine failed",
                 "Bank 5 deg toward the live engine; sea level, ISA; 1610 kg");
    sample_axis(&chart->x, "yawing moment, nose right positive", "kN m");
    ls_chart_add_group(chart, "left engine failed");
    ls_chart_add_group(chart, "right engine failed");
    sample_bars(chart, row, left, right, 6);
}

/* Minimum control speed over weight and centre of gravity, with a corner that has no answer. */
static inline void sample_map(ls_chart *chart)
{
    enum { NX = 13, NY = 9 };
    ls_chart_start(chart, LS_CHART_MAP, "vmc-map");
    sample_texts(chart, "Whimbrel: minimum control speed against weight and centre of gravity",
                 "Left engine failed, propeller windmilling; bank 5 deg toward the live engine; sea level, ISA");
    sample_axis(&chart->x, "weight", "kg");
    sample_axis(&chart->y[0], "Centre of gravity", "% MAC");
    snprintf(chart->map.label, sizeof chart->map.label, "Minimum control speed");
    snprintf(chart->map.unit, sizeof chart->map.unit, "kt CAS");
    if (!ls_chart_size_map(chart, NX, NY)) {
        return;
    }
    for (int i = 0; i < NX; i++) {
        chart->map.x[i] = 1200.0 + 45.0 * i;
    }
    for (int j = 0; j < NY; j++) {
        chart->map.y[j] = 14.0 + 2.5 * j;
        for (int i = 0; i < NX; i++) {
            double weight = i / (NX - 1.0);
            double aft = j / (NY - 1.0);
            double vmc_kt = 82.0 - 14.0 * weight + 7.0 * aft * aft + 3.0 * sin(4.0 * weight + 3.0 * aft);
            chart->map.z[j * NX + i] = i > 10 && j < 2 ? NAN : vmc_kt;
        }
    }
    ls_chart_add_mark(chart, 0, 1610.0, 31.2, "the file's worst case");
    ls_chart_add_vertical(chart, 1725.0, "maximum take-off weight");
}

/* A rear view to scale with arrows. */
static inline void sample_drawing(ls_chart *chart)
{
    static const double outline[][2] = {{-5.5, .35}, {-.6, 0},  {-.5, -.5}, {.5, -.5}, {.6, 0},    {5.5, .35},
                                        {5.5, .45},  {.6, .25}, {.4, .8},   {-.4, .8}, {-.6, .25}, {-5.5, .45}};
    double c = cos(0.0873);
    double s = sin(0.0873);
    ls_chart_start(chart, LS_CHART_DRAWING, "rear-view");
    sample_texts(chart, "Whimbrel: rear view at VMC, bank 5 deg toward the live engine",
                 "Left engine failed; a metre of arrow is 4 kN");
    ls_chart_add_shape(chart, LS_SHAPE_LINE, LS_INK_FAINT, "horizon", LS_SIDE_RIGHT);
    ls_chart_add_point(chart, -6.5, 0.0);
    ls_chart_add_point(chart, 6.5, 0.0);
    ls_chart_add_shape(chart, LS_SHAPE_POLYGON, LS_INK_BODY, "", LS_SIDE_AUTO);
    for (size_t i = 0; i < sizeof outline / sizeof outline[0]; i++) {
        ls_chart_add_point(chart, outline[i][0] * c + outline[i][1] * s, outline[i][1] * c - outline[i][0] * s);
    }
    ls_chart_add_circle(chart, LS_INK_FAINT, -1.9 * c, 1.9 * s, 0.94, "dead", LS_SIDE_BELOW);
    ls_chart_add_circle(chart, LS_INK_BODY, 1.9 * c, -1.9 * s, 0.94, "live", LS_SIDE_BELOW);
    ls_chart_add_arrow(chart, LS_INK_MAIN, 0.0, 0.0, 0.0, -3.5, "weight 15.8 kN", LS_SIDE_BELOW);
    ls_chart_add_arrow(chart, LS_INK_SECOND, 0.0, 0.0, 3.5 * s, 3.5 * c, "lift", LS_SIDE_ABOVE);
    ls_chart_add_arrow(chart, LS_INK_THIRD, 0.0, 1.4, -2.3, 1.4, "side force of the rudder", LS_SIDE_AUTO);
    ls_chart_add_text(chart, 3.5, 2.5, "live side", LS_SIDE_CENTRE);
}

typedef void (*sample_builder)(ls_chart *chart);

static const sample_builder sample_table[] = {sample_bank,    sample_altitude, sample_control, sample_tornado,
                                              sample_moments, sample_map,      sample_drawing};

enum { SAMPLES = sizeof sample_table / sizeof sample_table[0] };

/* Texts that would do harm if gnuplot took them for anything but text. */
static const char *const hostile_table[] = {
    "`touch pwned`",
    "'; system(\"touch pwned\"); a='",
    "\"; system('touch pwned'); \"",
    "\n!touch pwned\n",
    "!touch pwned",
    "@touch {/=40 big} a_b^c \\n \\",
    "<script>alert(1)</script> &amp; ]]>",
    "x\nEND\nsystem(\"touch pwned\")\n$y << END",
    "} unset output; system(\"touch pwned\") {",
    "\x1b[31m red \x07 \x7f tab\t \xc2\x9b \xe2\x80\xae bidi",
    "\xff\xc3\x28 broken, \xe9\x80\x9f whole, é ° – ×",
    "''",
    "'",
    "\\'",
    "'' 'a'''b '''' c''",
    "x''. system(\"touch pwned\") .''y",
    "x'''. system(\"touch pwned\") .'''y",
};

enum { HOSTILES = sizeof hostile_table / sizeof hostile_table[0] };

/* Fills a chart of a kind with one text wherever a text goes. */
static inline void sample_hostile(ls_chart *chart, ls_chart_kind kind, const char *text)
{
    ls_chart_start(chart, kind, "hostile");
    snprintf(chart->title, sizeof chart->title, "%s", text);
    snprintf(chart->subtitle, sizeof chart->subtitle, "%s", text);
    snprintf(chart->caution, sizeof chart->caution, "%s", text);
    snprintf(chart->provenance, sizeof chart->provenance, "%s", text);
    sample_axis(&chart->x, text, text);
    sample_axis(&chart->y[0], text, text);
    snprintf(chart->map.label, sizeof chart->map.label, "%s", text);
    snprintf(chart->map.unit, sizeof chart->map.unit, "%s", text);
    if (ls_chart_size_map(chart, 3, 3)) {
        for (int i = 0; i < 9; i++) {
            chart->map.x[i % 3] = i % 3;
            chart->map.y[i / 3] = i / 3;
            chart->map.z[i] = i;
        }
    }
    ls_chart_add_curve(chart, LS_CURVE_MAIN, 0, text);
    for (int i = 0; i < 9; i++) {
        ls_chart_add_point(chart, 0.25 * i, 0.2 * i);
    }
    ls_chart_add_region(chart, LS_REGION_BELOW, 0, text);
    ls_chart_add_point(chart, 0.0, 0.4);
    ls_chart_add_point(chart, 2.0, 0.4);
    ls_chart_add_vertical(chart, 1.0, text);
    ls_chart_add_horizontal(chart, 0, 1.0, text);
    ls_chart_add_mark(chart, 0, 1.5, 1.5, text);
    ls_chart_add_arrow(chart, LS_INK_MAIN, 0.0, 1.0, 1.0, 2.0, text, LS_SIDE_AUTO);
    ls_chart_add_text(chart, 0.5, 1.5, text, LS_SIDE_RIGHT);
    ls_chart_add_group(chart, text);
    ls_chart_add_bar(chart, ls_chart_add_row(chart, text), 0, 0.0, 1.0, text);
}

#endif

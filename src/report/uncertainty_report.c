#include "report/uncertainty_report.h"

#include "report/caution.h"
#include "report/input_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define COUNT(columns) (int)(sizeof(columns) / sizeof(columns)[0])

static const char *shape_name(ls_shape shape)
{
    static const char *const names[LS_SHAPES] = {"normal", "uniform", "triangular", "truncated"};
    return (unsigned)shape < LS_SHAPES ? names[shape] : "unknown";
}

/* "79.2 KCAS"; a speed outside what was searched has no number. */
static const char *speed(const ls_uncertainty_view *view, double m_s, char out[LS_PHRASE])
{
    if (!isfinite(m_s)) {
        snprintf(out, LS_PHRASE, "%s", m_s > 0 ? "above the range" : "no limit");
        return out;
    }
    return ls_phrase_cas(m_s, view->units, 0, out);
}

static const ls_sampled *percentile(const ls_uncertainty *result, double share)
{
    int i = 0;
    while (i < LS_PERCENTILES - 1 && fabs(result->share[i] - share) > 1e-9) {
        i++;
    }
    return &result->percentile[i];
}

static void say_answer(ls_report *report, const ls_uncertainty_view *view)
{
    const ls_uncertainty *result = view->result;
    char nominal[LS_PHRASE], median[LS_PHRASE], low[LS_PHRASE], high[LS_PHRASE];
    ls_report_answer(
        report, "%s: VMC %s as the numbers stand; median %s, nine samples in ten between %s and %s.",
        view->aircraft->name, isnan(result->nominal_m_s) ? "none" : speed(view, result->nominal_m_s, nominal),
        speed(view, percentile(result, 0.5)->value, median), speed(view, percentile(result, 0.05)->value, low),
        speed(view, percentile(result, 0.95)->value, high));
    ls_report_line(report, "%ld samples, %s, seed %lu; %s.", result->samples,
                   view->request->sampling == LS_SAMPLES_SOBOL ? "from a Sobol sequence" : "drawn at random",
                   (unsigned long)view->request->seed,
                   view->request->sets > 1 ? "of each the highest speed of the failures counts" : "one failure");
}

/* "12.3 % (11.9 to 12.7)" */
static const char *share_text(const ls_sampled *share, char out[LS_PHRASE])
{
    snprintf(out, LS_PHRASE, "%.2f %% (%.2f to %.2f)", 100.0 * share->value, 100.0 * fmax(0.0, share->low),
             100.0 * fmin(1.0, share->high));
    return out;
}

static void say_shares(ls_report *report, const ls_uncertainty_view *view)
{
    const ls_uncertainty *result = view->result;
    char text[LS_PHRASE], asked[LS_PHRASE];
    if (view->request->exceeds_m_s > 0.0) {
        ls_report_line(report, "Above %s: %s.", speed(view, view->request->exceeds_m_s, asked),
                       share_text(&result->exceeds, text));
    }
    ls_report_line(report, "Above 1.2 stall speeds at maximum weight (14 CFR 23.149(b), Amdt 23-50): %s.",
                   share_text(&result->exceeds_stall, text));
    double all = (double)result->samples;
    if (result->kinds[LS_VMC_STALLS_FIRST] > 0) {
        ls_report_line(report,
                       "In %.1f %% of the samples the wing stalls with control left: its stall speed counts.",
                       100.0 * (double)result->kinds[LS_VMC_STALLS_FIRST] / all);
    }
    if (result->kinds[LS_VMC_NO_LIMIT] > 0) {
        ls_report_line(report, "In %.1f %% no limit is met: they count as below every speed.",
                       100.0 * (double)result->kinds[LS_VMC_NO_LIMIT] / all);
    }
    if (result->kinds[LS_VMC_ABOVE_RANGE] > 0) {
        ls_report_line(report,
                       "In %.1f %% a limit is exceeded at three stall speeds already: they count as above.",
                       100.0 * (double)result->kinds[LS_VMC_ABOVE_RANGE] / all);
    }
    if (result->kinds[LS_VMC_FAILED] > 0) {
        ls_report_warning(report, "%ld samples have no answer and are left out.", result->kinds[LS_VMC_FAILED]);
    }
    double values = all * view->request->inputs;
    if ((double)result->clipped > 0.001 * values) {
        ls_report_warning(report,
                          "%.1f %% of the values drawn lie outside what the file allows and were set to its end.",
                          100.0 * (double)result->clipped / values);
    }
}

static void table_of_percentiles(ls_report *report, const ls_uncertainty_view *view)
{
    static const ls_column columns[] = {
        {"below", "below, %", LS_DIM_NUMBER, 0, LS_IN_ALL, NULL},
        {"vmc", "VMC, CAS", LS_DIM_SPEED, 2, LS_IN_ALL, NULL},
        {"low", "95 %: from", LS_DIM_SPEED, 2, LS_IN_ALL, NULL},
        {"high", "to", LS_DIM_SPEED, 2, LS_IN_ALL, NULL},
    };
    ls_report_line(report, "%s", "");
    ls_table *table =
        ls_report_table(report, "percentiles", NULL, LS_IN_TEXT | LS_IN_JSON, columns, COUNT(columns));
    for (int i = 0; i < LS_PERCENTILES; i++) {
        const ls_sampled *at = &view->result->percentile[i];
        ls_table_row(table);
        ls_table_number(table, 100.0 * view->result->share[i]);
        ls_table_number(table, at->value);
        ls_table_number(table, at->low);
        ls_table_number(table, at->high);
    }
    ls_report_line(report, "%s", "");
}

static void table_of_inputs(ls_report *report, const ls_uncertainty_view *view)
{
    static const ls_column columns[] = {
        {"input", "input", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"value", "value", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"spread", "spread", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"shape", "shape", LS_WORDS, 0, LS_IN_TEXT, NULL},
    };
    ls_table *table = ls_report_table(report, "input_table", NULL, LS_IN_TEXT, columns, COUNT(columns));
    for (int i = 0; i < view->request->inputs; i++) {
        const ls_input *input = &view->request->input[i];
        char name[LS_INPUT_WORDS], value[LS_PHRASE], spread[LS_PHRASE];
        ls_table_row(table);
        ls_table_words(table, "%s", ls_input_short(input, name));
        ls_table_words(table, "%s", ls_input_value(input, input->base, view->units, value));
        ls_table_words(table, "%s", ls_input_step(input, input->spread, view->units, spread));
        ls_table_words(table, "%s", shape_name(input->shape));
    }
    ls_report_line(report, "%s", "");
}

static void table_of_indices(ls_report *report, const ls_uncertainty_view *view)
{
    static const ls_column columns[] = {
        {"input", "share of the variance", LS_WORDS, 0, LS_IN_TEXT, NULL},
        {"first", "alone", LS_DIM_NUMBER, 3, LS_IN_TEXT, NULL},
        {"first_half", "+-", LS_DIM_NUMBER, 3, LS_IN_TEXT, NULL},
        {"total", "in all", LS_DIM_NUMBER, 3, LS_IN_TEXT, NULL},
        {"total_half", "+-", LS_DIM_NUMBER, 3, LS_IN_TEXT, NULL},
    };
    if (view->result->indices == 0) {
        return;
    }
    ls_table *table = ls_report_table(report, "index_table", NULL, LS_IN_TEXT, columns, COUNT(columns));
    for (int i = 0; i < view->request->inputs; i++) {
        char name[LS_INPUT_WORDS];
        const ls_input_index *index = &view->result->index[i];
        ls_table_row(table);
        ls_table_words(table, "%s", ls_input_short(&view->request->input[i], name));
        ls_table_number(table, index->first.value);
        ls_table_number(table, index->first.high - index->first.value);
        ls_table_number(table, index->total.value);
        ls_table_number(table, index->total.high - index->total.value);
    }
    ls_report_line(report, "%s", "");
}

static void say_indices(ls_report *report, const ls_uncertainty_view *view)
{
    const ls_uncertainty *result = view->result;
    for (int i = 0; i < view->request->inputs; i++) {
        for (int k = 0; k < i; k++) {
            if (view->request->correlation[i][k] != 0.0) {
                ls_report_line(report, "Correlated by %.2f: %s and %s.", view->request->correlation[i][k],
                               view->request->input[k].name, view->request->input[i].name);
            }
        }
    }
    if (result->indices > 0) {
        ls_report_line(
            report,
            "Alone: what the input has of the variance of VMC by itself; in all: with what it "
            "does together with others (Sobol indices, 95 %% intervals from %d replicates, %ld samples).",
            result->indices, result->index_samples);
    }
    if (result->index_dropped > 0) {
        ls_report_warning(report, "%ld rows of the indices have no VMC somewhere and are left out.",
                          result->index_dropped);
    }
}

/* One row an input, for data. */
static void data_of_inputs(ls_report *report, const ls_uncertainty_view *view)
{
    static const ls_column columns[] = {
        {"input", "", LS_WORDS, 0, LS_IN_JSON, NULL},
        {"unit", "", LS_WORDS, 0, LS_IN_JSON, NULL},
        {"value", "", LS_DIM_NUMBER, 6, LS_IN_JSON, NULL},
        {"spread", "", LS_DIM_NUMBER, 6, LS_IN_JSON, NULL},
        {"shape", "", LS_WORDS, 0, LS_IN_JSON, NULL},
        {"first", "", LS_DIM_NUMBER, 4, LS_IN_JSON, NULL},
        {"first_low", "", LS_DIM_NUMBER, 4, LS_IN_JSON, NULL},
        {"first_high", "", LS_DIM_NUMBER, 4, LS_IN_JSON, NULL},
        {"total", "", LS_DIM_NUMBER, 4, LS_IN_JSON, NULL},
        {"total_low", "", LS_DIM_NUMBER, 4, LS_IN_JSON, NULL},
        {"total_high", "", LS_DIM_NUMBER, 4, LS_IN_JSON, NULL},
    };
    ls_table *table = ls_report_table(report, "uncertain_inputs", NULL, LS_IN_JSON, columns, COUNT(columns));
    for (int i = 0; i < view->request->inputs; i++) {
        const ls_input *input = &view->request->input[i];
        const ls_unit *unit = ls_input_unit(input, view->units);
        const ls_input_index *index = &view->result->index[i < LS_UNCERTAIN_INDICES ? i : 0];
        ls_table_row(table);
        ls_table_words(table, "%s", input->name);
        ls_table_words(table, "%s", unit->name);
        ls_table_number(table, ls_unit_from_si(unit, input->base));
        ls_table_number(table, input->spread / unit->factor);
        ls_table_words(table, "%s", shape_name(input->shape));
        const double numbers[] = {index->first.value, index->first.low, index->first.high,
                                  index->total.value, index->total.low, index->total.high};
        for (int k = 0; k < 6; k++) {
            ls_table_number(table, view->result->indices > 0 ? numbers[k] : NAN);
        }
    }
}

/* The histogram, for data: each class with the share below its upper end. */
static void data_of_classes(ls_report *report, const ls_uncertainty_view *view)
{
    static const ls_column columns[] = {
        {"from", "", LS_DIM_SPEED, 3, LS_IN_DATA, NULL},
        {"to", "", LS_DIM_SPEED, 3, LS_IN_DATA, NULL},
        {"samples", "", LS_DIM_NUMBER, 0, LS_IN_DATA, NULL},
    };
    const ls_uncertainty *result = view->result;
    ls_table *table = ls_report_table(report, "histogram", NULL, LS_IN_DATA, columns, COUNT(columns));
    for (int i = 0; i < LS_HISTOGRAM && result->class_width_m_s > 0.0; i++) {
        ls_table_row(table);
        ls_table_number(table, result->class_from_m_s + i * result->class_width_m_s);
        ls_table_number(table, result->class_from_m_s + (i + 1) * result->class_width_m_s);
        ls_table_number(table, (double)result->class_count[i]);
    }
}

static void data_of_estimate(ls_report *report, const char *path, const ls_sampled *estimate)
{
    char name[LS_PHRASE];
    snprintf(name, sizeof name, "%s.share", path);
    ls_report_number(report, name, LS_DIM_NUMBER, NULL, estimate->value);
    snprintf(name, sizeof name, "%s.low", path);
    ls_report_number(report, name, LS_DIM_NUMBER, NULL, estimate->low);
    snprintf(name, sizeof name, "%s.high", path);
    ls_report_number(report, name, LS_DIM_NUMBER, NULL, estimate->high);
}

static void data(ls_report *report, const ls_uncertainty_view *view)
{
    const ls_uncertainty *result = view->result;
    static const char *const kinds[] = {"control", "stalls_first", "no_limit", "above_range", "failed"};
    ls_report_number(report, "samples.asked", LS_DIM_NUMBER, NULL, (double)result->asked);
    ls_report_number(report, "samples.drawn", LS_DIM_NUMBER, NULL, (double)result->samples);
    ls_report_number(report, "samples.seed", LS_DIM_NUMBER, NULL, (double)view->request->seed);
    for (int i = 0; i <= LS_VMC_FAILED; i++) {
        char name[LS_PHRASE];
        snprintf(name, sizeof name, "samples.%s", kinds[i]);
        ls_report_number(report, name, LS_DIM_NUMBER, NULL, (double)result->kinds[i]);
    }
    ls_report_number(report, "nominal", LS_DIM_SPEED, NULL, result->nominal_m_s);
    ls_report_number(report, "mean", LS_DIM_SPEED, NULL, result->mean_m_s);
    ls_report_number(report, "deviation", LS_DIM_SPEED, NULL, result->deviation_m_s);
    if (view->request->exceeds_m_s > 0.0) {
        ls_report_number(report, "exceeds.speed", LS_DIM_SPEED, NULL, view->request->exceeds_m_s);
        data_of_estimate(report, "exceeds", &result->exceeds);
    }
    data_of_estimate(report, "exceeds_1_2_stall", &result->exceeds_stall);
    data_of_inputs(report, view);
    data_of_classes(report, view);
}

void ls_uncertainty_report(ls_report *report, const ls_uncertainty_view *view)
{
    say_answer(report, view);
    say_shares(report, view);
    table_of_percentiles(report, view);
    table_of_inputs(report, view);
    table_of_indices(report, view);
    say_indices(report, view);
    data(report, view);
    ls_report_cautions(report, view->uncertain, view->request->bank_rad, 0);
}

void ls_chart_of_uncertainty(ls_chart *chart, const ls_uncertainty_view *view, int slide)
{
    const ls_uncertainty *result = view->result;
    const ls_unit *unit = ls_unit_preferred(view->units, LS_DIM_SPEED);
    double all = 0.0, below = 0.0, width = result->class_width_m_s / unit->factor;
    double from = result->class_from_m_s / unit->factor;
    ls_chart_start(chart, LS_CHART_CURVES, "uncertainty");
    chart->slide = slide;
    chart->panels = 2;
    snprintf(chart->title, sizeof chart->title, "%.100s: how sure the minimum control speed is%s",
             view->aircraft->name, view->is_partial ? " (a partial run)" : "");
    snprintf(chart->x.label, sizeof chart->x.label, "calibrated airspeed");
    snprintf(chart->x.unit, sizeof chart->x.unit, "%s", unit->name);
    snprintf(chart->y[0].label, sizeof chart->y[0].label, "share of samples per %.3g %s", width, unit->name);
    snprintf(chart->y[1].label, sizeof chart->y[1].label, "samples below");
    snprintf(chart->y[0].unit, sizeof chart->y[0].unit, "%%");
    snprintf(chart->y[1].unit, sizeof chart->y[1].unit, "%%");
    chart->y[0].with_zero = 1;
    chart->y[1].high = 100.0;
    for (int i = 0; i < LS_HISTOGRAM; i++) {
        all += (double)result->class_count[i];
    }
    all = all > 0.0 ? all : 1.0;
    ls_chart_add_curve(chart, LS_CURVE_MAIN, 0, "");
    ls_chart_add_point(chart, from, 0.0);
    for (int i = 0; i < LS_HISTOGRAM; i++) {
        double share = 100.0 * (double)result->class_count[i] / all;
        ls_chart_add_point(chart, from + i * width, share);
        ls_chart_add_point(chart, from + (i + 1) * width, share);
    }
    ls_chart_add_point(chart, from + LS_HISTOGRAM * width, 0.0);
    ls_chart_add_curve(chart, LS_CURVE_MAIN, 1, "");
    ls_chart_add_point(chart, from, 0.0);
    for (int i = 0; i < LS_HISTOGRAM; i++) {
        below += 100.0 * (double)result->class_count[i] / all;
        ls_chart_add_point(chart, from + (i + 1) * width, below);
    }
    ls_chart_add_vertical(chart, result->nominal_m_s / unit->factor, "as the numbers stand");
    if (view->request->exceeds_m_s > 0.0) {
        ls_chart_add_vertical(chart, view->request->exceeds_m_s / unit->factor, "asked about");
    }
    ls_chart_add_horizontal(chart, 1, 5.0, "5 %");
    ls_chart_add_horizontal(chart, 1, 95.0, "95 %");
}

/* Writes a laid-out page down as a gnuplot script. */
#include "core/number.h"
#include "liveside/chart.h"
#include "liveside/text.h"
#include "report/chart_check.h"
#include "report/chart_page.h"
#include "report/chart_text.h"
#include "report/gnuplot_style.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { QUOTED = 2 * LS_CHART_TEXT + 8 };

static void write_head(const ls_chart *chart, FILE *out)
{
    fprintf(out,
            "# Made by liveside. Draw it with: gnuplot %s.gp\n"
            "# That writes %s.svg and %s.png (gnuplot 5.2 or later).\n"
            "set encoding utf8\n",
            chart->name, chart->name, chart->name);
}

/* Writes a text as one string, its apostrophes apart: gnuplot (5.4) reads a doubled one wrongly at a string's
 * beginning and next to another. */
static void write_text(const char *name, int number, const char *text, FILE *out)
{
    fprintf(out, "%s_%d = ", name, number);
    for (;;) {
        char piece[LS_CHART_TEXT];
        char quoted[QUOTED];
        size_t length = strcspn(text, "'");
        ls_chart_text_copy(piece, length < sizeof piece ? length + 1 : sizeof piece, text);
        ls_text_for_gnuplot(piece, quoted, sizeof quoted);
        fputs(quoted, out);
        if (text[length] == '\0') {
            break;
        }
        fputs(".\"'\".", out);
        text += length + 1;
    }
    fputc('\n', out);
}

/* All text stands here, out of reach of any other syntax. The PNG terminal blackens a picture that holds a letter
 * which no installed font has, so it gets a text without rare letters where that makes a difference. */
static void write_texts(const ls_page *page, FILE *out)
{
    fputs("\n# Text\n", out);
    for (int i = 0; i < page->texts; i++) {
        char common[LS_CHART_TEXT];
        write_text("text", i + 1, page->text[i].text, out);
        if (ls_chart_text_common(page->text[i].text, common)) {
            write_text("png_text", i + 1, common, out);
        }
    }
}

static int is_finite(const ls_chart_point *p)
{
    return isfinite(p->x) && isfinite(p->y);
}

static int is_empty(const ls_page *page, const ls_page_layer *layer)
{
    for (int i = layer->first; i < layer->first + layer->count; i++) {
        if (is_finite(&page->point[i])) {
            return 0;
        }
    }
    return 1;
}

/* A blank line parts runs: gnuplot then lifts the pen. */
static void write_layer_data(const ls_page *page, int number, FILE *out)
{
    const ls_page_layer *layer = &page->layer[number];
    int run = 0;
    int parted = 1;
    fprintf(out, "$%s_%d << END\n", layer->name, number + 1);
    for (int i = layer->first; i < layer->first + layer->count; i++) {
        const ls_chart_point *p = &page->point[i];
        if (is_finite(p)) {
            fprintf(out, "%s%.9g %.9g\n", run > 0 && parted ? "\n" : "", p->x, p->y);
            run++;
            parted = 0;
        } else {
            parted = 1;
        }
    }
    fputs("END\n", out);
}

static void write_data(const ls_page *page, FILE *out)
{
    fputs("\n# Data, in the axes' units\n", out);
    for (int i = 0; i < page->layers; i++) {
        if (!is_empty(page, &page->layer[i])) {
            write_layer_data(page, i, out);
        }
    }
}

static void write_style(FILE *out)
{
    fputs("\n", out);
    for (int i = 0; ls_gnuplot_style[i] != NULL; i++) {
        fprintf(out, "%s\n", ls_gnuplot_style[i]);
    }
}

static void write_terminals(const ls_page *page, const ls_chart *chart, FILE *out)
{
    const double scale = 2.0; /* pixels of the PNG for each of the page */
    fprintf(out,
            "\nif (!exists('out')) out = '%s'\n"
            "if (!exists('formats')) formats = 'svg png'\n"
            "do for [format in formats] {\n"
            "if (format eq 'svg') {\n"
            "    set terminal svg noenhanced size %.0f,%.0f font 'sans-serif,%.4g' background '#ffffff'\n"
            "} else {\n"
            "    set terminal pngcairo noenhanced size %.0f,%.0f font 'sans-serif,%.4g' fontscale %.4g "
            "linewidth %.4g pointscale %.4g dashlength 2 background '#ffffff'\n"
            "}\n"
            "set output out.'.'.format\n",
            chart->name, page->width, page->height, page->em, scale * page->width, scale * page->height, page->em,
            0.75 * scale, scale, 1.65 * scale);
}

static void write_canvas(const ls_page *page, FILE *out)
{
    static const char *const align[] = {"left", "center", "right"};
    double w = page->width;
    double h = page->height;
    for (int i = 0; i < page->texts; i++) {
        const ls_page_text *t = &page->text[i];
        char common[LS_CHART_TEXT];
        int differs = ls_chart_text_common(t->text, common);
        fprintf(out, differs ? "set label (format eq 'svg' ? text_%d : png_text_%d)" : "set label text_%d", i + 1,
                i + 1);
        fprintf(out, " at screen %.5f,%.5f %s font ',%.1f' textcolor rgb '#%06x' noenhanced front", t->x / w,
                t->y / h, align[t->align], t->size * page->em, t->rgb);
        if (t->angle_rad != 0.0) {
            fprintf(out, " rotate by %.1f", t->angle_rad * 180.0 / acos(-1.0));
        }
        fputc('\n', out);
    }
    for (int i = 0; i < page->strokes; i++) {
        const ls_page_stroke *s = &page->stroke[i];
        if (s->x0 == s->x1 && s->y0 == s->y1) {
            fprintf(out, "set label '' at screen %.5f,%.5f point ls %d front\n", s->x0 / w, s->y0 / h, s->style);
        } else {
            fprintf(out, "set arrow from screen %.5f,%.5f to screen %.5f,%.5f nohead ls %d front\n", s->x0 / w,
                    s->y0 / h, s->x1 / w, s->y1 / h, s->style);
        }
    }
    for (int i = 0; i < page->rectangles; i++) {
        const ls_page_rectangle *r = &page->rectangle[i];
        fprintf(
            out,
            "set object rectangle from screen %.5f,%.5f to screen %.5f,%.5f fc rgb '#%06x' fs solid 1.0 border "
            "lc rgb '#3a4757' lw 1.0\n",
            r->x0 / w, r->y0 / h, r->x1 / w, r->y1 / h, r->rgb);
    }
}

static void write_ticks(const char *axis, const ls_scale *scale, int numbers, FILE *out)
{
    double first = ls_scale_first(scale);
    fprintf(out, "set %stics nomirror scale 0.4 textcolor rgb '#%06x' (", axis, LS_RGB_TEXT);
    for (int i = 0; i < ls_scale_count(scale); i++) {
        char text[LS_SCALE_TEXT];
        ls_scale_text(scale, first + i * scale->step, text);
        fprintf(out, "%s'%s' %.9g", i > 0 ? ", " : "", numbers ? text : "", first + i * scale->step);
    }
    fputs(")\n", out);
}

static void write_frame(const ls_page *page, int number, FILE *out)
{
    const ls_page_frame *f = &page->frame[number];
    fprintf(out,
            "set lmargin at screen %.5f\nset rmargin at screen %.5f\n"
            "set bmargin at screen %.5f\nset tmargin at screen %.5f\n"
            "set xrange [%.9g:%.9g]\nset yrange [%.9g:%.9g]\n",
            f->left / page->width, f->right / page->width, f->bottom / page->height, f->top / page->height,
            f->x.low, f->x.high, f->y.low, f->y.high);
    if (page->bare) {
        fputs("unset border\nunset xtics\nunset ytics\n", out);
        return;
    }
    write_ticks("x", &f->x, f->x_numbers, out);
    if (f->y_numbers) {
        write_ticks("y", &f->y, 1, out);
    } else {
        fputs("unset ytics\n", out);
    }
    if (page->x_grid || page->y_grid) {
        fprintf(out, "set grid %s %s back ls 18\n", page->x_grid ? "xtics" : "noxtics",
                page->y_grid ? "ytics" : "noytics");
    }
}

static void write_element(const ls_page *page, int number, FILE *out)
{
    const ls_page_layer *layer = &page->layer[number];
    char block[64];
    snprintf(block, sizeof block, "$%s_%d using 1:2 with", layer->name, number + 1);
    if (layer->kind == LS_LAYER_FILL || layer->kind == LS_LAYER_FILL_OUTLINE) {
        fprintf(out, ", \\\n    %s filledcurves closed fc rgb '#%06x' fs solid 1.0 noborder", block, layer->rgb);
    }
    if (layer->kind == LS_LAYER_LINES || layer->kind == LS_LAYER_FILL_OUTLINE) {
        fprintf(out, ", \\\n    %s lines ls %d", block, layer->style);
    }
    if (layer->kind == LS_LAYER_SYMBOLS) {
        if (layer->style > LS_STYLE_MAIN && layer->style < LS_STYLE_FAINT) { /* keeps the line out of the symbol */
            fprintf(out, ", \\\n    %s points pt 7 ps 1.1 lc rgb '#ffffff'", block);
        }
        fprintf(out, ", \\\n    %s points ls %d", block, layer->style);
    }
}

static void write_panels(const ls_page *page, FILE *out)
{
    fputs("unset key\nset border 3 ls 19\nset clip two\n", out);
    if (page->frames > 1) {
        fputs("set multiplot\n", out);
    }
    for (int panel = 0; panel < page->frames; panel++) {
        write_frame(page, panel, out);
        fputs("plot NaN", out);
        for (int i = 0; i < page->layers; i++) {
            if (page->layer[i].panel == panel && !is_empty(page, &page->layer[i])) {
                write_element(page, i, out);
            }
        }
        fputs("\nunset label\nunset arrow\nunset object\n", out);
    }
    fputs(page->frames > 1 ? "unset multiplot\nunset output\n}\n" : "unset output\n}\n", out);
}

/* The script of a chart that is in order. */
static ls_status write_script(const ls_chart *chart, ls_page *page, FILE *out, ls_error *error)
{
    ls_status status = ls_page_lay_out(page, chart, error);
    if (status == LS_OK) {
        write_head(chart, out);
        write_texts(page, out);
        write_data(page, out);
        write_style(out);
        write_terminals(page, chart, out);
        write_canvas(page, out);
        write_panels(page, out);
    }
    return status;
}

ls_status ls_chart_write(const ls_chart *chart, FILE *out, ls_error *error)
{
    ls_plain_locale points;
    ls_status status = ls_chart_check(chart, error);
    if (status != LS_OK) {
        return status;
    }
    ls_page *page = calloc(1, sizeof *page);
    if (page == NULL || !ls_plain_locale_enter(&points)) {
        free(page);
        return ls_fail(error, LS_MEMORY, "chart %s: no memory for its page", chart->name);
    }
    status = write_script(chart, page, out, error);
    ls_plain_locale_leave(&points);
    free(page->point);
    free(page);
    return status;
}

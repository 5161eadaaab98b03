# Made by liveside. Draw it with: gnuplot vmc-against-bank.gp
# That writes vmc-against-bank.svg and vmc-against-bank.png (gnuplot 5.2 or later).
set encoding utf8

# Text
text_1 = 'Whimbrel: minimum control speed against bank'
text_2 = 'sea level, ISA, take-off power, flap up, gear up, 2756 lb, CG 96.1 in (aft), 1.2 in left of the centreline, left failed, windmilling'
text_3 = 'For training and study only; never for flight planning or to set a speed. The approved flight manual, the authority and a licensed instructor decide. Never explore minimum'
text_4 = 'control speed in flight near the ground or near the stall.'
text_5 = 'liveside 0.1.0, aircraft/whimbrel.yaml, SHA-256 1d449ef9d85a'
text_6 = 'calibrated airspeed, kt'
text_7 = 'bank toward the live engine, deg'
text_8 = '5 deg limit'
text_9 = 'all clockwise (as built), all anticlockwise,'
text_10 = 'tops outboard'
text_11 = 'tops inboard'
text_12 = 'wing stalled'

# Data, in the axes' units
$region_1 << END
-5 50.8573044
-4.75 50.8691565
-4.5 50.8804464
-4.25 50.8911738
-4 50.9013382
-3.75 50.9109393
-3.5 50.9199768
-3.25 50.9284503
-3 50.9363598
-2.75 50.943705
-2.5 50.9504859
-2.25 50.9567023
-2 50.9623544
-1.75 50.9674422
-1.5 50.9719658
-1.25 50.9759255
-1 50.9793215
-0.75 50.9821541
-0.5 50.9844238
-0.25 50.986131
-7.9513867e-16 50.9872763
0.25 50.9878603
0.5 50.9878838
0.75 50.9873474
1 50.9862521
1.25 50.9845988
1.5 50.9823885
1.75 50.9796224
2 50.9763015
2.25 50.9724273
2.5 50.968001
2.75 50.963024
3 50.957498
3.25 50.9514245
3.5 50.9448053
3.75 50.937642
4 50.9299367
4.25 50.9216912
4.5 50.9129076
4.75 50.9035881
5 50.8937347
5.25 50.8833499
5.5 50.8724359
5.75 50.8609952
6 50.8490302
6.25 50.8365436
6.5 50.823538
6.75 50.810016
7 50.7959804
7.25 50.7814339
7.5 50.7663794
7.75 50.7508197
8 50.7347577
8.25 50.7181963
8.5 50.7011384
8.75 50.6835869
9 50.6655446
9.25 50.6470146
9.5 50.6279997
9.75 50.6085027
10 50.5885263
10 45
-5 45
END
$boundary_2 << END
-5 50.8573044
-4.75 50.8691565
-4.5 50.8804464
-4.25 50.8911738
-4 50.9013382
-3.75 50.9109393
-3.5 50.9199768
-3.25 50.9284503
-3 50.9363598
-2.75 50.943705
-2.5 50.9504859
-2.25 50.9567023
-2 50.9623544
-1.75 50.9674422
-1.5 50.9719658
-1.25 50.9759255
-1 50.9793215
-0.75 50.9821541
-0.5 50.9844238
-0.25 50.986131
-7.9513867e-16 50.9872763
0.25 50.9878603
0.5 50.9878838
0.75 50.9873474
1 50.9862521
1.25 50.9845988
1.5 50.9823885
1.75 50.9796224
2 50.9763015
2.25 50.9724273
2.5 50.968001
2.75 50.963024
3 50.957498
3.25 50.9514245
3.5 50.9448053
3.75 50.937642
4 50.9299367
4.25 50.9216912
4.5 50.9129076
4.75 50.9035881
5 50.8937347
5.25 50.8833499
5.5 50.8724359
5.75 50.8609952
6 50.8490302
6.25 50.8365436
6.5 50.823538
6.75 50.810016
7 50.7959804
7.25 50.7814339
7.5 50.7663794
7.75 50.7508197
8 50.7347577
8.25 50.7181963
8.5 50.7011384
8.75 50.6835869
9 50.6655446
9.25 50.6470146
9.5 50.6279997
9.75 50.6085027
10 50.5885263
END
$reference_3 << END
5 45
5 95
END
$curve_4 << END
-5 91.0598133
-4.75 90.7221917
-4.5 90.3834808
-4.25 90.043693
-4 89.7028416
-3.75 89.3609404
-3.5 89.0180041
-3.25 88.6740481
-3 88.3290886
-2.75 87.9831424
-2.5 87.6362276
-2.25 87.2883629
-2 86.939568
-1.75 86.5898637
-1.5 86.2392716
-1.25 85.8878146
-1 85.5355166
-0.75 85.1824027
-0.5 84.8284992
-0.25 84.4738337
-7.9513867e-16 84.1184352
0.25 83.7623338
0.5 83.4055614
0.75 83.0481511
1 82.6901375
1.25 82.331557
1.5 81.9723376
1.75 81.6121975
2 81.2511494
2.25 80.8892276
2.5 80.5264683
2.75 80.1629098
3 79.7985927
3.25 79.4335598
3.5 79.0678566
3.75 78.7015305
4 78.334632
4.25 77.967214
4.5 77.5993321
4.75 77.2310447
5 76.8624133
5.25 76.4935021
5.5 76.1243783
5.75 75.7551123
6 75.3857776
6.25 75.0164506
6.5 74.6472112
6.75 74.2781421
7 73.9093294
7.25 73.5408622
7.5 73.1728326
7.75 72.805336
8 72.4384703
8.25 72.0723365
8.5 71.7070383
8.75 71.3426817
9 70.9793752
9.25 70.6172295
9.5 70.256357
9.75 69.8968719
10 69.5388897
END
$symbols_5 << END
-3.6784831 89.2628375
-1.23351612 85.8645856
1.20893803 82.3904531
3.64912409 78.8493444
6.08752835 75.2564713
8.52611862 71.6689723
END
$curve_6 << END
-5 91.5067682
-4.75 91.1724739
-4.5 90.8371514
-4.25 90.5008142
-4 90.1634765
-3.75 89.825153
-3.5 89.4858592
-3.25 89.1456114
-3 88.8044265
-2.75 88.4623225
-2.5 88.1193179
-2.25 87.7754323
-2 87.430686
-1.75 87.0851006
-1.5 86.7386983
-1.25 86.3915024
-1 86.0435374
-0.75 85.6948289
-0.5 85.3454035
-0.25 84.9952891
-7.9513867e-16 84.6445147
0.25 84.2931108
0.5 83.9411089
0.75 83.5885422
1 83.2354451
1.25 82.8818534
1.5 82.5278047
1.75 82.1733332
2 81.8182059
2.25 81.4622979
2.5 81.1056451
2.75 80.7482849
3 80.3902568
3.25 80.0316024
3.5 79.6723654
3.75 79.3125915
4 78.952329
4.25 78.5916283
4.5 78.2305421
4.75 77.8691258
5 77.507437
5.25 77.145536
5.5 76.7834858
5.75 76.4213518
6 76.0592021
6.25 75.6971075
6.5 75.3351414
6.75 74.9733801
7 74.6119021
7.25 74.2507889
7.5 73.8901243
7.75 73.5299948
8 73.1704893
8.25 72.8116988
8.5 72.4537166
8.75 72.0966382
9 71.7405609
9.25 71.3855837
9.5 71.0318072
9.75 70.6793332
10 70.3282647
END

# Curves: 1 the main one, 2 to 9 the others in their order
set style line 1 lc rgb '#1b2a41' lw 3.4 dt solid pt 7 ps 0.77
set style line 2 lc rgb '#b4430c' lw 2.2 dt (10,5) pt 4 ps 0.85
set style line 3 lc rgb '#0b6e69' lw 2.2 dt (14,4,2,4) pt 8 ps 0.94
set style line 4 lc rgb '#6d3fa0' lw 2.6 dt (2,3) pt 6 ps 0.85
set style line 5 lc rgb '#7a5c00' lw 1.3 dt solid pt 12 ps 1
set style line 6 lc rgb '#1f5fa6' lw 1.3 dt (18,8) pt 5 ps 0.68
set style line 7 lc rgb '#a3315f' lw 1.3 dt (18,5,3,5,3,5) pt 9 ps 0.77
set style line 8 lc rgb '#44611c' lw 1.3 dt (5,6) pt 11 ps 0.77
set style line 9 lc rgb '#555555' lw 3.4 dt (4,4) pt 13 ps 0.85
# Faint continuation, region's boundary, reference, contour, mark, leader, zero
set style line 11 lc rgb '#8c8c8c' lw 1.2 dt (3,5)
set style line 12 lc rgb '#7a746a' lw 1.6 dt solid
set style line 13 lc rgb '#6b6b6b' lw 0.9 dt solid
set style line 14 lc rgb '#2f3e50' lw 1.0 dt solid
set style line 15 lc rgb '#111111' lw 1.4 dt solid pt 7 ps 0.77
set style line 16 lc rgb '#8c8c8c' lw 0.8 dt solid
set style line 17 lc rgb '#333333' lw 1.4 dt solid
# Grid and frame
set style line 18 lc rgb '#dddddd' lw 0.7 dt solid
set style line 19 lc rgb '#8a8a8a' lw 1.0 dt solid
# Measured points
set style line 21 lc rgb '#111111' lw 1.6 pt 1 ps 0.94
set style line 22 lc rgb '#b4430c' lw 1.6 pt 2 ps 0.94
set style line 23 lc rgb '#0b6e69' lw 1.6 pt 4 ps 0.85
set style line 24 lc rgb '#6d3fa0' lw 1.6 pt 6 ps 0.85
# Outline of a body or a bar
set style line 31 lc rgb '#3a4757' lw 1.1 dt solid

if (!exists('out')) out = 'vmc-against-bank'
if (!exists('formats')) formats = 'svg png'
do for [format in formats] {
if (format eq 'svg') {
    set terminal svg noenhanced size 960,640 font 'sans-serif,14' background '#ffffff'
} else {
    set terminal pngcairo noenhanced size 1920,1280 font 'sans-serif,14' fontscale 1.5 linewidth 2 pointscale 3.3 dashlength 2 background '#ffffff'
}
set output out.'.'.format
set label text_1 at screen 0.01750,0.96200 left font ',19.9' textcolor rgb '#222222' noenhanced front
set label text_2 at screen 0.01750,0.92479 left font ',13.0' textcolor rgb '#5c5c5c' noenhanced front
set label text_3 at screen 0.01750,0.06654 left font ',10.4' textcolor rgb '#767676' noenhanced front
set label text_4 at screen 0.01750,0.04518 left font ',10.4' textcolor rgb '#767676' noenhanced front
set label text_5 at screen 0.01750,0.02381 left font ',10.4' textcolor rgb '#767676' noenhanced front
set label text_6 at screen 0.01750,0.89058 left font ',14.0' textcolor rgb '#222222' noenhanced front
set label text_7 at screen 0.50569,0.09801 center font ',14.0' textcolor rgb '#222222' noenhanced front
set label text_8 at screen 0.66390,0.83943 left font ',13.0' textcolor rgb '#5c5c5c' noenhanced front
set label text_9 at screen 0.50954,0.76201 center font ',14.0' textcolor rgb '#1b2a41' noenhanced front
set label text_10 at screen 0.50954,0.73532 center font ',14.0' textcolor rgb '#1b2a41' noenhanced front
set label text_11 at screen 0.60003,0.59122 center font ',14.0' textcolor rgb '#b4430c' noenhanced front
set label text_12 at screen 0.09996,0.17579 center font ',13.0' textcolor rgb '#5c5c5c' noenhanced front
unset key
set border 3 ls 19
set clip two
set lmargin at screen 0.04637
set rmargin at screen 0.96500
set bmargin at screen 0.15817
set tmargin at screen 0.86324
set xrange [-5:10]
set yrange [45:95]
set xtics nomirror scale 0.4 textcolor rgb '#222222' ('−5' -5, '−4' -4, '−3' -3, '−2' -2, '−1' -1, '0' 0, '1' 1, '2' 2, '3' 3, '4' 4, '5' 5, '6' 6, '7' 7, '8' 8, '9' 9, '10' 10)
set ytics nomirror scale 0.4 textcolor rgb '#222222' ('45' 45, '50' 50, '55' 55, '60' 60, '65' 65, '70' 70, '75' 75, '80' 80, '85' 85, '90' 90, '95' 95)
set grid xtics ytics back ls 18
plot NaN, \
    $region_1 using 1:2 with filledcurves closed fc rgb '#e9e6df' fs solid 1.0 noborder, \
    $boundary_2 using 1:2 with lines ls 12, \
    $reference_3 using 1:2 with lines ls 13, \
    $curve_4 using 1:2 with lines ls 2, \
    $symbols_5 using 1:2 with points pt 7 ps 1.1 lc rgb '#ffffff', \
    $symbols_5 using 1:2 with points ls 2, \
    $curve_6 using 1:2 with lines ls 1
unset label
unset arrow
unset object
unset output
}

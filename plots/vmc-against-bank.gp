# Made by liveside. Draw it with: gnuplot vmc-against-bank.gp
# That writes vmc-against-bank.svg and vmc-against-bank.png (gnuplot 5.2 or later).
set encoding utf8

# Text
text_1 = 'Whimbrel: minimum control speed against bank'
text_2 = 'sea level, ISA, take-off power, flap up, gear up, 2756 lb, CG 96.1 in (aft), 1.2 in left of the centreline, left failed, windmilling'
text_3 = 'For training and study only; never for flight planning or to set a speed. The approved flight manual, the authority and a licensed instructor decide. Never explore minimum'
text_4 = 'control speed in flight near the ground or near the stall.'
text_5 = 'liveside 0.1.0, aircraft/whimbrel.yaml, SHA-256 0035e2c5332e'
text_6 = 'calibrated airspeed, kt'
text_7 = 'bank toward the live engine, deg'
text_8 = '5 deg limit'
text_9 = 'all clockwise (as built), all'
text_10 = 'anticlockwise'
text_11 = 'tops outboard'
text_12 = 'tops inboard'
text_13 = 'wing stalled'

# Data, in the axes' units
$region_1 << END
-5 50.9054284
-4.75 50.9168359
-4.5 50.9276869
-4.25 50.9379811
-4 50.9477184
-3.75 50.9568986
-3.5 50.9655216
-3.25 50.9735876
-3 50.9810964
-2.75 50.9880483
-2.5 50.9944434
-2.25 51.0002818
-2 51.005564
-1.75 51.0102903
-1.5 51.0144611
-1.25 51.0180769
-1 51.0211383
-0.75 51.0236459
-0.5 51.0256005
-0.25 51.0270028
-7.9513867e-16 51.0278537
0.25 51.0281541
0.5 51.0279051
0.75 51.0271078
1 51.0257634
1.25 51.0238731
1.5 51.0214383
1.75 51.0184604
2 51.0149409
2.25 51.0108815
2.5 51.0062837
2.75 51.0011495
3 50.9954806
3.25 50.9892789
3.5 50.9825464
3.75 50.9752853
4 50.9674977
4.25 50.9591858
4.5 50.950352
4.75 50.9409985
5 50.9311279
5.25 50.9207426
5.5 50.9098453
5.75 50.8984384
6 50.8865247
6.25 50.8741069
6.5 50.8611876
6.75 50.8477698
7 50.8338561
7.25 50.8194494
7.5 50.8045525
7.75 50.7891683
8 50.7732994
8.25 50.7569489
8.5 50.7401193
8.75 50.7228136
9 50.7050343
9.25 50.6867841
9.5 50.6680657
9.75 50.6488816
10 50.6292342
10 45
-5 45
END
$boundary_2 << END
-5 50.9054284
-4.75 50.9168359
-4.5 50.9276869
-4.25 50.9379811
-4 50.9477184
-3.75 50.9568986
-3.5 50.9655216
-3.25 50.9735876
-3 50.9810964
-2.75 50.9880483
-2.5 50.9944434
-2.25 51.0002818
-2 51.005564
-1.75 51.0102903
-1.5 51.0144611
-1.25 51.0180769
-1 51.0211383
-0.75 51.0236459
-0.5 51.0256005
-0.25 51.0270028
-7.9513867e-16 51.0278537
0.25 51.0281541
0.5 51.0279051
0.75 51.0271078
1 51.0257634
1.25 51.0238731
1.5 51.0214383
1.75 51.0184604
2 51.0149409
2.25 51.0108815
2.5 51.0062837
2.75 51.0011495
3 50.9954806
3.25 50.9892789
3.5 50.9825464
3.75 50.9752853
4 50.9674977
4.25 50.9591858
4.5 50.950352
4.75 50.9409985
5 50.9311279
5.25 50.9207426
5.5 50.9098453
5.75 50.8984384
6 50.8865247
6.25 50.8741069
6.5 50.8611876
6.75 50.8477698
7 50.8338561
7.25 50.8194494
7.5 50.8045525
7.75 50.7891683
8 50.7732994
8.25 50.7569489
8.5 50.7401193
8.75 50.7228136
9 50.7050343
9.25 50.6867841
9.5 50.6680657
9.75 50.6488816
10 50.6292342
END
$reference_3 << END
5 45
5 92.5
END
$curve_4 << END
-5 88.7283465
-4.75 88.4217904
-4.5 88.1143464
-4.25 87.8060218
-4 87.4968246
-3.75 87.1867629
-3.5 86.8758454
-3.25 86.5640813
-3 86.25148
-2.75 85.9380515
-2.5 85.6238065
-2.25 85.3087559
-2 84.9929114
-1.75 84.6762852
-1.5 84.35889
-1.25 84.0407394
-1 83.7218474
-0.75 83.402229
-0.5 83.0818996
-0.25 82.7608757
-7.9513867e-16 82.4391746
0.25 82.1168295
0.5 81.7938698
0.75 81.4703163
1 81.1461911
1.25 80.8215169
1.5 80.4963185
1.75 80.1706213
2 79.8444515
2.25 79.5178369
2.5 79.1908061
2.75 78.8633894
3 78.533446
3.25 78.1786485
3.5 77.8234595
3.75 77.4679254
4 77.1120943
4.25 76.7560161
4.5 76.3997426
4.75 76.0433276
5 75.6868267
5.25 75.3302976
5.5 74.9737998
5.75 74.6173951
6 74.2611472
6.25 73.9051224
6.5 73.5493883
6.75 73.1940148
7 72.8390735
7.25 72.4846382
7.5 72.1307844
7.75 71.7775897
8 71.4251333
8.25 71.0734961
8.5 70.7227609
8.75 70.3730117
9 70.0243439
9.25 69.6769228
9.5 69.3308544
9.75 68.9862288
10 68.6431369
END
$symbols_5 << END
-3.69842458 87.1226201
-1.29154319 84.0936074
1.11134654 81.0015857
3.50778729 77.8123849
5.89023868 74.4175562
8.27390731 71.0399556
END
$curve_6 << END
-5 89.1269151
-4.75 88.8211105
-4.5 88.5144121
-4.25 88.2068269
-4 87.8983622
-3.75 87.5890258
-3.5 87.2788257
-3.25 86.9677705
-3 86.6558691
-2.75 86.3431308
-2.5 86.0295657
-2.25 85.7151839
-2 85.3999964
-1.75 85.0840145
-1.5 84.7672504
-1.25 84.4497166
-1 84.1314263
-0.75 83.8123934
-0.5 83.4926325
-0.25 83.172159
-7.9513867e-16 82.8509889
0.25 82.5291391
0.5 82.2066365
0.75 81.883517
1 81.5598013
1.25 81.2355112
1.5 80.910669
1.75 80.5852989
2 80.2594259
2.25 79.9330759
2.5 79.6062761
2.75 79.2790549
3 78.9514419
3.25 78.623468
3.5 78.2734592
3.75 77.9180893
4 77.5623606
4.25 77.2063202
4.5 76.8500171
4.75 76.493502
5 76.1368276
5.25 75.7800482
5.5 75.4232204
5.75 75.0664023
6 74.7096544
6.25 74.3530388
6.5 73.9966202
6.75 73.6404648
7 73.2846406
7.25 72.9292177
7.5 72.5742681
7.75 72.2198654
8 71.8660853
8.25 71.513005
8.5 71.1607034
8.75 70.809261
9 70.4587599
9.25 70.1092851
9.5 69.7609943
9.75 69.4140106
10 69.0684224
END
$symbols_7 << END
-4.20429839 88.1504376
-1.79611401 85.1422993
0.60785833 82.067232
3.00849811 78.9402933
5.39303483 75.575893
7.77566206 72.1835505
END
$curve_8 << END
-5 89.2956113
-4.75 88.991676
-4.5 88.6868432
-4.25 88.3811197
-4 88.0745125
-3.75 87.7670292
-3.5 87.4586775
-3.25 87.1494658
-3 86.8394027
-2.75 86.5284973
-2.5 86.2167592
-2.25 85.9041983
-2 85.5908252
-1.75 85.276651
-1.5 84.9616873
-1.25 84.6459464
-1 84.3294409
-0.75 84.0121845
-0.5 83.6941912
-0.25 83.3754758
-7.9513867e-16 83.056054
0.25 82.735942
0.5 82.4151576
0.75 82.0937359
1 81.7717048
1.25 81.4490854
1.5 81.1258994
1.75 80.80217
2 80.4779216
2.25 80.1531796
2.5 79.8279704
2.75 79.5023214
3 79.1762613
3.25 78.8498202
3.5 78.5198552
3.75 78.1662942
4 77.8123451
4.25 77.4580539
4.5 77.1034678
4.75 76.7486362
5 76.3936101
5.25 76.0384424
5.5 75.6831878
5.75 75.327903
6 74.9726464
6.25 74.6174786
6.5 74.2624623
6.75 73.907662
7 73.5531442
7.25 73.198977
7.5 72.8452303
7.75 72.4919762
8 72.1392882
8.25 71.7872418
8.5 71.4359141
8.75 71.0853835
9 70.7357304
9.25 70.387036
9.5 70.0393918
9.75 69.6929629
10 69.3478561
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
set label text_7 at screen 0.37896,0.09801 center font ',14.0' textcolor rgb '#222222' noenhanced front
set label text_8 at screen 0.49492,0.83943 left font ',13.0' textcolor rgb '#5c5c5c' noenhanced front
set label text_9 at screen 0.77571,0.58427 left font ',14.0' textcolor rgb '#1b2a41' noenhanced front
set label text_10 at screen 0.77571,0.55758 left font ',14.0' textcolor rgb '#1b2a41' noenhanced front
set label text_11 at screen 0.77571,0.51471 left font ',14.0' textcolor rgb '#0b6e69' noenhanced front
set label text_12 at screen 0.77571,0.45849 left font ',14.0' textcolor rgb '#b4430c' noenhanced front
set label text_13 at screen 0.09626,0.17579 center font ',13.0' textcolor rgb '#5c5c5c' noenhanced front
set arrow from screen 0.71373,0.51958 to screen 0.72758,0.57092 nohead ls 16 front
set arrow from screen 0.73050,0.57092 to screen 0.76842,0.57092 nohead ls 1 front
set arrow from screen 0.71373,0.51543 to screen 0.72758,0.51471 nohead ls 16 front
set arrow from screen 0.73050,0.51471 to screen 0.76842,0.51471 nohead ls 3 front
set label '' at screen 0.74946,0.51471 point ls 3 front
set arrow from screen 0.71373,0.50912 to screen 0.72758,0.45849 nohead ls 16 front
set arrow from screen 0.73050,0.45849 to screen 0.76842,0.45849 nohead ls 2 front
set label '' at screen 0.74946,0.45849 point ls 2 front
unset key
set border 3 ls 19
set clip two
set lmargin at screen 0.04637
set rmargin at screen 0.71154
set bmargin at screen 0.15817
set tmargin at screen 0.86324
set xrange [-5:10]
set yrange [45:92.5]
set xtics nomirror scale 0.4 textcolor rgb '#222222' ('−4' -4, '−2' -2, '0' 0, '2' 2, '4' 4, '6' 6, '8' 8, '10' 10)
set ytics nomirror scale 0.4 textcolor rgb '#222222' ('45' 45, '50' 50, '55' 55, '60' 60, '65' 65, '70' 70, '75' 75, '80' 80, '85' 85, '90' 90)
set grid xtics ytics back ls 18
plot NaN, \
    $region_1 using 1:2 with filledcurves closed fc rgb '#e9e6df' fs solid 1.0 noborder, \
    $boundary_2 using 1:2 with lines ls 12, \
    $reference_3 using 1:2 with lines ls 13, \
    $curve_4 using 1:2 with lines ls 2, \
    $symbols_5 using 1:2 with points pt 7 ps 1.1 lc rgb '#ffffff', \
    $symbols_5 using 1:2 with points ls 2, \
    $curve_6 using 1:2 with lines ls 3, \
    $symbols_7 using 1:2 with points pt 7 ps 1.1 lc rgb '#ffffff', \
    $symbols_7 using 1:2 with points ls 3, \
    $curve_8 using 1:2 with lines ls 1
unset label
unset arrow
unset object
unset output
}

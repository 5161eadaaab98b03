# Made by liveside. Draw it with: gnuplot vmc-against-bank.gp
# That writes vmc-against-bank.svg and vmc-against-bank.png (gnuplot 5.2 or later).
set encoding utf8

# Text
text_1 = 'Whimbrel: minimum control speed against bank'
text_2 = 'sea level, ISA, take-off power, flap up, gear up, 2756 lb, CG 96.1 in (aft), 1.2 in left of the centreline, left failed, windmilling'
text_3 = 'For training and study only; never for flight planning or to set a speed. The approved flight manual, the authority and a licensed instructor decide. Never explore minimum'
text_4 = 'control speed in flight near the ground or near the stall.'
text_5 = 'liveside 0.1.0, aircraft/whimbrel.yaml, SHA-256 62ac256ffd18'
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
-5 51.0228797
-4.75 51.0345601
-4.5 51.0456703
-4.25 51.0562095
-4 51.0661765
-3.75 51.0755704
-3.5 51.0843904
-3.25 51.0926355
-3 51.100305
-2.75 51.1073982
-2.5 51.1139146
-2.25 51.1198535
-2 51.1252146
-1.75 51.1299974
-1.5 51.1342018
-1.25 51.1378275
-1 51.1408746
-0.75 51.143343
-0.5 51.145233
-0.25 51.1465448
-7.9513867e-16 51.1472789
0.25 51.1474359
0.5 51.1470163
0.75 51.1460212
1 51.1444513
1.25 51.142308
1.5 51.1395924
1.75 51.1363061
2 51.1324506
2.25 51.1280278
2.5 51.1230396
2.75 51.1174882
3 51.1113759
3.25 51.1047053
3.5 51.0974791
3.75 51.0897001
4 51.0813715
4.25 51.0724966
4.5 51.0630787
4.75 51.0531217
5 51.0426294
5.25 51.0316057
5.5 51.0200548
5.75 51.0079813
6 50.9953895
6.25 50.9822842
6.5 50.9686701
6.75 50.9545522
7 50.9399355
7.25 50.9248252
7.5 50.9092264
7.75 50.8931444
8 50.8765844
8.25 50.8595517
8.5 50.8420515
8.75 50.8240891
9 50.8056694
9.25 50.7867976
9.5 50.7674784
9.75 50.7477166
10 50.7275166
10 45
-5 45
END
$boundary_2 << END
-5 51.0228797
-4.75 51.0345601
-4.5 51.0456703
-4.25 51.0562095
-4 51.0661765
-3.75 51.0755704
-3.5 51.0843904
-3.25 51.0926355
-3 51.100305
-2.75 51.1073982
-2.5 51.1139146
-2.25 51.1198535
-2 51.1252146
-1.75 51.1299974
-1.5 51.1342018
-1.25 51.1378275
-1 51.1408746
-0.75 51.143343
-0.5 51.145233
-0.25 51.1465448
-7.9513867e-16 51.1472789
0.25 51.1474359
0.5 51.1470163
0.75 51.1460212
1 51.1444513
1.25 51.142308
1.5 51.1395924
1.75 51.1363061
2 51.1324506
2.25 51.1280278
2.5 51.1230396
2.75 51.1174882
3 51.1113759
3.25 51.1047053
3.5 51.0974791
3.75 51.0897001
4 51.0813715
4.25 51.0724966
4.5 51.0630787
4.75 51.0531217
5 51.0426294
5.25 51.0316057
5.5 51.0200548
5.75 51.0079813
6 50.9953895
6.25 50.9822842
6.5 50.9686701
6.75 50.9545522
7 50.9399355
7.25 50.9248252
7.5 50.9092264
7.75 50.8931444
8 50.8765844
8.25 50.8595517
8.5 50.8420515
8.75 50.8240891
9 50.8056694
9.25 50.7867976
9.5 50.7674784
9.75 50.7477166
10 50.7275166
END
$reference_3 << END
5 45
5 92.5
END
$curve_4 << END
-5 87.8112794
-4.75 87.4064205
-4.5 87.0001044
-4.25 86.592341
-4 86.1831408
-3.75 85.7725147
-3.5 85.3604744
-3.25 84.9470326
-3 84.5322033
-2.75 84.1160011
-2.5 83.6984421
-2.25 83.2795436
-2 82.8593241
-1.75 82.437804
-1.5 82.0150263
-1.25 81.5910313
-1 81.1658471
-0.75 80.739503
-0.5 80.3120305
-0.25 79.8834634
-7.9513867e-16 79.4538374
0.25 79.023191
0.5 78.5915653
0.75 78.1590038
1 77.7255533
1.25 77.2912634
1.5 76.8561872
1.75 76.420381
2 75.9839049
2.25 75.5468225
2.5 75.1092017
2.75 74.6711143
3 74.2326366
3.25 73.7938491
3.5 73.3548374
3.75 72.9156916
4 72.4765068
4.25 72.0373833
4.5 71.5984271
4.75 71.1597496
5 70.7214672
5.25 70.2837013
5.5 69.8465791
5.75 69.4102327
6 68.9747998
6.25 68.540423
6.5 68.10725
6.75 67.6754331
7 67.2451288
7.25 66.8164978
7.5 66.3897367
7.75 65.9650663
8 65.5426579
8.25 65.1226838
8.5 64.7053174
8.75 64.2907319
9 63.8791003
9.25 63.4705937
9.5 63.0653812
9.75 62.6636327
10 62.2655334
END
$symbols_5 << END
-3.73143983 85.7419245
-1.38907718 81.8269034
0.94553773 77.8199801
3.27475242 73.7503827
5.60278277 69.6671835
7.93650622 65.6499391
END
$curve_6 << END
-5 89.5152867
-4.75 89.1139143
-4.5 88.7110817
-4.25 88.3067973
-4 87.9010698
-3.75 87.4939088
-3.5 87.0853246
-3.25 86.6753288
-3 86.2639339
-2.75 85.8511529
-2.5 85.437
-2.25 85.0214904
-2 84.6046405
-1.75 84.1864681
-1.5 83.766992
-1.25 83.3462328
-1 82.9242124
-0.75 82.5009545
-0.5 82.0765022
-0.25 81.6509063
-7.9513867e-16 81.2241992
0.25 80.7964148
0.5 80.3675894
0.75 79.9377614
1 79.5069722
1.25 79.0752655
1.5 78.6426881
1.75 78.2092896
2 77.7751229
2.25 77.3402443
2.5 76.9047133
2.75 76.4685935
3 76.0319519
3.25 75.5948597
3.5 75.1573923
3.75 74.7196292
4 74.2816547
4.25 73.8435572
4.5 73.4054303
4.75 72.9673721
5 72.5294858
5.25 72.0918796
5.5 71.6546669
5.75 71.2179665
6 70.7819019
6.25 70.3466012
6.5 69.9121977
6.75 69.478829
7 69.0466377
7.25 68.6157702
7.5 68.1863771
7.75 67.7586127
8 67.3326342
8.25 66.9086018
8.5 66.4866963
8.75 66.0671457
9 65.6501212
9.25 65.2357883
9.5 64.8243121
9.75 64.415856
10 64.0105811
END
$symbols_7 << END
-4.22368523 88.2640908
-1.87718115 84.3992027
0.461015388 80.4344597
2.79274728 76.3939325
5.12133362 72.3171005
7.45234323 68.2682311
9.79396263 64.3445882
END
$curve_8 << END
-5 89.6325502
-4.75 89.2332259
-4.5 88.8324333
-4.25 88.4301802
-4 88.026475
-3.75 87.6213269
-3.5 87.2147457
-3.25 86.8067422
-3 86.3973289
-2.75 85.9865182
-2.5 85.5743238
-2.25 85.1607602
-2 84.7458432
-1.75 84.3295898
-1.5 83.9120182
-1.25 83.493148
-1 83.0730006
-0.75 82.6515985
-0.5 82.228973
-0.25 81.8051804
-7.9513867e-16 81.3802552
0.25 80.9542306
0.5 80.5271416
0.75 80.0990255
1 79.6699221
1.25 79.239874
1.5 78.8089262
1.75 78.3771271
2 77.9445277
2.25 77.5111827
2.5 77.0771499
2.75 76.6424907
3 76.2072704
3.25 75.771558
3.5 75.3354268
3.75 74.8989541
4 74.4622216
4.25 74.0253157
4.5 73.5883273
4.75 73.1513519
5 72.7144902
5.25 72.2778475
5.5 71.8415344
5.75 71.4056672
6 70.9703665
6.25 70.535758
6.5 70.1019718
6.75 69.6691431
7 69.2374114
7.25 68.8069208
7.5 68.3778192
7.75 67.9502583
8 67.5243933
8.25 67.1003821
8.5 66.6783866
8.75 66.2586267
9 65.8412946
9.25 65.426555
9.5 65.0145722
9.75 64.6055093
10 64.1995275
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
set label text_9 at screen 0.77571,0.50221 left font ',14.0' textcolor rgb '#1b2a41' noenhanced front
set label text_10 at screen 0.77571,0.47553 left font ',14.0' textcolor rgb '#1b2a41' noenhanced front
set label text_11 at screen 0.77571,0.43265 left font ',14.0' textcolor rgb '#0b6e69' noenhanced front
set label text_12 at screen 0.77571,0.37643 left font ',14.0' textcolor rgb '#b4430c' noenhanced front
set label text_13 at screen 0.09626,0.17579 center font ',13.0' textcolor rgb '#5c5c5c' noenhanced front
set arrow from screen 0.71373,0.44316 to screen 0.72758,0.48887 nohead ls 16 front
set arrow from screen 0.73050,0.48887 to screen 0.76842,0.48887 nohead ls 1 front
set arrow from screen 0.71373,0.44035 to screen 0.72758,0.43265 nohead ls 16 front
set arrow from screen 0.73050,0.43265 to screen 0.76842,0.43265 nohead ls 3 front
set label '' at screen 0.74946,0.43265 point ls 3 front
set arrow from screen 0.71373,0.41445 to screen 0.72758,0.37643 nohead ls 16 front
set arrow from screen 0.73050,0.37643 to screen 0.76842,0.37643 nohead ls 2 front
set label '' at screen 0.74946,0.37643 point ls 2 front
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

# Made by liveside. Draw it with: gnuplot vmc-against-bank.gp
# That writes vmc-against-bank.svg and vmc-against-bank.png (gnuplot 5.2 or later).
set encoding utf8

# Text
text_1 = 'Whimbrel: minimum control speed against bank'
text_2 = 'sea level, ISA, take-off power, flap up, gear up, 2756 lb, CG 96.1 in (aft), 1.2 in left of the centreline, left failed, windmilling'
text_3 = 'For training and study only; never for flight planning or to set a speed. The approved flight manual, the authority and a licensed instructor decide. Never explore minimum'
text_4 = 'control speed in flight near the ground or near the stall.'
text_5 = 'liveside 0.1.0, aircraft/whimbrel.yaml, SHA-256 136e4b4b8b2f'
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
-5 50.8549389
-4.75 50.8665142
-4.5 50.8775328
-4.25 50.8879944
-4 50.8978988
-3.75 50.9072459
-3.5 50.9160354
-3.25 50.9242674
-3 50.9319418
-2.75 50.9390586
-2.5 50.9456179
-2.25 50.9516199
-2 50.9570647
-1.75 50.9619527
-1.5 50.9662841
-1.25 50.9700593
-1 50.9732788
-0.75 50.9759432
-0.5 50.9780529
-0.25 50.9796087
-7.9513867e-16 50.9806113
0.25 50.9810615
0.5 50.9809602
0.75 50.9803083
1 50.9791068
1.25 50.977357
1.5 50.9750599
1.75 50.9722168
2 50.968829
2.25 50.964898
2.5 50.9604253
2.75 50.9554124
3 50.9498609
3.25 50.9437727
3.5 50.9371495
3.75 50.9299932
4 50.9223058
4.25 50.9140892
4.5 50.9053457
4.75 50.8960773
5 50.8862863
5.25 50.8759749
5.5 50.8651457
5.75 50.8538009
6 50.841943
6.25 50.8295747
6.5 50.8166983
6.75 50.8033166
7 50.7894321
7.25 50.7750476
7.5 50.7601656
7.75 50.744789
8 50.7289205
8.25 50.7125626
8.5 50.6957183
8.75 50.67839
9 50.6605806
9.25 50.6422926
9.5 50.6235287
9.75 50.6042913
10 50.5845831
10 45
-5 45
END
$boundary_2 << END
-5 50.8549389
-4.75 50.8665142
-4.5 50.8775328
-4.25 50.8879944
-4 50.8978988
-3.75 50.9072459
-3.5 50.9160354
-3.25 50.9242674
-3 50.9319418
-2.75 50.9390586
-2.5 50.9456179
-2.25 50.9516199
-2 50.9570647
-1.75 50.9619527
-1.5 50.9662841
-1.25 50.9700593
-1 50.9732788
-0.75 50.9759432
-0.5 50.9780529
-0.25 50.9796087
-7.9513867e-16 50.9806113
0.25 50.9810615
0.5 50.9809602
0.75 50.9803083
1 50.9791068
1.25 50.977357
1.5 50.9750599
1.75 50.9722168
2 50.968829
2.25 50.964898
2.5 50.9604253
2.75 50.9554124
3 50.9498609
3.25 50.9437727
3.5 50.9371495
3.75 50.9299932
4 50.9223058
4.25 50.9140892
4.5 50.9053457
4.75 50.8960773
5 50.8862863
5.25 50.8759749
5.5 50.8651457
5.75 50.8538009
6 50.841943
6.25 50.8295747
6.5 50.8166983
6.75 50.8033166
7 50.7894321
7.25 50.7750476
7.5 50.7601656
7.75 50.744789
8 50.7289205
8.25 50.7125626
8.5 50.6957183
8.75 50.67839
9 50.6605806
9.25 50.6422926
9.5 50.6235287
9.75 50.6042913
10 50.5845831
END
$reference_3 << END
5 45
5 92.5
END
$curve_4 << END
-5 88.9744902
-4.75 88.6666398
-4.5 88.357888
-4.25 88.0482422
-4 87.7377102
-3.75 87.4262999
-3.5 87.1140199
-3.25 86.8008795
-3 86.4868883
-2.75 86.1720563
-2.5 85.856394
-2.25 85.5399122
-2 85.2226226
-1.75 84.9045371
-1.5 84.5856686
-1.25 84.2660303
-1 83.9456362
-0.75 83.6245012
-0.5 83.3026407
-0.25 82.980071
-7.9513867e-16 82.656809
0.25 82.3328754
0.5 82.008308
0.75 81.6831319
1 81.3573695
1.25 81.031044
1.5 80.7041796
1.75 80.3768013
2 80.0489354
2.25 79.7206096
2.5 79.3918526
2.75 79.0626945
3 78.7331666
3.25 78.4033018
3.5 78.0731342
3.75 77.7426995
4 77.4120348
4.25 77.0811789
4.5 76.7501721
4.75 76.4190563
5 76.087875
5.25 75.7566735
5.5 75.4254987
5.75 75.0943994
6 74.763426
6.25 74.4326307
6.5 74.1020675
6.75 73.771792
7 73.4418619
7.25 73.1123363
7.5 72.7832762
7.75 72.4547442
8 72.1268047
8.25 71.7995236
8.5 71.4729688
8.75 71.1472093
9 70.8223153
9.25 70.4983583
9.5 70.175411
9.75 69.8535471
10 69.5328411
END
$symbols_5 << END
-3.69881838 87.3623679
-1.29273405 84.320668
1.10926277 81.2147486
3.50823748 78.0622464
5.90579456 74.888144
8.30430691 71.7285868
END
$curve_6 << END
-5 89.374898
-4.75 89.0678232
-4.5 88.7598417
-4.25 88.4509604
-4 88.1411864
-3.75 87.8305274
-3.5 87.5189914
-3.25 87.2065866
-3 86.893322
-2.75 86.5792072
-2.5 86.264252
-2.25 85.9484667
-2 85.6318619
-1.75 85.3144491
-1.5 84.9962401
-1.25 84.6772475
-1 84.3574842
-0.75 84.0369642
-0.5 83.715702
-0.25 83.3937127
-7.9513867e-16 83.0710123
0.25 82.7476176
0.5 82.4235466
0.75 82.0988349
1 81.773512
1.25 81.4476
1.5 81.1211219
1.75 80.7941014
2 80.4665632
2.25 80.1385333
2.5 79.8100386
2.75 79.4811076
3 79.1517699
3.25 78.8220562
3.5 78.4919988
3.75 78.1616314
4 77.830989
4.25 77.5001081
4.5 77.1690267
4.75 76.8377844
5 76.5064224
5.25 76.1749835
5.5 75.843512
5.75 75.5120542
6 75.1806576
6.25 74.8493719
6.5 74.5182482
6.75 74.1873395
7 73.8567004
7.25 73.5263872
7.5 73.196458
7.75 72.8669726
8 72.5379922
8.25 72.2095798
8.5 71.8818
8.75 71.5547191
9 71.2284047
9.25 70.9029255
9.5 70.5783514
9.75 70.2547535
10 69.9322038
END
$symbols_7 << END
-4.20453113 88.3946201
-1.79710878 85.3742608
0.606011665 82.2858537
3.00569801 79.144255
5.4033538 75.9716539
7.80105767 72.7997847
END
$curve_8 << END
-5 89.5419104
-4.75 89.236717
-4.5 88.9306132
-4.25 88.6236057
-4 88.3157014
-3.75 88.0069077
-3.5 87.6972324
-3.25 87.3866835
-3 87.0752695
-2.75 86.7629998
-2.5 86.449884
-2.25 86.1359321
-2 85.8211546
-1.75 85.5055624
-1.5 85.189167
-1.25 84.8719805
-1 84.5540157
-0.75 84.2352859
-0.5 83.9158052
-0.25 83.5955882
-7.9513867e-16 83.2746506
0.25 82.9530084
0.5 82.6306789
0.75 82.3076835
1 81.9840611
1.25 81.6598355
1.5 81.3350296
1.75 81.0096662
2 80.6837695
2.25 80.3573646
2.5 80.0304777
2.75 79.7031363
3 79.3753691
3.25 79.047206
3.5 78.7186783
3.75 78.3898185
4 78.0606607
4.25 77.7312403
4.5 77.4015943
4.75 77.071761
5 76.7417803
5.25 76.4116939
5.5 76.0815448
5.75 75.7513779
6 75.4212395
6.25 75.0911777
6.5 74.7612424
6.75 74.431485
7 74.1019586
7.25 73.7727182
7.5 73.4438203
7.75 73.115323
8 72.7872862
8.25 72.4597713
8.5 72.1328412
8.75 71.8065605
9 71.4809955
9.25 71.1562136
9.5 70.8322833
9.75 70.509274
10 70.1872566
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
set label text_9 at screen 0.77571,0.59710 left font ',14.0' textcolor rgb '#1b2a41' noenhanced front
set label text_10 at screen 0.77571,0.57041 left font ',14.0' textcolor rgb '#1b2a41' noenhanced front
set label text_11 at screen 0.77571,0.52754 left font ',14.0' textcolor rgb '#0b6e69' noenhanced front
set label text_12 at screen 0.77571,0.47132 left font ',14.0' textcolor rgb '#b4430c' noenhanced front
set label text_13 at screen 0.09626,0.17579 center font ',13.0' textcolor rgb '#5c5c5c' noenhanced front
set arrow from screen 0.71373,0.53204 to screen 0.72758,0.58375 nohead ls 16 front
set arrow from screen 0.73050,0.58375 to screen 0.76842,0.58375 nohead ls 1 front
set arrow from screen 0.71373,0.52825 to screen 0.72758,0.52754 nohead ls 16 front
set arrow from screen 0.73050,0.52754 to screen 0.76842,0.52754 nohead ls 3 front
set label '' at screen 0.74946,0.52754 point ls 3 front
set arrow from screen 0.71373,0.52232 to screen 0.72758,0.47132 nohead ls 16 front
set arrow from screen 0.73050,0.47132 to screen 0.76842,0.47132 nohead ls 2 front
set label '' at screen 0.74946,0.47132 point ls 2 front
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

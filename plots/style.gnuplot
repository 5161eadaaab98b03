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

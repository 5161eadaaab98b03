# Reads `file:line:#include ...` and prints every include that points to a later layer, or to a library in
# the wrong folder. `sources` lists the library's sources.
BEGIN {
    count = split("core num prop airframe flight study rules io report cli", order, " ")
    for (i = 1; i <= count; i++) rank[order[i]] = i
    only["yaml.h"] = "io"; only["jansson.h"] = "report"; only["pthread.h"] = "num"; only["omp.h"] = "num"
    only["threads.h"] = "num"; only["getopt.h"] = "cli"; only["spawn.h"] = "report"
    only["cmocka.h"] = only["udunits2.h"] = "tests"
    # A header NAME.h is at home where NAME.c is or, lacking it, where NAME_*.c is.
    count_sources = split(sources, list, " ")
    for (n = 1; n <= count_sources; n++) {
        split(list[n], part, "/")
        base = part[3]; sub(/\.c$/, "", base)
        if (!(part[2] in rank)) print list[n] ": not in a known layer"
        exact[base] = part[2]
        while (sub(/_[^_]*$/, "", base)) if (!(base in home)) home[base] = part[2]
    }
    for (base in exact) home[base] = exact[base]
}

{
    split($0, cut, ":")
    file[NR] = cut[1]; line[NR] = cut[2]
    text = $0; sub(/^[^:]*:[^:]*:[[:space:]]*#[[:space:]]*include[[:space:]]*/, "", text)
    system_header[NR] = (text ~ /^</)
    sub(/^[<"]/, "", text); sub(/[>"].*$/, "", text)
    target[NR] = text
    folder[NR] = folder_of(cut[1])
    if (cut[1] ~ /^include\//) includes[header_name(cut[1])] = includes[header_name(cut[1])] " " text
}

function header_name(path) { sub(/^.*\//, "", path); sub(/\.h$/, "", path); return path }
function folder_of(path,    part) { split(path, part, "/"); return part[1] == "src" ? part[2] : "include" }

# The layer number of public header NAME.
function layer_of(name,    part, n, best, layer) {
    if (name in known) return known[name]
    if (name in home) return known[name] = rank[home[name]]
    known[name] = 1
    best = 1
    for (n = split(includes[name], part, " "); n > 0; n--)
        if (part[n] ~ /^liveside\//) {
            layer = layer_of(header_name(part[n]))
            if (layer > best) best = layer
        }
    return known[name] = best
}

function breach(i, why) { print file[i] ":" line[i] ": includes " target[i] ": " why }

function check_system(i,    owner) {
    owner = target[i] ~ /^gsl\// ? "num" : only[target[i]]
    if (file[i] == "src/cli/main.c" && target[i] == "gsl/gsl_errno.h") return # turns off what would abort
    if (owner != "" && folder[i] != owner) breach(i, "only " owner " may")
}

function check_own(i,    own, part, layer) {
    own = folder[i] == "include" ? layer_of(header_name(file[i])) : rank[folder[i]]
    if (target[i] ~ /^liveside\//) layer = layer_of(header_name(target[i]))
    else if (folder[i] == "include") { breach(i, "a public header includes public headers only"); return }
    else if (target[i] ~ /\//) { split(target[i], part, "/"); layer = rank[part[1]] }
    else layer = own
    if (layer == 0) breach(i, "not in a known layer")
    else if (layer > own) breach(i, "layer " order[layer] " comes after " order[own])
}

END { for (i = 1; i <= NR; i++) if (system_header[i]) check_system(i); else check_own(i) }

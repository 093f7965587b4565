/* The trip model of the bench written plainly in C: measured open voltage with hysteresis, measured
   resistance over charge and temperature, uneven cells, protection board, set points, charging
   bands, cell lag, fridge, heater with fuel, water, sums and their balance.
   Usage: trip IN OUT. IN holds doubles as the bench writes them; OUT gets the last charge of each
   trip, then energy unserved, board trips and hours unserved of each. Prints the time in milliseconds: of each block of
   trips the best of five. */
#define _POSIX_C_SOURCE 199309L
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define PARTS 400
#define ROWS 12
#define SLOTS 4000
#define TRIPS_MOST 100000
enum { IN, OUT };

static double p[72];
static double open_pack[2][PARTS + 2], high_cell[2][PARTS + 2], low_cell[2][PARTS + 2];
static int rows, slots;
static double row_at[ROWS], row_raw[2][ROWS][4];
static double value[2][SLOTS][ROWS], slope[2][SLOTS][ROWS], middle[SLOTS];
static double edge[8]; static int edges, before[8]; static double width[8];
static int points; static double ocv[200][3];
static double quiet_from, quiet_to, quiet_rise;

#define SERIES p[0]
#define AH p[1]
#define COULOMBIC p[2]
#define CONNECTIONS p[3]
#define ACTIVATION p[4]
#define ABSORPTION p[5]
#define LOWEST p[6]
#define RECONNECT p[7]
#define KEPT p[8]
#define OVER p[9]
#define OVER_RELEASE p[10]
#define UNDER p[11]
#define UNDER_RELEASE p[12]
#define HOT p[13]
#define HOT_RELEASE p[14]
#define COLD p[15]
#define COLD_RELEASE p[16]
#define AHEAD p[17]
#define BANDS (p + 42)
#define FIXED (p + 48)

static double table(double x, int column) {
    int at = 0;
    double end_slope = (ocv[points - 1][column] - ocv[points - 2][column])
                       / (ocv[points - 1][0] - ocv[points - 2][0]);
    if (x > 1.0)
        return ocv[points - 1][column] + (column == 1 ? end_slope * (x - 1.0) : 0.0);
    while (at < points - 2 && ocv[at + 1][0] < x) at++;
    return ocv[at][column] + (ocv[at + 1][column] - ocv[at][column]) * (x - ocv[at][0])
                             / (ocv[at + 1][0] - ocv[at][0]);
}

static double cell(double x, int way) {
    double gap = table(x, 2) / 2.0;
    return table(x, 1) + (way == IN ? gap : -gap);
}

/* Resistance times capacity of a row at a temperature in 1/K. */
static double row_value(int way, int row, double inverse) {
    static const double celsius[4] = {10, 25, 40, 60};
    double celsius_here = 1.0 / inverse - 273.15;
    const double *v = row_raw[way][row];
    int k;
    if (celsius_here <= 10) return v[0] * exp(ACTIVATION * (inverse - 1 / 283.15));
    if (celsius_here >= 60) return v[3] * exp(ACTIVATION * (inverse - 1 / 333.15));
    for (k = 0; celsius_here > celsius[k + 1]; k++) ;
    double from = 1 / (celsius[k] + 273.15), to = 1 / (celsius[k + 1] + 273.15);
    return v[k] * pow(v[k + 1] / v[k], (inverse - from) / (to - from));
}

static void prepare(void) {
    static const double ends[6] = {-50, 10, 25, 40, 60, 100};
    int way, at, row, k;
    for (way = 0; way < 2; way++)
        for (at = 0; at <= PARTS + 1; at++) {
            double x = (double)at / PARTS;
            low_cell[way][at] = cell(x, way);
            high_cell[way][at] = cell(x + AHEAD, way);
            open_pack[way][at] = (SERIES - 1) * low_cell[way][at] + high_cell[way][at];
        }
    edges = 6;
    for (k = 0; k < edges; k++) edge[k] = 1 / (ends[k] + 273.15);
    slots = 0;
    for (k = 0; k + 1 < edges; k++) {
        int count = 300, slot;
        before[k] = slots;
        width[k] = (edge[k] - edge[k + 1]) / count;
        for (slot = 0; slot < count; slot++, slots++) {
            middle[slots] = edge[k + 1] + (slot + 0.5) * width[k];
            for (way = 0; way < 2; way++)
                for (row = 0; row < rows; row++) {
                    double cold = log(row_value(way, row, edge[k] - 1e-12));
                    double warm = log(row_value(way, row, edge[k + 1] + 1e-12));
                    value[way][slots][row] = SERIES / AH * row_value(way, row, middle[slots]);
                    slope[way][slots][row] = (cold - warm) / (edge[k] - edge[k + 1] - 2e-12);
                }
        }
    }
    quiet_rise = 0.1 * SERIES;
    quiet_from = 2.0;
    for (at = PARTS; at >= 0 && low_cell[OUT][at] > UNDER + 0.1; at--) quiet_from = (double)at / PARTS;
    quiet_to = -1.0;
    for (at = 0; at <= PARTS && open_pack[IN][at] < ABSORPTION - quiet_rise
                 && high_cell[IN][at] < OVER - 0.1; at++)
        quiet_to = (double)at / PARTS;
}

static inline double look(const double *grid, double charge) {
    double x = charge * PARTS;
    int at = (int)x;
    if (at > PARTS) at = PARTS;
    return grid[at] + (grid[at + 1] - grid[at]) * (x - at);
}

static inline double growth(double change) {
    double square = change * change;
    return 1 + change + square * (0.5 + change / 6 + square * (1.0 / 24 + change / 120));
}

static inline double ohms(int way, double charge, int slot, double off) {
    double x = charge * (rows - 1);
    int row = (int)x;
    if (row > rows - 2) row = rows - 2;
    double low = value[way][slot][row] * growth(slope[way][slot][row] * off);
    double high = value[way][slot][row + 1] * growth(slope[way][slot][row + 1] * off);
    return CONNECTIONS + low + (high - low) * (x - row);
}

static double held(double charge, double gain, double resistance, double most) {
    double reached = 0;
    int at = (int)(charge * PARTS);
    if (at > PARTS) at = PARTS;
    for (; ; at++) {
        double rise = (open_pack[IN][at + 1] - open_pack[IN][at]) * PARTS;
        double now = open_pack[IN][at] + rise * (charge - (double)at / PARTS);
        double current = (ABSORPTION - now) / (rise * gain + resistance);
        double at_end = ((double)(at + 1) / PARTS - charge) / gain;
        if (at == PARTS || !(current > at_end) || reached >= most) {
            if (current < reached) current = reached;
            return current < most ? current : most;
        }
        reached = at_end;
    }
}

typedef struct { int over, under, hot, cold; } board_state;

static void board_after(board_state *b, double high, double low, double warm, double current) {
    int over_ends = high < OVER_RELEASE || current < 0;
    int under_ends = low > UNDER_RELEASE || current > 0;
    b->over = high >= OVER || (b->over && !over_ends);
    b->under = (b->under || low <= UNDER) && !under_ends;
    b->hot = warm >= HOT || (b->hot && warm > HOT_RELEASE);
    b->cold = warm <= COLD || (b->cold && warm < COLD_RELEASE);
}

typedef struct {
    double solar, alternator, wanted, unserved, spilled, stored, lost, dry, waste_spilled;
    double fuel_used, fuel_missing, left_over, through, lowest, charges, cells, cycles;
    int outages, first_outage, first_dry, first_cold, trips, dumps, blocked;
} sums;

/* hours: air, panel, driving; the day begins with the first. Returns the last charge. */
static double trip(const double *hours, int count, sums *s) {
    double charge = p[24], warm = p[25], fuel = p[37], fresh = p[38], waste = 0;
    double gain = COULOMBIC / AH;
    int cut_off = 0, at;
    board_state board = {0, 0, 0, 0};
    sums zero = {0};
    *s = zero;
    s->first_outage = s->first_dry = s->first_cold = -1;
    s->lowest = charge;
    for (at = 0; at < count; at++, hours += 3) {
        double air = hours[0], panel = hours[1];
        int clock = at % 24, k;
        if (!isfinite(air) || !isfinite(panel) || panel < 0) exit(2);
        warm = air + (warm - air) * KEPT;
        double inverse = 1 / (warm + 273.15);
        for (k = 0; k + 2 < edges && inverse < edge[k + 1]; k++) ;
        int slot = (int)((inverse - edge[k + 1]) / width[k]) + before[k];
        double off = inverse - middle[slot];
        double open_in = look(open_pack[IN], charge);
        double solar = 0, alternator = 0;
        if (panel > 0) {
            double made = panel - p[19] > 0 ? (panel - p[19]) * p[18] : 0, most = open_in * p[20];
            solar = (made < most ? made : most) * p[21];
        }
        if (hours[2] > 0) {
            double most = open_in * p[23];
            alternator = p[22] < most ? p[22] : most;
        }
        double leak = p[26] * (air > p[27] ? air - p[27] : 0);
        double evaporator = p[27] + 273.15 - p[29], lift = air + 273.15 + p[30] - evaporator;
        double wanted = FIXED[clock] + p[31] + leak / (p[28] * evaporator / (lift > 1 ? lift : 1));
        double need = p[34] * (p[35] > air ? p[35] - air : 0) / p[33];
        double run = need < 1 ? need : 1, litres = run * p[36];
        double burning = litres > fuel ? fuel / litres : 1;
        wanted += p[32] * run * burning;
        double net = solar + alternator - wanted;
        int was_open = board.over | board.under | board.hot | board.cold;
        if (was_open || charge < quiet_from || charge > quiet_to || warm <= COLD || warm >= HOT) {
            int way = net >= 0 ? IN : OUT, closed = !(board.over | board.hot | board.cold);
            board_after(&board, look(high_cell[way], charge), look(low_cell[way], charge), warm,
                        net > 0 && !closed ? 0 : net);
        }
        double bus, stored, lost, flowed = 1, next, terminal;
        if (net >= 0) {
            double u = open_in, r = ohms(IN, charge, slot, off), time = 1;
            double most = 1e300, room = (charge < 1 ? 1 - charge : 0) * AH, by_cold = 0;
            for (k = 0; k < 3; k++) if (warm >= BANDS[2 * k]) by_cold = BANDS[2 * k + 1] * AH;
            if (by_cold < most) most = by_cold;
            if (board.over | board.hot | board.cold) most = 0;
            double refused = room / COULOMBIC;
            double amperes = 2 * net / (u + sqrt(u * u + 4 * r * net));
            if (most < amperes) amperes = most;
            double head = (ABSORPTION - u) / r;
            if (head < amperes) amperes = head > 0 ? head : 0;
            double offered = amperes;
            if (refused < amperes) amperes = refused;
            if (offered > 0 && !(charge + gain * offered <= quiet_to && offered * r <= quiet_rise)) {
                offered = held(charge, gain, r, offered);
                double rise = offered * (r - CONNECTIONS) / SERIES, end = charge + gain * offered;
                amperes = refused < offered ? refused : offered;
                if (look(high_cell[IN], end) + rise >= OVER && offered > 0) {
                    amperes = offered;
                    double low = charge, high = end;
                    for (k = 0; k < 64; k++) {
                        double half = (low + high) / 2;
                        if (look(high_cell[IN], half) + rise < OVER) low = half; else high = half;
                    }
                    time = (low - charge) / (gain * amperes);
                    s->trips++;
                    s->dumps += solar > 0;
                    board_after(&board, OVER, look(low_cell[OUT], low), warm, amperes);
                }
            }
            s->blocked += (board.hot || board.cold || by_cold <= 0) && charge < 1 && net > 0;
            double in = amperes * time, kept = in * COULOMBIC < room ? in * COULOMBIC : room;
            terminal = u + amperes * r;
            next = charge + kept / AH;
            bus = in * terminal;
            stored = kept * u;
            lost = in * amperes * r + (in - kept) * u;
        } else {
            double u = look(open_pack[OUT], charge), r = ohms(OUT, charge, slot, off);
            double root = u * u + 4 * r * net, amperes = 0, taken = 0, lowest = LOWEST;
            int off_line = cut_off || board.under || board.hot || root < 0;
            if (!off_line) {
                amperes = -2 * net / (u + sqrt(root));
                if (!(charge - amperes / AH >= quiet_from && amperes * r <= quiet_rise)) {
                    double rise = amperes * (r - CONNECTIONS) / SERIES;
                    double drop = amperes / AH < charge ? amperes / AH : charge;
                    if (!(look(low_cell[OUT], charge - drop) - rise > UNDER)) {
                        double low = 0, high = drop;
                        for (k = 0; k < 64; k++) {
                            double half = (low + high) / 2;
                            if (look(low_cell[OUT], charge - half) - rise > UNDER) low = half; else high = half;
                        }
                        if (charge - low > lowest) {
                            lowest = charge - low;
                            board_after(&board, look(high_cell[OUT], lowest) - rise, UNDER, warm, -amperes);
                        }
                    }
                }
                double left = (charge > lowest ? charge - lowest : 0) * AH;
                taken = amperes;
                if (amperes > left) { flowed = left / amperes; taken = left; }
            } else flowed = 0;
            terminal = u - amperes * r;
            next = charge - taken / AH;
            bus = -taken * terminal;
            stored = -taken * u;
            lost = taken * amperes * r;
        }
        double short_of = net < 0 ? -net * (1 - flowed) : 0;
        double needed = wanted - short_of + bus, rest = needed;
        double by_sun = rest < solar ? rest : solar;
        if (by_sun < 0) by_sun = 0;
        rest -= by_sun;
        double by_engine = rest < alternator ? rest : alternator;
        if (by_engine < 0) by_engine = 0;
        double served = wanted > 0 ? 1 - short_of / wanted : 1, burnt = litres * burning * served;
        fuel = fuel > burnt ? fuel - burnt : 0;
        cut_off = (flowed < 1 || cut_off) && next < RECONNECT;
        double want = p[40], drawn = want < fresh ? want : fresh, dirty = waste + drawn * p[41];
        fresh -= drawn;
        waste = dirty < p[39] ? dirty : p[39];
        s->dry += want - drawn; s->waste_spilled += dirty - waste;
        if (want - drawn > 0 && s->first_dry < 0) s->first_dry = at;
        s->solar += solar; s->alternator += by_engine; s->wanted += wanted;
        s->unserved += short_of; s->spilled += solar - by_sun; s->stored += stored; s->lost += lost;
        s->fuel_used += burnt; s->fuel_missing += litres * (1 - burning);
        if (litres * (1 - burning) > 0 && s->first_cold < 0) s->first_cold = at;
        if (short_of > 0) { s->outages++; if (s->first_outage < 0) s->first_outage = at; }
        s->left_over += fabs(by_sun + by_engine - (wanted - short_of) - bus)
                        + fabs(bus - stored - lost);
        s->through += by_sun + by_engine + wanted - short_of + fabs(bus);
        if (next < charge) s->cycles += charge - next;
        charge = next;
        if (charge < s->lowest) s->lowest = charge;
        s->charges += charge; s->cells += warm;
    }
    double residual = s->solar - s->spilled + s->alternator - s->wanted + s->unserved - s->stored - s->lost;
    if (!(fabs(residual) <= 1e-9 * (1 + s->through) && s->left_over <= 1e-9 * (1 + s->through))) exit(3);
    return charge;
}

static double milliseconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return now.tv_sec * 1e3 + now.tv_nsec * 1e-6;
}

int main(int count, char **names) {
    static double last[TRIPS_MOST];
    static sums all[TRIPS_MOST];
    double head[5], best = 0;
    static double blocks[TRIPS_MOST];
    long trips, weeks, length, n;
    int run, r, k;
    FILE *in = count == 3 ? fopen(names[1], "rb") : NULL;
    if (!in || fread(head, 8, 5, in) != 5) return 1;
    points = (int)head[0]; rows = (int)head[1];
    weeks = (long)head[2]; length = (long)head[3]; trips = (long)head[4];
    if (points > 200 || rows > ROWS || trips > TRIPS_MOST) return 1;
    if (fread(p, 8, 72, in) != 72) return 1;
    if (fread(ocv, 24, points, in) != (size_t)points) return 1;
    for (r = 0; r < rows; r++) {
        double line[9];
        if (fread(line, 8, 9, in) != 9) return 1;
        row_at[r] = line[0];
        for (k = 0; k < 4; k++) { row_raw[IN][r][k] = line[1 + k]; row_raw[OUT][r][k] = line[5 + k]; }
    }
    double *hours = malloc(sizeof(double) * 3 * weeks * length);
    if (!hours || fread(hours, 24, weeks * length, in) != (size_t)(weeks * length)) return 1;
    fclose(in);
    prepare();
    for (n = 0; n < trips / weeks; n++) blocks[n] = 1e300;
    for (run = 0; run < 5; run++)
        for (n = 0; n < trips / weeks; n++) {
            double begun = milliseconds();
            for (k = 0; k < weeks; k++)
                last[n * weeks + k] = trip(hours + 3 * length * k, (int)length, &all[n * weeks + k]);
            double taken = milliseconds() - begun;
            if (taken < blocks[n]) blocks[n] = taken;
        }
    for (n = 0; n < trips / weeks; n++) best += blocks[n];
    FILE *out = fopen(names[2], "wb");
    if (!out || fwrite(last, 8, trips, out) != (size_t)trips) return 1;
    for (n = 0; n < trips; n++) {
        double counts[3] = {all[n].unserved, all[n].trips, all[n].outages};
        if (fwrite(counts, 8, 3, out) != 3) return 1;
    }
    fclose(out);
    printf("%.3f\n", best);
    return 0;
}
